#pragma once

#include "axis.h"

#include <QPointF>
#include <QRectF>

#include <span>

namespace strikeoff {

/// Marks that tell series apart without colour, in the order series take them.
enum class PointMark { circle, square, triangle, diamond };
PointMark markOf(std::size_t series);
/// The colour of a series by its place in the order.
QColor seriesColor(const Palette& palette, std::size_t series);

/// One mark about a point; hollow ones have the sheet's colour inside.
void paintMark(QPainter& painter, PointMark mark, const QPointF& at, double radius, const QColor& color, bool hollow, const ChartStyle& style);

/// A box filled with slanted lines, drawn as lines so that they are as wide apart on paper as on the screen.
void fillHatched(QPainter& painter, const QRectF& box, const QColor& color);

/// Whether so many points would lie on one another in a plot, so that their density tells more than their marks.
bool areDense(std::size_t points, const QRectF& plot);

/// Points of one series: a mark each, or where they are dense a raster that is the darker the more of them a place holds. Any number stays quick.
void paintPoints(QPainter& painter, const QRectF& plot, std::span<const QPointF> points, PointMark mark, const QColor& color, const ChartStyle& style);

/// One entry of a key: how something looks, and what it is.
struct KeyEntry {
    enum class Look { mark, hollowMark, line, dashes, band };
    Look look = Look::mark;
    QString words;
    std::size_t series = 0;
};

/// Width that a key takes in one line.
double widthOfKey(const std::vector<KeyEntry>& key, const ChartStyle& style);
/// A key in one line from the left of a place; entries that have no room any more are left out.
void paintKey(QPainter& painter, const QRectF& place, const std::vector<KeyEntry>& key, const ChartStyle& style);

}
