#include "statistics/robust_weights.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace strikeoff {

namespace {

constexpr double huberK = 1.345;
constexpr double bisquareC = 4.685;
constexpr double leastSlope = 0.05;

}

double huberWeight(double scaled) { return std::abs(scaled) <= huberK ? 1 : huberK / std::abs(scaled); }

double bisquareWeight(double scaled)
{
    const auto part = scaled / bisquareC;
    return std::abs(part) >= 1 ? 0 : (1 - part * part) * (1 - part * part);
}

double robustScale(std::vector<double> distances, double unknowns)
{
    if (distances.empty()) return 0;
    // A fit makes as many residuals too short as it has unknowns: the median is taken of the longest n − p.
    const auto from = std::min(static_cast<std::size_t>(unknowns), distances.size() - 1);
    const auto count = distances.size() - from;
    const auto middle = distances.begin() + static_cast<std::ptrdiff_t>(from + count / 2);
    std::nth_element(distances.begin(), middle, distances.end());
    auto median = *middle;
    if (count % 2 == 0) {
        std::nth_element(distances.begin(), middle - 1, middle);
        median = (median + *(middle - 1)) / 2;
    }
    return median * 1.482602218505602;
}

BisquareSpread bisquareSpread(std::span<const double> scaled, double unknowns)
{
    double psiSquares = 0, slope = 0, slopeSquares = 0;
    for (const auto u : scaled) {
        const auto part = u / bisquareC;
        const bool inside = std::abs(part) < 1;
        const double psi = inside ? u * (1 - part * part) * (1 - part * part) : 0;
        const double steep = inside ? (1 - part * part) * (1 - 5 * part * part) : 0;
        psiSquares += psi * psi;
        slope += steep;
        slopeSquares += steep * steep;
    }
    const auto n = static_cast<double>(scaled.size());
    slope /= n;
    if (!(slope > leastSlope)) return {};
    const double correction = 1 + unknowns / n * std::max(0.0, slopeSquares / n - slope * slope) / (slope * slope);
    return {std::sqrt(psiSquares / (n - unknowns)) / slope * correction, true};
}

}
