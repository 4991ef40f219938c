#include "app/keyboard.h"

#include "chart_view.h"
#include "form/field_editor.h"
#include "form/record_form.h"
#include "pages/rates/rates_page.h"
#include "pages/visits/visits_page.h"
#include "pages/what_pays/what_pays_page.h"
#include "records/records_panel.h"
#include "table/record_table.h"
#include "verbs/demonstration_book.h"

#include <QComboBox>
#include <QLineEdit>
#include <QTabWidget>
#include <QTableView>

using namespace strikeoff;
using strikeoff::test::day;
using strikeoff::test::Keyboard;

namespace {

bool says(const QWidget& page, const char* words)
{
    for (const auto* label : page.findChildren<QLabel*>())
        if (label->isVisible() && label->text().contains(QLatin1String{words})) return true;
    return false;
}

struct VisitsDesk : Keyboard {
    Id<Job> job;
    Id<Visit> cut, seal;

    VisitsDesk()
    {
        job = office.addJob(office.addCustomer("Nora Bell"), "Patio by the creek");
        cut = visit(VisitKind::cut, "2026-06-08");
        seal = visit(VisitKind::seal, "2026-06-20");
        open();
        key(Qt::Key_4, Qt::AltModifier);
        window->openRecord(RecordKind::visit, cut.value());  // on the list
        test::settle();
    }
    Id<Visit> visit(VisitKind kind, const char* due)
    {
        Visit visit;
        visit.job = job;
        visit.kind = kind;
        visit.notBefore = day("2026-06-01");
        visit.due = day(due);
        Edit edit{"Plan a visit"};
        edit.add(visit);
        return Id<Visit>{office.commit(edit).front()};
    }
    VisitsPage& page() { return *window->findChild<VisitsPage*>(); }
    QPushButton* button(const char* name) { return page().findChild<QPushButton*>(QString::fromLatin1(name)); }
};

}

TEST_CASE("a visit marked as done on its page is off the day sheet too", "[window][visits]")
{
    VisitsDesk desk;
    CHECK(desk.page().panel(RecordKind::visit)->table()->current().id == desk.cut.value());  // the late one on top
    desk.key(Qt::Key_D, Qt::AltModifier);
    QTest::qWait(150);  // a button pressed by its letter is shown pressed for a moment
    CHECK(desk.book().get(desk.cut).isOpen());  // asked how it went
    desk.key(Qt::Key_Return);
    CHECK(desk.book().get(desk.cut).doneOn == day("2026-06-11"));
    CHECK(desk.page().waiting() == 1);
    desk.key(Qt::Key_1, Qt::AltModifier);
    for (const auto* line : desk.window->page(0).findChildren<QPushButton*>(QStringLiteral("dayVerb"))) CHECK_FALSE(line->accessibleName().contains(QStringLiteral("Cut")));
}

TEST_CASE("a visit is planned for a day as people write it, and left out only with a reason", "[window][visits]")
{
    VisitsDesk desk;
    desk.reach(desk.page().findChild<QLineEdit*>(QStringLiteral("visitDay")));
    desk.type("fri");
    desk.key(Qt::Key_Return);
    CHECK(desk.book().get(desk.cut).plannedOn == day("2026-06-12"));
    desk.press(desk.button("visitOut"));
    CHECK(desk.book().get(desk.cut).isOpen());  // no reason yet
    CHECK(QApplication::focusWidget()->objectName() == QStringLiteral("reason"));
    desk.type("rained out");
    desk.key(Qt::Key_Return);
    CHECK_FALSE(desk.book().get(desk.cut).isOpen());
    CHECK(desk.book().get(desk.cut).waivedReason == "rained out");
}

TEST_CASE("the list of visits narrows as one types and leaves as CSV with text as text", "[window][visits]")
{
    VisitsDesk desk;
    auto& table = *desk.page().table();
    REQUIRE(table.model().shownRows() == 2);
    desk.key(Qt::Key_L, Qt::ControlModifier);
    desk.type("seal");
    CHECK(table.model().shownRows() == 1);
    CHECK(QString::fromUtf8(table.csv()).contains(QStringLiteral("Seal,")));
    CHECK_FALSE(QString::fromUtf8(table.csv()).contains(QStringLiteral("Cut,")));
}

