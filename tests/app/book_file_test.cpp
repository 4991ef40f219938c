#include "app/application.h"
#include "app/dialogs.h"

#include "database.h"
#include "form/field_editor.h"
#include "form/record_form.h"
#include "labels.h"
#include "records/records_page.h"
#include "table/record_table.h"
#include "window/main_window.h"
#include "window/message_strip.h"
#include "window/page_list.h"
#include "window/run_window.h"

#include <QAction>
#include <QFile>
#include <QTest>

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::test::Office;

namespace {

struct FileWindow {
    Office office;
    std::unique_ptr<MainWindow> window;

    void open()
    {
        office.desk.reset();
        office.store.reset();
        window = std::make_unique<MainWindow>(office.preferences, booksInFiles());
        window->show();
        QApplication::setActiveWindow(window.get());
        test::settle();
        REQUIRE(window->openBook(qs(office.path)));
        window->desk().setToday(test::day("2026-06-11"));
        test::settle();
    }
    RecordForm& customerForm() { return window->page(1).findChild<RecordsPage*>()->panel(RecordKind::customer)->form(); }
};

}

TEST_CASE("a book that can only be read says so, changes nothing, and keeps what is typed", "[window][file]")
{
    FileWindow w;
    const auto nora = w.office.addCustomer("Nora Bell");
    w.office.store.reset();
    REQUIRE(QFile::setPermissions(qs(w.office.path), QFile::ReadOwner | QFile::ReadGroup | QFile::ReadOther));
    w.open();
    CHECK(w.window->desk().store().isReadOnly());
    CHECK(w.window->strip().isVisible());
    CHECK(w.window->strip().message().contains(QStringLiteral("can only be read")));
    CHECK_FALSE(w.window->action(ActionId::undo)->isEnabled());

    REQUIRE(w.window->openRecord(RecordKind::customer, nora.value()));
    auto& form = w.customerForm();
    form.editor("phone")->input().setFocus();
    QTest::keyClicks(&form.editor("phone")->input(), QStringLiteral("555-0177"));
    QTest::keyClick(&form.editor("phone")->input(), Qt::Key_S, Qt::ControlModifier);
    CHECK(form.editor("phone")->text() == QStringLiteral("555-0177"));
    CHECK(form.isDirty());
    CHECK(w.window->page(1).hasUnsaved());
    CHECK(w.window->desk().book().get(nora).phone.empty());
    CHECK(w.window->strip().message().contains(QStringLiteral("look only")));
    form.forgetDrafts();
}

TEST_CASE("a book that another program is writing to refuses a change in words, and what was typed is saved afterwards", "[window][file]")
{
    FileWindow w;
    const auto nora = w.office.addCustomer("Nora Bell");
    w.open();
    REQUIRE(w.window->openRecord(RecordKind::customer, nora.value()));
    auto& form = w.customerForm();
    form.editor("phone")->input().setFocus();
    QTest::keyClicks(&form.editor("phone")->input(), QStringLiteral("555-0177"));
    {
        Database other{w.office.path, Database::Mode::readWrite};
        const Transaction held{other};
        QTest::keyClick(&form.editor("phone")->input(), Qt::Key_S, Qt::ControlModifier);
        CHECK(w.window->strip().message().contains(QStringLiteral("another program is writing to it")));
        CHECK(form.editor("phone")->text() == QStringLiteral("555-0177"));
        CHECK(form.isDirty());
    }
    QTest::keyClick(&form.editor("phone")->input(), Qt::Key_S, Qt::ControlModifier);
    CHECK_FALSE(form.isDirty());
    CHECK(w.window->desk().book().get(nora).phone == "555-0177");
}

TEST_CASE("an edit that was written is not said to be lost because a page could not show it", "[desk]")
{
    Office office;
    QString said;
    QObject::connect(office.desk.get(), &Desk::said, [&](const QString& message) { said = message; });
    QObject::connect(office.desk.get(), &Desk::changed, [] { throw DomainError{"a page that cannot add up"}; });
    Edit edit{"Enter customer"};
    Customer customer;
    customer.name = "Ines Talbot";
    edit.add(customer);
    CHECK(office.desk->commitOrSay(edit));
    CHECK(office.book().all<Customer>().size() == 1);
    CHECK(said.contains(QStringLiteral("a page that cannot add up")));
    CHECK_FALSE(said.contains(QStringLiteral("Not saved")));
}

TEST_CASE("no action that needs a book can be chosen while a copy takes its place", "[window][file]")
{
    Office office;
    office.addCustomer("Nora Bell");
    const auto copy = office.folder.filePath(QStringLiteral("stick.strikeoff"));
    office.store->backup(utf8(copy));
    office.desk.reset();
    office.store.reset();
    MainWindow* window = nullptr;
    std::vector<bool> enabled;  // each time a book is opened
    auto shelf = booksInFiles();
    shelf.open = [&, open = shelf.open](const std::string& path) {
        for (const auto id : {ActionId::undo, ActionId::phoneCalendar, ActionId::newRecord}) enabled.push_back(window->action(id)->isEnabled());
        return open(path);
    };
    MainWindow shown{office.preferences, shelf};
    window = &shown;
    REQUIRE(shown.openBook(qs(office.path)));
    REQUIRE(shown.action(ActionId::undo)->isEnabled());
    enabled.clear();
    const test::NextDialog asked{[](QDialog& dialog) {
        for (auto* button : dialog.findChildren<QPushButton*>())
            if (button->text() == QStringLiteral("Go back to it")) button->click();
    }};
    shown.goBackToCopy(copy);
    REQUIRE(asked.met());
    CHECK(enabled == std::vector{false, false, false});
    CHECK(shown.action(ActionId::phoneCalendar)->isEnabled());
}

TEST_CASE("the window comes back where and as large as it was", "[window][file]")
{
    FileWindow w;
    w.open();
    CHECK(w.window->minimumSizeHint().width() <= 1280);
    w.window->setGeometry(40, 60, 1301, 811);
    test::settle();
    const auto size = w.window->size();
    CHECK(size == QSize{1301, 811});
    w.window->close();
    MainWindow again{w.office.preferences, booksInFiles()};
    again.show();
    test::settle();
    INFO(again.size().width() << " x " << again.size().height());
    CHECK(again.size() == size);
    CHECK(again.size() != QSize{1280, 800});  // as large as one that was never opened before
}

TEST_CASE("the counts in the list of pages are those of the book now, also for pages out of view", "[window][file]")
{
    FileWindow w;
    const auto nora = w.office.addCustomer("Nora Bell");
    const auto job = w.office.addJob(nora, "Patio");
    w.open();
    auto* list = w.window->findChild<PageList*>();
    const auto count = [&](int page) {
        const auto words = list->item(page)->data(Qt::AccessibleTextRole).toString();
        return words.contains(QStringLiteral("waiting")) ? words.section(u' ', -2, -2).toInt() : 0;
    };
    w.window->showPage(7);
    const int day = count(0);
    CHECK(count(3) == 0);
    Visit visit;
    visit.job = job;
    visit.kind = VisitKind::seal;
    visit.notBefore = test::day("2026-06-01");
    visit.due = test::day("2026-06-05");
    Edit edit{"Plan a visit"};
    edit.add(visit);
    REQUIRE(w.window->desk().commitOrSay(edit));
    CHECK(count(3) == 1);
    CHECK(count(0) == day + 1);
    w.window->action(ActionId::undo)->trigger();
    CHECK(count(3) == 0);
    CHECK(count(0) == day);
}
