#include "scatter.h"

#include "marks.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace strikeoff {

namespace {

constexpr double reach = 9;  ///< pixels about a point that still mean it

QString words(const char* text) { return QCoreApplication::translate("Scatter", text); }

double stepOf(int decimals) { return decimals == 0 ? 1 : decimals == 1 ? 0.1 : 0.01; }

struct Frame {
    QRectF plot;
    Scale x, y;
    QPointF at(const ScatterPoint& point) const { return {x.at(point.x), y.at(point.y)}; }
};

std::vector<KeyEntry> keyOf(const ScatterPlot& plot, const QRectF& place)
{
    using enum KeyEntry::Look;
    std::vector<KeyEntry> key;
    // Points on one another have no marks to tell groups by.
    for (std::size_t i = 0; i < plot.groups.size() && !areDense(plot.points.size(), place); ++i) key.push_back({mark, plot.groups[i], i});
    if (!plot.slices.empty()) {
        key.push_back({line, plot.middle, 1});
        if (!plot.spread.isEmpty()) key.push_back({band, plot.spread, 1});
    }
    return key;
}

Frame frameOf(const QRectF& area, const ScatterPlot& plot, const ChartStyle& style)
{
    const QFontMetricsF small{style.small};
    Frame frame;
    const double head = 2 * small.height() + 12;  // the axis's name, and the key under it
    QRectF inside{area.left(), area.top() + head, area.width() - 10, std::max(40.0, area.height() - head - heightOfAcross(style))};
    const auto [down, up] = rangeUp(plot);
    frame.y = scaleOver(down, up, inside.bottom(), inside.top(), 44);
    inside.setLeft(area.left() + widthOfUp(frame.y, style));
    const auto [left, right] = rangeAcross(plot);
    frame.x = scaleOver(left, right, inside.left(), std::max(inside.right(), inside.left() + 40), 90);
    frame.plot = {inside.left(), inside.top(), frame.x.end - frame.x.start, inside.height()};
    return frame;
}

std::pair<double, double> spanOf(const ScatterPlot& plot, double ScatterPoint::*member)
{
    double low = 0, high = 1;
    bool any = false;
    for (const auto& point : plot.points) {
        const double value = point.*member;
        if (!std::isfinite(value)) continue;
        low = any ? std::min(low, value) : value;
        high = any ? std::max(high, value) : value;
        any = true;
    }
    return {low, high};
}

std::pair<double, double> bothSpans(const ScatterPlot& plot)
{
    const auto [left, right] = spanOf(plot, &ScatterPoint::x);
    const auto [down, up] = spanOf(plot, &ScatterPoint::y);
    return {std::min({0.0, left, down}), std::max({right, up, 1e-9})};
}

std::pair<double, double> withAir(std::pair<double, double> range)
{
    const double air = std::max((range.second - range.first) * 0.04, 1e-6);
    return {range.first >= 0 ? std::max(0.0, range.first - air) : range.first - air, range.second + air};
}

void paintDiagonal(QPainter& painter, const Frame& frame, const ScatterPlot& plot, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const double from = std::max(frame.x.ticks.front(), frame.y.ticks.front()), to = std::min(frame.x.ticks.back(), frame.y.ticks.back());
    const QPointF start{frame.x.at(from), frame.y.at(from)}, end{frame.x.at(to), frame.y.at(to)};
    painter.setPen(QPen{palette.ink, 1.2, Qt::DashLine});
    painter.drawLine(start, end);
    // What either side means stands in its corner, what the line means along its upper end.
    const QFontMetricsF small{style.small};
    painter.setFont(style.small);
    painter.setPen(palette.quiet);
    const auto inside = frame.plot.adjusted(10, 8, -10, -8);
    painter.drawText(inside, Qt::AlignLeft | Qt::AlignTop, plot.above);
    painter.drawText(inside, Qt::AlignRight | Qt::AlignBottom, plot.below);
    painter.save();
    painter.translate(end);
    painter.rotate(std::atan2(end.y() - start.y(), end.x() - start.x()) * 180 / std::acos(-1.0));
    painter.drawText(QRectF{-212, -small.height() - 3, 200, small.height()}, Qt::AlignRight | Qt::AlignTop, plot.onDiagonal);
    painter.restore();
}

void paintSlices(QPainter& painter, const Frame& frame, const ScatterPlot& plot, const ChartStyle& style)
{
    const auto color = seriesColor(*style.palette, 1);
    std::vector<ScatterSlice> known;
    for (const auto& slice : plot.slices)
        if (slice.middle) known.push_back(slice);
    QPolygonF band;
    for (const auto& slice : known)
        if (slice.high) band << QPointF{frame.x.at(slice.x), frame.y.at(*slice.high)};
    for (auto slice = known.rbegin(); slice != known.rend(); ++slice)
        if (slice->low) band << QPointF{frame.x.at(slice->x), frame.y.at(*slice->low)};
    if (known.size() >= 3) {
        auto shade = color;
        shade.setAlphaF(0.2F);
        painter.setPen(Qt::NoPen);
        painter.setBrush(shade);
        painter.drawPolygon(band);
        QPainterPath path{QPointF{frame.x.at(known.front().x), frame.y.at(*known.front().middle)}};
        for (const auto& slice : known) path.lineTo(frame.x.at(slice.x), frame.y.at(*slice.middle));
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen{style.palette->sheet, 4});
        painter.drawPath(path);
        painter.setPen(QPen{color, 2});
        painter.drawPath(path);
    }
    for (const auto& slice : known) paintMark(painter, markOf(1), {frame.x.at(slice.x), frame.y.at(*slice.middle)}, 4, color, slice.count < 3, style);
}

