#include "route/cover_program.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace strikeoff {
namespace {

constexpr double wholeTolerance = 1e-3;
constexpr double none = std::numeric_limits<double>::max();
constexpr std::size_t mostCuts = 150;       ///< in one program
constexpr std::size_t cutsAtOnce = 20;
constexpr double leastViolation = 0.05;

}

bool CoverProgram::isForbidden(int variable) const
{
    if (variable >= 0) return forbidden_[at(variable)] != 0;
    return -1 - variable < items_ + classes_ && spareForbidden_[at(-1 - variable)] != 0;
}

/// The dual method needs no unequal sides, and with them a branch could seem impossible that is not.
void CoverProgram::useExactSides()
{
    sides_ = exactSides_;
    rebuild();
}

/// The variable to put in a row's place so that no other gains by entering; one that nothing can replace gives the lowest int.
int CoverProgram::entering(int row, bool isAbove)
{
    const auto m = at(rows());
    const double* const inverse = &inverse_[at(row) * m];
    const double sign = isAbove ? 1 : -1;
    int best = std::numeric_limits<int>::min();
    double least = none, widest = 0;
    const auto look = [&](int variable, double along, double reduced) {
        const double width = sign * along;
        if (width < 1e-7) return;
        const double ratio = std::max(0.0, reduced) / width;
        if (ratio > least + 1e-9 || (ratio > least - 1e-9 && width <= widest)) return;
        least = std::min(ratio, least);
        widest = width;
        best = variable;
    };
    for (const int column : active_) {
        double along = 0;
        for (const int at_row : rowsOf_[at(column)]) along += inverse[at_row];
        along_[at(column)] = along;
        look(column, along, reduced_[at(column)]);
    }
    for (int spare = 0; spare < rows(); ++spare)
        if (!isForbidden(-1 - spare)) look(-1 - spare, signs_[at(spare)] * inverse[spare], reducedOf(-1 - spare));
    return best;
}

