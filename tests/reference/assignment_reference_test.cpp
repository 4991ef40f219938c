#include "statistics/assignment.h"
#include "statistics/edit_distance.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

using Matrix = std::vector<std::vector<std::int64_t>>;

std::int64_t leastCost(const Matrix& costs)
{
    std::vector<PossiblePair> pairs;
    for (std::size_t row = 0; row < costs.size(); ++row)
        for (std::size_t column = 0; column < costs[row].size(); ++column) pairs.push_back({row, column, costs[row][column]});
    return assignAll(costs.size(), costs.front().size(), pairs).value().cost;
}

}

TEST_CASE("published assignments come out at their optimum", "[assignment]")
{
    // The documentation of SciPy's linear_sum_assignment; its unit tests (square, and 3 rows by 4 columns).
    CHECK(leastCost({{4, 1, 3}, {2, 0, 5}, {3, 2, 2}}) == 5);
    CHECK(leastCost({{400, 150, 400}, {400, 450, 600}, {300, 225, 300}}) == 850);
    CHECK(leastCost({{400, 150, 400, 1}, {400, 450, 600, 2}, {300, 225, 300, 3}}) == 452);
    CHECK(leastCost({{10, 10, 8}, {9, 8, 1}, {9, 7, 4}}) == 18);
    CHECK(leastCost({{10, 10, 8, 11}, {9, 8, 1, 1}, {9, 7, 4, 10}}) == 15);
    // The example of the munkres module for Python; from memory.
    CHECK(leastCost({{5, 9, 1}, {10, 3, 2}, {8, 7, 4}}) == 12);
    // A tutorial's worked example of the Hungarian method; from memory.
    CHECK(leastCost({{82, 83, 69, 92}, {77, 37, 49, 92}, {11, 69, 5, 86}, {8, 9, 98, 23}}) == 140);
    // developers.google.com, optimization, assignment: five workers for four tasks, one stays idle.
    CHECK(leastCost({{90, 80, 75, 70}, {35, 85, 55, 65}, {125, 95, 90, 95}, {45, 110, 95, 115}, {50, 100, 90, 100}}) == 265);
    // The same place, linear assignment.
    CHECK(leastCost({{90, 76, 75, 70}, {35, 85, 55, 65}, {125, 95, 90, 105}, {45, 110, 95, 115}}) == 265);
}

TEST_CASE("the pairs of a published assignment are the published ones", "[assignment]")
{
    // SciPy's documentation: 0-1, 1-0, 2-2.
    const std::vector<PossiblePair> pairs{{0, 0, 4}, {0, 1, 1}, {0, 2, 3}, {1, 0, 2}, {1, 1, 0}, {1, 2, 5}, {2, 0, 3}, {2, 1, 2}, {2, 2, 2}};
    const auto found = assignAll(3, 3, pairs).value();
    CHECK(found.columnOf == std::vector<std::optional<std::size_t>>{1, 0, 2});
}

TEST_CASE("published edit distances, neighbors swapped counted once", "[edits]")
{
    struct Vector {
        const char *a, *b;
        int edits;
    };
    // The first two, and "flaw" to "levenshtein": test data of the jellyfish library; the rest agree with R's stringdist, method "osa".
    const Vector vectors[] = {
        {"kitten", "sitting", 3}, {"saturday", "sunday", 3}, {"CA", "ABC", 3}, {"a cat", "an abct", 4}, {"teh", "the", 1}, {"ab", "ba", 1},
        {"fuor", "four", 1}, {"intention", "execution", 5}, {"rosettacode", "raisethysword", 8}, {"flaw", "lawn", 2}, {"gumbo", "gambol", 2},
        {"book", "back", 2}, {"distance", "editing", 5}, {"abcdef", "abcfad", 3}, {"levenshtein", "frankenstein", 6}, {"", "", 0}, {"", "abc", 3},
        {"abc", "abc", 0}, {"r\u00e9sum\u00e9", "resume", 2}, {"na\u00efve", "naive", 1},
    };
    for (const auto& [a, b, edits] : vectors) {
        INFO(a << ", " << b);
        CHECK(editsBetween(a, b) == edits);
        CHECK(editsBetween(b, a) == edits);
        for (int most = 0; most < 10; ++most) CHECK(editsBetween(a, b, most) == std::min(edits, most + 1));
    }
}
