#pragma once

#include "quantity/moment.h"
#include "record/book.h"

#include <map>
#include <optional>

namespace strikeoff {

/// The mean air of a day as somebody saw it, which goes over what was forecast.
struct DayMean {
    Date date;
    double f = 0;
};

/// The weather forecast, and of days gone by what was forecast last, by the hour. What is not entered is not known, and is never taken as fine.
/// Keeps a reference to the book, which must not change.
class Weather {
public:
    explicit Weather(const Book& book);

    const DayForecast* on(Date date) const;

    /// Air in °F from the day's low and high: rising from the low at sunrise to the high two hours after the sun's noon, falling from there to the
    /// next sunrise's low, each half a wave (de Wit 1978, as given by Reicosky and others 1989; from memory). Around midnight the neighboring day is
    /// needed for its end of the fall; when that is not known, the day's own low or high stands in for it.
    /// A day's mean as seen moves its low and high along; on a day without a forecast they are taken as 10 °F under and over it (common practice, no source).
    std::optional<double> airF(Moment moment, const std::optional<DayMean>& seen = {}) const;
    /// Whether rain is to be reckoned with at a moment: the day's chance is at or over `likelyRain` and the moment lies between the hours given (all
    /// day without hours; past midnight when they end before they begin). Nothing when the chance is not entered.
    std::optional<bool> rains(Moment moment) const;
    /// Mean air over some time, sampled every quarter of an hour; nothing when any of it is not known.
    std::optional<double> meanAirF(Moment from, Moment to) const;

    static constexpr int likelyRain = 50;  ///< per cent; common practice, no source

private:
    struct Range {
        std::optional<double> low;
        std::optional<double> high;
    };
    Range rangeOn(Date date, const std::optional<DayMean>& seen) const;

    const Book& book_;
    mutable std::optional<std::map<Date, const DayForecast*>> days_;  ///< made when first asked for
    double latitude_ = 40;  ///< the shop's; else the middle of the US
};

}
