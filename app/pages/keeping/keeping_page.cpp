#include "pages/keeping/keeping_page.h"

#include "pages/keeping/changes_page.h"
#include "pages/keeping/copies_page.h"
#include "pages/keeping/removed_page.h"

namespace strikeoff {

KeepingPage::KeepingPage(Desk& desk, QWidget* parent) : RecordsPage{desk, {}, {}, parent}
{
    removed_ = new RemovedPage{desk, this};
    copies_ = new CopiesPage{desk, this};
    changes_ = new ChangesPage{desk, this};
    addTab(tr("Removed"), removed_);
    addTab(tr("Copies"), copies_);
    addTab(tr("What was changed"), changes_);
}

const Page* KeepingPage::shown() const
{
    return isShown(removed_) ? static_cast<const Page*>(removed_) : isShown(copies_) ? static_cast<const Page*>(copies_) : changes_;
}

QString KeepingPage::question() const { return shown()->question(); }
QString KeepingPage::answer() const { return shown()->answer(); }
void KeepingPage::showRemoved() { showTab(removed_); }
void KeepingPage::showCopies() { showTab(copies_); }
void KeepingPage::showChanges() { showTab(changes_); }

}
