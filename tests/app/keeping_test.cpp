#include "app/dialogs.h"
#include "app/file_window.h"

#include "form/history_view.h"
#include "pages/keeping/copies_page.h"
#include "records/record_words.h"
#include "restore.h"
#include "table/record_table.h"
#include "window/actions.h"
#include "window/message_strip.h"

#include <QAction>
#include <QFile>
#include <QLineEdit>
#include <QSplitter>
#include <QTableView>

using namespace strikeoff;
using strikeoff::test::FileWindow;
using strikeoff::test::Keyboard;
using strikeoff::test::NextDialog;

TEST_CASE("a removed record is found and brought back by keyboard, in one step that undo takes out again", "[window][keeping]")
{
    Keyboard k;
    const auto nora = k.office.addCustomer("Nora Bell", "side gate sticks");
    const auto job = k.office.addJob(nora, "Patio");
    k.office.addCustomer("Tomas Ferrin");
    for (const auto& [kind, id] : std::initializer_list<std::pair<RecordKind, std::int64_t>>{{RecordKind::job, job.value()}, {RecordKind::customer, nora.value()}}) {
        Edit edit{"Remove it"};
        edit.remove(kind, id, 1);
        k.office.commit(edit);
    }
    k.open();
    k.key(Qt::Key_R, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(k.window->findChild<QLabel*>(QStringLiteral("question"))->text() == QStringLiteral("What was removed, and can it come back?"));
    CHECK(k.window->findChild<QLabel*>(QStringLiteral("answer"))->text() == QStringLiteral("Two records were removed and can be brought back; the last was Customer Nora Bell."));
    auto* table = k.window->page(k.window->pageCount()).table();
    REQUIRE(table);
    CHECK(table->model().rowCount() == 2);
    REQUIRE(table->select({RecordKind::job, job.value()}));
    k.key(Qt::Key_Down);
    REQUIRE(table->select({RecordKind::job, job.value()}));
    test::settle();
    test::keepPicture(*k.window, "removed");
    CHECK(k.window->findChild<QLabel*>(QStringLiteral("removedName"))->text() == QStringLiteral("Job 1001"));
    CHECK(k.window->findChild<QLabel*>(QStringLiteral("removedNeeds"))->text().contains(QStringLiteral("Customer Nora Bell")));
    table->view().setFocus();
    k.key(Qt::Key_Return);
    CHECK(QApplication::focusWidget() == k.window->findChild<QPushButton*>(QStringLiteral("bringBack")));
    k.key(Qt::Key_Return);
    CHECK(k.book().get(nora).note == "side gate sticks");
    CHECK(k.book().get(job).title == "Patio");
    CHECK(k.window->strip().message().contains(QStringLiteral("is back as it was")));
    CHECK(table->model().rowCount() == 0);
    k.key(Qt::Key_Z, Qt::ControlModifier);
    CHECK(k.book().count(RecordKind::job) == 0);
    CHECK(k.book().count(RecordKind::customer) == 1);
    k.key(Qt::Key_Left, Qt::AltModifier);
    CHECK(k.window->currentPage() == 0);
}

TEST_CASE("what was changed is listed with who and when", "[window][keeping]")
{
    Keyboard k;
    k.office.addCustomer("Nora Bell");
    k.open();
    k.key(Qt::Key_H, Qt::ControlModifier | Qt::ShiftModifier);
    auto* table = k.window->page(k.window->pageCount()).table();
    REQUIRE(table->model().rowCount() == 2);
    CHECK(table->model().cellAt(0, 2).text == QStringLiteral("Enter customer Nora Bell"));
    CHECK(table->model().cellAt(0, 1).text == qs(k.window->desk().store().recentTrail(1)[0].desk));
    test::keepPicture(*k.window, "changes");
}

TEST_CASE("a copy is looked into and the way back leads to the book", "[window][keeping]")
{
    FileWindow s;
    s.office.addCustomer("Nora Bell");
    s.openFile();
    {
        Edit edit{"Enter customer Tomas Ferrin"};
        Customer tomas;
        tomas.name = "Tomas Ferrin";
        edit.add(tomas);
        REQUIRE(s.window->desk().commitOrSay(edit));
    }
    s.key(Qt::Key_K, Qt::ControlModifier | Qt::ShiftModifier);
    auto* table = s.keeping().table();
    REQUIRE(table->model().rowCount() == 1);  // the daily one, made when the book was opened
    test::keepPicture(*s.window, "copies");
    table->view().setFocus();
    s.key(Qt::Key_Return);
    CHECK(QApplication::focusWidget() == s.button("copyLook"));
    s.key(Qt::Key_Return);
    test::settle();
    REQUIRE(s.window->isInCopy());
    CHECK(s.window->desk().store().isReadOnly());
    CHECK(s.book().count(RecordKind::customer) == 1);
    CHECK(s.label("copyShown")->isVisible());
    test::keepPicture(*s.window, "in_copy");
    s.window->action(ActionId::backToBook)->trigger();
    test::settle();
    CHECK_FALSE(s.window->isInCopy());
    CHECK_FALSE(s.label("copyShown")->isVisible());
    CHECK(s.book().count(RecordKind::customer) == 2);
    CHECK_FALSE(s.window->desk().store().isReadOnly());
}

TEST_CASE("going back to a copy asks, verifies, keeps the book of now and says where", "[window][keeping]")
{
    FileWindow s;
    const auto nora = s.office.addCustomer("Nora Bell");
    const auto copy = s.office.folder.filePath(QStringLiteral("stick.strikeoff"));
    s.office.store->backup(utf8(copy));
    s.openFile();
    {
        auto row = s.book().get(nora);
        row.name = "Written over by mistake";
        Edit edit{"Mistake"};
        edit.change(row);
        REQUIRE(s.window->desk().commitOrSay(edit));
    }
    {
        NextDialog asked{[](QDialog& dialog) { QTest::keyClick(&dialog, Qt::Key_Escape); }};
        s.window->goBackToCopy(copy);
        CHECK(asked.met());
        CHECK(s.book().get(nora).name == "Written over by mistake");
    }
    NextDialog asked{[](QDialog& dialog) {
        test::keepPicture(dialog, "restore_question");
        for (auto* button : dialog.findChildren<QPushButton*>())
            if (button->text() == QStringLiteral("Go back to it")) button->click();
    }};
    s.window->goBackToCopy(copy);
    test::settle();
    CHECK(asked.met());
    REQUIRE(s.window->hasBook());
    CHECK(s.book().get(nora).name == "Nora Bell");
    CHECK(s.window->strip().message().contains(qs(s.office.path) + QStringLiteral(".before-restore")));
    CHECK(Store::open(s.office.path + ".before-restore")->book().get(nora).name == "Written over by mistake");

    // A damaged copy changes nothing.
    QFile damaged{copy};
    REQUIRE(damaged.open(QIODevice::ReadWrite));
    damaged.seek(damaged.size() / 2);
    damaged.write(QByteArray(4096, 'x'));
    damaged.close();
    NextDialog again{[](QDialog& dialog) {
        for (auto* button : dialog.findChildren<QPushButton*>())
            if (button->text() == QStringLiteral("Go back to it")) button->click();
    }};
    s.window->goBackToCopy(copy);
    test::settle();
    CHECK(s.window->hasBook());
    CHECK(s.window->strip().message().contains(QStringLiteral("othing was changed")));
}

TEST_CASE("a sealed copy is made in the window, and looking into it asks for the pass phrase", "[window][keeping]")
{
    FileWindow s;
    s.office.addCustomer("Nora Bell");
    s.openFile();
    const auto file = s.office.folder.filePath(QStringLiteral("sealed.strikeoff"));
    int dialogs = 0;
    NextDialog place{[&](QDialog& dialog) {
        ++dialogs;
        auto* name = dialog.findChild<QLineEdit*>();
        REQUIRE(name);
        name->setText(file);
        QMetaObject::invokeMethod(&dialog, "accept");
    }};
    QTimer second;
    second.setInterval(20);
    QObject::connect(&second, &QTimer::timeout, [&] {
        auto* dialog = QApplication::activeModalWidget();
        if (!dialog || dialog->objectName() != QStringLiteral("passPhraseDialog")) return;
        second.stop();
        ++dialogs;
        auto* go = dialog->findChild<QPushButton*>(QStringLiteral("passPhraseGo"));
        auto* phrase = dialog->findChild<QLineEdit*>(QStringLiteral("passPhrase"));
        auto* again = dialog->findChild<QLineEdit*>(QStringLiteral("passPhraseAgain"));
        QTest::keyClicks(phrase, QStringLiteral("short"));
        CHECK_FALSE(go->isEnabled());
        phrase->clear();
        QTest::keyClicks(phrase, QStringLiteral("gravel under the north stoop"));
        QTest::keyClicks(again, QStringLiteral("gravel under the north"));
        CHECK_FALSE(go->isEnabled());
        CHECK(dialog->findChild<QLabel*>(QStringLiteral("passPhraseFault"))->text().contains(QStringLiteral("not alike")));
        test::keepPicture(*dialog, "pass_phrase");
        QTest::keyClicks(again, QStringLiteral(" stoop"));
        CHECK(go->isEnabled());
        QTest::keyClick(again, Qt::Key_Return);
    });
    second.start();
    s.window->action(ActionId::backUpSealed)->trigger();
    CHECK(dialogs == 2);
    CHECK(s.window->strip().message().contains(QStringLiteral("sealed and read back")));
    REQUIRE(QFile::exists(file));
    CHECK(s.office.preferences.ownCopies(qs(s.office.path)) == QStringList{file});

    NextDialog phrase{[](QDialog& dialog) {
        auto* field = dialog.findChild<QLineEdit*>(QStringLiteral("passPhrase"));
        REQUIRE(field);
        QTest::keyClicks(field, QStringLiteral("gravel under the north stoop"));
        QTest::keyClick(field, Qt::Key_Return);
    }};
    CHECK(s.window->lookIntoCopy(file));
    CHECK(phrase.met());
    CHECK(s.book().count(RecordKind::customer) == 1);
    CHECK(s.window->desk().store().isReadOnly());
}

TEST_CASE("a customer is blotted out from their form, after a question that says it is for good", "[window][keeping]")
{
    FileWindow s;
    const auto nora = s.office.addCustomer("Nora Bell", "ask for Nora");
    s.openFile();
    REQUIRE(s.window->openRecord(RecordKind::customer, nora.value()));
    auto& form = s.customerForm();
    auto* blot = form.findChild<QAction*>(QStringLiteral("personBlotOut"));
    REQUIRE(blot);
    test::keepPicture(*s.window, "customer_form");
    {
        NextDialog asked{[](QDialog& dialog) {
            test::keepPicture(dialog, "blot_question");
            CHECK(dialog.focusWidget() == dialog.findChild<QPushButton*>(QStringLiteral("blotLeave")));
            QString words;
            for (auto* label : dialog.findChildren<QLabel*>()) words += label->text() + u'\n';
            CHECK(words.contains(QStringLiteral("Blot out Customer Nora Bell for good?")));
            CHECK(words.contains(QStringLiteral("cannot be undone")));
            CHECK(words.contains(QStringLiteral("taxes")));
            CHECK(words.contains(QStringLiteral("book.copies/")));
        }};
        blot->trigger();
        CHECK(asked.met());
        CHECK(s.book().get(nora).name == "Nora Bell");
    }
    NextDialog asked{[](QDialog& dialog) {
        dialog.findChild<QAbstractButton*>(QStringLiteral("blotCopies"))->click();
        dialog.findChild<QPushButton*>(QStringLiteral("blotGo"))->click();
    }};
    blot->trigger();
    CHECK(asked.met());
    CHECK(s.book().get(nora).name == blottedName(nora.value()));
    CHECK(s.window->strip().message().contains(QStringLiteral("The copies were removed")));
    CHECK(copiesOf(s.office.path).empty());
    test::settle();
    s.key(Qt::Key_Z, Qt::ControlModifier);
    s.key(Qt::Key_Z, Qt::ControlModifier);
    QFile file{qs(s.office.path)}, log{qs(s.office.path) + QStringLiteral("-wal")};
    REQUIRE(file.open(QIODevice::ReadOnly));
    CHECK_FALSE(file.readAll().contains("Nora"));
    if (log.open(QIODevice::ReadOnly)) CHECK_FALSE(log.readAll().contains("Nora"));
    for (const auto& finding : s.window->desk().store().verify()) FAIL_CHECK(finding.where << ": " << finding.what);
}

TEST_CASE("a record's history names what it refers to and its units, also what was removed since", "[window][keeping]")
{
    Keyboard k;
    const auto nora = k.office.addCustomer("Nora Bell");
    const auto job = k.office.addJob(nora, "Patio");
    Edit old{"Enter site"};
    Site site;
    site.name = "12 Cobble Way";
    site.customer = nora;
    site.driveMinutes = Minutes::of(25);
    old.add(site);
    const auto siteId = k.office.commit(old).front();
    for (const auto& target : {std::optional{Id<Site>{siteId}}, std::optional<Id<Site>>{}}) {
        auto row = k.office.book().get(job);
        row.site = target;
        Edit edit{"Change job"};
        edit.change(row);
        k.office.commit(edit);
    }
    Edit away{"Remove site"};
    away.remove(k.office.book().get(Id<Site>{siteId}));
    k.office.commit(away);
    k.open();
    HistoryView history{k.window->desk()};
    history.show({RecordKind::job, job.value()});
    const auto& model = history.table().model();
    QStringList cells;
    for (int row = 0; row < model.rowCount(); ++row)
        for (int column = 2; column < 5; ++column) cells << history.table().model().cellAt(row, column).text;
    const auto all = cells.join(u'|');
    INFO(utf8(all));
    CHECK(all.contains(QStringLiteral("Site||12 Cobble Way (removed since)")));
    CHECK(all.contains(QStringLiteral("Site|12 Cobble Way (removed since)|")));
    CHECK(all.contains(QStringLiteral("Customer||Nora Bell")));
    history.show({RecordKind::site, siteId});
    bool hasUnit = false;
    for (int row = 0; row < model.rowCount(); ++row) hasUnit = hasUnit || model.cellAt(row, 4).text == QStringLiteral("25 min");
    CHECK(hasUnit);
}

TEST_CASE("a paper's history tells who changed the price on one of its lines, from what to what", "[window][keeping]")
{
    Keyboard k;
    const auto job = k.office.addJob(k.office.addCustomer("Nora Bell"), "Patio");
    Edit edit{"Draft a quote"};
    Quote quote;
    quote.job = job;
    quote.draftedOn = test::day("2026-05-04");
    QuoteLine line;
    line.quote = edit.add(quote);
    line.description = "Ready-mix";
    line.unitCost = UnitPrice::ofWhole(168);
    edit.add(line);
    const auto ids = k.office.commit(edit);
    auto dearer = k.office.book().get(Id<QuoteLine>{ids[1]});
    dearer.unitCost = UnitPrice::ofWhole(181);
    Edit change{"Lines of quote Q1001"};
    change.change(dearer);
    k.office.commit(change);
    HistoryView history{*k.office.desk};
    history.resize(1000, 400);
    history.show({RecordKind::quote, ids[0]});
    const auto& model = history.table().model();
    CHECK(model.cellAt(0, 2).text == QStringLiteral("Quote line 1: Unit cost"));
    CHECK(model.cellAt(0, 3).text == QStringLiteral("$168.00"));
    CHECK(model.cellAt(0, 4).text == QStringLiteral("$181.00"));
    CHECK(model.cellAt(0, 5).text == qs(k.office.store->recentTrail(1)[0].desk));
    test::keepPicture(history, "history");
}

TEST_CASE("a record's history says that somebody was blotted out, when and by whom", "[window][keeping]")
{
    Keyboard k;
    const auto nora = k.office.addCustomer("Nora Bell", "ask for Nora");
    const auto job = k.office.addJob(nora, "Patio");
    const auto tomas = k.office.addCustomer("Tomas Ferrin");
    k.office.store->blotOut({RecordKind::customer, nora.value()});
    HistoryView history{*k.office.desk};
    history.resize(1000, 400);
    const auto& model = history.table().model();
    const auto entry = k.office.store->recentTrail(1)[0];
    for (const auto& record : {RecordRef{RecordKind::customer, nora.value()}, RecordRef{RecordKind::job, job.value()}}) {
        history.show(record);
        CHECK(model.cellAt(0, 0).text == localTime(entry.at));
        CHECK(model.cellAt(0, 1).text == QStringLiteral("Customer blotted out for good: Blotted out %1").arg(nora.value()));
        CHECK(model.cellAt(0, 4).text == QStringLiteral("blotted out"));
        CHECK(model.cellAt(0, 5).text == qs(entry.desk));
    }
    history.show({RecordKind::customer, tomas.value()});
    CHECK_FALSE(model.cellAt(0, 1).text.contains(QStringLiteral("blotted out")));
    k.open();
    k.key(Qt::Key_H, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK_FALSE(k.window->page(k.window->pageCount()).table()->model().cellAt(0, 2).text.contains(QStringLiteral("entry")));
}

TEST_CASE("the pages about the book remember where their handle was left", "[window][keeping]")
{
    FileWindow s;
    s.openFile();
    QList<int> left;
    for (const auto key : {Qt::Key_K, Qt::Key_R}) {
        s.key(key, Qt::ControlModifier | Qt::ShiftModifier);
        auto* splitter = qobject_cast<QSplitter*>(s.keeping().table()->parentWidget());
        REQUIRE(splitter);
        auto* handle = splitter->handle(1);
        const auto from = handle->rect().center();
        QTest::mousePress(handle, Qt::LeftButton, {}, from);
        QTest::mouseMove(handle, from - QPoint{160, 0});
        QTest::mouseRelease(handle, Qt::LeftButton, {}, from - QPoint{160, 0});
        test::settle();
        left << splitter->sizes().front();
    }
    s.window.reset();
    s.openFile();
    for (const auto key : {Qt::Key_K, Qt::Key_R}) {
        s.key(key, Qt::ControlModifier | Qt::ShiftModifier);
        auto* splitter = qobject_cast<QSplitter*>(s.keeping().table()->parentWidget());
        CHECK(splitter->sizes().front() == left.takeFirst());
    }
}
