#include "statistics/month_levels.h"

#include "statistics/distributions.h"
#include "statistics/robust_weights.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>
#include <memory>
#include <numeric>
#include <unordered_map>

namespace strikeoff {

namespace {

using Matrix = Eigen::MatrixXd;
using Vector = Eigen::VectorXd;

constexpr int leastOfGroup = 3;
constexpr std::size_t mostGroups = 80;

Eigen::Index at(std::size_t index) { return static_cast<Eigen::Index>(index); }

struct Used {
    std::size_t month = 0;
    std::size_t group = 0;
    double size = 0;
    double value = 0;
    std::size_t place = 0;  ///< among all observations
};

/// Which months and groups are tied to each other.
class Ties {
public:
    explicit Ties(std::size_t nodes) : parent_(nodes) { std::iota(parent_.begin(), parent_.end(), std::size_t{0}); }
    std::size_t rootOf(std::size_t node)
    {
        while (parent_[node] != node) node = parent_[node] = parent_[parent_[node]];
        return node;
    }
    void tie(std::size_t a, std::size_t b) { parent_[rootOf(a)] = rootOf(b); }

private:
    std::vector<std::size_t> parent_;
};

/// The observations that can be compared with each other, with months and groups counted from 0; the commonest group is 0.
class Comparable {
public:
    Comparable(std::span<const SeasonalObservation> observations)
    {
        std::unordered_map<int, std::size_t> counts;
        for (const auto& each : observations)
            if (std::isfinite(each.value) && std::isfinite(each.size)) ++counts[each.group];
        std::vector<std::pair<int, std::size_t>> groups{counts.begin(), counts.end()};
        std::sort(groups.begin(), groups.end(), [](const auto& a, const auto& b) { return a.second != b.second ? a.second > b.second : a.first < b.first; });
        std::unordered_map<int, std::size_t> groupAt;
        for (const auto& [group, count] : groups)
            if (groupAt.size() < mostGroups && (count >= leastOfGroup || groupAt.empty())) groupAt.emplace(group, groupAt.size());
        std::vector<int> months;
        for (const auto& each : observations)
            if (groupAt.contains(each.group)) months.push_back(each.month);
        std::sort(months.begin(), months.end());
        months.erase(std::unique(months.begin(), months.end()), months.end());

        std::vector<Used> all;
        all.reserve(observations.size());
        Ties ties{months.size() + groupAt.size()};
        for (std::size_t i = 0; i < observations.size(); ++i) {
            const auto& each = observations[i];
            const auto group = groupAt.find(each.group);
            if (group == groupAt.end() || !std::isfinite(each.value) || !std::isfinite(each.size)) continue;
            const auto month = static_cast<std::size_t>(std::lower_bound(months.begin(), months.end(), each.month) - months.begin());
            ties.tie(month, months.size() + group->second);
            all.push_back({month, group->second, each.size, each.value, i});
        }
        // The part of the book with the most observations.
        std::unordered_map<std::size_t, std::size_t> parts;
        for (const auto& each : all) ++parts[ties.rootOf(each.month)];
        std::size_t best = 0, most = 0;
        for (const auto& [root, count] : parts)
            if (count > most || (count == most && root < best)) {
                best = root;
                most = count;
            }
        constexpr auto none = static_cast<std::size_t>(-1);
        std::vector<std::size_t> monthAt(months.size(), none), groupPlace(groupAt.size(), none);
        for (std::size_t group = 0; group < groupAt.size(); ++group)
            if (most > 0 && ties.rootOf(months.size() + group) == best) {
                groupPlace[group] = groupNames.size();
                for (const auto& [name, place] : groupAt)
                    if (place == group) groupNames.push_back(name);
            }
        for (std::size_t month = 0; month < months.size(); ++month)
            if (most > 0 && ties.rootOf(month) == best) {
                monthAt[month] = monthNames.size();
                monthNames.push_back(months[month]);
            }
        for (auto& each : all) {
            if (monthAt[each.month] == none) continue;
            each.month = monthAt[each.month];
            each.group = groupPlace[each.group];
            used.push_back(each);
        }
    }

