#include "domain/labor/yard.h"

#include "labor/burden.h"
#include "labor/overhead.h"

// Payroll taxes against published figures, through hours at a round wage in a book with the tables it begins with.

using namespace strikeoff;

namespace {

/// Pays someone a sum on one day: the law looks at pay, not at how long it took.
void pay(Yard& yard, Id<CrewMember> who, Date day, std::string_view sum)
{
    yard.add(PayRate{.person = who, .fromDate = day, .dayRate = usd(sum)});
    yard.worked(who, day, 480);
}

Money ofDay(const Yard& yard, Id<CrewMember> who, Date day, BurdenItem item)
{
    const LaborCost labor{yard.book};
    Money sum;
    for (const auto& row : yard.book.all<Hours>())
        if (row.person == who && row.date == day) sum += labor.of(row.id)->burden[at(item)];
    return sum;
}

Money ofYear(const Yard& yard, Id<CrewMember> who, int year, BurdenItem item)
{
    const LaborCost labor{yard.book};
    Money sum;
    for (const auto& row : yard.book.all<Hours>())
        if (row.person == who && row.date.year() == year) sum += labor.of(row.id)->burden[at(item)];
    return sum;
}

/// A book with the tables it begins with.
Yard withTables()
{
    Yard yard;
    for (const auto& rate : startingBurden()) yard.add(rate);
    return yard;
}

/// A year's pay in a day each month, at most $10,000 a day.
void payTheYear(Yard& yard, Id<CrewMember> who, int year, int days)
{
    yard.add(PayRate{.person = who, .fromDate = *Date::of(year, 1, 1), .dayRate = usd("9000.00")});
    for (int i = 0; i < days; ++i) yard.worked(who, *Date::of(year, 1 + i % 12, 3 + i / 12 * 9), 480);
}

}

TEST_CASE("the most Social Security an employer pays for one person in a year", "[reference][burden]")
{
    auto yard = withTables();
    const auto who = yard.person("Well paid", "");
    for (int year = 2023; year <= 2026; ++year) payTheYear(yard, who, year, 24);
    // SSA, automatic determinations: bases 160,200, 168,600, 176,100 and (announced October 2025) 184,500; 6.2 % of each, computed; that of 2025
    // is printed too. 24 days at $9,000 are $216,000, past every base.
    CHECK(ofYear(yard, who, 2023, BurdenItem::socialSecurity) == usd("9932.40"));
    CHECK(ofYear(yard, who, 2024, BurdenItem::socialSecurity) == usd("10453.20"));
    CHECK(ofYear(yard, who, 2025, BurdenItem::socialSecurity) == usd("10918.20"));
    CHECK(ofYear(yard, who, 2026, BurdenItem::socialSecurity) == usd("11439.00"));
    // Medicare has no base: 1.45 % of 216,000.
    CHECK(ofYear(yard, who, 2025, BurdenItem::medicare) == usd("3132.00"));
    // IRS Publication 15 (from memory; OpenStax, Principles of Accounting 1, 12.5): 0.6 % of the first $7,000 is $42.00.
    CHECK(ofYear(yard, who, 2025, BurdenItem::federalUnemployment) == usd("42.00"));
}

TEST_CASE("federal unemployment without the state's credit is 420 dollars a person", "[reference][burden]")
{
    Yard yard;
    yard.burden(BurdenItem::federalUnemployment, "2023-01-01", "6.0", usd("7000.00"));
    const auto who = yard.person("No credit", "");
    payTheYear(yard, who, 2025, 3);
    // OpenStax, Principles of Accounting 1, 12.5: 6.0 % of the first $7,000 is $420.
    CHECK(ofYear(yard, who, 2025, BurdenItem::federalUnemployment) == usd("420.00"));
}

