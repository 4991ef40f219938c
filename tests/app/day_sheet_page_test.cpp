#include "app/keyboard.h"
#include "app/money_sample.h"

#include "form/field_editor.h"
#include "form/record_form.h"
#include "pages/day_sheet/day_sheet_page.h"
#include "window/actions.h"

#include <QAbstractButton>
#include <QAction>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>

#include <set>

using namespace strikeoff;
using strikeoff::test::day;
using strikeoff::test::Keyboard;

namespace {

struct DayDesk : Keyboard {
    Id<Job> job;

    DayDesk()
    {
        job = office.addJob(office.addCustomer("Nora Bell"), "Patio by the creek");
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
    Id<Lead> lead(const char* name, const char* received)
    {
        Lead lead;
        lead.name = name;
        lead.phone = "555-0123";
        lead.receivedOn = day(received);
        Edit edit{"Enter a lead"};
        edit.add(lead);
        return Id<Lead>{office.commit(edit).front()};
    }
    DaySheetPage& page() { return *window->findChild<DaySheetPage*>(); }
    QStringList lines()
    {
        QStringList lines;
        for (const auto* button : page().findChildren<QPushButton*>(QStringLiteral("dayVerb"))) lines << button->accessibleName();
        return lines;
    }
    QString focused()
    {
        const auto* focus = QApplication::focusWidget();
        return focus ? focus->accessibleName() : QString{};
    }
    RecordForm& form(RecordKind kind)
    {
        for (auto* form : page().findChildren<RecordForm*>())
            if (form->kind() == kind) return *form;
        throw DomainError{"no form of that kind"};
    }
};

}

TEST_CASE("a visit marked as done leaves the day sheet, and the next one is at hand", "[window][day]")
{
    DayDesk desk;
    const auto first = desk.visit(VisitKind::cut, "2026-06-08");
    desk.visit(VisitKind::strip, "2026-06-09");
    desk.visit(VisitKind::seal, "2026-06-10");
    desk.lead("Tomas Ferrin", "2026-06-05");
    desk.open();
    const auto before = desk.lines();
    REQUIRE(before.size() == 4);
    CHECK(desk.focused() == before[0]);
    desk.key(Qt::Key_Down);
    CHECK(desk.focused() == before[1]);
    desk.key(Qt::Key_Up);
    desk.key(Qt::Key_Return);
    CHECK(desk.lines() == before);  // asked how it went, and nothing written yet
    desk.key(Qt::Key_Return);
    CHECK(desk.book().get(first).doneOn == day("2026-06-11"));
    CHECK(desk.lines() == before.mid(1));
    CHECK(desk.focused() == before[1]);  // the next of its section
    for (int i = 0; i < 4; ++i) desk.key(Qt::Key_Return);
    CHECK(desk.lines() == before.mid(3));
    CHECK(desk.focused() == before[3]);  // the section is worked off: on to the calls
    CHECK(desk.focused().startsWith(QStringLiteral("Call")));
    desk.window->action(ActionId::undo)->trigger();
    CHECK(desk.lines().size() == 2);
}

TEST_CASE("a call is made from its line, and the way back leads to the next one", "[window][day]")
{
    DayDesk desk;
    const auto tomas = desk.lead("Tomas Ferrin", "2026-06-05");
    desk.lead("Ivo Lark", "2026-06-06");
    desk.open();
    REQUIRE(desk.lines().size() == 2);
    CHECK(desk.focused().contains(QStringLiteral("Tomas Ferrin, 555-0123")));
    desk.key(Qt::Key_Return);
    CHECK(desk.book().get(tomas).calledOn == day("2026-06-11"));
    CHECK(desk.window->currentPage() == 1);
    desk.key(Qt::Key_Left, Qt::AltModifier);
    CHECK(desk.window->currentPage() == 0);
    CHECK(desk.focused().contains(QStringLiteral("Ivo Lark")));
}

TEST_CASE("tickets of a pour are entered from its line and take it off the sheet", "[window][day]")
{
    DayDesk desk;
    Edit edit{"A pour"};
    Supplier supplier;
    supplier.name = "Tamarack Ready Mix";
    Pour pour;
    pour.job = desk.job;
    pour.sequence = 1;
    pour.supplier = edit.add(supplier);
    pour.mix = "4000AE";
    pour.orderedYards = Yards::ofWhole(9);
    pour.plannedOn = day("2026-06-09");
    pour.pouredOn = day("2026-06-09");
    edit.add(pour);
    desk.office.commit(edit);
    desk.open();
    QString line;
    for (const auto& each : desk.lines())
        if (each.startsWith(QStringLiteral("Enter")) && each.contains(QStringLiteral("icket"))) line = each;
    REQUIRE_FALSE(line.isEmpty());
    desk.key(Qt::Key_Right);
    for (int i = 0; i < 5; ++i) desk.key(Qt::Key_Up);
    for (int i = 0; i < 5 && desk.focused() != line; ++i) desk.key(Qt::Key_Down);
    REQUIRE(desk.focused() == line);
    desk.key(Qt::Key_Return);
    auto& form = desk.form(RecordKind::ticket);
    CHECK(form.isVisible());
    CHECK(form.editor("supplier")->text() == QStringLiteral("Tamarack Ready Mix"));
    CHECK(form.editor("mix")->text() == QStringLiteral("4000AE"));
    desk.reach(form.editor("number"));
    desk.type("48213");
    desk.reach(form.editor("yards"));
    desk.type("9");
    desk.key(Qt::Key_S, Qt::ControlModifier);
    REQUIRE(desk.book().all<Ticket>().size() == 1);
    CHECK(desk.book().all<Ticket>()[0].job == desk.job);
    CHECK_FALSE(desk.lines().contains(line));
    desk.key(Qt::Key_Escape);
    CHECK_FALSE(form.isVisible());
    CHECK_FALSE(desk.focused().isEmpty());  // back on the sheet, not nowhere
}

TEST_CASE("a payment entered on the day sheet takes the late invoice off it", "[window][day]")
{
    Keyboard desk;
    test::MoneySample sample{desk.office};
    sample.issued("2026-04-10", "2026-05-10", "300");
    desk.open();
    auto& page = *desk.window->findChild<DaySheetPage*>();
    CHECK(page.answer().contains(QStringLiteral("$300.00 is past due")));
    desk.key(Qt::Key_P, Qt::AltModifier);
    QTest::qWait(150);  // a button pressed by its letter is shown pressed for a moment
    desk.type("Nora Bell");
    desk.key(Qt::Key_Return);
    RecordForm* form = nullptr;
    for (auto* each : page.findChildren<RecordForm*>())
        if (each->kind() == RecordKind::payment) form = each;
    desk.reach(form->editor("amount"));
    desk.type("300");
    CHECK(page.findChild<QLabel*>(QStringLiteral("splitSum"))->text() == QStringLiteral("$300.00 goes to one invoice; nothing is left over."));
    desk.key(Qt::Key_S, Qt::ControlModifier);
    CHECK(desk.book().all<PaymentShare>().size() == 1);
    CHECK_FALSE(page.answer().contains(QStringLiteral("past due")));
}

TEST_CASE("each daily paper has its key, and no key is given twice on a page", "[window][day]")
{
    Keyboard desk;
    desk.open();
    auto& page = *desk.window->findChild<DaySheetPage*>();
    const std::pair<Qt::Key, RecordKind> keys[] = {{Qt::Key_L, RecordKind::lead}, {Qt::Key_T, RecordKind::ticket}, {Qt::Key_O, RecordKind::hours}, {Qt::Key_R, RecordKind::receipt},
                                                   {Qt::Key_P, RecordKind::payment}};
    for (const auto& [key, kind] : keys) {
        desk.key(key, Qt::AltModifier);
        QTest::qWait(150);
        if (kind == RecordKind::hours) {  // the whole crew's, on the sheet of their own
            CHECK(desk.window->currentPage() == 7);
            desk.key(Qt::Key_1, Qt::AltModifier);
            continue;
        }
        for (auto* form : page.findChildren<RecordForm*>()) {
            INFO(describe(kind).label);
            CHECK(form->isVisible() == (form->kind() == kind));
        }
    }
    for (int i = 0; i < desk.window->pageCount(); ++i) {
        desk.window->showPage(i);
        test::settle();
        std::map<QString, int> given;
        for (const auto& spec : actionTable())
            for (const auto& keys_ : keysOf(spec)) ++given[keys_.toString()];
        for (const auto* menu : desk.window->menuBar()->findChildren<QMenu*>(QString{}, Qt::FindDirectChildrenOnly)) ++given[QKeySequence::mnemonic(menu->title()).toString()];
        for (const auto* button : desk.window->findChildren<QAbstractButton*>())
            if (button->isVisible() && !button->shortcut().isEmpty()) ++given[button->shortcut().toString()];
        for (const auto& [keys_, times] : given) {
            INFO("page " << i + 1 << ": " << keys_.toStdString());
            CHECK(times == 1);
        }
    }
}

TEST_CASE("an empty book says on the day sheet how to begin", "[window][day]")
{
    Keyboard desk;
    desk.open();
    auto& page = *desk.window->findChild<DaySheetPage*>();
    CHECK(page.answer() == QStringLiteral("Nothing needs you today."));
    bool said = false;
    for (const auto* label : page.findChildren<QLabel*>()) said = said || (label->isVisible() && label->text().contains(QStringLiteral("Begin with a lead")));
    CHECK(said);
}
