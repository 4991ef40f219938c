#pragma once

#include <optional>
#include <span>
#include <vector>

namespace strikeoff {

/// The value a share p (0 to 1) of a sample lies below, between neighbors by a straight line: type 7 of Hyndman and Fan (1996), position
/// (n − 1) p counted from the least. One value is every quantile of itself; nothing for an empty sample. DomainError for a share out of
/// bounds and for a value that is no number.
std::optional<double> quantile(std::span<const double> sample, double p);

/// Several at once, with one sorting; empty for an empty sample.
std::vector<double> quantiles(std::span<const double> sample, std::span<const double> shares);

std::optional<double> median(std::span<const double> sample);

/// The median distance from the median, × 1.4826 so that it is the standard deviation of a normal sample. 0 when more than half are equal.
std::optional<double> medianDeviation(std::span<const double> sample);

/// How far a value lies from the median of its sample in median deviations: 0.6745 (x − median) / MAD; more than 3.5 marks an odd one (Iglewicz and
/// Hoaglin 1993). Zeros for a sample without spread.
std::vector<double> oddness(std::span<const double> sample);
inline constexpr double oddFrom = 3.5;

/// The median of each value's neighborhood: itself and so many before and after it, fewer at the ends.
std::vector<double> runningMedian(std::span<const double> values, std::size_t eachSide);

}
