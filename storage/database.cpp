#include "database.h"

#include <QDateTime>
#include <QSqlDriver>
#include <QSqlError>
#include <QSysInfo>
#include <QUrl>
#include <QVariant>

#include <atomic>
#include <sqlite3.h>

namespace strikeoff {

namespace {

QString nextConnectionName()
{
    static std::atomic<int> count{0};
    return QStringLiteral("book%1").arg(++count);
}

std::string reasonOf(int code, const std::string& native)
{
    switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED: return "another program is writing to it; wait a moment and try again";
    case SQLITE_FULL: return "the disk is full; make room and try again";
    case SQLITE_READONLY: return "it can only be read; check the file's and the folder's permissions";
    case SQLITE_CORRUPT: return "the file is damaged; go back to a copy (" + native + ")";
    case SQLITE_NOTADB: return "the file is no book (" + native + ")";
    case SQLITE_CANTOPEN: return "it cannot be opened; check that the folder is there and may be written (" + native + ")";
    case SQLITE_IOERR: return "the disk did not answer as it should; check it and go back to a copy if need be (" + native + ")";
    default: return native;
    }
}

}

Database::Database(const std::string& path, Mode mode) : path_{path}, name_{nextConnectionName()}
{
    connection_ = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name_);
    if (!connection_.isValid()) throw StorageError{"Qt's SQLite driver is missing; install the package libqt6sql6-sqlite"};
    auto url = QUrl::fromLocalFile(QString::fromStdString(path));
    const auto uri = QString::fromUtf8(url.toEncoded()) + (mode == Mode::readOnly ? QStringLiteral("?mode=ro") : QStringLiteral("?mode=rw"));
    connection_.setConnectOptions(QStringLiteral("QSQLITE_OPEN_URI;QSQLITE_BUSY_TIMEOUT=5000"));
    connection_.setDatabaseName(uri);
    if (!connection_.open()) {
        const auto error = connection_.lastError();
        connection_ = {};
        QSqlDatabase::removeDatabase(name_);
        fail("open", error);
    }
    const auto handle = connection_.driver()->handle();
    if (qstrcmp(handle.typeName(), "sqlite3*") == 0) handle_ = *static_cast<sqlite3* const*>(handle.data());
    if (!handle_) throw StorageError{"Qt's SQLite driver gives no handle"};
    sqlite3_extended_result_codes(handle_, 1);
}

Database::~Database()
{
    connection_.close();
    connection_ = {};
    QSqlDatabase::removeDatabase(name_);
}

void Database::fail(const std::string& task, const QSqlError& error) const
{
    const int code = error.nativeErrorCode().toInt();
    throw StorageError{"cannot " + task + " " + path_ + ": " + reasonOf(code, error.databaseText().toStdString() + ", code " + std::to_string(code))};
}

void Database::fail(const std::string& task, int code) const
{
    const std::string native = handle_ ? sqlite3_errmsg(handle_) : sqlite3_errstr(code);
    throw StorageError{"cannot " + task + " " + path_ + ": " + reasonOf(code, native + ", code " + std::to_string(code))};
}

void Database::run(const std::string& sql)
{
    QSqlQuery query{connection_};
    if (!query.exec(QString::fromStdString(sql))) fail("write to", query.lastError());
}

std::int64_t Database::number(const std::string& sql)
{
    QSqlQuery query{connection_};
    if (!query.exec(QString::fromStdString(sql)) || !query.next()) fail("read", query.lastError());
    return query.value(0).toLongLong();
}

std::string Database::text(const std::string& sql)
{
    const auto rows = column(sql);
    return rows.empty() ? std::string{} : rows.front();
}

std::vector<std::string> Database::column(const std::string& sql)
{
    QSqlQuery query{connection_};
    query.setForwardOnly(true);
    if (!query.exec(QString::fromStdString(sql))) fail("read", query.lastError());
    std::vector<std::string> rows;
    while (query.next()) rows.push_back(query.value(0).toString().toStdString());
    if (query.lastError().isValid()) fail("read", query.lastError());
    return rows;
}

Transaction::Transaction(Database& database) : database_{database} { database_.run("BEGIN IMMEDIATE"); }

Transaction::~Transaction()
{
    if (!open_) return;
    QSqlQuery query{database_.connection()};
    query.exec(QStringLiteral("ROLLBACK"));  // after a failed statement SQLite may have rolled back already
}

void Transaction::commit()
{
    database_.run("COMMIT");
    open_ = false;
}

FastStatement::FastStatement(const Database& database, const std::string& sql) : database_{database}
{
    const int code = sqlite3_prepare_v2(database.handle(), sql.c_str(), static_cast<int>(sql.size()), &statement_, nullptr);
    if (code != SQLITE_OK) database.fail("read", code);
}

FastStatement::~FastStatement() { sqlite3_finalize(statement_); }

void FastStatement::bind(int place, const Value& value)
{
    if (const auto* number = std::get_if<std::int64_t>(&value)) bind(place, *number);
    else if (const auto* text = std::get_if<std::string>(&value)) bind(place, std::string_view{*text});
    else if (const int code = sqlite3_bind_null(statement_, place); code != SQLITE_OK) database_.fail("write to", code);
}

void FastStatement::bind(int place, std::int64_t number)
{
    if (const int code = sqlite3_bind_int64(statement_, place, number); code != SQLITE_OK) database_.fail("write to", code);
}

void FastStatement::bind(int place, std::string_view text)
{
    const int code = sqlite3_bind_text64(statement_, place, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    if (code != SQLITE_OK) database_.fail("write to", code);
}

bool FastStatement::step()
{
    const int code = sqlite3_step(statement_);
    if (code == SQLITE_ROW) return true;
    sqlite3_reset(statement_);
    if (code != SQLITE_DONE) database_.fail(sqlite3_stmt_readonly(statement_) != 0 ? "read" : "write to", code);
    return false;
}

bool FastStatement::isNull(int column) const { return sqlite3_column_type(statement_, column) == SQLITE_NULL; }

std::int64_t FastStatement::number(int column) const { return sqlite3_column_int64(statement_, column); }

std::string_view FastStatement::text(int column) const
{
    const auto* bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
    return bytes ? std::string_view{bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))} : std::string_view{};
}

std::string utcNow() { return QDateTime::currentDateTimeUtc().toString(QStringLiteral("yyyy-MM-dd'T'HH:mm:ss'Z'")).toStdString(); }

std::string thisDesk()
{
    auto user = qEnvironmentVariable("USER", qEnvironmentVariable("LOGNAME", QStringLiteral("owner")));
    return (user + u'@' + QSysInfo::machineHostName()).toStdString();
}

}