TEST_CASE("an employer's taxes on two thousand dollars of pay", "[reference][burden]")
{
    auto yard = withTables();
    yard.burden(BurdenItem::stateUnemployment, "2023-02-01", "5.0");
    const auto who = yard.person("A month", "");
    const auto day = on("2025-03-03");
    pay(yard, who, day, "2000.00");
    // OpenStax, Principles of Accounting 1, 12.5: Social Security $124, Medicare $29, federal unemployment $12, state $100 (5 % of it): $265.
    CHECK(ofDay(yard, who, day, BurdenItem::socialSecurity) == usd("124.00"));
    CHECK(ofDay(yard, who, day, BurdenItem::medicare) == usd("29.00"));
    CHECK(ofDay(yard, who, day, BurdenItem::federalUnemployment) == usd("12.00"));
    CHECK(LaborCost{yard.book}.weekOf(who, day)->burdenTotal() == usd("265.00"));
    // The same chapter: $500 a week, 31.00 and 7.25 for each side.
    const auto weekly = yard.person("A week", "");
    pay(yard, weekly, day, "500.00");
    CHECK(ofDay(yard, weekly, day, BurdenItem::socialSecurity) == usd("31.00"));
    CHECK(ofDay(yard, weekly, day, BurdenItem::medicare) == usd("7.25"));
    // An exercise of the chapter: both on $8,000 are $612.
    const auto more = yard.person("More", "");
    pay(yard, more, day, "8000.00");
    CHECK(ofDay(yard, more, day, BurdenItem::socialSecurity) + ofDay(yard, more, day, BurdenItem::medicare) == usd("612.00"));
}

TEST_CASE("pay that crosses a wage base counts up to it", "[reference][burden]")
{
    auto yard = withTables();
    const auto who = yard.person("Crossing", "");
    // Computed from the base of 2025, 176,100: $175,000 so far, then a check of $3,000: 6.2 % of $1,100 is $68.20; Medicare on all of it is $43.50.
    yard.add(PayRate{.person = who, .fromDate = on("2025-01-01"), .dayRate = usd("7000.00")});
    for (int i = 0; i < 25; ++i) yard.worked(who, *Date::of(2025, 1 + i % 11, 3 + i / 11 * 9), 480);
    pay(yard, who, on("2025-12-08"), "3000.00");
    CHECK(ofDay(yard, who, on("2025-12-08"), BurdenItem::socialSecurity) == usd("68.20"));
    CHECK(ofDay(yard, who, on("2025-12-08"), BurdenItem::medicare) == usd("43.50"));
    // Computed from the base of $7,000: $6,500 so far, then $1,000: 0.6 % of $500 is $3.00.
    const auto small = yard.person("Small", "");
    pay(yard, small, on("2025-02-03"), "6500.00");
    pay(yard, small, on("2025-02-10"), "1000.00");
    CHECK(ofDay(yard, small, on("2025-02-10"), BurdenItem::federalUnemployment) == usd("3.00"));
    // The days entered the other way round, the later one first, come out the same.
    Yard other = withTables();
    const auto again = other.person("Again", "");
    pay(other, again, on("2025-02-10"), "1000.00");
    pay(other, again, on("2025-02-03"), "6500.00");
    CHECK(ofDay(other, again, on("2025-02-10"), BurdenItem::federalUnemployment) == usd("3.00"));
}

TEST_CASE("overhead on an hour", "[reference][burden]")
{
    // OpenStax, Principles of Accounting 2, 8.4: $10,000 over 2,000 h is $5.00, $9,600 over 1,800 h $5.33, $10,400 over 2,200 h $4.73.
    const auto perHour = [](std::string_view amount, int hours) {
        Yard yard;
        const auto who = yard.person("Crew");
        const auto job = yard.job("Job");
        yard.add(Overhead{.year = 2025, .item = "all", .amount = usd(amount)});
        for (int i = 0; i < hours / 10; ++i) yard.worked(who, on("2025-01-01") + i, 600, job);
        return overheadOf(yard.book, LaborCost{yard.book}, 2025, on("2025-12-31")).perHour->shown(2);
    };
    CHECK(perHour("10000.00", 2000) == "5.00");
    CHECK(perHour("9600.00", 1800) == "5.33");
    CHECK(perHour("10400.00", 2200) == "4.73");
}
