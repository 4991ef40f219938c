#include "quantity/percent.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

Money dollars(std::string_view text) { return Money::parse(text).value(); }
Rate percent(std::string_view text) { return Rate::parse(text).value(); }

}

TEST_CASE("RD-02 sales tax on a price", "[reference][tax]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2.
    CHECK(percentOf(dollars("428.99"), percent("8.25")) == dollars("35.39"));
    CHECK(percentOf(dollars("34.88"), percent("8.25")) == dollars("2.88"));
    CHECK(withPercent(dollars("34.88"), percent("8.25")) == dollars("37.76"));
    CHECK(percentOf(dollars("499.00"), percent("8.81")) == dollars("43.96"));
    CHECK(withPercent(dollars("499.00"), percent("8.81")) == dollars("542.96"));
}

TEST_CASE("RD-03 the price inside a total with tax", "[reference][tax]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2.
    CHECK(beforePercent(dollars("467.64"), percent("8.25")) == dollars("432.00"));
    CHECK(dollars("467.64") - dollars("432.00") == dollars("35.64"));
    CHECK(percentOf(dollars("432.00"), percent("8.25")) == dollars("35.64"));
    CHECK(beforePercent(dollars("36.56"), percent("5.75")) == dollars("34.57"));
    CHECK(beforePercent(dollars("97.17"), percent("4.25")) == dollars("93.21"));
}

TEST_CASE("RD-04 tax by the item and by the invoice differ by a cent", "[reference][tax]")
{
    // Source: Streamlined Sales and Use Tax Agreement, section 324 lets the seller choose either; the figures are our own.
    const auto line = dollars("0.50");
    const auto byItem = percentOf(line, percent("7"));
    CHECK(byItem + byItem + byItem == dollars("0.12"));
    CHECK(percentOf(line + line + line, percent("7")) == dollars("0.11"));
}
