#include "axis.h"

#include "quantity/decimal.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace strikeoff {

std::vector<double> niceTicks(double low, double high, int steps)
{
    if (!std::isfinite(low) || !std::isfinite(high)) return {0, 1};
    if (high < low) std::swap(low, high);
    if (high - low < 1e-9) high = low + 1;
    const double raw = (high - low) / std::max(steps, 1);
    const double power = std::pow(10.0, std::floor(std::log10(raw)));
    const double part = raw / power;
    const double step = power * (part <= 1 ? 1 : part <= 2 ? 2 : part <= 5 ? 5 : 10);
    std::vector<double> ticks;
    const auto first = static_cast<long long>(std::floor(low / step + 1e-9));
    for (auto i = first; ticks.size() < 100; ++i) {
        ticks.push_back(static_cast<double>(i) * step);
        if (ticks.back() >= high - step * 1e-9) break;
    }
    return ticks;
}

QString tickText(double value, double step)
{
    const int decimals = step >= 1 ? 0 : step >= 0.1 ? 1 : 2;
    const auto units = static_cast<std::int64_t>(std::llround(value * 100));
    return QString::fromStdString(shownDecimal(units, 2, decimals));
}

Scale scaleOver(double low, double high, double start, double end, double pixelsATick)
{
    const auto steps = static_cast<int>(std::clamp(std::abs(end - start) / pixelsATick, 2.0, 8.0));
    return {niceTicks(low, high, steps), start, end};
}

void paintAcross(QPainter& painter, const QRectF& plot, const Scale& scale, const QString& name, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    painter.setFont(style.small);
    for (const auto tick : scale.ticks) {
        const double x = scale.at(tick);
        painter.setPen(QPen{tick == 0 ? palette.quiet : palette.line, 1});
        painter.drawLine(QPointF{x, plot.top()}, QPointF{x, plot.bottom() + 4});
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{x - 50, plot.bottom() + 5, 100, small.height()}, Qt::AlignHCenter | Qt::AlignTop, tickText(tick, scale.step()));
    }
    // Centered under the plot, or where a narrow plot leaves it whole.
    const double wide = std::max(plot.width(), small.horizontalAdvance(name) + 4);
    const double left = std::max(0.0, plot.center().x() - wide / 2);
    painter.drawText(QRectF{left, plot.bottom() + 8 + small.height(), wide, small.height()}, Qt::AlignHCenter | Qt::AlignTop, name);
}

double heightOfAcross(const ChartStyle& style) { return 2 * QFontMetricsF{style.small}.height() + 14; }

void paintUp(QPainter& painter, const QRectF& plot, const Scale& scale, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    painter.setFont(style.small);
    for (const auto tick : scale.ticks) {
        const double y = scale.at(tick);
        painter.setPen(QPen{palette.line, 1});
        painter.drawLine(QPointF{plot.left(), y}, QPointF{plot.right(), y});
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{plot.left() - 106, y - small.height() / 2, 100, small.height()}, Qt::AlignRight | Qt::AlignVCenter, tickText(tick, scale.step()));
    }
}

double widthOfUp(const Scale& scale, const ChartStyle& style)
{
    const QFontMetricsF small{style.small};
    double width = 0;
    for (const auto tick : scale.ticks) width = std::max(width, small.horizontalAdvance(tickText(tick, scale.step())));
    return width + 8;
}

}
