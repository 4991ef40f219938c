#include "database.h"

#include "server_address.h"

#include <QDateTime>
#include <QFileInfo>
#include <QSqlDriver>
#include <QSqlError>
#include <QSysInfo>
#include <QUrl>
#include <QVariant>

#include <atomic>
#include <libpq-fe.h>
#include <sqlite3.h>
#include <unistd.h>

namespace strikeoff {

namespace {

constexpr int busyPatience = 5000;  // milliseconds

QString nextConnectionName()
{
    static std::atomic<int> count{0};
    return QStringLiteral("book%1").arg(++count);
}

/// Of a file; zero when there is none.
std::int64_t sizeOf(const std::string& file) { return QFileInfo{QString::fromStdString(file)}.size(); }

enum class Ground {
    usual,
    /// Nothing can be written there and there is no log: the book does not change while it is open, and SQLite, which would want to put a log there even
    /// to read, is told so.
    still,
    /// The same, but a program that was killed left a log. It is read into memory of our own: what is shared about it cannot be written there.
    stillWithLog,
};

Ground groundOf(const std::string& path)
{
    const auto slash = path.rfind('/');
    const auto folder = slash == std::string::npos ? std::string{"."} : path.substr(0, slash + 1);
    if (::access(folder.c_str(), W_OK) == 0) return Ground::usual;
    if (::access((path + "-wal").c_str(), F_OK) != 0) return Ground::still;
    return ::access((path + "-shm").c_str(), F_OK) != 0 ? Ground::stillWithLog : Ground::usual;
}

/// Takes back what a program that was killed had half written by way of a journal; a connection that may only read cannot.
void takeBackHalf(const std::string& path)
{
    if (sizeOf(path + "-journal") == 0) return;
    sqlite3* handle = nullptr;
    if (sqlite3_open_v2(path.c_str(), &handle, SQLITE_OPEN_READWRITE, nullptr) == SQLITE_OK) {
        sqlite3_busy_timeout(handle, busyPatience);
        sqlite3_exec(handle, "PRAGMA user_version", nullptr, nullptr, nullptr);  // what fails here is said by the reader that follows
    }
    sqlite3_close(handle);
}

/// The settings of a connection, by the server library's names.
std::vector<std::pair<std::string, std::string>> settingsOf(const ServerAddress& address)
{
    auto settings = address.settings;
    const auto setUnlessThere = [&](const char* name, const char* value) {
        for (const auto& [there, unused] : settings)
            if (there == name) return;
        settings.emplace_back(name, value);
    };
    setUnlessThere("connect_timeout", "5");
    setUnlessThere("tcp_user_timeout", "15000");  // a pulled cable is noticed within it
    setUnlessThere("application_name", "strikeoff");
    return settings;
}

enum class Wanting { nothing, password, betterPassword };

/// Whether a connection failed for want of a password. The driver does not tell, the server's library does.
Wanting wanting(const ServerAddress& address, const std::string& password)
{
    auto settings = settingsOf(address);
    for (const auto& [name, value] : {std::pair{"host", address.host}, {"port", address.port}, {"user", address.user}, {"dbname", address.database}, {"password", password}})
        if (!value.empty()) settings.emplace_back(name, value);
    std::vector<const char*> names, values;
    for (const auto& [name, value] : settings) {
        names.push_back(name.c_str());
        values.push_back(value.c_str());
    }
    names.push_back(nullptr);
    values.push_back(nullptr);
    const std::unique_ptr<PGconn, void (*)(PGconn*)> tried{PQconnectdbParams(names.data(), values.data(), 0), PQfinish};
    if (PQstatus(tried.get()) == CONNECTION_OK) return Wanting::nothing;
    if (PQconnectionNeedsPassword(tried.get()) != 0) return Wanting::password;
    return PQconnectionUsedPassword(tried.get()) != 0 ? Wanting::betterPassword : Wanting::nothing;
}

/// The server's words on one line, without what surrounds them.
std::string onOneLine(std::string text)
{
    while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
    for (auto& c : text)
        if (c == '\n' || c == '\t') c = ' ';
    return text;
}

}

Database::Database(const std::string& path, Mode mode, const AskPassword& ask) : path_{path}, mode_{mode}, name_{nextConnectionName()}
{
    try {
        if (isServerAddress(path)) openServer(ask);
        else openFile(mode);
    } catch (...) {
        close();  // there is no object yet that would
        throw;
    }
}

void Database::openFile(Mode mode)
{
    dialect_.engine = Engine::sqlite;
    connection_ = QSqlDatabase::addDatabase(QStringLiteral("QSQLITE"), name_);
    if (!connection_.isValid()) throw StorageError{"Qt's SQLite driver is missing; install the package libqt6sql6-sqlite"};
    auto uri = QString::fromUtf8(QUrl::fromLocalFile(QString::fromStdString(path_)).toEncoded());
    const auto ground = mode == Mode::readWrite ? Ground::usual : groundOf(path_);
    if (mode == Mode::readOnly && ground == Ground::usual) takeBackHalf(path_);
    uri += mode == Mode::readWrite ? QStringLiteral("?mode=rw") : QStringLiteral("?mode=ro");
    if (ground == Ground::still) uri += QStringLiteral("&immutable=1");
    if (ground == Ground::stillWithLog) uri += QStringLiteral("&vfs=unix-none");
    connection_.setConnectOptions(QStringLiteral("QSQLITE_OPEN_URI;QSQLITE_BUSY_TIMEOUT=%1").arg(busyPatience));
    connection_.setDatabaseName(uri);
    if (!connection_.open()) fail("open", connection_.lastError());
    const auto handle = connection_.driver()->handle();
    if (qstrcmp(handle.typeName(), "sqlite3*") == 0) handle_ = *static_cast<sqlite3* const*>(handle.data());
    if (!handle_) throw StorageError{"Qt's SQLite driver gives no handle"};
    sqlite3_extended_result_codes(handle_, 1);
    if (ground == Ground::stillWithLog) run("PRAGMA locking_mode = EXCLUSIVE");
}

void Database::openServer(const AskPassword& ask)
{
    const auto address = readServerAddress(path_);
    dialect_ = {Engine::postgresql, address.schema};
    connection_ = QSqlDatabase::addDatabase(QStringLiteral("QPSQL"), name_);
    if (!connection_.isValid()) throw StorageError{"Qt's PostgreSQL driver is missing; install the package libqt6sql6-psql"};
    connection_.setHostName(QString::fromStdString(address.host));
    connection_.setUserName(QString::fromStdString(address.user));
    connection_.setDatabaseName(QString::fromStdString(address.database));
    if (!address.port.empty()) connection_.setPort(std::stoi(address.port));
    QString settings;
    for (const auto& [name, value] : settingsOf(address)) {
        auto text = QString::fromStdString(value);
        text.replace(u'\\', QStringLiteral("\\\\")).replace(u'\'', QStringLiteral("\\'"));
        if (!settings.isEmpty()) settings += u';';
        settings += QString::fromStdString(name) + QStringLiteral("='") + text + u'\'';
    }
    connection_.setConnectOptions(settings);
    constexpr int mostTries = 3;
    std::string password;
    for (int tries = 0; !connection_.open();) {
        const auto error = connection_.lastError();
        const auto wants = wanting(address, password);
        std::optional<std::string> typed;
        if (wants != Wanting::nothing && ask && tries++ < mostTries) typed = ask(path_, wants == Wanting::betterPassword);
        if (typed) {
            password = *typed;
            connection_.setPassword(QString::fromStdString(password));
            continue;
        }
        const auto native = onOneLine(error.databaseText().toStdString());
        if (wants == Wanting::password)
            throw StorageError{"the server asks for a password for " + path_ + "; set PGPASSWORD, put it into the password file ~/.pgpass, or run strikeoff at a terminal to be asked"};
        if (wants == Wanting::betterPassword) throw StorageError{"the server did not take the password for " + path_ + "; check the user and the password (" + native + ")"};
        throw ConnectionLost{"cannot reach " + path_ + ": check the address, the network and that the server runs (" + native + ")"};
    }
    beginOnServer();
}

void Database::beginOnServer()
{
    const auto handle = connection_.driver()->handle();
    if (qstrcmp(handle.typeName(), "PGconn*") == 0 || qstrcmp(handle.typeName(), "pg_conn*") == 0) server_ = *static_cast<PGconn* const*>(handle.data());
    if (!server_) throw StorageError{"Qt's PostgreSQL driver gives no handle"};
    PQsetNoticeProcessor(server_, [](void*, const char*) {}, nullptr);
    run("SET search_path = " + dialect_.schema + ", pg_temp; SET lock_timeout = '20s'; SET synchronous_commit = on; SET client_min_messages = error");
    // So that the turn of a desk that was cut off or fell asleep while it wrote is free for others within a minute; the system's own default is two hours.
    run("SET tcp_keepalives_idle = 30; SET tcp_keepalives_interval = 10; SET tcp_keepalives_count = 3");
    if (mode_ == Mode::readOnly) run("SET default_transaction_read_only = on");
    isTold_ = number("SELECT CASE WHEN pg_is_in_recovery() THEN 0 ELSE 1 END") == 1;
    if (isTold_) run("LISTEN " + dialect_.schema);
}

bool Database::isLost() const { return isOnServer() && (!server_ || PQstatus(server_) == CONNECTION_BAD); }

int Database::socket() const { return isOnServer() && !isLost() ? PQsocket(server_) : -1; }

void Database::reconnect()
{
    if (!isOnServer()) return;
    server_ = nullptr;
    prepared_.clear();
    waiting_ = -1;
    connection_.close();
    if (!connection_.open()) {
        const auto native = onOneLine(connection_.lastError().databaseText().toStdString());
        throw ConnectionLost{"the connection to " + path_ + " is lost; what you type stays, and is saved once the server is back (" + native + ")"};
    }
    beginOnServer();
}

bool Database::wasTold()
{
    if (isLost() || PQconsumeInput(server_) != 1) fail("read", static_cast<const pg_result*>(nullptr));
    bool told = false;
    while (auto* notice = PQnotifies(server_)) {
        if (notice->be_pid != PQbackendPID(server_)) told = true;
        PQfreemem(notice);
    }
    return told;
}

AskPassword Database::askAsBefore() const
{
    if (!isOnServer() || connection_.password().isEmpty()) return {};  // the second connection finds its password where the first did
    return [password = connection_.password().toStdString()](const std::string&, bool again) { return again ? std::nullopt : std::optional{password}; };
}

void Database::setAside(const std::string& room)
{
    dialect_.schema = room;
    run(dialect_.setAside(room));
}

void Database::close()
{
    connection_.close();
    connection_ = {};
    QSqlDatabase::removeDatabase(name_);
}

Database::~Database() { close(); }

void Database::fail(const std::string& task, const QSqlError& error) const
{
    if (isOnServer()) {
        const auto state = error.nativeErrorCode().toStdString();
        const auto text = "cannot " + task + " " + path_ + ": " + postgresqlReason(state, onOneLine(error.databaseText().toStdString()));
        if (isLost() || state.empty() || meansLost(state)) throw ConnectionLost{text};
        throw StorageError{text};
    }
    failFile(task, error.nativeErrorCode().toInt(), error.databaseText().toStdString());
}

void Database::fail(const std::string& task, int code) const
{
    failFile(task, code, handle_ ? sqlite3_errmsg(handle_) : sqlite3_errstr(code));
}

void Database::failFile(const std::string& task, int code, const std::string& native) const
{
    const auto text = "cannot " + task + " " + path_ + ": " + sqliteReason(code, native + ", code " + std::to_string(code));
    if (meansFull(code)) throw DiskFull{text};
    switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED: throw FileBusy{text};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB: throw FileDamaged{text};
    default: throw StorageError{text};
    }
}

