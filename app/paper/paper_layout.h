#pragma once

#include "paper/paper_document.h"
#include "paper/paper_text.h"

#include <QImage>
#include <QLineF>
#include <QPolygonF>
#include <QRectF>

#include <memory>
#include <variant>
#include <vector>

class QSvgRenderer;

namespace strikeoff {

/// A logo read from its file, as dots or as lines.
struct PaperPicture {
    QImage image;
    std::shared_ptr<QSvgRenderer> drawing;
    QSizeF size;
};

/// Reads a picture; nullptr for one that is missing, too large or broken.
std::shared_ptr<const PaperPicture> readPicture(const std::string& path);

// What stands on a page, in dots from its top left corner.
struct PlacedText {
    QPointF at;  ///< left end of the baseline
    QString text;
    PaperStyle style = PaperStyle::body;
    double width = 0;
    double turn = 0;  ///< degrees, clockwise about `at`
};
struct PlacedLine {
    QLineF line;
    double thickness = 0;
    bool dashed = false;
};
struct PlacedShape {
    QPolygonF outline;
    double thickness = 0;
    bool hatched = false;
};
struct PlacedPicture {
    QRectF place;
    std::shared_ptr<const PaperPicture> picture;
};
struct PlacedChart {
    QRectF place;
    std::shared_ptr<const PaperChart> chart;
};
using Placed = std::variant<PlacedText, PlacedLine, PlacedShape, PlacedPicture, PlacedChart>;

/// What an item covers; a text from the top of its letters to the foot of them.
QRectF boundsOf(const Placed& item, const PaperFonts& fonts);

struct PaperPage {
    std::vector<Placed> items;
    /// All texts in the order they were placed, a line each.
    QString text() const;
};

/// Margin on all four sides, in dots.
inline constexpr double paperMargin = 0.75 * dotsPerInch;

/// Whether a paper is wider than high: by its own word, or because a table of it would not be read upright.
bool isSideways(const PaperDocument& document, const PaperFonts& fonts);
/// The page a document asks for, in dots.
QSizeF pageSizeOf(const PaperDocument& document, const PaperFonts& fonts);

/// Sets a paper on pages of a size in dots. Every word stands inside the margins on one of the pages; a page too small for that is laid out as if it had
/// two inches between its margins. There is at least one page.
std::vector<PaperPage> layOut(const PaperDocument& document, QSizeF page, const PaperFonts& fonts);

}
