#include "domain/labor/yard.h"

#include "labor/clock.h"
#include "labor/hours_sheet.h"

#include <algorithm>

using namespace strikeoff;

namespace {

const Date day = on("2026-05-12");

struct Sheets : Yard {
    Id<CrewMember> ilse = person("Ilse"), tobin = person("Tobin");
    Id<Job> patio = job("Patio"), walk = job("Walk");

    SheetColumn placing(Id<Job> where) { return {where, {}, Phase::place}; }
    /// A sheet with one column a job, cells typed as people would.
    HoursSheet sheet(std::vector<SheetColumn> columns, std::vector<std::vector<const char*>> typed)
    {
        auto made = hoursSheet(book, day);
        REQUIRE(made.columns.empty());
        made.columns = std::move(columns);
        for (std::size_t p = 0; p < made.people.size(); ++p) {
            made.people[p].cells.resize(made.columns.size());
            for (std::size_t c = 0; p < typed.size() && c < typed[p].size(); ++c) made.people[p].cells[c] = readCell(typed[p][c]).value();
        }
        return made;
    }
    void save(const HoursSheet& sheet)
    {
        auto edit = hoursEdit(book, sheet);
        std::int64_t next = book.lastId(RecordKind::hours);
        for (auto& change : edit.changes())
            if (change.what == ChangeType::add) change.row.id = ++next;
        const auto outcome = applyEdit(book, std::move(edit));
        for (const auto& problem : outcome.problems) FAIL(problem.message);
    }
    std::string flagged(const HoursSheet& sheet)
    {
        std::string text;
        for (const auto& flag : flagsOf(book, sheet)) text += flag.message + '\n';
        return text;
    }
};

std::string read(const char* typed)
{
    const auto cell = readCell(typed);
    return cell ? cellText(*cell) : "no";
}

}

TEST_CASE("a cell takes hours, or from and to, as people write them", "[hours]")
{
    CHECK(read("8") == "8:00");
    CHECK(read("7.5") == "7:30");
    CHECK(read("7:30") == "7:30");
    CHECK(read("450m") == "7:30");
    CHECK(read("7-3:30") == "7:00a-3:30p");
    CHECK(read("7:00a-15:30") == "7:00a-3:30p");
    CHECK(read(" 6:30 - 11 ") == "6:30a-11:00a");
    CHECK(read("11-4") == "11:00a-4:00p");
    CHECK(read("8p-2a") == "8:00p-2:00a");
    CHECK(read("") == "");
    CHECK(read("25") == "no");
    CHECK(read("0") == "no");
    CHECK(read("7-") == "no");
    CHECK(read("-3") == "no");
    CHECK(read("much") == "no");
    CHECK(read("7.123") == "no");
    // What is shown can be typed again.
    for (const auto* text : {"7:00a-3:30p", "8:00p-2:00a", "7:30", "12:00p-1:00p", "12:05a-4:00a"}) CHECK(read(text) == text);
}

TEST_CASE("a phase is named by its first letters", "[hours]")
{
    CHECK(readPhase("pl") == Phase::place);
    CHECK(readPhase("PREP") == Phase::prepForm);
    CHECK(readPhase("Prep & form") == Phase::prepForm);
    CHECK(readPhase("st") == Phase::stripCut);
    CHECK(readPhase("sh") == Phase::shop);
    CHECK_FALSE(readPhase("p"));  // prep or place
    CHECK_FALSE(readPhase("s"));
    CHECK_FALSE(readPhase(""));
    CHECK_FALSE(readPhase("dig"));
}