bool Database::foldLog()
{
    if (isOnServer()) return false;
    const auto before = sizeOf(path_ + "-wal");
    return sqlite3_wal_checkpoint_v2(handle_, nullptr, SQLITE_CHECKPOINT_TRUNCATE, nullptr, nullptr) == SQLITE_OK && sizeOf(path_ + "-wal") < before;
}

void Database::fail(const std::string& task, const pg_result* result) const
{
    const auto* code = result ? PQresultErrorField(result, PG_DIAG_SQLSTATE) : nullptr;
    const std::string state = code ? code : "";
    const auto* words = result ? PQresultErrorField(result, PG_DIAG_MESSAGE_PRIMARY) : nullptr;
    const auto native = onOneLine(words ? words : server_ ? PQerrorMessage(server_) : "no connection");
    const bool lost = isLost() || meansLost(state);
    const auto text = "cannot " + task + " " + path_ + ": " + postgresqlReason(lost ? std::string{} : state.empty() ? "XX000" : state, native + (state.empty() ? "" : ", code " + state));
    if (lost) throw ConnectionLost{text};
    throw StorageError{text};
}

void Database::run(const std::string& sql)
{
    if (isOnServer()) {
        // Through the library itself, which stops at the first of several statements that fails.
        if (isLost()) fail("write to", static_cast<const pg_result*>(nullptr));
        const std::unique_ptr<PGresult, void (*)(PGresult*)> result{PQexec(server_, sql.c_str()), PQclear};
        const auto status = PQresultStatus(result.get());
        if (status != PGRES_COMMAND_OK && status != PGRES_TUPLES_OK) fail("write to", result.get());
        return;
    }
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
    query.setForwardOnly(!isOnServer());  // one row after the other would be a round trip each on a server
    if (!query.exec(QString::fromStdString(sql))) fail("read", query.lastError());
    std::vector<std::string> rows;
    while (query.next()) rows.push_back(query.value(0).toString().toStdString());
    if (query.lastError().isValid()) fail("read", query.lastError());
    return rows;
}

