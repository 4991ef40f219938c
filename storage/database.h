#pragma once

#include "record/field.h"
#include "store.h"

#include <QSqlDatabase>
#include <QSqlQuery>
#include <QString>

struct sqlite3;
struct sqlite3_stmt;

namespace strikeoff {

/// One connection to a book's engine, under a name of its own and dropped with the object. Every failure throws StorageError naming task and file.
class Database {
public:
    enum class Mode { readWrite, readOnly };
    Database(const std::string& path, Mode mode);
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    void run(const std::string& sql);
    std::int64_t number(const std::string& sql);
    std::string text(const std::string& sql);
    std::vector<std::string> column(const std::string& sql);

    const std::string& path() const { return path_; }
    const QSqlDatabase& connection() const { return connection_; }
    /// SQLite's own handle, for bulk reads and writes.
    sqlite3* handle() const { return handle_; }
    [[noreturn]] void fail(const std::string& task, const QSqlError& error) const;
    [[noreturn]] void fail(const std::string& task, int code) const;

private:
    std::string path_;
    QString name_;
    QSqlDatabase connection_;
    sqlite3* handle_ = nullptr;
};

/// A write transaction: rolled back unless committed. Begins at once as a writer, so that it cannot fail later for want of the lock.
class Transaction {
public:
    explicit Transaction(Database& database);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

private:
    Database& database_;
    bool open_ = true;
};

/// A prepared statement on SQLite's own interface: the fast road for whole shelves, loads and commits. Values are typed; columns count from 0, placeholders from 1.
class FastStatement {
public:
    FastStatement(const Database& database, const std::string& sql);
    ~FastStatement();
    FastStatement(const FastStatement&) = delete;
    FastStatement& operator=(const FastStatement&) = delete;

    void bind(int place, const Value& value);
    void bind(int place, std::int64_t number);
    void bind(int place, std::string_view text);
    /// The next row, or false at the end, after which the statement can be bound anew.
    bool step();
    void run() { while (step()) {} }

    bool isNull(int column) const;
    std::int64_t number(int column) const;
    /// Valid until the next step.
    std::string_view text(int column) const;

private:
    const Database& database_;
    sqlite3_stmt* statement_ = nullptr;
};

/// A time stamp of the trail, "2026-11-25T12:30:18Z".
std::string utcNow();
/// "owner@desk-in-the-kitchen".
std::string thisDesk();

}
