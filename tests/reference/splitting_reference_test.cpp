#include "quantity/decimal.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

using Shares = std::vector<std::int64_t>;

}

// Source of SP-01 to SP-04 and SP-06: OpenStax, Contemporary Mathematics, chapters 11.4 and 11.5 (method of Hamilton: every share gets
// its lower quota, what is left goes to the largest remainders).

TEST_CASE("SP-01 one unit more can make a share fall", "[reference][splitting]")
{
    CHECK(splitByWeight(10, Shares{6, 6, 2}) == Shares{4, 4, 2});
    CHECK(splitByWeight(11, Shares{6, 6, 2}) == Shares{5, 5, 1});
}

TEST_CASE("SP-02 three shares before and after growth", "[reference][splitting]")
{
    CHECK(splitByWeight(38, Shares{894'000, 696'000, 215'000}) == Shares{19, 15, 4});
    CHECK(splitByWeight(38, Shares{953'000, 706'000, 218'000}) == Shares{19, 14, 5});
}

TEST_CASE("SP-03 three shares of eighteen", "[reference][splitting]")
{
    CHECK(splitByWeight(18, Shares{825, 613, 239}) == Shares{9, 7, 2});
    CHECK(splitByWeight(18, Shares{882, 626, 242}) == Shares{9, 6, 3});
}

TEST_CASE("SP-04 three left over after the lower quotas 5, 5, 2, 6, 3, 3", "[reference][splitting]")
{
    // The book prints the lower quotas and the shortfall; who gets the three follows from its method.
    CHECK(splitByWeight(27, Shares{13, 12, 5, 16, 7, 9}) == Shares{6, 5, 2, 7, 3, 4});
}

TEST_CASE("SP-05 five shares", "[reference][splitting]")
{
    // Source: solutions to homework on the same method, a secondary copy; recomputed with exact fractions.
    CHECK(splitByWeight(40, Shares{153, 411, 81, 92, 163}) == Shares{7, 18, 4, 4, 7});
    CHECK(splitByWeight(42, Shares{247, 185, 459, 400, 413}) == Shares{6, 5, 11, 10, 10});
}

TEST_CASE("SP-06 a small share may get nothing: money has no rule of at least one", "[reference][splitting]")
{
    // The book prints 87, 424, 1, 31, 73, as its example hands out seats and every state must have one. A charge is split without that
    // rule, or a line worth nothing would be charged; the method alone gives 0.
    CHECK(splitByWeight(616, Shares{46'310, 224'230, 20, 16'560, 38'450}) == Shares{88, 424, 0, 31, 73});
}

TEST_CASE("SP-07 money is split to the cent, the odd cent to the first line at a tie", "[reference][splitting]")
{
    // Source: the same method, with figures of our own.
    const auto cents = [](std::initializer_list<std::int64_t> figures) {
        std::vector<Money> money;
        for (const auto figure : figures) money.push_back(Money::ofCents(figure));
        return money;
    };
    CHECK(split(Money::ofCents(100'00), Shares{1, 1, 1}) == cents({33'34, 33'33, 33'33}));
    CHECK(split(Money::ofCents(1'00), Shares{6, 6, 2}) == cents({43, 43, 14}));
    CHECK(split(Money::ofCents(-100'00), Shares{1, 1, 1}) == cents({-33'34, -33'33, -33'33}));
}