    std::vector<Used> used;
    std::vector<int> monthNames;
    std::vector<int> groupNames;
};

/// Least squares with a level a month, an effect a group and a slope: the months are eliminated, so that the sums are as long as there are groups.
class LevelSums {
public:
    LevelSums(const Comparable& data, bool sized) : data_{data}, unknowns_{data.groupNames.size() - 1 + (sized ? 1 : 0)}, sized_{sized} {}

    /// False when the unknowns cannot be told apart.
    bool solve(const std::vector<double>& weights)
    {
        const auto months = at(data_.monthNames.size());
        const auto q = at(unknowns_);
        Matrix beside = Matrix::Zero(months, q);  // weight of a group in a month, and size
        Vector monthWeight = Vector::Zero(months), monthValue = Vector::Zero(months);
        Matrix squares = Matrix::Zero(q, q);
        Vector side = Vector::Zero(q);
        for (std::size_t i = 0; i < data_.used.size(); ++i) {
            const auto& each = data_.used[i];
            const double w = weights[i];
            const auto month = at(each.month);
            monthWeight[month] += w;
            monthValue[month] += w * each.value;
            if (each.group > 0) {
                const auto group = at(each.group) - 1;
                beside(month, group) += w;
                squares(group, group) += w;
                side[group] += w * each.value;
                if (sized_) squares(group, q - 1) += w * each.size;
            }
            if (sized_) {
                beside(month, q - 1) += w * each.size;
                squares(q - 1, q - 1) += w * each.size * each.size;
                side[q - 1] += w * each.size * each.value;
            }
        }
        if (sized_) squares.row(q - 1).head(q - 1) = squares.col(q - 1).head(q - 1).transpose();
        monthWeight = monthWeight.cwiseMax(1e-9);
        shares_ = monthWeight.cwiseInverse().asDiagonal() * beside;
        meanShare_ = (monthWeight.transpose() * shares_).transpose() / monthWeight.sum();
        monthWeight_ = monthWeight;
        levels_ = monthValue.cwiseQuotient(monthWeight);
        effects_ = Vector::Zero(q);
        if (q > 0) {
            const Matrix reduced = squares - beside.transpose() * shares_;
            const Vector right = side - beside.transpose() * levels_;
            const Vector scale = reduced.diagonal().cwiseMax(1e-300).cwiseSqrt().cwiseInverse();
            const Eigen::ColPivHouseholderQR<Matrix> qr{scale.asDiagonal() * reduced * scale.asDiagonal()};
            const Vector pivots = qr.matrixQR().diagonal().cwiseAbs();
            if (!(pivots.minCoeff() > 1e-10 * pivots.maxCoeff())) return false;
            const Matrix inverse = qr.solve(Matrix::Identity(q, q));
            inverse_ = scale.asDiagonal() * inverse * scale.asDiagonal();
            effects_ = inverse_ * right;
            levels_ -= shares_ * effects_;
        }
        return true;
    }

