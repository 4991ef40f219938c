#include "app/keyboard.h"

#include "form/visit_strip.h"
#include "pages/day_sheet/day_sheet_page.h"
#include "pages/visits/forecast_model.h"
#include "pages/visits/forecast_sheet.h"
#include "pages/visits/phone_files.h"
#include "pages/visits/visits_page.h"
#include "paper/paper_document.h"
#include "paper/papers.h"
#include "table/grid_view.h"
#include "visits/run_sheet.h"
#include "window/actions.h"

#include <QAction>
#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QTemporaryDir>

using namespace strikeoff;
using strikeoff::test::day;

namespace {

/// A slab to seal, people who go, and Thursday June 11, 2026 for today.
struct Visits : test::Keyboard {
    Id<Job> job;
    Id<Pour> pour;
    Id<Visit> seal;
    Id<CrewMember> ada;

    explicit Visits(const char* due = "2026-06-11")
    {
        job = office.addJob(office.addCustomer("Nora Bell"), "Patio by the creek");
        Edit edit{"A pour and its visit"};
        FinishingProduct product;
        product.name = "Slab Guard";
        product.kind = ProductKind::filmForming;
        product.coverageBroom = Quantity::ofWhole(200);
        product.pricePerGallon = UnitPrice::ofWhole(20);
        product.canGallons = Quantity::ofWhole(5);
        Pour poured;
        poured.job = job;
        poured.pouredOn = day("2026-05-01");
        poured.area = Area::ofWhole(640);
        poured.product = edit.add(product);
        Visit visit;
        visit.job = job;
        visit.pour = edit.add(poured);
        visit.kind = VisitKind::seal;
        visit.due = day(due);
        edit.add(visit);
        for (const auto* name : {"Ada", "Ben"}) {
            CrewMember person;
            person.name = name;
            edit.add(person);
        }
        const auto ids = office.commit(edit);
        pour = Id<Pour>{ids[1]};
        seal = Id<Visit>{ids[2]};
        ada = Id<CrewMember>{ids[3]};
    }
    DaySheetPage& page() { return *window->findChild<DaySheetPage*>(); }
    VisitStrip& strip() { return *page().findChild<VisitStrip*>(); }
    ForecastSheet& forecast() { return *page().findChild<ForecastSheet*>(); }
    QLineEdit* field(const char* name) { return strip().findChild<QLineEdit*>(QString::fromLatin1(name)); }
    void fill(const char* name, const char* text)
    {
        reach(field(name));
        field(name)->selectAll();
        type(text);
    }
    const Visit& visit() { return book().get(seal); }
};

}

TEST_CASE("a visit done is told once and makes hours and material", "[window][visits]")
{
    Visits desk;
    desk.open();
    desk.key(Qt::Key_Return);
    REQUIRE(desk.strip().isAsking());
    CHECK(desk.field("gallons")->text() == QStringLiteral("3.2"));
    desk.fill("minutes", "1:15");
    desk.fill("drive", "40");
    desk.fill("gallons", "3 1/2");
    auto* ada = desk.strip().findChildren<QCheckBox*>().at(1);
    REQUIRE(ada->text() == QStringLiteral("Ada"));
    desk.reach(ada);
    desk.key(Qt::Key_Space);
    desk.fill("photos", "creek-1.jpg");
    desk.fill("note", "dog was in");
    desk.key(Qt::Key_Return);
    CHECK_FALSE(desk.strip().isAsking());
    CHECK(desk.visit().doneOn == day("2026-06-11"));
    CHECK(desk.visit().minutes == Minutes::of(75));
    CHECK(desk.visit().gallons == Quantity::parse("3.5"));
    CHECK(desk.visit().people == 1);
    CHECK(desk.visit().photos == "creek-1.jpg");
    CHECK(desk.visit().note == "dog was in");
    CHECK(desk.book().all<Hours>().size() == 2);
    REQUIRE(desk.book().all<Receipt>().size() == 1);
    CHECK(desk.book().all<Receipt>()[0].amount == Money::ofCents(7000));
    desk.window->action(ActionId::undo)->trigger();  // all of it was one edit
    CHECK(desk.visit().isOpen());
    CHECK(desk.book().all<Hours>().empty());
    CHECK(desk.book().all<Receipt>().empty());
}

