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
