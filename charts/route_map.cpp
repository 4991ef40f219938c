#include "route_map.h"

#include <QCoreApplication>
#include <QFontMetricsF>
#include <QLineF>
#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double radius = 10;

QString words(const char* text) { return QCoreApplication::translate("RouteMap", text); }

struct Scale {
    QPointF middle;      ///< in miles
    double pixels = 1;   ///< a mile
};

QRectF innerOf(const QRectF& area) { return area.adjusted(70, 24, -110, -30); }

Scale scaleOf(const QRectF& area, const RouteMap& map)
{
    const auto inner = innerOf(area);
    double west = 0, east = 0, south = 0, north = 0;
    bool first = true;
    for (const auto& place : map.places) {
        west = first ? place.miles.x() : std::min(west, place.miles.x());
        east = first ? place.miles.x() : std::max(east, place.miles.x());
        south = first ? place.miles.y() : std::min(south, place.miles.y());
        north = first ? place.miles.y() : std::max(north, place.miles.y());
        first = false;
    }
    Scale scale;
    scale.middle = {(west + east) / 2, (south + north) / 2};
    scale.pixels = std::min(std::max(inner.width(), 20.0) / std::max(east - west, 0.5), std::max(inner.height(), 20.0) / std::max(north - south, 0.5));
    return scale;
}

void paintScale(QPainter& painter, const QRectF& area, const Scale& scale, const ChartStyle& style)
{
    // The largest round number of miles that fits an eighth of the width.
    double miles = 0.1;
    for (const double candidate : {0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0})
        if (candidate * scale.pixels <= area.width() / 6) miles = candidate;
    const double y = area.bottom() - 6, right = area.right() - 4, left = right - miles * scale.pixels;
    painter.setPen(QPen{style.palette->quiet, 1});
    painter.drawLine(QPointF{left, y}, QPointF{right, y});
    painter.drawLine(QPointF{left, y - 3}, QPointF{left, y + 3});
    painter.drawLine(QPointF{right, y - 3}, QPointF{right, y + 3});
    painter.drawText(QRectF{right - 120, y - 4 - QFontMetricsF{style.small}.height(), 120, QFontMetricsF{style.small}.height()}, Qt::AlignRight | Qt::AlignBottom,
                     miles == 1 ? words("1 mile, north up") : words("%1 miles, north up").arg(miles));
}

}

std::vector<QPointF> placeRoute(const QRectF& area, const RouteMap& map)
{
    const auto scale = scaleOf(area, map);
    const auto middle = innerOf(area).center();
    std::vector<QPointF> points;
    for (const auto& place : map.places) {
        QPointF point{middle.x() + (place.miles.x() - scale.middle.x()) * scale.pixels, middle.y() - (place.miles.y() - scale.middle.y()) * scale.pixels};
        // Two places on one spot stand side by side.
        while (std::ranges::any_of(points, [&](const QPointF& other) { return std::hypot(other.x() - point.x(), other.y() - point.y()) < 1.8 * radius; })) point.rx() += 2 * radius;
        points.push_back(point);
    }
    return points;
}

std::optional<std::size_t> mapPlaceAt(const QPointF& point, const QRectF& area, const RouteMap& map)
{
    const auto points = placeRoute(area, map);
    for (std::size_t index = points.size(); index-- > 0;)
        if (std::hypot(points[index].x() - point.x(), points[index].y() - point.y()) <= radius + 3) return index;
    return {};
}

