#pragma once

#include "dialect.h"
#include "record/field.h"
#include "store.h"

#include <QSqlDatabase>
#include <QSqlQuery>
#include <QString>

#include <map>
#include <memory>

struct sqlite3;
struct sqlite3_stmt;
struct pg_conn;
struct pg_result;

namespace strikeoff {

class ServerStatement;

/// The disk a book stands on has no room left. What was in the book is unchanged.
class DiskFull : public StorageError {
public:
    using StorageError::StorageError;
};

/// Another program writes to a file, or holds it where it should be alone.
class FileBusy : public StorageError {
public:
    using StorageError::StorageError;
};

/// A file is damaged, or holds no tables at all.
class FileDamaged : public StorageError {
public:
    using StorageError::StorageError;
};

/// One connection to a book's engine, under a name of its own and dropped with the object. Every failure throws StorageError naming task and book; a
/// connection to a server that is gone, ConnectionLost.
class Database {
public:
    enum class Mode { readWrite, readOnly };
    /// `path` is a file, or an address on a server. The password of a server comes from PGPASSWORD or the password file, else from `ask`.
    Database(const std::string& path, Mode mode, const AskPassword& ask = {});
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    void run(const std::string& sql);
    std::int64_t number(const std::string& sql);
    std::string text(const std::string& sql);
    std::vector<std::string> column(const std::string& sql);

    const std::string& path() const { return path_; }
    const Dialect& dialect() const { return dialect_; }
    bool isOnServer() const { return dialect_.engine == Engine::postgresql; }
    const QSqlDatabase& connection() const { return connection_; }
    /// The engine's own handle, for bulk reads and writes; null for the other engine.
    sqlite3* handle() const { return handle_; }
    pg_conn* server() const { return server_; }

    /// Whether the connection to the server is gone. A file's never is.
    bool isLost() const;
    /// Connects anew, as the first time.
    void reconnect();
    /// Whether another desk told that it changed the book since the last call. Does not wait. Throws ConnectionLost.
    bool wasTold();
    /// False on a server that only follows another one: nothing is told there, and whoever wants news has to look.
    bool isTold() const { return isTold_; }
    /// Gives the password this connection was made with, for one more to the same book, from any thread.
    AskPassword askAsBefore() const;
    /// On a server, to the end of the transaction: what is laid out and written goes into another schema. Not for a connection that goes on afterwards.
    void setAside(const std::string& room);
    /// Of the connection to a server; -1 while there is none.
    int socket() const;

    /// Brings what is in a file's log into the file and gives the room the log took back to the disk; false when there was nothing to give or somebody
    /// else is reading. Outside transactions only. A full disk that stays so loses nothing by it.
    bool foldLog();

    [[noreturn]] void fail(const std::string& task, const QSqlError& error) const;
    [[noreturn]] void fail(const std::string& task, int code) const;
    /// With the server's answer, or null when there was none.
    [[noreturn]] void fail(const std::string& task, const pg_result* result) const;

private:
    friend class ServerStatement;
    friend class Batch;
    [[noreturn]] void failFile(const std::string& task, int code, const std::string& native) const;
    void openFile(Mode mode);
    void openServer(const AskPassword& ask);
    void beginOnServer();
    void close();

    std::string path_;
    Mode mode_;
    QString name_;
    Dialect dialect_;
    QSqlDatabase connection_;
    sqlite3* handle_ = nullptr;
    pg_conn* server_ = nullptr;
    struct Prepared {
        int uses = 0;
        std::string name;  ///< on the server; blank before the second use
    };
    mutable std::map<std::string, Prepared, std::less<>> prepared_;
    mutable int preparedCount_ = 0;
    bool isTold_ = true;
    mutable int waiting_ = -1;  ///< statements sent without their answer; -1 outside a batch
};

/// A transaction: rolled back unless committed. One that writes waits for its turn when it begins, so that it cannot fail later for want of it; one that
/// reads sees one state of the book.
class Transaction {
public:
    enum class For { writing, reading };
    explicit Transaction(Database& database, For purpose = For::writing);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

private:
    Database& database_;
    bool open_ = true;
};

/// While it lives, statements that write are sent to a server without waiting for each answer; `finish` waits for all and throws what went wrong with any.
/// Nothing may be read meanwhile. For a file there is nothing to wait for.
class Batch {
public:
    explicit Batch(const Database& database);
    ~Batch();
    Batch(const Batch&) = delete;
    Batch& operator=(const Batch&) = delete;
    void finish();

private:
    const Database& database_;
    bool open_ = true;
};

/// A prepared statement on the engine's own interface: the fast road for whole shelves, loads and commits. Values are typed; columns count from 0,
/// placeholders (?) from 1.
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
    std::unique_ptr<ServerStatement> server_;
};

/// Asks once, however many connections are made meanwhile.
AskPassword askedOnce(const AskPassword& ask);

/// A time stamp of the trail, "2026-11-25T12:30:18Z".
std::string utcNow();
/// "owner@desk-in-the-kitchen".
std::string thisDesk();

}
