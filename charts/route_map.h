#pragma once

#include "axis.h"

#include <QPointF>
#include <QRectF>

#include <optional>
#include <vector>

namespace strikeoff {

/// A place of a day's route: miles east and north of the shop, what stands beside it, and its mark ("1", blank for the shop).
struct MapPlace {
    QPointF miles;
    QString name;
    QString mark;
    bool isChosen = false;
};

/// A drive between two places, by their numbers.
struct MapLeg {
    std::size_t from = 0;
    std::size_t to = 0;
    QString minutes;
    int run = 0;
};

struct RouteMap {
    std::vector<MapPlace> places;
    std::vector<MapLeg> legs;
    bool toScale = true;   ///< false where places without coordinates stand on a ring in their order
    QString emptyWords;    ///< what to say without a route
};

/// Where each place is drawn, equal miles both ways.
std::vector<QPointF> placeRoute(const QRectF& area, const RouteMap& map);
/// The place at a point, or nothing.
std::optional<std::size_t> mapPlaceAt(const QPointF& point, const QRectF& area, const RouteMap& map);

/// A small plan of a day's stops: shop, stops with their order and names, drives with their minutes, north up, a scale of miles.
void paintRouteMap(QPainter& painter, const QRectF& area, const RouteMap& map, const ChartStyle& style);

}
