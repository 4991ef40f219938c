#include "app/application.h"

#include "form/field_editor.h"
#include "form/record_form.h"
#include "labels.h"
#include "records/records_page.h"
#include "table/record_table.h"
#include "window/actions.h"
#include "window/book_search.h"
#include "window/main_window.h"
#include "window/message_strip.h"

#include <QAction>
#include <QLineEdit>
#include <QTableView>
#include <QTest>

#include <catch2/catch.hpp>

#include <set>

using namespace strikeoff;
using strikeoff::test::Office;

namespace {

BookShelf plainShelf()
{
    BookShelf shelf;
    shelf.open = [](const std::string& path) { return Store::open(path); };
    shelf.create = [](const std::string& path) { Store::create(path); };
    return shelf;
}

struct Window {
    Office office;
    MainWindow window{office.preferences, plainShelf()};
    Window()
    {
        window.show();
        QApplication::setActiveWindow(&window);
        test::settle();
    }
    void open()
    {
        REQUIRE(window.openBook(qs(office.path)));
        window.desk().setToday(test::day("2026-06-11"));
        test::settle();
    }
};

}

TEST_CASE("no two actions answer to the same keys", "[window]")
{
    std::set<QString> seen;
    int withKeys = 0;
    for (const auto& spec : actionTable())
        for (const auto& keys : keysOf(spec)) {
            INFO(spec.text << " " << keys.toString().toStdString());
            CHECK_FALSE(keys.isEmpty());
            CHECK(seen.insert(keys.toString()).second);
            ++withKeys;
        }
    CHECK(withKeys >= 20);
    CHECK_FALSE(seen.contains(QStringLiteral("Ctrl+S")));  // the forms' own
    CHECK_FALSE(seen.contains(QStringLiteral("Ctrl+Return")));
}

TEST_CASE("text keeps a contrast of at least 5.5 on page, sheet and what is selected", "[window]")
{
    // Ratio by WCAG 2.1; 5.5 is our own rule.
    test::application();
    for (const auto look : {Look::light, Look::dark}) {
        applyLook(look);
        const auto& colors = windowPalette();
        for (const auto& ground : {colors.page, colors.sheet}) {
            for (const auto& text : {colors.ink, colors.quiet, colors.accent, colors.attention, colors.wrong, colors.well}) {
                INFO(text.name().toStdString() << " on " << ground.name().toStdString());
                CHECK(contrastRatio(text, ground) >= 5.5);
            }
        }
        const auto system = QApplication::palette();
        CHECK(contrastRatio(system.color(QPalette::HighlightedText), system.color(QPalette::Highlight)) >= 5.5);
        CHECK(contrastRatio(system.color(QPalette::PlaceholderText), system.color(QPalette::Base)) >= 5.5);
        CHECK(contrastRatio(system.color(QPalette::Disabled, QPalette::ButtonText), colors.page) >= 5.5);
    }
    applyLook(Look::light);
}

TEST_CASE("without a book the window asks for one, and a path that is no book is said so", "[window]")
{
    Window w;
    CHECK_FALSE(w.window.hasBook());
    CHECK_FALSE(w.window.openBook(w.office.folder.filePath(QStringLiteral("nowhere.strikeoff"))));
    CHECK(w.window.strip().isVisible());
    CHECK(w.window.strip().message().contains(QStringLiteral("nowhere")));
    CHECK_FALSE(w.window.action(ActionId::newRecord)->isEnabled());
    w.open();
    CHECK(w.window.hasBook());
    CHECK(w.office.preferences.recentBooks().size() == 1);
}

TEST_CASE("all eight pages open by their keys, each with its question", "[window]")
{
    Window w;
    w.open();
    REQUIRE(w.window.pageCount() == 8);
    const auto* question = w.window.findChild<QLabel*>(QStringLiteral("question"));
    std::set<QString> questions;
    for (int i = 0; i < 8; ++i) {
        QTest::keyClick(&w.window, static_cast<Qt::Key>(Qt::Key_1 + i), Qt::AltModifier);
        CHECK(w.window.currentPage() == i);
        CHECK(question->text().endsWith(u'?'));
        questions.insert(question->text());
    }
    CHECK(questions.size() == 8);
}

