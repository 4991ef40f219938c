#pragma once

#include "axis.h"

#include "ready_mix/ticket_desk.h"

namespace strikeoff {

/// Twelve months of ready-mix side by side: yards as bars, under them the month with its loads, yards, dollars, and in words what is open or not billed.
void paintDeskMonths(QPainter& painter, const QRectF& area, const std::vector<DeskMonth>& months, const ChartStyle& style);

}
