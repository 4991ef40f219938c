#include "load_bench.h"

#include "database.h"
#include "load.h"
#include "record/field_text.h"

#include <chrono>
#include <cstdlib>

namespace strikeoff {

namespace {

double secondsSince(std::chrono::steady_clock::time_point start)
{
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// The ticket rows of a book inserted into the same table of another file, values at hand.
double bareInsert(const Book& book, const std::string& path)
{
    const auto& kind = describe(RecordKind::ticket);
    std::vector<std::vector<Value>> rows;
    for (std::size_t i = 0; i < book.count(kind.kind); ++i) {
        auto& row = rows.emplace_back();
        row.emplace_back(book.idAt(kind.kind, i));
        for (const auto& field : kind.fields) row.push_back(storedForm(field, field.get(book.at(kind.kind, i))));
    }
    Store::create(path);
    Database database{path, Database::Mode::readWrite};
    database.run("PRAGMA journal_mode = WAL");
    database.run("PRAGMA synchronous = FULL");
    database.run("PRAGMA foreign_keys = OFF");  // its suppliers and jobs are not in this file
    std::string sql = "INSERT INTO ticket (id, revision";
    std::string marks = "?, 1";
    for (const auto& field : kind.fields) {
        sql += ", " + std::string{field.name};
        marks += ", ?";
    }
    const auto start = std::chrono::steady_clock::now();
    Transaction transaction{database};
    FastStatement insert{database, sql + ") VALUES (" + marks + ")"};
    for (const auto& row : rows) {
        int place = 0;
        for (const auto& value : row) insert.bind(++place, value);
        insert.run();
    }
    transaction.commit();
    return secondsSince(start);
}

}

LoadTimes timeLoad(const std::string& folder, int tickets)
{
    const auto path = folder + "/load.strikeoff";
    makeBook(path, {20'000, 0, 0});
    const auto store = Store::open(path);
    std::string csv;
    {
        Book made = store->book();
        for (int n = 0; n < tickets; ++n) {
            auto row = rowOf(madeTicket(made, n));
            row.id = n + 1;
            made.put(row);
        }
        csv = dumpCsv(made, RecordKind::ticket);
    }
    LoadTimes times;
    const auto start = std::chrono::steady_clock::now();
    const auto result = loadCsv(*store, RecordKind::ticket, "tickets.csv", csv);
    times.ours = secondsSince(start);
    if (result.added != static_cast<std::size_t>(tickets)) std::abort();
    times.bare = bareInsert(store->book(), folder + "/bare.strikeoff");
    return times;
}

}