TEST_CASE("what cannot be read of a visit is said in its place, and nothing is written", "[window][visits]")
{
    Visits desk;
    desk.open();
    desk.key(Qt::Key_Return);
    desk.fill("minutes", "soon");
    desk.key(Qt::Key_Return);
    CHECK(desk.visit().isOpen());
    auto* fault = desk.strip().findChild<QLabel*>(QStringLiteral("visitFault"));
    CHECK(fault->isVisible());
    CHECK(fault->text().startsWith(QStringLiteral("On site: write minutes")));
    CHECK(QApplication::focusWidget() == desk.field("minutes"));
    desk.fill("minutes", "45");
    CHECK_FALSE(fault->isVisible());
    desk.fill("doneOn", "tomorrow");
    desk.key(Qt::Key_Return);
    CHECK(fault->text().contains(QStringLiteral("has not come yet")));
    desk.fill("doneOn", "yesterday");
    desk.fill("gallons", "many");
    desk.key(Qt::Key_Return);
    CHECK(fault->text().startsWith(QStringLiteral("Gallons")));
    desk.key(Qt::Key_Escape);
    CHECK_FALSE(desk.strip().isAsking());
    CHECK(desk.visit().isOpen());
    CHECK(QApplication::focusWidget()->objectName() == QStringLiteral("dayVerb"));
}

TEST_CASE("a visit that was not made asks why, and stays on the list until it is decided", "[window][visits]")
{
    Visits desk{"2026-06-10"};
    desk.open();
    desk.key(Qt::Key_Return);
    desk.press(desk.strip().findChild<QPushButton*>(QStringLiteral("visitPutOff")));
    CHECK(desk.focused() == QStringLiteral("reason"));
    desk.key(Qt::Key_Return);  // without a word it is not put off
    CHECK_FALSE(desk.visit().putOffOn);
    desk.type("gate was locked");
    desk.key(Qt::Key_Return);
    CHECK(desk.visit().putOffOn == day("2026-06-11"));
    CHECK(desk.visit().putOffReason == "gate was locked");
    CHECK(desk.visit().isOpen());
    desk.key(Qt::Key_Return);  // still there, the keyboard on it
    REQUIRE(desk.strip().isAsking());
    desk.press(desk.strip().findChild<QPushButton*>(QStringLiteral("visitWaive")));
    desk.type("owner seals it himself");
    desk.key(Qt::Key_Return);
    CHECK(desk.visit().waivedReason == "owner seals it himself");
    CHECK_FALSE(desk.strip().isAsking());
}

TEST_CASE("two weeks of weather are typed by keyboard in few strokes", "[window][forecast]")
{
    Visits desk;
    desk.open();
    auto* enter = desk.page().findChild<QPushButton*>(QStringLiteral("enterForecast"));
    desk.press(enter);
    REQUIRE(desk.forecast().isVisible());
    int strokes = 0;
    const auto cell = [&](const char* text) {
        desk.type(text);
        desk.key(Qt::Key_Return);
        strokes += static_cast<int>(std::char_traits<char>::length(text)) + 1;
    };
    for (int i = 0; i < 14; ++i) {
        cell("48");
        cell("71");
        desk.type("30");
        desk.key(Qt::Key_Return, i < 13 ? Qt::ShiftModifier : Qt::ControlModifier);
        strokes += 3;
    }
    CHECK(strokes < 150);  // five a second make half a minute
    REQUIRE(desk.book().all<DayForecast>().size() == 14);
    const auto& last = desk.book().all<DayForecast>()[13];
    CHECK(last.date == day("2026-06-24"));
    CHECK(last.lowF == 48);
    CHECK(last.highF == 71);
    CHECK(last.rainChance == 30);
    CHECK_FALSE(last.windMph);
    CHECK_FALSE(desk.forecast().isVisible());  // back at the day
    CHECK_FALSE(desk.page().hasUnsaved());
    desk.window->action(ActionId::undo)->trigger();
    CHECK(desk.book().all<DayForecast>().empty());
}

