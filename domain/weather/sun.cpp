#include "weather/sun.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace strikeoff {

namespace {

constexpr double pi = std::numbers::pi;

double radians(double degrees) { return degrees * pi / 180; }
double degrees(double radians) { return radians * 180 / pi; }

int dayOfYear(Date date) { return date - *Date::of(date.year(), 1, 1) + 1; }

/// The n-th Sunday of a month.
Date sunday(int year, int month, int n)
{
    const auto first = *Date::of(year, month, 1);
    return first + ((7 - first.weekday()) % 7 + 7 * (n - 1));
}

struct Sun {
    double declination;     ///< radians
    double equationOfTime;  ///< minutes
};

/// At so many Julian centuries after 2000-01-01 12:00 UTC.
Sun sunAt(double t)
{
    const double meanLongitude = std::fmod(280.46646 + t * (36000.76983 + t * 0.0003032), 360);
    const double anomaly = 357.52911 + t * (35999.05029 - 0.0001537 * t);
    const double eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t);
    const double center = std::sin(radians(anomaly)) * (1.914602 - t * (0.004817 + 0.000014 * t)) +
                          std::sin(radians(2 * anomaly)) * (0.019993 - 0.000101 * t) + std::sin(radians(3 * anomaly)) * 0.000289;
    const double node = radians(125.04 - 1934.136 * t);
    const double longitude = meanLongitude + center - 0.00569 - 0.00478 * std::sin(node);
    const double obliquity = 23 + (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60 + 0.00256 * std::cos(node);
    const double y = std::tan(radians(obliquity / 2)) * std::tan(radians(obliquity / 2));
    const double l = radians(meanLongitude);
    const double m = radians(anomaly);
    const double time = y * std::sin(2 * l) - 2 * eccentricity * std::sin(m) + 4 * eccentricity * y * std::sin(m) * std::cos(2 * l) -
                        0.5 * y * y * std::sin(4 * l) - 1.25 * eccentricity * eccentricity * std::sin(2 * m);
    return {std::asin(std::sin(radians(obliquity)) * std::sin(radians(longitude))), 4 * degrees(time)};
}

}

double daylightHours(int dayOfYear, double latitude)
{
    const double declination = 0.409 * std::sin(2 * pi * dayOfYear / 365 - 1.39);
    return 24 / pi * std::acos(std::clamp(-std::tan(radians(latitude)) * std::tan(declination), -1.0, 1.0));
}

std::optional<SunTimes> sunTimes(Date date, double latitude, double longitude, double utcOffset)
{
    // Where the sun stands is taken at local noon: it moves too little over the day to matter here.
    const double sinceEpoch = static_cast<double>(date.days() - 10957) - 0.5 + (12 - utcOffset) / 24;
    const auto sun = sunAt(sinceEpoch / 36525);
    const double phi = radians(latitude);
    const double angle = std::cos(radians(90.833)) / (std::cos(phi) * std::cos(sun.declination)) - std::tan(phi) * std::tan(sun.declination);
    if (!(std::abs(angle) <= 1)) return std::nullopt;
    const double half = 4 * degrees(std::acos(angle));
    const double noon = 720 - 4 * longitude - sun.equationOfTime + 60 * utcOffset;
    return SunTimes{noon - half, noon, noon + half};
}

bool isDaylightTime(Date date) { return date >= sunday(date.year(), 3, 2) && date < sunday(date.year(), 11, 1); }

SunTimes usualSunTimes(Date date, double latitude)
{
    const double half = 30 * daylightHours(dayOfYear(date), latitude);
    const double noon = isDaylightTime(date) ? 780 : 720;
    return {noon - half, noon, noon + half};
}

}