TEST_CASE("a saved sheet reads back as it was typed, and saving it again changes nothing", "[hours]")
{
    Sheets yard;
    auto sheet = yard.sheet({yard.placing(yard.patio), {{}, {}, Phase::shop}}, {{"7-3:30", ""}, {"5", "3:30"}});
    sheet.people[0].lunch = Minutes::of(30);
    yard.save(sheet);
    REQUIRE(yard.book.all<Hours>().size() == 3);
    const auto again = hoursSheet(yard.book, day);
    REQUIRE(again.columns.size() == 2);
    CHECK(cellText(again.people[0].cells[again.columns[0].job ? 0 : 1]) == "7:00a-3:30p");
    CHECK(again.people[0].lunch == Minutes::of(30));
    CHECK(hoursEdit(yard.book, again).empty());
    const LaborCost labor{yard.book};
    CHECK(labor.weekOf(yard.ilse, day)->worked == Minutes::of(480));
    CHECK(labor.weekOf(yard.tobin, day)->worked == Minutes::of(510));
    // A cell made blank takes its row out, and nothing else.
    auto less = again;
    for (auto& cell : less.people[1].cells)
        if (cell.minutes == Minutes::of(300)) cell = {};
    const auto edit = hoursEdit(yard.book, less);
    REQUIRE(edit.changes().size() == 1);
    CHECK(edit.changes()[0].what == ChangeType::remove);
}

TEST_CASE("lunch comes out of the longest stretch, and stays where it was recorded while it is the same", "[hours]")
{
    Sheets yard;
    auto sheet = yard.sheet({yard.placing(yard.patio), yard.placing(yard.walk)}, {{"7-9", "9-3:30"}});
    sheet.people[0].lunch = Minutes::of(30);
    yard.save(sheet);
    const auto lunchAt = [&](Id<Job> job) {
        for (const auto& row : yard.book.all<Hours>())
            if (row.job == job) return row.unpaidMinutes;
        return std::optional<Minutes>{};
    };
    CHECK_FALSE(lunchAt(yard.patio));
    CHECK(lunchAt(yard.walk) == Minutes::of(30));
    // Someone wrote it on the shorter stretch: that is left alone.
    yard.change(yard.book.all<Hours>()[0].id, [](Hours& row) { row.unpaidMinutes = Minutes::of(30); });
    yard.change(yard.book.all<Hours>()[1].id, [](Hours& row) { row.unpaidMinutes.reset(); });
    CHECK(hoursEdit(yard.book, hoursSheet(yard.book, day)).empty());
}

TEST_CASE("the clock is rounded by the setting, the times stay as typed, and a later setting leaves what was paid alone", "[hours]")
{
    Sheets yard;
    yard.set([](Settings& settings) { settings.clockRounding = ClockRounding::fifteen; });
    yard.save(yard.sheet({yard.placing(yard.patio)}, {{"7:08-3:22"}}));
    const auto& row = yard.book.all<Hours>()[0];
    CHECK(row.startedAt == strikeoff::at("07:08"));
    CHECK(row.endedAt == strikeoff::at("15:22"));
    CHECK(row.minutes == Minutes::of(480));  // 7:15 to 3:15
    CHECK(hoursEdit(yard.book, hoursSheet(yard.book, day)).empty());
    yard.set([](Settings& settings) { settings.clockRounding = ClockRounding::none; });
    CHECK(LaborCost{yard.book}.of(row.id)->minutes == Minutes::of(480));
    CHECK(hoursEdit(yard.book, hoursSheet(yard.book, day)).empty());
}

TEST_CASE("a sheet filled as the day before has its people, places and times, without that day's pours", "[hours]")
{
    Sheets yard;
    const auto pour = yard.add(Pour{.job = yard.patio, .sequence = 1, .pouredOn = day - 3});
    yard.add(Hours{.person = yard.ilse, .date = day - 3, .job = yard.patio, .pour = pour, .phase = Phase::place, .startedAt = strikeoff::at("07:00"), .endedAt = strikeoff::at("15:30"), .unpaidMinutes = Minutes::of(30)});
    yard.worked(yard.ilse, day - 10, 600, yard.walk);
    auto sheet = copiedFromDayBefore(yard.book, hoursSheet(yard.book, day));
    REQUIRE(sheet.columns.size() == 1);
    CHECK(sheet.columns[0].job == yard.patio);
    CHECK_FALSE(sheet.columns[0].pour);
    CHECK(cellText(sheet.people[0].cells[0]) == "7:00a-3:30p");
    CHECK(sheet.people[0].lunch == Minutes::of(30));
    CHECK(sheet.people[1].cells[0].isBlank());
    yard.save(sheet);
    CHECK(yard.book.all<Hours>().size() == 3);
    // With a pour on the new day it is that one.
    const auto second = yard.add(Pour{.job = yard.patio, .sequence = 2, .pouredOn = day + 1});
    CHECK(copiedFromDayBefore(yard.book, hoursSheet(yard.book, day + 1)).columns[0].pour == second);
    // What is there already stays.
    const auto same = copiedFromDayBefore(yard.book, hoursSheet(yard.book, day));
    CHECK(hoursEdit(yard.book, same).empty());
}

