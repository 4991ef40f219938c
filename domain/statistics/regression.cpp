#include "statistics/regression.h"

#include "quantity/rounding.h"
#include "statistics/distributions.h"
#include "statistics/robust_weights.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace strikeoff {

namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;
using RowMatrix = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// The last of the pivots against the first below which predictors count as dependent.
constexpr double leastPivot = 1e-12;

FitResult refused(std::string why) { return {std::nullopt, std::move(why)}; }

Eigen::Index at(std::size_t index) { return static_cast<Eigen::Index>(index); }

std::vector<double> plain(const Vector& values) { return {values.data(), values.data() + values.size()}; }

/// Coefficients and the inverse of X'WX.
struct Solution {
    Vector coefficients;
    Matrix inverse;
};

/// Nothing when the predictors depend on each other.
std::optional<Solution> solve(const Matrix& design, const Vector& observed, const Vector& weights)
{
    const Vector roots = weights.cwiseSqrt();
    Matrix scaled = roots.asDiagonal() * design;
    Vector lengths = scaled.colwise().norm();
    if ((lengths.array() <= 0).any()) return std::nullopt;
    scaled = scaled * lengths.cwiseInverse().asDiagonal();
    const Eigen::ColPivHouseholderQR<Matrix> qr{scaled};
    const auto columns = design.cols();
    const Vector pivots = qr.matrixQR().diagonal().head(columns).cwiseAbs();
    if (!(pivots.minCoeff() > leastPivot * pivots.maxCoeff())) return std::nullopt;

    Solution solution;
    solution.coefficients = qr.solve(roots.cwiseProduct(observed)).cwiseQuotient(lengths);
    const Matrix upper = qr.matrixQR().topRows(columns).template triangularView<Eigen::Upper>();
    Matrix inverseUpper = Matrix::Identity(columns, columns);
    upper.triangularView<Eigen::Upper>().solveInPlace(inverseUpper);
    const Matrix unscaled = lengths.cwiseInverse().asDiagonal() * (qr.colsPermutation() * inverseUpper);
    solution.inverse = unscaled * unscaled.transpose();
    return solution;
}

bool hasConstant(const Matrix& design)
{
    for (Eigen::Index column = 0; column < design.cols(); ++column)
        if (design(0, column) != 0 && (design.col(column).array() == design(0, column)).all()) return true;
    return false;
}

/// The fit but for its standard errors.
LinearFit described(const Matrix& design, const Vector& observed, const Vector& weights, const Solution& solution)
{
    LinearFit fit;
    const Vector residuals = observed - design * solution.coefficients;
    fit.coefficients = plain(solution.coefficients);
    fit.residuals = plain(residuals);
    fit.weights = plain(weights);
    fit.residualSquares = residuals.cwiseProduct(weights).dot(residuals);
    fit.degrees = static_cast<double>(design.rows() - design.cols());
    fit.residualSd = std::sqrt(fit.residualSquares / fit.degrees);
    const double center = hasConstant(design) ? weights.dot(observed) / weights.sum() : 0;
    const Vector apart = observed.array() - center;
    const double all = apart.cwiseProduct(weights).dot(apart);
    fit.rSquared = all > 0 ? 1 - fit.residualSquares / all : 1;
    return fit;
}

void setCovariance(LinearFit& fit, const Matrix& inverse, double variance)
{
    const RowMatrix covariance = inverse * variance;
    fit.covariance.assign(covariance.data(), covariance.data() + covariance.size());
    fit.standardErrors = plain(covariance.diagonal().cwiseMax(0).cwiseSqrt());
}

struct Problem {
    Matrix design;
    Vector observed;
    std::string refusal;
};

Problem problemOf(const Predictors& predictors, std::span<const double> observed)
{
    if (observed.size() != predictors.rows()) throw DomainError{"a regression needs as many observations as rows of predictors"};
    Problem problem;
    if (predictors.columns() == 0 || predictors.rows() < predictors.columns() + 1) {
        problem.refusal = "There are too few observations: " + std::to_string(predictors.rows()) + " for " + std::to_string(predictors.columns()) + " unknowns.";
        return problem;
    }
    problem.design = Eigen::Map<const RowMatrix>{predictors.values().data(), at(predictors.rows()), at(predictors.columns())};
    problem.observed = Eigen::Map<const Vector>{observed.data(), at(observed.size())};
    if (!problem.design.allFinite() || !problem.observed.allFinite()) problem.refusal = "An observation holds a figure that is no number.";
    return problem;
}

const std::string dependent = "The predictors cannot be told apart: one follows from the others.";

double scaleOf(const Vector& residuals, double unknowns)
{
    std::vector<double> distances(static_cast<std::size_t>(residuals.size()));
    for (std::size_t i = 0; i < distances.size(); ++i) distances[i] = std::abs(residuals[at(i)]);
    return robustScale(std::move(distances), unknowns);
}

}

