#include "month_series.h"

#include "time_axis.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <array>
#include <cmath>

namespace strikeoff {

namespace {

std::size_t seasonOf(Date month) { return seasonOfMonth(month, false); }

void paintPanel(QPainter& painter, const QRectF& plot, const MonthSeries& series, const QColor& color, bool square, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const auto count = static_cast<double>(series.points.size());
    const auto x = [&](std::size_t i) { return plot.left() + (static_cast<double>(i) + 0.5) / count * plot.width(); };

    double low = 0, high = 0;
    bool any = false;
    for (const auto& point : series.points) {
        if (!point.value) continue;
        low = any ? std::min(low, *point.value) : *point.value;
        high = any ? std::max(high, *point.value) : *point.value;
        any = true;
    }
    const double air = std::max((high - low) * 0.08, 0.5);
    const auto ticks = niceTicks(std::max(0.0, low - air), high + air, static_cast<int>(std::clamp(plot.height() / 44, 2.0, 6.0)));
    const auto y = [&](double value) { return plot.bottom() - (value - ticks.front()) / (ticks.back() - ticks.front()) * plot.height(); };

    painter.setFont(style.small);
    for (const auto tick : ticks) {
        painter.setPen(QPen{palette.line, 1});
        painter.drawLine(QPointF{plot.left(), y(tick)}, QPointF{plot.right(), y(tick)});
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{plot.left() - 64, y(tick) - small.height() / 2, 58, small.height()}, Qt::AlignRight | Qt::AlignVCenter, tickText(tick, ticks[1] - ticks[0]));
    }
    painter.setPen(palette.ink);
    painter.drawText(QRectF{plot.left() - 64, plot.top() - 1.5 * small.height() - 6, plot.width() + 64, small.height()}, Qt::AlignLeft | Qt::AlignTop, series.axis);
    if (!any) return;

    QPainterPath line;
    bool joined = false;
    for (std::size_t i = 0; i < series.points.size(); ++i) {
        const auto& value = series.points[i].value;
        if (!value) {
            joined = false;
            continue;
        }
        const QPointF at{x(i), y(*value)};
        if (joined) line.lineTo(at);
        else line.moveTo(at);
        joined = true;
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen{color, 1.5, square ? Qt::DashLine : Qt::SolidLine});
    painter.drawPath(line);
    const bool roomForCounts = plot.width() / count > small.horizontalAdvance(QStringLiteral("00")) + 4;
    for (std::size_t i = 0; i < series.points.size(); ++i) {
        const auto& point = series.points[i];
        if (!point.value) continue;
        const QPointF at{x(i), y(*point.value)};
        // A month that rests on one or two records is drawn hollow: few points look like few points.
        painter.setBrush(point.count < 3 ? palette.sheet : color);
        painter.setPen(QPen{color, 1.5});
        if (square) painter.drawRect(QRectF{at.x() - 3.5, at.y() - 3.5, 7, 7});
        else painter.drawEllipse(at, 4, 4);
        if (roomForCounts) {
            painter.setPen(palette.quiet);
            painter.drawText(QRectF{at.x() - 20, plot.bottom() + 3, 40, small.height()}, Qt::AlignHCenter | Qt::AlignTop, QString::number(point.count));
        }
    }
    if (roomForCounts) {
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{plot.left() - 64, plot.bottom() + 3, 58, small.height()}, Qt::AlignRight | Qt::AlignTop, series.counted);
    }
}

}

void paintMonthSeries(QPainter& painter, const QRectF& area, const std::vector<MonthSeries>& panels, const ChartStyle& style)
{
    if (panels.empty() || panels.front().points.empty()) return;
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    std::vector<Date> months;
    for (const auto& point : panels.front().points) months.push_back(point.month);
    const double labelHeight = small.height() + 8;
    const double each = (area.height() - 2 * labelHeight) / static_cast<double>(panels.size());
    painter.setRenderHint(QPainter::Antialiasing);

    const double left = area.left() + 68, width = area.width() - 76;
    const double monthWidth = width / static_cast<double>(months.size());
    const double top = area.top() + labelHeight;
    auto band = palette.line;
    band.setAlphaF(0.35F);
    painter.setFont(style.small);
    for (std::size_t i = 0; i < months.size();) {
        std::size_t end = i;
        while (end < months.size() && seasonOf(months[end]) == seasonOf(months[i])) ++end;
        const QRectF strip{left + static_cast<double>(i) * monthWidth, area.top(), static_cast<double>(end - i) * monthWidth, area.height() - labelHeight};
        if (seasonOf(months[i]) % 2 == 0) painter.fillRect(strip, band);
        const auto name = QString::fromLatin1(seasonNames[seasonOf(months[i])]);
        painter.setPen(palette.quiet);
        if (strip.width() > small.horizontalAdvance(name) + 6) painter.drawText(strip.adjusted(0, 2, 0, 0), Qt::AlignHCenter | Qt::AlignTop, name);
        i = end;
    }
    for (std::size_t p = 0; p < panels.size(); ++p) {
        const double head = 1.5 * small.height() + 10, foot = small.height() + 6;
        const QRectF plot{left, top + each * static_cast<double>(p) + head, width, std::max(20.0, each - head - foot)};
        paintPanel(painter, plot, panels[p], palette.series[p % palette.series.size()], p % 2 == 1, style);
    }
    painter.setFont(style.small);
    painter.setPen(palette.quiet);
    for (const auto i : labelledMonths(months, width, small.horizontalAdvance(QStringLiteral("Jan \u201900")) + 8)) {
        const double x = left + (static_cast<double>(i) + 0.5) * monthWidth;
        painter.drawText(QRectF{x - 40, area.bottom() - labelHeight + 4, 80, small.height()}, Qt::AlignHCenter | Qt::AlignTop, monthLabel(months[i]));
    }
}

}
