#include "app/keyboard.h"

#include "form/record_form.h"
#include "labor/crew_week.h"
#include "pages/hours_sheet/hours_model.h"
#include "pages/hours_sheet/hours_sheet_page.h"
#include "pages/rates/hour_cost_page.h"
#include "pages/rates/rates_page.h"
#include "table/grid_view.h"
#include "table/record_table.h"

#include <QElapsedTimer>
#include <QLineEdit>

using namespace strikeoff;

namespace {

/// Five people with pay, two jobs, and Thursday June 11, 2026 for today.
struct Crew : test::Keyboard {
    std::vector<Id<CrewMember>> people;
    Id<Job> patio, walk;
    int keys = 0;

    Crew()
    {
        patio = office.addJob(office.addCustomer("Nora Bell"), "Patio");
        walk = office.addJob(office.addCustomer("Amos Reed"), "Walk");
        Edit edit{"The crew"};
        for (const auto* name : {"Ada", "Ben", "Cora", "Dell", "Eve"}) {
            CrewMember member;
            member.name = name;
            PayRate rate;
            rate.person = edit.add(member);
            rate.fromDate = test::day("2026-01-01");
            rate.hourlyRate = UnitPrice::ofWhole(25);
            edit.add(rate);
        }
        const auto ids = office.commit(edit);
        for (std::size_t i = 0; i < ids.size(); i += 2) people.emplace_back(ids[i]);
    }
    RatesPage& rates() { return *window->findChild<RatesPage*>(); }
    HoursSheetPage& sheet() { return *window->findChild<HoursSheetPage*>(); }
    void toSheet(const char* day)
    {
        key(Qt::Key_8, Qt::AltModifier);
        rates().showTab(&sheet());
        REQUIRE(sheet().showDay(test::day(day)));
        rates().takeFocus();
        test::settle();
    }
    void cell(const char* text)
    {
        type(text);
        key(Qt::Key_Return);
        keys += static_cast<int>(std::char_traits<char>::length(text)) + 1;
    }
    void press(Qt::Key which, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        key(which, modifiers);
        ++keys;
    }
    std::vector<const Hours*> on(const char* day)
    {
        std::vector<const Hours*> rows;
        for (const auto& row : book().all<Hours>())
            if (row.date == test::day(day)) rows.push_back(&row);
        return rows;
    }
};

}

TEST_CASE("a week of five people is entered by keyboard alone", "[window][hours]")
{
    Crew crew;
    crew.open();
    crew.toSheet("2026-06-01");
    // Monday: everybody at the patio, from and to with a lunch.
    crew.cell("1001");
    crew.cell("prep");
    crew.type("7-3:30");
    crew.press(Qt::Key_A, Qt::AltModifier);  // the same for everybody
    for (int i = 0; i < 3; ++i) crew.press(Qt::Key_Backtab, Qt::ShiftModifier);  // back past phase and job to the column of lunch
    crew.type("30");
    crew.press(Qt::Key_A, Qt::AltModifier);
    crew.press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(crew.on("2026-06-01").size() == 5);
    CHECK(crew.sheet().model().day() == test::day("2026-06-02"));
    // Tuesday to Thursday as the day before.
    for (int i = 0; i < 3; ++i) {
        crew.press(Qt::Key_D, Qt::AltModifier);
        crew.press(Qt::Key_Return, Qt::ControlModifier);
    }
    // Friday: ten hours of placing, but Cora was at the walk.
    crew.cell("1001");
    crew.cell("pl");
    crew.cell("10");
    crew.cell("10");
    crew.press(Qt::Key_X, Qt::AltModifier);  // all but this one
    crew.press(Qt::Key_Down);
    crew.press(Qt::Key_Down);
    crew.press(Qt::Key_Return);
    crew.cell("1002");
    crew.cell("fin");
    crew.press(Qt::Key_Down);
    crew.press(Qt::Key_Down);
    crew.cell("8:30");
    crew.press(Qt::Key_Return, Qt::ControlModifier);

    REQUIRE(crew.book().all<Hours>().size() == 25);
    for (const auto* row : crew.on("2026-06-03")) {
        CHECK(row->job == crew.patio);
        CHECK(row->phase == Phase::prepForm);
        CHECK(row->startedAt == ClockTime::of(7, 0));
        CHECK(row->endedAt == ClockTime::of(15, 30));
        CHECK(row->worked() == Minutes::of(480));
    }
    const auto friday = crew.on("2026-06-05");
    REQUIRE(friday.size() == 5);
    for (const auto* row : friday) {
        const bool cora = row->person == crew.people[2];
        CHECK(row->job == (cora ? crew.walk : crew.patio));
        CHECK(row->phase == (cora ? Phase::finish : Phase::place));
        CHECK(row->worked() == Minutes::of(cora ? 510 : 600));
    }
    // What the page says of the week: four at 42 h and one at 40:30.
    CHECK(crew.sheet().showDay(test::day("2026-06-05")));
    CHECK(crew.sheet().answer().toStdString() == crewWeek(crew.book(), LaborCost{crew.book()}, test::day("2026-06-05")).answer);
    CHECK(crew.sheet().answer().startsWith(QStringLiteral("Five people worked 208:30 h in the week of Jun 1, 2026, 8:30 h of it overtime")));
    CHECK(crew.sheet().table()->model().rowCount() == 6);
    const auto paper = crew.sheet().paper();
    REQUIRE(paper);
    CHECK(plainText(*paper).find("ask whoever does your payroll") != std::string::npos);
    CHECK(crew.keys < 120);  // a minute of typing and one of thinking
    // Each day is one step back.
    crew.window->desk().undo();
    CHECK(crew.book().all<Hours>().size() == 20);
}

