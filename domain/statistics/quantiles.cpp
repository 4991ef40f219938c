#include "statistics/quantiles.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace strikeoff {

namespace {

double at(std::span<const double> sorted, double p)
{
    if (!(p >= 0 && p <= 1)) throw DomainError{"a quantile's share must lie between 0 and 1"};
    const auto position = p * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(std::floor(position));
    const auto part = position - static_cast<double>(below);
    if (part == 0) return sorted[below];
    return sorted[below] + part * (sorted[below + 1] - sorted[below]);
}

void requireNumbers(std::span<const double> sample)
{
    if (std::any_of(sample.begin(), sample.end(), [](double value) { return std::isnan(value); })) throw DomainError{"a sample holds a value that is no number"};
}

/// The median of values that may be put in another order.
double medianOf(std::vector<double>& values)
{
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) return *middle;
    const auto below = *std::max_element(values.begin(), middle);
    return below + (*middle - below) / 2;
}

}

std::vector<double> quantiles(std::span<const double> sample, std::span<const double> shares)
{
    requireNumbers(sample);
    if (sample.empty()) return {};
    std::vector<double> sorted{sample.begin(), sample.end()};
    std::sort(sorted.begin(), sorted.end());
    std::vector<double> found;
    found.reserve(shares.size());
    for (const auto share : shares) found.push_back(at(sorted, share));
    return found;
}

std::optional<double> quantile(std::span<const double> sample, double p)
{
    const auto found = quantiles(sample, std::array{p});
    return found.empty() ? std::nullopt : std::optional{found.front()};
}

std::optional<double> median(std::span<const double> sample)
{
    requireNumbers(sample);
    if (sample.empty()) return std::nullopt;
    std::vector<double> values{sample.begin(), sample.end()};
    return medianOf(values);
}

std::optional<double> medianDeviation(std::span<const double> sample)
{
    const auto middle = median(sample);
    if (!middle) return std::nullopt;
    std::vector<double> distances;
    distances.reserve(sample.size());
    for (const auto value : sample) distances.push_back(std::abs(value - *middle));
    return medianOf(distances) * 1.482602218505602;  // 1 / the normal distribution's 75 % point
}

std::vector<double> oddness(std::span<const double> sample)
{
    std::vector<double> odd(sample.size(), 0.0);
    const auto spread = medianDeviation(sample);
    if (!spread || *spread <= 0) return odd;
    const auto middle = *median(sample);
    for (std::size_t i = 0; i < sample.size(); ++i) odd[i] = (sample[i] - middle) / *spread;
    return odd;
}

std::vector<double> runningMedian(std::span<const double> values, std::size_t eachSide)
{
    requireNumbers(values);
    std::vector<double> medians;
    medians.reserve(values.size());
    std::vector<double> window;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const auto from = i - std::min(i, eachSide);
        const auto to = std::min(values.size(), i + eachSide + 1);
        window.assign(values.begin() + static_cast<std::ptrdiff_t>(from), values.begin() + static_cast<std::ptrdiff_t>(to));
        medians.push_back(medianOf(window));
    }
    return medians;
}

}
