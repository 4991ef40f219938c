#include "app/dialogs.h"
#include "app/file_window.h"

#include "copy_list.h"
#include "form/draft_keeper.h"
#include "form/field_editor.h"
#include "pages/keeping/copies_page.h"
#include "table/record_table.h"
#include "window/actions.h"
#include "window/message_strip.h"

#include <QAction>
#include <QDir>
#include <QFile>
#include <QTableView>

#include <unistd.h>

using namespace strikeoff;
using strikeoff::test::FileWindow;
using strikeoff::test::NextDialog;

namespace {

/// What a program that is killed leaves of its form's texts: a file that nobody holds.
void breakOff(const test::Office& office)
{
    QFile typed{DraftKeeper::fileFor(qs(office.path))};
    REQUIRE(typed.open(QIODevice::WriteOnly));
}

QStringList copyFiles(const test::Office& office) { return QDir{office.folder.filePath(QStringLiteral("book.copies"))}.entryList(QDir::Files); }

}

TEST_CASE("after the program broke off, the window says that the book was checked and is whole, to the last entry", "[window][care]")
{
    FileWindow s;
    s.office.addCustomer("Nora Bell");
    breakOff(s.office);
    s.openFile(false);
    CHECK(s.window->strip().message().contains(QStringLiteral("is being checked")));
    s.waitForCare();
    const auto message = s.window->strip().message();
    CHECK(message.contains(QStringLiteral("was checked and is whole")));
    CHECK(message.contains(QStringLiteral("Enter customer Nora Bell")));
    CHECK(s.window->strip().isVisible());
    QTest::qWait(20);
    test::keepPicture(*s.window, "whole");
    CHECK(copyFiles(s.office).size() == 1);  // and today's copy is made of it
    // After ending in order nothing is said.
    s.window.reset();
    s.openFile();
    CHECK_FALSE(s.window->strip().isVisible());
}

TEST_CASE("what is wrong with a book after the program broke off is said, and no copy is made of it", "[window][care]")
{
    FileWindow s;
    s.office.addCustomer("Nora Bell");
    s.office.addCustomer("Tomas Ferrin");
    s.office.desk.reset();
    s.office.store.reset();
    // By other means than the program, so that the trail does not know of it.
    QFile file{qs(s.office.path)};
    REQUIRE(file.open(QIODevice::ReadWrite));
    auto bytes = file.readAll();
    REQUIRE(bytes.count("Tomas Ferrin") >= 2);
    for (auto at = bytes.indexOf("Tomas Ferrin"); at >= 0; at = bytes.indexOf("Tomas Ferrin", at + 1))
        if (bytes.mid(at - 30, 30).indexOf("name") < 0 && bytes.mid(at - 15, 15).indexOf("Enter") < 0) bytes.replace(at, 12, "Tomas Ferrix");
    file.seek(0);
    file.write(bytes);
    file.close();
    breakOff(s.office);
    s.openFile();
    CHECK(s.window->strip().message().contains(QStringLiteral("the book has")));
    CHECK(s.window->strip().message().contains(QStringLiteral("Tomas Ferrix")));
    CHECK(s.window->strip().message().contains(QStringLiteral("Ctrl+Shift+K")));
    test::keepPicture(*s.window, "faults_found");
    CHECK(copyFiles(s.office).isEmpty());
}

TEST_CASE("today's copy is made while the window is open, and ending the program meanwhile leaves no half of it", "[window][care]")
{
    FileWindow s;
    for (int i = 0; i < 20; ++i) s.office.addCustomer(("Customer " + std::to_string(i)).c_str());
    s.openFile(false);
    CHECK(s.window->care().isRunning());
    CHECK(s.label("question"));  // the window is there and answers meanwhile
    CHECK_FALSE(s.window->care().progressWords().isEmpty());
    s.window.reset();
    const auto left = copyFiles(s.office);
    INFO(utf8(left.join(u' ')));
    // All of it or nothing, under the name of a copy or any other.
    CHECK((left.isEmpty() || (left.size() == 1 && left.front().endsWith(QStringLiteral(".strikeoff")))));
    for (const auto& copy : copiesOf(s.office.path)) CHECK(Store::open(copy.file, [] { OpenOptions look; look.readOnly = true; return look; }())->book().count(RecordKind::customer) == 20);

    // What a killed program left goes with the next copy, what another one is writing stays.
    QDir copies{s.office.folder.filePath(QStringLiteral("book.copies"))};
    copies.mkpath(QStringLiteral("."));
    for (const auto& name : copyFiles(s.office)) copies.remove(name);
    auto host = QSysInfo::machineHostName();
    host.remove(QRegularExpression{QStringLiteral("[^A-Za-z0-9_-]")});
    const auto dead = QStringLiteral("2026-06-10.strikeoff.%1.999999999.1.part").arg(host), living = QStringLiteral("2026-06-10.strikeoff.%1.%2.1.part").arg(host).arg(::getppid());
    for (const auto& name : {dead, living}) {
        QFile file{copies.filePath(name)};
        REQUIRE(file.open(QIODevice::WriteOnly));
    }
    s.openFile();
    CHECK_FALSE(copies.exists(dead));
    CHECK(copies.exists(living));
    CHECK(copiesOf(s.office.path).size() == 1);
    CHECK(s.button("footCopies")->text().startsWith(QStringLiteral("Last copy")));
}

