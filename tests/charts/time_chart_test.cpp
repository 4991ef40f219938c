#include "charts/chart_look.h"

#include "marks.h"
#include "time_axis.h"
#include "time_chart.h"
#include "time_frame.h"

#include <catch2/catch.hpp>

#include <limits>
#include <set>

using namespace strikeoff;
using test::chartStyle;
using test::drawn;
using test::pixelsOf;

namespace {

Date day(const char* iso) { return *Date::parse(iso); }

TimePanel prices(int months)
{
    TimePanel panel;
    panel.axis = "Delivered price, $ per yd\u00b3";
    panel.one = "ticket";
    panel.counted = "tickets";
    panel.kind = RecordKind::ticket;
    panel.middle = "median of the month";
    panel.spread = "middle half";
    for (int i = 0; i < months; ++i) {
        const auto month = monthsOn(day("2025-01-01"), i);
        for (int j = 0; j < 5; ++j) panel.points.push_back({month + 4 * j, 170.0 + i + j, 100 * i + j});
        panel.months.push_back({month, 172.0 + i, 171.0 + i, 173.0 + i, 5});
    }
    return panel;
}

const QRectF area{0, 0, 900, 300};

}

TEST_CASE("a line joins three months that follow each other, never two, and never over a gap", "[charts]")
{
    auto months = prices(7).months;
    CHECK(runsOf(months).size() == 1);
    months[3].middle.reset();
    auto runs = runsOf(months);
    REQUIRE(runs.size() == 2);
    CHECK(runs[0].size() == 3);
    months.erase(months.begin() + 3, months.begin() + 5);  // what is left of the second run is two months
    runs = runsOf(months);
    REQUIRE(runs.size() == 1);
    CHECK(runs[0].back().month == day("2025-03-01"));
    CHECK(runsOf({months.begin(), months.begin() + 2}).empty());
}

TEST_CASE("a few odd tickets do not stretch the axis of a price, and still stand at its edge and open", "[charts]")
{
    TimeChart chart{"Price", {prices(24)}, false};
    auto& panel = chart.panels[0];
    panel.points[30].value = 900;
    const auto [low, high] = rangeOf(panel);
    CHECK(low > 150);
    CHECK(high < 230);
    const auto frame = frameOf(area, chart, chartStyle());
    const QPointF edge{frame.axis.x(panel.points[30].day), frame.panels[0].plot.top()};
    const auto stop = chartOf(chart).stopAt(edge, area, chartStyle());
    REQUIRE(stop);
    CHECK(stop->kind == RecordKind::ticket);
    CHECK(stop->id == panel.points[30].id);
    CHECK(stop->tip.contains("900.00"));
}

TEST_CASE("every point, month and marked day of a time chart can be stepped to and lies inside the chart", "[charts]")
{
    TimeChart time{"Price", {prices(14), prices(14)}, false};
    time.panels[0].marks = {{day("2025-03-10"), "Sheet of March", RecordKind::priceSheet, 77}};
    time.panels[0].ahead = {{day("2026-03-01"), 190, 185, 195, 0}};
    time.panels[0].expected = "expected, 80 %";
    const auto chart = chartOf(time);
    CHECK(chart.stopRows == std::vector<std::size_t>{14, 1, 1, 70, 14, 70});
    for (const double width : {640.0, 900.0, 1880.0})
        for (std::size_t row = 0; row < chart.stopRows.size(); ++row)
            for (std::size_t i = 0; i < chart.stopRows[row]; ++i) {
                const auto stop = chart.stop(row, i, {0, 0, width, 500}, chartStyle());
                INFO(width << " " << row << " " << i);
                CHECK(QRectF(-10, -10, width + 20, 520).contains(stop.place));
                CHECK_FALSE(stop.tip.isEmpty());
            }
    const QRectF place{0, 0, 900, 500};
    const auto mark = chart.stop(2, 0, place, chartStyle());
    const auto there = chart.stopAt(mark.place.center(), place, chartStyle());
    REQUIRE(there);
    CHECK(there->kind == RecordKind::priceSheet);
    CHECK(there->id == 77);
}

