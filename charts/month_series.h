#pragma once

#include "axis.h"

#include "quantity/date.h"

#include <optional>

namespace strikeoff {

/// One month's figure and how many records it rests on; nothing for a month without one.
struct MonthPoint {
    Date month;
    std::optional<double> value;
    int count = 0;
};

/// A figure month by month: the axis named with its unit, the points, and their noun ("tickets").
struct MonthSeries {
    QString axis;
    QString counted;
    std::vector<MonthPoint> points;
};

/// Several figures one above the other on the same months, seasons (Dec–Feb, Mar–May, …) as faint named bands, points joined where months follow each
/// other, and under each panel how many records each month rests on where there is room. Months are labelled as thinly as the width asks.
void paintMonthSeries(QPainter& painter, const QRectF& area, const std::vector<MonthSeries>& panels, const ChartStyle& style);

}
