#pragma once

#include "axis.h"

#include <QRectF>

#include <optional>
#include <utility>
#include <vector>

namespace strikeoff {

/// A stretch of days: 0.5 is noon of the strip's first day.
using DayStretch = std::pair<double, double>;

/// One day across the strip.
struct StripDay {
    QString name;                     ///< "Wed 25"
    QString air;                      ///< "31–48", low and high; blank where nothing is forecast
    QString rain;                     ///< per cent
    bool isDoubtful = false;          ///< cold, or rain is likely
    QString crew;                     ///< hours the crew has left: "9"
    std::vector<DayStretch> gates;    ///< hours in which a sealer can go on
    QString tip;
};

enum class StripTone { calm, pressing, late };

/// One visit: its window as a bar, the hours in it that pass its gates, and its stop.
struct StripRow {
    QString name;
    DayStretch window;
    std::optional<double> due;
    std::vector<DayStretch> open;
    std::vector<DayStretch> unknown;
    bool estimated = false;
    StripTone tone = StripTone::calm;
    QString lateWords;                ///< pinned to the left edge: "3 days late"
    std::optional<int> day;           ///< of its stop
    QString stop;                     ///< in the mark: "2"
    bool pinned = false;
    bool againstHours = false;
    QString tip;
};

struct WindowStrip {
    std::vector<StripDay> days;
    std::vector<StripRow> rows;
    std::optional<std::size_t> chosen;  ///< row
    std::optional<int> chosenDay;
    std::optional<int> dropDay;         ///< the day a stop is dragged over
};

/// Height in pixels of the head (weather, gates and crew) and of one visit's row.
double headOfStrip(const ChartStyle& style);
double rowOfStrip(const ChartStyle& style);

/// What stands at a point of the area: a row, a day, both or neither.
struct StripPlace {
    std::optional<std::size_t> row;
    std::optional<int> day;
};
StripPlace stripPlaceAt(const QPointF& point, const QRectF& area, const WindowStrip& strip, const ChartStyle& style);
/// Where a row's stop is drawn, or an empty rectangle for a row without one.
QRectF stopOfStrip(std::size_t row, const QRectF& area, const WindowStrip& strip, const ChartStyle& style);

/// Days across with their weather, the hours that pass a sealer's gates and the crew's; below a row a visit. A day without a forecast is hatched.
void paintWindowStrip(QPainter& painter, const QRectF& area, const WindowStrip& strip, const ChartStyle& style);

}