TEST_CASE("rows of weather are pasted, a wrong day holds the save, a file is loaded whole or not at all", "[window][forecast]")
{
    Visits desk;
    desk.open();
    ForecastSheet sheet{desk.window->desk()};
    sheet.resize(900, 600);
    sheet.show();
    sheet.takeFocus();
    test::settle();
    QApplication::clipboard()->setText(QStringLiteral("51\t70\t20\n52\t40\t10\n"));
    REQUIRE(QApplication::focusWidget());
    QTest::keySequence(QApplication::focusWidget(), QKeySequence::Paste);
    test::settle();
    CHECK(sheet.hasUnsaved());
    CHECK(sheet.model().readings()[0].forecast.highF == 70);
    CHECK_FALSE(sheet.save());
    CHECK(sheet.model().wordsAt(1).contains(QStringLiteral("the high is below the low")));
    CHECK(desk.book().all<DayForecast>().empty());
    sheet.model().setData(sheet.model().index(1, 2), QStringLiteral("74"), Qt::EditRole);
    CHECK(sheet.save());
    CHECK(desk.book().all<DayForecast>().size() == 2);

    QTemporaryDir folder;
    const auto path = folder.filePath(QStringLiteral("weather.csv"));
    const auto write = [&](const char* text) {
        QFile file{path};
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(text);
    };
    write("date,low_f,high_f,rain_chance_pct,rain_from,rain_to,wind_mph,humidity_pct\n2026-06-12,50,72,40,13:00,16:00,9,60\n2026-06-13,forty,72,,,,,\n");
    CHECK_FALSE(sheet.loadFile(path));
    CHECK(desk.book().all<DayForecast>().size() == 2);
    write("date,low_f,high_f,rain_chance_pct,rain_from,rain_to,wind_mph,humidity_pct\n2026-06-12,50,72,40,13:00,16:00,9,60\n2026-06-14,48,72,,,,,\n");
    CHECK(sheet.loadFile(path));
    CHECK(desk.book().all<DayForecast>().size() == 3);
    CHECK(sheet.model().readings()[1].forecast.windMph == 9);
}

TEST_CASE("tomorrow's load stands on the day sheet to be ticked off, and its run goes on paper", "[window][visits]")
{
    Visits desk{"2026-06-12"};
    desk.open();
    const auto boxes = [&] { return desk.page().findChildren<QCheckBox*>(QStringLiteral("loadItem")); };
    REQUIRE(boxes().size() == 5);
    CHECK(boxes().first()->accessibleName() == QStringLiteral("5 gal of Slab Guard (one can of 5 gal; 3.4 gal needed with 5 % spare)"));
    for (auto* words : boxes().first()->parentWidget()->findChildren<QLabel*>()) {
        INFO(words->text().toStdString());
        CHECK(words->minimumSizeHint().width() < 300);  // long words go on the next line, and the column is never pushed out of sight
    }
    desk.reach(boxes().first());
    desk.key(Qt::Key_Space);
    desk.page().refresh();
    CHECK(boxes().first()->isChecked());  // still ticked after the book changed

    const auto words = plainText(runSheetPaper(desk.book().settings(), runSheet(desk.book(), day("2026-06-12"))));
    for (const auto* part : {"Run sheet", "Fri Jun 12, 2026", "1. Seal Patio by the creek, pour 1", "Nora Bell", "Slab Guard", "5", "Sprayer", "the label governs"}) {
        INFO(part);
        CHECK(words.find(part) != std::string::npos);
    }
}

TEST_CASE("planned visits go to the phone as a calendar and as addresses", "[window][visits]")
{
    Visits desk;
    desk.open();
    QTemporaryDir folder;
    const auto calendar = folder.filePath(QStringLiteral("visits.ics"));
    CHECK_FALSE(saveCalendar(desk.window->desk(), calendar));  // due, but planned for no day
    CHECK_FALSE(QFile::exists(calendar));
    auto planned = desk.visit();
    planned.plannedOn = day("2026-06-15");
    Edit edit{"Plan it"};
    edit.change(planned);
    REQUIRE(desk.window->desk().commitOrSay(edit));
    REQUIRE(saveCalendar(desk.window->desk(), calendar));
    REQUIRE(saveAddresses(desk.window->desk(), folder.filePath(QStringLiteral("where.vcf"))));
    const auto words = [&](const char* name) {
        QFile file{folder.filePath(QString::fromLatin1(name))};
        REQUIRE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    };
    CHECK(words("visits.ics").contains("DTSTART;VALUE=DATE:20260615\r\nSUMMARY:Seal Patio by the creek\\, pour 1\r\n"));
    CHECK(words("where.vcf").contains("FN:Nora Bell\r\n"));
}

TEST_CASE("the forecast is typed on the page of visits too", "[window][forecast]")
{
    Visits desk;
    desk.open();
    desk.key(Qt::Key_4, Qt::AltModifier);
    auto& page = *desk.window->findChild<VisitsPage*>();
    auto* sheet = page.findChild<ForecastSheet*>();
    REQUIRE(sheet);
    page.showTab(static_cast<const Page*>(sheet->parentWidget()));
    page.takeFocus();
    test::settle();
    REQUIRE(sheet->isVisible());
    desk.type("48");
    desk.key(Qt::Key_Return);
    desk.type("71");
    CHECK(sheet->view().isVisible());
    desk.key(Qt::Key_Return, Qt::ControlModifier);
    REQUIRE(desk.book().all<DayForecast>().size() == 1);
    CHECK(desk.book().all<DayForecast>()[0].highF == 71);
    CHECK_FALSE(page.hasUnsaved());
}
