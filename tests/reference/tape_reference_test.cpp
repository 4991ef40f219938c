#include "quantity/decimal.h"
#include "quantity/tape_length.h"

#include <catch2/catch.hpp>

#include <utility>

using namespace strikeoff;

namespace {

TapeLength tape(std::string_view text) { return TapeLength::parse(text).value(); }

/// A box measured by tape in thousandths of a cubic foot, and of a cubic yard, without a fraction of a foot in between.
std::int64_t cubicFeet(TapeLength a, TapeLength b, TapeLength c)
{
    return divideHalfUp(Int128{1000} * a.sixteenths() * b.sixteenths() * c.sixteenths(), Int128{192} * 192 * 192);
}
std::int64_t cubicYards(TapeLength a, TapeLength b, TapeLength c)
{
    return divideHalfUp(Int128{1000} * a.sixteenths() * b.sixteenths() * c.sixteenths(), Int128{27} * 192 * 192 * 192);
}

}

TEST_CASE("V1 square feet that a cubic yard covers, by thickness", "[reference][tape]")
{
    // Source: 27 ft³ × 12 in = 324; the divisors 162, 81 and 54 are printed in trade literature, the rest is arithmetic.
    const std::pair<std::string_view, std::string_view> coverage[] = {{"2\"", "162.00"}, {"3\"", "108.00"}, {"3-1/2\"", "92.57"}, {"4\"", "81.00"},   {"5\"", "64.80"},
                                                                      {"5.5\"", "58.91"}, {"6\"", "54.00"}, {"8\"", "40.50"},      {"10\"", "32.40"}, {"12\"", "27.00"}};
    for (const auto& [thickness, area] : coverage)
        CHECK(shownDecimal(divideHalfUp(Int128{27} * 100 * 192, tape(thickness).sixteenths()), 2, 2) == area);
}

TEST_CASE("V2 and V3 slabs, with inches never turned into a rounded fraction of a foot", "[reference][tape]")
{
    // Source: geometry. A 4 in slab at 0.34 ft would give 1.511 yd³, at 0.33 ft 1.467.
    CHECK(cubicFeet(tape("4'"), tape("30'"), tape("4\"")) == 40'000);
    CHECK(cubicYards(tape("4'"), tape("30'"), tape("4\"")) == 1'481);
    CHECK(shownDecimal(cubicFeet(tape("10'"), tape("10'"), tape("3-1/2\"")), 3, 2) == "29.17");
    CHECK(cubicYards(tape("10'"), tape("10'"), tape("3 1/2\"")) == 1'080);
}

TEST_CASE("V10 feet in three decimals are the inches they were taped in, in two they are a sixteenth off", "[reference][tape]")
{
    // Source: Navy training manual NAVEDTRA 14070, chapter 5, writes 18 ft 8 in as 18.67 and 4 in as .33. 18.67 ft are 224.04 in, .33 ft
    // are 3.96 in; the nearest sixteenths of those are what a program may read, not the inches the author meant.
    CHECK(tape("18.667'") == tape("18' 8\""));
    CHECK(tape("33.333'") == tape("33' 4\""));
    CHECK(tape("0.333'") == tape("4\""));
    CHECK(tape("18.67'") == tape("18' 8-1/16\""));
    CHECK(tape(".33'") == tape("3-15/16\""));
}
