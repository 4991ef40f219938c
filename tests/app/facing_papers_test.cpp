#include "app/application.h"

#include "chart_view.h"
#include "facing_papers.h"

#include <QImage>
#include <QPainter>

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

FacingBlock block()
{
    FacingBlock made;
    made.leftTitle = QStringLiteral("Ticket 48213");
    made.rightTitle = QStringLiteral("Billed as 48213");
    FacingRow agrees;
    agrees.leftWords = agrees.rightWords = QStringLiteral("Mix 4000AE");
    agrees.leftFigure = agrees.rightFigure = QStringLiteral("1,650.00");
    agrees.finding = QStringLiteral("Agrees");
    FacingRow off = agrees;
    off.finding = QStringLiteral("Not earned");
    off.figure = QStringLiteral("+$22.00");
    off.difference = 22;
    off.why = QStringLiteral("June 12, ticket 48213: waiting 22 min billed; on site 7:41, empty 8:26 = 45 min; 9.5 yd\u00b3 at 5 min free each = 47 min: nothing due");
    off.state = FacingState::wrong;
    made.rows = {agrees, off};
    return made;
}

int pixelsOf(const QImage& picture, const QColor& color)
{
    int count = 0;
    for (int y = 0; y < picture.height(); ++y)
        for (int x = 0; x < picture.width(); ++x)
            if (picture.pixelColor(x, y) == color) ++count;
    return count;
}

}

TEST_CASE("rows of facing papers stand one under the other, taller where there is a reason, taller still where it is narrow", "[charts]")
{
    test::application();
    const auto style = windowChartStyle();
    const auto made = block();
    const auto wide = layOutFacing(made, 1200, style);
    const auto narrow = layOutFacing(made, 500, style);
    REQUIRE(wide.rowTops.size() == 2);
    CHECK(wide.rowTops[0] >= wide.head);
    CHECK(wide.rowTops[1] == wide.rowTops[0] + wide.rowHeights[0]);
    CHECK(wide.rowHeights[1] > wide.rowHeights[0]);
    CHECK(narrow.rowHeights[1] > wide.rowHeights[1]);
    CHECK(wide.height > wide.rowTops[1] + wide.rowHeights[1]);
}

TEST_CASE("the bar between two papers is as long as the difference against the largest", "[charts]")
{
    test::application();
    const auto style = windowChartStyle();
    const auto inked = [&](double difference) {
        auto made = block();
        made.rows[1].difference = difference;
        const auto layout = layOutFacing(made, 1000, style);
        QImage picture{1000, static_cast<int>(layout.height) + 1, QImage::Format_RGB32};
        picture.fill(style.palette->page);
        QPainter painter{&picture};
        paintFacing(painter, QRectF{0, 0, 1000, layout.height}, made, layout, 100, -1, style);
        painter.end();
        return pixelsOf(picture, style.palette->wrong);
    };
    const int none = inked(0);
    const int half = inked(50) - none;
    const int whole = inked(100) - none;
    CHECK(half > 0);
    CHECK(whole >= 2 * half - 8);
    CHECK(whole <= 2 * half + 8);
    CHECK(inked(-100) - none == whole);  // the other way is as long
}