void paintRouteMap(QPainter& painter, const QRectF& area, const RouteMap& map, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    painter.setFont(style.small);
    if (map.legs.empty()) {
        painter.setPen(palette.quiet);
        painter.drawText(area, Qt::AlignCenter | Qt::TextWordWrap, map.emptyWords);
        return;
    }
    const auto points = placeRoute(area, map);
    constexpr std::array dashes{Qt::SolidLine, Qt::DashLine, Qt::DotLine, Qt::DashDotLine};
    for (const auto& leg : map.legs) {
        const auto run = static_cast<std::size_t>(leg.run);
        painter.setPen(QPen{palette.series[run % palette.series.size()], 2, dashes[run % dashes.size()]});
        const auto &from = points[leg.from], &to = points[leg.to];
        painter.drawLine(from, to);
        // An arrow's head, two thirds on, as a way there and the way back may lie on one line.
        const double length = std::hypot(to.x() - from.x(), to.y() - from.y());
        if (length < 4 * radius) continue;
        const QPointF along = (to - from) / length, across{-along.y(), along.x()};
        const auto tip = from + (to - from) * 0.66;
        painter.drawLine(tip, tip - along * 8 + across * 4);
        painter.drawLine(tip, tip - along * 8 - across * 4);
    }
    std::vector<QRectF> taken;
    for (const auto& point : points) taken.emplace_back(point.x() - radius, point.y() - radius, 2 * radius, 2 * radius);
    const auto isFree = [&](const QRectF& room) { return area.contains(room) && std::ranges::none_of(taken, [&](const QRectF& other) { return other.intersects(room); }); };
    const auto crosses = [&](const QRectF& room, const MapLeg& leg) {
        const QLineF line{points[leg.from], points[leg.to]};
        const std::array corners{room.topLeft(), room.topRight(), room.bottomRight(), room.bottomLeft()};
        for (std::size_t side = 0; side < corners.size(); ++side)
            if (line.intersects(QLineF{corners[side], corners[(side + 1) % corners.size()]}, nullptr) == QLineF::BoundedIntersection) return true;
        return false;
    };
    for (std::size_t index = 0; index < points.size(); ++index) {
        const auto& place = map.places[index];
        const auto& point = points[index];
        const QRectF mark = taken[index];
        painter.setBrush(place.mark.isEmpty() ? palette.ink : place.isChosen ? palette.attention : palette.accent);
        painter.setPen(QPen{place.isChosen ? palette.ink : palette.sheet, place.isChosen ? 2.0 : 1.0});
        if (place.mark.isEmpty()) painter.drawRect(mark.adjusted(2, 2, -2, -2));
        else painter.drawEllipse(mark);
        painter.setPen(palette.sheet);
        painter.drawText(mark, Qt::AlignCenter, place.mark);
        const auto name = small.elidedText(place.name, Qt::ElideRight, 180);
        const double width = small.horizontalAdvance(name) + 2, height = small.height();
        const QRectF rooms[] = {{point.x() + radius + 4, point.y() - height / 2, width, height}, {point.x() - radius - 4 - width, point.y() - height / 2, width, height},
                                {point.x() - width / 2, point.y() - radius - 2 - height, width, height}, {point.x() - width / 2, point.y() + radius + 2, width, height}};
        // Beside the lines where there is room, else on one, which then breaks off behind the words.
        const auto onLine = [&](const QRectF& room) { return std::ranges::any_of(map.legs, [&](const auto& leg) { return crosses(room, leg); }); };
        const auto* room = std::ranges::find_if(rooms, [&](const auto& each) { return isFree(each) && !onLine(each); });
        if (room == std::end(rooms)) room = std::ranges::find_if(rooms, isFree);
        if (room == std::end(rooms)) continue;
        taken.push_back(*room);
        painter.fillRect(*room, palette.sheet);
        painter.setPen(palette.ink);
        painter.drawText(*room, Qt::AlignCenter, name);
    }
    for (const auto& leg : map.legs) {
        const auto middle = (points[leg.from] + points[leg.to]) / 2;
        const double width = small.horizontalAdvance(leg.minutes) + 4;
        const QRectF room{middle.x() - width / 2, middle.y() - small.height() / 2, width, small.height()};
        if (!isFree(room)) continue;
        taken.push_back(room);
        painter.fillRect(room, palette.sheet);
        painter.setPen(palette.quiet);
        painter.drawText(room, Qt::AlignCenter, leg.minutes);
    }
    if (map.toScale) paintScale(painter, area, scaleOf(area, map), style);
    else {
        painter.setPen(palette.quiet);
        painter.drawText(area, Qt::AlignRight | Qt::AlignBottom, words("in their order, not to scale: coordinates are missing"));
    }
}

}
