#include "charts/chart_look.h"

#include "due_line.h"

#include <QImage>
#include <QPainter>

#include <catch2/catch.hpp>

#include <set>

using namespace strikeoff;

namespace {

ChartStyle style() { return test::chartStyle(); }

Date day(const char* iso) { return *Date::parse(iso); }

const QRectF area{0, 0, 1000, 160};

DueLine someLine()
{
    return {day("2026-06-11"),
            {{day("2026-05-20"), 1500, QStringLiteral("Nora Bell"), true},
             {day("2026-06-11"), 600, QStringLiteral("Tomas Ferrin"), false},
             {day("2026-06-25"), 3000, QStringLiteral("Hollis Farm"), false}},
            {}};
}

}

TEST_CASE("bars stand in the order of their due days, as high as what is open", "[charts]")
{
    const auto places = placeDueBars(area, someLine(), style());
    REQUIRE(places.size() == 3);
    CHECK(places[0].right() < places[1].left());
    CHECK(places[1].right() < places[2].left());
    CHECK(places[2].height() == Approx(2 * places[0].height()).epsilon(0.01));
    CHECK(places[0].bottom() == Approx(places[2].bottom()));
    for (const auto& place : places) CHECK(area.contains(place));
}

TEST_CASE("invoices due on the same day stand on one another, and each can be pointed at", "[charts]")
{
    auto line = someLine();
    line.bars.push_back({day("2026-06-25"), 1000, QStringLiteral("Ivo Lark"), false});
    const auto places = placeDueBars(area, line, style());
    CHECK(places[3].left() == places[2].left());
    CHECK(places[3].bottom() == Approx(places[2].top()));
    CHECK(dueBarAt(places[3].center(), area, line, style()) == 3);
    CHECK(dueBarAt(places[2].center(), area, line, style()) == 2);
    CHECK_FALSE(dueBarAt({area.center().x(), area.top() + 1}, area, line, style()));
}

TEST_CASE("what was due yesterday never stands with what is due today, however narrow the line", "[charts]")
{
    DueLine line{day("2026-06-11"), {{day("2026-06-10"), 100, {}, true}, {day("2026-06-11"), 100, {}, false}}, {}};
    for (const double width : {200.0, 400.0, 1000.0}) {
        const auto places = placeDueBars({0, 0, width, 160}, line, style());
        INFO(width);
        CHECK(places[0].right() <= places[1].left());
    }
}

TEST_CASE("what is long past due stands at the left edge, and what was paid too much hangs below zero", "[charts]")
{
    auto line = someLine();
    line.bars.push_back({day("2023-01-05"), 800, QStringLiteral("Old Mill"), true});
    line.bars.push_back({day("2026-06-20"), -200, QStringLiteral("Ivo Lark"), false});
    const auto places = placeDueBars(area, line, style());
    CHECK(places[3].right() < places[0].left());
    CHECK(places[4].top() == Approx(places[2].bottom()));
    for (const auto& place : places) CHECK(area.contains(place));
}

TEST_CASE("late is told by pattern as well as by colour", "[charts]")
{
    const auto line = someLine();
    QImage image{area.size().toSize(), QImage::Format_RGB32};
    image.fill(lightPalette().sheet);
    QPainter painter{&image};
    paintDueLine(painter, area, line, style());
    painter.end();
    const auto places = placeDueBars(area, line, style());
    const auto colorsIn = [&](const QRectF& place) {
        std::set<QRgb> colors;
        const auto inner = place.toRect().adjusted(2, 2, -2, -2);
        for (int x = inner.left(); x <= inner.right(); ++x)
            for (int y = inner.top(); y <= inner.bottom(); ++y) colors.insert(image.pixel(x, y));
        return colors;
    };
    CHECK(colorsIn(places[0]).size() > 1);  // hatched
    CHECK(colorsIn(places[0]).contains(lightPalette().wrong.rgb()));
    CHECK(colorsIn(places[2]).size() == 1);  // filled
    CHECK(colorsIn(places[2]).contains(lightPalette().series[0].rgb()));
}
