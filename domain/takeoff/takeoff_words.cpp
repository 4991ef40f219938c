#include "takeoff/takeoff_words.h"

#include "quantity/words.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

std::string tapeText(double feet) { return TapeLength::ofSixteenths(std::llround(feet * 192)).text(); }

/// Inches of a joint's depth: "1", "1.25".
std::string inchesText(double inches) { return Quantity::ofUnits(std::llround(inches * 1000)).text(); }

std::string wholeFeet(double feet) { return shownDecimal(std::llround(feet), 0, 0); }

}

std::string shownArea(double squareFeet)
{
    const auto area = Area::ofUnits(std::llround(squareFeet * 100));
    return area.shown(std::abs(squareFeet) < 100 && area.units() % 100 != 0 ? 1 : 0);
}

std::span<const ShapeReading> readingsOf(SectionShape shape)
{
    static constexpr std::string_view slab = "thickness of the slab", apart = "planned, joint to joint";
    static constexpr ShapeReading rectangle[] = {{"length", "long side"}, {"width", "short side"}, {"thickness", slab}, {"joint_spacing", apart}};
    static constexpr ShapeReading triangle[] = {{"length", "base"}, {"width", "height on the base"}, {"thickness", slab}};
    static constexpr ShapeReading trapezoid[] = {{"length", "one parallel side"}, {"second_length", "the other one"}, {"width", "between the two"}, {"thickness", slab}};
    static constexpr ShapeReading circle[] = {{"length", "diameter"}, {"thickness", slab}};
    static constexpr ShapeReading segment[] = {{"length", "chord"}, {"width", "rise over the chord"}, {"thickness", slab}};
    static constexpr ShapeReading sector[] = {{"length", "radius"}, {"width", "arc"}, {"thickness", slab}};
    static constexpr ShapeReading polygon[] = {{"points", "corners in feet, \"0 0; 12 0; 12 8.5\""}, {"thickness", slab}};
    static constexpr ShapeReading edge[] = {{"length", "run of the edge"}, {"width", "its flat bottom"}, {"second_length", "run of its slope"}, {"thickness", "depth under the slab"}};
    static constexpr ShapeReading footing[] = {{"length", "run"}, {"width", "width"}, {"thickness", "depth"}};
    static constexpr ShapeReading pier[] = {{"length", "diameter"}, {"thickness", "depth"}};
    switch (shape) {
    case SectionShape::rectangle: return rectangle;
    case SectionShape::triangle: return triangle;
    case SectionShape::trapezoid: return trapezoid;
    case SectionShape::circle: return circle;
    case SectionShape::circularSegment: return segment;
    case SectionShape::circularSector: return sector;
    case SectionShape::polygon: return polygon;
    case SectionShape::thickenedEdge: return edge;
    case SectionShape::footing: return footing;
    case SectionShape::pier: return pier;
    }
    return {};
}

TakeoffJoints jointsOf(std::span<const TakeoffSection* const> sections)
{
    TakeoffJoints joints;
    for (const auto* section : sections) {
        const auto plan = planJoints(*section);
        if (!plan) continue;
        joints.feet += plan->jointFt;
        if (plan->jointFt > 0) joints.depthIn = std::max(joints.depthIn, plan->depthIn);
        for (const auto& remark : plan->remarks) joints.remarks.push_back(section->name.empty() ? remark : section->name + ": " + remark);
    }
    return joints;
}

std::vector<TakeoffFigure> takeoffFigures(const Takeoff& takeoff, const TakeoffJoints& joints, const Settings& settings)
{
    std::vector<TakeoffFigure> figures;
    if (takeoff.areaSqft > 0) figures.push_back({"Area", shownArea(takeoff.areaSqft) + " sq ft"});
    if (takeoff.volumeYards > 0) figures.push_back({"Concrete", Yards::ofUnits(std::llround(takeoff.volumeYards * 1000)).shown(2) + " yd\u00b3"});
    if (takeoff.ordered > Yards{}) {
        figures.push_back({"Order", takeoff.ordered.shown(2) + " yd\u00b3, with " + takeoff.allowance.text() + "% over"});
        const auto loads = loadsFor(takeoff.ordered, settings.truckYards, settings.orderStep);
        figures.push_back({"Loads", counted(static_cast<std::int64_t>(loads.size()), "load", "loads") + (loads.size() > 1 ? ", the last " + loads.back().shown(2) + " yd\u00b3" : "")});
    }
    if (joints.feet > 0) figures.push_back({"Joints", wholeFeet(joints.feet) + " ft, " + inchesText(joints.depthIn) + " in deep"});
    return figures;
}

std::string panelsText(const JointPlan& plan)
{
    const int panels = plan.panelsLong * plan.panelsWide;
    if (panels == 1) return "one panel, no joint";
    return std::to_string(panels) + " panels, each " + tapeText(plan.panelLengthFt) + " \u00d7 " + tapeText(plan.panelWidthFt) + "; " + wholeFeet(plan.jointFt) + " ft of joint, "
        + inchesText(plan.depthIn) + " in deep";
}

}
