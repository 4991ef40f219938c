#include "route/cover_program.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace strikeoff {
namespace {

constexpr double tolerance = 1e-7;
constexpr double wholeTolerance = 1e-3;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}

CoverProgram::CoverProgram(std::vector<double> leftOutCosts, const std::vector<int>& classCounts)
    : items_{static_cast<int>(leftOutCosts.size())}, classes_{static_cast<int>(classCounts.size())}, leftOutCosts_{std::move(leftOutCosts)}
{
    leftOutExtra_.assign(at(items_), 0);
    for (const double cost : leftOutCosts_) scale_ = std::max(scale_, cost * 1e-5);
    exactSides_.assign(at(items_), 1.0);
    for (const int count : classCounts) exactSides_.push_back(count);
    // A little more on each side, never the same, so that no step of the simplex method stands still; prices and bounds use the exact sides.
    sides_ = exactSides_;
    for (std::size_t row = 0; row < sides_.size(); ++row) sides_[row] += 1e-6 * (1 + static_cast<double>((row * 7919 + 13) % 101) / 101);
    for (int row = 0; row < rows(); ++row) basis_.push_back(-1 - row);
    prices_.assign(at(rows()), 0);
    rebuild();
}

double CoverProgram::costOf(int variable) const
{
    if (variable >= 0) return columns_[at(variable)].cost + extra_[at(variable)];
    const int row = -1 - variable;
    return row < items_ ? leftOutCosts_[at(row)] + leftOutExtra_[at(row)] : 0;
}

std::vector<int> CoverProgram::rowsOf(int variable) const
{
    if (variable < 0) return {-1 - variable};
    auto result = columns_[at(variable)].items;
    result.push_back(items_ + columns_[at(variable)].klass);
    return result;
}

/// The inverse of the basis anew, by elimination, so that rounding does not add up.
void CoverProgram::rebuild()
{
    const auto m = at(rows());
    std::vector<double> matrix(m * m, 0), inverse(m * m, 0);
    for (std::size_t column = 0; column < m; ++column) {
        for (const int row : rowsOf(basis_[column])) matrix[at(row) * m + column] = 1;
        inverse[column * m + column] = 1;
    }
    for (std::size_t pivot = 0; pivot < m; ++pivot) {
        std::size_t best = pivot;
        for (std::size_t row = pivot; row < m; ++row)
            if (std::abs(matrix[row * m + pivot]) > std::abs(matrix[best * m + pivot])) best = row;
        if (best != pivot)
            for (std::size_t column = 0; column < m; ++column) {
                std::swap(matrix[best * m + column], matrix[pivot * m + column]);
                std::swap(inverse[best * m + column], inverse[pivot * m + column]);
            }
        const double by = 1 / matrix[pivot * m + pivot];
        for (std::size_t column = 0; column < m; ++column) matrix[pivot * m + column] *= by, inverse[pivot * m + column] *= by;
        for (std::size_t row = 0; row < m; ++row) {
            const double factor = row == pivot ? 0 : matrix[row * m + pivot];
            if (factor == 0) continue;
            for (std::size_t column = 0; column < m; ++column) {
                matrix[row * m + column] -= factor * matrix[pivot * m + column];
                inverse[row * m + column] -= factor * inverse[pivot * m + column];
            }
        }
    }
    inverse_ = std::move(inverse);
    values_.assign(m, 0);
    for (std::size_t row = 0; row < m; ++row)
        for (std::size_t column = 0; column < m; ++column) values_[row] += inverse_[row * m + column] * sides_[column];
    sinceRebuilt_ = 0;
}

void CoverProgram::reckonPrices()
{
    std::ranges::fill(prices_, 0.0);
    const auto m = at(rows());
    for (std::size_t row = 0; row < m; ++row) {
        const double cost = costOf(basis_[row]);
        if (cost == 0) continue;
        for (std::size_t column = 0; column < m; ++column) prices_[column] += cost * inverse_[row * m + column];
    }
}

double CoverProgram::reducedOf(int variable) const
{
    double reduced = costOf(variable);
    if (variable < 0) return reduced - prices_[at(-1 - variable)];
    for (const int item : columns_[at(variable)].items) reduced -= prices_[at(item)];
    return reduced - prices_[at(items_ + columns_[at(variable)].klass)];
}