Transaction::Transaction(Database& database, For purpose) : database_{database}
{
    database_.run(purpose == For::writing ? database_.dialect().beginWriting() : database_.dialect().beginReading());
    const auto wait = purpose == For::writing ? database_.dialect().waitForTurn() : database_.dialect().holdStill();
    if (wait.empty()) return;
    try {
        database_.run(wait);
    } catch (...) {
        if (!database_.isLost()) PQclear(PQexec(database_.server(), "ROLLBACK"));
        throw;
    }
}

Transaction::~Transaction()
{
    if (!open_ || database_.isLost()) return;
    QSqlQuery query{database_.connection()};
    query.exec(QStringLiteral("ROLLBACK"));  // after a failed statement SQLite may have rolled back already
}

void Transaction::commit()
{
    // From here on a server that breaks off may have done it or not; its owner has to look.
    open_ = false;
    try {
        database_.run("COMMIT");
    } catch (...) {
        open_ = !database_.isLost();
        throw;
    }
}

AskPassword askedOnce(const AskPassword& ask)
{
    if (!ask) return {};
    return [ask, kept = std::make_shared<std::optional<std::string>>()](const std::string& book, bool again) {
        if (again || !*kept) *kept = ask(book, again);
        return *kept;
    };
}

std::string utcNow() { return QDateTime::currentDateTimeUtc().toString(QStringLiteral("yyyy-MM-dd'T'HH:mm:ss'Z'")).toStdString(); }

std::string thisDesk()
{
    auto user = qEnvironmentVariable("USER", qEnvironmentVariable("LOGNAME", QStringLiteral("owner")));
    return (user + u'@' + QSysInfo::machineHostName()).toStdString();
}

}
