#include "statistics/random_effects.h"

#include "quantity/rounding.h"
#include "statistics/distributions.h"

#include <boost/math/special_functions/digamma.hpp>
#include <boost/math/special_functions/trigamma.hpp>
#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace strikeoff {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
/// Past so many, a t distribution is a normal one.
constexpr double manyFreedoms = 1e6;

double tBelow(double t, double freedom)
{
    if (std::isinf(t)) return t < 0 ? 0 : 1;
    return freedom >= manyFreedoms ? normalShareBelow(t) : studentShareBelow(t, freedom);
}

double tQuantile(double share, double freedom)
{
    return freedom >= manyFreedoms ? normalQuantile(share) : studentQuantile(share, freedom);
}

void requireUsable(std::span<const GroupValue> groups)
{
    if (groups.empty()) throw DomainError{"no groups to take together"};
    for (const auto& group : groups)
        if (!std::isfinite(group.value) || !std::isfinite(group.variance) || group.variance <= 0 || !(group.freedom > 0))
            throw DomainError{"a group whose value or variance is no figure, or whose variance is not above zero"};
}

struct Weighted {
    double mean = 0;
    double weights = 0;
};
Weighted weightedMean(std::span<const GroupValue> groups, double spread)
{
    double sum = 0, weights = 0;
    for (const auto& group : groups) {
        const double weight = 1 / (group.variance + spread);
        sum += weight * group.value;
        weights += weight;
    }
    return {sum / weights, weights};
}

/// One spread the groups may have, and how well it explains them.
struct Possible {
    double spread = 0;  ///< variance
    double weight = 0;  ///< all add up to one
    Weighted mean;
};

/// Spreads from none to far beyond what the groups show. Grid of standard deviations, finer near zero; each weighted by the likelihood with the mean taken
/// out, times the width it stands for (flat prior on the standard deviation).
std::vector<Possible> possibleSpreads(std::span<const GroupValue> groups)
{
    double least = infinite, most = 0;
    double low = infinite, high = -infinite;
    for (const auto& group : groups) {
        least = std::min(least, group.variance);
        most = std::max(most, group.variance);
        low = std::min(low, group.value);
        high = std::max(high, group.value);
    }
    // With three groups the tail falls like 1/tau² and is long; ten times the range holds all but a few per cent of it.
    const double end = 10 * std::max(high - low, std::sqrt(least));
    constexpr int steps = 120;
    std::vector<Possible> found;
    std::vector<double> logs;
    for (int i = 0; i < steps; ++i) {
        const double at = (i + 0.5) / steps;
        const double deviation = end * at * at * at;
        Possible each;
        each.spread = deviation * deviation;
        each.mean = weightedMean(groups, each.spread);
        double log = std::log(3 * at * at) - 0.5 * std::log(each.mean.weights);
        for (const auto& group : groups) {
            const double variance = group.variance + each.spread;
            const double off = group.value - each.mean.mean;
            log -= 0.5 * (std::log(variance) + off * off / variance);
        }
        logs.push_back(log);
        found.push_back(each);
    }
    const double top = *std::max_element(logs.begin(), logs.end());
    double sum = 0;
    for (std::size_t i = 0; i < found.size(); ++i) sum += found[i].weight = std::exp(logs[i] - top);
    // What weighs next to nothing is not worth the time.
    std::erase_if(found, [&](const Possible& each) { return each.weight < 1e-6 * sum; });
    sum = 0;
    for (const auto& each : found) sum += each.weight;
    for (auto& each : found) each.weight /= sum;
    return found;
}

/// Where a group's truth lies if the spread were this one.
struct Place {
    double at = 0;
    double error = 0;
};
Place placeAt(const GroupValue& group, double spread, const Weighted& mean)
{
    const double drawn = group.variance / (group.variance + spread);
    return {group.value + drawn * (mean.mean - group.value), std::sqrt(group.variance * (1 - drawn) + drawn * drawn / mean.weights)};
}

