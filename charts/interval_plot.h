#pragma once

#include "chart.h"

namespace strikeoff {

/// One row: a name, what it came to by itself, what it is estimated at beside its like, how sure that is, and on how many it rests.
struct IntervalRow {
    QString name;
    std::optional<double> raw;       ///< as it came out, without allowing for anything
    std::optional<double> estimate;
    std::optional<double> low, high; ///< of the estimate, at the plot's level
    int count = 0;
    QString figure;                  ///< the estimate in words: "$61 (48 to 74)"
    QString note;                    ///< a sentence about it, beside the row where there is room, else under it
    RecordKind kind = noKind;        ///< the record it opens
    std::int64_t id = 0;
};

/// A value drawn across all rows by name, such as overhead.
struct ReferenceLine {
    double at = 0;
    QString name;
};

/// Rows of estimates with their intervals over one axis, best on top as given.
struct IntervalPlot {
    QString name;                ///< what the plot shows
    QString axis;                ///< named with its unit
    QString estimated;           ///< what the estimate is: "estimate"; in the key
    QString interval;            ///< "80 % interval"
    QString raw;                 ///< "as it came out"
    QString countedOne, counted; ///< what is counted: "job", "jobs"
    std::vector<IntervalRow> rows;
    std::vector<ReferenceLine> references;  ///< besides zero, which is always drawn
    int decimals = 2;            ///< of the numbers behind
};

/// A row rests on few records below this many: its estimate is hollow and its interval dashed.
inline constexpr int fewRecords = 3;

/// The range its axis covers: zero, every estimate and reference, raw values and intervals as far as they do not press the rest into a corner.
std::pair<double, double> rangeOf(const IntervalPlot& plot);

/// Height in pixels that all rows need at a width.
double heightOfIntervals(const IntervalPlot& plot, double width, const ChartStyle& style);
/// Estimates as squares on their intervals, raw values as rings, zero as a line and references as named dashes. An interval that leaves the axis ends in an arrow.
void paintIntervals(QPainter& painter, const QRectF& area, const IntervalPlot& plot, const ChartStyle& style);
/// The plot as a chart; a stop is a row.
Chart chartOf(IntervalPlot plot);

}
