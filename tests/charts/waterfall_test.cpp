#include "waterfall.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

Waterfall sample()
{
    Waterfall waterfall;
    waterfall.from = "Bid";
    waterfall.start = 1000;
    waterfall.to = "Result";
    waterfall.groups = {{"The job", "+150", {{"area", 100, "+100"}, {"mix", 50, "+50"}}}, {"Prices", "\u221230", {{"base price", -30, "\u221230"}}}, {"Nothing", {}, {}}};
    return waterfall;
}

}

TEST_CASE("each step of a waterfall begins where the one before it ended", "[charts]")
{
    const auto rows = rowsOf(sample(), 100);
    REQUIRE(rows.size() == 6);  // bid, the job and its two steps, the one step of prices, result; a group of nothing is none
    CHECK(rows[1].part == WaterfallRow::Part::group);
    CHECK(rows[1].to == Approx(1150));
    CHECK(rows[2].from == Approx(1000));
    CHECK(rows[2].to == Approx(1100));
    CHECK(rows[3].from == Approx(1100));
    CHECK(rows[4].name == "Prices: base price");
    CHECK(rows[4].to == Approx(1120));
    CHECK(rows[5].to == Approx(1120));
}

TEST_CASE("a waterfall that lacks room tells its smallest steps as one and still adds up", "[charts]")
{
    Waterfall waterfall;
    waterfall.start = 500;
    waterfall.groups = {{"Prices", "", {{"a", 40, ""}, {"b", -3, ""}, {"c", 5, ""}, {"d", 60, ""}, {"e", 2, ""}}}};
    const auto rows = rowsOf(waterfall, 6);
    REQUIRE(rows.size() == 6);
    CHECK(rows[4].name == "3 smaller ones");
    CHECK(rows[4].to - rows[4].from == Approx(4));
    CHECK(rows.back().to == Approx(604));
}

TEST_CASE("where there is least room a waterfall is its causes alone", "[charts]")
{
    const auto rows = rowsOf(sample(), 4);
    REQUIRE(rows.size() == 4);
    CHECK(rows[1].name == "The job");
    CHECK(rows[1].to == Approx(1150));
    CHECK(rows[3].to == Approx(1120));
}
