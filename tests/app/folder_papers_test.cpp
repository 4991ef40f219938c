#include "app/application.h"

#include "form/field_editor.h"
#include "form/lines_editor.h"
#include "form/reason_strip.h"
#include "form/record_form.h"
#include "job/stage.h"
#include "job/steps.h"
#include "labels.h"
#include "pages/job_folders/job_folder_view.h"
#include "pages/job_folders/job_folders_page.h"
#include "pages/job_folders/takeoff_view.h"
#include "records/records_panel.h"
#include "table/record_table.h"

#include <QLineEdit>
#include <QPushButton>
#include <QScrollBar>
#include <QTabWidget>
#include <QTableView>
#include <QTest>

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::test::Office;

namespace {

/// A folder open in a window of its own.
struct Folder {
    Office office;
    std::unique_ptr<JobFoldersPage> page;
    Id<Job> job;

    Folder()
    {
        const auto customer = office.addCustomer("Nora Bell");
        job = office.addJob(customer, "Patio");
        page = std::make_unique<JobFoldersPage>(*office.desk);
        QObject::connect(office.desk.get(), &Desk::changed, page.get(), &JobFoldersPage::refresh);
        page->resize(1056, 700);
        page->show();
        QApplication::setActiveWindow(page.get());
        page->refresh();
        REQUIRE(page->openRecord(RecordKind::job, job.value()));
        test::settle();
    }
    const Book& book() { return office.book(); }
    const Job& record() { return book().get(job); }
    JobFolderView& view() { return *page->findChild<JobFolderView*>(); }
    QPushButton* verb(const char* name) { return view().findChild<QPushButton*>(QString::fromLatin1(name)); }
    void click(QPushButton* button)
    {
        REQUIRE(button);
        INFO(button->text().toStdString());
        REQUIRE(button->isVisible());
        REQUIRE(button->isEnabled());
        QTest::mouseClick(button, Qt::LeftButton);
        test::settle();
    }
    QPushButton* paper(const char* name)
    {
        for (auto* button : view().findChildren<QPushButton*>(QStringLiteral("paper")))
            if (button->text().startsWith(QString::fromLatin1(name))) return button;
        return nullptr;
    }
    RecordForm& form(RecordKind kind)
    {
        for (auto* form : view().findChildren<RecordForm*>())
            if (form->kind() == kind) return *form;
        throw DomainError{"no form of that kind"};
    }
    void take(const Step& step)
    {
        INFO(step.obstacle);
        REQUIRE(step.possible());
        office.commit(*step.edit);
        test::settle();
    }
    Id<Quote> startedQuote()
    {
        take(startQuote(book(), record(), office.desk->today()));
        return book().all<Quote>()[0].id;
    }
    LinesEditor& lines()
    {
        for (auto* editor : view().findChildren<LinesEditor*>())
            if (editor->isVisible()) return *editor;
        throw DomainError{"no lines in view"};
    }
    QString words(const char* name)
    {
        for (auto* label : view().findChildren<QLabel*>(QString::fromLatin1(name)))
            if (label->isVisible()) return label->text();
        return {};
    }
    /// Types into the cell being edited and goes on with Enter.
    void cell(const char* text)
    {
        auto* focus = QApplication::focusWidget();
        REQUIRE(focus);
        INFO(text << " in " << focus->objectName().toStdString());
        REQUIRE_FALSE(focus->objectName().isEmpty());
        if (auto* line = qobject_cast<QLineEdit*>(focus)) line->selectAll();
        QTest::keyClicks(focus, QString::fromUtf8(text));
        QTest::keyClick(focus, Qt::Key_Return);
        test::settle();
    }
};

void add(Office& office, const TakeoffSection& section)
{
    Edit edit{"Measure"};
    edit.add(section);
    office.commit(edit);
}

TakeoffSection slab(Id<Job> job, int position, const char* name)
{
    TakeoffSection section;
    section.job = job;
    section.position = position;
    section.name = name;
    section.length = TapeLength::ofFeet(40);
    section.width = TapeLength::ofFeet(10);
    section.thickness = TapeLength::ofInches(4);
    return section;
}

}

