#pragma once

#include "paper/paper_layout.h"

#include <QColor>

class QPainter;

namespace strikeoff {

/// Draws what was laid out; the painter counts in dots. Paper is drawn in black, the window in its own ink.
class PageDrawer {
public:
    PageDrawer(QPainter& painter, const PaperFonts& fonts, QColor ink = Qt::black) : painter_{painter}, fonts_{fonts}, ink_{ink} {}

    void operator()(const PlacedText& placed);
    void operator()(const PlacedLine& placed);
    void operator()(const PlacedShape& placed);
    void operator()(const PlacedPicture& placed);
    void operator()(const PlacedChart& placed);

private:
    void hatch(const QPolygonF& outline);

    QPainter& painter_;
    const PaperFonts& fonts_;
    QColor ink_;
};

}
