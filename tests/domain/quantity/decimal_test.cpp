#include "quantity/decimal.h"

#include <catch2/catch.hpp>

#include <array>
#include <limits>
#include <random>

using namespace strikeoff;

namespace {

constexpr auto smallest = std::numeric_limits<std::int64_t>::min();
constexpr auto largest = std::numeric_limits<std::int64_t>::max();
constexpr std::int64_t mostRead = 999'999'999'999'999;

}

TEST_CASE("money reads and prints plain decimals", "[quantity]")
{
    CHECK(Money::parse("1234.50") == Money::ofCents(123450));
    CHECK(Money::parse("1234.5") == Money::ofCents(123450));
    CHECK(Money::parse("-0.05") == Money::ofCents(-5));
    CHECK(Money::parse("0") == Money{});
    CHECK(Money::parse("-0") == Money{});
    CHECK(Money::parse("007.00") == Money::ofCents(700));
    CHECK(Money::ofCents(-5).text() == "-0.05");
    CHECK(Money::ofCents(100).text() == "1.00");
    CHECK(Money{}.text() == "0.00");
    CHECK(Yards::ofUnits(9500).text() == "9.5");
    CHECK(Yards::ofUnits(10'000).text() == "10");
    CHECK(UnitPrice::ofUnits(1'480'000).text() == "148.00");
    CHECK(UnitPrice::ofUnits(10'125).text() == "1.0125");
    CHECK(Rate::ofUnits(82'500).text() == "8.25");
}

TEST_CASE("a plain decimal takes nothing but digits, a point and a minus", "[quantity]")
{
    for (const auto* text : {"", "-", ".", "-.", ".5", "5.", "-5.", "+5", "1,250", " 5", "5 ", "5\n", "1.2.3", "--5", "5-", "1e3", "0x10", "nan", "inf", "$5", "\u22125", "\u0665"}) {
        INFO(text);
        CHECK_FALSE(parseDecimal(text, 3));
    }
}

TEST_CASE("decimals that would be lost are refused, zeros are not", "[quantity]")
{
    CHECK_FALSE(Money::parse("12.345"));
    CHECK(Money::parse("12.3400000000000000000000") == Money::ofCents(1234));
    CHECK_FALSE(Money::parse("12.3400000000000000000001"));
    CHECK(Yards::parse("12.345") == Yards::ofUnits(12'345));
    CHECK(parseDecimal("7", 0) == 7);
    CHECK(parseDecimal("7.0", 0) == 7);
    CHECK_FALSE(parseDecimal("7.5", 0));
}

TEST_CASE("figures past 15 digits are refused, the largest ones are read", "[quantity]")
{
    CHECK(Money::parse("9999999999999.99") == Money::ofCents(mostRead));
    CHECK(Money::parse("-9999999999999.99") == Money::ofCents(-mostRead));
    CHECK_FALSE(Money::parse("10000000000000.00"));
    CHECK_FALSE(Money::parse("10000000000000"));
    CHECK_FALSE(Money::parse(std::string(400, '9')));
    CHECK(Money::parse(std::string(400, '0') + "1") == Money::ofCents(100));
    CHECK(parseDecimal("999999999999999", 0) == mostRead);
    CHECK_FALSE(parseDecimal("1000000000000000", 0));
}

TEST_CASE("what is printed is read back as the same figure", "[quantity]")
{
    std::mt19937_64 random{41};
    for (int i = 0; i < 20'000; ++i) {
        const auto bound = std::int64_t{1} << (random() % 50);
        const auto units = static_cast<std::int64_t>(random() % static_cast<std::uint64_t>(2 * bound)) - bound;
        if (units > mostRead || units < -mostRead) continue;
        REQUIRE(Money::parse(Money::ofCents(units).text()) == Money::ofCents(units));
        REQUIRE(UnitPrice::parse(UnitPrice::ofUnits(units).text()) == UnitPrice::ofUnits(units));
        REQUIRE(Yards::parse(Yards::ofUnits(units).text()) == Yards::ofUnits(units));
        REQUIRE(Degrees::parse(Degrees::ofUnits(units).text()) == Degrees::ofUnits(units));
        // What is shown to people can be typed back, too.
        REQUIRE(readDecimal(Money::ofCents(units).shown(), 2) == units);
        REQUIRE(readDecimal(Yards::ofUnits(units).shown(3), 3) == units);
    }
}

TEST_CASE("typed money: dollar sign, thousands marks, minus in three ways", "[quantity]")
{
    CHECK(readDecimal("$1,250", 2) == 125'000);
    CHECK(readDecimal(" $ 1,250.5 ", 2) == 125'050);
    CHECK(readDecimal("1,234,567.89", 2) == 123'456'789);
    CHECK(readDecimal(".5", 2) == 50);
    CHECK(readDecimal("5.", 2) == 500);
    CHECK(readDecimal("(12.50)", 2) == -1250);
    CHECK(readDecimal("($12.50)", 2) == -1250);
    CHECK(readDecimal("\u221212.50", 2) == -1250);
    CHECK(readDecimal("-12.50", 2) == -1250);
    CHECK(readDecimal("-$12.50", 2) == -1250);
    CHECK(readDecimal("-.5", 2) == -50);
}

TEST_CASE("typed fractions, with a space or a dash after the whole", "[quantity]")
{
    CHECK(readDecimal("9 1/2", 3) == 9'500);
    CHECK(readDecimal("9-1/2", 3) == 9'500);
    CHECK(readDecimal("9  1/2", 3) == 9'500);
    CHECK(readDecimal("1/4", 3) == 250);
    CHECK(readDecimal("-9 1/2", 3) == -9'500);
    CHECK(readDecimal("-9-1/2", 3) == -9'500);
    CHECK(readDecimal("-1/2", 3) == -500);
    CHECK(readDecimal("1,250 1/2", 3) == 1'250'500);
    CHECK(readDecimal("5/2", 3) == 2'500);
    CHECK(readDecimal("5 1/8", 3) == 5'125);
}

TEST_CASE("fractions that would be rounded or make no sense are refused", "[quantity]")
{
    for (const auto* text : {"1/3", "9 1/3", "1/16", "1/0", "9 1/0", "1/", "/2", "9 /2", "9 1/", "1/2/4", "9.5 1/2", "9 - 1/2", "9 -1/2", "9- 1/2", "1 / 4", "9 3/2", "9 2/2", "9--1/2", "9 1/-2", "1/2 9", "--1/2", "1.5/2",
                             "1 2 1/2"}) {
        INFO(text);
        CHECK_FALSE(readDecimal(text, 3));
    }
    CHECK(readDecimal("1/16", 4) == 625);
}

TEST_CASE("typed text that is no figure is refused, a lone point too", "[quantity]")
{
    for (const auto* text : {"", " ", ".", "$", "$.", "-", "-.", "(.)", "()", "( )", "(5", "5)", "(-5)", "((5))", "--5", "+5", "1,2", "12,50", "1,2345", "1234,567", ",250", "1,250,", "1,,250", ".5,5",
                             "1.234,56", "5 5", "5 yd", "1e3", "ten", "$$5", "5\xE9", "\xE2\x88", "NaN"}) {
        INFO(text);
        CHECK_FALSE(readDecimal(text, 2));
    }
}

TEST_CASE("a typed figure stays within 15 digits, with a fraction too", "[quantity]")
{
    CHECK(readDecimal("999,999,999,999.999", 3) == mostRead);
    CHECK(readDecimal("999999999999 1/2", 3) == 999'999'999'999'500);
    CHECK_FALSE(readDecimal("999999999999999 1/2", 3));
    CHECK_FALSE(readDecimal("1000000/1", 9));
    CHECK_FALSE(readDecimal("1,000,000,000,000", 3));
}

TEST_CASE("any bytes are either a figure that prints and reads again, or nothing", "[quantity]")
{
    std::mt19937 random{5};
    constexpr std::string_view marks = "0123456789.,-/ $()'\"\xE2\x88\x92\xFF\teE+";
    int read = 0;
    for (int i = 0; i < 60'000; ++i) {
        std::string text;
        for (auto n = random() % 12; n > 0; --n) text += random() % 10 == 0 ? static_cast<char>(random() % 256) : marks[random() % marks.size()];
        const int scale = static_cast<int>(random() % 7);
        static_cast<void>(parseDecimal(text, scale));
        const auto units = readDecimal(text, scale);
        if (!units) continue;
        ++read;
        INFO(text << " at scale " << scale);
        REQUIRE(parseDecimal(formatDecimal(*units, scale, 0), scale) == units);
    }
    CHECK(read > 1'000);
}

TEST_CASE("people see thousands marks, a real minus and just the decimals asked for", "[quantity]")
{
    CHECK(Money::ofCents(123'456'789).shown() == "1,234,567.89");
    CHECK(Money::ofCents(-123'456).shown() == "\u22121,234.56");
    CHECK(Money::ofCents(99'999).shown() == "999.99");
    CHECK(Money::ofCents(100'000).shown() == "1,000.00");
    CHECK(Money::ofCents(123'456).shown(0) == "1,235");
    CHECK(Money::ofCents(-49).shown(0) == "0");
    CHECK(Money::ofCents(-50).shown(0) == "\u22121");
    CHECK(Yards::ofUnits(9'500).shown(2) == "9.50");
    CHECK(Yards::ofUnits(9'500).shown(0) == "10");
    CHECK(shownDecimal(150, 2, 4) == "1.5000");
    CHECK(shownDecimal(12, 0, 2) == "12.00");
}

TEST_CASE("the ends of 64 bits print and never wrap round", "[quantity]")
{
    CHECK(Money::ofCents(smallest).text() == "-92233720368547758.08");
    CHECK(Money::ofCents(smallest).shown() == "\u221292,233,720,368,547,758.08");
    CHECK(Money::ofCents(largest).shown() == "92,233,720,368,547,758.07");
    CHECK_THROWS_AS(Money::ofCents(largest) + Money::ofCents(1), DomainError);
    CHECK_THROWS_AS(Money::ofCents(smallest) - Money::ofCents(1), DomainError);
    CHECK_THROWS_AS(-Money::ofCents(smallest), DomainError);
    CHECK_THROWS_AS(Money::ofCents(largest) * 2, DomainError);
    CHECK_THROWS_AS(Money::ofWhole(largest / 10), DomainError);
    CHECK_THROWS_AS(lineAmount(UnitPrice::ofUnits(largest), Yards::ofUnits(largest)), DomainError);
    CHECK_THROWS_AS(percentOf(Money::ofCents(largest), Rate::ofWhole(101)), DomainError);
    CHECK(percentOf(Money::ofCents(smallest), Rate::ofWhole(100)) == Money::ofCents(smallest));
}

TEST_CASE("a line is price times quantity, rounded once", "[quantity]")
{
    // Our rule: 148.00 × 9.375 = 1387.50; 1.0125 × 0.5 = 0.50625, half a cent and more goes up.
    CHECK(lineAmount(UnitPrice::ofWhole(148), Yards::ofUnits(9'375)) == Money::ofCents(138'750));
    CHECK(lineAmount(UnitPrice::ofUnits(10'125), Quantity::ofUnits(500)) == Money::ofCents(51));
    CHECK(lineAmount(UnitPrice::ofUnits(100), Quantity::ofUnits(500)) == Money::ofCents(1));  // exactly half a cent
    CHECK(lineAmount(UnitPrice::ofUnits(-100), Quantity::ofUnits(500)) == Money::ofCents(-1));
    CHECK(lineAmount(UnitPrice::ofUnits(65'000), Area::ofUnits(40'000)) == Money::ofCents(260'000));
}
