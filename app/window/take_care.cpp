/// What the window says of the state the book is in when it is opened, and of what is done for it meanwhile.
#include "window/main_window.h"

#include "form/draft_keeper.h"
#include "labels.h"
#include "pages/keeping/keeping_page.h"
#include "records/record_words.h"
#include "window/book_care.h"
#include "window/message_strip.h"

#include "quantity/words.h"

namespace strikeoff {

namespace {

/// The last thing that was entered, by which the owner knows what is in.
QString lastEntryWords(Desk& desk)
{
    std::vector<TrailEntry> newest;
    desk.guarded(QObject::tr("What was changed"), [&] { newest = desk.store().recentTrail(1); });
    return newest.empty() ? QString{} : QObject::tr("\u201c%1\u201d of %2").arg(entryWords(newest.front()), localTime(newest.front().at));
}

}

void MainWindow::takeCare()
{
    auto& drafts = DraftKeeper::of(*desk_);
    const bool brokeOff = drafts.brokeOff();
    const auto typed = drafts.words();
    left_ = typed.isEmpty() ? QString{} : tr(" What was typed and not saved is kept: %1. Open it to go on.").arg(typed);
    if (store_->isReadOnly())
        strip_->say(tr("This book can only be read: look, print and export. To write in it, change its file\u2019s permissions, or ask whoever keeps the server for the grant, and open it again."), Tone::attention);
    else if (brokeOff)
        strip_->say(tr("The program broke off when this book was open last. It is being checked, and you can go on meanwhile.%1").arg(left_), Tone::attention);
    care_->begin(bookAgain(*store_), brokeOff, keepsCopies());
}

void MainWindow::sayChecked(const std::vector<VerifyFinding>& findings, const QString& fault)
{
    if (!fault.isEmpty()) {
        strip_->say(tr("The program broke off when this book was open last, and it could not be checked: %1.%2").arg(fault, left_), Tone::attention);
    } else if (!findings.empty()) {
        const auto& first = findings.front();
        strip_->say(tr("The program broke off when this book was open last, and the book has %1 now. The first: %2: %3; %4. Today\u2019s copy is not made of it; earlier ones stand under Ctrl+Shift+K.%5")
                        .arg(qs(counted(static_cast<std::int64_t>(findings.size()), "fault", "faults")), qs(first.where), qs(first.what), qs(first.remedy), left_),
                    Tone::wrong);
    } else {
        const auto words = tr("The program broke off when this book was open last. The book was checked and is whole, up to the last entry: %1.%2").arg(lastEntryWords(*desk_), left_);
        if (left_.isEmpty()) strip_->tell(tr("Whole"), words);
        else strip_->say(words, Tone::attention);
    }
}

void MainWindow::sayCopied(const QString& fault)
{
    if (!fault.isEmpty()) strip_->say(tr("Today\u2019s copy of the book was not kept: %1").arg(fault), Tone::attention);
    stale_.back() = true;
    if (current_ == static_cast<int>(pages_.size()) - 1) keeping()->refresh();
}

}
