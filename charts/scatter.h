#pragma once

#include "chart.h"

namespace strikeoff {

/// One record as a point: a pour's pace at its day's temperature, a job's result against its bid.
struct ScatterPoint {
    double x = 0;
    double y = 0;
    std::int64_t id = 0;
    std::size_t group = 0;
};

/// The middle of the points in one slice of the axis, with their spread and how many they are.
struct ScatterSlice {
    double x = 0;  ///< the middle of the slice
    std::optional<double> middle, low, high;
    int count = 0;
};

/// Points of two figures against each other.
struct ScatterPlot {
    QString name;
    QString xAxis, yAxis;        ///< named with their units
    RecordKind kind = noKind;    ///< of the points' records
    std::vector<QString> groups; ///< names of the groups of points; each has its own mark
    std::vector<ScatterPoint> points;
    std::function<QString(std::size_t)> tip;  ///< what a point says beyond its figures; may be empty
    QString middle, spread;      ///< "middle of 10 °F", "middle half"
    std::vector<ScatterSlice> slices;         ///< ascending
    bool diagonal = false;       ///< both axes alike, with the line where both figures are the same
    QString onDiagonal;          ///< what that line means: "as bid"
    QString above, below;        ///< what lying above or below it means
    int xDecimals = 0, yDecimals = 2;         ///< of the numbers behind
};

/// The ranges the two axes cover: zero is in both on a diagonal plot, whose axes are alike.
std::pair<double, double> rangeAcross(const ScatterPlot& plot);
std::pair<double, double> rangeUp(const ScatterPlot& plot);

/// Points by group with differing marks, or their density where they overlap; a line through slices where three or more have a value.
void paintScatter(QPainter& painter, const QRectF& area, const ScatterPlot& plot, const ChartStyle& style);
/// The plot with its stops: the points from left to right.
Chart chartOf(ScatterPlot plot);

}