TEST_CASE("a takeoff is drawn and added up while it is typed", "[window][folders]")
{
    Folder folder;
    folder.click(folder.paper("Takeoff"));
    auto& takeoff = *folder.view().findChild<TakeoffView*>();
    CHECK(takeoff.plan().text().isEmpty());
    auto& form = folder.form(RecordKind::takeoffSection);
    const auto type = [&](const char* field, const char* text) {
        auto* input = qobject_cast<QLineEdit*>(&form.editor(field)->input());
        REQUIRE(input);
        REQUIRE(input->isVisible());
        input->selectAll();
        QTest::keyClicks(input, QString::fromUtf8(text));
    };
    type("name", "Slab");
    type("length", "40'");
    type("width", "10'");
    CHECK(takeoff.plan().text().isEmpty());
    CHECK(folder.words("takeoffRemarks").contains(QStringLiteral("Thickness is missing")));
    type("thickness", "4\"");
    type("joint_spacing", "10'");

    // 40 × 10 ft at 4 in is 400 sq ft and 4.94 yd³, ordered as 5¼ at 5 %; joints every 10 ft make four panels (common practice, no source).
    const auto drawn = takeoff.plan().text();
    for (const auto* words : {"Slab", "40'", "10'", "400 sq ft, 4\" thick"}) {
        INFO(words << " in " << drawn.toStdString());
        CHECK(drawn.contains(QString::fromUtf8(words)));
    }
    QStringList figures;
    for (auto* label : takeoff.findChildren<QLabel*>())
        if (label->isVisible()) figures << label->text();
    for (const auto* figure : {"400 sq ft", "4.94 yd\u00b3", "5.25 yd\u00b3, with 5% over", "one load", "30 ft, 1 in deep"}) {
        INFO(figure);
        CHECK(figures.contains(QString::fromUtf8(figure)));
    }
    CHECK(folder.words("sectionWords").contains(QStringLiteral("4 panels, each 10' \u00d7 10'")));
    CHECK(folder.words("takeoffRemarks").isEmpty());

    type("joint_spacing", "13'");
    CHECK(folder.words("takeoffRemarks").contains(QStringLiteral("Joints 13' apart are more than 12'")));
    CHECK(folder.book().all<TakeoffSection>().empty());  // nothing of it is saved yet
}

TEST_CASE("a click on a shape shows its section, and a shape asks only for its own readings", "[window][folders]")
{
    Folder folder;
    add(folder.office, slab(folder.job, 1, "Slab"));
    auto round = slab(folder.job, 2, "Landing");
    round.shape = SectionShape::circle;
    add(folder.office, round);
    folder.click(folder.paper("Takeoff"));
    auto& takeoff = *folder.view().findChild<TakeoffView*>();
    auto& form = folder.form(RecordKind::takeoffSection);
    for (const int shape : {1, 0}) {
        const auto place = takeoff.plan().placeOf(shape);
        REQUIRE(place.isValid());
        QTest::mouseClick(takeoff.plan().viewport(), Qt::LeftButton, {}, place.center().toPoint());
        test::settle();
        CHECK(form.editor("name")->text() == (shape == 1 ? QStringLiteral("Landing") : QStringLiteral("Slab")));
        CHECK(form.editor("width")->isVisible() == (shape == 0));
        CHECK_FALSE(form.editor("points")->isVisible());
    }
}

TEST_CASE("the run of a folder begins with the lead and says of each paper how it stands", "[window][folders]")
{
    Folder folder;
    QStringList names;
    for (auto* button : folder.view().findChildren<QPushButton*>(QStringLiteral("paper"))) names << button->text().section(u'\n', 0, 0).replace(QStringLiteral("&&"), QStringLiteral("&"));
    CHECK(names == QStringList{"Lead", "Takeoff", "Quote", "Pours", "Tickets & hours", "Visits", "Invoices", "Result"});
    CHECK(folder.paper("Takeoff")->text().endsWith(QStringLiteral("blank")));
    add(folder.office, slab(folder.job, 1, "Slab"));
    test::settle();
    CHECK(folder.paper("Takeoff")->text() == QStringLiteral("Takeoff\n400 sq ft\ndone"));
    folder.startedQuote();
    CHECK(folder.paper("Quote")->text().endsWith(QStringLiteral("in work")));

    folder.click(folder.paper("Lead"));
    auto& lead = folder.form(RecordKind::lead);
    CHECK(lead.isVisible());
    CHECK(folder.form(RecordKind::job).isVisible());
    // A job that came without a lead is given one, and it is this job's.
    CHECK(lead.editor("name")->text() == QStringLiteral("Nora Bell"));
    QTest::keyClicks(&lead.editor("phone")->input(), QStringLiteral("555-0101"));
    REQUIRE(lead.save());
    REQUIRE(folder.book().all<Lead>().size() == 1);
    CHECK(folder.record().lead == folder.book().all<Lead>()[0].id);
}

