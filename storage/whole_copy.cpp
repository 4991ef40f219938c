#include "whole_copy.h"

#include "record/description.h"
#include "schema.h"
#include "server_address.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>

namespace strikeoff {

namespace {

struct Column {
    std::string name;
    bool isText = false;
};

struct Table {
    std::string name;
    std::vector<Column> columns;
    std::string order;  ///< by numbers only, which both engines sort alike; blank for a small table that is sorted here
};

/// Every table of a book, what is referred to first.
std::vector<Table> allTables()
{
    std::vector<Table> tables;
    for (const auto& kind : allKinds()) {
        Table table{std::string{kind.name}, {{"id"}, {"revision"}}, "id"};
        for (const auto& field : kind.fields)
            table.columns.push_back({std::string{field.name}, field.isText() || field.type == FieldType::choice || field.type == FieldType::date});
        tables.push_back(std::move(table));
    }
    tables.push_back({"edit", {{"id"}, {"at", true}, {"desk", true}, {"title", true}, {"how", true}, {"of_edit"}, {"chain", true}}, "id"});
    tables.push_back({"edit_change", {{"edit"}, {"place"}, {"kind", true}, {"row"}, {"revision"}, {"before", true}, {"after", true}}, "edit, place"});
    tables.push_back({"edit_run", {{"edit"}, {"place"}, {"kind", true}, {"first"}, {"last"}}, "edit, place"});
    tables.push_back({"counter", {{"name", true}, {"next"}}, {}});
    tables.push_back({"number_given", {{"series", true}, {"first"}, {"last"}, {"edit"}, {"how", true}}, {}});
    return tables;
}

std::string listOf(const Table& table)
{
    std::string list;
    for (const auto& column : table.columns) list += (list.empty() ? "" : ", ") + column.name;
    return list;
}

std::string selectOf(const Table& table)
{
    return "SELECT " + listOf(table) + " FROM " + table.name + (table.order.empty() ? "" : " ORDER BY " + table.order);
}

Value cell(const FastStatement& row, const Table& table, std::size_t i)
{
    const int column = static_cast<int>(i);
    if (row.isNull(column)) return {};
    return table.columns[i].isText ? Value{std::string{row.text(column)}} : Value{row.number(column)};
}

void copyTable(Database& from, Database& to, const Table& table)
{
    FastStatement read{from, selectOf(table)};
    std::string marks;
    for (std::size_t i = 0; i < table.columns.size(); ++i) marks += i == 0 ? "?" : ", ?";
    FastStatement write{to, "INSERT INTO " + table.name + " (" + listOf(table) + ") VALUES (" + marks + ")"};
    Batch batch{to};
    while (read.step()) {
        for (std::size_t i = 0; i < table.columns.size(); ++i) write.bind(static_cast<int>(i) + 1, cell(read, table, i));
        write.run();
    }
    batch.finish();
}

std::vector<std::vector<Value>> sortedRows(Database& database, const Table& table)
{
    FastStatement read{database, selectOf(table)};
    std::vector<std::vector<Value>> rows;
    while (read.step()) {
        auto& row = rows.emplace_back();
        for (std::size_t i = 0; i < table.columns.size(); ++i) row.push_back(cell(read, table, i));
    }
    std::sort(rows.begin(), rows.end());
    return rows;
}

bool isSame(Database& from, Database& to, const Table& table)
{
    if (table.order.empty()) return sortedRows(from, table) == sortedRows(to, table);
    FastStatement left{from, selectOf(table)}, right{to, selectOf(table)};
    while (true) {
        const bool more = left.step();
        if (more != right.step()) return false;
        if (!more) return true;
        for (std::size_t i = 0; i < table.columns.size(); ++i)
            if (cell(left, table, i) != cell(right, table, i)) return false;
    }
}

/// Within one transaction of each.
bool copyTables(Database& from, Database& to, const std::function<bool(int)>& progress)
{
    const auto tables = allTables();
    const auto steps = static_cast<int>(tables.size()) * 2;
    int step = 0;
    const auto goOn = [&] { return !progress || progress(++step * 99 / steps); };
    Transaction snapshot{from, Transaction::For::reading};
    Transaction transaction{to};
    if (to.isOnServer() && isThere(to)) throw StorageError{"on the server there is a book or something else at " + to.path() + " already; choose another name with ?book=NAME, nothing was overwritten"};
    layOut(to);
    for (const auto& table : tables) {
        copyTable(from, to, table);
        if (!goOn()) return false;
    }
    for (const auto& table : tables) {
        if (!isSame(from, to, table)) throw StorageError{"the copy at " + to.path() + " does not read back as it was written (" + table.name + "); nothing was kept of it"};
        if (!goOn()) return false;
    }
    transaction.commit();
    return true;
}

bool copyToFile(Database& from, const std::string& file, const std::function<bool(int)>& progress)
{
    const auto name = QString::fromStdString(file);
    if (QFileInfo::exists(name)) throw StorageError{file + " is there already; choose another name, nothing was overwritten"};
    const auto part = name + QStringLiteral(".part");
    const auto removePart = [&] {
        for (const auto* suffix : {"", "-journal", "-wal", "-shm"}) QFile::remove(part + QString::fromLatin1(suffix));
    };
    removePart();
    {
        QFile made{part};
        if (!made.open(QIODevice::WriteOnly | QIODevice::NewOnly))
            throw StorageError{"cannot write " + file + ": " + made.errorString().toStdString() + "; check that the folder is there and may be written"};
        made.setPermissions(QFileDevice::ReadOwner | QFileDevice::WriteOwner);
    }
    bool whole = false;
    try {
        Database to{part.toStdString(), Database::Mode::readWrite};
        to.run("PRAGMA synchronous = FULL");
        to.run("PRAGMA foreign_keys = ON");
        whole = copyTables(from, to, progress);
    } catch (...) {
        removePart();
        throw;
    }
    if (whole && !QFile::rename(part, name)) {
        removePart();
        throw StorageError{"cannot put " + file + " in its place; check the folder"};
    }
    if (!whole) removePart();
    return whole;
}

}

bool copyWhole(Database& from, const std::string& to, const AskPassword& ask, const std::function<bool(int)>& progress)
{
    if (!isServerAddress(to)) return copyToFile(from, to, progress);
    Database server{to, Database::Mode::readWrite, ask};
    return copyTables(from, server, progress);
}

}
