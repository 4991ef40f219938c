#include "schema.h"

#include "schema_steps.h"

#include <map>
#include <set>
#include <utility>

namespace strikeoff {

namespace {

struct Step {
    std::int64_t version;
    std::vector<std::string> statements;
};

std::vector<Step> steps() { return {{1, schemaStep1()}, {2, schemaStep2()}, {3, schemaStep3()}}; }

void apply(Database& database, const Step& step)
{
    for (const auto& statement : step.statements) database.run(database.dialect().expanded(statement));
    database.run(database.dialect().setVersion(step.version));
}

/// Copies all tables of a book on a server into a schema beside it, which opens as a book of the old version: ?book=NAME_before_4.
void keepBeside(Database& database)
{
    const auto& schema = database.dialect().schema;
    const auto first = schema.substr(0, 40) + "_before_" + std::to_string(schemaVersion);
    auto copy = first;
    for (int again = 2; isThere(database, copy); ++again) copy = first + '_' + std::to_string(again);
    try {
        database.run("CREATE SCHEMA " + copy);
        for (const auto& table : database.column("SELECT tablename FROM pg_tables WHERE schemaname = '" + schema + "'")) {
            const auto to = copy + '.' + table, from = schema + '.' + table;
            database.run("CREATE TABLE " + to + " (LIKE " + from + " INCLUDING ALL); INSERT INTO " + to + " SELECT * FROM " + from);
        }
    } catch (const ConnectionLost&) {
        throw;
    } catch (const StorageError& error) {
        throw StorageError{"cannot copy " + database.path() + " before it is brought to the new version, and it stays as it is: " + error.what()};
    }
}

}

void requireBookOnServer(Database& database)
{
    const auto& path = database.path();
    const auto& schema = database.dialect().schema;
    if (!isThere(database, schema)) throw StorageError{"there is no book " + path + "; begin one with: strikeoff new " + path};
    if (database.number("SELECT CASE WHEN has_schema_privilege('" + schema + "', 'USAGE') THEN 1 ELSE 0 END") == 0)
        throw StorageError{"your user may not look into the book " + path + "; ask whoever keeps it for the grant"};
    if (database.text("SELECT to_regclass('" + schema + ".about_book')").empty())
        throw StorageError{path + " is a schema of another program, not a Strikeoff book"};
    if (database.number("SELECT application FROM about_book") != applicationId) throw StorageError{path + " is a schema of another program, not a Strikeoff book"};
    requireKnownVersion(path, database.number(database.dialect().version()));
}

void requireKnownVersion(const std::string& path, std::int64_t version)
{
    if (version <= schemaVersion) return;
    throw StorageError{path + " was written by a newer Strikeoff (schema " + std::to_string(version) + ", this one knows " + std::to_string(schemaVersion)
                       + "); open it with that version"};
}

bool isThere(Database& database, const std::string& schema)
{
    return database.number("SELECT count(*) FROM pg_namespace WHERE nspname = '" + schema + "'") > 0;
}

bool isThere(Database& database) { return isThere(database, database.dialect().schema); }

bool mayWrite(Database& database)
{
    return database.number("SELECT CASE WHEN pg_is_in_recovery() OR NOT has_table_privilege('edit', 'INSERT') THEN 0 ELSE 1 END") == 1;
}

void layOut(Database& database)
{
    const auto& dialect = database.dialect();
    if (const auto room = dialect.makeRoom(); !room.empty()) database.run(room);
    database.run(dialect.markAsBook(applicationId));
    for (const auto& step : steps()) apply(database, step);
}

void migrate(Database& database)
{
    const auto& dialect = database.dialect();
    bool isKept = !database.isOnServer();  // a file's copy is the caller's
    for (const auto& step : steps()) {
        if (const auto loose = dialect.looseReferences(true); !loose.empty()) database.run(loose);  // outside the transaction: inside one it is ignored
        {
            Transaction transaction{database};
            if (step.version > database.number(dialect.version())) {  // another desk may have been first
                if (!std::exchange(isKept, true)) keepBeside(database);
                apply(database, step);
                const auto broken = dialect.brokenReferences();
                if (!broken.empty() && !database.column(broken).empty())
                    throw StorageError{"cannot bring " + database.path() + " to the new version: a record points at nothing; go back to the copy beside it"};
                transaction.commit();
            }
        }
        if (const auto tight = dialect.looseReferences(false); !tight.empty()) database.run(tight);
    }
}

std::vector<std::string> schemaDifferences(Database& database)
{
    std::vector<std::string> differences;
    const auto tables = database.column(database.dialect().tables());
    std::set<std::string> expected{"edit", "edit_change", "edit_run", "counter", "number_given"};
    for (const auto& kind : allKinds()) {
        const std::string table{kind.name};
        expected.insert(table);
        std::map<std::string, std::string> columns;  // name, then type and whether it may be null
        for (const auto& column : database.column(database.dialect().columnsOf(table))) {
            const auto bar = column.find('|');
            columns[column.substr(0, bar)] = column.substr(bar + 1);
        }
        if (columns.empty()) {
            differences.push_back("the table " + table + " is missing");
            continue;
        }
        columns.erase("id");
        columns.erase("revision");
        for (const auto& field : kind.fields) {
            const bool text = field.isText() || field.type == FieldType::choice || field.type == FieldType::date;
            const auto wanted = std::string{text ? "TEXT" : "INTEGER"} + (field.required || !field.nullable ? "|1" : "|0");
            const auto found = columns.find(std::string{field.name});
            if (found == columns.end()) differences.push_back("the column " + table + "." + std::string{field.name} + " is missing");
            else {
                if (found->second != wanted) differences.push_back("the column " + table + "." + std::string{field.name} + " is " + found->second + " and should be " + wanted);
                columns.erase(found);
            }
        }
        for (const auto& [name, type] : columns) differences.push_back("the column " + table + "." + name + " does not belong there");
    }
    for (const auto& table : tables)
        if (!expected.erase(table)) differences.push_back("the table " + table + " does not belong there");
    for (const auto& table : expected)
        if (findKind(table) == nullptr) differences.push_back("the table " + table + " is missing");
    if (!database.column(database.dialect().foreignParts()).empty()) differences.push_back("there are triggers or views, which a book never has");
    return differences;
}

}
