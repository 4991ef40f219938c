#include "route/cover_program.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace strikeoff {

CoverProgram::CoverProgram(std::vector<double> leftOutCosts, const std::vector<int>& classCounts)
    : items_{static_cast<int>(leftOutCosts.size())}, classes_{static_cast<int>(classCounts.size())}, leftOutCosts_{std::move(leftOutCosts)}
{
    for (const double cost : leftOutCosts_) scale_ = std::max(scale_, cost * 1e-5);
    exactSides_.assign(at(items_), 1.0);
    for (const int count : classCounts) exactSides_.push_back(count);
    spareForbidden_.assign(at(rows()), 0);
    signs_.assign(at(rows()), 1);
    // A little more on each side, never the same, so that no step of the simplex method stands still; prices and bounds use the exact sides.
    sides_ = exactSides_;
    for (std::size_t row = 0; row < sides_.size(); ++row) sides_[row] += 1e-6 * (1 + static_cast<double>((row * 7919 + 13) % 101) / 101);
    for (int row = 0; row < rows(); ++row) basis_.push_back(-1 - row);
    prices_.assign(at(rows()), 0);
    rebuild();
}

void CoverProgram::add(Column column)
{
    auto& rows = rowsOf_.emplace_back(column.items);
    rows.push_back(items_ + column.klass);
    columns_.push_back(std::move(column));
    forbidden_.push_back(0);
    share_.push_back(0);
}

void CoverProgram::startAt(std::vector<int> basis)
{
    basis_ = std::move(basis);
    rebuild();
}

double CoverProgram::costOf(int variable) const
{
    if (variable >= 0) return columns_[at(variable)].cost;
    const int row = -1 - variable;
    return row < items_ ? leftOutCosts_[at(row)] + leftOutExtra_ : 0;
}

/// The figures by row that a variable meets, added.
double CoverProgram::sumOver(const std::vector<double>& byRow, int variable) const
{
    if (variable < 0) return signs_[at(-1 - variable)] * byRow[at(-1 - variable)];
    double sum = 0;
    for (const int row : rowsOf_[at(variable)]) sum += byRow[at(row)];
    return sum;
}

/// The inverse of the basis anew, by elimination, so that rounding does not add up.
void CoverProgram::rebuild()
{
    const auto m = at(rows());
    std::vector<double> matrix(m * m, 0), inverse(m * m, 0);
    for (std::size_t column = 0; column < m; ++column) {
        if (const int variable = basis_[column]; variable < 0) matrix[at(-1 - variable) * m + column] = signs_[at(-1 - variable)];
        else
            for (const int row : rowsOf_[at(variable)]) matrix[at(row) * m + column] = 1;
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
    reckonValues();
    sinceRebuilt_ = 0;
}

void CoverProgram::reckonValues()
{
    const auto m = at(rows());
    values_.assign(m, 0);
    for (std::size_t row = 0; row < m; ++row)
        for (std::size_t column = 0; column < m; ++column) values_[row] += inverse_[row * m + column] * sides_[column];
}

void CoverProgram::reckonPrices()
{
    const auto m = at(rows());
    prices_.assign(m, 0.0);
    for (std::size_t row = 0; row < m; ++row) {
        const double cost = costOf(basis_[row]);
        if (cost == 0) continue;
        for (std::size_t column = 0; column < m; ++column) prices_[column] += cost * inverse_[row * m + column];
    }
}

double CoverProgram::reducedOf(int variable) const { return costOf(variable) - sumOver(prices_, variable); }

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
    const auto meet = [&](int column, double times) {
        for (std::size_t row = 0; row < m; ++row) step[row] += times * inverse_[row * m + at(column)];
    };
    if (variable < 0) meet(-1 - variable, signs_[at(-1 - variable)]);
    else
        for (const int row : rowsOf_[at(variable)]) meet(row, 1);
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
    classPrices_.assign(prices_.begin() + items_, prices_.begin() + items_ + classes_);
    double value = 0;
    for (int row = 0; row < rows(); ++row) value += prices_[at(row)] * exactSides_[at(row)];
    readShares();
    return value;
}

double CoverProgram::leftOutNumber() const
{
    double number = 0;
    for (int row = 0; row < rows(); ++row)
        if (basis_[at(row)] < 0 && basis_[at(row)] >= -items_) number += values_[at(row)];
    return number;
}

void CoverProgram::readShares()
{
    std::ranges::fill(share_, 0.0);
    for (int row = 0; row < rows(); ++row)
        if (basis_[at(row)] >= 0) share_[at(basis_[at(row)])] = values_[at(row)];
}

}
