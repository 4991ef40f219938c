#include "server_statement.h"

#include <charconv>
#include <libpq-fe.h>

namespace strikeoff {

namespace {

/// As many answers as are let wait: they fit into the server's buffer, so that neither side waits for the other.
constexpr int mostWaiting = 200;

}

ServerStatement::ServerStatement(const Database& database, const std::string& sql) : database_{database}, sql_{database.dialect().withPlaces(sql)} {}

ServerStatement::~ServerStatement() { clear(); }

void ServerStatement::clear()
{
    PQclear(result_);
    result_ = nullptr;
    row_ = -1;
    rows_ = 0;
}

void ServerStatement::bind(int place, std::optional<std::string_view> text)
{
    const auto index = static_cast<std::size_t>(place) - 1;
    if (values_.size() <= index) values_.resize(index + 1);
    if (text) values_[index].emplace(*text);
    else values_[index].reset();
}

void ServerStatement::execute()
{
    auto* connection = database_.server_;
    std::vector<const char*> values;
    values.reserve(values_.size());
    for (const auto& value : values_) values.push_back(value ? value->c_str() : nullptr);
    if (database_.waiting_ >= 0) return send(values);
    const int count = static_cast<int>(values.size());
    auto& prepared = database_.prepared_[sql_];
    if (++prepared.uses == 2) {
        prepared.name = "s" + std::to_string(++database_.preparedCount_);
        auto* made = PQprepare(connection, prepared.name.c_str(), sql_.c_str(), 0, nullptr);
        if (PQresultStatus(made) != PGRES_COMMAND_OK) {
            database_.prepared_.erase(sql_);
            result_ = made;
            database_.fail("use", result_);
        }
        PQclear(made);
    }
    if (prepared.name.empty()) result_ = PQexecParams(connection, sql_.c_str(), count, nullptr, values.data(), nullptr, nullptr, 0);
    else result_ = PQexecPrepared(connection, prepared.name.c_str(), count, values.data(), nullptr, nullptr, 0);
    const auto status = PQresultStatus(result_);
    if (status != PGRES_TUPLES_OK && status != PGRES_COMMAND_OK) database_.fail(sql_.starts_with("SELECT") ? "read" : "write to", result_);
    rows_ = PQntuples(result_);
}

void ServerStatement::send(std::vector<const char*>& values)
{
    auto* connection = database_.server_;
    auto& prepared = database_.prepared_[sql_];
    ++prepared.uses;
    if (prepared.name.empty()) {
        prepared.name = "s" + std::to_string(++database_.preparedCount_);
        if (PQsendPrepare(connection, prepared.name.c_str(), sql_.c_str(), 0, nullptr) != 1) database_.fail("write to", static_cast<const pg_result*>(nullptr));
        ++database_.waiting_;
    }
    if (PQsendQueryPrepared(connection, prepared.name.c_str(), static_cast<int>(values.size()), values.data(), nullptr, nullptr, 0) != 1)
        database_.fail("write to", static_cast<const pg_result*>(nullptr));
    if (++database_.waiting_ >= mostWaiting) takeAnswers(database_, database_.waiting_);
}

void takeAnswers(const Database& database, int& waiting)
{
    auto* connection = database.server();
    waiting = 0;
    if (PQpipelineSync(connection) != 1) database.fail("write to", static_cast<const pg_result*>(nullptr));
    PGresult* fault = nullptr;
    while (true) {
        auto* answer = PQgetResult(connection);
        if (!answer) {
            if (PQstatus(connection) == CONNECTION_BAD) break;
            continue;  // the end of one statement's answers
        }
        const auto status = PQresultStatus(answer);
        if (status == PGRES_PIPELINE_SYNC) {
            PQclear(answer);
            break;
        }
        if (status == PGRES_FATAL_ERROR && !fault) fault = answer;
        else PQclear(answer);
    }
    if (!fault && PQstatus(connection) != CONNECTION_BAD) return;
    const std::unique_ptr<PGresult, void (*)(PGresult*)> kept{fault, PQclear};
    database.fail("write to", static_cast<const pg_result*>(fault));
}

bool ServerStatement::step()
{
    if (!result_) execute();
    if (result_ && ++row_ < rows_) return true;
    clear();
    return false;
}

bool ServerStatement::isNull(int column) const { return PQgetisnull(result_, row_, column) != 0; }

std::int64_t ServerStatement::number(int column) const
{
    const auto digits = text(column);
    std::int64_t value = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), value);
    return value;
}

std::string_view ServerStatement::text(int column) const
{
    return {PQgetvalue(result_, row_, column), static_cast<std::size_t>(PQgetlength(result_, row_, column))};
}

Batch::Batch(const Database& database) : database_{database}
{
    if (!database_.server_) return;
    if (PQenterPipelineMode(database_.server_) != 1) database_.fail("write to", static_cast<const pg_result*>(nullptr));
    database_.waiting_ = 0;
}

Batch::~Batch()
{
    if (!open_ || !database_.server_) return;
    // Something went wrong: what was sent is answered, its outcome is of no interest, and the transaction is taken back by its owner.
    try {
        takeAnswers(database_, database_.waiting_);
    } catch (const StorageError&) {
    }
    database_.waiting_ = -1;
    database_.prepared_.clear();  // some may not have come to be
    PQexitPipelineMode(database_.server_);
}

void Batch::finish()
{
    if (!database_.server_) {
        open_ = false;
        return;
    }
    takeAnswers(database_, database_.waiting_);
    database_.waiting_ = -1;
    if (PQexitPipelineMode(database_.server_) != 1) database_.fail("write to", static_cast<const pg_result*>(nullptr));
    open_ = false;
}

}
