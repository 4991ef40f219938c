#include "charts/chart_look.h"

#include "interval_plot.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace strikeoff;
using test::chartStyle;
using test::drawn;
using test::pixelsOf;

namespace {

IntervalPlot sample()
{
    IntervalPlot plot;
    plot.name = "Gross profit by job type";
    plot.axis = "gross profit, $ per crew-hour";
    plot.estimated = "estimate";
    plot.interval = "80 % interval";
    plot.raw = "as it came out";
    plot.countedOne = "job";
    plot.counted = "jobs";
    plot.rows = {{"Driveway", 64, 61, 48, 74, 22, "$61", {}, RecordKind::jobType, 7}, {"Sidewalk", 30, 33, 25, 41, 15, "$33", {}, RecordKind::jobType, 8},
                 {"Steps", 90, 52, 20, 84, 2, "$52", {}, RecordKind::jobType, 9}};
    plot.references = {{18.5, "overhead $18.50"}};
    return plot;
}

QRect rowOf(const Chart& chart, std::size_t row, const QRectF& area) { return chart.stop(row, 0, area, chartStyle()).place.toAlignedRect(); }

}

TEST_CASE("an interval plot covers zero, its estimates and references, and is not pressed into a corner by one row that knows nothing", "[charts]")
{
    auto plot = sample();
    auto [low, high] = rangeOf(plot);
    CHECK(low == Approx(0));
    CHECK(high == Approx(90));
    plot.rows.push_back({"Curb", -4000, 40, -9000, 9000, 1, {}, {}});
    std::tie(low, high) = rangeOf(plot);
    CHECK(high - low < 3 * 61);
    CHECK(low < 0);
    plot.rows = {{"Curb", {}, {}, {}, {}, 0, {}, {}}};
    plot.references.clear();
    std::tie(low, high) = rangeOf(plot);
    CHECK(high > low);
}

TEST_CASE("a row that rests on one or two records looks so: hollow mark, dashed interval", "[charts]")
{
    const auto chart = chartOf(sample());
    const QRectF area{0, 0, 900, heightOfIntervals(sample(), 900, chartStyle())};
    const auto image = drawn(area.size().toSize(), lightPalette(), [&](QPainter& painter) { chart.paint(painter, area, chartStyle()); });
    // Along the line of a row, from the first pixel of the interval to the last: how much of the bare sheet shows.
    const auto bare = [&](std::size_t row) {
        const auto place = rowOf(chart, row, area);
        int most = 0;
        for (int y = place.top(); y <= place.bottom(); ++y) {
            int first = -1, last = -1, sheet = 0, run = 0;
            for (int x = place.left(); x <= place.right(); ++x) {
                const QRect pixel{x, y, 1, 1};
                if (pixelsOf(image, pixel, lightPalette().series[1]) == 1) {
                    if (first < 0) first = x;
                    else sheet += run;
                    last = x;
                    run = 0;
                } else if (first >= 0 && pixelsOf(image, pixel, lightPalette().sheet) == 1) ++run;
            }
            if (last - first > 60) most = std::max(most, sheet);
        }
        return most;
    };
    CHECK(bare(0) <= 12);  // at most the inside of the ring of the raw value
    CHECK(bare(2) > 40);
}

TEST_CASE("every row of an interval plot can be pointed at and opens its record", "[charts]")
{
    const auto chart = chartOf(sample());
    for (const double width : {620.0, 900.0, 1400.0}) {
        const QRectF area{0, 0, width, chart.heightFor(width, chartStyle())};
        for (std::size_t i = 0; i < 3; ++i) {
            const auto stop = chart.stop(i, 0, area, chartStyle());
            INFO(width << " " << i);
            CHECK(area.contains(stop.place));
            const auto there = chart.stopAt(stop.place.center(), area, chartStyle());
            REQUIRE(there);
            CHECK(there->kind == RecordKind::jobType);
            CHECK(there->id == static_cast<std::int64_t>(7 + i));
        }
        CHECK_FALSE(chart.stopAt({width / 2, 1}, area, chartStyle()));
    }
    CHECK(chart.stop(0, 0, {0, 0, 900, 300}, chartStyle()).tip.contains("22 jobs"));
    CHECK(chart.stop(0, 0, {0, 0, 900, 300}, chartStyle()).tip.contains("48.00 to 74.00"));
}

TEST_CASE("the numbers behind an interval plot are all of its rows and references, plain", "[charts]")
{
    auto plot = sample();
    plot.rows[1].raw.reset();
    const auto numbers = chartOf(plot).numbers();
    REQUIRE(numbers.columns.size() == 6);
    REQUIRE(numbers.rows.size() == 4);
    CHECK(numbers.rows[0] == QStringList{"Driveway", "22", "64", "61", "48", "74"});
    CHECK(numbers.rows[1][2].isEmpty());  // not recorded is not zero
    CHECK(numbers.rows[3] == QStringList{"overhead $18.50", "", "", "18.5", "", ""});
}

TEST_CASE("an interval plot without rows, or with figures that are no numbers, is drawn without a fault", "[charts]")
{
    IntervalPlot none;
    const auto blank = drawn({300, 100}, lightPalette(), [&](QPainter& painter) { paintIntervals(painter, {0, 0, 300, 100}, none, chartStyle()); });
    CHECK(pixelsOf(blank, blank.rect(), lightPalette().sheet, 0) == 300 * 100);
    auto plot = sample();
    plot.rows[0].raw = std::numeric_limits<double>::quiet_NaN();
    plot.rows[0].high = std::numeric_limits<double>::infinity();
    const auto [low, high] = rangeOf(plot);
    CHECK(std::isfinite(low));
    CHECK(std::isfinite(high));
    CHECK(chartOf(plot).numbers().rows[0][5].isEmpty());
}

TEST_CASE("a chart's file is called after it in plain letters", "[charts]")
{
    CHECK(fileNameOf("Delivered price, $ per yd\u00b3") == "delivered-price-per-yd");
    CHECK(fileNameOf("\u00b3") == "chart");
    CHECK(plainNumber(-0.001) == "0");
    CHECK(plainNumber(12.50) == "12.5");
    CHECK(plainNumber(std::nullopt).isEmpty());
}
