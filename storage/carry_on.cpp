#include "carry_on.h"

#include "book_tables.h"
#include "numbers.h"
#include "trail.h"

#include "quantity/date.h"
#include "record/description.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

/// The newest entry of a trail.
struct Newest {
    std::string at, link;
};

Newest newestOf(Database& database)
{
    Newest newest;
    FastStatement select{database, "SELECT at, chain FROM edit ORDER BY id DESC LIMIT 1"};
    while (select.step()) newest = {std::string{select.text(0)}, std::string{select.text(1)}};
    return newest;
}

std::map<std::string, std::int64_t> countersOf(Database& database)
{
    std::map<std::string, std::int64_t> counters;
    FastStatement select{database, "SELECT name, next FROM counter"};
    while (select.step()) counters[std::string{select.text(0)}] = select.number(1);
    return counters;
}

std::int64_t writeEntry(Database& made, Database& before)
{
    const auto newest = newestOf(made);
    const auto day = Date::parse(newest.at.substr(0, 10));
    Numbers numbers;
    numbers.read(made);
    const auto entry = numbers.nextEdit();
    // With the link of the other trail it is told apart from going back to the same copy once more, by whoever has the book open.
    const auto title = "Go back to the copy of " + (day ? day->shown() : newest.at) + "; the trail before ended in " + newestOf(before).link;
    writeTrail(made, {entry, utcNow(), thisDesk(), title, "restore", std::nullopt}, {}, newest.link);
    numbers.write(made, entry);
    return entry;
}

void countOn(Database& made, Database& before, std::int64_t entry)
{
    const auto now = countersOf(made);
    constexpr std::string_view series = "number:";
    FastStatement count{made, "INSERT INTO counter (name, next) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET next = excluded.next"};
    FastStatement passed{made, "INSERT INTO number_given (series, first, last, edit, how) VALUES (?, ?, ?, ?, 'passed over')"};
    for (const auto& [name, next] : countersOf(before)) {
        const bool isNumber = name.starts_with(series);
        const auto known = now.find(name);
        const auto here = known != now.end() ? known->second : isNumber ? firstNumber : 1;
        if (name == "edit" || next <= here) continue;  // the trail itself has no gaps
        count.bind(1, std::string_view{name});
        count.bind(2, next);
        count.run();
        if (!isNumber) continue;
        passed.bind(1, std::string_view{name}.substr(series.size()));
        passed.bind(2, here);
        passed.bind(3, next - 1);
        passed.bind(4, entry);
        passed.run();
    }
}

void raiseRevisions(Database& made, Database& before, const BookTable& table)
{
    std::vector<std::pair<std::int64_t, std::int64_t>> raised;
    {
        FastStatement now{made, table.select()}, then{before, table.select()};
        bool here = now.step(), there = then.step();
        while (here && there) {
            const auto id = now.number(0), other = then.number(0);
            if (id == other) {
                bool isSame = true;
                for (std::size_t i = 2; i < table.columns.size() && isSame; ++i) isSame = table.cell(now, i) == table.cell(then, i);
                const auto revision = isSame ? then.number(1) : std::max(now.number(1), then.number(1)) + 1;
                if (revision > now.number(1)) raised.emplace_back(id, revision);
            }
            if (id <= other) here = now.step();
            if (other <= id) there = then.step();
        }
    }
    FastStatement update{made, "UPDATE " + table.name + " SET revision = ? WHERE id = ?"};
    for (const auto& [id, revision] : raised) {
        update.bind(1, revision);
        update.bind(2, id);
        update.run();
    }
}

}

void carryOn(Database& made, Database& before)
{
    Transaction snapshot{before, Transaction::For::reading};
    Transaction transaction{made};
    const auto entry = writeEntry(made, before);
    countOn(made, before, entry);
    for (const auto& kind : allKinds()) raiseRevisions(made, before, tableOf(kind));
    transaction.commit();
}

}
