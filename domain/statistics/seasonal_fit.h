#pragma once

#include "statistics/estimate.h"

#include <array>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace strikeoff {

inline constexpr std::size_t quartersOfYear = 4;

/// One observation of something that may move with the seasons.
struct SeasonalObservation {
    int month = 0;     ///< months counted on through the years
    int group = 0;     ///< what is being compared like with like: a mix, a job type
    double size = 0;   ///< a second thing to allow for, where the question says so
    double value = 0;  ///< what is asked about, commonly a logarithm
};

struct SeasonalQuestion {
    std::array<int, 12> quarterOf{0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3, 0};  ///< the quarter of the year, 0 to 3, that the months 0, 1, … 11 of a year lie in
    bool allowsForSize = false;
    double leastScale = 1e-6;       ///< differences smaller than this are never odd
    std::vector<int> ahead;         ///< months to look ahead to
    double confidence = usualConfidence;
};

/// The level of one month for the commonest group, all else alike.
struct MonthLevel {
    int month = 0;
    int observations = 0;
    double level = 0;
    double standardError = 0;
};

/// What moves with time and season and what does not.
struct SeasonalFit {
    std::optional<Estimate> trendPerYear;                                ///< a year's change of the value
    std::array<std::optional<Estimate>, quartersOfYear> quarters;        ///< against the mean of the quarters seen; none for one not seen
    double chanceWithoutSeason = 1;                                      ///< how often differences this large come up where seasons do nothing
    std::optional<Estimate> perSize;                                     ///< the value's change by one of size
    std::vector<MonthLevel> months;                                      ///< those used, rising
    std::vector<std::pair<int, double>> groups;                          ///< what each group used adds to the commonest one, by their numbers
    std::vector<Estimate> ahead;                                         ///< levels of the months asked for
    std::vector<double> weights;                                         ///< by observation: 1 used whole, 0 odd or not comparable
    double spread = 0;                                                   ///< standard deviation of an observation within its month and group
    double monthSpread = 0;                                              ///< of a month about trend and season
    int observations = 0;                                                ///< those used

    /// The level of a month seen and used, or nothing.
    const MonthLevel* monthAt(int month) const;
    /// What a group adds to the commonest one; nothing for one not used.
    std::optional<double> groupAt(int group) const;
    /// Whether the seasons are told apart from chance, so that a history without any shows some at most one time in five. The chance is reckoned a little small
    /// where months remember, hence not a fifth.
    bool showsSeason() const { return chanceWithoutSeason < 0.15; }
};

struct SeasonalResult {
    std::optional<SeasonalFit> fit;
    std::string refusal;  ///< a sentence without its end: "needs eighteen months of …"
};

inline constexpr int leastMonthsSpanned = 18;
inline constexpr int leastMonthsSeen = 9;

/// Trend and seasons from single observations, in two steps.
///
/// First, value = group + size + month + rest by bisquare M-estimation with a level of its own for each month, so that a dear month is not one in which dear groups
/// were bought, and odd observations pull nothing. Months and groups that no chain of comparisons ties to the others are left out, and groups
/// seen fewer than three times.
///
/// Second, month level = constant + trend + season + what the month brings, which may live on into the next (a first-order chain), plus the level's own error.
/// How much the months scatter and how long that lives on is not known, so intervals are weighed over both by the restricted likelihood on a grid
/// (beforehand any scatter is as likely as any other, and a long memory less likely than a short one), and reach as far as Student's t with as many degrees as months less unknowns says. A month of one or two observations that lies far off all
/// others is left out.
///
/// Refused where too few months or too short a time are seen to tell seasons from a trend.
SeasonalResult fitSeasons(std::span<const SeasonalObservation> observations, const SeasonalQuestion& question);

}
