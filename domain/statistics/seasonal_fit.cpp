#include "statistics/seasonal_fit.h"

#include "statistics/distributions.h"
#include "statistics/month_levels.h"
#include "statistics/quantiles.h"
#include "statistics/regression.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <limits>

namespace strikeoff {

namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

Eigen::Index at(std::size_t index) { return static_cast<Eigen::Index>(index); }

/// Predictors of a month's level: a constant, years from the middle of the data, and the quarters seen, which add up to zero.
class MonthDesign {
public:
    MonthDesign(const SeasonalQuestion& question, const std::vector<MonthLevel>& months) : question_{question}
    {
        middle_ = (months.front().month + months.back().month) / 2.0;
        for (const auto& month : months) seen_[quarterOf(month.month)] = true;
        for (std::size_t quarter = 0; quarter < quartersOfYear; ++quarter)
            if (seen_[quarter]) order_.push_back(quarter);
    }
    std::size_t columns() const { return 2 + order_.size() - 1; }
    const std::vector<std::size_t>& quarters() const { return order_; }
    bool knows(int month) const { return seen_[quarterOf(month)]; }

    Vector row(int month) const
    {
        Vector row = Vector::Zero(at(columns()));
        row[0] = 1;
        row[1] = (month - middle_) / 12;
        addQuarter(row, quarterOf(month));
        return row;
    }
    /// What a quarter adds to the mean of those seen.
    Vector quarterAlone(std::size_t quarter) const
    {
        Vector row = Vector::Zero(at(columns()));
        addQuarter(row, quarter);
        return row;
    }

private:
    std::size_t quarterOf(int month) const { return static_cast<std::size_t>(question_.quarterOf[static_cast<std::size_t>((month % 12 + 12) % 12)]); }
    void addQuarter(Vector& row, std::size_t quarter) const
    {
        if (quarter == order_.back()) {
            for (std::size_t i = 0; i + 1 < order_.size(); ++i) row[at(2 + i)] = -1;
            return;
        }
        const auto place = std::find(order_.begin(), order_.end(), quarter) - order_.begin();
        row[2 + place] = 1;
    }

    const SeasonalQuestion& question_;
    double middle_ = 0;
    std::array<bool, quartersOfYear> seen_{};
    std::vector<std::size_t> order_;
};

/// Months of one or two observations far from where all others put them: a single odd observation is a whole month there.
void dropOddMonths(MonthLevels& levels, const SeasonalQuestion& question)
{
    const MonthDesign design{question, levels.months};
    Predictors predictors{design.columns()};
    std::vector<double> observed;
    for (const auto& month : levels.months) {
        const auto row = design.row(month.month);
        predictors.add(std::span{row.data(), static_cast<std::size_t>(row.size())});
        observed.push_back(month.level);
    }
    const auto robust = fitRobustly(predictors, observed);
    if (!robust.fit) return;
    constexpr double farOff = 5;
    std::vector<MonthLevel> kept;
    for (std::size_t i = 0; i < levels.months.size(); ++i) {
        const auto& month = levels.months[i];
        const auto reach = farOff * std::hypot(robust.fit->residualSd, month.standardError);
        if (month.observations <= 2 && std::abs(robust.fit->residuals[i]) > reach) {
            for (const auto index : levels.observationsOf(month.month)) levels.weights[index] = 0;
            continue;
        }
        kept.push_back(month);
    }
    levels.months = std::move(kept);
}

/// The second step for one scatter of the months and one length of its memory.
struct GridPoint {
    double logLikelihood = -std::numeric_limits<double>::infinity();
    Vector coefficients;
    Matrix covariance;
    std::vector<double> aheadLevel;
    std::vector<double> aheadVariance;
};

/// Levels and design made independent by running through the months and keeping what each tells that the ones before did not (Kalman's innovations), which for
/// a first-order chain observed with error is the Cholesky factor of the covariance, in time linear in the months.
class Whitener {
public:
    Whitener(const std::vector<MonthLevel>& months, const MonthDesign& design, const std::vector<int>& ahead) : months_{months}, design_{design}, ahead_{ahead}
    {
        data_ = Matrix{at(months.size()), at(design.columns() + 1)};
        for (std::size_t i = 0; i < months.size(); ++i) {
            data_.row(at(i)).head(at(design.columns())) = design.row(months[i].month).transpose();
            data_(at(i), at(design.columns())) = months[i].level;
        }
    }

