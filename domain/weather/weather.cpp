#include "weather/weather.h"

#include "weather/sun.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace strikeoff {

namespace {

constexpr double highAfterNoon = 120;  ///< minutes
constexpr double usualHalfRange = 10;  ///< °F between a day's mean and its high (common practice, no source)

/// Half a wave from one temperature to another.
double between(double from, double to, double part) { return from + (to - from) * (1 - std::cos(std::numbers::pi * part)) / 2; }

}

Weather::Weather(const Book& book) : book_{book}
{
    if (const auto latitude = book.settings().shopLatitude) latitude_ = latitude->toDouble();
}

const DayForecast* Weather::on(Date date) const
{
    if (!days_) {
        days_.emplace();
        for (const auto& forecast : book_.all<DayForecast>()) (*days_)[forecast.date] = &forecast;
    }
    const auto found = days_->find(date);
    return found == days_->end() ? nullptr : found->second;
}

Weather::Range Weather::rangeOn(Date date, const std::optional<DayMean>& seen) const
{
    Range range;
    if (const auto* day = on(date)) {
        if (day->lowF) range.low = *day->lowF;
        if (day->highF) range.high = *day->highF;
    }
    if (!seen || seen->date != date) return range;
    const double half = range.low && range.high ? (*range.high - *range.low) / 2 : usualHalfRange;
    return {seen->f - half, seen->f + half};
}

std::optional<double> Weather::airF(Moment moment, const std::optional<DayMean>& seen) const
{
    const auto date = moment.date();
    const auto day = rangeOn(date, seen);
    if (!day.low || !day.high) return std::nullopt;
    const double minute = moment.at().minutes();
    const auto sun = usualSunTimes(date, latitude_);
    const double peak = sun.noon + highAfterNoon;
    // So far north or south that the sun does not rise or set, the low still comes some time before the high.
    const double dawn = std::clamp(sun.rise, 60.0, sun.noon - 60);
    if (minute >= dawn && minute <= peak) return between(*day.low, *day.high, (minute - dawn) / (peak - dawn));
    const double fall = 1440 - peak + dawn;  // the dawns of two neighboring days are a minute or two apart
    if (minute > peak) return between(*day.high, rangeOn(date + 1, seen).low.value_or(*day.low), (minute - peak) / fall);
    return between(rangeOn(date - 1, seen).high.value_or(*day.high), *day.low, (minute + 1440 - peak) / fall);
}

std::optional<bool> Weather::rains(Moment moment) const
{
    const auto minute = moment.at().minutes();
    const auto isLikely = [](const DayForecast* day) { return day && day->rainChance && *day->rainChance >= likelyRain; };
    const auto pastMidnight = [](const DayForecast& day) { return day.rainFrom && day.rainTo && *day.rainTo < *day.rainFrom; };
    const auto* eve = on(moment.date() - 1);
    if (isLikely(eve) && pastMidnight(*eve) && minute < eve->rainTo->minutes()) return true;

    const auto* day = on(moment.date());
    if (!day || !day->rainChance) return std::nullopt;
    if (!isLikely(day)) return false;
    return minute >= (day->rainFrom ? day->rainFrom->minutes() : 0) && (pastMidnight(*day) || minute < (day->rainTo ? day->rainTo->minutes() : 1440));
}

std::optional<double> Weather::meanAirF(Moment from, Moment to) const
{
    double sum = 0;
    int count = 0;
    for (auto at = from; at <= to; at = at + Minutes::of(15)) {
        const auto air = airF(at);
        if (!air) return std::nullopt;
        sum += *air;
        ++count;
    }
    return count == 0 ? std::nullopt : std::optional{sum / count};
}

}
