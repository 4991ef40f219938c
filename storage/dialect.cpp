#include "dialect.h"

#include <array>
#include <sqlite3.h>
#include <string_view>
#include <utility>

namespace strikeoff {

namespace {

/// A name in single quotes for a statement; a schema's name holds none, see readServerAddress.
std::string quoted(const std::string& name) { return '\'' + name + '\''; }

}

std::string Dialect::expanded(std::string statement) const
{
    using Words = std::array<std::pair<std::string_view, std::string_view>, 3>;
    static constexpr Words ofFile{{{"{id}", "INTEGER PRIMARY KEY"}, {"{int}", "INTEGER"}, {"{strict}", "STRICT"}}};
    static constexpr Words ofServer{{{"{id}", "BIGINT PRIMARY KEY"}, {"{int}", "BIGINT"}, {"{strict}", ""}}};
    for (const auto& [mark, word] : engine == Engine::sqlite ? ofFile : ofServer)
        for (auto at = statement.find(mark); at != std::string::npos; at = statement.find(mark, at)) statement.replace(at, mark.size(), word);
    return statement;
}

std::string Dialect::withPlaces(const std::string& statement) const
{
    if (engine == Engine::sqlite) return statement;
    std::string places;
    int count = 0;
    bool inText = false;
    for (const char c : statement) {
        if (c == '\'') inText = !inText;
        if (c == '?' && !inText) places += '$' + std::to_string(++count);
        else places += c;
    }
    return places;
}

// On a server the one writer is whoever holds the lock of the book's name; reading goes on meanwhile.
std::string Dialect::beginWriting() const { return engine == Engine::sqlite ? "BEGIN IMMEDIATE" : "BEGIN ISOLATION LEVEL READ COMMITTED READ WRITE"; }

std::string Dialect::waitForTurn() const
{
    if (engine == Engine::sqlite) return {};
    return "SELECT pg_advisory_xact_lock(" + std::to_string(0x53746b6f) + ", hashtext(" + quoted(schema) + "))";
}

std::string Dialect::beginReading() const { return engine == Engine::sqlite ? "BEGIN" : "BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY"; }

// Taken before the first look at a table, so that what is seen after waiting for a swap is the new book, whole.
std::string Dialect::holdStill() const { return engine == Engine::sqlite ? std::string{} : "LOCK TABLE edit IN ACCESS SHARE MODE"; }

std::string Dialect::setAside(const std::string& room) const { return engine == Engine::sqlite ? std::string{} : "SET LOCAL search_path = " + room + ", pg_temp"; }

std::string Dialect::makeRoom() const { return engine == Engine::sqlite ? std::string{} : "CREATE SCHEMA " + schema; }

std::string Dialect::markAsBook(long long application) const
{
    const auto number = std::to_string(application);
    if (engine == Engine::sqlite) return "PRAGMA application_id = " + number;
    return "CREATE TABLE about_book (application BIGINT NOT NULL, version BIGINT NOT NULL); INSERT INTO about_book VALUES (" + number + ", 0)";
}

std::string Dialect::version() const { return engine == Engine::sqlite ? "PRAGMA user_version" : "SELECT version FROM about_book"; }

std::string Dialect::setVersion(long long version) const
{
    return (engine == Engine::sqlite ? "PRAGMA user_version = " : "UPDATE about_book SET version = ") + std::to_string(version);
}

std::string Dialect::looseReferences(bool allowed) const
{
    if (engine != Engine::sqlite) return {};
    return allowed ? "PRAGMA foreign_keys = OFF" : "PRAGMA foreign_keys = ON";
}

std::string Dialect::brokenReferences() const { return engine == Engine::sqlite ? "SELECT DISTINCT \"table\" FROM pragma_foreign_key_check" : std::string{}; }

std::string Dialect::integrity() const { return engine == Engine::sqlite ? "PRAGMA integrity_check(20)" : std::string{}; }

std::string Dialect::tables() const
{
    if (engine == Engine::sqlite) return "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'";
    return "SELECT tablename FROM pg_tables WHERE schemaname = " + quoted(schema) + " AND tablename <> 'about_book'";
}

std::string Dialect::columnsOf(const std::string& table) const
{
    if (engine == Engine::sqlite) return "SELECT name || '|' || type || '|' || \"notnull\" FROM pragma_table_info(" + quoted(table) + ")";
    return "SELECT a.attname || '|' || CASE t.typname WHEN 'int8' THEN 'INTEGER' WHEN 'text' THEN 'TEXT' ELSE t.typname END || '|' || CASE WHEN a.attnotnull THEN 1 ELSE 0 END"
           " FROM pg_attribute a JOIN pg_class c ON c.oid = a.attrelid JOIN pg_namespace n ON n.oid = c.relnamespace JOIN pg_type t ON t.oid = a.atttypid"
           " WHERE n.nspname = "
           + quoted(schema) + " AND c.relname = " + quoted(table) + " AND a.attnum > 0 AND NOT a.attisdropped";
}

std::string Dialect::foreignParts() const
{
    if (engine == Engine::sqlite) return "SELECT name FROM sqlite_master WHERE type IN ('trigger', 'view')";
    return "SELECT viewname FROM pg_views WHERE schemaname = " + quoted(schema)
           + " UNION ALL SELECT g.tgname FROM pg_trigger g JOIN pg_class c ON c.oid = g.tgrelid JOIN pg_namespace n ON n.oid = c.relnamespace"
             " WHERE n.nspname = "
           + quoted(schema) + " AND NOT g.tgisinternal";
}

std::string Dialect::tablesOfOthers() const
{
    if (engine == Engine::sqlite) return {};
    return "SELECT count(*) FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace WHERE n.nspname = " + quoted(schema)
           + " AND c.relkind = 'r' AND NOT pg_has_role(c.relowner, 'USAGE')";
}

std::string Dialect::rightsBeside(const std::string& room) const
{
    if (engine == Engine::sqlite) return {};
    const auto of = " FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace";
    const auto both = " WHERE n.nspname = " + quoted(schema) + " AND c.relkind = 'r' AND to_regclass(" + quoted(room + ".") + " || quote_ident(c.relname)) IS NOT NULL";
    const auto name = quoted(room) + ", c.relname";
    return "SELECT said FROM (SELECT 1 AS place, format('ALTER TABLE %I.%I OWNER TO %I', " + name + ", pg_get_userbyid(c.relowner)) AS said" + of + both
           + " UNION ALL SELECT 2, format('GRANT %s ON TABLE %I.%I TO %s%s', a.privilege_type, " + name
           + ", CASE a.grantee WHEN 0 THEN 'PUBLIC' ELSE quote_ident(pg_get_userbyid(a.grantee)) END, CASE WHEN a.is_grantable THEN ' WITH GRANT OPTION' ELSE '' END)" + of
           + " CROSS JOIN LATERAL aclexplode(c.relacl) a" + both + " AND a.grantee <> c.relowner) AS rights ORDER BY place";
}

std::vector<std::string> Dialect::swapIn(const std::string& room, std::vector<std::string> tables, const std::vector<std::string>& rights) const
{
    if (engine == Engine::sqlite) return {};
    tables.emplace_back("about_book");
    // References are checked before anybody has to wait; then comes the table every reader begins with.
    std::vector<std::string> statements{"SET CONSTRAINTS ALL IMMEDIATE", "LOCK TABLE " + schema + ".edit IN ACCESS EXCLUSIVE MODE"};
    statements.insert(statements.end(), rights.begin(), rights.end());
    std::string list;
    for (const auto& table : tables) list += (list.empty() ? "" : ", ") + schema + '.' + table;
    statements.push_back("DROP TABLE " + list);
    for (const auto& table : tables) statements.push_back("ALTER TABLE " + room + '.' + table + " SET SCHEMA " + schema);
    statements.push_back("DROP SCHEMA " + room);
    return statements;
}

std::string Dialect::mayNotMakeRoom() const
{
    if (engine == Engine::sqlite) return "SELECT 0";
    return "SELECT CASE WHEN has_database_privilege(current_database(), 'CREATE') AND has_schema_privilege(" + quoted(schema) + ", 'CREATE') THEN 0 ELSE 1 END";
}

std::vector<std::string> Dialect::scrubbing(const std::vector<std::string>& tables) const
{
    // The log is written back first, so that the rewritten file is made of nothing old.
    if (engine == Engine::sqlite) return {"PRAGMA wal_checkpoint(TRUNCATE)", "PRAGMA temp_store = MEMORY", "VACUUM", "PRAGMA wal_checkpoint(TRUNCATE)"};
    std::vector<std::string> statements;
    for (const auto& table : tables) statements.push_back("VACUUM (FULL, ANALYZE) " + table);
    return statements;
}

std::string Dialect::tellOthers() const { return engine == Engine::sqlite ? std::string{} : "NOTIFY " + schema; }

// The memory that desks share about the log is a file beside the book, which a full disk does not let grow either.
bool meansFull(int code) { return (code & 0xFF) == SQLITE_FULL || code == SQLITE_IOERR_SHMSIZE; }

std::string sqliteReason(int code, const std::string& native)
{
    if (meansFull(code)) return "the disk is full; make room and try again";
    switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED: return "another program is writing to it; wait a moment and try again";
    case SQLITE_READONLY: return "it can only be read; check the file's and the folder's permissions";
    case SQLITE_CORRUPT: return "the file is damaged; go back to a copy (" + native + ")";
    case SQLITE_NOTADB: return "the file is no book (" + native + ")";
    case SQLITE_CANTOPEN: return "it cannot be opened; check that the folder is there and may be written (" + native + ")";
    case SQLITE_IOERR: return "the disk did not answer as it should; check it and go back to a copy if need be (" + native + ")";
    default: return native;
    }
}

// SQLSTATE codes: PostgreSQL documentation, appendix A.
bool meansLost(const std::string& state) { return state.starts_with("08") || state == "57P01" || state == "57P02" || state == "57P03" || state == "57P05"; }

std::string postgresqlReason(const std::string& state, const std::string& native)
{
    if (state.empty() || meansLost(state)) return "the server does not answer; check that it runs and the network holds, then try again (" + native + ")";
    if (state == "55P03") return "another desk is writing to it; wait a moment and try again";
    if (state == "40001" || state == "40P01") return "another desk came in between; try again";
    if (state == "42501") return "your user may not do this on the server; ask whoever keeps it for the grant (" + native + ")";
    if (state == "2BP01") return "something else on the server, such as somebody's view, is made of its tables; have that taken away first (" + native + ")";
    if (state == "25006") return "it can only be read, by this user or on this server";
    if (state == "53100") return "the server's disk is full; have room made and try again";
    if (state.starts_with("53")) return "the server has no room for more just now; try again later (" + native + ")";
    if (state == "XX001" || state == "XX002") return "the server's files are damaged; go back to a copy (" + native + ")";
    return native;
}

std::string expanded(std::string statement) { return Dialect{Engine::sqlite, {}}.expanded(std::move(statement)); }

}
