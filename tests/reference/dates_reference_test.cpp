#include "quantity/date.h"

#include <catch2/catch.hpp>

#include <utility>
#include <vector>

using namespace strikeoff;

namespace {

Date day(std::string_view text) { return Date::parse(text).value(); }

}

TEST_CASE("CAL-1 ISO 8601 weeks", "[reference][dates]")
{
    // Source: ISO 8601 week dates (Monday first, week 1 holds the first Thursday); the dates are those printed in the literature on it, all
    // recomputed with Python's isocalendar.
    const std::pair<std::string_view, std::string_view> weeks[] = {
        {"2005-01-01", "2004-W53-6"}, {"2005-01-02", "2004-W53-7"}, {"2005-12-31", "2005-W52-6"}, {"2006-01-01", "2005-W52-7"}, {"2006-12-31", "2006-W52-7"},
        {"2007-12-30", "2007-W52-7"}, {"2007-12-31", "2008-W01-1"}, {"2008-01-01", "2008-W01-2"}, {"2008-09-27", "2008-W39-6"}, {"2008-12-28", "2008-W52-7"},
        {"2008-12-29", "2009-W01-1"}, {"2009-12-31", "2009-W53-4"}, {"2010-01-01", "2009-W53-5"}, {"2010-01-03", "2009-W53-7"}, {"2010-01-04", "2010-W01-1"},
        {"2019-12-30", "2020-W01-1"}, {"2020-12-31", "2020-W53-4"}, {"2021-01-03", "2020-W53-7"}, {"2024-12-30", "2025-W01-1"}, {"2026-12-31", "2026-W53-4"},
    };
    for (const auto& [date, week] : weeks) CHECK(isoWeekText(day(date)) == week);
}

TEST_CASE("CAL-1 years of 53 weeks", "[reference][dates]")
{
    // Source: ISO 8601; 28 December always lies in the last week. List computed with Python's isocalendar.
    std::vector<int> longYears;
    for (int year = 2000; year < 2050; ++year)
        if (isoWeekText(*Date::of(year, 12, 28)).substr(5, 3) == "W53") longYears.push_back(year);
    CHECK(longYears == std::vector<int>{2004, 2009, 2015, 2020, 2026, 2032, 2037, 2043, 2048});
}

TEST_CASE("CAL-2 day counts agree with Julian day numbers", "[reference][dates]")
{
    // Source: Julian day numbers at noon as tabulated (2000-01-01 is 2451545, 1970-01-01 is 2440588).
    const std::pair<std::string_view, std::int64_t> julianDays[] = {{"1900-01-01", 2415021}, {"1970-01-01", 2440588}, {"2000-01-01", 2451545},
                                                                    {"2000-02-29", 2451604}, {"2024-12-30", 2460675}, {"2100-03-01", 2488129}};
    for (const auto& [date, number] : julianDays) CHECK(day(date).days() + 2440588 == number);
    CHECK(day("2000-01-01").days() == 10957);
    CHECK(day("2038-01-19").days() == 24855);
    CHECK(day("1900-01-01").days() == -25567);
}

TEST_CASE("CAL-2 leap years and the length of a year", "[reference][dates]")
{
    // Source: the Gregorian rule (every fourth year, full centuries only when 400 divides them); 2008-12-31 is day 366 of its year.
    CHECK(day("2008-12-31") - day("2007-12-31") == 366);
    CHECK(day("2007-12-31") - day("2006-12-31") == 365);
    CHECK_FALSE(Date::parse("1900-02-29"));
    CHECK(Date::parse("2000-02-29"));
    CHECK(Date::parse("2024-02-29"));
    CHECK_FALSE(Date::parse("2026-02-29"));
    CHECK_FALSE(Date::parse("2100-02-29"));
    CHECK(day("2100-03-01") - day("2100-02-28") == 1);
}

TEST_CASE("CAL-3, CAL-5 and CAL-6 days of the week", "[reference][dates]")
{
    // Source: Easter by the Gregorian rule, and US daylight time by 15 U.S.C. 260a (second Sunday of March, first of November): Sundays.
    for (const auto* sunday : {"1943-04-25", "1954-04-18", "1961-04-02", "1981-04-19", "2000-04-23", "2008-03-23", "2011-04-24", "2024-03-31", "2025-04-20", "2026-04-05",
                               "2038-04-25", "2049-04-18", "2076-04-19", "2024-03-10", "2024-11-03", "2025-03-09", "2025-11-02", "2026-03-08", "2026-11-01", "2027-03-14",
                               "2027-11-07"})
        CHECK(day(sunday).weekday() == 0);
    // Source: 5 U.S.C. 6103(a), days in 2022: Monday holidays, and Thanksgiving on the fourth Thursday of November.
    for (const auto* monday : {"2022-01-17", "2022-02-21", "2022-05-30", "2022-09-05", "2022-10-10"}) CHECK(day(monday).weekday() == 1);
    CHECK(day("2022-11-24").weekday() == 4);
}

TEST_CASE("IN-01 days late count from the day after the due date through the day of payment", "[reference][dates]")
{
    // Source: 5 CFR 1315.17(b): due 1 April, paid 11 April, 10 days.
    CHECK(day("2026-04-11") - day("2026-04-01") == 10);
}
