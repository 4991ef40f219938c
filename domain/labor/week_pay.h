#pragma once

#include "record/choices.h"
#include "record/settings.h"

#include <span>
#include <vector>

namespace strikeoff {

/// One row of hours inside a workweek, as its pay is figured: what goes in, then what comes out. Cents and minutes as plain numbers: this runs over
/// every row of a book.
struct PaidRow {
    int day = 0;  ///< days since 1970-01-01
    std::int64_t minutes = 0;
    bool rateKnown = false;
    std::int64_t hourlyRate = 0;               ///< four decimals of a dollar
    std::optional<std::int64_t> dayRateCents;  ///< instead of the hourly rate

    std::int64_t overtime = 0;  ///< minutes at one and a half times
    std::int64_t doubled = 0;   ///< minutes at twice
    std::int64_t straight = 0;  ///< cents
    std::int64_t premium = 0;   ///< cents, as the settings spread it
};

struct PaidWeek {
    std::int64_t worked = 0, overtime = 0, doubled = 0;  ///< minutes
    std::int64_t straight = 0, premium = 0;              ///< cents
    std::optional<UnitPrice> regularRate;
};

/// Figures the pay of one workweek. Rows stand in the order they were worked.
///
/// Straight pay is each row's rate times its hours, the day's rate split over the day's rows by minutes, and the week's share of bonuses by minutes.
/// The regular rate is all of it over all paid hours (29 CFR 778.109, 778.112, 778.115); overtime hours earn half of it on top, doubled hours as
/// much again. Weekly rule: the minutes past 40 hours. Daily rule besides: past 8 and 12 hours in a day, and on the seventh day worked in the week its
/// first 8 hours at one and a half and the rest at twice; an hour that earned a premium by the day does not count toward the 40.
/// Exact until the end: the week's pay is rounded once, half up, and split over the rows by largest remainder. With the rate rounded first, the regular
/// rate and the overtime rate are whole cents (half up) before they are multiplied.
/// A bonus is given only to a week with paid minutes.
PaidWeek payWeek(std::span<PaidRow> rows, std::int64_t bonusCents, const Settings& settings);

/// splitByWeight into shares at hand, without memory of its own where the figures are small: the same shares, fast enough for every row of a book.
void splitOver(std::int64_t total, std::span<const std::int64_t> weights, std::span<std::int64_t> shares);

}
