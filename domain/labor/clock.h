#pragma once

#include "record/people.h"

namespace strikeoff {

/// The minutes of the unit clock times are rounded to; 1 for none.
int minutesOf(ClockRounding rounding);

/// A time of day to the nearest unit, in minutes after midnight; half a unit goes up, so that the end of the day may come out as 1440.
int roundedClock(ClockTime time, ClockRounding rounding);

/// Paid minutes of a row of hours: as written, or from its times, each rounded to the unit (past midnight too), less the unpaid ones, never below
/// zero; nothing when neither is recorded. The times themselves stay as they were written.
std::optional<Minutes> paidMinutes(const Hours& hours, ClockRounding rounding);

}
