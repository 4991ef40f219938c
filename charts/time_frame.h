#pragma once

#include "time_axis.h"
#include "time_chart.h"

namespace strikeoff {

/// Where one panel of a time chart stands.
struct TimePanelFrame {
    QRectF place;   ///< all of it
    QRectF plot;
    Scale scale;
    double keyTop = 0;
    double countTop = 0;
    bool keyBeside = true;  ///< the key has room beside the axis's name
};

/// Where all of a time chart stands; the same for painting and pointing.
struct TimeFrame {
    TimeAxis axis;
    std::vector<TimePanelFrame> panels;

    QPointF at(std::size_t panel, Date day, double value) const { return {axis.x(day), panels[panel].scale.at(value)}; }
    QPointF atMonth(std::size_t panel, Date month, double value) const { return {axis.middleOf(month), panels[panel].scale.at(value)}; }
};

TimeFrame frameOf(const QRectF& area, const TimeChart& chart, const ChartStyle& style);

/// The strip of counts under a panel, where the counts of its months stand.
double heightOfCounts(const ChartStyle& style);

}
