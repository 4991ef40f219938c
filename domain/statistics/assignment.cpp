#include "statistics/assignment.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <queue>

namespace strikeoff {

namespace {

constexpr std::size_t nobody = std::numeric_limits<std::size_t>::max();
constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();

/// Rows matched one after the other along the shortest augmenting path. Potentials keep every reduced cost at zero or more, and a column without a
/// row has a potential of zero.
class Solver {
public:
    Solver(std::size_t rows, std::size_t columns, std::span<const PossiblePair> pairs)
        : starts_(rows + 1), rowPotential_(rows), columnPotential_(columns), rowOf_(columns, nobody), pairOf_(rows, nobody),
          distance_(columns, unreached), cameBy_(columns)
    {
        for (const auto& pair : pairs) {
            if (pair.row >= rows || pair.column >= columns) throw DomainError{"a pair of a row or column that does not exist"};
            ++starts_[pair.row + 1];
            shift_ = std::min(shift_, pair.cost);
        }
        for (std::size_t row = 0; row < rows; ++row) starts_[row + 1] += starts_[row];
        edges_.resize(pairs.size());
        auto next = starts_;
        for (const auto& pair : pairs) edges_[next[pair.row]++] = {pair.row, pair.column, checkedSubtract(pair.cost, shift_)};
    }

    bool solve()
    {
        for (std::size_t row = 0; row < pairOf_.size(); ++row)
            if (!augment(row)) return false;
        return true;
    }

    std::optional<std::size_t> columnOf(std::size_t row) const { return edges_[pairOf_[row]].column; }

    std::int64_t cost() const
    {
        std::int64_t sum = 0;
        for (const auto edge : pairOf_) sum = checkedAdd(sum, checkedAdd(edges_[edge].cost, shift_));
        return sum;
    }

    /// By how much the least total rises when a row must not have the pair it has: the shortest way to move what flows over that pair, from the row back
    /// to its column. It may lead over a free column to any column in use, which is then given up for it.
    std::int64_t regret(std::size_t row)
    {
        const auto forbidden = pairOf_[row];
        const auto goal = edges_[forbidden].column;
        Queue queue;
        reach(queue, row, 0, forbidden);
        bool freeMet = false;
        auto found = Assignment::noOther;
        while (const auto column = nearest(queue)) {
            const auto walked = distance_[*column];
            if (*column == goal) {
                found = walked;
                break;
            }
            if (rowOf_[*column] != nobody) reach(queue, rowOf_[*column], walked, forbidden);
            else if (!freeMet) {
                freeMet = true;
                for (std::size_t other = 0; other < rowOf_.size(); ++other)
                    if (rowOf_[other] != nobody) improve(queue, other, walked - columnPotential_[other]);
            }
        }
        forget();
        return found;
    }

private:
    using Reached = std::pair<std::int64_t, std::size_t>;
    using Queue = std::priority_queue<Reached, std::vector<Reached>, std::greater<>>;

    bool augment(std::size_t row)
    {
        Queue queue;
        reach(queue, row, 0, nobody);
        std::optional<std::size_t> sink;
        while (const auto column = nearest(queue)) {
            if (rowOf_[*column] == nobody) {
                sink = column;
                break;
            }
            reach(queue, rowOf_[*column], distance_[*column], nobody);
        }
        if (!sink) return false;
        const auto length = distance_[*sink];
        rowPotential_[row] += length;
        for (const auto column : touched_) {
            if (rowOf_[column] == nobody || distance_[column] >= length) continue;
            columnPotential_[column] += distance_[column] - length;
            rowPotential_[rowOf_[column]] += length - distance_[column];
        }
        for (auto column = *sink; column != nobody;) {
            const auto edge = cameBy_[column];
            const auto owner = edges_[edge].row;
            rowOf_[column] = owner;
            const auto before = pairOf_[owner];
            pairOf_[owner] = edge;
            column = before == nobody ? nobody : edges_[before].column;
        }
        forget();
        return true;
    }

    bool improve(Queue& queue, std::size_t column, std::int64_t distance)
    {
        if (distance >= distance_[column]) return false;
        if (distance_[column] == unreached) touched_.push_back(column);
        distance_[column] = distance;
        queue.emplace(distance, column);
        return true;
    }

    /// What can be reached from a row over pairs it does not have.
    void reach(Queue& queue, std::size_t row, std::int64_t walked, std::size_t forbidden)
    {
        for (auto edge = starts_[row]; edge < starts_[row + 1]; ++edge) {
            if (edge == forbidden || edge == pairOf_[row]) continue;
            const auto column = edges_[edge].column;
            if (improve(queue, column, walked + edges_[edge].cost - rowPotential_[row] - columnPotential_[column])) cameBy_[column] = edge;
        }
    }

