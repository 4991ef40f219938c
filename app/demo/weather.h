#pragma once

#include "demo/calendar.h"

#include <optional>
#include <vector>

namespace strikeoff::demo {

struct DayWeather {
    int lowF = 0;
    int highF = 0;
    int rainChance = 0;
    bool wet = false;
    std::optional<ClockTime> rainFrom, rainTo;
    int windMph = 0;
    int humidity = 0;

    int averageF() const { return (lowF + highF) / 2; }
};

/// The weather of every day from the spring before the book begins until the winter after it ends: a northern inland climate with
/// a cold winter, warm and cold spells that last some days, and rain on about every fourth day.
class Weather {
public:
    Weather();
    const DayWeather& at(Date date) const;
    /// Dry through the working day, thawed, and warm enough to place flatwork.
    bool canPour(Date date) const;

private:
    std::vector<DayWeather> days_;
};

/// First and last day of the forecast kept in the book.
Date forecastFrom();
Date forecastTo();

}
