#include "domain/labor/yard.h"

#include "labor/burden.h"

#include <algorithm>
#include <map>
#include <random>

using namespace strikeoff;

namespace {

/// Everything a LaborCost says of a book, as text.
std::string told(const Book& book, const LaborCost& labor)
{
    std::string text;
    const auto amounts = [&](const BurdenAmounts& burden) {
        for (const auto amount : burden) text += ' ' + amount.text();
    };
    for (const auto& row : book.all<Hours>()) {
        const auto* cost = labor.of(row.id);
        if (!cost) {
            text += "none\n";
            continue;
        }
        text += std::to_string(cost->minutes.count()) + ' ' + cost->straight.text() + ' ' + cost->premium.text();
        amounts(cost->burden);
        text += '\n';
    }
    for (const auto& person : book.all<CrewMember>())
        for (const auto& week : labor.weeksOf(person.id)) {
            text += person.name + ' ' + week.start.text() + ' ' + week.straight.text() + ' ' + week.premium.text() + ' ' + week.bonus.text();
            amounts(week.burden);
            text += '\n';
        }
    return text;
}

}

TEST_CASE("a week is cut where the settings say it starts", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Ilse");
    yard.worked(who, on("2026-05-10"), 480);  // a Sunday
    yard.worked(who, on("2026-05-11"), 480);
    const LaborCost fromMonday{yard.book};
    REQUIRE(fromMonday.weeksOf(who).size() == 2);
    CHECK(fromMonday.weekOf(who, on("2026-05-17"))->start == on("2026-05-11"));
    CHECK(fromMonday.weekOf(who, on("2026-05-18")) == nullptr);
    yard.set([](Settings& settings) { settings.workweekStart = Weekday::sunday; });
    const LaborCost fromSunday{yard.book};
    REQUIRE(fromSunday.weeksOf(who).size() == 1);
    CHECK(fromSunday.weeksOf(who)[0].worked == Minutes::of(960));
}

TEST_CASE("hours without a pay rate are told apart and cost nothing", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Tobin", "");
    yard.add(PayRate{.person = who, .fromDate = on("2026-05-13"), .hourlyRate = each("24.00")});
    const auto before = yard.worked(who, on("2026-05-12"), 480);
    const auto after = yard.worked(who, on("2026-05-13"), 480);
    const LaborCost labor{yard.book};
    CHECK_FALSE(labor.of(before)->rateKnown);
    CHECK(labor.of(before)->trueCost().isZero());
    CHECK(labor.of(before)->minutes == Minutes::of(480));
    CHECK(labor.of(after)->straight == usd("192.00"));
    CHECK_FALSE(labor.weekOf(who, on("2026-05-12"))->allRatesKnown);
    CHECK(labor.of(Id<Hours>{99}) == nullptr);
}

TEST_CASE("a rate of a phase goes before the person's own, and ends with a newer one of the phase", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Nadia", "20.00");
    yard.add(PayRate{.person = who, .fromDate = on("2026-05-01"), .phase = Phase::finish, .hourlyRate = each("26.00")});
    const auto job = yard.job("Patio");
    const auto placing = yard.worked(who, on("2026-05-11"), 240, job, Phase::place);
    const auto finishing = yard.worked(who, on("2026-05-11"), 240, job, Phase::finish);
    const auto earlier = yard.worked(who, on("2026-04-27"), 240, job, Phase::finish);
    const LaborCost labor{yard.book};
    CHECK(labor.of(placing)->straight == usd("80.00"));
    CHECK(labor.of(finishing)->straight == usd("104.00"));
    CHECK(labor.of(earlier)->straight == usd("80.00"));
}

