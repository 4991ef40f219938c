#include "takeoff/takeoff.h"

#include <algorithm>

namespace strikeoff {

namespace {

// ACI 302.1R: joints 24 to 36 times the thickness apart and at most 18 ft; panels at most 1.5 times as long as wide.
constexpr std::int64_t leastSpacing = 24;
constexpr std::int64_t mostSpacing = 36;
constexpr auto widestSpacing = TapeLength::ofFeet(18);

std::int64_t dividedUp(std::int64_t a, std::int64_t b) { return (a + b - 1) / b; }

/// Panels along one side so that none is longer than 1.5 × its width, for a number of panels along the other side.
std::int64_t panelsForRatio(std::int64_t side, std::int64_t otherSide, std::int64_t otherPanels)
{
    return dividedUp(checkedMultiply(2 * otherPanels, side), 3 * otherSide);
}

}

std::optional<JointPlan> planJoints(const TakeoffSection& section)
{
    const auto given = [](const std::optional<TapeLength>& length) { return length && *length > TapeLength{}; };
    if (section.shape != SectionShape::rectangle || section.deduct || section.count < 1) return std::nullopt;
    if (!given(section.length) || !given(section.width) || !given(section.thickness)) return std::nullopt;

    const auto thickness = section.thickness->sixteenths();
    const auto least = TapeLength::ofSixteenths(checkedMultiply(thickness, leastSpacing));
    const auto most = std::min(TapeLength::ofSixteenths(checkedMultiply(thickness, mostSpacing)), widestSpacing);
    const auto spacing = given(section.jointSpacing) ? *section.jointSpacing : most;

    // Taking the fewest panels each way for the spacing and then adding along the side that is too long gives the fewest in all: more
    // panels across would only make the others narrower.
    const auto length = section.length->sixteenths();
    const auto width = section.width->sixteenths();
    const auto forSpacingLong = dividedUp(length, spacing.sixteenths());
    const auto forSpacingWide = dividedUp(width, spacing.sixteenths());
    const auto along = std::max(forSpacingLong, panelsForRatio(length, width, forSpacingWide));
    const auto across = std::max(forSpacingWide, panelsForRatio(width, length, forSpacingLong));

    JointPlan plan;
    plan.panelsLong = static_cast<int>(along);
    plan.panelsWide = static_cast<int>(across);
    plan.panelLengthFt = section.length->feet() / static_cast<double>(along);
    plan.panelWidthFt = section.width->feet() / static_cast<double>(across);
    const double crossing = static_cast<double>(along - 1) * section.width->feet();
    const double lengthwise = static_cast<double>(across - 1) * section.length->feet();
    plan.jointFt = (crossing + lengthwise) * section.count;
    plan.leastSpacingFt = least.feet();
    plan.mostSpacingFt = most.feet();
    plan.depthIn = std::max(1.0, section.thickness->inches() / 4);

    const bool narrow = 3 * std::min(length, width) < 2 * least.sixteenths();  // its panels cannot be as long as the least spacing
    const auto apart = "Joints " + spacing.text() + " apart are ";
    if (spacing > most) plan.remarks.push_back(apart + "more than " + most.text() + ", the most for this thickness");
    else if (spacing < least && !narrow) plan.remarks.push_back(apart + "closer than " + least.text() + ", the usual least for this thickness");
    if (along > forSpacingLong || across > forSpacingWide)
        plan.remarks.push_back("Joints stand closer than " + spacing.text() + ", as panels would be longer than 1.5 times their width");
    return plan;
}

}
