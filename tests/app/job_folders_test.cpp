#include "app/keyboard.h"

#include "form/field_editor.h"
#include "form/record_form.h"
#include "job/stage.h"
#include "labels.h"
#include "pages/job_folders/job_folder_view.h"
#include "pages/job_folders/job_folders_page.h"
#include "records/records_panel.h"
#include "table/record_table.h"
#include "window/main_window.h"

#include <QComboBox>
#include <QPushButton>
#include <QTabBar>
#include <QTest>

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::test::Office;

namespace {

struct Keyboard : test::Keyboard {
    JobFolderView& folder() { return *window->findChild<JobFolderView*>(); }
    QPushButton* verb(const char* name) { return folder().findChild<QPushButton*>(QString::fromLatin1(name)); }
    void paper(const char* name)
    {
        for (auto* button : folder().findChildren<QPushButton*>(QStringLiteral("paper")))
            if (button->text().startsWith(QString::fromLatin1(name))) return press(button);
        FAIL("no paper " << name);
    }
    RecordForm& form(QWidget& in, RecordKind kind)
    {
        for (auto* form : in.findChildren<RecordForm*>())
            if (form->kind() == kind && form->isVisible()) return *form;
        throw DomainError{"no form of that kind in view"};
    }
    void type(RecordForm& form, const char* field, const char* text)
    {
        auto* editor = form.editor(field);
        REQUIRE(editor);
        reach(editor);
        if (!qobject_cast<QComboBox*>(&editor->input())) QTest::keyClick(QApplication::focusWidget(), Qt::Key_A, Qt::ControlModifier);
        QTest::keyClicks(QApplication::focusWidget(), QString::fromUtf8(text));
        test::settle();
    }
    RecordsPanel& panel(RecordKind kind)
    {
        for (auto* panel : folder().findChildren<RecordsPanel*>())
            if (panel->form().kind() == kind) return *panel;
        throw DomainError{"no panel of that kind"};
    }
    void save(RecordForm& form)
    {
        key(Qt::Key_S, Qt::ControlModifier);
        for (const auto& field : describe(form.kind()).fields)
            if (auto* editor = form.editor(field.name)) {
                INFO(field.name << ": " << editor->fault().toStdString());
                CHECK(editor->fault().isEmpty());
            }
        CHECK_FALSE(form.isDirty());
    }
};

/// What the owner had set up before: a job type, a supplier with a sheet, a crew member with a rate.
void setUp(Office& office)
{
    Edit edit{"Set up"};
    JobType type;
    type.name = "Patio";
    type.pace = Quantity::ofWhole(25);
    edit.add(type);
    Supplier supplier;
    supplier.name = "Tamarack Ready Mix";
    SheetCharge mix;
    mix.supplier = edit.add(supplier);
    mix.effectiveOn = test::day("2026-01-01");
    mix.code = "4000AE";
    mix.amount = UnitPrice::ofWhole(165);
    edit.add(mix);
    CrewMember person;
    person.name = "Pell Marrow";
    PayRate rate;
    rate.person = edit.add(person);
    rate.fromDate = test::day("2026-01-01");
    rate.hourlyRate = UnitPrice::ofWhole(30);
    edit.add(rate);
    office.commit(edit);
}

}

