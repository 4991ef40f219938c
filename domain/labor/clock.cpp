#include "labor/clock.h"

#include <algorithm>

namespace strikeoff {

int minutesOf(ClockRounding rounding)
{
    switch (rounding) {
    case ClockRounding::none: return 1;
    case ClockRounding::five: return 5;
    case ClockRounding::six: return 6;
    case ClockRounding::fifteen: return 15;
    }
    return 1;
}

int roundedClock(ClockTime time, ClockRounding rounding)
{
    const int unit = minutesOf(rounding);
    return (2 * time.minutes() + unit) / (2 * unit) * unit;
}

std::optional<Minutes> paidMinutes(const Hours& hours, ClockRounding rounding)
{
    if (rounding == ClockRounding::none || hours.minutes || !hours.startedAt || !hours.endedAt) return hours.worked();
    int end = roundedClock(*hours.endedAt, rounding);
    if (*hours.endedAt < *hours.startedAt) end += 24 * 60;
    const auto paid = Minutes::of(end - roundedClock(*hours.startedAt, rounding)) - hours.unpaidMinutes.value_or(Minutes{});
    return std::max(paid, Minutes{});
}

}