/// The share of Student's t below a figure, by Wallace's normal approximation ("Bounds on normal approximations to Student's and the chi-square
/// distributions", Annals of Mathematical Statistics 30 (1959) 1121–1130): right to the third decimal from three degrees of freedom on, and quick enough to
/// be summed over many spreads.
double nearlyStudentBelow(double t, double freedom)
{
    if (freedom >= manyFreedoms) return 0.5 * std::erfc(-t / std::sqrt(2.0));
    if (freedom < 3) return studentShareBelow(t, freedom);
    const double z = (8 * freedom + 1) / (8 * freedom + 3) * std::sqrt(freedom * std::log1p(t * t / freedom));
    return 0.5 * std::erfc((t < 0 ? z : -z) / std::sqrt(2.0));
}

/// The point below which a mixture of bell curves has the share asked for.
double mixtureQuantile(std::span<const Possible> spreads, std::span<const Place> places, double share, double freedom)
{
    const auto excess = [&](double at) {
        double below = 0;
        for (std::size_t i = 0; i < places.size(); ++i) below += spreads[i].weight * nearlyStudentBelow((at - places[i].at) / places[i].error, freedom);
        return below - share;
    };
    // Each curve has its own quantile; that of the mixture lies between the least and the greatest of them.
    const double reach = tQuantile(share, freedom);
    double low = infinite, high = -infinite;
    for (const auto& place : places) {
        low = std::min(low, place.at + reach * place.error);
        high = std::max(high, place.at + reach * place.error);
    }
    const double slack = 0.01 * (high - low) + 1e-6 * std::abs(low) + 1e-9;
    low -= slack;
    high += slack;
    const double atLow = excess(low), atHigh = excess(high);
    if (atLow >= 0 || atHigh <= 0) return atLow >= 0 ? low : high;
    std::uintmax_t steps = 60;
    const auto found = boost::math::tools::toms748_solve(excess, low, high, atLow, atHigh, boost::math::tools::eps_tolerance<double>{24}, steps);
    return (found.first + found.second) / 2;
}

}

double RandomEffects::inconsistency() const
{
    return q <= 0 ? 0 : std::max(0.0, (q - static_cast<double>(groups - 1)) / q);
}

RandomEffects randomEffects(std::span<const GroupValue> groups)
{
    requireUsable(groups);
    RandomEffects found;
    found.groups = groups.size();
    const auto fixed = weightedMean(groups, 0);
    found.fixedMean = fixed.mean;
    found.fixedError = std::sqrt(1 / fixed.weights);
    double squaredWeights = 0;
    for (const auto& group : groups) {
        const double off = group.value - fixed.mean;
        found.q += off * off / group.variance;
        squaredWeights += 1 / (group.variance * group.variance);
    }
    const double c = fixed.weights - squaredWeights / fixed.weights;
    const double freedom = static_cast<double>(groups.size() - 1);
    if (groups.size() > 1 && c > 0) found.spread = std::max(0.0, (found.q - freedom) / c);
    const auto mean = weightedMean(groups, found.spread);
    found.mean = mean.mean;
    found.error = std::sqrt(1 / mean.weights);
    return found;
}

Pooled pool(std::span<const GroupValue> groups)
{
    Pooled result;
    result.common = randomEffects(groups);
    result.pooled = groups.size() >= leastGroupsToPool;
    if (!result.pooled) {
        for (const auto& group : groups) {
            const double error = std::sqrt(group.variance);
            const double reach = tQuantile(0.9, group.freedom) * error;
            result.values.push_back({group.value, group.value - reach, group.value + reach, error, 1});
        }
        return result;
    }
    const auto spreads = possibleSpreads(groups);
    const Weighted mean{result.common.mean, 1 / (result.common.error * result.common.error)};
    for (const auto& group : groups) {
        std::vector<Place> places;
        double center = 0, squares = 0;
        for (const auto& each : spreads) {
            const auto place = placeAt(group, each.spread, each.mean);
            places.push_back(place);
            center += each.weight * place.at;
            squares += each.weight * (place.at * place.at + place.error * place.error);
        }
        ShrunkValue value;
        value.estimate = placeAt(group, result.common.spread, mean).at;
        value.low = mixtureQuantile(spreads, places, 0.1, group.freedom);
        value.high = mixtureQuantile(spreads, places, 0.9, group.freedom);
        value.error = std::sqrt(std::max(0.0, squares - center * center));
        value.weight = result.common.spread / (group.variance + result.common.spread);
        result.values.push_back(value);
    }
    return result;
}