/// A step over many columns and cuts counts for more than one, so that so many turns are never much more work.
int CoverProgram::turnsOfSize() const { return 1 + static_cast<int>((active_.size() * 8 + at(rows()) * at(rows()) * 3) / 65'536); }

/// Solves anew after columns were forbidden or cuts added, by the dual simplex method. Returns the value, which is a bound also when it ends early:
/// at `enough` or when the turns are used up. The highest double when nothing is possible.
double CoverProgram::again(double enough, int lastTurn)
{
    reckonPrices();
    active_.clear();
    reduced_.resize(columns_.size());
    along_.resize(columns_.size());
    std::vector<char> inBasis(columns_.size(), 0);
    for (const int variable : basis_)
        if (variable >= 0) inBasis[at(variable)] = 1;
    for (int column = 0; column < static_cast<int>(columns_.size()); ++column)
        if (!forbidden_[at(column)]) {
            active_.push_back(column);
            reduced_[at(column)] = inBasis[at(column)] ? 0 : reducedOf(column);
        }
    while (true) {
        double value = 0;
        for (int row = 0; row < rows(); ++row) value += prices_[at(row)] * sides_[at(row)];
        int leaving = -1;
        double worst = tolerance;
        for (int row = 0; row < rows(); ++row) {
            const double off = values_[at(row)] < 0 ? -values_[at(row)] : isForbidden(basis_[at(row)]) ? values_[at(row)] : 0;
            if (off > worst) worst = off, leaving = row;
        }
        if (leaving < 0 || value >= enough || turns_ >= lastTurn) {
            readShares();
            return value;
        }
        turns_ += turnsOfSize();
        const int variable = entering(leaving, values_[at(leaving)] > 0);
        if (variable == std::numeric_limits<int>::min()) return none;
        const auto step = stepOf(variable);
        const double by = (variable >= 0 ? reduced_[at(variable)] : reducedOf(variable)) / step[at(leaving)];
        const auto m = at(rows());
        for (std::size_t row = 0; row < m; ++row) prices_[row] += by * inverse_[at(leaving) * m + row];
        for (const int column : active_) reduced_[at(column)] -= by * along_[at(column)];
        if (variable >= 0) reduced_[at(variable)] = 0;
        enter(variable, leaving, step);
        if (sinceRebuilt_ == 0) {
            reckonPrices();
            for (const int column : active_) reduced_[at(column)] = reducedOf(column);
        }
    }
}

bool CoverProgram::holdsTwo(int column, const std::array<int, 3>& cut) const
{
    const auto& items = columns_[at(column)].items;
    return std::ranges::count_if(cut, [&](int item) { return std::ranges::binary_search(items, item); }) >= 2;
}

/// Widens the inverse by the row of the next cut, with its spare in the basis.
void CoverProgram::addSpareRow()
{
    const auto m = basis_.size();
    const int row = static_cast<int>(m);
    std::vector<double> wider((m + 1) * (m + 1), 0);
    double* const last = &wider[m * (m + 1)];
    double value = 1;
    for (std::size_t at_row = 0; at_row < m; ++at_row) {
        const double* const from = &inverse_[at_row * m];
        std::copy(from, from + m, &wider[at_row * (m + 1)]);
        if (basis_[at_row] < 0 || std::ranges::find(rowsOf_[at(basis_[at_row])], row) == rowsOf_[at(basis_[at_row])].end()) continue;
        for (std::size_t column = 0; column < m; ++column) last[column] -= from[column];
        value -= values_[at_row];
    }
    last[m] = 1;
    inverse_ = std::move(wider);
    values_.push_back(value);
    basis_.push_back(-1 - row);
}

/// Of all chosen columns at most one can hold two of three items.
void CoverProgram::addCut(const std::array<int, 3>& cut)
{
    const int row = rows();
    for (int column = 0; column < static_cast<int>(columns_.size()); ++column)
        if (holdsTwo(column, cut)) rowsOf_[at(column)].push_back(row);
    cuts_.push_back(cut);
    sides_.push_back(1);
    signs_.push_back(1);
    exactSides_.push_back(1);
    addSpareRow();
}

void CoverProgram::restore(const Stand& stand)
{
    basis_ = stand.basis;
    inverse_ = stand.inverse;
    values_ = stand.values;
    std::ranges::copy(stand.sides, sides_.begin());
    std::ranges::copy(stand.signs, signs_.begin());
    while (static_cast<int>(basis_.size()) < rows()) addSpareRow();
}

/// A class's spare, which is in the basis, changes between what is missing to the side and what is beyond it.
void CoverProgram::turnSpare(int row, double side)
{
    const auto m = at(rows());
    const auto place = at(static_cast<int>(std::ranges::find(basis_, -1 - row) - basis_.begin()));
    for (std::size_t column = 0; column < m; ++column) inverse_[place * m + column] = -inverse_[place * m + column];
    signs_[at(row)] = -signs_[at(row)];
    sides_[at(row)] = side;
}

/// So many columns of a class at most, where its spare is in the basis. What a branch before said of the least is kept only where both are the same.
void CoverProgram::atMost(int row, double side)
{
    if (signs_[at(row)] < 0 && side <= sides_[at(row)]) spareForbidden_[at(row)] = 1;
    else if (signs_[at(row)] < 0) turnSpare(row, side);
    else sides_[at(row)] = side;
    reckonValues();
}

/// So many columns of a class at least; as above.
void CoverProgram::atLeast(int row, double side)
{
    if (signs_[at(row)] > 0 && side >= sides_[at(row)]) spareForbidden_[at(row)] = 1;
    else if (signs_[at(row)] > 0) turnSpare(row, side);
    else sides_[at(row)] = side;
    reckonValues();
}

/// The cuts that the shares violate most, no item in many of them.
std::vector<std::array<int, 3>> CoverProgram::violated() const
{
    const auto n = at(items_);
    std::vector<double> pairs(n * n, 0);
    std::vector<int> used;
    for (int row = 0; row < rows(); ++row)
        if (const int column = basis_[at(row)]; column >= 0 && share_[at(column)] > wholeTolerance && share_[at(column)] < 1 - wholeTolerance) used.push_back(column);
    std::ranges::sort(used);
    for (const int column : used) {
        const auto& items = columns_[at(column)].items;
        for (std::size_t a = 0; a < items.size(); ++a)
            for (std::size_t b = a + 1; b < items.size(); ++b) pairs[at(items[a]) * n + at(items[b])] += share_[at(column)];
    }
    std::vector<std::pair<double, std::array<int, 3>>> found;
    for (std::size_t a = 0; a < n; ++a)
        for (std::size_t b = a + 1; b < n; ++b)
            for (std::size_t c = b + 1; c < n; ++c) {
                double sum = pairs[a * n + b] + pairs[a * n + c] + pairs[b * n + c];
                if (sum < 1 + leastViolation) continue;
                const std::array<int, 3> cut{static_cast<int>(a), static_cast<int>(b), static_cast<int>(c)};
                for (const int column : used)
                    if (const auto& items = columns_[at(column)].items; std::ranges::includes(items, cut)) sum -= 2 * share_[at(column)];
                if (sum >= 1 + leastViolation) found.emplace_back(-sum, cut);
            }
    std::ranges::sort(found);
    std::vector<std::array<int, 3>> result;
    std::vector<int> times(n, 0);
    for (const auto& [sum, cut] : found) {
        if (result.size() >= std::min(cutsAtOnce, mostCuts - std::min(mostCuts, cuts_.size()))) break;
        if (std::ranges::any_of(cut, [&](int item) { return times[at(item)] >= 5; })) continue;
        if (std::ranges::find(cuts_, cut) != cuts_.end()) continue;
        for (const int item : cut) ++times[at(item)];
        result.push_back(cut);
    }
    return result;
}

/// A search in which a branch forbids columns: two items in one column or not, an item with a class or not, an item left out or not.
struct CoverProgram::Branching {
    CoverProgram& program;
    Choice& choice;
    double limit;
    int nodesLeft;
    int lastTurn;
    double openBound = none;

    template <class Forbids>
    void under(Forbids forbids, int keptItem, bool leftOutForbidden, int depth)
    {
        std::vector<int> changed;
        for (int column = 0; column < static_cast<int>(program.columns_.size()); ++column)
            if (!program.forbidden_[at(column)] && forbids(program.columns_[at(column)])) changed.push_back(column);
        for (const int column : changed) program.forbidden_[at(column)] = 1;
        const bool extra = leftOutForbidden && !program.spareForbidden_[at(keptItem)];
        if (extra) program.spareForbidden_[at(keptItem)] = 1;
        node(depth);
        if (extra) program.spareForbidden_[at(keptItem)] = 0;
        for (const int column : changed) program.forbidden_[at(column)] = 0;
    }

    /// Both branches, each from where the program stands now.
    template <class First, class Second>
    void branch(First first, Second second, int depth)
    {
        const auto stand = program.stand();
        first(depth + 1);
        program.restore(stand);
        second(depth + 1);
    }

    static bool has(const Column& column, int item) { return std::ranges::binary_search(column.items, item); }
    bool isTooDear(double value) const { return value == none || std::ceil(value - wholeTolerance) >= limit; }

    /// Columns that would make any choice too dear are out of the search for good.
    void dropDear(double value)
    {
        for (const int column : program.active_)
            if (isTooDear(value + program.reduced_[at(column)])) program.forbidden_[at(column)] = 1;
    }

    /// A quick way to a good choice: the column with the largest share is taken, again and again.
    void dive()
    {
        const auto stand = program.stand();
        const auto forbidden = program.forbidden_;
        std::vector<int> taken;
        while (program.again(none, lastTurn) != none && program.turns_ < lastTurn) {
            std::vector<int> used;
            int largest = -1;
            for (const int column : program.basis_) {
                if (column < 0 || program.share_[at(column)] <= wholeTolerance) continue;
                used.push_back(column);
                if (program.share_[at(column)] > 1 - wholeTolerance || std::ranges::find(taken, column) != taken.end()) continue;
                if (largest < 0 || std::pair{program.share_[at(column)], -column} > std::pair{program.share_[at(largest)], -largest}) largest = column;
            }
            if (largest < 0) {
                std::ranges::sort(used);
                choice.likely = used;
                if (std::ranges::all_of(used, [&](int column) { return program.share_[at(column)] > 1 - wholeTolerance; })) take(used);
                break;
            }
            taken.push_back(largest);
            for (int column = 0; column < static_cast<int>(program.columns_.size()); ++column)
                if (column != largest && std::ranges::any_of(program.columns_[at(largest)].items, [&](int item) { return has(program.columns_[at(column)], item); }))
                    program.forbidden_[at(column)] = 1;
        }
        program.forbidden_ = forbidden;
        program.restore(stand);
    }

    void node(int depth)
    {
        const double enough = limit - 1 + 2 * wholeTolerance;
        double value = program.again(enough, lastTurn);
        const int mostRounds = depth == 0 ? 40 : 3;
        for (int round = 0; round < mostRounds && !isTooDear(value) && program.turns_ < lastTurn; ++round) {
            const auto cuts = program.violated();
            if (cuts.empty()) break;
            for (const auto& cut : cuts) program.addCut(cut);
            value = program.again(enough, lastTurn);
        }
        if (isTooDear(value)) return;
        if (nodesLeft-- <= 0 || program.turns_ >= lastTurn) {
            openBound = std::min(openBound, std::ceil(value - wholeTolerance));
            choice.complete = false;
            return;
        }
        if (depth == 0) {
            dive();
            value = program.again(none, lastTurn);
            if (isTooDear(value)) return;
            dropDear(value);
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
                branch([&](int deeper) { under([](const Column&) { return false; }, item, true, deeper); },
                       [&](int deeper) { under([&](const Column& column) { return has(column, item); }, 0, false, deeper); }, depth);
                return;
            }
        if (const auto [row, number] = classNotWhole(used); row >= 0) {
            const auto was = program.spareForbidden_[at(row)];
            const auto more = [&, row = row, number = number](int deeper) {
                program.atLeast(row, std::ceil(number));
                node(deeper);
                program.spareForbidden_[at(row)] = was;
            };
            const auto fewer = [&, row = row, number = number](int deeper) {
                program.atMost(row, std::floor(number));
                node(deeper);
                program.spareForbidden_[at(row)] = was;
            };
            if (number - std::floor(number) < 0.5) branch(fewer, more, depth);
            else branch(more, fewer, depth);
            return;
        }
        if (const auto [a, b] = split(pairs); a >= 0) {
            branch([&, a = a, b = b](int deeper) { under([&](const Column& column) { return has(column, a) != has(column, b); }, 0, false, deeper); },
                   [&, a = a, b = b](int deeper) { under([&](const Column& column) { return has(column, a) && has(column, b); }, 0, false, deeper); }, depth);
            return;
        }
        if (const auto [item, klass] = split(classes); item >= 0) {
            branch([&, item = item, klass = klass](int deeper) {
                       under([&](const Column& column) { return column.klass != klass && has(column, item); }, 0, false, deeper);
                   },
                   [&, item = item, klass = klass](int deeper) {
                       under([&](const Column& column) { return column.klass == klass && has(column, item); }, 0, false, deeper);
                   }, depth);
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

    /// The class of which the least whole number of columns is used, by its row, and that number; −1 where all are whole.
    std::pair<int, double> classNotWhole(const std::vector<int>& used) const
    {
        std::vector<double> numbers(at(program.classes_), 0);
        for (const int column : used) numbers[at(program.columns_[at(column)].klass)] += program.share_[at(column)];
        std::pair<int, double> best{-1, 0};
        double nearest = 0.5 - 2 * wholeTolerance;
        for (int klass = 0; klass < program.classes_; ++klass) {
            const double number = numbers[at(klass)], off = std::abs(number - std::floor(number) - 0.5);
            const int row = program.items_ + klass;
            if (off < nearest && std::ranges::find(program.basis_, -1 - row) != program.basis_.end()) nearest = off, best = {row, number};
        }
        return best;
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
    const int lastTurn = turns_ + mostTurns;
    solve();
    useExactSides();
    Branching branching{*this, choice, below, mostNodes, lastTurn};
    branching.node(0);
    choice.bound = std::min(branching.limit, branching.openBound);
    return choice;
}

}