    GridPoint of(double sd, double memory) const
    {
        const auto columns = at(design_.columns());
        const double variance = sd * sd;
        Matrix white{data_.rows(), data_.cols()};
        Eigen::RowVectorXd state = Eigen::RowVectorXd::Zero(data_.cols());
        double uncertainty = variance;
        double logDeterminant = 0;
        for (Eigen::Index i = 0; i < data_.rows(); ++i) {
            const auto& month = months_[static_cast<std::size_t>(i)];
            if (i > 0) {
                const auto kept = std::pow(memory, month.month - months_[static_cast<std::size_t>(i) - 1].month);
                state *= kept;
                uncertainty = kept * kept * uncertainty + variance * (1 - kept * kept);
            }
            const double total = uncertainty + month.standardError * month.standardError;
            const Eigen::RowVectorXd news = data_.row(i) - state;
            white.row(i) = news / std::sqrt(total);
            logDeterminant += std::log(total);
            const double gain = uncertainty / total;
            state += gain * news;
            uncertainty *= 1 - gain;
        }
        const Matrix x = white.leftCols(columns);
        const Vector y = white.col(columns);
        const Eigen::LDLT<Matrix> squares{x.transpose() * x};
        GridPoint point;
        if (squares.info() != Eigen::Success || !(squares.vectorD().minCoeff() > 1e-12 * squares.vectorD().maxCoeff())) return point;
        point.coefficients = squares.solve(x.transpose() * y);
        point.covariance = squares.solve(Matrix::Identity(columns, columns));
        const Vector rest = y - x * point.coefficients;
        point.logLikelihood = -0.5 * (logDeterminant + squares.vectorD().array().log().sum() + rest.squaredNorm());
        for (const auto month : ahead_) {
            const auto kept = std::pow(memory, month - months_.back().month);
            const Vector row = design_.row(month) - kept * state.head(columns).transpose();
            point.aheadLevel.push_back(kept * state[columns] + row.dot(point.coefficients));
            point.aheadVariance.push_back(row.dot(point.covariance * row) + kept * kept * uncertainty + variance * (1 - kept * kept));
        }
        return point;
    }

private:
    const std::vector<MonthLevel>& months_;
    const MonthDesign& design_;
    const std::vector<int>& ahead_;
    Matrix data_;
};

/// All grid points as one: means and covariances of a mixture.
struct Mixture {
    Vector coefficients;
    Matrix covariance;
    std::vector<double> aheadLevel;
    std::vector<double> aheadVariance;
    double sd = 0;
};

std::optional<Mixture> mixtureOf(const std::vector<MonthLevel>& months, const MonthDesign& design, const std::vector<int>& ahead)
{
    const Whitener whitener{months, design, ahead};
    // How far the months scatter at most, for the grid: about trend and season by plain least squares.
    Matrix x{at(months.size()), at(design.columns())};
    Vector y{at(months.size())};
    double leastError = std::numeric_limits<double>::max();
    for (std::size_t i = 0; i < months.size(); ++i) {
        x.row(at(i)) = design.row(months[i].month).transpose();
        y[at(i)] = months[i].level;
        leastError = std::min(leastError, months[i].standardError);
    }
    const Eigen::ColPivHouseholderQR<Matrix> plain{x};
    if (plain.rank() < x.cols()) return std::nullopt;
    const double scatter = std::max((y - x * plain.solve(y)).norm() / std::sqrt(static_cast<double>(x.rows() - x.cols())), 1e-6);

    constexpr int sdSteps = 16;
    constexpr double sdReach = 2.5;
    constexpr std::array memories{0.0, 0.15, 0.3, 0.45, 0.6, 0.75, 0.9};
    std::vector<std::pair<GridPoint, double>> points;
    double best = -std::numeric_limits<double>::infinity();
    for (int step = 0; step <= sdSteps; ++step) {
        // Closer together where it is small, each standing for as much of the scale as lies around it.
        const double part = static_cast<double>(step) / sdSteps;
        const double sd = std::max(sdReach * scatter * part * part, 1e-9);
        const double width = std::max(2 * part, 0.5 / sdSteps);
        for (const auto memory : memories) {
            auto point = whitener.of(sd, memory);
            if (!std::isfinite(point.logLikelihood)) continue;
            point.logLikelihood += std::log(width * (1 - memory) * (1 - memory));
            best = std::max(best, point.logLikelihood);
            points.emplace_back(std::move(point), sd);
        }
    }
    if (points.empty()) return std::nullopt;
    Mixture mixture;
    const auto columns = at(design.columns());
    mixture.coefficients = Vector::Zero(columns);
    mixture.covariance = Matrix::Zero(columns, columns);
    mixture.aheadLevel.assign(ahead.size(), 0);
    mixture.aheadVariance.assign(ahead.size(), 0);
    double sum = 0;
    for (const auto& [point, sd] : points) sum += std::exp(point.logLikelihood - best);
    for (const auto& [point, sd] : points) {
        const double weight = std::exp(point.logLikelihood - best) / sum;
        mixture.coefficients += weight * point.coefficients;
        mixture.sd += weight * sd;
        for (std::size_t i = 0; i < ahead.size(); ++i) mixture.aheadLevel[i] += weight * point.aheadLevel[i];
    }
    for (const auto& [point, sd] : points) {
        const double weight = std::exp(point.logLikelihood - best) / sum;
        const Vector apart = point.coefficients - mixture.coefficients;
        mixture.covariance += weight * (point.covariance + apart * apart.transpose());
        for (std::size_t i = 0; i < ahead.size(); ++i) {
            const double off = point.aheadLevel[i] - mixture.aheadLevel[i];
            mixture.aheadVariance[i] += weight * (point.aheadVariance[i] + off * off);
        }
    }
    return mixture;
}

SeasonalResult refused(std::string why) { return {std::nullopt, std::move(why)}; }

}

