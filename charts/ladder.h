#pragma once

#include "axis.h"

namespace strikeoff {

/// One step of a ladder: what it is, how much it adds, and that in words.
struct LadderStep {
    QString name;
    double amount = 0;
    QString figure;
};

/// Height in pixels that a ladder of steps needs with a style, its total included.
double heightOfLadder(const std::vector<LadderStep>& steps, const ChartStyle& style);
/// Steps from the top down, each bar beginning where the one above ended, and under them their total from zero. The first step has another mark than what
/// comes on top of it. Steps are not negative.
void paintLadder(QPainter& painter, const QRectF& area, const std::vector<LadderStep>& steps, const LadderStep& total, const QString& axis, const ChartStyle& style);

}