TEST_CASE("the day sheet's button for hours brings up the sheet of its day, ready to type", "[window][hours]")
{
    Crew crew;
    crew.open();
    crew.key(Qt::Key_1, Qt::AltModifier);
    crew.key(Qt::Key_O, Qt::AltModifier);
    QTest::qWait(200);  // a button pressed by its key goes down for a moment
    REQUIRE(crew.sheet().isVisible());
    CHECK(crew.sheet().model().day() == test::day("2026-06-11"));
    crew.cell("1002");
    crew.cell("seal");
    crew.cell("3");
    crew.press(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(crew.book().all<Hours>().size() == 1);
    CHECK(crew.book().all<Hours>()[0].phase == Phase::seal);
    CHECK(crew.book().all<Hours>()[0].date == test::day("2026-06-11"));
}

TEST_CASE("a sheet that cannot be read is not saved, says why, and keeps what was typed", "[window][hours]")
{
    Crew crew;
    crew.open();
    crew.toSheet("2026-06-09");
    crew.cell("4711");
    crew.cell("pl");
    crew.cell("8 or so");
    crew.press(Qt::Key_Return, Qt::ControlModifier);
    CHECK(crew.book().all<Hours>().empty());
    CHECK(crew.sheet().hasUnsaved());
    auto& model = crew.sheet().model();
    CHECK(model.wordsAt(HoursModel::jobRow).contains(QStringLiteral("no job of this number")));
    CHECK(model.wordsAt(HoursModel::firstPerson).contains(QStringLiteral("Type hours")));
    CHECK(model.index(HoursModel::jobRow, 1).data().toString() == QStringLiteral("4711"));
    CHECK(model.index(HoursModel::firstPerson, 1).data().toString() == QStringLiteral("8 or so"));
    // Another day is not shown over it.
    CHECK_FALSE(crew.sheet().showDay(test::day("2026-06-08")));
    REQUIRE(model.setData(model.index(HoursModel::jobRow, 1), QStringLiteral("1002"), Qt::EditRole));
    REQUIRE(model.setData(model.index(HoursModel::firstPerson, 1), QStringLiteral("8"), Qt::EditRole));
    REQUIRE(crew.sheet().save());
    REQUIRE(crew.book().all<Hours>().size() == 1);
    CHECK(crew.book().all<Hours>()[0].job == crew.walk);
}

TEST_CASE("somebody in two places at once is flagged under his row, and the sheet can still be saved", "[window][hours]")
{
    Crew crew;
    crew.open();
    crew.toSheet("2026-06-09");
    auto& model = crew.sheet().model();
    const auto put = [&](int row, int column, const char* text) { REQUIRE(model.setData(model.index(row, column), QString::fromUtf8(text), Qt::EditRole)); };
    put(HoursModel::jobRow, 1, "1001");
    put(HoursModel::phaseRow, 1, "place");
    put(HoursModel::jobRow, 2, "1002");
    put(HoursModel::phaseRow, 2, "place");
    put(HoursModel::firstPerson, 1, "7-12");
    put(HoursModel::firstPerson, 2, "11-3");
    CHECK(model.wordsAt(HoursModel::firstPerson).contains(QStringLiteral("Ada is in two places at once")));
    CHECK_FALSE(model.isBlocked(HoursModel::firstPerson));
    CHECK(model.headerData(HoursModel::firstPerson, Qt::Vertical, Qt::DisplayRole).toString() == QStringLiteral("Ada  9:00"));
    CHECK(crew.sheet().save());
    CHECK(crew.book().all<Hours>().size() == 2);
}

TEST_CASE("a book can be closed while the keyboard is in a field of a form", "[window]")
{
    Crew crew;
    crew.open();
    crew.key(Qt::Key_8, Qt::AltModifier);
    REQUIRE(crew.rates().openRecord(RecordKind::settings, crew.book().settings().id.value()));
    auto& form = crew.rates().panel(RecordKind::settings)->form();
    form.focusFirst();
    test::settle();
    REQUIRE(qobject_cast<QLineEdit*>(QApplication::focusWidget()));
    crew.window.reset();
    CHECK_FALSE(QApplication::focusWidget());
}

TEST_CASE("the page of rates tells what an hour costs and offers the burden tables", "[window][hours]")
{
    Crew crew;
    // A book that was begun before there were burden tables.
    Edit edit{"Without tables"};
    for (const auto& rate : crew.office.book().all<BurdenRate>()) edit.remove(rate);
    crew.office.commit(edit);
    crew.open();
    crew.key(Qt::Key_8, Qt::AltModifier);
    auto* page = crew.window->findChild<HourCostPage*>();
    REQUIRE(page);
    crew.rates().showTab(page);
    CHECK(page->answer().startsWith(QStringLiteral("An hour of the crew truly costs $25.00")));
    CHECK(page->table()->model().rowCount() == 6);
    auto* fill = page->findChild<QPushButton*>(QStringLiteral("fillBurden"));
    REQUIRE(fill);
    REQUIRE(fill->isVisible());
    fill->click();
    CHECK(crew.book().all<BurdenRate>().size() == 11);
    test::settle();
    CHECK_FALSE(fill->isVisible());
    // 6.2, 1.45 and 0.6 per cent of 25.00 on top.
    CHECK(page->answer().startsWith(QStringLiteral("An hour of the crew truly costs $27.06")));
    crew.window->desk().undo();
    CHECK(crew.book().all<BurdenRate>().empty());
}
