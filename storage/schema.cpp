#include "schema.h"

#include "dialect.h"
#include "schema_steps.h"

#include <map>
#include <set>

namespace strikeoff {

namespace {

struct Step {
    std::int64_t version;
    std::vector<std::string> statements;
};

std::vector<Step> steps() { return {{1, schemaStep1()}, {2, schemaStep2()}, {3, schemaStep3()}}; }

void apply(Database& database, const Step& step)
{
    for (const auto& statement : step.statements) database.run(expanded(statement));
    database.run("PRAGMA user_version = " + std::to_string(step.version));
}

}

void layOut(Database& database)
{
    for (const auto& step : steps()) apply(database, step);
    database.run("PRAGMA application_id = " + std::to_string(applicationId));
}

void migrate(Database& database)
{
    const auto version = database.number("PRAGMA user_version");
    for (const auto& step : steps()) {
        if (step.version <= version) continue;
        database.run("PRAGMA foreign_keys = OFF");  // outside the transaction: inside one it is ignored
        {
            Transaction transaction{database};
            apply(database, step);
            if (!database.column("PRAGMA foreign_key_check").empty())
                throw StorageError{"cannot bring " + database.path() + " to the new version: a record points at nothing; go back to the copy beside it"};
            transaction.commit();
        }
        database.run("PRAGMA foreign_keys = ON");
    }
}

std::vector<std::string> schemaDifferences(Database& database)
{
    std::vector<std::string> differences;
    const auto tables = database.column("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'");
    std::set<std::string> expected{"edit", "edit_change", "edit_run", "counter", "number_given"};
    for (const auto& kind : allKinds()) {
        const std::string table{kind.name};
        expected.insert(table);
        std::map<std::string, std::string> columns;  // name, then type and whether it may be null
        for (const auto& column : database.column("SELECT name || '|' || type || '|' || \"notnull\" FROM pragma_table_info('" + table + "')")) {
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
    if (!database.column("SELECT name FROM sqlite_master WHERE type IN ('trigger', 'view')").empty()) differences.push_back("there are triggers or views, which a book never has");
    return differences;
}

}