TEST_CASE("the premium lies on all hours of the week or on those past the limit, and adds up either way", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Cale", "20.00");
    const auto job = yard.job("Walk");
    std::vector<Id<Hours>> rows;
    for (int i = 0; i < 5; ++i) rows.push_back(yard.worked(who, on("2026-05-11") + i, i == 4 ? 720 : 540, job));
    // 48 h: 8 over 40 earn 10.00 each on top.
    const LaborCost spread{yard.book};
    CHECK(spread.weekOf(who, on("2026-05-11"))->gross() == usd("1040.00"));
    CHECK(spread.of(rows[0])->premium == usd("15.00"));
    CHECK(spread.of(rows[4])->premium == usd("20.00"));
    yard.set([](Settings& settings) { settings.premiumSpread = PremiumSpread::pastLimit; });
    const LaborCost left{yard.book};
    CHECK(left.weekOf(who, on("2026-05-11"))->gross() == usd("1040.00"));
    CHECK(left.of(rows[0])->premium.isZero());
    CHECK(left.of(rows[4])->premium == usd("80.00"));
}

TEST_CASE("a class of workers' compensation has its own rate, and premium is left out where the rate says so", "[labor]")
{
    Yard yard;
    const auto flat = yard.person("Ruben", "20.00", "flatwork");
    const auto other = yard.person("Wendell", "20.00", "office");
    yard.burden(BurdenItem::workersComp, "2026-01-01", "3.00", {}, BurdenBasis::perHundred, false);
    yard.burden(BurdenItem::workersComp, "2026-01-01", "8.50", {}, BurdenBasis::perHundred, false, "flatwork");
    yard.burden(BurdenItem::smallTools, "2026-01-01", "0.75", {}, BurdenBasis::perHour);
    for (int i = 0; i < 5; ++i) {
        yard.worked(flat, on("2026-05-11") + i, 600);
        yard.worked(other, on("2026-05-11") + i, 600);
    }
    const LaborCost labor{yard.book};
    // 50 h straight are 1,000.00; the premium of 100.00 does not count.
    const auto& mine = *labor.weekOf(flat, on("2026-05-11"));
    CHECK(mine.premium == usd("100.00"));
    CHECK(mine.burden[at(BurdenItem::workersComp)] == usd("85.00"));
    CHECK(mine.burden[at(BurdenItem::smallTools)] == usd("37.50"));
    CHECK(labor.weekOf(other, on("2026-05-11"))->burden[at(BurdenItem::workersComp)] == usd("30.00"));
    CHECK(mine.trueCost() == usd("1222.50"));
}

TEST_CASE("a week over the new year pays each day's burden by that day's year", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Ilse", "25.00");
    yard.burden(BurdenItem::federalUnemployment, "2024-01-01", "0.6", usd("300.00"));
    yard.burden(BurdenItem::federalUnemployment, "2025-01-01", "1.0", usd("300.00"));
    yard.worked(who, on("2024-12-30"), 480);
    yard.worked(who, on("2024-12-31"), 480);
    yard.worked(who, on("2025-01-02"), 480);
    yard.worked(who, on("2025-01-03"), 480);
    const LaborCost labor{yard.book};
    // 300.00 of each year's pay counts: 1.80 at 0.6 %, 3.00 at 1 %.
    CHECK(labor.weekOf(who, on("2025-01-01"))->burden[at(BurdenItem::federalUnemployment)] == usd("4.80"));
    CHECK(labor.of(Id<Hours>{1})->burdenTotal() + labor.of(Id<Hours>{2})->burdenTotal() == usd("1.80"));
}

TEST_CASE("an old day entered late moves the caps of later days in that year", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Ilse", "25.00");
    yard.burden(BurdenItem::federalUnemployment, "2024-01-01", "0.6", usd("400.00"));
    const auto later = yard.worked(who, on("2026-03-16"), 480);
    CHECK(LaborCost{yard.book}.of(later)->burdenTotal() == usd("1.20"));
    yard.worked(who, on("2026-02-02"), 720);
    CHECK(LaborCost{yard.book}.of(later)->burdenTotal() == usd("0.60"));
    yard.worked(who, on("2025-02-03"), 720);  // another year's
    CHECK(LaborCost{yard.book}.of(later)->burdenTotal() == usd("0.60"));
}

