#pragma once

#include "quantity/date.h"

namespace strikeoff::demo {

/// The first day in the book and the day on whose morning it was last worked on.
Date firstDay();
Date today();

/// A day that exists; DomainError for one that does not, which would be a slip in the demonstration itself.
Date day(int year, int month, int dayOfMonth);
ClockTime clock(int minutesAfterMidnight);

/// New Year, the last Monday of May, 4 July, the first Monday of September, the fourth Thursday of November, and 24 to 31 December.
bool isHoliday(Date date);
/// Monday to Friday and no holiday.
bool isWorkday(Date date);
Date nextWorkday(Date date);  ///< the day itself when it is one

enum class SeasonOfYear { winter, spring, summer, fall };
SeasonOfYear seasonOf(Date date);  ///< winter is December to February

}
