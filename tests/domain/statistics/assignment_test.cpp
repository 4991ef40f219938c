#include "statistics/assignment.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace strikeoff;

namespace {

constexpr std::int64_t never = 1'000'000'000;

/// Every way to give rows a column or, where that has a cost, none.
std::int64_t bruteForce(const std::vector<std::vector<std::int64_t>>& costs, const std::vector<std::int64_t>& alone, std::size_t row, std::vector<bool>& used)
{
    if (row == costs.size()) return 0;
    auto best = alone.empty() ? never : alone[row] + bruteForce(costs, alone, row + 1, used);
    for (std::size_t column = 0; column < used.size(); ++column) {
        if (used[column] || costs[row][column] == never) continue;
        used[column] = true;
        best = std::min(best, costs[row][column] + bruteForce(costs, alone, row + 1, used));
        used[column] = false;
    }
    return best;
}

struct Case {
    std::vector<std::vector<std::int64_t>> costs;
    std::vector<PossiblePair> pairs;

    Case(std::mt19937& random, std::size_t rows, std::size_t columns, int holes, int least)
    {
        costs.assign(rows, std::vector<std::int64_t>(columns, never));
        for (std::size_t row = 0; row < rows; ++row)
            for (std::size_t column = 0; column < columns; ++column)
                if (static_cast<int>(random() % 10) >= holes) {
                    costs[row][column] = least + static_cast<std::int64_t>(random() % 30);
                    pairs.push_back({row, column, costs[row][column]});
                }
    }
    void forbid(std::size_t row, std::size_t column) { costs[row][column] = never; }
    std::int64_t best(const std::vector<std::int64_t>& alone) const
    {
        std::vector<bool> used(costs.empty() ? 0 : costs.front().size());
        return bruteForce(costs, alone, 0, used);
    }
};

}

TEST_CASE("an assignment is the best of all, and what is forbidden may leave none", "[assignment]")
{
    std::mt19937 random{7};
    int impossible = 0;
    for (int i = 0; i < 3000; ++i) {
        const auto rows = 1 + random() % 5, columns = rows + random() % 3;
        const Case made{random, rows, columns, static_cast<int>(random() % 7), i % 2 == 0 ? 0 : -15};
        const auto best = made.best({});
        const auto found = assignAll(rows, columns, made.pairs);
        REQUIRE(found.has_value() == (best < never / 2));
        if (found) REQUIRE(found->cost == best);
        else ++impossible;
    }
    CHECK(impossible > 100);
}

TEST_CASE("rows left alone, and how much worse every other way is, agree with trying all", "[assignment]")
{
    std::mt19937 random{8};
    for (int i = 0; i < 3000; ++i) {
        const auto rows = 1 + random() % 5, columns = 1 + random() % 5;
        Case made{random, rows, columns, static_cast<int>(random() % 9), i % 3 == 0 ? -5 : 0};
        std::vector<std::int64_t> alone(rows);
        for (auto& cost : alone) cost = static_cast<std::int64_t>(random() % 30);
        const auto best = made.best(alone);
        const auto found = assignOrLeave(alone, columns, made.pairs);
        REQUIRE(found.cost == best);
        std::int64_t sum = 0;
        std::vector<bool> used(columns);
        for (std::size_t row = 0; row < rows; ++row) {
            const auto column = found.columnOf[row];
            sum += column ? made.costs[row][*column] : alone[row];
            if (!column) continue;
            REQUIRE_FALSE(used[*column]);
            used[*column] = true;
        }
        REQUIRE(sum == best);
        for (std::size_t row = 0; row < rows; ++row) {
            auto other = made;
            auto otherAlone = alone;
            if (found.columnOf[row]) other.forbid(row, *found.columnOf[row]);
            else otherAlone[row] = never;
            const auto second = other.best(otherAlone);
            if (second >= never / 2) REQUIRE(found.regret[row] == Assignment::noOther);
            else REQUIRE(found.regret[row] == second - best);
        }
    }
}

TEST_CASE("assignments at the edges: nothing, one, all the same", "[assignment]")
{
    CHECK(assignAll(0, 0, {}).value().cost == 0);
    CHECK(assignOrLeave({}, 0, {}).cost == 0);
    const std::vector<PossiblePair> one{{0, 0, -4}};
    CHECK(assignAll(1, 1, one).value().cost == -4);
    std::vector<PossiblePair> same;
    for (std::size_t row = 0; row < 6; ++row)
        for (std::size_t column = 0; column < 6; ++column) same.push_back({row, column, 3});
    CHECK(assignAll(6, 6, same).value().cost == 18);
    CHECK_FALSE(assignAll(1, 1, {}).has_value());
    const std::vector<std::int64_t> alone{5, 7};
    CHECK(assignOrLeave(alone, 3, {}).cost == 12);
}
