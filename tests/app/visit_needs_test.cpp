#include "app/keyboard.h"

#include "form/field_editor.h"
#include "form/record_form.h"
#include "form/visit_strip.h"
#include "pages/day_sheet/day_sheet_page.h"
#include "pages/job_folders/job_folder_view.h"
#include "pages/visits/forecast_sheet.h"
#include "pages/visits/phone_files.h"
#include "pages/visits/plan_page.h"
#include "pages/visits/visits_page.h"
#include "paper/paper_document.h"
#include "table/record_table.h"
#include "window/actions.h"

#include <QAction>
#include <QFile>
#include <QLineEdit>
#include <QTabWidget>

using namespace strikeoff;
using strikeoff::test::day;

namespace {

/// A patio poured on Monday June 8, 2026 whose visits nobody wrote down; today is Thursday.
struct Poured : test::Keyboard {
    Id<Job> job;
    Id<Pour> pour;
    Id<JobType> patio;

    Poured()
    {
        job = office.addJob(office.addCustomer("Nora Bell"), "Patio by the creek");
        Edit edit{"A pour typed on its form"};
        JobType ofPatios;
        ofPatios.name = "Patio";
        ofPatios.sealVisit = false;
        ofPatios.resealMonths = 30;
        Pour poured;
        poured.job = job;
        poured.pouredOn = day("2026-06-08");
        poured.placedAt = ClockTime::of(8, 0);
        poured.area = Area::ofWhole(640);
        edit.add(ofPatios);
        edit.add(poured);
        const auto ids = office.commit(edit);
        patio = Id<JobType>{ids[0]};
        pour = Id<Pour>{ids[1]};
        auto of = office.book().get(job);
        of.jobType = patio;
        Edit give{"Give it its type"};
        give.change(of);
        office.commit(give);
    }
    VisitsPage& page() { return *window->findChild<VisitsPage*>(); }
    QPushButton* button(QWidget& in, const char* name) { return in.findChild<QPushButton*>(QString::fromLatin1(name)); }
    Id<Visit> of(VisitKind kind)
    {
        for (const auto& visit : book().all<Visit>())
            if (visit.kind == kind) return visit.id;
        return {};
    }
};

}

TEST_CASE("visits that pours need and nobody wrote down are put on the list with one button, and taken off again", "[window][visits]")
{
    Poured desk;
    desk.open();
    desk.key(Qt::Key_4, Qt::AltModifier);
    CHECK(desk.page().findChild<QLabel*>(QStringLiteral("visitsMissing"))->text()
          == QStringLiteral("Four visits that pours need are not on the list yet: strip, cut, walk-through and reseal call."));
    desk.press(desk.button(desk.page(), "addMissingVisits"));
    CHECK(desk.book().all<Visit>().size() == 4);
    CHECK_FALSE(desk.button(desk.page(), "addMissingVisits")->isVisible());
    desk.window->action(ActionId::undo)->trigger();
    CHECK(desk.book().all<Visit>().empty());
    CHECK(desk.button(desk.page(), "addMissingVisits")->isVisible());
}

TEST_CASE("a job's folder says which visits its pours need, and puts them on the list", "[window][visits][folders]")
{
    Poured desk;
    desk.open();
    desk.window->openRecord(RecordKind::visit, 0);
    desk.window->openRecord(RecordKind::job, desk.job.value());
    test::settle();
    auto& folder = *desk.window->findChild<JobFolderView*>();
    for (auto* paper : folder.findChildren<QPushButton*>(QStringLiteral("paper")))
        if (paper->text().startsWith(QStringLiteral("Visits"))) paper->click();
    test::settle();
    auto* note = folder.findChild<QLabel*>(QStringLiteral("folderNote"));
    CHECK(note->text().startsWith(QStringLiteral("Four visits that pours need")));
    desk.press(desk.button(folder, "visitsMissing"));
    CHECK(desk.book().all<Visit>().size() == 4);
    CHECK_FALSE(note->isVisible());
    CHECK_FALSE(desk.button(folder, "visitsMissing")->isVisible());

    // Where no day is typed, the form says what is reckoned, and why.
    desk.window->openRecord(RecordKind::visit, desk.of(VisitKind::walkThrough).value());
    test::settle();
    auto* why = desk.page().findChild<QLabel*>(QStringLiteral("windowWhy"));
    REQUIRE(why);
    CHECK(why->text().startsWith(QStringLiteral("The customer is walked through from three days after the last pour")));

    for (auto* paper : folder.findChildren<QPushButton*>(QStringLiteral("paper")))
        if (paper->text().startsWith(QStringLiteral("Pours"))) paper->click();
    desk.window->showPage(1);
    test::settle();
    CHECK(note->text().startsWith(QStringLiteral("Broom about")));
}

