#include "paper/paper_flow.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace strikeoff {

namespace {

constexpr std::array feetPerInchSteps{1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0, 100.0, 150.0, 200.0, 300.0, 400.0,
                                      500.0, 800.0, 1000.0, 2000.0, 5000.0, 10000.0, 30000.0};
constexpr double roomForDimension = points(26);  // beside a shape and over it
constexpr double roomBelow = points(27);
constexpr double dimensionOff = points(11);
constexpr double shapeGap = points(6);
constexpr double leastCaption = 1.15 * dotsPerInch;

QRectF extentOf(const PlanShape& shape)
{
    if (shape.outline.empty()) return {};
    double left = shape.outline.front().x, right = left, low = shape.outline.front().y, high = low;
    for (const auto& point : shape.outline) {
        left = std::min(left, point.x);
        right = std::max(right, point.x);
        low = std::min(low, point.y);
        high = std::max(high, point.y);
    }
    return QRectF{left, low, right - left, high - low};
}

/// One shape's place in a row of shapes at a scale.
struct PlanCell {
    const PlanShape* shape = nullptr;
    QRectF extent;          ///< feet
    double drawnWidth = 0;  ///< dots
    double drawnHeight = 0;
    double width = 0;       ///< with dimensions and captions
    std::vector<TextLine> captions;
    std::size_t nameLines = 0;
};

using PlanRow = std::vector<PlanCell>;

double heightOf(const PlanRow& row, const PaperFonts& fonts)
{
    double drawn = 0;
    std::size_t captions = 0;
    for (const auto& cell : row) {
        drawn = std::max(drawn, cell.drawnHeight);
        captions = std::max(captions, cell.captions.size());
    }
    return drawn + roomForDimension + roomBelow + fonts.leading(PaperStyle::small) * static_cast<double>(captions);
}

/// Whether the words of a side find room along it.
bool findsRoom(const PlanDimension& dimension, double dotsPerFoot, const PaperFonts& fonts)
{
    const double length = std::hypot(dimension.to.x - dimension.from.x, dimension.to.y - dimension.from.y) * dotsPerFoot;
    return dimension.ruled || fonts.width(PaperStyle::small, settable(dimension.text)) <= length + points(8);
}

/// The sides too short for their words, for the caption.
QString shortSides(const PlanShape& shape, double dotsPerFoot, const PaperFonts& fonts)
{
    QStringList all;
    for (const auto& dimension : shape.dimensions)
        if (!findsRoom(dimension, dotsPerFoot, fonts)) all << settable(dimension.text);
    return all.isEmpty() ? QString{} : (all.size() == 1 ? QStringLiteral("Short side: ") : QStringLiteral("Short sides: ")) + all.join(QStringLiteral(", "));
}

/// Shapes in rows at a scale; nothing when one of them is wider than the paper or higher than the room.
std::vector<PlanRow> rowsAt(const std::vector<PlanShape>& shapes, double feetPerInch, QSizeF room, const PaperFonts& fonts)
{
    std::vector<PlanRow> rows;
    double used = 0;
    for (const auto& shape : shapes) {
        PlanCell cell{&shape, extentOf(shape), 0, 0, 0, {}, 0};
        cell.drawnWidth = cell.extent.width() / feetPerInch * dotsPerInch;
        cell.drawnHeight = cell.extent.height() / feetPerInch * dotsPerInch;
        if (cell.drawnWidth + 2 * roomForDimension > room.width() || cell.drawnHeight > room.height()) return {};
        const double captionWidth = std::min(std::max(cell.drawnWidth + roomForDimension, leastCaption), room.width() - roomForDimension);
        for (const auto& line : fonts.wrap(PaperStyle::smallStrong, settable(shape.name), captionWidth)) cell.captions.push_back(line);
        cell.nameLines = cell.captions.size();
        for (const auto& caption : shape.captions)
            for (const auto& line : fonts.wrap(PaperStyle::small, settable(caption), captionWidth)) cell.captions.push_back(line);
        if (const auto words = shortSides(shape, dotsPerInch / feetPerInch, fonts); !words.isEmpty())
            for (const auto& line : fonts.wrap(PaperStyle::small, words, captionWidth)) cell.captions.push_back(line);
        cell.width = roomForDimension + captionWidth;
        if (rows.empty() || used + cell.width > room.width()) {
            rows.emplace_back();
            used = 0;
        }
        used += cell.width + shapeGap;
        rows.back().push_back(std::move(cell));
    }
    return rows;
}

/// Draws one shape with its feet turned into dots.
class ShapeDrawer {
public:
    ShapeDrawer(Chunk& chunk, const PaperFonts& fonts, const PlanCell& cell, QPointF corner, double dotsPerFoot)
        : chunk_{chunk}, fonts_{fonts}, cell_{cell}, corner_{corner}, scale_{dotsPerFoot}
    {
    }

    void draw()
    {
        QPolygonF outline;
        for (const auto& point : cell_.shape->outline) outline << at(point);
        if (!outline.isEmpty()) outline << outline.first();
        chunk_.items.push_back(PlacedShape{outline, points(1.25), cell_.shape->deduct});
        for (const auto& [from, to] : cell_.shape->joints) chunk_.items.push_back(PlacedLine{QLineF{at(from), at(to)}, hairline, true});
        for (const auto& dimension : cell_.shape->dimensions)
            if (findsRoom(dimension, scale_, fonts_)) draw(dimension);
    }

private:
    QPointF at(const Point& point) const
    {
        // Paper counts downwards, feet on the ground upwards.
        return corner_ + QPointF{(point.x - cell_.extent.left()) * scale_, (cell_.extent.bottom() - point.y) * scale_};
    }

