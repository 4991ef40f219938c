#pragma once

#include "database.h"

#include <map>

namespace strikeoff {

/// Where every series of numbers begins.
inline constexpr std::int64_t firstNumber = 1001;

/// Gives ids and the numbers the owner sees. Neither ever repeats, not even after an undo: the counters only go up, and the book remembers which
/// numbers it gave and which were passed over because the owner gave one of their own.
class Numbers {
public:
    void read(Database& database);

    /// Replaces negative ids of the edit (and the references to them) by new ones and fills in blank numbers.
    void resolve(Edit& edit, const Book& book);
    /// Writes what resolve gave, within the caller's transaction.
    void write(Database& database, std::int64_t edit);
    std::int64_t nextEdit() { return take("edit"); }

private:
    struct Given {
        std::string series;
        std::int64_t first, last;
        const char* how;
    };
    std::int64_t take(const std::string& counter);
    void passOver(const std::string& series, std::int64_t number);

    std::map<std::string, std::int64_t> next_;
    std::map<std::string, std::int64_t> changed_;
    std::vector<Given> given_;
};

/// The counted part of a number of a series ("Q1012" of "Q": 1012), or nothing for a number of another form.
std::optional<std::int64_t> countedPart(std::string_view prefix, std::string_view number);

}
