#pragma once

#include "chart.h"

namespace strikeoff {

/// One bar of a chart of lying bars: its name, how much, the figure in words, and a quiet note behind it (how many it rests on).
struct Bar {
    QString name;
    double amount = 0;
    QString figure;
    QString note;
    double whole = 0;  ///< what the amount is a part of, drawn as an empty bar behind it; 0 for none
};

/// Lying bars with what they show.
struct BarPlot {
    QString name;
    QString axis;                       ///< named with its unit
    std::vector<Bar> bars;
    std::vector<NumberColumn> columns;  ///< of the numbers behind, when they are more than name and amount
    std::vector<QStringList> numbers;
};

/// Height in pixels that bars need with a style.
double heightOfBars(const std::vector<Bar>& bars, const ChartStyle& style);
/// Lying bars from a zero line, best on top as given, the axis named with its unit under them. Bars below zero are hatched as well as coloured.
void paintBars(QPainter& painter, const QRectF& area, const std::vector<Bar>& bars, const QString& axis, const ChartStyle& style);

/// The bars as a chart; a stop is a bar.
Chart chartOf(BarPlot plot);

}
