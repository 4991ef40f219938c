#include "domain/takeoff/sections.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using namespace strikeoff;

namespace {

std::string faultOf(std::string points) { return measure(polygonOf(std::move(points))).fault; }

std::string textOf(const std::vector<Corner>& corners)
{
    std::string text;
    for (const auto& corner : corners) text += formatDecimal(corner.x, 4, 0) + ' ' + formatDecimal(corner.y, 4, 0) + ';';
    return text;
}

}

TEST_CASE("a polygon is measured from its corners, whichever way round they go", "[takeoff]")
{
    const auto patio = measure(polygonOf("0 0; 12 0; 12 8.5; 5 8.5; 5 14; 0 14"));
    CHECK(patio.fault.empty());
    CHECK(patio.areaSqft == 12 * 8.5 + 5 * 5.5);
    CHECK(patio.perimeterFt == 52);
    CHECK(patio.outline.size() == 6);
    const auto clockwise = measure(polygonOf("0 14; 5 14; 5 8.5; 12 8.5; 12 0; 0 0"));
    CHECK(clockwise.areaSqft == patio.areaSqft);
    CHECK(clockwise.perimeterFt == patio.perimeterFt);
    // Both are drawn anticlockwise: from the bottom left corner along the 12 ft side.
    for (const auto& outline : {patio.outline, clockwise.outline}) {
        const auto start = std::find_if(outline.begin(), outline.end(), [](const Point& p) { return p.x == 0 && p.y == 0; });
        REQUIRE(start != outline.end());
        const auto& next = std::next(start) == outline.end() ? outline.front() : *std::next(start);
        CHECK(next.x == 12);
        CHECK(next.y == 0);
    }
    CHECK(measure(polygonOf("-3 -4; 3 -4; 3 4; -3 4")).areaSqft == 48);
}

TEST_CASE("the first corner again at the end, and a corner written twice, change nothing", "[takeoff]")
{
    CHECK(measure(polygonOf("0 0; 10 0; 10 10; 0 10; 0 0")).areaSqft == 100);
    CHECK(measure(polygonOf("0 0; 10 0; 10 0; 10 10; 0 10;")).areaSqft == 100);
    CHECK(measure(polygonOf("0 0; 10 0; 10 5; 10 10; 0 10")).perimeterFt == 40);  // a corner on a straight side
}

TEST_CASE("an outline that crosses or touches itself is a fault", "[takeoff]")
{
    const std::string says = "crosses or touches itself";
    CHECK(faultOf("0 0; 10 10; 10 0; 0 10").find(says) != std::string::npos);
    CHECK(faultOf("0 0; 10 0; 10 10; 5 0; 0 10").find(says) != std::string::npos);               // a corner on another side
    CHECK(faultOf("0 0; 10 0; 5 5; 10 10; 0 10; 5 5").find(says) != std::string::npos);          // two corners in one place
    CHECK(faultOf("0 0; 10 0; 10 10; 10 15; 10 10; 0 10").find(says) != std::string::npos);      // a spike out and back
    CHECK(faultOf("0 0; 10 0; 10 10; 10 5; 0 5").find(says) != std::string::npos);               // back over its own side
    CHECK(faultOf("0 0; 4 0; 4 3; 1 -1; 0 3").find(says) != std::string::npos);
    CHECK(faultOf("0 0; 4 0; 4 3; 2 0.0001; 0 3").empty());                                      // close, but past it
}

TEST_CASE("corners that bound no area are a fault", "[takeoff]")
{
    CHECK(faultOf("0 0; 5 0; 10 0").find("in one line") != std::string::npos);
    CHECK(faultOf("0 0; 3 3; 10 10; 5 5").find("in one line") != std::string::npos);
    CHECK(faultOf("1 1; 1 1; 1 1").find("fewer than three") != std::string::npos);
    CHECK(faultOf("0 0; 5 0; 0 0").find("fewer than three") != std::string::npos);
    for (const auto* text : {"0 0; 5 0", "here; there; everywhere", "0,0; 5,0; 5,5", "0 0; 5 0; 5", "0 0;; 5 0; 5 5", ";", "1e3 0; 0 1; 1 1", "0 0; 0.00001 0; 5 5"}) {
        INFO(text);
        CHECK(faultOf(text).find("at least three") != std::string::npos);
    }
    CHECK(faultOf("0 0; 21121 0; 0 5").find("4 miles") != std::string::npos);
    CHECK(faultOf("0 0; 99999999999 0; 0 99999999999").find("4 miles") != std::string::npos);
    CHECK(faultOf("0 0; 21120 0; 0 5").empty());
}

TEST_CASE("a rectangle as a polygon has the rectangle's area, wherever it lies", "[takeoff][property]")
{
    std::mt19937 random{4711};
    std::uniform_int_distribution<std::int64_t> sixteenths{1, 100 * 192};
    std::uniform_int_distribution<std::int64_t> place{-5'000'000, 5'000'000};
    for (int i = 0; i < 2000; ++i) {
        // Lengths whose feet end within four decimals: steps of three inches.
        const auto length = TapeLength::ofSixteenths(sixteenths(random) / 48 * 48 + 48);
        const auto width = TapeLength::ofSixteenths(sixteenths(random) / 48 * 48 + 48);
        const auto units = [](TapeLength tapeLength) { return tapeLength.sixteenths() / 48 * 2500; };
        const Corner at{place(random), place(random)};
        std::vector<Corner> corners{at, {at.x + units(length), at.y}, {at.x + units(length), at.y + units(width)}, {at.x, at.y + units(width)}};
        std::rotate(corners.begin(), corners.begin() + i % 4, corners.end());
        if (i % 2 == 1) std::reverse(corners.begin(), corners.end());
        TakeoffSection rectangle = sectionOf(SectionShape::rectangle, "1'", "1'", "4\"");
        rectangle.length = length;
        rectangle.width = width;
        const auto expected = measure(rectangle);
        const auto measured = measure(polygonOf(textOf(corners)));
        INFO(textOf(corners));
        CHECK(measured.fault.empty());
        CHECK(measured.areaSqft == Approx(expected.areaSqft));
        CHECK(measured.volumeYards == Approx(expected.volumeYards));
        CHECK(measured.perimeterFt == Approx(expected.perimeterFt));
    }
}

TEST_CASE("a star-shaped outline is sound until two of its corners change places", "[takeoff][property]")
{
    std::mt19937 random{99};
    for (int round = 0; round < 300; ++round) {
        const int count = 5 + round % 20;
        std::vector<Corner> corners;
        for (int i = 0; i < count; ++i) {
            const double angle = 2 * 3.14159265358979 * i / count;
            const double radius = std::uniform_real_distribution<double>{20, 60}(random);
            corners.push_back({std::llround(radius * std::cos(angle) * 10'000), std::llround(radius * std::sin(angle) * 10'000)});
        }
        INFO(textOf(corners));
        CHECK(faultOf(textOf(corners)).empty());
        // Corners of an outline around one point swapped across it: its sides must cross.
        std::swap(corners[0], corners[static_cast<std::size_t>(count) / 2]);
        CHECK_FALSE(faultOf(textOf(corners)).empty());
    }
}