    double residual(const Used& each) const
    {
        double fitted = levels_[at(each.month)];
        if (each.group > 0) fitted += effects_[at(each.group) - 1];
        if (sized_) fitted += effects_[effects_.size() - 1] * each.size;
        return each.value - fitted;
    }
    double level(std::size_t month) const { return levels_[at(month)]; }
    /// Of a month against the others: what groups and size leave uncertain about all months alike is none of it.
    double levelVariance(std::size_t month) const
    {
        const double own = 1 / monthWeight_[at(month)];
        if (effects_.size() == 0) return own;
        const Vector share = shares_.row(at(month)).transpose() - meanShare_;
        return own + share.dot(inverse_ * share);
    }
    double monthWeight(std::size_t month) const { return monthWeight_[at(month)]; }
    double effect(std::size_t group) const { return group == 0 ? 0 : effects_[at(group) - 1]; }
    double slope() const { return effects_[effects_.size() - 1]; }
    double slopeVariance() const { return inverse_(inverse_.rows() - 1, inverse_.cols() - 1); }
    double unknowns() const { return static_cast<double>(unknowns_ + data_.monthNames.size()); }

private:
    const Comparable& data_;
    std::size_t unknowns_;
    bool sized_;
    Matrix shares_, inverse_;
    Vector monthWeight_, meanShare_, levels_, effects_;
};

}

std::vector<std::size_t> MonthLevels::observationsOf(int month) const
{
    std::vector<std::size_t> found;
    for (auto place = std::lower_bound(byMonth.begin(), byMonth.end(), std::pair{month, std::size_t{0}}); place != byMonth.end() && place->first == month; ++place)
        found.push_back(place->second);
    return found;
}

MonthLevels monthLevels(std::span<const SeasonalObservation> observations, bool allowsForSize, double leastScale, double confidence)
{
    MonthLevels result;
    const Comparable data{observations};
    const auto count = data.used.size();
    if (count == 0) {
        result.refusal = "has no records to go by";
        return result;
    }
    bool sized = allowsForSize;
    std::vector<double> weights(count, 1.0);
    auto sums = std::make_unique<LevelSums>(data, sized);
    if (!sums->solve(weights) && sized) {
        sized = false;
        sums = std::make_unique<LevelSums>(data, sized);
        if (!sums->solve(weights)) result.refusal = "cannot be compared month by month: what was recorded differs too much";
    }
    const double degrees = static_cast<double>(count) - sums->unknowns();
    if (result.refusal.empty() && degrees < 5) result.refusal = "needs more records a month to tell months from what was in them";
    if (!result.refusal.empty()) return result;

    std::vector<double> residuals(count), distances(count);
    double scale = leastScale;
    const auto measure = [&] {
        for (std::size_t i = 0; i < count; ++i) {
            residuals[i] = sums->residual(data.used[i]);
            distances[i] = std::abs(residuals[i]);
        }
        scale = std::max(robustScale(distances, sums->unknowns()), leastScale);
    };
    constexpr int huberRounds = 6;
    constexpr int rounds = 24;
    for (int round = 0; round < rounds; ++round) {
        measure();
        double moved = 0;
        for (std::size_t i = 0; i < count; ++i) {
            const auto u = residuals[i] / scale;
            const auto next = std::max(round < huberRounds ? huberWeight(u) : bisquareWeight(u), 1e-8);
            moved = std::max(moved, std::abs(next - weights[i]));
            weights[i] = next;
        }
        if (!sums->solve(weights)) {
            result.refusal = "cannot be compared month by month once odd records are left out";
            return result;
        }
        if (round > huberRounds && moved < 1e-3) break;
        if (round < huberRounds && round > 1 && moved < 1e-3) round = huberRounds - 1;
    }
    measure();

    std::vector<double> scaled(count);
    for (std::size_t i = 0; i < count; ++i) scaled[i] = residuals[i] / scale;
    const auto spread = bisquareSpread(scaled, sums->unknowns());
    if (!spread.agrees) {
        result.refusal = "has more odd records than ones that agree";
        return result;
    }
    const auto weightSum = std::accumulate(weights.begin(), weights.end(), 0.0);
    result.spread = scale * spread.spread;
    // The sums carry weights: their mean is put back, as the spread is of observations of weight one.
    const double variance = result.spread * result.spread * weightSum / static_cast<double>(count);

    std::vector<int> observed(data.monthNames.size(), 0);
    result.weights.assign(observations.size(), 0.0);
    for (std::size_t i = 0; i < count; ++i) {
        const auto& each = data.used[i];
        result.weights[each.place] = weights[i] < 1e-6 ? 0 : weights[i];
        if (weights[i] >= 1e-6) ++observed[each.month];
        result.byMonth.emplace_back(data.monthNames[each.month], each.place);
    }
    std::sort(result.byMonth.begin(), result.byMonth.end());
    for (std::size_t month = 0; month < data.monthNames.size(); ++month) {
        if (sums->monthWeight(month) < 1e-3) continue;
        result.months.push_back({data.monthNames[month], observed[month], sums->level(month), std::sqrt(variance * sums->levelVariance(month))});
    }
    for (std::size_t group = 0; group < data.groupNames.size(); ++group) result.groups.emplace_back(data.groupNames[group], sums->effect(group));
    std::sort(result.groups.begin(), result.groups.end());
    if (sized) {
        const double half = studentReach(confidence, degrees) * std::sqrt(variance * sums->slopeVariance());
        result.perSize = Estimate{sums->slope(), sums->slope() - half, sums->slope() + half};
    }
    if (result.months.empty()) result.refusal = "has no records to go by";
    return result;
}

}
