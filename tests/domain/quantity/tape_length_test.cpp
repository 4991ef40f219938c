#include "quantity/tape_length.h"

#include <catch2/catch.hpp>

#include <limits>
#include <random>

using namespace strikeoff;

namespace {

TapeLength sixteenths(std::int64_t count) { return TapeLength::ofSixteenths(count); }
TapeLength feetInches(std::int64_t feet, std::int64_t inches, std::int64_t part = 0) { return sixteenths((feet * 12 + inches) * 16 + part); }

constexpr std::int64_t tenMiles = std::int64_t{10} * 5280 * 192;

}

TEST_CASE("the ways a tape is written down", "[quantity]")
{
    CHECK(TapeLength::parse("12' 6-1/2\"") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12' 6 1/2\"") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12'6-1/2\"") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12'-6-1/2\"") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12' 6") == feetInches(12, 6));
    CHECK(TapeLength::parse("12' 1/2\"") == feetInches(12, 0, 8));
    CHECK(TapeLength::parse("12' 0\"") == feetInches(12, 0));
    CHECK(TapeLength::parse("12'") == feetInches(12, 0));
    CHECK(TapeLength::parse("1'") == feetInches(1, 0));
    CHECK(TapeLength::parse("12.5'") == feetInches(12, 6));
    CHECK(TapeLength::parse("12 1/2'") == feetInches(12, 6));
    CHECK(TapeLength::parse("150.5\"") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("6\"") == feetInches(0, 6));
    CHECK(TapeLength::parse("1/2\"") == sixteenths(8));
    CHECK(TapeLength::parse(".5\"") == sixteenths(8));
    CHECK(TapeLength::parse("0\"") == TapeLength{});
    CHECK(TapeLength::parse(" 12 ' 6 \" ") == feetInches(12, 6));
    CHECK(TapeLength::parse("0' 3/16\"") == sixteenths(3));
}

TEST_CASE("a bare number is feet", "[quantity]")
{
    CHECK(TapeLength::parse("40") == feetInches(40, 0));
    CHECK(TapeLength::parse("6.5") == feetInches(6, 6));
    CHECK(TapeLength::parse("6 1/2") == feetInches(6, 6));
    CHECK(TapeLength::parse("1,250") == feetInches(1250, 0));
    CHECK(TapeLength::parse("0") == TapeLength{});
}

TEST_CASE("a dash between whole numbers is feet and inches, before a fraction it is its own", "[quantity]")
{
    CHECK(TapeLength::parse("12-6") == feetInches(12, 6));
    CHECK(TapeLength::parse("12-6 1/2") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12-6-1/2") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12-6.5") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12-0") == feetInches(12, 0));
    CHECK(TapeLength::parse("0-6") == feetInches(0, 6));
    CHECK(TapeLength::parse("6-1/2") == feetInches(6, 6));        // six and a half feet
    CHECK(TapeLength::parse("6-1/2\"") == feetInches(0, 6, 8));   // six and a half inches
    CHECK(TapeLength::parse("12-6\"") == feetInches(12, 6));
    CHECK(TapeLength::parse("12-6 1/2\"") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12-6-1/2\"") == feetInches(12, 6, 8));
}

TEST_CASE("typographic marks and ft, in", "[quantity]")
{
    CHECK(TapeLength::parse("12\u2032 6-1/2\u2033") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("12\u2019 6\u201d") == feetInches(12, 6));
    CHECK(TapeLength::parse("6''") == feetInches(0, 6));
    CHECK(TapeLength::parse("12 ft 6 in") == feetInches(12, 6));
    CHECK(TapeLength::parse("12 ft. 6-1/2 in.") == feetInches(12, 6, 8));
    CHECK(TapeLength::parse("40 ft") == feetInches(40, 0));
}

TEST_CASE("a decimal between sixteenths goes to the nearest", "[quantity]")
{
    // 12.33 ft = 147.96 in = 2367.36 sixteenths; 5/32 in lies half way between 2 and 3 sixteenths.
    CHECK(TapeLength::parse("12.33'") == sixteenths(2367));
    CHECK(TapeLength::parse("5/32\"") == sixteenths(3));
    CHECK(TapeLength::parse("0.03\"") == sixteenths(0));
    CHECK(TapeLength::parse("11' 11.999\"") == feetInches(12, 0));
}

