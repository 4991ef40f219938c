#include "database.h"
#include "server_statement.h"

#include <sqlite3.h>

namespace strikeoff {

FastStatement::FastStatement(const Database& database, const std::string& sql) : database_{database}
{
    if (database.isOnServer()) {
        server_ = std::make_unique<ServerStatement>(database, sql);
        return;
    }
    const int code = sqlite3_prepare_v2(database.handle(), sql.c_str(), static_cast<int>(sql.size()), &statement_, nullptr);
    if (code != SQLITE_OK) database.fail("read", code);
}

FastStatement::~FastStatement() { sqlite3_finalize(statement_); }

void FastStatement::bind(int place, const Value& value)
{
    if (const auto* number = std::get_if<std::int64_t>(&value)) bind(place, *number);
    else if (const auto* text = std::get_if<std::string>(&value)) bind(place, std::string_view{*text});
    else if (server_) server_->bind(place, std::nullopt);
    else if (const int code = sqlite3_bind_null(statement_, place); code != SQLITE_OK) database_.fail("write to", code);
}

void FastStatement::bind(int place, std::int64_t number)
{
    if (server_) return server_->bind(place, std::to_string(number));
    if (const int code = sqlite3_bind_int64(statement_, place, number); code != SQLITE_OK) database_.fail("write to", code);
}

void FastStatement::bind(int place, std::string_view text)
{
    if (server_) return server_->bind(place, text);
    const int code = sqlite3_bind_text64(statement_, place, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    if (code != SQLITE_OK) database_.fail("write to", code);
}

bool FastStatement::step()
{
    if (server_) return server_->step();
    const int code = sqlite3_step(statement_);
    if (code == SQLITE_ROW) return true;
    sqlite3_reset(statement_);
    if (code != SQLITE_DONE) database_.fail(sqlite3_stmt_readonly(statement_) != 0 ? "read" : "write to", code);
    return false;
}

bool FastStatement::isNull(int column) const { return server_ ? server_->isNull(column) : sqlite3_column_type(statement_, column) == SQLITE_NULL; }

std::int64_t FastStatement::number(int column) const { return server_ ? server_->number(column) : sqlite3_column_int64(statement_, column); }

std::string_view FastStatement::text(int column) const
{
    if (server_) return server_->text(column);
    const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
    return bytes ? std::string_view{bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))} : std::string_view{};
}

}
