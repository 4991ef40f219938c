#pragma once

#include "axis.h"

namespace strikeoff {

/// One bar of a chart of lying bars: its name, how much, the figure in words, and a quiet note behind it (how many it rests on).
struct Bar {
    QString name;
    double amount = 0;
    QString figure;
    QString note;
};

/// Height in pixels that bars need with a style.
double heightOfBars(const std::vector<Bar>& bars, const ChartStyle& style);
/// Lying bars from a zero line, best on top as given, the axis named with its unit under them. Bars below zero are hatched as well as coloured.
void paintBars(QPainter& painter, const QRectF& area, const std::vector<Bar>& bars, const QString& axis, const ChartStyle& style);

}