/// The variable that gains most by entering. Looks at the best ones of the last full look first.
int CoverProgram::nextToEnter()
{
    constexpr int none = std::numeric_limits<int>::min();
    const double enough = -tolerance * scale_;
    for (int look = 0; look < 2; ++look) {
        int best = none;
        double least = enough;
        std::erase_if(candidates_, [&](int variable) {
            const double reduced = reducedOf(variable);
            if (reduced < least) least = reduced, best = variable;
            return reduced >= enough;
        });
        if (best != none || look == 1) return best;
        std::vector<std::pair<double, int>> gaining;
        for (int variable = -rows(); variable < static_cast<int>(columns_.size()); ++variable)
            if (const double reduced = reducedOf(variable); reduced < enough) gaining.emplace_back(reduced, variable);
        const std::size_t most = std::min<std::size_t>(gaining.size(), 60);
        std::partial_sort(gaining.begin(), gaining.begin() + static_cast<std::ptrdiff_t>(most), gaining.end());
        candidates_.clear();
        for (std::size_t index = 0; index < most; ++index) candidates_.push_back(gaining[index].second);
    }
    return none;
}

std::vector<double> CoverProgram::stepOf(int variable) const
{
    const auto m = at(rows());
    std::vector<double> step(m, 0);
    for (const int column : rowsOf(variable))
        for (std::size_t row = 0; row < m; ++row) step[row] += inverse_[row * m + at(column)];
    return step;
}

void CoverProgram::enter(int variable, int row, const std::vector<double>& step)
{
    const auto m = at(rows());
    const double by = 1 / step[at(row)];
    double* const pivot = &inverse_[at(row) * m];
    for (std::size_t column = 0; column < m; ++column) pivot[column] *= by;
    values_[at(row)] *= by;
    for (std::size_t other = 0; other < m; ++other) {
        const double factor = step[other];
        if (other == at(row) || factor == 0) continue;
        for (std::size_t column = 0; column < m; ++column) inverse_[other * m + column] -= factor * pivot[column];
        values_[other] -= factor * values_[at(row)];
    }
    basis_[at(row)] = variable;
    if (++sinceRebuilt_ > 200) rebuild();
}

double CoverProgram::solve()
{
    candidates_.clear();
    for (int turn = 0; turn < 20'000; ++turn) {
        reckonPrices();
        const int variable = nextToEnter();
        if (variable == std::numeric_limits<int>::min()) break;
        const auto step = stepOf(variable);
        int row = -1;
        double length = std::numeric_limits<double>::max();
        for (int other = 0; other < rows(); ++other)
            if (step[at(other)] > 1e-9)
                if (const double ratio = std::max(0.0, values_[at(other)]) / step[at(other)]; ratio < length) length = ratio, row = other;
        if (row < 0) break;
        enter(variable, row, step);
        ++turns_;
    }
    itemPrices_.assign(prices_.begin(), prices_.begin() + items_);
    classPrices_.assign(prices_.begin() + items_, prices_.end());
    std::ranges::fill(share_, 0.0);
    double value = 0;
    for (int row = 0; row < rows(); ++row) {
        value += prices_[at(row)] * exactSides_[at(row)];
        if (basis_[at(row)] >= 0) share_[at(basis_[at(row)])] = values_[at(row)];
    }
    return value;
}

/// A search in which a branch forbids columns: two items in one column or not, an item with a class or not, an item left out or not.
struct CoverProgram::Branching {
    CoverProgram& program;
    Choice& choice;
    double limit;
    int nodesLeft;
    int lastTurn;
    double forbidden;
    double openBound = std::numeric_limits<double>::max();

    template <class Forbids>
    void under(Forbids forbids, int keptItem, bool leftOutForbidden)
    {
        std::vector<int> changed;
        for (int column = 0; column < static_cast<int>(program.columns_.size()); ++column)
            if (program.extra_[at(column)] == 0 && forbids(program.columns_[at(column)])) changed.push_back(column);
        for (const int column : changed) program.extra_[at(column)] = forbidden;
        const bool extra = leftOutForbidden && program.leftOutExtra_[at(keptItem)] == 0;
        if (extra) program.leftOutExtra_[at(keptItem)] = forbidden;
        node();
        if (extra) program.leftOutExtra_[at(keptItem)] = 0;
        for (const int column : changed) program.extra_[at(column)] = 0;
    }