TEST_CASE("an empty book says on each page what to do first", "[window][pages]")
{
    Keyboard desk;
    desk.open();
    const std::pair<int, const char*> words[] = {{3, "No return visits yet. A pour that is marked as done"}, {5, "Nothing to compare yet"}, {6, "Nothing yet: enter tickets"}};
    for (const auto& [page, text] : words) {
        desk.window->showPage(page);
        test::settle();
        INFO("page " << page + 1);
        CHECK(says(desk.window->page(page), text));
    }
    desk.window->showPage(7);
    auto* tabs = desk.window->findChild<RatesPage*>()->findChild<QTabWidget*>();
    int lists = 0;
    for (int i = 0; i < tabs->count(); ++i) {
        tabs->setCurrentIndex(i);
        test::settle();
        INFO(tabs->tabText(i).toStdString());
        for (auto* table : tabs->widget(i)->findChildren<RecordTable*>())
            if (table->isVisible() && table->model().rowCount() == 0 && tabs->widget(i)->findChildren<RecordsPanel*>().size() == 1) {
                CHECK((says(*tabs->widget(i), " yet") || says(*tabs->widget(i), "Press New")));
                ++lists;
            }
    }
    CHECK(lists >= 5);
}

TEST_CASE("what pays ranks the finished work of the demonstration book, and a job left out opens its folder", "[window][pages]")
{
    Keyboard desk;
    QFile::remove(qs(desk.office.path));
    desk.office.desk.reset();
    desk.office.store.reset();
    writeDemonstrationBook(desk.office.path);
    desk.open();
    desk.key(Qt::Key_6, Qt::AltModifier);
    auto& page = *desk.window->findChild<WhatPaysPage*>();
    CHECK(page.findChild<ChartView*>(QStringLiteral("paysChart"))->isVisible());
    CHECK(page.findChild<ChartView*>(QStringLiteral("paysChart"))->chart()->numbers().rows.size() >= 6);
    const auto table = [&](const char* name) -> RecordTable& {
        for (auto* each : page.findChildren<RecordTable*>())
            if (each->name() == QLatin1String{name}) return *each;
        throw DomainError{"no table of that name"};
    };
    auto& types = table("Job types");
    REQUIRE(types.model().shownRows() >= 6);
    const int perHour = 3;  // the estimate
    const auto figure = [&](int row) { return types.model().index(row, perHour).data(TableModel::sortRole).toLongLong(); };
    CHECK(figure(0) > figure(types.model().shownRows() - 1));
    for (int i = 1; i < types.model().shownRows(); ++i) CHECK(figure(i - 1) >= figure(i));  // best first
    CHECK(says(page, "pays $"));  // the sentence of the row in hand
    auto* by = page.findChild<QComboBox*>(QStringLiteral("paysBy"));
    by->setCurrentIndex(3);
    CHECK(types.model().shownRows() == 4);  // the seasons
    by->setCurrentIndex(0);

    auto* tabs = page.findChild<QTabWidget*>();
    tabs->setCurrentIndex(1);
    desk.reach(page.findChild<QLineEdit*>(QStringLiteral("chargeArea")));
    desk.type("450");
    CHECK(says(page, "Charge $"));
    CHECK(table("What it costs").model().shownRows() == 4);
    desk.reach(page.findChild<QLineEdit*>(QStringLiteral("chargePrice")));
    desk.type("much");
    CHECK(says(page, "The price is no sum"));
    tabs->setCurrentIndex(2);
    CHECK(says(page, " after overhead, $"));
    CHECK(page.findChild<ChartView*>(QStringLiteral("bridgeChart"))->isVisible());
    tabs->setCurrentIndex(tabs->count() - 1);
    auto& left = table("Jobs left out");
    REQUIRE(left.model().shownRows() > 0);
    const auto job = left.model().recordAt(0);
    left.view().setCurrentIndex(left.model().index(0, 0));
    left.view().setFocus();
    desk.key(Qt::Key_Return);
    CHECK(desk.window->currentPage() == 1);
    CHECK(desk.window->page(1).currentRecord() == job);
}

TEST_CASE("a new rate of pay changes what an hour costs in the answer of the page", "[window][pages]")
{
    Keyboard desk;
    CrewMember person;
    person.name = "Pell Marrow";
    Edit edit{"Hire"};
    edit.add(person);
    const auto id = desk.office.commit(edit).front();
    desk.open();
    desk.key(Qt::Key_8, Qt::AltModifier);
    auto& page = *desk.window->findChild<RatesPage*>();
    const auto before = page.answer();
    PayRate rate;
    rate.person = Id<CrewMember>{id};
    rate.fromDate = day("2026-01-01");
    rate.hourlyRate = UnitPrice::ofWhole(30);
    Edit raise{"Pay"};
    raise.add(rate);
    REQUIRE(desk.window->desk().commitOrSay(raise));
    CHECK(page.answer() != before);
    CHECK(page.answer().contains(u'$'));
    CHECK(desk.window->findChild<QLabel*>(QStringLiteral("answer"))->text() == page.answer());
}
