#include "bars.h"

#include "marks.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace strikeoff {

namespace {

double rowHeight(const ChartStyle& style) { return QFontMetricsF{style.body}.height() + 12; }

}

double heightOfBars(const std::vector<Bar>& bars, const ChartStyle& style)
{
    return static_cast<double>(bars.size()) * rowHeight(style) + heightOfAcross(style) + 8;
}

void paintBars(QPainter& painter, const QRectF& area, const std::vector<Bar>& bars, const QString& axis, const ChartStyle& style)
{
    if (bars.empty()) return;
    const auto& palette = *style.palette;
    const QFontMetricsF body{style.body}, small{style.small};
    double nameWidth = 0, figureWidth = 0, noteWidth = 0, low = 0, high = 0;
    for (const auto& bar : bars) {
        nameWidth = std::max(nameWidth, body.horizontalAdvance(bar.name));
        figureWidth = std::max(figureWidth, body.horizontalAdvance(bar.figure));
        noteWidth = std::max(noteWidth, bar.note.isEmpty() ? 0 : small.horizontalAdvance(bar.note) + 8);
        low = std::min(low, bar.amount);
        high = std::max({high, bar.amount, bar.whole});
    }
    nameWidth = std::min(nameWidth, area.width() * 0.3);
    const QRectF plot{area.left() + nameWidth + 12, area.top(), std::max(40.0, area.width() - nameWidth - figureWidth - noteWidth - 36), static_cast<double>(bars.size()) * rowHeight(style)};
    const auto scale = scaleOver(low, high, plot.left(), plot.right(), 75);
    const auto x = [&](double amount) { return scale.at(amount); };
    paintAcross(painter, plot, scale, axis, style);

    double y = plot.top();
    for (const auto& bar : bars) {
        painter.setFont(style.body);
        painter.setPen(palette.ink);
        painter.drawText(QRectF{area.left(), y, nameWidth, rowHeight(style)}, Qt::AlignRight | Qt::AlignVCenter, body.elidedText(bar.name, Qt::ElideRight, nameWidth));
        if (bar.whole > bar.amount) {
            painter.setBrush(Qt::NoBrush);
            painter.setPen(QPen{palette.quiet, 1, Qt::DashLine});
            painter.drawRect(QRectF{x(0), y + 5, x(bar.whole) - x(0), rowHeight(style) - 10});
        }
        const double left = std::min(x(0), x(bar.amount));
        const QRectF box{left, y + 5, std::max(1.0, std::abs(x(bar.amount) - x(0))), rowHeight(style) - 10};
        const auto color = bar.amount < 0 ? palette.series[1] : palette.series[0];
        if (bar.amount < 0) fillHatched(painter, box, color);
        else painter.fillRect(box, color);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{color, 1});
        painter.drawRect(box);
        painter.setPen(palette.ink);
        const double behind = plot.right() + 12;
        painter.drawText(QRectF{behind, y, figureWidth + 8, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, bar.figure);
        if (!bar.note.isEmpty()) {
            painter.setFont(style.small);
            painter.setPen(palette.quiet);
            painter.drawText(QRectF{behind + figureWidth + 8, y, noteWidth + 8, rowHeight(style)}, Qt::AlignLeft | Qt::AlignVCenter, bar.note);
        }
        y += rowHeight(style);
    }
}

Chart chartOf(BarPlot plot)
{
    Chart chart;
    chart.name = plot.name;
    chart.stopRows.assign(plot.bars.size(), 1);
    const auto shared = std::make_shared<const BarPlot>(std::move(plot));
    chart.size = {960, 90 + 32.0 * static_cast<double>(shared->bars.size())};
    const auto stopOf = [shared](std::size_t row, const QRectF& area, const ChartStyle& style) {
        const auto& bar = shared->bars[row];
        QStringList lines{bar.name, bar.figure};
        if (!bar.note.isEmpty()) lines << bar.note;
        return ChartStop{{area.left(), area.top() + static_cast<double>(row) * rowHeight(style), area.width(), rowHeight(style)}, lines.join(u'\n')};
    };
    chart.paint = [shared](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintBars(painter, area, shared->bars, shared->axis, style); };
    chart.heightFor = [shared](double, const ChartStyle& style) { return heightOfBars(shared->bars, style); };
    chart.stop = [stopOf](std::size_t row, std::size_t, const QRectF& area, const ChartStyle& style) { return stopOf(row, area, style); };
    chart.stopAt = [shared, stopOf](const QPointF& at, const QRectF& area, const ChartStyle& style) -> std::optional<ChartStop> {
        for (std::size_t i = 0; i < shared->bars.size(); ++i)
            if (auto stop = stopOf(i, area, style); stop.place.contains(at)) return stop;
        return std::nullopt;
    };
    chart.numbers = [shared] {
        if (!shared->columns.empty()) return NumberTable{shared->columns, shared->numbers};
        NumberTable table{{{shared->name, true}, {shared->axis}}, {}};
        for (const auto& bar : shared->bars) table.rows.push_back({bar.name, plainNumber(bar.amount)});
        return table;
    };
    return chart;
}

}