    void draw(const PlanDimension& dimension)
    {
        QLineF line{at(dimension.from), at(dimension.to)};
        if (line.length() <= 0) return;
        const QPointF out{-line.dy() / line.length(), line.dx() / line.length()};  // to the right of the way, where the paper counts downwards
        // Words are read from the bottom or from the right side of the paper, never upside down.
        if (line.dx() < -0.5 || (std::abs(line.dx()) <= 0.5 && line.dy() > 0)) line = QLineF{line.p2(), line.p1()};
        const QPointF along{line.dx() / line.length(), line.dy() / line.length()};
        const QPointF down{-along.y(), along.x()};
        const bool below = QPointF::dotProduct(out, down) > 0;

        const auto words = settable(dimension.text);
        const double width = fonts_.width(PaperStyle::small, words);
        double off = points(3);
        if (dimension.ruled) {
            line.translate(out * dimensionOff);
            chunk_.items.push_back(PlacedLine{line, hairline, false});
            for (const auto& end : {line.p1(), line.p2()}) {
                // A short slanted stroke ends a dimension line, as on any drawing.
                const QPointF stroke = (along - down) * points(2);
                chunk_.items.push_back(PlacedLine{QLineF{end - stroke, end + stroke}, rule, false});
                chunk_.items.push_back(PlacedLine{QLineF{end - out * (dimensionOff - points(2)), end + out * points(2)}, hairline, false});
            }
            off = width > line.length() - points(4) ? points(4) : points(2);  // clear of the strokes at the ends
        }
        const double drop = below ? off + fonts_.ascent(PaperStyle::small) * 0.8 : -off;  // figures reach some eight tenths of the ascent
        const QPointF start = line.center() - along * (width / 2) + down * drop;
        const double turn = std::atan2(along.y(), along.x()) * 180 / std::numbers::pi;
        chunk_.items.push_back(PlacedText{start, words, PaperStyle::small, width, turn});
    }

    Chunk& chunk_;
    const PaperFonts& fonts_;
    const PlanCell& cell_;
    QPointF corner_;
    double scale_;
};

QString shownFeet(double feet) { return QString::number(feet) + QStringLiteral(" ft"); }

}

void Composer::operator()(const PaperPlan& plan)
{
    addPlan(plan, setting_.planHeight);
}

void Composer::addPlan(const PaperPlan& plan, double height)
{
    std::vector<PlanShape> shapes;
    for (const auto& shape : plan.shapes)
        if (shape.outline.size() >= 3 && !extentOf(shape).isEmpty()) shapes.push_back(shape);
    if (shapes.empty()) return;

    // The largest scale at which all shapes go into the height; failing that, one at which each of them goes on the paper at all.
    double feetPerInch = 0;
    std::vector<PlanRow> rows;
    for (const double step : feetPerInchSteps) {
        auto tried = rowsAt(shapes, step, {width_, height}, fonts_);
        if (tried.empty()) continue;
        double used = 0;
        for (const auto& row : tried) used += heightOf(row, fonts_);
        if (!rows.empty() && tried.size() == rows.size() && tried.size() > 3) break;  // smaller shapes would save nothing: captions take the room
        rows = std::move(tried);
        feetPerInch = step;
        if (used <= height) break;
    }
    if (rows.empty()) return;

    const double dotsPerFoot = dotsPerInch / feetPerInch;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        const auto& row = rows[r];
        Chunk chunk;
        chunk.before = points(6);
        chunk.height = heightOf(row, fonts_);
        double drawn = 0;
        for (const auto& cell : row) drawn = std::max(drawn, cell.drawnHeight);
        double left = 0;
        for (const auto& cell : row) {
            const QPointF corner{left + roomForDimension, roomForDimension + drawn - cell.drawnHeight};
            ShapeDrawer{chunk, fonts_, cell, corner, dotsPerFoot}.draw();
            double y = roomForDimension + drawn + roomBelow;
            for (std::size_t i = 0; i < cell.captions.size(); ++i) {
                addLine(chunk, i < cell.nameLines ? PaperStyle::smallStrong : PaperStyle::small, cell.captions[i], left + roomForDimension, y);
                y += fonts_.leading(PaperStyle::small);
            }
            left += cell.width + shapeGap;
        }
        chunk.keepWithNext = r + 1 == rows.size();
        chunks_.push_back(std::move(chunk));
    }

    // A bar stays true on a copy that was made smaller; a figure for the scale would not.
    Chunk bar;
    bar.before = points(8);
    const double inch = dotsPerInch;
    const double left = roomForDimension;
    const double y = points(9);
    bar.items.push_back(PlacedLine{QLineF{left, y, left + inch, y}, rule, false});
    for (const double x : {left, left + inch / 2, left + inch}) bar.items.push_back(PlacedLine{QLineF{x, y - points(3), x, y}, rule, false});
    auto words = shownFeet(feetPerInch) + QStringLiteral(" along this bar");
    const bool jointed = std::any_of(shapes.begin(), shapes.end(), [](const PlanShape& shape) { return !shape.joints.empty(); });
    const bool hatched = std::any_of(shapes.begin(), shapes.end(), [](const PlanShape& shape) { return shape.deduct; });
    if (jointed) words += QStringLiteral("; dashed: planned contraction joints");
    if (hatched) words += QStringLiteral("; hatched: taken out");
    bar.height = setLines(bar, PaperStyle::small, words, left + inch + points(8), y - fonts_.baseline(PaperStyle::small), width_ - left - inch - points(8));
    chunks_.push_back(std::move(bar));
}

}