TEST_CASE("panels of a time chart stand over the same months, with what is to come after the last", "[charts]")
{
    TimeChart time{"Price and pace", {prices(14), prices(6)}, false};
    time.panels[0].ahead = {{day("2026-03-01"), 190, 185, 195, 0}, {day("2026-04-01"), 190, 180, 200, 0}};
    const auto frame = frameOf({0, 0, 900, 500}, time, chartStyle());
    CHECK(frame.panels[0].plot.left() == frame.panels[1].plot.left());
    CHECK(frame.panels[0].plot.right() == frame.panels[1].plot.right());
    CHECK(frame.panels[0].place.bottom() <= frame.panels[1].place.top());
    CHECK(frame.axis.from == day("2025-01-01"));
    CHECK(frame.axis.to == day("2026-04-30"));
}

TEST_CASE("labels of months never touch, and each January is among them", "[charts]")
{
    for (const int count : {3, 14, 60, 240})
        for (const double width : {300.0, 620.0, 1800.0}) {
            std::vector<Date> months;
            for (int i = 0; i < count; ++i) months.push_back(monthsOn(day("2006-11-01"), i));
            const auto labelled = labelledMonths(months, width, 55);
            REQUIRE_FALSE(labelled.empty());
            INFO(count << " months in " << width);
            for (std::size_t i = 1; i < labelled.size(); ++i) CHECK(static_cast<double>(labelled[i] - labelled[i - 1]) * width / count >= 55);
        }
    CHECK(monthLabel(day("2026-01-01")) == QString::fromUtf8("Jan \u201926"));
    CHECK(monthLabel(day("2026-04-01")) == "Apr");
}

TEST_CASE("a running line takes the place of the one through months, and breaks where nothing was poured for long", "[charts]")
{
    std::vector<TimePoint> line;
    for (int i = 0; i < 8; ++i) line.push_back({day("2025-01-05") + 20 * i + (i >= 4 ? 150 : 0), 40.0 + i, i});
    CHECK(stretchesOf(line).size() == 2);
    line.pop_back();
    line.pop_back();  // two points are left behind the gap
    CHECK(stretchesOf(line).size() == 1);
    TimeChart time{"Pace", {prices(14)}, false};
    const auto image = [&] { return drawn({900, 300}, lightPalette(), [&](QPainter& painter) { paintTime(painter, area, time, chartStyle()); }); };
    const auto without = image();
    time.panels[0].runningLine = line;
    time.panels[0].running = "running median";
    CHECK(image() != without);
}

TEST_CASE("a point set aside is hollow", "[charts]")
{
    TimeChart time{"Price", {{}}, false};
    for (int i = 0; i < 3; ++i) time.panels[0].points.push_back({day("2026-01-10") + 30 * i, 100.0 + 10 * i, i});
    const auto centerOf = [&] {
        const auto frame = frameOf(area, time, chartStyle());
        const auto at = frame.at(0, time.panels[0].points[1].day, time.panels[0].points[1].value).toPoint();
        const auto image = drawn({900, 300}, lightPalette(), [&](QPainter& painter) { paintTime(painter, area, time, chartStyle()); });
        return pixelsOf(image, {at.x(), at.y(), 1, 1}, lightPalette().sheet, 20);
    };
    CHECK(centerOf() == 0);
    time.panels[0].points[1].aside = true;
    CHECK(centerOf() == 1);
}

