#include "match_bench.h"

#include "ready_mix/statement_match.h"

#include <algorithm>
#include <chrono>
#include <random>

#include <sqlite3.h>

namespace strikeoff {

namespace {

constexpr int aMonth = 400;

double secondsSince(std::chrono::steady_clock::time_point start) { return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count(); }

double median(std::vector<double> figures)
{
    std::sort(figures.begin(), figures.end());
    return figures[figures.size() / 2];
}

template <class Record>
Record& append(Book& book, std::int64_t id)
{
    auto& record = *static_cast<Record*>(book.append(kindOf<Record>, id, 1));
    return record;
}

int fill(Book& book, int tickets)
{
    std::mt19937 random{11};
    const auto first = Date::of(2003, 1, 1).value();
    append<Supplier>(book, 1).name = "Lindmoor Ready Mix";
    int mistyped = 0;
    for (int n = 0; n < tickets; ++n) {
        const int month = n / aMonth;
        const auto begin = monthsOn(first, month);
        if (n % aMonth == 0) {
            auto& statement = append<Statement>(book, month + 1);
            statement.supplier = Id<Supplier>{1};
            statement.number = "S" + std::to_string(month + 1);
            statement.date = begin + 27;
        }
        auto& ticket = append<Ticket>(book, n + 1);
        ticket.supplier = Id<Supplier>{1};
        // A plant counts through all its customers: about every twelfth ticket is ours.
        ticket.number = std::to_string(400'000 + n * 12 + static_cast<int>(random() % 11));
        ticket.date = begin + (n % aMonth) * 27 / aMonth;
        ticket.mix = "4000AE";
        ticket.yards = Yards::ofUnits(static_cast<std::int64_t>(8 + random() % 33) * 250);
        auto& line = append<StatementLine>(book, n + 1);
        line.statement = Id<Statement>{month + 1};
        line.line = n % aMonth + 1;
        line.ticketNumber = ticket.number;
        line.date = ticket.date;
        line.code = ticket.mix;
        line.quantity = Quantity::ofUnits(ticket.yards.units());
        line.unit = "yd";
        line.amount = Money::ofCents(170 * ticket.yards.units() / 10);
        if (random() % 50 != 0) continue;
        const auto at = 2 + random() % (line.ticketNumber.size() - 3);
        if (random() % 2 == 0) line.ticketNumber.erase(at, 1);
        else std::swap(line.ticketNumber[at], line.ticketNumber[at + 1]);
        mistyped += line.ticketNumber != ticket.number;
    }
    auto& charge = append<SheetCharge>(book, 1);
    charge.supplier = Id<Supplier>{1};
    charge.effectiveOn = first;
    charge.code = "4000AE";
    return mistyped;
}

void run(sqlite3* db, const char* sql) { sqlite3_exec(db, sql, nullptr, nullptr, nullptr); }

sqlite3* bareTables(const Book& book)
{
    sqlite3* db = nullptr;
    sqlite3_open(":memory:", &db);
    run(db, "CREATE TABLE ticket (id INTEGER PRIMARY KEY, number TEXT NOT NULL); CREATE TABLE statement_line (id INTEGER PRIMARY KEY, ticket_number TEXT NOT NULL); BEGIN");
    const auto insert = [&](const char* sql, std::int64_t id, const std::string& number) {
        sqlite3_stmt* s = nullptr;
        sqlite3_prepare_v2(db, sql, -1, &s, nullptr);
        sqlite3_bind_int64(s, 1, id);
        sqlite3_bind_text(s, 2, number.c_str(), -1, SQLITE_TRANSIENT);
        sqlite3_step(s);
        sqlite3_finalize(s);
    };
    for (const auto& ticket : book.all<Ticket>()) insert("INSERT INTO ticket VALUES (?, ?)", ticket.id.value(), ticket.number);
    for (const auto& line : book.all<StatementLine>()) insert("INSERT INTO statement_line VALUES (?, ?)", line.id.value(), line.ticketNumber);
    run(db, "COMMIT");
    return db;
}

double bareJoin(sqlite3* db)
{
    const auto start = std::chrono::steady_clock::now();
    sqlite3_stmt* s = nullptr;
    sqlite3_prepare_v2(db, "SELECT l.id, t.id FROM statement_line l JOIN ticket t ON t.number = l.ticket_number", -1, &s, nullptr);
    std::vector<std::pair<std::int64_t, std::int64_t>> pairs;
    while (sqlite3_step(s) == SQLITE_ROW) pairs.emplace_back(sqlite3_column_int64(s, 0), sqlite3_column_int64(s, 1));
    sqlite3_finalize(s);
    return secondsSince(start);
}

}

MatchTimes timeMatch(int tickets, int runs)
{
    Book book;
    MatchTimes times;
    times.mistyped = fill(book, tickets);
    auto* db = bareTables(book);
    std::vector<double> ours, bare;
    for (int i = 0; i < runs; ++i) {
        bare.push_back(bareJoin(db));
        const auto start = std::chrono::steady_clock::now();
        const StatementMatches matches{book};
        ours.push_back(secondsSince(start));
        if (i > 0) continue;
        for (const auto& match : matches.all()) {
            if (match.ticket && match.ticket->id.value() != match.line->id.value()) ++times.wrong;
            else if (match.ticket && match.how == PairedHow::near) ++times.near;
        }
    }
    sqlite3_close(db);
    times.ours = median(ours);
    times.bare = median(bare);
    return times;
}

}
