#include "paper/takeoff_plan.h"

#include "takeoff/takeoff_words.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace strikeoff {

namespace {

/// A tape reading whose inches stay on the line of its feet.
std::string unbroken(std::string text)
{
    for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at)) text.replace(at, 1, "\u00a0");
    return text;
}

std::string tape(const std::optional<TapeLength>& length) { return length ? unbroken(length->text()) : std::string{"not recorded"}; }

struct Extent {
    double left = 0, right = 0, low = 0, high = 0;
};

Extent extentOf(const std::vector<Point>& outline)
{
    Extent extent{outline.front().x, outline.front().x, outline.front().y, outline.front().y};
    for (const auto& point : outline) {
        extent.left = std::min(extent.left, point.x);
        extent.right = std::max(extent.right, point.x);
        extent.low = std::min(extent.low, point.y);
        extent.high = std::max(extent.high, point.y);
    }
    return extent;
}

std::string lengthText(double feet) { return unbroken(TapeLength::ofSixteenths(std::llround(feet * 192)).text()); }

double distance(const Point& a, const Point& b) { return std::hypot(b.x - a.x, b.y - a.y); }

/// The straight side of an outline that is nearest to a length; curves are made of chords far shorter than their straight sides.
std::pair<Point, Point> sideOfLength(const std::vector<Point>& outline, double feet)
{
    std::pair<Point, Point> found{outline.front(), outline.front()};
    double nearest = std::numeric_limits<double>::max();
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const auto& from = outline[i];
        const auto& to = outline[(i + 1) % outline.size()];
        if (const double off = std::abs(distance(from, to) - feet); off < nearest) {
            nearest = off;
            found = {from, to};
        }
    }
    return found;
}

void addDimensions(PlanShape& shape, const TakeoffSection& section)
{
    const auto extent = extentOf(shape.outline);
    const auto across = [&](const std::string& text) { shape.dimensions.push_back({{extent.left, extent.low}, {extent.right, extent.low}, text, true}); };
    const auto upwards = [&](const std::string& text) { shape.dimensions.push_back({{extent.left, extent.high}, {extent.left, extent.low}, text, true}); };
    const auto along = [&](double feet, const std::string& text, bool ruled) {
        const auto [from, to] = sideOfLength(shape.outline, feet);
        shape.dimensions.push_back({from, to, text, ruled});
    };
    const double length = section.length ? section.length->feet() : 0;
    const double width = section.width ? section.width->feet() : 0;

    switch (section.shape) {
    case SectionShape::rectangle: {
        const bool lies = std::abs(extent.right - extent.left - length) <= std::abs(extent.right - extent.left - width);
        across(tape(lies ? section.length : section.width));
        upwards(tape(lies ? section.width : section.length));
        break;
    }
    case SectionShape::triangle:
        across(tape(section.length));
        upwards(tape(section.width));
        break;
    case SectionShape::trapezoid:
        along(length, tape(section.length), true);
        if (section.secondLength && section.secondLength->sixteenths() > 0 && section.secondLength != section.length)
            along(section.secondLength->feet(), tape(section.secondLength), true);
        upwards(tape(section.width));
        break;
    case SectionShape::circle: across(tape(section.length) + " across"); break;
    case SectionShape::circularSegment:
        along(length, tape(section.length), true);
        upwards(tape(section.width));
        break;
    case SectionShape::circularSector:
        along(length, tape(section.length), false);
        shape.captions.push_back("Arc " + tape(section.width));
        break;
    case SectionShape::polygon:
        for (std::size_t i = 0; i < shape.outline.size(); ++i) {
            const auto& from = shape.outline[i];
            const auto& to = shape.outline[(i + 1) % shape.outline.size()];
            if (distance(from, to) > 0) shape.dimensions.push_back({from, to, lengthText(distance(from, to)), false});
        }
        break;
    case SectionShape::thickenedEdge:
    case SectionShape::footing:
    case SectionShape::pier: break;
    }
}

void addJoints(PlanShape& shape, const TakeoffSection& section)
{
    const auto joints = planJoints(section);
    if (!joints) return;
    const auto extent = extentOf(shape.outline);
    const bool lies = std::abs(extent.right - extent.left - section.length->feet()) <= std::abs(extent.right - extent.left - section.width->feet());
    const int columns = lies ? joints->panelsLong : joints->panelsWide;
    const int rows = lies ? joints->panelsWide : joints->panelsLong;
    for (int i = 1; i < columns; ++i) {
        const double x = extent.left + (extent.right - extent.left) * i / columns;
        shape.joints.push_back({{x, extent.low}, {x, extent.high}});
    }
    for (int i = 1; i < rows; ++i) {
        const double y = extent.low + (extent.high - extent.low) * i / rows;
        shape.joints.push_back({{extent.left, y}, {extent.right, y}});
    }
}

}

std::string sizeText(const TakeoffSection& section)
{
    std::string text = section.count > 1 ? std::to_string(section.count) + " pieces, each " : std::string{};
    const auto length = tape(section.length), width = tape(section.width);
    switch (section.shape) {
    case SectionShape::rectangle: return text + length + " \u00d7 " + width;
    case SectionShape::triangle: return text + "base " + length + ", height " + width;
    case SectionShape::trapezoid: return text + "sides " + length + " and " + tape(section.secondLength) + ", " + width + " apart";
    case SectionShape::circle: return text + length + " across";
    case SectionShape::circularSegment: return text + "chord " + length + ", rise " + width;
    case SectionShape::circularSector: return text + "radius " + length + ", arc " + width;
    case SectionShape::polygon: return text + "as drawn";
    case SectionShape::thickenedEdge:
    case SectionShape::footing: return text + length + " long, " + width + " wide";
    case SectionShape::pier: return text + length + " across";
    }
    return text;
}

PlanShape planShape(const TakeoffSection& section)
{
    PlanShape shape;
    shape.name = section.name;
    shape.deduct = section.deduct;
    const auto measured = measure(section);
    if (!measured.fault.empty() || measured.outline.size() < 3) return shape;
    shape.outline = measured.outline;
    const double each = std::abs(measured.areaSqft) / std::max(section.count, 1);
    std::string caption = section.count > 1 ? std::to_string(section.count) + " pieces, each " : std::string{};
    caption += shownArea(each) + " sq ft";
    if (section.deduct) caption += ", taken out";
    else if (section.thickness) caption += ", " + tape(section.thickness) + " thick";
    shape.captions.push_back(std::move(caption));
    addDimensions(shape, section);
    if (!section.deduct) addJoints(shape, section);
    return shape;
}

PaperPlan planOf(const std::vector<const TakeoffSection*>& sections)
{
    PaperPlan plan;
    for (const auto* section : sections)
        if (auto shape = planShape(*section); !shape.outline.empty()) plan.shapes.push_back(std::move(shape));
    return plan;
}

}