namespace {

/// The x whose trigamma is y, by Newton's steps on its reciprocal, which is almost straight (Smyth 2004, appendix).
double trigammaInverse(double y)
{
    double x = 0.5 + 1 / y;
    for (int i = 0; i < 50; ++i) {
        const double at = boost::math::trigamma(x);
        const double slope = (boost::math::trigamma(x * (1 + 1e-6)) - at) / (x * 1e-6);
        const double step = at * (1 - at / y) / slope;
        x += step;
        if (-step / x < 1e-8) break;
    }
    return x;
}

}

double SharedVariance::of(const GroupScatter& group) const
{
    if (std::isinf(freedom)) return variance;
    return (freedom * variance + group.squares) / (freedom + group.freedom);
}

double SharedVariance::freedomOf(const GroupScatter& group) const { return freedom + group.freedom; }

SharedVariance shareVariance(std::span<const GroupScatter> groups)
{
    double squares = 0, freedoms = 0;
    std::vector<const GroupScatter*> usable;
    for (const auto& group : groups) {
        if (group.freedom <= 0) continue;
        squares += group.squares;
        freedoms += group.freedom;
        // The logarithm of a variance with less than one degree behind it says next to nothing and would drown the rest.
        if (group.squares > 0 && group.freedom >= 1) usable.push_back(&group);
    }
    SharedVariance shared;
    if (freedoms <= 0) return shared;
    shared.variance = squares / freedoms;
    shared.freedom = infinite;
    if (usable.size() < 3) return shared;
    std::vector<double> logs;
    double expected = 0;
    for (const auto* group : usable) {
        const double half = group->freedom / 2;
        logs.push_back(std::log(group->squares / group->freedom) - boost::math::digamma(half) + std::log(half));
        expected += boost::math::trigamma(half);
    }
    const double count = static_cast<double>(usable.size());
    const double mean = std::accumulate(logs.begin(), logs.end(), 0.0) / count;
    double scatter = 0;
    for (const double log : logs) scatter += (log - mean) * (log - mean);
    const double excess = scatter / (count - 1) - expected / count;
    if (excess <= 0) return shared;
    const double half = trigammaInverse(excess);
    if (!std::isfinite(half) || half <= 0) return shared;
    shared.freedom = 2 * half;
    shared.variance = std::exp(mean + boost::math::digamma(half) - std::log(half));
    return shared;
}

SteinShrinkage shrinkTowardMean(std::span<const double> values, double variance)
{
    if (values.size() < 4) throw DomainError{"fewer than four values to shrink toward their mean"};
    SteinShrinkage shrunk;
    const double count = static_cast<double>(values.size());
    shrunk.mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
    double squares = 0;
    for (const double value : values) squares += (value - shrunk.mean) * (value - shrunk.mean);
    shrunk.factor = squares <= 0 ? 0 : std::max(0.0, 1 - (count - 3) * variance / squares);
    for (const double value : values) shrunk.values.push_back(shrunk.mean + shrunk.factor * (value - shrunk.mean));
    return shrunk;
}

double chanceBelow(double limit, const ShrunkValue& shrunk, double variance, double freedom)
{
    const double error = std::sqrt(shrunk.error * shrunk.error + variance);
    if (error <= 0) return shrunk.estimate < limit ? 1 : 0;
    return tBelow((limit - shrunk.estimate) / error, freedom);
}

ShareLimits shareLimits(int counted, int of, double confidence)
{
    if (counted < 0 || counted > of) throw DomainError{"more counted than there are"};
    if (of == 0) return {0, 1};
    const double z = normalQuantile(0.5 + confidence / 2);
    const double n = of;
    const double share = counted / n;
    const double center = share + z * z / (2 * n);
    const double reach = z * std::sqrt(share * (1 - share) / n + z * z / (4 * n * n));
    return {std::max(0.0, (center - reach) / (1 + z * z / n)), std::min(1.0, (center + reach) / (1 + z * z / n))};
}

}
