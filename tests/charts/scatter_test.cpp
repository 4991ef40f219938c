#include "charts/chart_look.h"

#include "scatter.h"

#include "bars.h"

#include <catch2/catch.hpp>

using namespace strikeoff;
using test::chartStyle;
using test::drawn;
using test::pixelsOf;

namespace {

ScatterPlot bids()
{
    ScatterPlot plot;
    plot.name = "Bids against results";
    plot.xAxis = "bid, $";
    plot.yAxis = "cost, $";
    plot.kind = RecordKind::job;
    plot.groups = {"Driveway", "Steps"};
    plot.points = {{9000, 9900, 3, 0}, {2000, 1800, 1, 1}, {4000, 4400, 2, 0}};
    plot.diagonal = true;
    plot.above = "cost more than bid";
    plot.below = "cost less than bid";
    plot.tip = [](std::size_t i) { return QStringLiteral("job %1").arg(i); };
    return plot;
}

const QRectF area{0, 0, 640, 480};

}

TEST_CASE("bids against results have the same axis both ways, from zero", "[charts]")
{
    CHECK(rangeAcross(bids()) == rangeUp(bids()));
    CHECK(rangeAcross(bids()).first == 0);
    CHECK(rangeAcross(bids()).second >= 9900);
}

TEST_CASE("points are stepped through from left to right, and each opens its own record", "[charts]")
{
    const auto chart = chartOf(bids());
    REQUIRE(chart.stopRows == std::vector<std::size_t>{3});
    for (std::size_t i = 0; i < 3; ++i) {
        const auto stop = chart.stop(0, i, area, chartStyle());
        CHECK(stop.id == static_cast<std::int64_t>(i + 1));
        CHECK(stop.kind == RecordKind::job);
        const auto there = chart.stopAt(stop.place.center(), area, chartStyle());
        REQUIRE(there);
        CHECK(there->id == stop.id);
    }
    CHECK(chart.stop(0, 0, area, chartStyle()).tip.contains("job 1"));
    CHECK(chart.stop(0, 0, area, chartStyle()).tip.contains("1,800.00"));
    CHECK_FALSE(chart.stopAt({area.right() - 30, area.bottom() - 90}, area, chartStyle()));
}

TEST_CASE("a point over the diagonal cost more than it was bid", "[charts]")
{
    const auto chart = chartOf(bids());
    const auto more = chart.stop(0, 1, area, chartStyle()).place.center();
    auto same = bids();
    same.points[2].y = 4000;
    const auto even = chartOf(same).stop(0, 1, area, chartStyle()).place.center();
    CHECK(more.y() < even.y());
    CHECK(more.x() == Approx(even.x()));
}

TEST_CASE("slices of an axis are joined by a line only from three on", "[charts]")
{
    ScatterPlot plot;
    plot.xAxis = "\u00b0F";
    plot.yAxis = "ft\u00b2";
    for (int i = 0; i < 20; ++i) plot.points.push_back({40.0 + i, 30.0 + i % 3, i, 0});
    plot.middle = "median";
    plot.slices = {{42, 31.0, 30.0, 32.0, 5}, {57, 31.0, 30.0, 32.0, 5}};
    const auto inked = [&] {
        const auto image = drawn({640, 480}, lightPalette(), [&](QPainter& painter) { paintScatter(painter, area, plot, chartStyle()); });
        return pixelsOf(image, image.rect(), lightPalette().series[1]);
    };
    const int two = inked();
    plot.slices.push_back({50, 31.0, 30.0, 32.0, 5});
    std::ranges::sort(plot.slices, {}, &ScatterSlice::x);
    CHECK(inked() > two + 300);
}

TEST_CASE("a bar shows what it is a part of, and the numbers behind bars are theirs", "[charts]")
{
    BarPlot plot{"Leads to paid", "leads", {{"Leads", 60, "60", {}, 0}, {"Quoted", 48, "48 of 60", "2 days", 60}}, {{"step", true}, {"leads"}}, {{"Leads", "60"}, {"Quoted", "48"}}};
    const auto chart = chartOf(plot);
    const QRectF place{0, 0, 600, chart.heightFor(600, chartStyle())};
    const auto inked = [&](const BarPlot& bars) {
        const auto image = drawn(place.size().toSize(), lightPalette(), [&](QPainter& painter) { paintBars(painter, place, bars.bars, bars.axis, chartStyle()); });
        return pixelsOf(image, chart.stop(1, 0, place, chartStyle()).place.toRect(), lightPalette().quiet, 20);
    };
    auto without = plot;
    without.bars[1].whole = 0;
    CHECK(inked(plot) > inked(without) + 20);
    CHECK(chart.numbers().rows[1] == QStringList{"Quoted", "48"});
    plot.columns.clear();
    CHECK(chartOf(plot).numbers().rows[1] == QStringList{"Quoted", "48"});
}
