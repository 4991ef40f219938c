#pragma once

#include "statistics/seasonal_fit.h"

namespace strikeoff {

/// The first step of fitSeasons: a level for each month that does not depend on which groups it happened to hold.
struct MonthLevels {
    std::vector<MonthLevel> months;
    std::vector<std::pair<int, double>> groups;  ///< against the commonest, by their numbers
    std::vector<double> weights;          ///< by observation; 0 for one that is odd or not used
    std::optional<Estimate> perSize;
    double spread = 0;
    std::string refusal;
    std::vector<std::pair<int, std::size_t>> byMonth;  ///< month and place of every observation used, rising

    std::vector<std::size_t> observationsOf(int month) const;
};

MonthLevels monthLevels(std::span<const SeasonalObservation> observations, bool allowsForSize, double leastScale, double confidence);

}
