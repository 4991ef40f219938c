#include "quantity/decimal.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

TEST_CASE("money reads and prints plain decimals", "[quantity]")
{
    CHECK(Money::parse("1234.50") == Money::ofCents(123450));
    CHECK_FALSE(Money::parse("12.345"));
    CHECK(Money::ofCents(-5).text() == "-0.05");
}
