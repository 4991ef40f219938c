#pragma once

#include "app/keyboard.h"

#include "form/record_form.h"
#include "pages/keeping/keeping_page.h"
#include "records/records_page.h"
#include "window/book_care.h"
#include "window/run_window.h"

namespace strikeoff::test {

/// The window on a book in a file or on a server, as the program opens it.
struct FileWindow : Keyboard {
    void openFile(bool waits = true)
    {
        office.desk.reset();
        office.store.reset();
        window = std::make_unique<MainWindow>(office.preferences, booksInFiles());
        window->resize(1280, 800);
        window->show();
        QApplication::setActiveWindow(window.get());
        REQUIRE(window->openBook(qs(office.path)));
        window->desk().setToday(day("2026-06-11"));
        if (!waits) return;
        waitForCare();
        settle();
    }
    /// Until the check and the day's copy are done.
    void waitForCare()
    {
        for (int i = 0; i < 1000 && window->care().isRunning(); ++i) QTest::qWait(10);
        REQUIRE_FALSE(window->care().isRunning());
    }
    QLabel* label(const char* name) { return window->findChild<QLabel*>(QLatin1String{name}); }
    QPushButton* button(const char* name) { return window->findChild<QPushButton*>(QLatin1String{name}); }
    KeepingPage& keeping() { return static_cast<KeepingPage&>(window->page(window->pageCount())); }
    RecordForm& customerForm() { return window->page(1).findChild<RecordsPage*>()->panel(RecordKind::customer)->form(); }
};

}