TEST_CASE("a day entered after later ones says in its title that their wage bases move", "[hours]")
{
    Sheets yard;
    yard.worked(yard.ilse, day + 3, 480);
    const auto title = [&](std::vector<std::vector<const char*>> typed) { return hoursEdit(yard.book, yard.sheet({{{}, {}, Phase::shop}}, std::move(typed))).title(); };
    CHECK(title({{"8"}, {}}) == "Hours of May 12, 2026");
    yard.burden(BurdenItem::federalUnemployment, "2023-01-01", "0.6", usd("7000.00"));
    CHECK(title({{"8"}, {}}) == "Hours of May 12, 2026, entered late: the wage bases of later days count anew");
    CHECK(title({{""}, {"8"}}) == "Hours of May 12, 2026");  // nobody else's
    yard.change(yard.book.all<Hours>()[0].id, [](Hours& row) { row.date = on("2027-01-04"); });
    CHECK(title({{"8"}, {}}) == "Hours of May 12, 2026");  // another year's
}

TEST_CASE("people in two places at once, days of more than 24 hours and jobs not yet opened are flagged", "[hours]")
{
    Sheets yard;
    CHECK(yard.flagged(yard.sheet({yard.placing(yard.patio), yard.placing(yard.walk)}, {{"7-12", "12-4"}, {"8", "8"}})).empty());
    CHECK_THAT(yard.flagged(yard.sheet({yard.placing(yard.patio), yard.placing(yard.walk)}, {{"7-12", "11:30-4"}})),
               Catch::Contains("Ilse is in two places at once: job 1001 and job 1002 overlap"));
    CHECK_THAT(yard.flagged(yard.sheet({yard.placing(yard.patio), {yard.patio, {}, Phase::finish}}, {{"7-12", "11:30-4"}})),
               Catch::Contains("Ilse has two stretches at job 1001 that overlap"));
    CHECK_THAT(yard.flagged(yard.sheet({yard.placing(yard.patio), yard.placing(yard.walk)}, {{"14", "10:01"}})), Catch::Contains("Ilse has 24:01 h in one day"));
    CHECK(yard.flagged(yard.sheet({yard.placing(yard.patio), yard.placing(yard.walk)}, {{"14", "10"}})).empty());
    const auto later = yard.add(Job{.number = "1003", .title = "Later", .customer = yard.customer("C"), .openedOn = day + 1});
    CHECK_THAT(yard.flagged(yard.sheet({yard.placing(later)}, {{"8"}})), Catch::Contains("job 1003, which was opened on May 13, 2026"));
    auto lunch = yard.sheet({yard.placing(yard.patio)}, {{"7-8"}});
    lunch.people[0].lunch = Minutes::of(90);
    CHECK_THAT(yard.flagged(lunch), Catch::Contains("lunch longer than the work"));
    // The night before counts.
    yard.add(Hours{.person = yard.ilse, .date = day - 1, .phase = Phase::shop, .startedAt = strikeoff::at("20:00"), .endedAt = strikeoff::at("06:30")});
    CHECK_THAT(yard.flagged(yard.sheet({yard.placing(yard.patio)}, {{"6-2"}})), Catch::Contains("worked until 6:30 am from the day before"));
    CHECK(yard.flagged(yard.sheet({yard.placing(yard.patio)}, {{"6:30-2"}})).empty());
    // Before being hired, after leaving.
    yard.change(yard.tobin, [](CrewMember& member) { member.leftOn = day; });
    auto gone = hoursSheet(yard.book, day);
    gone.date = day + 2;
    gone.columns = {{{}, {}, Phase::shop}};
    for (auto& person : gone.people) person.cells.resize(1);
    gone.people[1].cells[0] = *readCell("8");
    CHECK_THAT(yard.flagged(gone), Catch::Contains("Tobin left on May 12, 2026"));
    CHECK(hoursSheet(yard.book, day + 2).people.size() == 1);
}
