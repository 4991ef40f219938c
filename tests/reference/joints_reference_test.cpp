#include "domain/takeoff/sections.h"

#include <catch2/catch.hpp>

#include <array>

using namespace strikeoff;

namespace {

JointPlan planFor(std::string_view length, std::string_view width, std::string_view thickness, std::string_view spacing = {})
{
    auto slab = sectionOf(SectionShape::rectangle, length, width, thickness);
    slab.jointSpacing = tape(spacing);
    return planJoints(slab).value();
}

}

TEST_CASE("J1 and J2 spacing by thickness", "[reference][joints]")
{
    // Source: ACI 302.1R-96, 24 to 36 times the thickness and at most 18 ft; PCA table in Masonry and Concrete, figure 2-15, which prints
    // 24 t, 30 t and 36 t for 4, 5 and 6 in (12.5 as 13).
    struct Row {
        const char* thickness;
        double least, middle, most;
    };
    for (const auto& row : {Row{"4\"", 8, 10, 12}, Row{"5\"", 10, 12.5, 15}, Row{"6\"", 12, 15, 18}}) {
        INFO(row.thickness);
        const auto plan = planFor("60'", "60'", row.thickness);
        CHECK(plan.leastSpacingFt == row.least);
        CHECK((plan.leastSpacingFt + plan.mostSpacingFt) / 2 == row.middle);
        CHECK(plan.mostSpacingFt == row.most);
        CHECK(plan.panelLengthFt <= row.most);
    }
    CHECK(planFor("60'", "60'", "8\"").mostSpacingFt == 18);
}

TEST_CASE("J3 spacing of residential slabs is what the section says", "[reference][joints]")
{
    // From memory, after a quotation of ACI 332: 3.5 in 8 ft; 4 and 4.5 in 10 ft; 5 and 5.5 in 12 ft; 6 in and over 15 ft. All of them lie
    // within the range by thickness.
    const std::array<std::array<const char*, 2>, 6> rows{{{"3-1/2\"", "8'"}, {"4\"", "10'"}, {"4-1/2\"", "10'"}, {"5\"", "12'"}, {"5-1/2\"", "12'"}, {"6\"", "15'"}}};
    for (const auto& [thickness, spacing] : rows) {
        INFO(thickness);
        const auto plan = planFor("120'", "120'", thickness, spacing);
        CHECK(plan.remarks.empty());
        CHECK(plan.panelLengthFt == tape(spacing)->feet());
    }
}

TEST_CASE("J4 panels no longer than one and a half times their width", "[reference][joints]")
{
    // Source: ACI 302.1R-80, 2.3.2. A 20 by 30 ft slab of 4 in needs at least 2 by 3 panels of 10 by 10; a 4 ft walk has at most 6 ft
    // between joints.
    const auto slab = planFor("30'", "20'", "4\"");
    CHECK(slab.panelsLong == 3);
    CHECK(slab.panelsWide == 2);
    CHECK(slab.panelLengthFt == 10);
    CHECK(slab.panelWidthFt == 10);
    const auto walk = planFor("60'", "4'", "4\"");
    CHECK(walk.panelLengthFt == 6);
    CHECK(walk.panelsWide == 1);
}

TEST_CASE("J5 and J9 depth of a joint", "[reference][joints]")
{
    // Source: ACI 327R-14, a quarter of the thickness; the least of 1 in is UFGS 03300N, 3.8.3.
    CHECK(planFor("60'", "60'", "6\"").depthIn == 1.5);
    CHECK(planFor("60'", "60'", "4\"").depthIn == 1);
    CHECK(planFor("60'", "60'", "3-1/2\"").depthIn == 1);
    CHECK(planFor("60'", "60'", "5\"").depthIn == 1.25);
    // J9, same guide: walks of 4 in, contraction joints every 5 ft.
    const auto walk = planFor("50'", "5'", "4\"", "5'");
    CHECK(walk.panelsLong == 10);
    CHECK(walk.jointFt == 9 * 5);
    CHECK(walk.depthIn == 1);
    CHECK(walk.remarks.empty());
}