TEST_CASE("a record opens on the page that keeps it, and Alt+Left leads back", "[window]")
{
    Window w;
    const auto nora = w.office.addCustomer("Nora Bell");
    w.open();
    w.window.showPage(2);
    w.window.desk().open(nora);
    CHECK(w.window.currentPage() == 1);
    CHECK(w.window.page(1).currentRecord() == RecordRef{RecordKind::customer, nora.value()});
    QTest::keyClick(&w.window, Qt::Key_Left, Qt::AltModifier);
    CHECK(w.window.currentPage() == 2);
    QTest::keyClick(&w.window, Qt::Key_Right, Qt::AltModifier);
    CHECK(w.window.currentPage() == 1);
    CHECK(w.window.page(1).currentRecord() == RecordRef{RecordKind::customer, nora.value()});
}

TEST_CASE("undo names what it undoes and takes it back, redo does it again", "[window]")
{
    Window w;
    w.open();
    Edit edit{"Enter customer Ruth & Amsel"};
    Customer customer;
    customer.name = "Ruth";
    edit.add(customer);
    REQUIRE(w.window.desk().commitOrSay(edit));
    CHECK(w.window.action(ActionId::undo)->text().contains(QStringLiteral("Ruth && Amsel")));
    w.window.action(ActionId::undo)->trigger();
    CHECK(w.window.desk().book().all<Customer>().empty());
    CHECK(w.window.action(ActionId::redo)->text().contains(QStringLiteral("Ruth")));
    w.window.action(ActionId::redo)->trigger();
    CHECK(w.window.desk().book().all<Customer>().size() == 1);
}

TEST_CASE("finding looks across the whole book and opens what it found", "[window]")
{
    Window w;
    const auto nora = w.office.addCustomer("Nora Bell", "gate code 4411");
    const auto job = w.office.addJob(nora, "Patio by the creek");
    w.open();
    w.window.showPage(6);
    w.window.searchField().setFocus();
    QTest::keyClicks(&w.window.searchField(), QStringLiteral("CREEK"));
    QTest::keyClick(&w.window.searchField(), Qt::Key_Return);
    REQUIRE(w.window.results()->model().rowCount() == 1);
    QTest::keyClick(&w.window.results()->view(), Qt::Key_Return);
    CHECK(w.window.currentPage() == 1);
    CHECK(w.window.page(1).currentRecord() == RecordRef{RecordKind::job, job.value()});
    CHECK(w.window.searchField().text().isEmpty());
    // Notes, and what a reference names.
    CHECK(searchBook(w.window.desk().book(), "4411").size() == 1);
    CHECK(searchBook(w.window.desk().book(), "nora").size() == 2);
    CHECK(searchBook(w.window.desk().book(), "nora 4411").size() == 1);
    CHECK(searchBook(w.window.desk().book(), "  ").empty());
}

TEST_CASE("what another program wrote comes into view, and what is half typed stays", "[window]")
{
    Window w;
    w.office.addCustomer("Nora Bell");
    w.open();
    w.window.desk().open(RecordKind::customer, w.window.desk().book().all<Customer>()[0].id.value());
    auto& page = w.window.page(1);
    auto& form = page.findChild<RecordsPage*>()->panel(RecordKind::customer)->form();
    form.editor("phone")->setText(QStringLiteral("555-01"));
    w.office.addCustomer("Tomas Ferrin");
    w.window.desk().lookForNews();
    CHECK(page.table()->model().rowCount() == 2);
    CHECK(form.editor("phone")->text() == QStringLiteral("555-01"));
    CHECK(page.hasUnsaved());
    form.forgetDrafts();
}

TEST_CASE("window geometry and look are remembered", "[window]")
{
    Window w;
    w.open();
    w.window.resize(1100, 700);
    w.window.action(ActionId::lookDark)->trigger();
    CHECK(windowPalette().dark);
    CHECK(w.office.preferences.look() == Look::dark);
    w.window.close();
    CHECK_FALSE(w.office.preferences.geometry().isEmpty());
    applyLook(Look::light);
}

TEST_CASE("the window fits a screen of a thousand pixels and a little", "[window]")
{
    Window desk;
    desk.open();
    std::string widths;
    for (int page = 0; page < 8; ++page) {
        desk.window.showPage(page);
        test::settle();
        widths += " " + std::to_string(page + 1) + ":" + std::to_string(desk.window.page(page).minimumSizeHint().width());
    }
    INFO("least widths of the pages" << widths);
    CHECK(desk.window.minimumSizeHint().width() <= 1'024);
    desk.window.resize(1'000, 700);
    test::settle();
    CHECK(desk.window.width() <= 1'024);
}