void Predictors::add(std::span<const double> row)
{
    if (row.size() != columns_) throw DomainError{"a row of predictors has another length than the others"};
    values_.insert(values_.end(), row.begin(), row.end());
}

Estimate LinearFit::coefficient(std::size_t index, double confidence) const
{
    const auto reach = studentReach(confidence, degrees) * standardErrors[index];
    return {coefficients[index], coefficients[index] - reach, coefficients[index] + reach};
}

double LinearFit::standardErrorAt(std::span<const double> row) const
{
    if (row.size() != coefficients.size()) throw DomainError{"a row of predictors has another length than the fit"};
    double variance = 0;
    for (std::size_t i = 0; i < row.size(); ++i)
        for (std::size_t j = 0; j < row.size(); ++j) variance += row[i] * row[j] * covariance[i * row.size() + j];
    return std::sqrt(std::max(0.0, variance));
}

Estimate LinearFit::meanAt(std::span<const double> row, double confidence) const
{
    const auto reach = studentReach(confidence, degrees) * standardErrorAt(row);
    const auto value = std::inner_product(row.begin(), row.end(), coefficients.begin(), 0.0);
    return {value, value - reach, value + reach};
}

Estimate LinearFit::nextAt(std::span<const double> row, double confidence) const
{
    const auto reach = studentReach(confidence, degrees) * std::hypot(standardErrorAt(row), residualSd);
    const auto value = std::inner_product(row.begin(), row.end(), coefficients.begin(), 0.0);
    return {value, value - reach, value + reach};
}

FitResult fitLinear(const Predictors& predictors, std::span<const double> observed, std::span<const double> weights)
{
    auto problem = problemOf(predictors, observed);
    if (!problem.refusal.empty()) return refused(problem.refusal);
    Vector weighing = Vector::Ones(problem.observed.size());
    if (!weights.empty()) {
        if (weights.size() != observed.size()) throw DomainError{"a regression needs as many weights as observations"};
        weighing = Eigen::Map<const Vector>{weights.data(), at(weights.size())};
        if (!weighing.allFinite() || (weighing.array() <= 0).any()) throw DomainError{"a regression's weights must be above zero"};
    }
    const auto solution = solve(problem.design, problem.observed, weighing);
    if (!solution) return refused(dependent);
    auto fit = described(problem.design, problem.observed, weighing, *solution);
    setCovariance(fit, solution->inverse, fit.residualSd * fit.residualSd);
    return {std::move(fit), {}};
}

FitResult fitRobustly(const Predictors& predictors, std::span<const double> observed)
{
    auto problem = problemOf(predictors, observed);
    if (!problem.refusal.empty()) return refused(problem.refusal);
    const auto count = problem.observed.size();
    const auto unknowns = static_cast<double>(problem.design.cols());
    const Vector even = Vector::Ones(count);
    const auto start = solve(problem.design, problem.observed, even);
    if (!start) return refused(dependent);
    auto solution = *start;
    Vector residuals = problem.observed - problem.design * solution.coefficients;
    const double least = 1e-9 * (1 + problem.observed.cwiseAbs().maxCoeff());
    double scale = scaleOf(residuals, unknowns);
    Vector weights = even;
    constexpr int huberRounds = 20;
    constexpr int rounds = 80;
    for (int round = 0; round < rounds; ++round) {
        scale = std::max(scaleOf(residuals, unknowns), least);
        for (Eigen::Index i = 0; i < count; ++i)
            weights[i] = std::max(round < huberRounds ? huberWeight(residuals[i] / scale) : bisquareWeight(residuals[i] / scale), 1e-10);
        const auto next = solve(problem.design, problem.observed, weights);
        if (!next) return refused("Without the odd observations the predictors cannot be told apart.");
        const double moved = (problem.design * (next->coefficients - solution.coefficients)).cwiseAbs().maxCoeff();
        solution = *next;
        residuals = problem.observed - problem.design * solution.coefficients;
        if (round > huberRounds && moved < 1e-10 * scale) break;
    }

    auto fit = described(problem.design, problem.observed, weights, solution);
    std::vector<double> scaled(static_cast<std::size_t>(count));
    for (Eigen::Index i = 0; i < count; ++i) scaled[static_cast<std::size_t>(i)] = residuals[i] / scale;
    const auto spread = bisquareSpread(scaled, unknowns);
    if (!spread.agrees) return refused("More observations are odd than agree, so no line can be trusted.");
    fit.residualSd = scale * spread.spread;
    // The inverse is of the unweighted squares: what weights took away is already in the slope.
    const auto plainInverse = solve(problem.design, problem.observed, even);
    setCovariance(fit, plainInverse->inverse, fit.residualSd * fit.residualSd);
    return {std::move(fit), {}};
}

}
