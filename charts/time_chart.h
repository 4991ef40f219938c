#pragma once

#include "chart.h"

#include "quantity/date.h"

namespace strikeoff {

/// One record on its day: a ticket with its price, a pour with its pace.
struct TimePoint {
    Date day;
    double value = 0;
    std::int64_t id = 0;
    bool aside = false;  ///< odd, and left out of what is reckoned; drawn hollow
};

/// A month's middle value and spread, and how many records it rests on; nothing for a month without any.
struct TimeMonth {
    Date month;
    std::optional<double> middle;
    std::optional<double> low, high;
    int count = 0;
};

/// One more line over the months, drawn dashed.
struct TimeLine {
    QString name;
    std::vector<TimeMonth> months;
};

/// A day that something happened on, such as a new price sheet.
struct MarkedDay {
    Date day;
    QString what;
    RecordKind kind = noKind;
    std::int64_t id = 0;
};

/// One figure over time.
struct TimePanel {
    QString axis;                     ///< named with its unit
    QString one;                      ///< what a point is: "ticket"
    QString counted;                  ///< many of them: "tickets"
    RecordKind kind = noKind;         ///< of the points' records
    std::vector<TimePoint> points;    ///< by day
    std::function<QString(std::size_t)> tip;  ///< what a point says beyond its day and value, made when asked for; may be empty
    QString running;                  ///< "running median of 15 pours"
    std::vector<TimePoint> runningLine;       ///< by day; where there is one it is drawn instead of a line through the months
    QString middle, spread;           ///< "median of the month", "middle half"
    std::vector<TimeMonth> months;    ///< ascending
    std::vector<TimeLine> lines;
    QString expected;                 ///< "expected, 80 %"
    std::vector<TimeMonth> ahead;     ///< months to come with the range expected
    QString marked;                   ///< "new price sheet"
    std::vector<MarkedDay> marks;     ///< by day
    int decimals = 2;
};

/// Figures one above the other over the same months, the seasons as faint bands behind.
struct TimeChart {
    QString name;
    std::vector<TimePanel> panels;
    bool southern = false;            ///< half of the world the seasons are of
};

/// The least and greatest value a panel's axis shows. A few odd points do not stretch it: they are drawn at its edge, pointing out.
std::pair<double, double> rangeOf(const TimePanel& panel);

/// Runs of months that may be joined by a line: each with a value, following one another, three at least.
std::vector<std::vector<TimeMonth>> runsOf(const std::vector<TimeMonth>& months);

/// Stretches of a running line without a gap of more than a hundred days in them, three points at least.
std::vector<std::vector<TimePoint>> stretchesOf(const std::vector<TimePoint>& line);

/// Points in the colour of their panel, or their density where they overlap; the middle of months as a line where three or more follow each other and as marks
/// where not, hollow below three records; spread as a band; what is expected as a widening band after the last month; under each panel the months' counts.
void paintTime(QPainter& painter, const QRectF& area, const TimeChart& chart, const ChartStyle& style);
/// Height in pixels below which panels get cramped.
double heightOfTime(const TimeChart& chart, const ChartStyle& style);
/// The chart with its stops: for each panel a row of months, a row of marked days and a row of points.
Chart chartOf(TimeChart chart);

}
