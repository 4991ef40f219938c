#include "quantity/percent.h"

#include <catch2/catch.hpp>

#include <limits>
#include <random>

using namespace strikeoff;

TEST_CASE("what a percentage was put on is found again to the cent", "[quantity]")
{
    std::mt19937_64 random{19};
    for (int i = 0; i < 20'000; ++i) {
        const auto base = Money::ofCents(static_cast<std::int64_t>(random() % 200'000'000) - 100'000'000);
        const auto rate = Rate::ofUnits(static_cast<std::int64_t>(random() % 2'000'000));
        REQUIRE(beforePercent(withPercent(base, rate), rate) == base);
    }
}

TEST_CASE("a percentage of nothing, and one that takes everything, has no answer", "[quantity]")
{
    CHECK_FALSE(percentPutOn(Money{}, Money::ofCents(100)));
    CHECK_FALSE(beforePercent(Money::ofCents(100), Rate::ofWhole(-100)));
    CHECK_FALSE(beforePercent(Money::ofCents(100), Rate::ofWhole(-101)));
    CHECK_FALSE(markupForMargin(Rate::ofWhole(100)));
    CHECK_FALSE(marginForMarkup(Rate::ofWhole(-100)));
    CHECK(percentPutOn(Money::ofCents(100), Money::ofCents(100)) == Rate{});
    CHECK(percentPutOn(Money::ofCents(-10000), Money::ofCents(-11500)) == Rate::ofWhole(15));
    CHECK(percentPutOn(Money::ofCents(20000), Money::ofCents(15000)) == Rate::ofWhole(-25));
}

TEST_CASE("a percentage too large to be kept is no answer", "[quantity]")
{
    CHECK_FALSE(percentPutOn(Money::ofCents(1), Money::ofCents(std::numeric_limits<std::int64_t>::max())));
    CHECK_FALSE(percentPutOn(Money::ofCents(-1), Money::ofCents(999'999'999'999'999)));
    CHECK_FALSE(percentPutOn(Money::ofCents(1), Money::ofCents(std::numeric_limits<std::int64_t>::min())));
    CHECK_FALSE(beforePercent(Money::ofCents(999'999'999'999'999), Rate::ofUnits(-999'999)));
    CHECK(percentPutOn(Money::ofCents(1'000'000), Money::ofCents(1'000'000'000'000'000)) == Rate::ofUnits(999'999'999'000'000));
    CHECK(markupForMargin(Rate::ofUnits(999'999)) == Rate::ofUnits(999'999'000'000));
    CHECK(markupForMargin(Rate::ofUnits(std::numeric_limits<std::int64_t>::min())) == Rate::ofWhole(-100));
    CHECK(marginForMarkup(Rate::ofUnits(999'999'999'999'999)) == Rate::ofWhole(100));
}
