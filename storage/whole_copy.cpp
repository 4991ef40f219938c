#include "whole_copy.h"

#include "book_tables.h"
#include "schema.h"
#include "server_address.h"

#include <QFile>
#include <QFileInfo>

#include <algorithm>

namespace strikeoff {

namespace {

/// How far the work is: asked after each table, and within a long one so that it can be stopped.
class Going {
public:
    /// Every row is written once and read back once.
    Going(const std::function<bool(int)>& progress, std::int64_t rows) : progress_{progress}, steps_{2 * rows + 1} {}
    bool on() const { return !progress_ || progress_(static_cast<int>(rows_ * 99 / steps_)); }
    /// After a row; false when the work is to stop.
    bool row() { return ++rows_ % 4096 != 0 || on(); }

private:
    const std::function<bool(int)>& progress_;
    std::int64_t steps_;
    std::int64_t rows_ = 0;
};

bool copyTable(Database& from, Database& to, const BookTable& table, Going& going)
{
    FastStatement read{from, table.select()};
    std::string marks;
    for (std::size_t i = 0; i < table.columns.size(); ++i) marks += i == 0 ? "?" : ", ?";
    FastStatement write{to, "INSERT INTO " + table.name + " (" + table.columnList() + ") VALUES (" + marks + ")"};
    Batch batch{to};
    while (read.step()) {
        for (std::size_t i = 0; i < table.columns.size(); ++i) write.bind(static_cast<int>(i) + 1, table.cell(read, i));
        write.run();
        if (!going.row()) return false;
    }
    batch.finish();
    return going.on();
}

std::vector<std::vector<Value>> sortedRows(Database& database, const BookTable& table)
{
    FastStatement read{database, table.select()};
    std::vector<std::vector<Value>> rows;
    while (read.step()) {
        auto& row = rows.emplace_back();
        for (std::size_t i = 0; i < table.columns.size(); ++i) row.push_back(table.cell(read, i));
    }
    std::sort(rows.begin(), rows.end());
    return rows;
}

bool isSame(Database& from, Database& to, const BookTable& table, Going& going, bool& goesOn)
{
    if (table.order.empty()) return sortedRows(from, table) == sortedRows(to, table);
    FastStatement left{from, table.select()}, right{to, table.select()};
    while (goesOn) {
        const bool more = left.step();
        if (more != right.step()) return false;
        if (!more) return true;
        for (std::size_t i = 0; i < table.columns.size(); ++i)
            if (table.cell(left, i) != table.cell(right, i)) return false;
        goesOn = going.row();
    }
    return true;
}

/// Within one transaction of each.
bool copyTables(Database& from, Database& to, const std::function<bool(int)>& progress)
{
    Transaction snapshot{from, Transaction::For::reading};
    Transaction transaction{to};
    if (to.isOnServer() && isThere(to)) throw StorageError{"on the server there is a book or something else at " + to.path() + " already; choose another name with ?book=NAME, nothing was overwritten"};
    if (!fillFrom(from, to, progress)) return false;
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

bool fillFrom(Database& from, Database& to, const std::function<bool(int)>& progress)
{
    const auto tables = allTables();
    std::int64_t rows = 0;
    for (const auto& table : tables) rows += from.number("SELECT count(*) FROM " + table.name);
    Going going{progress, rows};
    layOut(to);
    for (const auto& table : tables)
        if (!copyTable(from, to, table, going)) return false;
    bool goesOn = true;
    for (const auto& table : tables) {
        if (!isSame(from, to, table, going, goesOn)) throw StorageError{"the copy at " + to.path() + " does not read back as it was written (" + table.name + "); nothing was kept of it"};
        if (!goesOn || !going.on()) return false;
    }
    return true;
}

bool copyWhole(Database& from, const std::string& to, const AskPassword& ask, const std::function<bool(int)>& progress)
{
    if (!isServerAddress(to)) return copyToFile(from, to, progress);
    Database server{to, Database::Mode::readWrite, ask};
    return copyTables(from, server, progress);
}

}
