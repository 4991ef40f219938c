#include "ladder.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace strikeoff {

namespace {

double rowHeight(const ChartStyle& style) { return QFontMetricsF{style.body}.height() + 10; }

}

double heightOfLadder(const std::vector<LadderStep>& steps, const ChartStyle& style)
{
    return static_cast<double>(steps.size() + 1) * rowHeight(style) + heightOfAcross(style) + 8;
}

void paintLadder(QPainter& painter, const QRectF& area, const std::vector<LadderStep>& steps, const LadderStep& total, const QString& axis, const ChartStyle& style)
{
    if (steps.empty()) return;
    const auto& palette = *style.palette;
    const QFontMetricsF body{style.body};
    auto strong = style.body;
    strong.setBold(true);
    double nameWidth = QFontMetricsF{strong}.horizontalAdvance(total.name), figureWidth = QFontMetricsF{strong}.horizontalAdvance(total.figure);
    for (const auto& step : steps) {
        nameWidth = std::max(nameWidth, body.horizontalAdvance(step.name));
        figureWidth = std::max(figureWidth, body.horizontalAdvance(step.figure));
    }
    nameWidth = std::min(nameWidth, area.width() * 0.35);
    const QRectF plot{area.left() + nameWidth + 12, area.top(), std::max(40.0, area.width() - nameWidth - figureWidth - 36), static_cast<double>(steps.size() + 1) * rowHeight(style)};
    const auto scale = scaleOver(0, total.amount, plot.left(), plot.right(), 90);
    const auto x = [&](double amount) { return scale.at(amount); };
    paintAcross(painter, plot, scale, axis, style);

    double y = plot.top(), reached = 0;
    const auto line = [&](const LadderStep& step, double from, const QBrush& brush, const QColor& edge, const QFont& font) {
        painter.setFont(font);
        painter.setPen(palette.ink);
        painter.drawText(QRectF{area.left(), y, nameWidth, rowHeight(style)}, Qt::AlignRight | Qt::AlignVCenter, QFontMetricsF{font}.elidedText(step.name, Qt::ElideRight, nameWidth));
        const QRectF box{x(from), y + 4, std::max(1.0, x(from + step.amount) - x(from)), rowHeight(style) - 8};
        painter.fillRect(box, brush);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{edge, 1});
        painter.drawRect(box);
        painter.setPen(palette.ink);
        painter.drawText(QRectF{plot.right() + 12, y, figureWidth + 8, rowHeight(style)}, Qt::AlignRight | Qt::AlignVCenter, step.figure);
        y += rowHeight(style);
    };
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto color = i == 0 ? palette.series[0] : palette.series[1];
        line(steps[i], reached, i == 0 ? QBrush{color} : QBrush{color, Qt::BDiagPattern}, color, style.body);
        reached += steps[i].amount;
        // A rung down to where the next step begins.
        painter.setPen(QPen{palette.quiet, 1, Qt::DotLine});
        painter.drawLine(QPointF{x(reached), y - 4}, QPointF{x(reached), y + 4});
    }
    line(total, 0, QBrush{palette.quiet, Qt::Dense6Pattern}, palette.ink, strong);
}

}
