#include "quantity/rounding.h"

#include <catch2/catch.hpp>

#include <limits>
#include <numeric>
#include <random>

using namespace strikeoff;

namespace {

constexpr auto smallest = std::numeric_limits<std::int64_t>::min();
constexpr auto largest = std::numeric_limits<std::int64_t>::max();
using Shares = std::vector<std::int64_t>;

}

TEST_CASE("a half goes away from zero, less than a half does not", "[quantity]")
{
    CHECK(divideHalfUp(5, 2) == 3);
    CHECK(divideHalfUp(-5, 2) == -3);
    CHECK(divideHalfUp(5, -2) == -3);
    CHECK(divideHalfUp(-5, -2) == 3);
    CHECK(divideHalfUp(149, 100) == 1);
    CHECK(divideHalfUp(150, 100) == 2);
    CHECK(divideHalfUp(-149, 100) == -1);
    CHECK(divideHalfUp(0, 7) == 0);
    CHECK(divideHalfUp(1, 3) == 0);
    CHECK(divideHalfUp(2, 3) == 1);
}

TEST_CASE("rounding is exact and nearest for any whole numbers", "[quantity]")
{
    std::mt19937_64 random{11};
    for (int i = 0; i < 20'000; ++i) {
        const auto n = static_cast<std::int64_t>(random()) >> (random() % 60);
        const auto d = std::int64_t{1} + (static_cast<std::int64_t>(random() >> 1) >> (random() % 62));
        const Int128 rounded = divideHalfUp(n, d);
        const Int128 twiceOff = 2 * (rounded * d - n);
        REQUIRE(twiceOff <= d);
        REQUIRE(-twiceOff <= d);
        if (twiceOff == d) REQUIRE(n > 0);   // a tie went up
        if (-twiceOff == d) REQUIRE(n < 0);  // or, below zero, down
    }
}

TEST_CASE("what does not fit, and a division by zero, throws", "[quantity]")
{
    CHECK_THROWS_AS(divideHalfUp(1, 0), DomainError);
    CHECK_THROWS_AS(divideHalfUp(static_cast<Int128>(largest) + 1, 1), DomainError);
    CHECK(divideHalfUp(static_cast<Int128>(largest) * 10, 10) == largest);
    CHECK(divideHalfUp(static_cast<Int128>(smallest), 1) == smallest);
    CHECK_THROWS_AS(divideHalfUp(static_cast<Int128>(smallest), -1), DomainError);
    constexpr Int128 half = static_cast<Int128>(1) << 126;
    constexpr Int128 widest = half - 1 + half;
    CHECK(divideHalfUp(widest, widest) == 1);
    CHECK(divideHalfUp(widest / 2, widest) == 0);
    CHECK(divideHalfUp(widest / 2 + 1, widest) == 1);
    CHECK(divideHalfUp(-widest - 1, widest) == -1);
    CHECK(divideHalfUp(-widest - 1, -widest - 1) == 1);
}

TEST_CASE("sums and products that fit are exact, others throw", "[quantity]")
{
    CHECK(checkedAdd(largest - 1, 1) == largest);
    CHECK_THROWS_AS(checkedAdd(largest, 1), DomainError);
    CHECK_THROWS_AS(checkedAdd(smallest, -1), DomainError);
    CHECK(checkedSubtract(-1, largest) == smallest);
    CHECK_THROWS_AS(checkedSubtract(0, smallest), DomainError);
    CHECK(checkedMultiply(smallest, 1) == smallest);
    CHECK_THROWS_AS(checkedMultiply(smallest, -1), DomainError);
    CHECK_THROWS_AS(checkedMultiply(largest / 2, 3), DomainError);
}

TEST_CASE("a split gives the odd cents to the largest remainders, ties to the earlier share", "[quantity]")
{
    CHECK(splitEvenly(100'00, 3) == Shares{3334, 3333, 3333});
    CHECK(splitEvenly(2, 3) == Shares{1, 1, 0});
    CHECK(splitEvenly(0, 2) == Shares{0, 0});
    CHECK(splitEvenly(5, 0).empty());
    CHECK(splitByWeight(10, Shares{0, 3, 0}) == Shares{0, 10, 0});
    CHECK(splitByWeight(1, Shares{0, 1, 1}) == Shares{0, 1, 0});
    CHECK(splitByWeight(-100'00, Shares{1, 1, 1}) == Shares{-3334, -3333, -3333});
}

TEST_CASE("weights that cannot carry a total are a bug", "[quantity]")
{
    CHECK_THROWS_AS(splitByWeight(1, Shares{}), DomainError);
    CHECK_THROWS_AS(splitByWeight(1, Shares{0, 0}), DomainError);
    CHECK_THROWS_AS(splitByWeight(1, Shares{2, -1}), DomainError);
}

TEST_CASE("the ends of 64 bits are split like any total", "[quantity]")
{
    CHECK(splitByWeight(smallest, Shares{5}) == Shares{smallest});
    CHECK(splitByWeight(largest, Shares{largest}) == Shares{largest});
    CHECK(splitByWeight(smallest, Shares{largest, largest}) == Shares{smallest / 2, smallest / 2});
}

TEST_CASE("shares add up to the total, and each is its exact share rounded down or up", "[quantity]")
{
    std::mt19937_64 random{13};
    for (int i = 0; i < 5'000; ++i) {
        const auto total = static_cast<std::int64_t>(random()) >> (random() % 64);
        Shares weights(1 + random() % 12);
        for (auto& weight : weights) weight = random() % 4 == 0 ? 0 : static_cast<std::int64_t>(random() >> 1) >> (random() % 63);
        const auto sum = std::accumulate(weights.begin(), weights.end(), Int128{0});
        if (sum == 0) continue;
        const auto shares = splitByWeight(total, weights);
        REQUIRE(shares.size() == weights.size());
        REQUIRE(std::accumulate(shares.begin(), shares.end(), Int128{0}) == total);
        for (std::size_t s = 0; s < shares.size(); ++s) {
            // |share − total × weight / sum| < 1, kept whole; the quotient and the rest apart, so that nothing overflows.
            const Int128 product = static_cast<Int128>(total) * weights[s];
            const Int128 down = product / sum;
            const bool exact = product % sum == 0;
            const Int128 up = exact ? down : down + (product < 0 ? -1 : 1);
            REQUIRE((shares[s] == down || shares[s] == up));
        }
        if (total == smallest) continue;
        Shares mirrored = splitByWeight(-total, weights);
        for (auto& share : mirrored) share = -share;
        REQUIRE(mirrored == shares);
    }
}