TEST_CASE("when today's copy cannot be kept, the window says why", "[window][care]")
{
    FileWindow s;
    QFile inTheWay{s.office.folder.filePath(QStringLiteral("book.copies"))};
    REQUIRE(inTheWay.open(QIODevice::WriteOnly));
    s.openFile();
    CHECK(s.window->strip().message().contains(QStringLiteral("Today\u2019s copy of the book was not kept")));
}

TEST_CASE("a shared book goes back to a copy from the window, and another desk's window shows it and says so", "[.][window][server]")
{
    FileWindow s, other;
    qputenv("XDG_DATA_HOME", s.office.folder.filePath(QStringLiteral("data")).toUtf8());
    const auto address = qEnvironmentVariable("STRIKEOFF_TEST_SERVER").toStdString() + "?book=window" + std::to_string(getpid());
    Store::create(address);
    const auto copy = s.office.folder.filePath(QStringLiteral("copy.strikeoff"));
    Id<Customer> nora;
    {
        const auto store = Store::open(address);
        Edit edit{"Enter customer Nora Bell"};
        Customer row;
        row.name = "Nora Bell";
        edit.add(row);
        nora = Id<Customer>{store->commit(std::move(edit)).ids.at(0)};
        store->backup(utf8(copy));
        auto changed = store->book().get(nora);
        changed.name = "Written over by mistake";
        Edit mistake{"Mistake"};
        mistake.change(changed);
        REQUIRE(store->commit(std::move(mistake)).done());
    }
    s.office.path = other.office.path = address;
    s.openFile();
    other.openFile();
    REQUIRE(other.window->openRecord(RecordKind::customer, nora.value()));
    other.customerForm().editor("phone")->input().setFocus();
    QTest::keyClicks(&other.customerForm().editor("phone")->input(), QStringLiteral("555-0177"));

    s.window->action(ActionId::copies)->trigger();
    test::settle();
    const auto listed = s.keeping().table()->model().rowCount();
    test::keepPicture(*s.window, "copies_shared");
    NextDialog asked{[](QDialog& dialog) {
        test::keepPicture(dialog, "restore_shared_question");
        for (auto* button : dialog.findChildren<QPushButton*>())
            if (button->text() == QStringLiteral("Go back to it")) button->click();
    }};
    s.window->goBackToCopy(copy);
    CHECK(asked.met());
    CHECK(s.book().get(nora).name == "Nora Bell");
    INFO(utf8(s.window->strip().message()));
    CHECK(s.window->strip().message().contains(QStringLiteral("verified before")));
    CHECK(s.keeping().table()->model().rowCount() == listed + 1);  // what was there is in the list
    test::keepPicture(*s.window, "restored_shared");

    for (int i = 0; i < 200 && other.book().get(nora).name != "Nora Bell"; ++i) QTest::qWait(10);
    CHECK(other.book().get(nora).name == "Nora Bell");
    CHECK(other.window->strip().message().contains(QStringLiteral("Go back to the copy of")));
    auto& form = other.customerForm();
    CHECK(form.editor("phone")->text() == QStringLiteral("555-0177"));  // what was typed stays
    test::keepPicture(*other.window, "other_desk_told");
    CHECK_FALSE(form.save());  // and both versions are shown before anything is overwritten
    form.forgetDrafts();
    qunsetenv("XDG_DATA_HOME");
}