    static bool has(const Column& column, int item) { return std::ranges::binary_search(column.items, item); }

    void node()
    {
        const double value = program.solve();
        if (std::ceil(value - wholeTolerance) >= limit) return;
        if (nodesLeft-- <= 0 || program.turns_ > lastTurn) {
            openBound = std::min(openBound, std::ceil(value - wholeTolerance));
            choice.complete = false;
            return;
        }
        // Shares of pairs in one column, and of items with a class.
        std::vector<int> used;
        for (int row = 0; row < program.rows(); ++row)
            if (const int column = program.basis_[at(row)]; column >= 0 && program.share_[at(column)] > wholeTolerance) used.push_back(column);
        std::ranges::sort(used);
        if (std::ranges::all_of(used, [&](int column) { return program.share_[at(column)] > 1 - wholeTolerance; })) return take(used);

        std::map<std::pair<int, int>, double> pairs, classes;
        std::vector<double> served(at(program.items_), 0);
        for (const int column : used) {
            const auto& items = program.columns_[at(column)].items;
            const double share = program.share_[at(column)];
            for (std::size_t a = 0; a < items.size(); ++a) {
                served[at(items[a])] += share;
                classes[{items[a], program.columns_[at(column)].klass}] += share;
                for (std::size_t b = a + 1; b < items.size(); ++b) pairs[{items[a], items[b]}] += share;
            }
        }
        const auto split = [](const std::map<std::pair<int, int>, double>& shares) {
            std::pair<int, int> best{-1, -1};
            double nearest = 0.5 - wholeTolerance;
            for (const auto& [key, share] : shares)
                if (std::abs(share - 0.5) < nearest) nearest = std::abs(share - 0.5), best = key;
            return best;
        };
        for (int item = 0; item < program.items_; ++item)
            if (served[at(item)] > wholeTolerance && served[at(item)] < 1 - wholeTolerance) {
                under([](const Column&) { return false; }, item, true);
                under([&](const Column& column) { return has(column, item); }, 0, false);
                return;
            }
        if (const auto pair = split(pairs); pair.first >= 0) {
            const auto a = pair.first, b = pair.second;
            under([&](const Column& column) { return has(column, a) != has(column, b); }, 0, false);
            under([&](const Column& column) { return has(column, a) && has(column, b); }, 0, false);
            return;
        }
        if (const auto part = split(classes); part.first >= 0) {
            const auto item = part.first, klass = part.second;
            under([&](const Column& column) { return column.klass != klass && has(column, item); }, 0, false);
            under([&](const Column& column) { return column.klass == klass && has(column, item); }, 0, false);
            return;
        }
        // Shares that come from columns with the same items and class: either serves.
        std::vector<int> one;
        std::vector<bool> taken(at(program.items_), false);
        for (const int column : used) {
            const auto& items = program.columns_[at(column)].items;
            if (std::ranges::any_of(items, [&](int item) { return taken[at(item)]; })) continue;
            for (const int item : items) taken[at(item)] = true;
            one.push_back(column);
        }
        take(one);
    }

    void take(const std::vector<int>& columns)
    {
        double cost = 0;
        std::vector<bool> served(at(program.items_), false);
        for (const int column : columns) {
            cost += program.columns_[at(column)].cost;
            for (const int item : program.columns_[at(column)].items) served[at(item)] = true;
        }
        std::vector<int> leftOut;
        for (int item = 0; item < program.items_; ++item)
            if (!served[at(item)]) cost += program.leftOutCosts_[at(item)], leftOut.push_back(item);
        if (cost > limit - 1 + wholeTolerance) return;
        choice.found = true;
        choice.columns = columns;
        choice.leftOut = leftOut;
        choice.cost = cost;
        limit = std::round(cost);
    }
};

CoverProgram::Choice CoverProgram::choose(double below, int mostNodes, int mostTurns)
{
    Choice choice;
    // Dearer than any choice that is allowed.
    double forbidden = 1;
    for (const double cost : leftOutCosts_) forbidden += cost;
    forbidden = std::max(forbidden, std::abs(below)) * 2 + 1;
    Branching branching{*this, choice, below, mostNodes, turns_ + mostTurns, forbidden};
    branching.node();
    choice.bound = std::min(branching.limit, branching.openBound);
    return choice;
}

}
