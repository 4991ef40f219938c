#pragma once

#include "palette.h"

#include <QFont>
#include <QString>

#include <vector>

class QPainter;
class QRectF;

namespace strikeoff {

/// What a chart is drawn with, so that screen, picture and paper share one look.
struct ChartStyle {
    const Palette* palette = &paperPalette();
    QFont body;
    QFont small;
};

/// Round values (1, 2 or 5 times a power of ten apart) that cover a range with about as many steps as asked. Never empty.
std::vector<double> niceTicks(double low, double high, int steps);

/// "1,250", "12.5": as few decimals as tell the ticks apart.
QString tickText(double value, double step);

/// Values along a line of pixels, which may run either way.
struct Scale {
    std::vector<double> ticks;
    double start = 0;  ///< the pixel of the first tick
    double end = 1;    ///< the pixel of the last

    double at(double value) const { return start + (value - ticks.front()) / (ticks.back() - ticks.front()) * (end - start); }
    bool holds(double value) const { return value >= ticks.front() && value <= ticks.back(); }
    double step() const { return ticks[1] - ticks[0]; }
};

/// A scale over a range, its ticks about so many pixels apart.
Scale scaleOver(double low, double high, double start, double end, double pixelsATick);

/// Standing lines at the ticks, their figures under the plot and the axis's name with its unit under those.
void paintAcross(QPainter& painter, const QRectF& plot, const Scale& scale, const QString& name, const ChartStyle& style);
/// Height that figures and name of an axis across take under the plot.
double heightOfAcross(const ChartStyle& style);

/// Lying lines at the ticks with their figures left of the plot.
void paintUp(QPainter& painter, const QRectF& plot, const Scale& scale, const ChartStyle& style);
/// Width that the figures of an axis up take left of the plot.
double widthOfUp(const Scale& scale, const ChartStyle& style);

}
