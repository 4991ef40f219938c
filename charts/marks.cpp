#include "marks.h"

#include <QFontMetricsF>
#include <QImage>
#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double cell = 2;  ///< pixels a side of the raster of density
constexpr double swatch = 22;

QColor translucent(QColor color, double alpha)
{
    color.setAlphaF(static_cast<float>(alpha));
    return color;
}

void paintDensity(QPainter& painter, const QRectF& plot, std::span<const QPointF> points, const QColor& color)
{
    const auto across = std::max(1, static_cast<int>(std::ceil(plot.width() / cell)));
    const auto down = std::max(1, static_cast<int>(std::ceil(plot.height() / cell)));
    std::vector<int> counts(static_cast<std::size_t>(across) * static_cast<std::size_t>(down));
    int most = 1;
    for (const auto& point : points) {
        if (!plot.contains(point)) continue;
        const auto x = std::min(across - 1, static_cast<int>((point.x() - plot.left()) / cell));
        const auto y = std::min(down - 1, static_cast<int>((point.y() - plot.top()) / cell));
        auto& count = counts[static_cast<std::size_t>(y) * static_cast<std::size_t>(across) + static_cast<std::size_t>(x)];
        most = std::max(most, ++count);
    }
    // By the logarithm, so that a lone point stays in sight beside a crowd.
    QImage image{across, down, QImage::Format_ARGB32_Premultiplied};
    image.fill(Qt::transparent);
    const double whole = std::log1p(most);
    for (int y = 0; y < down; ++y) {
        auto* line = reinterpret_cast<QRgb*>(image.scanLine(y));
        for (int x = 0; x < across; ++x) {
            const int count = counts[static_cast<std::size_t>(y) * static_cast<std::size_t>(across) + static_cast<std::size_t>(x)];
            if (count > 0) line[x] = qPremultiply(translucent(color, 0.3 + 0.7 * std::log1p(count) / whole).rgba());
        }
    }
    painter.drawImage(QRectF{plot.left(), plot.top(), across * cell, down * cell}, image);
}

double widthOf(const KeyEntry& entry, const QFontMetricsF& small) { return swatch + 4 + small.horizontalAdvance(entry.words) + 14; }

}

PointMark markOf(std::size_t series) { return static_cast<PointMark>(series % 4); }

QColor seriesColor(const Palette& palette, std::size_t series) { return palette.series[series % palette.series.size()]; }

void paintMark(QPainter& painter, PointMark mark, const QPointF& at, double radius, const QColor& color, bool hollow, const ChartStyle& style)
{
    painter.setPen(QPen{color, hollow ? 1.5 : 1});
    painter.setBrush(hollow ? style.palette->sheet : color);
    const double r = radius;
    switch (mark) {
    case PointMark::circle: painter.drawEllipse(at, r, r); break;
    case PointMark::square: painter.drawRect(QRectF{at.x() - r * 0.9, at.y() - r * 0.9, r * 1.8, r * 1.8}); break;
    case PointMark::triangle: painter.drawPolygon(QPolygonF{{at + QPointF{0, -r * 1.1}, at + QPointF{r * 1.05, r * 0.8}, at + QPointF{-r * 1.05, r * 0.8}}}); break;
    case PointMark::diamond: painter.drawPolygon(QPolygonF{{at + QPointF{0, -r * 1.25}, at + QPointF{r * 1.25, 0}, at + QPointF{0, r * 1.25}, at + QPointF{-r * 1.25, 0}}}); break;
    }
}

void fillHatched(QPainter& painter, const QRectF& box, const QColor& color)
{
    constexpr double apart = 6;
    painter.save();
    painter.setClipRect(box, Qt::IntersectClip);
    painter.setPen(QPen{color, 1});
    for (double x = box.left() - box.height(); x < box.right(); x += apart) painter.drawLine(QPointF{x, box.bottom()}, QPointF{x + box.height(), box.top()});
    painter.restore();
}

bool areDense(std::size_t points, const QRectF& plot)
{
    return points > 400 && (points > 6000 || static_cast<double>(points) * 30 > plot.width() * plot.height());
}

void paintPoints(QPainter& painter, const QRectF& plot, std::span<const QPointF> points, PointMark mark, const QColor& color, const ChartStyle& style)
{
    if (areDense(points.size(), plot)) return paintDensity(painter, plot, points, color);
    // Few points are large and full, many small and light, so that a crowd shows where it is thickest.
    const bool many = points.size() > 250;
    const double radius = points.size() > 1000 ? 1.6 : many ? 2.2 : 3.2;
    const auto shade = translucent(color, many ? 0.45 : points.size() > 60 ? 0.65 : 0.9);
    for (const auto& point : points)
        if (plot.adjusted(-1, -1, 1, 1).contains(point)) paintMark(painter, mark, point, radius, shade, false, style);
}

double widthOfKey(const std::vector<KeyEntry>& key, const ChartStyle& style)
{
    const QFontMetricsF small{style.small};
    double width = 0;
    for (const auto& entry : key) width += widthOf(entry, small);
    return width;
}

void paintKey(QPainter& painter, const QRectF& place, const std::vector<KeyEntry>& key, const ChartStyle& style)
{
    const auto& palette = *style.palette;
    const QFontMetricsF small{style.small};
    painter.setFont(style.small);
    double x = place.left();
    for (const auto& entry : key) {
        const double width = widthOf(entry, small);
        if (x + width - 14 > place.right() + 1) break;
        const auto color = seriesColor(palette, entry.series);
        const double middle = place.center().y();
        switch (entry.look) {
        case KeyEntry::Look::mark:
        case KeyEntry::Look::hollowMark: paintMark(painter, markOf(entry.series), {x + swatch / 2, middle}, 3.6, color, entry.look == KeyEntry::Look::hollowMark, style); break;
        case KeyEntry::Look::line:
        case KeyEntry::Look::dashes:
            painter.setPen(QPen{color, 2, entry.look == KeyEntry::Look::dashes ? Qt::DashLine : Qt::SolidLine});
            painter.drawLine(QPointF{x, middle}, QPointF{x + swatch, middle});
            break;
        case KeyEntry::Look::band: painter.fillRect(QRectF{x, middle - 5, swatch, 10}, translucent(color, 0.28)); break;
        }
        painter.setPen(palette.quiet);
        painter.drawText(QRectF{x + swatch + 4, place.top(), width, place.height()}, Qt::AlignLeft | Qt::AlignVCenter, entry.words);
        x += width;
    }
}

}