TEST_CASE("the page opens on the plan with the plan's answer, the list is beside it, and the forecast leads back to it", "[window][visits]")
{
    Poured desk;
    desk.open();
    desk.key(Qt::Key_4, Qt::AltModifier);
    desk.press(desk.button(desk.page(), "addMissingVisits"));
    auto& plan = *desk.page().findChild<PlanPage*>();
    REQUIRE(plan.isVisible());
    CHECK(desk.page().answer() == QString::fromStdString(plan.plan().answer));
    CHECK(desk.page().answer().startsWith(QStringLiteral("Three visits in one run")));

    auto* lists = plan.findChild<QTabWidget*>();
    lists->setCurrentIndex(1);
    test::settle();
    auto& all = *plan.table();
    CHECK(all.model().shownRows() == 3);
    all.setFilter(QStringLiteral("walk"));
    CHECK(all.model().shownRows() == 1);
    all.setFilter({});
    REQUIRE(all.select({RecordKind::visit, desk.of(VisitKind::cut).value()}));
    CHECK(plan.chosen()->id == desk.of(VisitKind::cut));

    desk.press(desk.button(plan, "typeForecast"));
    auto* sheet = desk.page().findChild<ForecastSheet*>();
    REQUIRE(sheet->isVisible());
    CHECK(desk.page().answer().startsWith(QStringLiteral("None of 14 days has a forecast")));
    desk.type("48");
    desk.key(Qt::Key_Return);
    desk.type("71");
    desk.key(Qt::Key_Return, Qt::ControlModifier);
    CHECK(desk.book().all<DayForecast>().size() == 1);
    CHECK(plan.isVisible());  // what the weather makes of the plan

    const auto words = plainText(plan.paper().value());  // the day's run sheet
    CHECK(words.find("Run sheet") != std::string::npos);
    CHECK(words.find("Walk through Patio by the creek, pour 1") != std::string::npos);
    CHECK(words.find("Drive, min") != std::string::npos);
    CHECK(words.find("is not recorded, 30 minutes are taken") != std::string::npos);
}

TEST_CASE("a reseal call due on the day sheet comes back as a lead with the old job's area and price", "[window][visits]")
{
    Poured desk;
    Visit call;
    call.job = desk.job;
    call.pour = desk.pour;
    call.kind = VisitKind::resealCall;
    call.due = day("2026-06-11");
    Edit edit{"A call"};
    edit.add(call);
    desk.office.commit(edit);
    desk.open();
    auto& page = *desk.window->findChild<DaySheetPage*>();
    QPushButton* line = nullptr;
    for (auto* verb : page.findChildren<QPushButton*>(QStringLiteral("dayVerb")))
        if (verb->accessibleName().contains(QStringLiteral("about resealing Patio by the creek"))) line = verb;
    REQUIRE(line);
    CHECK(line->text() == QStringLiteral("Call"));
    desk.press(line);
    auto& strip = *page.findChild<VisitStrip*>();
    REQUIRE(strip.isAsking());
    desk.press(desk.button(strip, "visitLead"));
    REQUIRE(desk.book().all<Lead>().size() == 1);
    const auto& lead = desk.book().all<Lead>()[0];
    CHECK(lead.source == LeadSource::reseal);
    CHECK(lead.name == "Nora Bell");
    CHECK(lead.jobType == desk.patio);
    CHECK(lead.area == Area::ofWhole(640));
    CHECK(lead.wish.starts_with("Reseal of Patio by the creek (job "));
    CHECK_FALSE(desk.book().get(desk.of(VisitKind::resealCall)).isOpen());
}

TEST_CASE("a visit put off without a new day is struck out of the phone by the next calendar", "[window][visits]")
{
    Poured desk;
    Visit strip;
    strip.job = desk.job;
    strip.pour = desk.pour;
    strip.kind = VisitKind::strip;
    strip.plannedOn = day("2026-06-12");
    Edit edit{"A visit"};
    edit.add(strip);
    const Id<Visit> id{desk.office.commit(edit).front()};
    desk.open();
    QTemporaryDir folder;
    const auto path = folder.filePath(QStringLiteral("visits.ics"));
    const auto saved = [&] {
        REQUIRE(saveCalendar(desk.window->desk(), path));
        QFile file{path};
        REQUIRE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    };
    const auto first = saved();
    CHECK(first.contains("STATUS:CONFIRMED"));
    const auto uid = first.mid(first.indexOf("UID:"), first.indexOf("\r\n", first.indexOf("UID:")) - first.indexOf("UID:"));
    REQUIRE(desk.window->desk().perform(putOffVisit(desk.book(), desk.book().get(id), "rain", day("2026-06-11"))));
    const auto next = saved();
    CHECK(next.contains("STATUS:CANCELLED"));
    CHECK_FALSE(next.contains("STATUS:CONFIRMED"));
    CHECK(next.contains(uid));
    CHECK(next.contains("SEQUENCE:2"));
    CHECK(next.contains("DTSTART;VALUE=DATE:20260612"));
    desk.window->action(ActionId::undo)->trigger();
    CHECK(saved().contains("STATUS:CONFIRMED"));
}
