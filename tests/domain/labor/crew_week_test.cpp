#include "domain/labor/yard.h"

#include "labor/burden.h"
#include "labor/crew_week.h"
#include "labor/hour_ladder.h"
#include "labor/overhead.h"

using namespace strikeoff;

TEST_CASE("the crew's week says who worked when, what is overtime and what it cost, in words too", "[labor]")
{
    Yard yard;
    const auto tobin = yard.person("Tobin", "20.00"), ilse = yard.person("Ilse", "30.00");
    yard.burden(BurdenItem::medicare, "2023-01-01", "1.45");
    const auto patio = yard.job("Patio");
    for (int i = 0; i < 5; ++i) yard.worked(ilse, on("2026-05-11") + i, 540, patio);
    yard.worked(tobin, on("2026-05-13"), 240, patio);
    yard.worked(tobin, on("2026-05-13"), 90);
    yard.worked(tobin, on("2026-05-18"), 480);  // the next week
    const auto week = crewWeek(yard.book, LaborCost{yard.book}, on("2026-05-14"));
    CHECK(week.from == on("2026-05-11"));
    REQUIRE(week.people.size() == 2);
    CHECK(week.people[0].person->name == "Ilse");
    CHECK(week.people[0].pay.overtime == Minutes::of(300));
    CHECK(week.people[0].pay.gross() == usd("1425.00"));  // 45 × 30 and 5 × 15
    CHECK(week.people[1].days[2].minutes == Minutes::of(330));
    REQUIRE(week.people[1].days[2].work.size() == 2);
    CHECK(week.people[1].days[3].minutes == Minutes{});
    CHECK(week.all.gross() == usd("1535.00"));
    CHECK(week.all.trueCost() == usd("1557.26"));  // 20.66 and 1.60 (1.595) of Medicare
    CHECK(week.answer == "Two people worked 50:30 h in the week of May 11, 2026, 5:00 h of it overtime; gross pay is $1,535.00, the true cost $1,557.26.");
    REQUIRE(week.cautions.size() == 2);
    CHECK_THAT(week.cautions[0], Catch::StartsWith("Not set yet, so counted as nothing: Social Security, Federal unemployment"));
    CHECK_THAT(week.cautions[1], Catch::EndsWith("ask whoever does your payroll."));
    CHECK(crewWeek(yard.book, LaborCost{yard.book}, on("2027-05-14")).answer == "Nobody worked in the week of May 10, 2027.");
}

TEST_CASE("a year's overhead lies on its job hours, and the jobs' shares add up to it", "[labor]")
{
    Yard yard;
    const auto who = yard.person("Ilse");
    const auto patio = yard.job("Patio"), walk = yard.job("Walk"), drive = yard.job("Drive");
    yard.add(Overhead{.year = 2025, .item = "yard", .amount = usd("100.00")});
    yard.worked(who, on("2025-05-12"), 60, patio);
    yard.worked(who, on("2025-05-13"), 60, walk);
    yard.worked(who, on("2025-05-14"), 60, drive);
    yard.worked(who, on("2025-05-15"), 60);
    const LaborCost labor{yard.book};
    const auto whole = overheadOf(yard.book, labor, 2025, on("2026-02-01"));
    CHECK_FALSE(whole.toDate);
    CHECK(whole.billable == Minutes::of(180));
    CHECK(whole.billableShare->shown(0) == "75");
    CHECK(whole.perHour == each("33.3333"));
    const auto shares = overheadByJob(yard.book, labor, on("2026-02-01"));
    CHECK(shares.at(patio.value()) + shares.at(walk.value()) + shares.at(drive.value()) == usd("100.00"));
    CHECK(shares.at(walk.value()) == usd("33.33"));
    // On 14 May 134 of 365 days are gone: 36.71 of it, over the hours so far.
    const auto toDate = overheadOf(yard.book, labor, 2025, on("2025-05-14"));
    CHECK(toDate.toDate);
    CHECK(toDate.overhead == usd("36.71"));
    CHECK(toDate.worked == Minutes::of(180));
    CHECK(overheadOf(yard.book, labor, 2024, on("2026-02-01")).perHour == std::nullopt);
}

TEST_CASE("what must be charged to break even is the crew's hour over the billable share, and the overhead of a billable hour", "[labor]")
{
    Yard yard;
    const auto ilse = yard.person("Ilse", "30.00"), tobin = yard.person("Tobin", "20.00");
    yard.person("Nobody", "");
    yard.burden(BurdenItem::medicare, "2023-01-01", "1.45");
    yard.burden(BurdenItem::smallTools, "2023-01-01", "0.50", {}, BurdenBasis::perHour);
    const auto patio = yard.job("Patio");
    yard.add(Overhead{.year = 2025, .item = "yard", .amount = usd("600.00")});
    for (int i = 0; i < 5; ++i) {
        yard.worked(ilse, on("2025-09-01") + 7 * i, 480, patio);
        yard.worked(tobin, on("2025-09-01") + 7 * i, 480, i < 4 ? std::optional{patio} : std::nullopt);
    }
    const auto rates = crewRates(yard.book, LaborCost{yard.book}, on("2026-03-02"));
    REQUIRE(rates.people.size() == 2);
    CHECK(rates.people[0].pay == each("30.00"));
    CHECK(rates.people[0].total() == each("30.935"));  // 30 and 1.45 % of it and 0.50
    CHECK(rates.crew.pay == each("25.00"));
    CHECK(rates.crew.total() == each("25.8625"));
    // 72 of 80 hours are billable: 28.7361, and 600 over 72 h is 8.3333.
    CHECK(rates.breakEven == each("37.0694"));
    CHECK(rates.answer == "An hour of the crew truly costs $25.86 (from $20.79 to $30.94); to break even charge $37.07 for a billable hour, at 2025\u2019s billable share of 90 % and $8.33 of overhead.");
    CHECK_THAT(rates.missing, Catch::StartsWith("Not set yet, so counted as nothing: Social Security"));
    // Somebody who has not worked yet goes by the rates in force.
    yard.person("Newly", "25.00");
    const auto later = crewRates(yard.book, LaborCost{yard.book}, on("2026-03-02"));
    REQUIRE(later.people.size() == 3);
    CHECK(later.people[1].person->name == "Newly");
    CHECK(later.people[1].worked == Minutes{});
    CHECK(later.people[1].total() == each("25.8625"));
    CHECK(crewRates(BookMaker{}.book, LaborCost{BookMaker{}.book}, on("2026-03-02")).answer == "Nobody on the crew has a pay rate yet: enter the crew and what they are paid.");
}

TEST_CASE("the tables on offer are those the book has nothing of its own for", "[labor]")
{
    Yard yard;
    CHECK(burdenOnOffer(yard.book).size() == startingBurden().size());
    yard.burden(BurdenItem::socialSecurity, "2025-01-01", "6.2", usd("176100.00"));
    yard.burden(BurdenItem::stateUnemployment, "2024-07-01", "3.1", usd("9000.00"));
    const auto offered = burdenOnOffer(yard.book);
    CHECK(offered.size() == startingBurden().size() - 2);
    for (const auto& rate : offered) {
        CHECK_FALSE((rate.item == BurdenItem::socialSecurity && rate.fromDate.year() == 2025));
        CHECK(rate.item != BurdenItem::stateUnemployment);
        yard.add(rate);  // each keeps the book's rules
    }
    CHECK(burdenOnOffer(yard.book).empty());
}