TEST_CASE("declining a quote asks why in its place", "[window][folders]")
{
    Folder folder;
    const auto quote = folder.startedQuote();
    Edit edit{"Write a line"};
    QuoteLine line;
    line.quote = quote;
    line.description = "Slab";
    line.unitCost = UnitPrice::ofWhole(100);
    edit.add(line);
    folder.office.commit(edit);
    folder.take(sendQuote(folder.book(), folder.book().get(quote), folder.office.desk->today()));
    folder.click(folder.paper("Quote"));
    folder.click(folder.verb("quoteDecline"));
    auto& strip = *folder.view().findChild<ReasonStrip*>();
    REQUIRE(strip.isVisible());
    CHECK(QApplication::activeModalWidget() == nullptr);
    auto* reason = strip.findChild<QLineEdit*>(QStringLiteral("reason"));
    CHECK(QApplication::focusWidget() == reason);

    QTest::keyClick(reason, Qt::Key_Return);
    CHECK(strip.isVisible());
    CHECK(folder.words("reasonFault").startsWith(QStringLiteral("Say why")));
    CHECK_FALSE(folder.book().get(quote).declinedOn);

    QTest::keyClicks(reason, QStringLiteral("went with a cheaper bid"));
    QTest::keyClick(reason, Qt::Key_Return);
    test::settle();
    CHECK_FALSE(strip.isVisible());
    CHECK(folder.book().get(quote).declinedOn);
    CHECK(folder.book().get(quote).declinedReason == "went with a cheaper bid");
    CHECK_FALSE(folder.verb("quoteDecline")->isVisible());
    CHECK(folder.verb("quoteRevise")->isVisible());
}

TEST_CASE("dropping a job asks why, and Esc leaves the job as it is", "[window][folders]")
{
    Folder folder;
    folder.click(folder.paper("Lead"));
    folder.click(folder.verb("jobDrop"));
    auto& strip = *folder.view().findChild<ReasonStrip*>();
    auto* reason = strip.findChild<QLineEdit*>(QStringLiteral("reason"));
    QTest::keyClick(reason, Qt::Key_Escape);
    CHECK_FALSE(strip.isVisible());
    CHECK_FALSE(folder.record().droppedOn);
    folder.click(folder.verb("jobDrop"));
    QTest::keyClicks(reason, QStringLiteral("sold the house"));
    QTest::keyClick(reason, Qt::Key_Return);
    test::settle();
    CHECK(folder.record().droppedReason == "sold the house");
    CHECK(stageOf(folder.book(), folder.record()) == Stage::dropped);
}

TEST_CASE("lines of a quote are typed in place, summed as they stand and saved as one edit", "[window][folders]")
{
    Folder folder;
    folder.click(folder.paper("Quote"));
    folder.click(folder.verb("quoteStart"));
    const auto quote = folder.book().all<Quote>()[0].id;
    auto& lines = folder.lines();
    folder.click(lines.findChild<QPushButton*>(QStringLiteral("addLine")));
    // Class, phase, description, code, quantity, unit, cost, price; then the tick for tax, and Enter begins the next line.
    for (const auto* text : {"Concrete", "", "Mix, 4000 psi", "4000AE", "5 1/4", "yd", "165", "200"}) folder.cell(text);
    CHECK(folder.words("linesAnswer").startsWith(QStringLiteral("Price $1,050.00; reckoned to cost $866.25")));  // 5.25 × 200 and 5.25 × 165
    QTest::keyClick(&lines.view(), Qt::Key_Return);
    test::settle();
    for (const auto* text : {"Labor", "Place", "Place and finish", "", "10", "h", "40", "60"}) folder.cell(text);
    CHECK(folder.words("linesAnswer").startsWith(QStringLiteral("Price $1,650.00")));
    CHECK(folder.book().all<QuoteLine>().empty());
    CHECK(folder.page->hasUnsaved());

    QTest::keyClick(&lines.view(), Qt::Key_S, Qt::ControlModifier);
    test::settle();
    REQUIRE(folder.book().referring<&QuoteLine::quote>(quote).size() == 2);
    const auto saved = folder.book().referring<&QuoteLine::quote>(quote);
    CHECK(saved[0]->costClass == CostClass::concrete);
    CHECK(saved[0]->code == "4000AE");
    CHECK(saved[0]->quantity == Quantity::ofUnits(5250));
    CHECK(saved[1]->phase == Phase::place);
    CHECK(saved[1]->unitPrice == UnitPrice::ofWhole(60));
    CHECK_FALSE(folder.page->hasUnsaved());

    // One line is changed, one taken out and one put in: still one step to take back.
    lines.view().setCurrentIndex(lines.model().index(0, lines.model().columnOf("quantity")));
    QTest::keyClick(&lines.view(), Qt::Key_Return);
    folder.cell("6");
    lines.view().setFocus();
    lines.view().setCurrentIndex(lines.model().index(1, 2));
    QTest::keyClick(&lines.view(), Qt::Key_Delete);
    folder.click(lines.findChild<QPushButton*>(QStringLiteral("addLine")));
    for (const auto* text : {"Pump", "", "Line pump", "", "1", "ea", "600", ""}) folder.cell(text);
    REQUIRE(lines.save());
    test::settle();
    const auto changed = folder.book().referring<&QuoteLine::quote>(quote);
    REQUIRE(changed.size() == 2);
    CHECK(changed[0]->quantity == Quantity::ofWhole(6));
    CHECK(changed[1]->costClass == CostClass::pump);
    folder.office.desk->undo();
    test::settle();
    const auto back = folder.book().referring<&QuoteLine::quote>(quote);
    REQUIRE(back.size() == 2);
    CHECK(back[0]->quantity == Quantity::ofUnits(5250));
    CHECK(lines.model().rowCount() == 2);
}

