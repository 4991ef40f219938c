#pragma once

#include "axis.h"
#include "record/book.h"
#include "visits/visit_list.h"

namespace strikeoff {

/// Days drawn across, from today on.
inline constexpr int stripDays = 14;

/// Height in pixels of a strip with so many visits on it.
double heightOfStrip(std::size_t visits, const ChartStyle& style);
/// The days with their weather ("unknown" without a forecast, hatched), and each open visit as a bar over its window with a mark on its planned day.
void paintDayStrip(QPainter& painter, const QRectF& area, const Book& book, const std::vector<VisitRow>& visits, Date today, const ChartStyle& style);

}