const MonthLevel* SeasonalFit::monthAt(int month) const
{
    const auto found = std::lower_bound(months.begin(), months.end(), month, [](const MonthLevel& level, int wanted) { return level.month < wanted; });
    return found != months.end() && found->month == month ? &*found : nullptr;
}

std::optional<double> SeasonalFit::groupAt(int group) const
{
    const auto found = std::lower_bound(groups.begin(), groups.end(), group, [](const auto& each, int wanted) { return each.first < wanted; });
    return found != groups.end() && found->first == group ? std::optional{found->second} : std::nullopt;
}

SeasonalResult fitSeasons(std::span<const SeasonalObservation> observations, const SeasonalQuestion& question)
{
    auto levels = monthLevels(observations, question.allowsForSize, question.leastScale, question.confidence);
    if (!levels.refusal.empty()) return refused(levels.refusal);
    if (levels.months.size() >= leastMonthsSeen) dropOddMonths(levels, question);
    if (static_cast<int>(levels.months.size()) < leastMonthsSeen || levels.months.back().month - levels.months.front().month + 1 < leastMonthsSpanned)
        return refused("needs " + std::to_string(leastMonthsSpanned) + " months of history, " + std::to_string(leastMonthsSeen) + " of them with records");
    const MonthDesign design{question, levels.months};
    if (design.quarters().size() < 2) return refused("needs records of more than one season");
    const double degrees = static_cast<double>(levels.months.size()) - static_cast<double>(design.columns());
    if (degrees < 3) return refused("needs more months than the season and the trend have unknowns");

    std::vector<int> ahead;
    for (const auto month : question.ahead)
        if (month > levels.months.back().month) ahead.push_back(month);
    if (ahead.size() != question.ahead.size()) return refused("was asked to look ahead to a month that is already seen");
    std::vector<int> known;
    for (const auto month : ahead)
        if (design.knows(month)) known.push_back(month);

    const auto mixture = mixtureOf(levels.months, design, known);
    if (!mixture) return refused("cannot tell the seasons from the trend in what is recorded");
    const double reach = studentReach(question.confidence, degrees);
    const auto interval = [&](double value, double variance) {
        const double half = reach * std::sqrt(std::max(0.0, variance));
        return Estimate{value, value - half, value + half};
    };

    SeasonalFit fit;
    fit.trendPerYear = interval(mixture->coefficients[1], mixture->covariance(1, 1));
    const auto count = design.quarters().size();
    Matrix contrasts{at(count), at(design.columns())};
    for (std::size_t i = 0; i < count; ++i) {
        const auto row = design.quarterAlone(design.quarters()[i]);
        contrasts.row(at(i)) = row.transpose();
        fit.quarters[design.quarters()[i]] = interval(row.dot(mixture->coefficients), row.dot(mixture->covariance * row));
    }
    const Matrix free = contrasts.topRows(at(count - 1));
    const Vector effects = free * mixture->coefficients;
    const Matrix spread = free * mixture->covariance * free.transpose();
    const double f = effects.dot(spread.ldlt().solve(effects)) / static_cast<double>(count - 1);
    fit.chanceWithoutSeason = std::isfinite(f) && f > 0 ? fisherShareAbove(f, static_cast<double>(count - 1), degrees) : 1;
    std::size_t place = 0;
    for (const auto month : question.ahead) {
        if (!design.knows(month)) {
            fit.ahead.push_back({std::nan(""), std::nan(""), std::nan("")});
            continue;
        }
        fit.ahead.push_back(interval(mixture->aheadLevel[place], mixture->aheadVariance[place]));
        ++place;
    }
    fit.monthSpread = mixture->sd;
    fit.spread = levels.spread;
    fit.perSize = levels.perSize;
    fit.groups = std::move(levels.groups);
    fit.months = std::move(levels.months);
    fit.weights = std::move(levels.weights);
    for (const auto weight : fit.weights) fit.observations += weight > 0 ? 1 : 0;
    return {std::move(fit), {}};
}

}