TEST_CASE("a line that cannot be read is named, and nothing of the lines is saved", "[window][folders]")
{
    Folder folder;
    folder.startedQuote();
    folder.click(folder.paper("Quote"));
    auto& lines = folder.lines();
    folder.click(lines.findChild<QPushButton*>(QStringLiteral("addLine")));
    for (const auto* text : {"Concrete", "", "Mix", "", "five", "yd", "165", ""}) folder.cell(text);
    CHECK_FALSE(lines.save());
    CHECK(folder.words("linesProblem").startsWith(QStringLiteral("Line 1: ")));
    CHECK(lines.view().currentIndex().column() == lines.model().columnOf("quantity"));
    CHECK(lines.view().currentIndex().data().toString() == QStringLiteral("five"));
    CHECK(folder.book().all<QuoteLine>().empty());
    // A step is not taken over lines that could not be saved.
    folder.click(folder.verb("quoteSend"));
    CHECK_FALSE(folder.book().all<Quote>()[0].sentOn);

    folder.click(lines.findChild<QPushButton*>(QStringLiteral("putBackLines")));
    CHECK(lines.model().rowCount() == 0);
    CHECK_FALSE(folder.page->hasUnsaved());
}

TEST_CASE("the lines of a quote that was sent stay as they are, those of its revision do not", "[window][folders]")
{
    Folder folder;
    const auto quote = folder.startedQuote();
    folder.click(folder.paper("Quote"));
    auto& lines = folder.lines();
    folder.click(lines.findChild<QPushButton*>(QStringLiteral("addLine")));
    for (const auto* text : {"Concrete", "", "Mix", "", "5", "yd", "165", ""}) folder.cell(text);
    folder.click(folder.verb("quoteSend"));  // saves the lines first
    REQUIRE(folder.book().get(quote).sentOn);
    CHECK(folder.book().referring<&QuoteLine::quote>(quote).size() == 1);
    CHECK_FALSE(lines.findChild<QPushButton*>(QStringLiteral("saveLines"))->isVisible());
    CHECK_FALSE(folder.words("linesLocked").isEmpty());
    lines.view().setCurrentIndex(lines.model().index(0, 2));
    QTest::keyClicks(&lines.view(), QStringLiteral("X"));
    QTest::keyClick(&lines.view(), Qt::Key_Delete);
    CHECK(lines.model().rowCount() == 1);
    CHECK_FALSE(folder.page->hasUnsaved());

    folder.click(folder.verb("quoteRevise"));
    CHECK(lines.model().rowCount() == 1);
    CHECK(folder.words("linesLocked").isEmpty());
    CHECK(lines.findChild<QPushButton*>(QStringLiteral("saveLines"))->isVisible());
}

TEST_CASE("a list of one row folds away and unfolds for the second", "[window][folders]")
{
    Folder folder;
    const auto pour = [&](int sequence) {
        Edit edit{"Plan a pour"};
        Pour row;
        row.job = folder.job;
        row.sequence = sequence;
        edit.add(row);
        folder.office.commit(edit);
        test::settle();
    };
    pour(1);
    folder.click(folder.paper("Pours"));
    auto* table = folder.page->table();
    REQUIRE(table);
    auto& form = folder.form(RecordKind::pour);
    CHECK_FALSE(table->isVisible());
    CHECK(form.width() > folder.page->width() * 3 / 4);
    CHECK(form.editor("sequence")->text() == QStringLiteral("1"));
    pour(2);
    CHECK(table->isVisible());
}
