#include "app/keyboard.h"

#include "chart_view.h"
#include "pages/seasons/seasons_page.h"
#include "table/record_table.h"
#include "verbs/demonstration_book.h"

#include <QComboBox>
#include <QFile>
#include <QLineEdit>
#include <QTabWidget>
#include <QTableView>

using namespace strikeoff;
using strikeoff::test::Keyboard;

namespace {

/// The window on the demonstration book at its Seasons.
struct SeasonsDesk : Keyboard {
    SeasonsDesk()
    {
        QFile::remove(qs(office.path));
        office.desk.reset();
        office.store.reset();
        writeDemonstrationBook(office.path);
        open();
        window->desk().setToday(test::day("2026-11-25"));
        key(Qt::Key_7, Qt::AltModifier);
        page().refresh();
        test::settle();
    }
    SeasonsPage& page() { return *window->findChild<SeasonsPage*>(); }
    ChartView& chart(const char* name) { return *page().findChild<ChartView*>(QString::fromLatin1(name)); }
    ChartView& months() { return chart("Price and pace by month"); }
    QComboBox& box(const char* name) { return *page().findChild<QComboBox*>(QString::fromLatin1(name)); }
};

/// How many points a chart has.
std::size_t pointsOf(const ChartView& view)
{
    std::size_t most = 0;
    for (const auto count : view.chart()->stopRows) most = std::max(most, count);
    return most;
}

}

TEST_CASE("seasons shows price and pace over the same months, with what each season does beside them", "[window][seasons]")
{
    SeasonsDesk desk;
    CHECK(desk.months().isVisible());
    CHECK(desk.months().chart()->inWords == desk.page().answer());
    CHECK(desk.page().answer().contains(u'$'));
    CHECK(pointsOf(desk.months()) > 200);
    for (const auto* name : {"Price by season", "Pace by season"}) {
        INFO(name);
        CHECK(desk.chart(name).isVisible());
        CHECK(desk.chart(name).chart()->stopRows.size() == 4);
        CHECK(desk.chart(name).mapTo(&desk.page(), QPoint{}).x() > desk.months().mapTo(&desk.page(), QPoint{}).x() + desk.months().width() - 1);
    }
}

TEST_CASE("a ticket in the picture of the seasons opens on its page, by keys alone", "[window][seasons]")
{
    SeasonsDesk desk;
    desk.reach(&desk.months());
    for (int i = 0; i < 8 && desk.months().currentStop()->kind != RecordKind::ticket; ++i) desk.key(Qt::Key_Down);
    const auto stop = desk.months().currentStop();
    REQUIRE(stop->kind == RecordKind::ticket);
    CHECK(stop->tip.contains("Ticket "));
    desk.key(Qt::Key_Return);
    CHECK(desk.window->currentPage() == 2);
    CHECK(desk.window->page(2).currentRecord() == RecordRef{RecordKind::ticket, stop->id});
}

TEST_CASE("one key leads to the counts and the method of the seasons, and back", "[window][seasons]")
{
    SeasonsDesk desk;
    desk.key(Qt::Key_F8);
    auto* months = desk.page().table();
    CHECK(months->isVisible());
    CHECK_FALSE(desk.months().isVisible());
    CHECK(months->model().shownRows() >= 40);
    months->filterField().setFocus();
    desk.type("2025");
    CHECK(months->model().shownRows() == 12);
    const auto csv = QString::fromUtf8(months->csv());
    CHECK(csv.startsWith(QStringLiteral("Month,")));
    CHECK(csv.count(u'\n') == 13);
    bool told = false;
    for (const auto* label : desk.page().findChildren<QLabel*>()) told = told || (label->isVisible() && label->text().contains(QStringLiteral("four times in five")));
    CHECK(told);
    desk.key(Qt::Key_F8);
    CHECK(desk.months().isVisible());
}

TEST_CASE("days and job type narrow every picture of the seasons", "[window][seasons]")
{
    SeasonsDesk desk;
    const auto all = pointsOf(desk.months()), pours = pointsOf(desk.chart("Pace by temperature"));
    desk.reach(&desk.box("seasonsRange"));
    const int year = desk.box("seasonsRange").findText("2025");
    REQUIRE(year > 0);
    for (int i = 0; i < year; ++i) desk.key(Qt::Key_Down);
    CHECK(desk.box("seasonsRange").currentText() == "2025");
    const auto some = pointsOf(desk.months());
    CHECK(some < all / 2);
    CHECK(some > 20);
    CHECK(pointsOf(desk.chart("Pace by temperature")) < pours);
    desk.box("seasonsRange").setFocus();
    desk.key(Qt::Key_Home);
    CHECK(pointsOf(desk.months()) == all);
    desk.box("seasonsType").setFocus();
    desk.key(Qt::Key_Down);
    CHECK(pointsOf(desk.months()) < all);
    CHECK(pointsOf(desk.months()) > 0);
}

TEST_CASE("in a narrow window the seasons stand under the months, and nothing is cut off", "[window][seasons]")
{
    SeasonsDesk desk;
    SeasonsPage page{desk.window->desk()};
    page.resize(700, 760);
    page.show();
    page.refresh();
    test::settle();
    REQUIRE(page.width() == 700);
    const auto place = [&](const char* name) {
        const auto* view = page.findChild<ChartView*>(QString::fromLatin1(name));
        return QRect{view->mapTo(&page, QPoint{}), view->size()};
    };
    CHECK(place("Price by season").top() > place("Price and pace by month").bottom());
    CHECK(place("Pace by season").top() > place("Price and pace by month").bottom());
    CHECK(place("Pace by season").left() > place("Price by season").right());
    for (const auto* view : page.findChildren<ChartView*>())
        if (view->isVisible()) {
            INFO(view->objectName().toStdString());
            const auto left = view->mapTo(&page, QPoint{}).x();
            CHECK(left >= 0);
            CHECK(left + view->width() <= page.width());
            if (const int needed = view->heightFor(view->width()); needed > 0) CHECK(view->height() >= needed);
        }
}
