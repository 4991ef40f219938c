#include "quantity/words.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace strikeoff;

TEST_CASE("small counts are words, larger ones figures", "[quantity]")
{
    CHECK(inWords(0) == "no");
    CHECK(inWords(1) == "one");
    CHECK(inWords(12) == "twelve");
    CHECK(inWords(13) == "13");
    CHECK(inWords(1204) == "1,204");
    CHECK(counted(1, "job", "jobs") == "one job");
    CHECK(counted(0, "job", "jobs") == "no jobs");
    CHECK(capitalized("nine of eleven") == "Nine of eleven");
    CHECK(capitalized("") == "");
}

TEST_CASE("lists, sums and days read like a sentence", "[quantity]")
{
    CHECK(listed({}) == "");
    CHECK(listed(std::vector<std::string>{"a"}) == "a");
    CHECK(listed(std::vector<std::string>{"a", "b"}) == "a and b");
    CHECK(listed(std::vector<std::string>{"a", "b", "c"}) == "a, b and c");
    CHECK(dollars(Money::ofCents(123450)) == "$1,234.50");
    CHECK(dollars(Money::ofCents(-1200)) == "\u2212$12.00");
    const auto day = Date::of(2026, 11, 25).value();
    CHECK(dayText(day, day) == "today");
    CHECK(dayText(day + 1, day) == "tomorrow");
    CHECK(dayText(day - 1, day) == "yesterday");
    CHECK(dayText(day + 2, day) == "Fri Nov 27");
    CHECK(dayText(day + 90, day) == "Tue Feb 23");
    CHECK(dayText(day + 91, day) == "Feb 24, 2027");
    CHECK(dayText(day - 400, day) == "Oct 21, 2025");
}
