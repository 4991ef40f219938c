#include "takeoff/takeoff_words.h"

#include "domain/takeoff/sections.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

std::string figure(const std::vector<TakeoffFigure>& figures, std::string_view label)
{
    for (const auto& each : figures)
        if (each.label == label) return each.figure;
    return {};
}

}

TEST_CASE("a takeoff says area, concrete, order, loads and joints with their units", "[takeoff]")
{
    // A slab 40 ft by 10 ft at 4 in with joints every 10 ft (common practice, no source).
    auto slab = sectionOf(SectionShape::rectangle, "40'", "10'", "4\"");
    slab.jointSpacing = tape("10'");
    const std::vector<const TakeoffSection*> sections{&slab};
    const auto figures = takeoffFigures(takeoffOf(Book{}, {}, sections), jointsOf(sections), Settings{});
    CHECK(figure(figures, "Area") == "400 sq ft");
    CHECK(figure(figures, "Concrete") == "4.94 yd\u00b3");
    CHECK(figure(figures, "Order") == "5.25 yd\u00b3, with 5% over");
    CHECK(figure(figures, "Loads") == "one load");
    CHECK(figure(figures, "Joints") == "30 ft, 1 in deep");
    CHECK(panelsText(*planJoints(slab)) == "4 panels, each 10' \u00d7 10'; 30 ft of joint, 1 in deep");
}

TEST_CASE("what a takeoff has not is not said", "[takeoff]")
{
    CHECK(takeoffFigures(takeoffOf(Book{}, {}, {}), jointsOf({}), Settings{}).empty());
    const auto pier = sectionOf(SectionShape::pier, "1'", "", "4'");
    const std::vector<const TakeoffSection*> sections{&pier};
    const auto figures = takeoffFigures(takeoffOf(Book{}, {}, sections), jointsOf(sections), Settings{});
    CHECK(figure(figures, "Area").empty());
    CHECK(figure(figures, "Joints").empty());
    CHECK_FALSE(figure(figures, "Order").empty());
    CHECK(panelsText(*planJoints(sectionOf(SectionShape::rectangle, "8'", "8'", "4\""))) == "one panel, no joint");
}

TEST_CASE("joints too far apart are remarked under the section's name", "[takeoff][joints]")
{
    auto slab = sectionOf(SectionShape::rectangle, "40'", "40'", "4\"");
    slab.name = "Drive";
    slab.jointSpacing = tape("13'");
    const std::vector<const TakeoffSection*> sections{&slab};
    CHECK(jointsOf(sections).remarks == std::vector<std::string>{"Drive: Joints 13' apart are more than 12', the most for this thickness"});
}

TEST_CASE("a shape asks for exactly the readings it cannot be measured without", "[takeoff]")
{
    for (int i = 0; i <= static_cast<int>(SectionShape::pier); ++i) {
        const auto shape = static_cast<SectionShape>(i);
        TakeoffSection whole;
        whole.shape = shape;
        const auto set = [](TakeoffSection& section, std::string_view field, bool given) {
            const auto length = given ? tape("6'") : std::optional<TapeLength>{};
            if (field == "length") section.length = length;
            else if (field == "width") section.width = given ? tape("2'") : std::optional<TapeLength>{};
            else if (field == "second_length") section.secondLength = length;
            else if (field == "thickness") section.thickness = length;
            else if (field == "points") section.points = given ? "0 0; 12 0; 12 8.5" : "";
        };
        for (const auto& reading : readingsOf(shape)) set(whole, reading.field, true);
        INFO(labelOf(shape));
        CHECK(measure(whole).fault.empty());
        for (const auto& reading : readingsOf(shape)) {
            if (reading.field == "joint_spacing") continue;                                        // planned without it, too
            if (shape == SectionShape::thickenedEdge && reading.field == "second_length") continue;  // no slope
            auto without = whole;
            set(without, reading.field, false);
            INFO(reading.field);
            CHECK_FALSE(measure(without).fault.empty());
        }
    }
}
