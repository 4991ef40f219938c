#pragma once

#include "chart.h"

namespace strikeoff {

/// One step of a waterfall: how much it moves the sum, and its figure in words.
struct WaterfallStep {
    QString name;
    double amount = 0;  ///< dollars; above zero moves the sum up
    QString figure;
};

/// Steps with something in common, told under one name with their sum.
struct WaterfallGroup {
    QString name;
    QString figure;
    std::vector<WaterfallStep> steps;
};

/// From one sum to another by steps that add up.
struct Waterfall {
    QString from;
    double start = 0;  ///< dollars
    QString startFigure;
    std::vector<WaterfallGroup> groups;
    QString to;
    QString endFigure;
    QString axis;      ///< named with its unit
    QString name;      ///< what it shows
    bool moreIsBetter = false;  ///< the sums are profits, not costs
};

/// A row of the picture as plain values: where its piece begins and ends.
struct WaterfallRow {
    enum class Part { start, group, step, end };
    Part part = Part::step;
    QString name;
    QString figure;
    double from = 0;
    double to = 0;
};

/// The rows from the top: the first sum, each group with its span and its steps one behind the other, the last sum. A group of one step is that step,
/// under the group's name. When the rows are more than `most`, the smallest steps of the largest group are told as one row that says how many, and
/// in the end a group as a single row.
std::vector<WaterfallRow> rowsOf(const Waterfall& waterfall, std::size_t most);

/// Height in pixels that all rows need with a style.
double heightOfWaterfall(const Waterfall& waterfall, const ChartStyle& style);

/// Lying waterfall: what is worse is orange and hatched, what is better blue and filled; to the right is more, which is worse unless it says otherwise; sums are marks on a dashed line. The axis covers
/// what moves and need not begin at zero, as no length but a step's is meant.
void paintWaterfall(QPainter& painter, const QRectF& area, const Waterfall& waterfall, const ChartStyle& style);

/// The waterfall as a chart; a stop is a row.
Chart chartOf(Waterfall waterfall);

}