TEST_CASE("a hundred thousand tickets are drawn as their density, and a lone one among them still shows", "[charts]")
{
    const QRectF plot{0, 0, 800, 200};
    CHECK(areDense(100'000, plot));
    CHECK_FALSE(areDense(200, plot));
    std::vector<QPointF> points(100'000, {100, 100});
    points.push_back({700, 50});
    const auto image = drawn({800, 200}, lightPalette(), [&](QPainter& painter) { paintPoints(painter, plot, points, PointMark::circle, lightPalette().series[0], chartStyle()); });
    CHECK(pixelsOf(image, {98, 98, 5, 5}, lightPalette().series[0]) >= 4);
    CHECK(pixelsOf(image, {696, 46, 9, 9}, lightPalette().sheet) < 81);
    CHECK(pixelsOf(image, {300, 20, 300, 160}, lightPalette().sheet) == 300 * 160);
}

TEST_CASE("series are told apart by their marks as well as by colour", "[charts]")
{
    std::set<PointMark> marks;
    for (std::size_t i = 0; i < 4; ++i) marks.insert(markOf(i));
    CHECK(marks.size() == 4);
    const QRectF plot{0, 0, 40, 40};
    std::vector<QImage> images;
    for (std::size_t i = 0; i < 4; ++i) {
        images.push_back(drawn({40, 40}, lightPalette(), [&](QPainter& painter) { paintMark(painter, markOf(i), {20, 20}, 8, Qt::black, false, chartStyle()); }));
        for (std::size_t j = 0; j < i; ++j) CHECK(images[i] != images[j]);
    }
}

TEST_CASE("the numbers behind a time chart hold every month and every point with its day", "[charts]")
{
    TimeChart time{"Price", {prices(3)}, false};
    time.panels[0].months[1].middle.reset();
    time.panels[0].ahead = {{day("2025-04-01"), 190, 185, 195, 0}};
    time.panels[0].tip = [](std::size_t i) { return QStringLiteral("ticket %1\nand more").arg(i); };
    const auto numbers = chartOf(time).numbers();
    REQUIRE(numbers.rows.size() == 3 + 1 + 15);
    for (const auto& row : numbers.rows) CHECK(static_cast<std::size_t>(row.size()) == numbers.columns.size());
    CHECK(numbers.rows[0].contains("2025-01-01"));
    CHECK(numbers.rows[0].contains("172"));
    CHECK(numbers.rows[1][3].isEmpty());
    CHECK(numbers.rows[4] == QStringList{QString::fromUtf8("Delivered price, $ per yd\u00b3"), "ticket", "2025-01-01", "170", "", "", "", "ticket 0"});
}

TEST_CASE("a time chart with nothing in it says so and does not fall over", "[charts]")
{
    TimeChart time{"Price", {{}}, false};
    time.panels[0].axis = "Price, $";
    const auto image = drawn({900, 300}, lightPalette(), [&](QPainter& painter) { paintTime(painter, area, time, chartStyle()); });
    CHECK(pixelsOf(image, image.rect(), lightPalette().quiet, 40) > 20);
    CHECK_FALSE(chartOf(time).stopAt({450, 150}, area, chartStyle()));
    time.panels[0].points = {{day("2026-01-01"), std::numeric_limits<double>::quiet_NaN(), 1}};
    const auto [low, high] = rangeOf(time.panels[0]);
    CHECK(low < high);
}

TEST_CASE("the band of the spread does not reach over months that have none", "[charts]")
{
    TimeChart time{"Price", {prices(9)}, false};
    time.panels[0].points.clear();
    time.panels[0].months[4].low.reset();
    time.panels[0].months[4].high.reset();
    for (auto& month : time.panels[0].months) month.middle.reset();
    const auto frame = frameOf(area, time, chartStyle());
    const auto image = drawn({900, 300}, lightPalette(), [&](QPainter& painter) { paintTime(painter, area, time, chartStyle()); });
    const auto bare = [&](int month) {
        const auto at = frame.atMonth(0, time.panels[0].months[static_cast<std::size_t>(month)].month, 172.0 + month).toPoint();
        return QColor{image.pixel(at)}.blue() - QColor{image.pixel(at)}.red() < 10;  // no blue of the series in it
    };
    CHECK_FALSE(bare(2));
    CHECK(bare(4));
    CHECK_FALSE(bare(6));
}
