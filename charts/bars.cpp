#include "bars.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace strikeoff {

namespace {

double rowHeight(const ChartStyle& style) { return QFontMetricsF{style.body}.height() + 12; }
double axisHeight(const ChartStyle& style) { return 2 * QFontMetricsF{style.small}.height() + 12; }

}

double heightOfBars(const std::vector<Bar>& bars, const ChartStyle& style)
{
    return static_cast<double>(bars.size()) * rowHeight(style) + axisHeight(style) + 8;
}

void paintBars(QPainter& painter, const QRectF& area, const std::vector<Bar>& bars, const QString& axis, const ChartStyle& style)
{
    if (bars.empty()) return;
    const auto& palette = *style.palette;
    const QFontMetricsF body{style.body}, small{style.small};
    double nameWidth = 0, figureWidth = 0, low = 0, high = 0;
    for (const auto& bar : bars) {
        nameWidth = std::max(nameWidth, body.horizontalAdvance(bar.name));
        figureWidth = std::max(figureWidth, body.horizontalAdvance(bar.figure) + (bar.note.isEmpty() ? 0 : small.horizontalAdvance(bar.note) + 8));
        low = std::min(low, bar.amount);
        high = std::max(high, bar.amount);
    }
    nameWidth = std::min(nameWidth, area.width() * 0.3);
    const QRectF plot{area.left() + nameWidth + 12, area.top(), std::max(40.0, area.width() - nameWidth - figureWidth - 36), static_cast<double>(bars.size()) * rowHeight(style)};
    const auto ticks = niceTicks(low, high, static_cast<int>(std::clamp(plot.width() / 90, 2.0, 8.0)));
    const double from = ticks.front(), to = ticks.back();
    const auto x = [&](double amount) { return plot.left() + (amount - from) / (to - from) * plot.width(); };

    painter.setFont(style.small);
    for (const auto tick : ticks) {
        painter.setPen(QPen{tick == 0 ? palette.quiet : palette.line, 1});
        painter.drawLine(QPointF{x(tick), plot.top()}, QPointF{x(tick), plot.bottom() + 4});
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{x(tick) - 50, plot.bottom() + 5, 100, small.height()}, Qt::AlignHCenter | Qt::AlignTop, tickText(tick, ticks[1] - ticks[0]));
    }
    painter.drawText(QRectF{plot.left(), plot.bottom() + 7 + small.height(), plot.width(), small.height()}, Qt::AlignHCenter | Qt::AlignTop, axis);

    double y = plot.top();
    for (const auto& bar : bars) {
        painter.setFont(style.body);
        painter.setPen(palette.ink);
        painter.drawText(QRectF{area.left(), y, nameWidth, rowHeight(style)}, Qt::AlignRight | Qt::AlignVCenter, body.elidedText(bar.name, Qt::ElideRight, nameWidth));
        const double left = std::min(x(0), x(bar.amount));
        const QRectF box{left, y + 5, std::max(1.0, std::abs(x(bar.amount) - x(0))), rowHeight(style) - 10};
        const auto color = bar.amount < 0 ? palette.series[1] : palette.series[0];
        painter.fillRect(box, bar.amount < 0 ? QBrush{color, Qt::BDiagPattern} : QBrush{color});
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{color, 1});
        painter.drawRect(box);
        painter.setPen(palette.ink);
        const double behind = plot.right() + 12;
        painter.drawText(QRectF{behind, y, figureWidth + 8, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, bar.figure);
        if (!bar.note.isEmpty()) {
            painter.setFont(style.small);
            painter.setPen(palette.quiet);
            painter.drawText(QRectF{behind + body.horizontalAdvance(bar.figure) + 8, y, figureWidth, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, bar.note);
        }
        y += rowHeight(style);
    }
}

}
