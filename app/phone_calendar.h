#pragma once

#include "store.h"
#include "visits/calendar.h"

namespace strikeoff {

/// The moment it is by the machine's clock.
UtcMoment utcNow();

/// What the trail knows of days that visits and pours were planned for and have lost since.
FormerDays formerDays(const Store& store);

/// The calendar for the phone: the visits given and the pours planned from a day on, and what an earlier calendar said of days that are no longer planned.
std::string phoneCalendar(const Store& store, std::span<const PlannedVisit> visits, Date from);
/// The same with the visits as the book has them planned.
std::string phoneCalendar(const Store& store, Date from);

}
