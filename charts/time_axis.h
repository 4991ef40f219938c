#pragma once

#include "axis.h"

#include "quantity/date.h"

namespace strikeoff {

/// Days along an axis, from the first of a month to the last of one.
struct TimeAxis {
    Date from;
    Date to;
    double left = 0;
    double right = 0;

    /// The middle of a day, in pixels; days outside lie outside.
    double x(Date day) const { return left + (day - from + 0.5) / (to - from + 1) * (right - left); }
    /// The middle of the month that holds a day.
    double middleOf(Date month) const { return (x(firstOfMonth(month)) + x(lastOfMonth(month))) / 2; }
    double monthWidth() const { return 30.4 / (to - from + 1) * (right - left); }
    /// The months from the first to the last.
    std::vector<Date> months() const;
};

/// An axis over whole months that holds both days.
TimeAxis timeAxis(Date from, Date to, double left, double right);

/// The months that get a label: distinct, at least so many pixels apart, each January among them where any is.
std::vector<std::size_t> labelledMonths(const std::vector<Date>& months, double width, double least);
/// "Apr", and the first month of a year with it: "Jan ’26".
QString monthLabel(Date month);

/// Winters and summers as faint bands over the plot, all seasons named at its top where there is room.
void paintSeasonBands(QPainter& painter, const QRectF& plot, const TimeAxis& axis, bool southern, const ChartStyle& style);
/// Labels of months under a line, thinned to the room there is, with a short tick each.
void paintMonthLabels(QPainter& painter, double top, const TimeAxis& axis, const ChartStyle& style);

}
