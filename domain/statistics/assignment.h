#pragma once

#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <vector>

namespace strikeoff {

/// A row and a column that may be paired, and what that costs. Pairs that are not listed are forbidden.
struct PossiblePair {
    std::size_t row = 0;
    std::size_t column = 0;
    std::int64_t cost = 0;
};

/// Which column each row got, at least total cost.
struct Assignment {
    static constexpr std::int64_t noOther = std::numeric_limits<std::int64_t>::max();

    std::vector<std::optional<std::size_t>> columnOf;  ///< by row; nothing for a row left alone
    std::int64_t cost = 0;
    /// By row: how much the least total would rise if the row could not have what it got; noOther when nothing else is possible. Small means that it
    /// could as well be otherwise. Left empty where it was not asked for.
    std::vector<std::int64_t> regret;
};

/// Pairs each row with a column of its own at least total cost (each column with a row when there are more rows); nothing when the possible pairs do
/// not allow it. Costs may be negative, and their sum must stay within 62 bits. Method: shortest augmenting paths with potentials over the
/// listed pairs (Edmonds and Karp 1972, Tomizawa 1971), so that few pairs cost little.
std::optional<Assignment> assignAll(std::size_t rows, std::size_t columns, std::span<const PossiblePair> pairs);

enum class Regret { reckoned, leftOut };

/// The same where a row may be left alone at a cost of its own (one a row). Always possible. Solved component by component.
Assignment assignOrLeave(std::span<const std::int64_t> alone, std::size_t columns, std::span<const PossiblePair> pairs, Regret regret = Regret::reckoned);

}
