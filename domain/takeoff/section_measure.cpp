#include "takeoff/outline.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace strikeoff {

namespace {

using std::numbers::pi;

constexpr double cubicFeetPerYard = 27;

/// One piece before its count and sign.
struct Piece {
    double areaSqft = 0;
    double planSqft = 0;  ///< what a run or a pier covers, which is no area of the job
    double depthFt = 0;
    double perimeterFt = 0;
    std::vector<Point> outline;
    std::string fault;
};

Piece faulty(std::string fault)
{
    Piece piece;
    piece.fault = std::move(fault);
    return piece;
}

/// What a shape's dimensions are called where they are missing; nullptr for one that the shape does without.
struct Names {
    const char* length = nullptr;
    const char* width = nullptr;
    const char* second = nullptr;
    const char* thickness = "Thickness";
};

Names namesFor(SectionShape shape)
{
    switch (shape) {
    case SectionShape::rectangle: return {.length = "Length", .width = "Width"};
    case SectionShape::triangle: return {.length = "Length, the base,", .width = "Width, the height,"};
    case SectionShape::trapezoid: return {.length = "Length", .width = "Width, between the two sides,", .second = "Second length, the other side,"};
    case SectionShape::circle: return {.length = "Length, the diameter,"};
    case SectionShape::circularSegment: return {.length = "Length, the chord,", .width = "Width, the rise,"};
    case SectionShape::circularSector: return {.length = "Length, the radius,", .width = "Width, the arc,"};
    case SectionShape::polygon: return {};
    case SectionShape::thickenedEdge:
    case SectionShape::footing: return {.length = "Length, the run,", .width = "Width", .thickness = "Thickness, the depth,"};
    case SectionShape::pier: return {.length = "Length, the diameter,", .thickness = "Thickness, the depth,"};
    }
    return {};
}

/// The first dimension that is missing or nothing, in words; empty when the shape has all it needs.
std::string missingDimension(const TakeoffSection& section)
{
    const auto names = namesFor(section.shape);
    const auto fault = [](const char* name, const std::optional<TapeLength>& length) -> std::string {
        if (!name) return {};
        if (!length) return std::string{name} + " is missing; fill it in";
        if (*length <= TapeLength{}) return std::string{name} + " is nothing; measure it again";
        return {};
    };
    if (auto text = fault(names.length, section.length); !text.empty()) return text;
    if (auto text = fault(names.width, section.width); !text.empty()) return text;
    if (names.second && !section.secondLength) return fault(names.second, section.secondLength);
    if (section.secondLength && *section.secondLength < TapeLength{}) return "Second length is less than nothing; measure it again";
    return fault(names.thickness, section.thickness);
}

/// Chords enough for a curve to look round: one for each five degrees.
int chordsFor(double angle) { return std::max(8, static_cast<int>(std::ceil(angle / (pi / 36)))); }

/// Points of a curve from angle to angle about a center, the last one left out when it closes a circle.
void addArc(std::vector<Point>& outline, Point center, double radius, double from, double to, bool closes)
{
    const int chords = chordsFor(std::abs(to - from));
    for (int i = 0; i < chords + (closes ? 0 : 1); ++i) {
        const double angle = from + (to - from) * i / chords;
        outline.push_back({center.x + radius * std::cos(angle), center.y + radius * std::sin(angle)});
    }
}

Piece rectangle(double length, double width)
{
    return {.areaSqft = length * width,
            .perimeterFt = 2 * (length + width),
            .outline = {{0, 0}, {length, 0}, {length, width}, {0, width}},
            .fault = {}};
}

Piece triangle(double base, double height)
{
    return {.areaSqft = base * height / 2,
            .perimeterFt = base + height + std::hypot(base, height),
            .outline = {{0, 0}, {base, 0}, {0, height}},
            .fault = {}};
}

Piece trapezoid(double side, double otherSide, double width)
{
    const double inset = (side - otherSide) / 2;
    Piece piece{.areaSqft = (side + otherSide) / 2 * width,
                .perimeterFt = side + otherSide + 2 * std::hypot(inset, width),
                .outline = {{0, 0}, {side, 0}},
                .fault = {}};
    piece.outline.push_back({side - inset, width});
    if (otherSide > 0) piece.outline.push_back({inset, width});
    return piece;
}

Piece circle(double diameter)
{
    Piece piece{.areaSqft = pi / 4 * diameter * diameter, .perimeterFt = pi * diameter, .outline = {}, .fault = {}};
    addArc(piece.outline, {diameter / 2, diameter / 2}, diameter / 2, 0, 2 * pi, true);
    return piece;
}

/// θ − sin θ; for small angles by its series, where the difference would cancel to nothing.
double angleLessSine(double angle)
{
    if (angle > 0.05) return angle - std::sin(angle);
    const double square = angle * angle;
    return angle * square / 6 * (1 - square / 20 * (1 - square / 42));
}

/// From the chord c and the rise h: radius (c²/4 + h²) / 2h, angle 4·atan(2h/c), area r²/2 (θ − sin θ).
Piece segment(double chord, double rise)
{
    if (rise > chord) return faulty("Width, the rise, is more than the chord; measure again or use a circle and a deduction");
    const double radius = (chord * chord / 4 + rise * rise) / (2 * rise);
    const double angle = 4 * std::atan2(2 * rise, chord);
    Piece piece{.areaSqft = radius * radius / 2 * angleLessSine(angle), .perimeterFt = chord + radius * angle, .outline = {}, .fault = {}};
    addArc(piece.outline, {chord / 2, rise - radius}, radius, pi / 2 - angle / 2, pi / 2 + angle / 2, false);
    return piece;
}

Piece sector(double radius, double arc)
{
    const double angle = arc / radius;
    if (angle > 2 * pi) return faulty("Width, the arc, is longer than its circle; measure again");
    Piece piece{.areaSqft = radius * arc / 2, .perimeterFt = 2 * radius + arc, .outline = {{0, 0}}, .fault = {}};
    addArc(piece.outline, {0, 0}, radius, 0, angle, false);
    return piece;
}

Piece polygon(const std::string& points)
{
    if (points.empty()) return faulty("Points are missing; fill in the corner points");
    auto outline = readOutline(points);
    if (!outline.fault.empty()) return faulty(std::move(outline.fault));
    return {.areaSqft = outline.areaSqft, .perimeterFt = outline.perimeterFt, .outline = std::move(outline.corners), .fault = {}};
}

Piece pieceOf(const TakeoffSection& section)
{
    if (auto fault = missingDimension(section); !fault.empty()) return faulty(std::move(fault));
    const auto feet = [](const std::optional<TapeLength>& length) { return length ? length->feet() : 0.0; };
    const double length = feet(section.length);
    const double width = feet(section.width);
    const double second = feet(section.secondLength);
    const double depth = feet(section.thickness);
    Piece piece;
    switch (section.shape) {
    case SectionShape::rectangle: piece = rectangle(length, width); break;
    case SectionShape::triangle: piece = triangle(length, width); break;
    case SectionShape::trapezoid: piece = trapezoid(length, second, width); break;
    case SectionShape::circle: piece = circle(length); break;
    case SectionShape::circularSegment: piece = segment(length, width); break;
    case SectionShape::circularSector: piece = sector(length, width); break;
    case SectionShape::polygon: piece = polygon(section.points); break;
    case SectionShape::thickenedEdge:
    case SectionShape::footing: piece.planSqft = (width + second / 2) * length; break;
    case SectionShape::pier: piece.planSqft = pi / 4 * length * length; break;
    }
    piece.depthFt = depth;
    return piece;
}

}

SectionMeasure measure(const TakeoffSection& section)
{
    auto piece = pieceOf(section);
    SectionMeasure measured;
    if (section.count < 1 && piece.fault.empty()) piece.fault = "Count is less than one; say how many there are";
    measured.fault = std::move(piece.fault);
    if (!measured.fault.empty()) return measured;
    const double times = section.deduct ? -section.count : section.count;
    measured.areaSqft = piece.areaSqft * times;
    measured.volumeYards = (piece.areaSqft + piece.planSqft) * piece.depthFt / cubicFeetPerYard * times;
    measured.perimeterFt = piece.perimeterFt;
    measured.outline = std::move(piece.outline);
    return measured;
}

}
