#include "route/cover_program.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <random>

using namespace strikeoff;

namespace {

struct Made {
    std::vector<double> leftOut;
    std::vector<int> counts;
    std::vector<CoverProgram::Column> columns;
};

Made made(std::uint32_t seed)
{
    std::mt19937 random{seed};
    const auto pick = [&](int least, int most) { return least + static_cast<int>(random() % static_cast<std::uint32_t>(most - least + 1)); };
    Made result;
    const int items = pick(3, 9), classes = pick(1, 4);
    for (int item = 0; item < items; ++item) result.leftOut.push_back(pick(20, 60));
    for (int klass = 0; klass < classes; ++klass) result.counts.push_back(pick(1, 3));
    for (int column = pick(8, 40); column > 0; --column) {
        CoverProgram::Column one;
        for (int item = 0; item < items; ++item)
            if (pick(0, 9) < 4) one.items.push_back(item);
        if (one.items.empty()) one.items.push_back(pick(0, items - 1));
        one.klass = pick(0, classes - 1);
        one.cost = pick(5, 12) * static_cast<int>(one.items.size() + 1);
        result.columns.push_back(one);
    }
    return result;
}

/// Every way to serve the first item that is still open, and so on.
double leastOf(const Made& made, unsigned done, std::vector<int> counts)
{
    const auto items = made.leftOut.size();
    std::size_t open = 0;
    while (open < items && (done >> open & 1)) ++open;
    if (open == items) return 0;
    double least = made.leftOut[open] + leastOf(made, done | 1U << open, counts);
    for (const auto& column : made.columns) {
        if (column.items.empty() || !std::ranges::binary_search(column.items, static_cast<int>(open)) || counts[static_cast<std::size_t>(column.klass)] == 0) continue;
        unsigned set = 0;
        for (const int item : column.items) set |= 1U << item;
        if (set & done) continue;
        --counts[static_cast<std::size_t>(column.klass)];
        least = std::min(least, column.cost + leastOf(made, done | set, counts));
        ++counts[static_cast<std::size_t>(column.klass)];
    }
    return least;
}

CoverProgram programOf(const Made& made)
{
    CoverProgram program{made.leftOut, made.counts};
    for (const auto& column : made.columns) program.add(column);
    return program;
}

}

TEST_CASE("no choice among a thousand small sets of columns costs less than the one that is found", "[route]")
{
    for (std::uint32_t seed = 1; seed <= 1000; ++seed) {
        CAPTURE(seed);
        const auto problem = made(seed);
        const double least = leastOf(problem, 0, problem.counts);
        auto program = programOf(problem);
        CHECK(program.solve() <= least + 1e-6);
        const auto choice = program.choose(1'000, 10'000, 100'000);
        REQUIRE(choice.complete);
        REQUIRE(choice.found);
        CHECK(choice.cost == Approx(least));
        CHECK(choice.bound == Approx(least));
        // Independently: each item once or left out, no class too often, and the cost.
        std::vector<int> times(problem.leftOut.size(), 0), counts = problem.counts;
        double cost = 0;
        for (const int column : choice.columns) {
            const auto& one = problem.columns[static_cast<std::size_t>(column)];
            cost += one.cost;
            CHECK(--counts[static_cast<std::size_t>(one.klass)] >= 0);
            for (const int item : one.items) ++times[static_cast<std::size_t>(item)];
        }
        for (const int item : choice.leftOut) ++times[static_cast<std::size_t>(item)], cost += problem.leftOut[static_cast<std::size_t>(item)];
        CHECK(std::ranges::all_of(times, [](int count) { return count == 1; }));
        CHECK(cost == Approx(choice.cost));
    }
}

TEST_CASE("asked for something cheaper than the least, a choice says that there is none", "[route]")
{
    for (std::uint32_t seed = 1; seed <= 200; ++seed) {
        CAPTURE(seed);
        const auto problem = made(seed);
        const double least = leastOf(problem, 0, problem.counts);
        auto program = programOf(problem);
        const auto choice = program.choose(least, 10'000, 100'000);
        CHECK(choice.complete);
        CHECK_FALSE(choice.found);
        CHECK(choice.bound >= least - 1e-6);
    }
}
