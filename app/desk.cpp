#include "desk.h"

#include "file.h"
#include "job/steps.h"
#include "labels.h"
#include "store_state.h"

#include <QApplication>
#include <QClipboard>
#include <QDate>
#include <QFileDialog>
#include <QFileInfo>

#include <filesystem>

#include <algorithm>

namespace strikeoff {

QString sentencesOf(const CommitResult& result)
{
    QStringList lines;
    for (const auto& problem : result.problems) lines << qs(problem.message);
    for (const auto& conflict : result.conflicts) {
        const auto label = qs(describe(conflict.mine.kind).label);
        lines << (conflict.theirs ? QObject::tr("%1 was changed elsewhere since you looked at it; look at both versions").arg(label)
                                  : QObject::tr("%1 was removed elsewhere since you looked at it").arg(label));
    }
    return lines.join(u'\n');
}

Desk::Desk(Store& store, Preferences& preferences, QObject* parent) : QObject{parent}, store_{store}, preferences_{preferences}
{
    watch_ = store_.watch([this] {
        // The edit is written by now: a page that cannot show it does not make it one that was not saved.
        guarded(tr("The book changed and cannot be shown"), [this] {
            if (saving_) followHours(*saving_);
            emit changed();
        });
    });
}

Desk::~Desk() = default;

Date Desk::today() const
{
    if (fixedToday_) return *fixedToday_;
    const auto day = QDate::currentDate();
    return Date::of(day.year(), day.month(), day.day()).value_or(Date{});
}

void Desk::setToday(Date today)
{
    fixedToday_ = today;
    emit changed();  // what needs the owner depends on the day as much as on the book
}

CommitResult Desk::commit(const Edit& edit)
{
    CommitResult result;
    try {
        saving_ = &edit;
        lastHours_ = store_.book().lastId(RecordKind::hours);
        const struct Saved {
            Desk& desk;
            ~Saved() { desk.saving_ = nullptr; }
        } saved{*this};
        return store_.commit(edit);
    } catch (const std::exception& error) {
        result.problems.push_back({0, {}, error.what()});
        say(tr("Not saved: %1").arg(qs(error.what())), Tone::wrong);
    }
    return result;
}

CostReckoner& Desk::costs()
{
    if (!costs_ || costsOf_ != book().version()) {
        costs_.reset();
        costs_.emplace(book());
        costsOf_ = book().version();
    }
    return *costs_;
}

void Desk::followHours(const Edit& edit)
{
    const bool hoursAlone = std::ranges::all_of(edit.changes(), [](const Change& change) { return change.row.kind == RecordKind::hours; });
    // The version counts rows: when it is further on, other programs' changes came along.
    if (!costs_ || !hoursAlone || book().version() != costsOf_ + edit.changes().size()) return;
    std::vector<Id<Hours>> touched;
    for (const auto& change : edit.changes())
        if (change.what != ChangeType::add) touched.emplace_back(change.row.id);
    for (auto id = lastHours_ + 1; id <= book().lastId(RecordKind::hours); ++id) touched.emplace_back(id);
    costs_->takeHours(touched);
    costsOf_ = book().version();
}

bool Desk::commitOrSay(const Edit& edit)
{
    const auto result = commit(edit);
    if (!result.done()) say(tr("Not saved: %1").arg(sentencesOf(result)), Tone::wrong);
    return result.done();
}

bool Desk::perform(const Step& step)
{
    if (!step.possible()) {
        say(qs(step.obstacle), Tone::attention);
        return false;
    }
    if (!commitOrSay(*step.edit)) return false;
    std::string remarks;
    for (const auto& remark : step.remarks) remarks += (remarks.empty() ? "" : remarks.ends_with('.') ? " " : ". ") + remark;
    if (!remarks.empty()) say(tr("Look at this: %1").arg(qs(remarks)), Tone::attention);
    return true;
}

void Desk::reportOutcome(const CommitResult& result, const QString& task)
{
    if (result.done()) say(task, Tone::quiet);
    else say(tr("%1 was not done: %2").arg(task, sentencesOf(result)), Tone::wrong);
}

void Desk::undo()
{
    const auto title = qs(store_.undoTitle());
    if (title.isEmpty()) return;
    guarded(tr("Undo"), [&] { reportOutcome(store_.undo(), tr("Undo %1").arg(title)); });
}

void Desk::redo()
{
    const auto title = qs(store_.redoTitle());
    if (title.isEmpty()) return;
    guarded(tr("Redo"), [&] { reportOutcome(store_.redo(), tr("Redo %1").arg(title)); });
}

void Desk::lookForNews()
{
    try {
        store_.refresh();
        if (const auto replaced = takeReplacement(store_))
            say(tr("%1 took the book back meanwhile: \u201c%2\u201d. You see what it holds now. What you typed and did not save stays in its form; look whether it still fits.").arg(qs(replaced->desk), qs(replacementWords(*replaced))), Tone::attention);
        else if (newsFailed_) say(tr("The book can be read again; what other desks did meanwhile is taken in."), Tone::well);
        newsFailed_ = false;
    } catch (const std::exception& error) {
        if (!newsFailed_) say(tr("The book could not be read again: %1").arg(qs(error.what())), Tone::wrong);
        newsFailed_ = true;  // said once, not every second
    }
}

void Desk::say(const QString& message, Tone tone) { emit said(message, tone); }

bool Desk::guarded(const QString& task, const std::function<void()>& work)
{
    try {
        work();
        return true;
    } catch (const std::exception& error) {
        say(tr("%1: %2").arg(task, qs(error.what())), Tone::wrong);
        return false;
    }
}

void Desk::open(RecordKind kind, std::int64_t id) { emit openRequested(kind, id); }

void Desk::copyText(const QString& text) { QApplication::clipboard()->setText(text); }

bool Desk::saveFile(const QString& title, const QString& proposedName, const QString& nameFilter, const QByteArray& bytes, QString path)
{
    if (path.isEmpty()) {
        path = QFileDialog::getSaveFileName(QApplication::activeWindow(), title, preferences_.folder() + u'/' + proposedName, nameFilter);
        if (path.isEmpty()) return false;
        preferences_.setFolder(QFileInfo{path}.absolutePath());
    }
    std::string fault;
    if (!writePrivateFile(std::filesystem::path{QFile::encodeName(path).toStdString()}, {bytes.constData(), static_cast<std::size_t>(bytes.size())}, fault)) {
        say(tr("Not written: %1; choose another place").arg(qs(fault)), Tone::wrong);
        return false;
    }
    say(tr("Written: %1").arg(path), Tone::well);
    return true;
}

}
