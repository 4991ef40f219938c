#pragma once

namespace strikeoff {

/// A figure reckoned from a sample, with the ends of its interval.
struct Estimate {
    double value = 0;
    double low = 0;
    double high = 0;

    bool isClearOf(double figure) const { return low > figure || high < figure; }
};

/// How sure an interval is where the program shows one without asking: it holds the truth four times in five.
inline constexpr double usualConfidence = 0.80;

}
