#pragma once

#include "axis.h"

#include "quantity/date.h"

#include <optional>

namespace strikeoff {

/// What is open and due on a day: how much (below zero when it was paid too much), whether that day is past, and what the bar is called.
struct DueBar {
    Date due;
    double amount = 0;
    QString name;
    bool late = false;
};

/// Amounts on a time line by the day they are due, seen from today.
struct DueLine {
    Date today;
    std::vector<DueBar> bars;
    std::optional<std::size_t> chosen;  ///< the bar to mark
};

/// Bars due longer ago than this stand together at the left edge.
inline constexpr int daysOnDueLine = 150;

/// Where each bar stands in an area, in the order given. Bars too near each other to stand side by side stand on one another; late ones never with
/// those not due.
std::vector<QRectF> placeDueBars(const QRectF& area, const DueLine& line, const ChartStyle& style);

/// The bar at a point of the area, or nothing.
std::optional<std::size_t> dueBarAt(const QPointF& point, const QRectF& area, const DueLine& line, const ChartStyle& style);

/// Standing bars over an axis of months, in whole dollars, with today marked. What is past due is hatched, has the colour of what is wrong, and stands left
/// of the mark under the words; what was paid too much hangs below zero.
void paintDueLine(QPainter& painter, const QRectF& area, const DueLine& line, const ChartStyle& style);

}
