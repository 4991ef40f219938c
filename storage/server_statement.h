#pragma once

#include "database.h"

namespace strikeoff {

/// A FastStatement on a server: prepared there from its second use on, values and results in text form.
class ServerStatement {
public:
    ServerStatement(const Database& database, const std::string& sql);
    ~ServerStatement();
    ServerStatement(const ServerStatement&) = delete;
    ServerStatement& operator=(const ServerStatement&) = delete;

    void bind(int place, std::optional<std::string_view> text);
    bool step();
    bool isNull(int column) const;
    std::int64_t number(int column) const;
    std::string_view text(int column) const;

private:
    void execute();
    void send(std::vector<const char*>& values);
    void clear();

    const Database& database_;
    std::string sql_;
    std::vector<std::optional<std::string>> values_;
    pg_result* result_ = nullptr;
    int row_ = -1;
    int rows_ = 0;
};

/// Waits for the answers of a batch; throws what went wrong with the first that failed.
void takeAnswers(const Database& database, int& waiting);

}
