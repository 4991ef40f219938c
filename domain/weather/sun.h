#pragma once

#include "quantity/date.h"

#include <optional>

namespace strikeoff {

/// Hours of daylight by day of the year (1 to 366) and latitude in degrees (Allen and others 1998, FAO-56, equations 24, 25 and 34); 0 and 24 inside
/// the polar circles. Geometric: the sun's center, no refraction.
double daylightHours(int dayOfYear, double latitude);

/// Minutes of the local clock, with parts.
struct SunTimes {
    double rise = 0;
    double noon = 0;
    double set = 0;
};
/// Sunrise and sunset as the almanac means them (upper edge, usual refraction: center 90.833° from overhead), by the equations of the NOAA solar
/// calculator (Meeus, low precision; within a minute or two). Longitude east positive; the clock's offset from UTC in hours. Nothing where the sun
/// does not rise or set that day.
std::optional<SunTimes> sunTimes(Date date, double latitude, double longitude, double utcOffset);

/// Whether clocks in the US are an hour ahead: second Sunday of March to first Sunday of November, by whole days.
bool isDaylightTime(Date date);

/// The same for a place known by its latitude alone, on the clock of the middle of a US time zone: noon at 12:00, in daylight time at 13:00.
SunTimes usualSunTimes(Date date, double latitude);

}
