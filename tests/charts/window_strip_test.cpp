#include "route_map.h"
#include "window_strip.h"

#include <QGuiApplication>
#include <QImage>
#include <QPainter>

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

ChartStyle style()
{
    static int count = 1;
    static char name[] = "charts_tests";
    static char* arguments[] = {name, nullptr};
    static const auto* const application = [] {
        qputenv("QT_QPA_PLATFORM", "offscreen");
        return QGuiApplication::instance() ? nullptr : new QGuiApplication{count, arguments};
    }();
    static_cast<void>(application);
    return {&lightPalette(), {}, {}};
}

WindowStrip someStrip()
{
    WindowStrip strip;
    for (int day = 0; day < 14; ++day) strip.days.push_back({QString::number(day), day < 7 ? QStringLiteral("40\u201350\u00b0") : QString{}, {}, false, {}, {}, {}});
    StripRow row;
    row.name = QStringLiteral("Seal");
    row.window = {2, 9};
    row.day = 4;
    row.stop = QStringLiteral("1");
    strip.rows = {row, row};
    strip.rows[1].day.reset();
    return strip;
}

const QRectF area{0, 0, 1000, 240};

}

TEST_CASE("a stop stands in its day and row, and can be pointed at there", "[charts]")
{
    const auto strip = someStrip();
    const auto stop = stopOfStrip(0, area, strip, style());
    REQUIRE_FALSE(stop.isEmpty());
    const auto place = stripPlaceAt(stop.center(), area, strip, style());
    CHECK(place.row == 0U);
    CHECK(place.day == 4);
    CHECK(stopOfStrip(1, area, strip, style()).isEmpty());
    CHECK_FALSE(stripPlaceAt({5, stop.center().y()}, area, strip, style()).day);  // over the names
    CHECK_FALSE(stripPlaceAt({stop.center().x(), 2}, area, strip, style()).row);  // over the head
}

TEST_CASE("a day without a forecast is drawn otherwise than one with", "[charts]")
{
    const auto strip = someStrip();
    QImage image{area.size().toSize(), QImage::Format_RGB32};
    image.fill(lightPalette().sheet);
    QPainter painter{&image};
    paintWindowStrip(painter, area, strip, style());
    painter.end();
    const auto inked = [&](int day) {
        int count = 0;
        const int y = static_cast<int>(headOfStrip(style()) * 0.7);
        const auto isOf = [&](int x) { return stripPlaceAt({static_cast<double>(x), static_cast<double>(y)}, area, strip, style()).day == day; };
        for (int x = 3; x < image.width() - 3; ++x)
            if (isOf(x - 3) && isOf(x + 3)) count += image.pixel(x, y) != lightPalette().sheet.rgb();  // without the lines between the days
        return count;
    };
    CHECK(inked(3) == 0);
    CHECK(inked(10) > 3);
}

TEST_CASE("places of a route keep north up and equal miles, and two on one spot stand apart", "[charts]")
{
    style();
    RouteMap map;
    map.places = {{{0, 0}, QStringLiteral("shop"), {}, false}, {{3, 4}, QStringLiteral("a"), QStringLiteral("1"), false}, {{3, 4}, QStringLiteral("b"), QStringLiteral("2"), false}};
    const auto points = placeRoute({0, 0, 600, 400}, map);
    CHECK(points[1].x() > points[0].x());
    CHECK(points[1].y() < points[0].y());
    CHECK((points[0].y() - points[1].y()) / (points[1].x() - points[0].x()) == Approx(4.0 / 3));
    CHECK(points[2].x() - points[1].x() >= 15);
    CHECK(mapPlaceAt(points[2], {0, 0, 600, 400}, map) == 2U);
    CHECK_FALSE(mapPlaceAt({1, 1}, {0, 0, 600, 400}, map));
}
