#pragma once

#include "records/records_page.h"

namespace strikeoff {

class ChangesPage;
class CopiesPage;
class RemovedPage;

/// How the book itself is kept: what was removed, its copies, and what was changed. It stands behind the File menu and the bottom line, not in the list of pages.
class KeepingPage : public RecordsPage {
    Q_OBJECT
public:
    explicit KeepingPage(Desk& desk, QWidget* parent = nullptr);

    QString question() const override;
    QString answer() const override;
    CopiesPage& copies() { return *copies_; }
    void showRemoved();
    void showCopies();
    void showChanges();

private:
    const Page* shown() const;

    RemovedPage* removed_;
    CopiesPage* copies_;
    ChangesPage* changes_;
};

}
