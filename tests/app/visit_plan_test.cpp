#include "app/keyboard.h"
#include "chart_view.h"
#include "pages/visits/plan_page.h"
#include "pages/visits/strip_view.h"
#include "pages/visits/visits_page.h"
#include "table/record_table.h"

#include <QClipboard>
#include <QMouseEvent>
#include <QPushButton>
#include <QTabWidget>
#include <QTest>

#include <catch2/catch.hpp>

using namespace strikeoff;
using test::day;
using test::Keyboard;

namespace {

struct PlanDesk : Keyboard {
    Id<Visit> strip, walk;

    PlanDesk()
    {
        const auto job = office.addJob(office.addCustomer("Nora Bell"), "Patio by the creek");
        strip = visit(job, VisitKind::strip, "2026-06-12", "2026-06-16");
        walk = visit(job, VisitKind::walkThrough, "2026-06-15", "2026-06-19");
        open();
        key(Qt::Key_4, Qt::AltModifier);
        CHECK(page().isVisible());
        test::settle();
    }
    Id<Visit> visit(Id<Job> job, VisitKind kind, const char* from, const char* due)
    {
        Visit visit;
        visit.job = job;
        visit.kind = kind;
        visit.notBefore = day(from);
        visit.due = day(due);
        visit.tooLate = day(due) + 9;
        Edit edit{"Plan a visit"};
        edit.add(visit);
        return Id<Visit>{office.commit(edit).front()};
    }
    PlanPage& page() { return *window->findChild<PlanPage*>(); }
    StripView& days() { return *page().findChild<StripView*>(); }
    std::size_t rowOf(Id<Visit> visit)
    {
        const auto& rows = days().strip().rows;
        const auto name = QString::fromStdString(std::string{labelOf(book().get(visit).kind)});
        for (std::size_t row = 0; row < rows.size(); ++row)
            if (rows[row].name.startsWith(name)) return row;
        return rows.size();
    }
};

}

TEST_CASE("the page plans the open visits and shows the day they are made", "[window][visits]")
{
    PlanDesk desk;
    CHECK(desk.page().answer().startsWith(QStringLiteral("Two visits in one run")));
    CHECK(desk.days().strip().rows.size() == 2);
    CHECK(desk.page().table()->model().shownRows() == 2);
    CHECK(desk.page().plan().proven);
}

TEST_CASE("a stop moved to another day is pinned there, the rest is planned anew, and the pin can be taken out", "[window][visits]")
{
    PlanDesk desk;
    desk.days().choose(desk.rowOf(desk.walk), 4);
    emit desk.days().rowChosen(desk.rowOf(desk.walk));
    desk.days().setFocus();
    QTest::keyClick(&desk.days(), Qt::Key_Right, Qt::ShiftModifier);
    test::settle();
    const auto& walk = desk.book().get(desk.walk);
    CHECK(walk.pinned);
    CHECK(walk.plannedOn == day("2026-06-16"));
    const auto& rows = desk.page().plan().rows;
    for (const auto& row : rows) CHECK(row.on == day("2026-06-16"));  // one run is less driving than two

    desk.page().findChild<QPushButton*>(QStringLiteral("visitUnpin"))->click();
    test::settle();
    CHECK_FALSE(desk.book().get(desk.walk).pinned);
}

TEST_CASE("a stop is dragged to a day with the mouse", "[window][visits]")
{
    PlanDesk desk;
    auto& days = desk.days();
    const auto style = windowChartStyle();
    const auto stop = stopOfStrip(desk.rowOf(desk.walk), days.area(), days.strip(), style);
    REQUIRE_FALSE(stop.isEmpty());
    const double dayWidth = days.area().width() * 0.74 / 14;
    const QPoint from = stop.center().toPoint(), to{from.x() + static_cast<int>(2 * dayWidth), from.y()};
    QTest::mousePress(&days, Qt::LeftButton, {}, from);
    QMouseEvent move{QEvent::MouseMove, to, days.mapToGlobal(to), Qt::NoButton, Qt::LeftButton, {}};
    QCoreApplication::sendEvent(&days, &move);
    QTest::mouseRelease(&days, Qt::LeftButton, {}, to);
    test::settle();
    CHECK(desk.book().get(desk.walk).pinned);
    CHECK(*desk.book().get(desk.walk).plannedOn > day("2026-06-15"));
}

TEST_CASE("the customer's reminder names the day and hour of the plan", "[window][visits]")
{
    PlanDesk desk;
    desk.page().findChild<QPushButton*>(QStringLiteral("planReminder"))->click();
    const auto text = QApplication::clipboard()->text();
    CHECK(text.startsWith(QStringLiteral("Hello Nora Bell, we come on Mon Jun 15 at about ")));
}

TEST_CASE("a written plan stands on the visits, and then there is nothing to write", "[window][visits]")
{
    PlanDesk desk;
    auto* write = desk.page().findChild<QPushButton*>(QStringLiteral("writePlan"));
    REQUIRE(write->isEnabled());
    write->click();
    test::settle();
    CHECK(desk.book().get(desk.strip).plannedOn == day("2026-06-15"));
    CHECK(desk.book().get(desk.strip).plannedAt.has_value());
    CHECK_FALSE(desk.book().get(desk.strip).pinned);
    CHECK_FALSE(write->isEnabled());
}
