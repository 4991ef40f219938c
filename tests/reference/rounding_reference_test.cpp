#include "quantity/decimal.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

/// Thousandths to hundredths.
std::int64_t toCents(std::string_view figure) { return divideHalfUp(parseDecimal(figure, 3).value(), 10); }

}

TEST_CASE("RD-01 a third decimal above 4 goes up, others do not", "[reference][rounding]")
{
    // Source: Streamlined Sales and Use Tax Agreement, section 324 (tax carried to the third decimal, rounded up when it is greater
    // than four). The figures are our own.
    for (int third = 0; third <= 9; ++third) CHECK(divideHalfUp(12'340 + third, 10) == (third > 4 ? 1235 : 1234));
}

TEST_CASE("RD-05 half up to cents, with figures that a binary fraction gets wrong", "[reference][rounding]")
{
    // Source: the definition of rounding half up (away from zero); 2.145 and 1.005 have no exact binary form.
    CHECK(toCents("2.145") == 215);
    CHECK(toCents("2.155") == 216);
    CHECK(toCents("0.005") == 1);
    CHECK(toCents("0.015") == 2);
    CHECK(toCents("1.005") == 101);
    CHECK(toCents("-2.145") == -215);
}

TEST_CASE("RD-06 figures away from a tie round as in any table", "[reference][rounding]")
{
    // Source: Hartnell College, chemistry 22 hand-out on rounding. It rounds ties to even, so its tie 21.45 -> 21.4 is not ours.
    CHECK(shownDecimal(56'748, 3, 1) == "56.7");
    CHECK(shownDecimal(2'146, 3, 2) == "2.15");
    CHECK(shownDecimal(214'501, 4, 1) == "21.5");
}

TEST_CASE("V11 a line rounds its price once, from yards of three decimals", "[reference][rounding]")
{
    // Source: textbook exercise P3.7 on two footing sizes: 592 ft³ with 1 % waste at $78.50 a yd³ is $1,738.38. 592 / 27 × 1.01 = 22.145 yd³.
    const auto yards = Yards::ofUnits(divideHalfUp(Int128{592} * 101 * Yards::one, Int128{27} * 100));
    CHECK(yards.text() == "22.145");
    CHECK(lineAmount(*UnitPrice::parse("78.50"), yards) == Money::parse("1738.38"));
}