TEST_CASE("a lead becomes a paid job by keyboard alone", "[window][folders]")
{
    Keyboard desk;
    setUp(desk.office);
    desk.open();
    desk.key(Qt::Key_2, Qt::AltModifier);
    desk.key(Qt::Key_N, Qt::ControlModifier);
    auto& page = *desk.window->findChild<JobFoldersPage*>();

    auto& lead = desk.form(page, RecordKind::lead);
    desk.type(lead, "name", "Nora Bell");
    desk.type(lead, "town", "Alderwick");
    desk.type(lead, "job_type", "Patio");
    desk.save(lead);
    REQUIRE(desk.book().all<Lead>().size() == 1);
    desk.press(page.findChild<QPushButton*>(QStringLiteral("leadToJob")));
    REQUIRE(desk.book().all<Job>().size() == 1);
    const auto& job = [&]() -> const Job& { return desk.book().all<Job>()[0]; };
    CHECK(desk.book().get(job().customer).name == "Nora Bell");

    desk.paper("Takeoff");
    desk.key(Qt::Key_N, Qt::ControlModifier);
    auto& section = desk.form(desk.folder(), RecordKind::takeoffSection);
    desk.type(section, "name", "Slab");
    desk.type(section, "length", "40'");
    desk.type(section, "width", "10'");
    desk.type(section, "thickness", "4\"");
    desk.save(section);
    REQUIRE(desk.book().all<TakeoffSection>().size() == 1);

    desk.paper("Quote");
    desk.press(desk.verb("quoteDraft"));
    REQUIRE(desk.book().all<Quote>().size() == 1);
    // 40 × 10 ft at 4 in is 4.94 yd³, ordered as 5¼ at 5 % (common practice, no source).
    bool carriesTheOrder = false;
    for (const auto& line : desk.book().all<QuoteLine>())
        if (line.costClass == CostClass::concrete && line.code == "4000AE") carriesTheOrder = line.quantity == Quantity::ofUnits(5250);
    CHECK(carriesTheOrder);
    desk.press(desk.verb("quoteSend"));
    CHECK(stageOf(desk.book(), job()) == Stage::quoted);
    desk.press(desk.verb("quoteAccept"));
    CHECK(stageOf(desk.book(), job()) == Stage::awarded);

    desk.paper("Pours");
    desk.key(Qt::Key_N, Qt::ControlModifier);
    auto& pour = desk.form(desk.folder(), RecordKind::pour);
    desk.type(pour, "planned_on", "today");
    desk.save(pour);
    CHECK(stageOf(desk.book(), job()) == Stage::planned);
    desk.press(desk.verb("pourDone"));
    CHECK(stageOf(desk.book(), job()) != Stage::planned);

    desk.paper("Tickets");
    desk.key(Qt::Key_N, Qt::ControlModifier);
    auto& ticket = desk.form(desk.folder(), RecordKind::ticket);
    desk.type(ticket, "supplier", "Tamarack Ready Mix");
    desk.type(ticket, "number", "48213");
    desk.type(ticket, "mix", "4000AE");
    desk.type(ticket, "yards", "5 1/4");
    desk.save(ticket);
    REQUIRE(desk.book().all<Ticket>().size() == 1);
    CHECK(desk.book().all<Ticket>()[0].job == job().id);
    for (auto* bar : desk.folder().findChildren<QTabBar*>())
        if (bar->isVisible()) {
            desk.reach(bar);
            desk.key(Qt::Key_Right);
        }
    desk.key(Qt::Key_N, Qt::ControlModifier);
    auto& hours = desk.form(desk.folder(), RecordKind::hours);
    desk.type(hours, "person", "Pell Marrow");
    desk.type(hours, "phase", "Place");
    desk.type(hours, "minutes", "7:30");
    desk.save(hours);
    REQUIRE(desk.book().all<Hours>().size() == 1);

    // The pour put the visits it needs on the list; each is done.
    desk.paper("Visits");
    REQUIRE_FALSE(desk.book().all<Visit>().empty());
    for (std::size_t i = 0; i < desk.book().all<Visit>().size(); ++i) {
        REQUIRE(desk.panel(RecordKind::visit).table()->select({RecordKind::visit, desk.book().all<Visit>()[i].id.value()}));
        auto& visit = desk.form(desk.folder(), RecordKind::visit);
        desk.type(visit, "done_on", "today");
        desk.save(visit);
    }

    desk.paper("Invoices");
    desk.press(desk.verb("invoiceFinal"));
    REQUIRE(desk.book().all<Invoice>().size() == 1);
    desk.press(desk.verb("invoiceIssue"));
    desk.press(desk.verb("invoicePaid"));
    REQUIRE(desk.book().all<PaymentShare>().size() == 1);

    for (const auto& visit : std::vector<Visit>(desk.book().all<Visit>().begin(), desk.book().all<Visit>().end())) {
        INFO(labelOf(visit.kind));
        CHECK_FALSE(visit.isOpen());
    }
    CHECK(stageOf(desk.book(), job()) == Stage::paid);
}

TEST_CASE("the folder's verbs do not widen the window", "[window][folders]")
{
    Keyboard desk;
    desk.open();
    CHECK(desk.window->minimumSizeHint().width() <= 1280);
    CHECK(desk.window->width() == 1280);
}
