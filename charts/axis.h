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

}
