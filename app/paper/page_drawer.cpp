#include "paper/page_drawer.h"

#include <QPainter>
#include <QPainterPath>
#include <QSvgRenderer>

namespace strikeoff {

void PageDrawer::operator()(const PlacedText& placed)
{
    painter_.setFont(fonts_.font(placed.style));
    painter_.setPen(ink_);
    if (placed.turn == 0) {
        painter_.drawText(placed.at, placed.text);
        return;
    }
    painter_.save();
    painter_.translate(placed.at);
    painter_.rotate(placed.turn);
    painter_.drawText(QPointF{0, 0}, placed.text);
    painter_.restore();
}

void PageDrawer::operator()(const PlacedLine& placed)
{
    QPen pen{ink_, placed.thickness, Qt::SolidLine, Qt::FlatCap};
    if (placed.dashed) pen.setDashPattern({points(4) / placed.thickness, points(3) / placed.thickness});
    painter_.setPen(pen);
    painter_.drawLine(placed.line);
}

void PageDrawer::operator()(const PlacedShape& placed)
{
    if (placed.hatched) hatch(placed.outline);
    painter_.setPen(QPen{ink_, placed.thickness, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin});
    painter_.setBrush(Qt::NoBrush);
    painter_.drawPolygon(placed.outline);
}

void PageDrawer::operator()(const PlacedPicture& placed)
{
    if (placed.picture->drawing) placed.picture->drawing->render(&painter_, placed.place);
    else painter_.drawImage(placed.place, placed.picture->image);
}

void PageDrawer::operator()(const PlacedChart& placed)
{
    painter_.save();
    painter_.translate(placed.place.topLeft());
    painter_.scale(dotsPerPixel, dotsPerPixel);
    placed.chart->paint(painter_, QRectF{QPointF{0, 0}, placed.place.size() / dotsPerPixel}, paperChartStyle());
    painter_.restore();
}

/// Slanted lines of our own: a pattern brush would come out at another size on every device.
void PageDrawer::hatch(const QPolygonF& outline)
{
    QPainterPath inside;
    inside.addPolygon(outline);
    inside.closeSubpath();
    painter_.save();
    painter_.setClipPath(inside, Qt::IntersectClip);
    painter_.setPen(QPen{ink_, points(0.4)});
    const auto box = outline.boundingRect();
    for (double x = box.left() - box.height(); x < box.right(); x += points(6)) painter_.drawLine(QPointF{x, box.bottom()}, QPointF{x + box.height(), box.top()});
    painter_.restore();
}

}