QString tipOf(const ScatterPlot& plot, std::size_t index)
{
    const auto& point = plot.points[index];
    QStringList lines;
    if (plot.tip) lines << plot.tip(index);
    if (point.group < plot.groups.size() && plot.groups.size() > 1) lines << plot.groups[point.group];
    lines << QStringLiteral("%1: %2").arg(plot.xAxis, tickText(point.x, stepOf(plot.xDecimals)));
    lines << QStringLiteral("%1: %2").arg(plot.yAxis, tickText(point.y, stepOf(plot.yDecimals)));
    return lines.join(u'\n');
}

ChartStop stopOf(const Frame& frame, const ScatterPlot& plot, std::size_t index)
{
    const auto at = frame.at(plot.points[index]);
    return {{at.x() - reach, at.y() - reach, 2 * reach, 2 * reach}, tipOf(plot, index), plot.kind, plot.points[index].id};
}

NumberTable numbersOf(const ScatterPlot& plot)
{
    NumberTable table{{{words("group"), true}, {plot.xAxis}, {plot.yAxis}, {words("low")}, {words("high")}, {words("count")}}, {}};
    const auto x = [&](double value) { return plainNumber(value, std::max(plot.xDecimals, 2)); };
    const auto y = [&](std::optional<double> value) { return plainNumber(value, std::max(plot.yDecimals, 2)); };
    for (const auto& slice : plot.slices) table.rows.push_back({plot.middle, x(slice.x), y(slice.middle), y(slice.low), y(slice.high), QString::number(slice.count)});
    for (const auto& point : plot.points) table.rows.push_back({point.group < plot.groups.size() ? plot.groups[point.group] : QString{}, x(point.x), y(point.y), {}, {}, {}});
    return table;
}

}

std::pair<double, double> rangeAcross(const ScatterPlot& plot)
{
    auto range = plot.diagonal ? bothSpans(plot) : spanOf(plot, &ScatterPoint::x);
    if (!plot.diagonal)
        for (const auto& slice : plot.slices) range = {std::min(range.first, slice.x), std::max(range.second, slice.x)};
    return withAir(range);
}

std::pair<double, double> rangeUp(const ScatterPlot& plot)
{
    auto range = plot.diagonal ? bothSpans(plot) : spanOf(plot, &ScatterPoint::y);
    if (!plot.diagonal)
        for (const auto& slice : plot.slices)
            for (const auto& value : {slice.low, slice.middle, slice.high})
                if (value) range = {std::min(range.first, *value), std::max(range.second, *value)};
    return withAir(range);
}

void paintScatter(QPainter& painter, const QRectF& area, const ScatterPlot& plot, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    const auto frame = frameOf(area, plot, style);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(style.small);
    painter.setPen(palette.ink);
    painter.drawText(QRectF{area.left(), area.top(), area.width(), small.height()}, Qt::AlignLeft | Qt::AlignTop, plot.yAxis);
    paintKey(painter, {area.left(), area.top() + small.height() + 2, area.width(), small.height()}, keyOf(plot, frame.plot), style);
    paintUp(painter, frame.plot, frame.y, style);
    paintAcross(painter, frame.plot, frame.x, plot.xAxis, style);
    if (plot.points.empty()) {
        painter.setPen(palette.quiet);
        painter.drawText(frame.plot, Qt::AlignCenter, words("Nothing to draw yet"));
        return;
    }
    if (plot.diagonal) paintDiagonal(painter, frame, plot, style);
    std::vector<std::vector<QPointF>> groups(std::max<std::size_t>(plot.groups.size(), 1));
    const bool dense = areDense(plot.points.size(), frame.plot);
    for (const auto& point : plot.points)
        if (std::isfinite(point.x) && std::isfinite(point.y)) groups[dense ? 0 : std::min(point.group, groups.size() - 1)].push_back(frame.at(point));
    for (std::size_t i = 0; i < groups.size(); ++i) paintPoints(painter, frame.plot, groups[i], markOf(i), seriesColor(palette, i), style);
    paintSlices(painter, frame, plot, style);
}

Chart chartOf(ScatterPlot scatter)
{
    Chart chart;
    chart.name = scatter.name;
    chart.size = {scatter.diagonal ? 760.0 : 960.0, 560};
    chart.stopRows.assign(scatter.points.empty() ? 0 : 1, scatter.points.size());
    const auto shared = std::make_shared<const ScatterPlot>(std::move(scatter));
    auto order = std::make_shared<std::vector<std::size_t>>(shared->points.size());
    std::iota(order->begin(), order->end(), std::size_t{0});
    std::ranges::stable_sort(*order, {}, [&](std::size_t i) { return shared->points[i].x; });
    chart.paint = [shared](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintScatter(painter, area, *shared, style); };
    chart.stop = [shared, order](std::size_t, std::size_t place, const QRectF& area, const ChartStyle& style) {
        return stopOf(frameOf(area, *shared, style), *shared, order->at(place));
    };
    chart.stopAt = [shared](const QPointF& at, const QRectF& area, const ChartStyle& style) -> std::optional<ChartStop> {
        const auto frame = frameOf(area, *shared, style);
        double nearest = reach * reach;
        std::optional<std::size_t> found;
        for (std::size_t i = 0; i < shared->points.size(); ++i) {
            const auto there = frame.at(shared->points[i]) - at;
            if (const double distance = QPointF::dotProduct(there, there); distance < nearest) {
                nearest = distance;
                found = i;
            }
        }
        return found ? std::optional{stopOf(frame, *shared, *found)} : std::nullopt;
    };
    chart.numbers = [shared] { return numbersOf(*shared); };
    return chart;
}

}