TEST_CASE("a bonus of several weeks is shared by the days of its time that lie in each week worked", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Ilse", "20.00");
    yard.worked(who, on("2026-05-11"), 480);
    yard.worked(who, on("2026-05-25"), 480);  // nothing in the week between
    yard.add(Bonus{.person = who, .amount = usd("100.00"), .earnedFrom = on("2026-05-13"), .earnedTo = on("2026-05-27")});
    const LaborCost labor{yard.book};
    // Five days of the first week and three of the last: 62.50 and 37.50.
    CHECK(labor.weekOf(who, on("2026-05-11"))->bonus == usd("62.50"));
    CHECK(labor.weekOf(who, on("2026-05-25"))->bonus == usd("37.50"));
    CHECK(labor.of(Id<Hours>{1})->straight == usd("222.50"));
}

namespace {

/// A book of random weeks with every rule in play.
struct RandomYard : Yard {
    std::mt19937 random;
    std::vector<Id<CrewMember>> people;
    std::vector<Id<Job>> jobs;
    std::vector<Hours> rows;

    explicit RandomYard(unsigned seed, bool addRows = true) : random{seed}
    {
        set([&](Settings& settings) {
            settings.workweekStart = static_cast<Weekday>(pick(0, 6));
            settings.overtimeRule = static_cast<OvertimeRule>(pick(0, 1));
            settings.premiumSpread = static_cast<PremiumSpread>(pick(0, 1));
            settings.rateRounding = static_cast<RateRounding>(pick(0, 1));
        });
        for (const auto& rate : startingBurden()) add(rate);
        burden(BurdenItem::stateUnemployment, "2024-01-01", "2.7", usd("9000.00"));
        burden(BurdenItem::workersComp, "2024-06-05", "8.37", {}, BurdenBasis::perHundred, false, "flatwork");
        burden(BurdenItem::liability, "2024-01-01", "1.113", {}, BurdenBasis::perHundred, pick(0, 1) == 1);
        burden(BurdenItem::smallTools, "2025-01-01", "0.7133", {}, BurdenBasis::perHour);
        for (int i = 0; i < 3; ++i) jobs.push_back(job("Job " + std::to_string(i)));
        for (int i = 0; i < 3; ++i) {
            const auto who = person("Person " + std::to_string(i), "", i == 0 ? "flatwork" : "");
            people.push_back(who);
            add(PayRate{.person = who, .fromDate = on("2024-11-20"), .hourlyRate = UnitPrice::ofUnits(pick(150'000, 390'000))});
            if (i == 1) add(PayRate{.person = who, .fromDate = on("2024-11-20"), .phase = Phase::finish, .hourlyRate = UnitPrice::ofUnits(pick(150'000, 390'000))});
            if (i == 2) add(PayRate{.person = who, .fromDate = on("2025-01-15"), .hourlyRate = {}, .dayRate = Money::ofCents(pick(15'000, 30'000))});
            // Weeks of someone with a bonus hang together, those of others do not: both are tried.
            if (i == 1 || pick(0, 2) == 0)
                add(Bonus{.person = who, .amount = Money::ofCents(pick(1, 90'000)), .earnedFrom = on("2024-12-10"), .earnedTo = on("2024-12-10") + pick(0, 60)});
        }
        for (int i = 0; i < 220; ++i) {
            Hours hours;
            hours.person = people[static_cast<std::size_t>(pick(0, 2))];
            hours.date = on("2024-11-15") + pick(0, 90);
            if (pick(0, 4) > 0) hours.job = jobs[static_cast<std::size_t>(pick(0, 2))];
            hours.phase = hours.job ? static_cast<Phase>(pick(0, 6)) : Phase::shop;
            hours.startedAt = *ClockTime::ofMinutes(pick(0, 1000));
            hours.minutes = Minutes::of(pick(0, 500));
            const bool isTaken = std::any_of(rows.begin(), rows.end(), [&](const Hours& row) {
                return row.person == hours.person && row.date == hours.date && row.job == hours.job && row.phase == hours.phase && row.startedAt == hours.startedAt;
            });
            if (!isTaken) rows.push_back(hours);
        }
        if (addRows)
            for (const auto& row : rows) add(row);
    }
    int pick(int least, int most) { return std::uniform_int_distribution{least, most}(random); }
};

}

TEST_CASE("over random weeks the parts add up: rows to weeks, weeks to pay, rows to the year's burden", "[labor]")
{
    for (unsigned seed = 1; seed <= 25; ++seed) {
        RandomYard yard{seed};
        const LaborCost labor{yard.book};
        std::map<std::pair<Id<CrewMember>, int>, std::array<Money, burdenItemCount>> byYear;
        std::map<std::pair<Id<CrewMember>, int>, Money> payByYear;
        std::map<std::pair<Id<CrewMember>, Date>, std::array<Money, 3>> byWeek;
        Money given;
        for (const auto& row : yard.book.all<Hours>()) {
            const auto& cost = *labor.of(row.id);
            const auto& week = *labor.weekOf(row.person, row.date);
            auto& sums = byWeek[{row.person, week.start}];
            sums[0] += cost.straight;
            sums[1] += cost.premium;
            sums[2] += cost.burdenTotal();
            for (std::size_t i = 0; i < burdenItemCount; ++i) byYear[{row.person, row.date.year()}][i] += cost.burden[i];
            payByYear[{row.person, row.date.year()}] += cost.straight;
            CHECK(cost.straight >= Money{});
            CHECK(cost.premium >= Money{});
        }
        for (const auto& person : yard.people)
            for (const auto& week : labor.weeksOf(person)) {
                const auto& sums = byWeek[{person, week.start}];
                CHECK(sums[0] == week.straight);
                CHECK(sums[1] == week.premium);
                CHECK(sums[2] == week.burdenTotal());
                given += week.bonus;
            }
        Money bonuses;
        for (const auto& bonus : yard.book.all<Bonus>()) bonuses += bonus.amount;
        CHECK(given == bonuses);
        for (const auto& [place, sums] : byYear) {
            // Workers' compensation and small tools have no cap: 2025 in one piece, from the whole year's straight pay.
            if (place.second != 2025) continue;
            const bool flat = place.first == yard.people[0];
            CHECK(sums[at(BurdenItem::workersComp)] == (flat ? percentOf(payByYear[place], percent("8.37")) : Money{}));
            CHECK(sums[at(BurdenItem::paidLeave)].isZero());
        }
    }
}

TEST_CASE("the order in which days are entered does not change a cent", "[labor]")
{
    for (unsigned seed = 1; seed <= 10; ++seed) {
        RandomYard inOrder{seed};
        RandomYard shuffled{seed, false};
        auto rows = shuffled.rows;
        std::shuffle(rows.begin(), rows.end(), shuffled.random);
        for (const auto& row : rows) shuffled.add(row);
        const LaborCost first{inOrder.book}, second{shuffled.book};
        const auto linesOf = [](const Book& book, const LaborCost& labor) {
            std::vector<std::string> lines;
            for (const auto& row : book.all<Hours>()) {
                const auto& cost = *labor.of(row.id);
                auto line = std::to_string(row.person.value()) + row.date.text() + row.startedAt->text() + std::to_string(row.job ? row.job->value() : 0)
                    + std::string{codeOf(row.phase)} + cost.straight.text() + ' ' + cost.premium.text();
                for (const auto amount : cost.burden) line += ' ' + amount.text();
                lines.push_back(line);
            }
            std::sort(lines.begin(), lines.end());
            return lines;
        };
        CHECK(linesOf(inOrder.book, first) == linesOf(shuffled.book, second));
    }
}

TEST_CASE("moving an hour between jobs leaves the week's pay and the person's burden alone", "[labor]")
{
    for (unsigned seed = 1; seed <= 10; ++seed) {
        RandomYard yard{seed};
        const auto sums = [&] {
            const LaborCost labor{yard.book};
            std::string text;
            for (const auto& person : yard.people)
                for (const auto& week : labor.weeksOf(person)) text += week.straight.text() + ' ' + week.premium.text() + ' ' + week.burdenTotal().text() + '\n';
            return text;
        };
        const auto before = sums();
        for (const auto& row : yard.rows) {
            if (!row.job || yard.pick(0, 3) != 0) continue;
            const auto id = Id<Hours>{static_cast<std::int64_t>(&row - yard.rows.data()) + 1};
            const auto other = yard.jobs[static_cast<std::size_t>(yard.pick(0, 2))];
            auto moved = yard.book.get(id);
            moved.job = other;
            Edit edit{"Move"};
            edit.change(moved);
            (void)applyEdit(yard.book, std::move(edit));  // one that meets another row of the same job and time is refused
        }
        CHECK(sums() == before);
    }
}

TEST_CASE("spreading the premium or leaving it moves cost between jobs and nothing else", "[labor]")
{
    for (unsigned seed = 1; seed <= 10; ++seed) {
        RandomYard yard{seed};
        const auto sums = [&](PremiumSpread spread) {
            yard.set([&](Settings& settings) { settings.premiumSpread = spread; });
            const LaborCost labor{yard.book};
            std::string text;
            for (const auto& person : yard.people)
                for (const auto& week : labor.weeksOf(person)) text += week.straight.text() + ' ' + week.premium.text() + ' ' + week.burdenTotal().text() + '\n';
            return text;
        };
        CHECK(sums(PremiumSpread::week) == sums(PremiumSpread::pastLimit));
    }
}

TEST_CASE("taking in changed days gives what reckoning all anew gives, and names the jobs that moved", "[labor]")
{
    for (unsigned seed = 1; seed <= 15; ++seed) {
        RandomYard yard{seed};
        LaborCost labor{yard.book};
        for (int step = 0; step < 12; ++step) {
            const auto costOfJobs = [&] {
                std::map<Id<Job>, Money> sums;
                for (const auto& row : yard.book.all<Hours>())
                    if (row.job && labor.of(row.id)) sums[*row.job] += labor.of(row.id)->trueCost();
                return sums;
            };
            const auto costsBefore = costOfJobs();
            std::vector<Id<Hours>> touched;
            for (int i = yard.pick(1, 3); i > 0; --i) {
                const auto& all = yard.book.all<Hours>();
                auto row = all[static_cast<std::size_t>(yard.pick(0, static_cast<int>(all.size()) - 1))];
                Edit edit{"Change"};
                const int what = yard.pick(0, 2);
                row.date = on("2024-11-15") + yard.pick(0, 90);
                row.person = yard.people[static_cast<std::size_t>(yard.pick(0, 2))];
                row.minutes = Minutes::of(yard.pick(0, 700));
                if (what == 0) edit.remove(row);
                else if (what == 1) edit.change(row);
                else {
                    auto added = rowOf(row);
                    added.id = yard.book.lastId(RecordKind::hours) + 1;
                    edit.changes().push_back({ChangeType::add, added});
                }
                const auto id = what == 2 ? yard.book.lastId(RecordKind::hours) + 1 : row.id.value();
                if (applyEdit(yard.book, std::move(edit)).problems.empty()) touched.emplace_back(id);
            }
            const auto moved = labor.update(yard.book, touched);
            REQUIRE(told(yard.book, labor) == told(yard.book, LaborCost{yard.book}));
            const auto costsAfter = costOfJobs();
            for (const auto job : yard.jobs) {
                const auto old = costsBefore.find(job), now = costsAfter.find(job);
                const bool same = (old == costsBefore.end() ? Money{} : old->second) == (now == costsAfter.end() ? Money{} : now->second);
                if (!same) CHECK(std::find(moved.begin(), moved.end(), job) != moved.end());
            }
        }
    }
}
