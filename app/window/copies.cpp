/// What the window does with copies of the book: making them, looking into them, going back to one.
#include "window/main_window.h"

#include "copy_list.h"
#include "labels.h"
#include "pages/keeping/copies_page.h"
#include "pages/keeping/keeping_page.h"
#include "sealed_file.h"
#include "store_state.h"
#include "window/book_care.h"
#include "window/book_place.h"
#include "window/message_strip.h"
#include "window/pass_phrase.h"
#include "window/shared_book.h"
#include "window/start_view.h"

#include "quantity/words.h"

#include <QApplication>
#include <QFileDialog>
#include <QFileInfo>
#include <QMessageBox>
#include <QProgressDialog>
#include <QPushButton>
#include <QStackedWidget>
#include <QThread>
#include <QTimer>

namespace strikeoff {

namespace {

/// Whether what is taken for a copy is the open book: reading its file by other means than the engine's would take its locks away.
bool isBookItself(const QString& copy, const QString& book) { return !isShared(book) && QFileInfo{copy} == QFileInfo{book}; }

/// The hourglass while it lives.
struct Hourglass {
    Hourglass() { QApplication::setOverrideCursor(Qt::WaitCursor); }
    ~Hourglass() { QApplication::restoreOverrideCursor(); }
    Hourglass(const Hourglass&) = delete;
    Hourglass& operator=(const Hourglass&) = delete;
};

}

KeepingPage* MainWindow::keeping() const { return static_cast<KeepingPage*>(pages_.back()); }

void MainWindow::showKeeping(void (KeepingPage::*tab)())
{
    if (!desk_) return;
    const auto index = static_cast<int>(pages_.size()) - 1;
    (keeping()->*tab)();
    stale_[static_cast<std::size_t>(index)] = true;  // copies come and go without the book's doing
    showPage(index);
}

void MainWindow::backUp(bool withPassPhrase)
{
    if (!desk_) return;
    const auto ending = withPassPhrase ? QStringLiteral("-sealed.strikeoff") : QStringLiteral("-copy.strikeoff");
    const auto path = QFileDialog::getSaveFileName(this, withPassPhrase ? tr("Back up with a pass phrase to") : tr("Back up to"), preferences_.folder() + u'/' + bookName(qs(store_->path())) + ending,
                                                   tr("Books (*.strikeoff)"), nullptr, QFileDialog::DontConfirmOverwrite);
    if (path.isEmpty()) return;
    preferences_.setFolder(QFileInfo{path}.absolutePath());
    std::optional<std::string> phrase;
    if (withPassPhrase && !(phrase = askNewPassPhrase(this))) return;
    const bool done = desk_->guarded(tr("Back up"), [&] {
        const Hourglass hourglass;
        if (phrase) backupSealed(*store_, utf8(path), *phrase);
        else store_->backup(utf8(path));
    });
    if (done) {
        preferences_.addOwnCopy(qs(store_->path()), QFileInfo{path}.absoluteFilePath());
        strip_->say(phrase ? tr("Backed up, sealed and read back: %1. Keep the pass phrase where you will find it.").arg(path) : tr("Backed up and read back: %1").arg(path), Tone::well);
        stale_.back() = true;
        if (current_ == static_cast<int>(pages_.size()) - 1) keeping()->refresh();
    }
    showFoot();
}

bool MainWindow::lookIntoCopy(const QString& copy)
{
    if (!desk_ || !mayLeaveBook()) return false;
    const auto book = isInCopy() ? bookBefore_ : qs(store_->path());
    if (isBookItself(copy, book)) {
        strip_->say(tr("That is the book itself; choose a copy of it."), Tone::attention);
        return false;
    }
    OpenedCopy opened;
    try {
        std::optional<std::string> phrase;
        if (isSealedFile(copy.toStdString()) && !(phrase = askPassPhrase(this, copy))) return false;
        const Hourglass hourglass;
        opened = openCopy(utf8(copy), utf8(book), [&] { return phrase; });
    } catch (const std::exception& error) {
        strip_->say(qs(error.what()), Tone::wrong);
        return false;
    }
    showStore(std::move(opened.store));
    made_ = std::move(opened.made);
    bookBefore_ = book;
    copyShown_ = copy;
    keeping()->copies().setBook(book);
    strip_->hide();
    copyWords_->setText(tr("You are looking into the copy %1. It can only be read; nothing here changes the book.").arg(QFileInfo{copy}.fileName()));
    copyBar_->show();
    setWindowTitle(tr("Copy of %1 \u2013 Strikeoff").arg(bookName(book)));
    showFoot();
    showActions();
    return true;
}

void MainWindow::backToBook()
{
    if (isInCopy()) openBook(QString{bookBefore_});
}

void MainWindow::goBackToCopy(const QString& copy)
{
    if (!desk_ || !mayLeaveBook()) return;
    const auto book = isInCopy() ? bookBefore_ : qs(store_->path());
    if (isBookItself(copy, book)) {
        strip_->say(tr("That is the book itself; choose a copy of it."), Tone::attention);
        return;
    }
    if (isShared(book) && !isInCopy() && store_->isReadOnly()) {
        strip_->say(tr("Your user may only read this shared book, so nobody goes back to a copy from here; ask whoever keeps it on the server."), Tone::attention);
        return;
    }
    QMessageBox box{QMessageBox::NoIcon, tr("Go back to a copy"), {}, QMessageBox::NoButton, this};
    box.setTextFormat(Qt::PlainText);
    box.setText(tr("Put the copy %1 in the place of the book %2?").arg(QFileInfo{copy}.fileName(), bookName(book)));
    const bool shared = isShared(book);
    box.setInformativeText(tr("What was entered after the copy was made is not in it. The copy is verified first, and the book of now is kept %1, so nothing is lost. ")
                               .arg(shared ? tr("as a copy in the list") : tr("beside it under another name"))
                           + (shared ? tr("Every desk that has the book open goes back with you: tell them before, so that they save or put away what they are typing.")
                                     : tr("Close the book in other programs before.")));
    auto* leave = box.addButton(tr("Leave it"), QMessageBox::RejectRole);
    auto* go = box.addButton(tr("Go back to it"), QMessageBox::AcceptRole);
    box.setDefaultButton(leave);
    box.setEscapeButton(leave);
    box.exec();
    if (box.clickedButton() != go) return;
    std::optional<std::string> phrase;
    if (isSealedFile(copy.toStdString()) && !(phrase = askPassPhrase(this, copy))) return;

    // A shared book that is open stays so and comes to the new content as every other desk does; a file is let go of.
    if (shared && !isInCopy()) goBackShared(copy, phrase);
    else goBackAlone(copy, book, phrase);
}

std::pair<QString, Tone> MainWindow::restoredWords(const QString& copy, const QString& book, const std::optional<std::string>& phrase, const AskPassword& ask)
{
    QProgressDialog progress{tr("Verifying the copy, then putting it in the place of the book\u2026"), tr("Stop"), 0, 100, this};
    progress.setWindowTitle(tr("Go back to a copy"));
    progress.setWindowModality(Qt::WindowModal);
    progress.setMinimumDuration(400);
    progress.setValue(0);
    try {
        const auto restored = restoreBook(utf8(copy), utf8(book), [&] { return phrase; }, ask, [&](int percent) {
            progress.setValue(std::min(percent, 99));
            return !progress.wasCanceled();
        });
        if (restored.isStopped) return {tr("Stopped; nothing was changed."), Tone::attention};
        if (!restored.findings.empty())
            return {tr("The copy has %1 and nothing was changed; take an earlier one. The first: %2: %3.")
                        .arg(qs(counted(static_cast<std::int64_t>(restored.findings.size()), "fault", "faults")), qs(restored.findings.front().where), qs(restored.findings.front().what)),
                    Tone::attention};
        return {tr("The book is the copy %1 now, verified before. The book that was there is kept at %2.").arg(QFileInfo{copy}.fileName(), qs(restored.kept)), Tone::well};
    } catch (const ConnectionLost& error) {
        return {qs(error.what()), Tone::wrong};  // which may have been at the very end
    } catch (const std::exception& error) {
        return {tr("Nothing was changed: %1").arg(qs(error.what())), Tone::wrong};
    }
}

void MainWindow::sayRestored(const std::pair<QString, Tone>& words)
{
    if (words.second == Tone::well) strip_->tell(tr("Done"), words.first);
    else strip_->say(words.first, words.second);
}

void MainWindow::goBackShared(const QString& copy, const std::optional<std::string>& phrase)
{
    news_->stop();
    stopListening();
    care_->stop();
    const auto words = restoredWords(copy, qs(store_->path()), phrase, askAsBefore(*store_));
    if (words.second == Tone::well) {
        // The server's word of it may come a moment later than its answer.
        constexpr int mostTries = 80;
        for (int tries = 0; tries < mostTries && !takeReplacement(*store_); ++tries) {
            if (tries > 0) QThread::msleep(25);
            if (!desk_->guarded(tr("Go back to a copy"), [&] { store_->refresh(); })) break;
        }
    }
    stale_.back() = true;
    if (current_ == static_cast<int>(pages_.size()) - 1) keeping()->refresh();
    sayRestored(words);
    news_->start();
    listenForNews();
}

void MainWindow::goBackAlone(const QString& copy, const QString& book, const std::optional<std::string>& phrase)
{
    closeBook();
    const auto words = restoredWords(copy, book, phrase, [this](const std::string& address, bool again) { return askServerPassword(this, qs(address), again); });
    if (openBook(book)) {
        sayRestored(words);
    } else {
        start_->setRecent(preferences_.recentBooks());
        stack_->setCurrentWidget(start_);
        showHead();
        showFoot();
        showActions();
    }
}

}