TEST_CASE("what is no length is refused", "[quantity]")
{
    for (const auto* text : {"",       " ",      "'",         "\"",       "'6\"",     "12'\"",    "12' \"",    "12'-",      "12-",      "-",        "-12",       "-12'",     "-6\"",    "-6-1/2",
                             "12' -- 6", "12-6-3", "12 6",      "12 6 1/2", "12'6'",    "12\"6\"",  "6\" 12'",   "12' 6\" 3", "12' 12\"", "12-12",    "12' 13",    "12.5' 6\"", "12.5-6",  "12' 1/3\"",
                             "1/0",    "x",      "12 x",      "12 m",     "1e3",      "(12)",     "$12",       "12' $6\"",  "\u221212", "\u22120'", "12' 6\"\"", "12'''",    "..",      ".",
                             ".'",     "1/2/3'", "12\xE2\x80", "\xFF",     "12' 6 3/2\""}) {
        INFO(text);
        CHECK_FALSE(TapeLength::parse(text));
    }
    CHECK_FALSE(TapeLength::parse(std::string(61, '1')));
}

TEST_CASE("ten miles are read, more is not", "[quantity]")
{
    CHECK(TapeLength::parse("52800'") == sixteenths(tenMiles));
    CHECK(TapeLength::parse("633600\"") == sixteenths(tenMiles));
    CHECK_FALSE(TapeLength::parse("52800' 1\""));
    CHECK_FALSE(TapeLength::parse("52801"));
    CHECK_FALSE(TapeLength::parse("633601\""));
    CHECK_FALSE(TapeLength::parse("999999999'"));
    CHECK_FALSE(TapeLength::parse("999999999999999\""));
}

TEST_CASE("a length is printed as a tape reads it", "[quantity]")
{
    CHECK(feetInches(12, 6, 8).text() == "12' 6-1/2\"");
    CHECK(feetInches(12, 0, 0).text() == "12'");
    CHECK(feetInches(12, 0, 3).text() == "12' 3/16\"");
    CHECK(feetInches(0, 6, 0).text() == "6\"");
    CHECK(feetInches(0, 0, 4).text() == "1/4\"");
    CHECK(TapeLength{}.text() == "0\"");
    CHECK(sixteenths(-8).text() == "-1/2\"");
    CHECK(sixteenths(std::numeric_limits<std::int64_t>::min()).text() == "-48038396025285290' 8\"");
}

TEST_CASE("every printed length is read back as the same length", "[quantity]")
{
    for (std::int64_t count = 0; count < 40 * 192; ++count) REQUIRE(TapeLength::parse(sixteenths(count).text()) == sixteenths(count));
    std::mt19937_64 random{3};
    for (int i = 0; i < 20'000; ++i) {
        const auto length = sixteenths(static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(tenMiles + 1)));
        REQUIRE(TapeLength::parse(length.text()) == length);
    }
}

TEST_CASE("any bytes are a length from 0 to ten miles, or nothing", "[quantity]")
{
    std::mt19937 random{17};
    constexpr std::string_view marks = "0123456789'\"-/. ftin,$(\xE2\x80\xB2\xB3";
    int read = 0;
    for (int i = 0; i < 60'000; ++i) {
        std::string text;
        for (auto n = random() % 10; n > 0; --n) text += random() % 12 == 0 ? static_cast<char>(random() % 256) : marks[random() % marks.size()];
        const auto length = TapeLength::parse(text);
        if (!length) continue;
        ++read;
        INFO(text);
        REQUIRE(length->sixteenths() >= 0);
        REQUIRE(length->sixteenths() <= tenMiles);
        REQUIRE(TapeLength::parse(length->text()) == length);
    }
    CHECK(read > 1'000);
}

TEST_CASE("lengths that do not fit throw", "[quantity]")
{
    constexpr auto largest = std::numeric_limits<std::int64_t>::max();
    CHECK_THROWS_AS(TapeLength::ofFeet(largest / 100), DomainError);
    CHECK_THROWS_AS(TapeLength::ofInches(largest / 10), DomainError);
    CHECK_THROWS_AS(sixteenths(largest) + sixteenths(1), DomainError);
    CHECK(feetInches(12, 6) - feetInches(12, 0) == TapeLength::ofInches(6));
    CHECK(TapeLength::ofFeet(12, 6) == feetInches(12, 6));
}
