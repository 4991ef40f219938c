#include "domain/takeoff/sections.h"

#include <catch2/catch.hpp>

#include <random>

using namespace strikeoff;

namespace {

JointPlan planFor(std::string_view length, std::string_view width, std::string_view thickness, std::string_view spacing = {})
{
    auto slab = sectionOf(SectionShape::rectangle, length, width, thickness);
    slab.jointSpacing = tape(spacing);
    return planJoints(slab).value();
}

}

TEST_CASE("a 40 by 10 slab with joints every 10 ft makes four square panels", "[takeoff][joints]")
{
    const auto plan = planFor("40'", "10'", "4\"", "10'");
    CHECK(plan.panelsLong == 4);
    CHECK(plan.panelsWide == 1);
    CHECK(plan.panelLengthFt == 10);
    CHECK(plan.panelWidthFt == 10);
    CHECK(plan.jointFt == 30);
    CHECK(plan.remarks.empty());
    const auto turned = planFor("10'", "40'", "4\"", "10'");
    CHECK(turned.panelsLong == 1);
    CHECK(turned.panelsWide == 4);
    CHECK(turned.jointFt == 30);
}

TEST_CASE("joints are counted for every piece, in feet", "[takeoff][joints]")
{
    auto slab = sectionOf(SectionShape::rectangle, "20'", "20'", "4\"");
    slab.count = 3;
    const auto plan = planJoints(slab).value();
    CHECK(plan.panelsLong == 2);
    CHECK(plan.panelsWide == 2);
    CHECK(plan.jointFt == 3 * 40);
}

TEST_CASE("a spacing outside the range for the thickness is remarked", "[takeoff][joints]")
{
    CHECK(planFor("40'", "40'", "4\"", "13'").remarks == std::vector<std::string>{"Joints 13' apart are more than 12', the most for this thickness"});
    CHECK(planFor("40'", "40'", "4\"", "7'").remarks == std::vector<std::string>{"Joints 7' apart are closer than 8', the usual least for this thickness"});
    CHECK(planFor("40'", "40'", "4\"", "12'").remarks.empty());
    CHECK(planFor("40'", "40'", "4\"", "8'").remarks.empty());
    CHECK(planFor("60'", "60'", "8\"", "18'").remarks.empty());
    CHECK(planFor("60'", "60'", "8\"", "19'").remarks.size() == 1);
}

TEST_CASE("a narrow walk gets more joints than its spacing asks for, and says why", "[takeoff][joints]")
{
    const auto walk = planFor("30'", "4'", "4\"", "10'");
    CHECK(walk.panelsLong == 5);
    CHECK(walk.panelsWide == 1);
    CHECK(walk.panelLengthFt == 6);
    REQUIRE(walk.remarks.size() == 1);
    CHECK(walk.remarks[0].find("1.5 times their width") != std::string::npos);
    // Joints every 5 ft are right for a 4 ft walk and nothing to remark on, though 24 × 4 in would be 8 ft.
    CHECK(planFor("30'", "4'", "4\"", "5'").remarks.empty());
    CHECK(planFor("30'", "4'", "4\"", "5'").panelsLong == 6);
}

TEST_CASE("there are no joints to plan for other shapes, openings and slabs without their dimensions", "[takeoff][joints]")
{
    CHECK_FALSE(planJoints(sectionOf(SectionShape::circle, "10'", "10'", "4\"")));
    CHECK_FALSE(planJoints(sectionOf(SectionShape::footing, "10'", "10'", "4\"")));
    CHECK_FALSE(planJoints(sectionOf(SectionShape::rectangle, "10'", "", "4\"")));
    CHECK_FALSE(planJoints(sectionOf(SectionShape::rectangle, "", "10'", "4\"")));
    CHECK_FALSE(planJoints(sectionOf(SectionShape::rectangle, "10'", "10'", "")));
    CHECK_FALSE(planJoints(sectionOf(SectionShape::rectangle, "10'", "0'", "4\"")));
    auto opening = sectionOf(SectionShape::rectangle, "10'", "10'", "4\"");
    opening.deduct = true;
    CHECK_FALSE(planJoints(opening));
}

TEST_CASE("no plan has a panel over the spacing or the ratio, and none has fewer panels", "[takeoff][joints][property]")
{
    std::mt19937 random{31};
    const auto between = [&](std::int64_t least, std::int64_t most) { return TapeLength::ofSixteenths(std::uniform_int_distribution<std::int64_t>{least, most}(random)); };
    for (int i = 0; i < 2000; ++i) {
        TakeoffSection slab = sectionOf(SectionShape::rectangle, "1'", "1'", "4\"");
        slab.length = between(192, 60 * 192);
        slab.width = between(192, 60 * 192);
        slab.jointSpacing = between(4 * 192, 15 * 192);
        const auto plan = planJoints(slab).value();
        INFO(slab.length->text() << " x " << slab.width->text() << " at " << slab.jointSpacing->text());
        const auto sound = [&](double along, double across) {
            const double panelLength = slab.length->feet() / along;
            const double panelWidth = slab.width->feet() / across;
            const double most = slab.jointSpacing->feet() + 1e-9;
            return panelLength <= most && panelWidth <= most && panelLength <= 1.5 * panelWidth + 1e-9 && panelWidth <= 1.5 * panelLength + 1e-9;
        };
        CHECK(sound(plan.panelsLong, plan.panelsWide));
        CHECK(plan.panelLengthFt * plan.panelsLong == Approx(slab.length->feet()));
        CHECK(plan.panelWidthFt * plan.panelsWide == Approx(slab.width->feet()));
        const int panels = plan.panelsLong * plan.panelsWide;
        bool fewer = false;
        for (int along = 1; along < panels; ++along)
            for (int across = 1; along * across < panels; ++across) fewer = fewer || sound(along, across);
        CHECK_FALSE(fewer);
    }
}
