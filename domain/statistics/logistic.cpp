#include "statistics/logistic.h"

#include "quantity/rounding.h"
#include "statistics/distributions.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

double chanceOf(double logOdds) { return logOdds >= 0 ? 1 / (1 + std::exp(-logOdds)) : std::exp(logOdds) / (1 + std::exp(logOdds)); }

/// log(1 + exp(x)) without overflow.
double softPlus(double x) { return x > 0 ? x + std::log1p(std::exp(-x)) : std::log1p(std::exp(x)); }

double devianceOf(const Eigen::VectorXd& logOdds, const Eigen::VectorXd& outcomes)
{
    double sum = 0;
    for (Eigen::Index i = 0; i < logOdds.size(); ++i) sum += softPlus(logOdds[i]) - outcomes[i] * logOdds[i];
    return 2 * sum;
}

LogisticResult refused(std::string why) { return {std::nullopt, std::move(why)}; }

constexpr auto separated = "The figures part the two outcomes without a single miss, so that how steep the chance is cannot be told.";

}

double LogisticFit::standardError(std::size_t index) const { return std::sqrt(covariance[index * coefficients.size() + index]); }

Estimate LogisticFit::chanceAt(std::span<const double> row, double confidence) const
{
    if (row.size() != coefficients.size()) throw DomainError{"a row of predictors of another length than the fit's"};
    double logOdds = 0, variance = 0;
    for (std::size_t i = 0; i < row.size(); ++i) {
        logOdds += coefficients[i] * row[i];
        for (std::size_t j = 0; j < row.size(); ++j) variance += row[i] * covariance[i * row.size() + j] * row[j];
    }
    const double reach = normalQuantile(0.5 + confidence / 2) * std::sqrt(std::max(0.0, variance));
    return {chanceOf(logOdds), chanceOf(logOdds - reach), chanceOf(logOdds + reach)};
}

LogisticResult fitLogistic(const Predictors& predictors, const std::vector<bool>& outcomes)
{
    const auto rows = static_cast<Eigen::Index>(predictors.rows());
    const auto columns = static_cast<Eigen::Index>(predictors.columns());
    if (outcomes.size() != predictors.rows()) throw DomainError{"as many outcomes as rows of predictors are needed"};
    const auto happened = static_cast<std::size_t>(std::count(outcomes.begin(), outcomes.end(), true));
    const auto least = std::min(happened, outcomes.size() - happened);
    if (least < predictors.columns()) return refused("Of one outcome there are too few to tell what the chance goes by.");
    Eigen::MatrixXd x(rows, columns);
    Eigen::VectorXd y(rows);
    for (Eigen::Index i = 0; i < rows; ++i) {
        const auto row = predictors.row(static_cast<std::size_t>(i));
        for (Eigen::Index j = 0; j < columns; ++j) x(i, j) = row[static_cast<std::size_t>(j)];
        y[i] = outcomes[static_cast<std::size_t>(i)] ? 1 : 0;
    }
    if (!x.allFinite()) return refused("A predictor is no number.");
    const Eigen::VectorXd lengths = x.colwise().norm();
    if ((lengths.array() <= 0).any()) return refused("A predictor is zero throughout.");
    const Eigen::MatrixXd scaled = x * lengths.cwiseInverse().asDiagonal();
    Eigen::ColPivHouseholderQR<Eigen::MatrixXd> qr{scaled};
    qr.setThreshold(1e-10);
    if (qr.rank() < columns) return refused("One predictor follows from the others.");

    Eigen::VectorXd at = Eigen::VectorXd::Zero(columns);
    Eigen::VectorXd logOdds = Eigen::VectorXd::Zero(rows);
    double deviance = devianceOf(logOdds, y);
    Eigen::MatrixXd information(columns, columns);
    bool settled = false;
    for (int step = 0; step < 100 && !settled; ++step) {
        Eigen::VectorXd chances = logOdds.unaryExpr(&chanceOf);
        Eigen::VectorXd weights = chances.cwiseProduct((1 - chances.array()).matrix());
        information = scaled.transpose() * weights.asDiagonal() * scaled;
        const Eigen::LDLT<Eigen::MatrixXd> solver{information};
        Eigen::VectorXd move = solver.solve(scaled.transpose() * (y - chances));
        if (solver.info() != Eigen::Success || !move.allFinite()) return refused(separated);
        double next = devianceOf(scaled * (at + move), y);
        for (int halving = 0; halving < 40 && !(next <= deviance + 1e-12); ++halving) {
            move /= 2;
            next = devianceOf(scaled * (at + move), y);
        }
        at += move;
        logOdds = scaled * at;
        settled = std::abs(deviance - next) < 1e-12 * (1 + next) && move.norm() < 1e-8 * (1 + at.norm());
        deviance = next;
        // Where outcomes are parted, the log odds of at least one side run away while the deviance creeps toward its floor.
        if (deviance < 1e-6 || logOdds.cwiseAbs().maxCoeff() > 30) return refused(separated);
    }
    if (!settled) return refused(separated);

    LogisticFit fit;
    fit.deviance = deviance;
    fit.count = outcomes.size();
    fit.happened = happened;
    const Eigen::MatrixXd inverse = information.ldlt().solve(Eigen::MatrixXd::Identity(columns, columns));
    for (Eigen::Index i = 0; i < columns; ++i) {
        fit.coefficients.push_back(at[i] / lengths[i]);
        for (Eigen::Index j = 0; j < columns; ++j) fit.covariance.push_back(inverse(i, j) / (lengths[i] * lengths[j]));
    }
    return {std::move(fit), {}};
}

}