    /// The nearest column not looked at yet.
    std::optional<std::size_t> nearest(Queue& queue) const
    {
        while (!queue.empty()) {
            const auto [distance, column] = queue.top();
            queue.pop();
            if (distance == distance_[column]) return column;
        }
        return std::nullopt;
    }

    void forget()
    {
        for (const auto column : touched_) distance_[column] = unreached;
        touched_.clear();
    }

    std::vector<std::size_t> starts_;  ///< of a row's edges
    std::vector<PossiblePair> edges_;
    std::int64_t shift_ = 0;           ///< the least cost where that is negative: every row has exactly one pair, so all may be moved up by it
    std::vector<std::int64_t> rowPotential_, columnPotential_;
    std::vector<std::size_t> rowOf_;   ///< by column
    std::vector<std::size_t> pairOf_;  ///< by row: the edge it has
    std::vector<std::int64_t> distance_;
    std::vector<std::size_t> cameBy_;  ///< by column: the edge of the shortest path to it
    std::vector<std::size_t> touched_;
};

/// Which rows and columns hang together.
class Components {
public:
    explicit Components(std::size_t count) : parent_(count)
    {
        for (std::size_t i = 0; i < count; ++i) parent_[i] = i;
    }
    std::size_t of(std::size_t i)
    {
        while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
        return i;
    }
    void join(std::size_t a, std::size_t b) { parent_[of(a)] = of(b); }

private:
    std::vector<std::size_t> parent_;
};

}

std::optional<Assignment> assignAll(std::size_t rows, std::size_t columns, std::span<const PossiblePair> pairs)
{
    const bool turned = rows > columns;
    std::vector<PossiblePair> edges{pairs.begin(), pairs.end()};
    if (turned)
        for (auto& edge : edges) std::swap(edge.row, edge.column);
    Solver solver{turned ? columns : rows, turned ? rows : columns, edges};
    if (!solver.solve()) return std::nullopt;
    Assignment found;
    found.columnOf.resize(rows);
    for (std::size_t i = 0; i < std::min(rows, columns); ++i) {
        if (turned) found.columnOf[*solver.columnOf(i)] = i;
        else found.columnOf[i] = solver.columnOf(i);
    }
    found.cost = solver.cost();
    return found;
}

Assignment assignOrLeave(std::span<const std::int64_t> alone, std::size_t columns, std::span<const PossiblePair> pairs, Regret regret)
{
    const auto rows = alone.size();
    Assignment found;
    found.columnOf.resize(rows);
    if (regret == Regret::reckoned) found.regret.resize(rows, Assignment::noOther);

    Components components{rows + columns};
    for (const auto& pair : pairs) {
        if (pair.row >= rows || pair.column >= columns) throw DomainError{"a pair of a row or column that does not exist"};
        components.join(pair.row, rows + pair.column);
    }
    // The pairs of a component stand together; rows and columns are numbered anew within it.
    std::vector<std::size_t> order(pairs.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const auto first = components.of(pairs[a].row), second = components.of(pairs[b].row);
        return first != second ? first < second : a < b;
    });
    std::vector<std::size_t> place(rows + columns, nobody);
    std::vector<std::size_t> rowsHere, columnsHere;
    std::vector<PossiblePair> edges;
    for (std::size_t at = 0; at < order.size();) {
        const auto component = components.of(pairs[order[at]].row);
        rowsHere.clear();
        columnsHere.clear();
        edges.clear();
        for (; at < order.size() && components.of(pairs[order[at]].row) == component; ++at) {
            const auto& pair = pairs[order[at]];
            auto& row = place[pair.row];
            auto& column = place[rows + pair.column];
            if (row == nobody) {
                row = rowsHere.size();
                rowsHere.push_back(pair.row);
            }
            if (column == nobody) {
                column = columnsHere.size();
                columnsHere.push_back(pair.column);
            }
            edges.push_back({row, column, pair.cost});
        }
        // To be left alone is a column that only this row may have.
        for (std::size_t i = 0; i < rowsHere.size(); ++i) edges.push_back({i, columnsHere.size() + i, alone[rowsHere[i]]});
        Solver solver{rowsHere.size(), columnsHere.size() + rowsHere.size(), edges};
        solver.solve();
        found.cost = checkedAdd(found.cost, solver.cost());
        for (std::size_t i = 0; i < rowsHere.size(); ++i) {
            const auto column = *solver.columnOf(i);
            if (column < columnsHere.size()) found.columnOf[rowsHere[i]] = columnsHere[column];
            if (regret == Regret::reckoned) found.regret[rowsHere[i]] = solver.regret(i);
        }
    }
    for (std::size_t row = 0; row < rows; ++row)
        if (place[row] == nobody) found.cost = checkedAdd(found.cost, alone[row]);
    return found;
}

}
