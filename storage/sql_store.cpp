#include "sql_store.h"

#include "copies.h"
#include "schema.h"
#include "shelf_io.h"
#include "store_state.h"
#include "whole_copy.h"

#include <QFileInfo>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

namespace strikeoff {

namespace {

bool isSame(const Edit& left, const Edit& right)
{
    return left.title() == right.title()
           && std::equal(left.changes().begin(), left.changes().end(), right.changes().begin(), right.changes().end(), [](const Change& a, const Change& b) {
                  return a.what == b.what && a.row.kind == b.row.kind && a.row.id == b.row.id && a.row.revision == b.row.revision && a.row.values == b.row.values;
              });
}

}

SqlStore::SqlStore(const std::string& path, const OpenOptions& options)
    : path_{path}, options_{options}, desk_{options.desk.empty() ? thisDesk() : options.desk},
      database_{path, options.readOnly ? Database::Mode::readOnly : Database::Mode::readWrite, options.askPassword}
{
    options_.askPassword = {};
    if (database_.isOnServer()) beginOnServer();
    else beginWithFile();
    {
        Transaction snapshot{database_, Transaction::For::reading};
        dataVersion_ = versionOfData();
        readShelves(database_, book_);
        numbers_.read(database_);
        readNewest();
        replacedBy_ = markOf(newestReplacement());
        stacks_ = stacksOf(database_, desk_);
        snapshot.commit();
    }
    if (options.keepDailyCopy && !options_.readOnly) {
        try {
            keepDailyCopy(database_, (options.now.empty() ? utcNow() : options.now).substr(0, 10));
        } catch (const ConnectionLost&) {
            throw;
        } catch (const StorageError& error) {
            copyFault_ = error.what();  // no reason to keep the owner from the book
        }
    }
}

void SqlStore::beginOnServer()
{
    requireBookOnServer(database_);
    if (!mayWrite(database_)) options_.readOnly = true;
    if (database_.number(database_.dialect().version()) == schemaVersion) return;
    if (options_.readOnly) throw OlderVersion{path_ + " is a book of an older version; whoever may write in it has to open it once to bring it forward"};
    migrate(database_);  // all of a step or nothing, which a server does for tables too, with a copy beside the book
}

void SqlStore::beginWithFile()
{
    database_.run("PRAGMA foreign_keys = ON");
    database_.run("PRAGMA trusted_schema = OFF");
    if (!options_.readOnly) {
        if (!QFileInfo{QString::fromStdString(path_)}.isWritable())
            throw StorageError{path_ + " can only be read; check its permissions, or open it to look only"};
        database_.run("PRAGMA journal_mode = WAL");
        database_.run("PRAGMA synchronous = FULL");
        // A log four times as long, as is usual, takes many times the room of a small book, and on a small disk all there is: then there is none left to
        // write it back into the book. After a load it is cut to its usual length.
        database_.run("PRAGMA wal_autocheckpoint = 250");
        database_.run("PRAGMA journal_size_limit = 1048576");
    }
    const auto version = database_.number(database_.dialect().version());
    requireKnownVersion(path_, version);
    if (version == schemaVersion) return;
    if (options_.readOnly) throw OlderVersion{path_ + " is a book of an older version; open it for writing once to bring it forward"};
    auto copy = path_ + ".before-version-" + std::to_string(schemaVersion);
    for (int again = 2; QFileInfo::exists(QString::fromStdString(copy)); ++again)  // an earlier try that did not get through
        copy = path_ + ".before-version-" + std::to_string(schemaVersion) + '-' + std::to_string(again);
    copyInto(database_, copy);
    migrate(database_);
}

std::int64_t SqlStore::newestEdit() const { return database_.number("SELECT coalesce(max(id), 0) FROM edit"); }

void SqlStore::readNewest()
{
    FastStatement newest{database_, "SELECT id, chain FROM edit ORDER BY id DESC LIMIT 1"};
    lastEdit_ = 0;
    lastLink_.clear();
    while (newest.step()) {
        lastEdit_ = newest.number(0);
        lastLink_ = newest.text(1);
    }
}

std::string SqlStore::lastCopy() const { return newestCopy(path_); }

std::vector<Conflict> SqlStore::conflictsOf(const Edit& edit) const
{
    std::vector<Conflict> conflicts;
    for (std::size_t i = 0; i < edit.changes().size(); ++i) {
        const auto& [what, row] = edit.changes()[i];
        if (what == ChangeType::add) continue;
        auto now = book_.row(row.kind, row.id);
        if (!now || now->revision != row.revision) conflicts.push_back({i, row, std::move(now)});
    }
    return conflicts;
}

std::vector<Problem> SqlStore::check(Edit edit)
{
    const auto numbers = numbers_;
    numbers_.resolve(edit, book_);
    numbers_ = numbers;
    const auto outcome = applyEdit(book_, std::move(edit));
    takeBack(book_, outcome.applied);
    return outcome.problems;
}

CommitResult SqlStore::commit(Edit edit) { return commitStep(std::move(edit), {}); }

CommitResult SqlStore::commitStep(Edit edit, const Step& step)
{
    if (options_.readOnly) throw StorageError{path_ + " is open to look only; nothing can be changed in it"};
    if (edit.empty()) return {};
    if (database_.isOnServer()) {
        reachServer();
        if (auto known = outcomeOfBroken(edit)) return *known;
    }
    if (database_.isOnServer()) return writeOut(std::move(edit), step);
    // A copy of a long load costs more than loading once more.
    constexpr std::size_t mostKept = 1000;
    const bool keeps = edit.changes().size() <= mostKept;
    try {
        return keeps ? writeOut(edit, step) : writeOut(std::move(edit), step);
    } catch (const DiskFull&) {
        // The log may take more room than the book itself, and is written back by itself only when it is long.
        if (!database_.foldLog() || !keeps) throw;
    }
    try {
        return writeOut(std::move(edit), step);
    } catch (const DiskFull&) {
        database_.foldLog();  // of what was begun, too
        throw;
    }
}

CommitResult SqlStore::writeOut(Edit edit, const Step& step)
{
    CommitResult result;
    auto numbers = numbers_;
    const auto title = edit.title();
    std::optional<Broken> ifBroken;
    if (database_.isOnServer()) ifBroken.emplace(Broken{edit, 0, {}, {}});
    std::vector<Applied> applied;
    bool committing = false, isReplaced = false;
    try {
        Transaction transaction{database_};
        const auto replacedBefore = replacedBy_;
        takeInOthers();
        isReplaced = replacedBy_ != replacedBefore;
        numbers = numbers_;  // others may have moved the counters on
        if (!isReplaced) result.conflicts = conflictsOf(edit);
        if (!isReplaced && result.conflicts.empty()) {
            numbers_.resolve(edit, book_);
            auto outcome = applyEdit(book_, std::move(edit), step.freezing);
            result.problems = std::move(outcome.problems);
            applied = std::move(outcome.applied);
        }
        if (isReplaced || !result.done()) {
            numbers_ = numbers;
        } else {
            const TrailHeading heading{numbers_.nextEdit(), options_.now.empty() ? utcNow() : options_.now, desk_, title, step.how, step.ofEdit};
            for (const auto& change : applied) result.ids.push_back(change.after ? change.after->id : change.before->id);
            Batch batch{database_};
            writeRows(database_, applied);
            auto link = writeTrail(database_, heading, applied, lastLink_);
            numbers_.write(database_, heading.edit);
            batch.finish();
            if (const auto tell = database_.dialect().tellOthers(); !tell.empty()) database_.run(tell);
            if (ifBroken) {
                ifBroken->id = heading.edit;
                ifBroken->link = link;
                ifBroken->ids = result.ids;
            }
            committing = true;
            transaction.commit();
            lastEdit_ = heading.edit;
            lastLink_ = std::move(link);
            if (database_.isOnServer()) dataVersion_ = versionAt(lastEdit_, lastLink_);
            stacks_.take(heading.edit, title, step.how, step.ofEdit.value_or(0));
        }
    } catch (...) {
        takeBack(book_, applied);
        numbers_ = numbers;
        if (committing && database_.isLost() && ifBroken) return afterBreak(std::move(*ifBroken));
        throw;
    }
    if (untold_ || !applied.empty()) tell();
    if (isReplaced) refuseReplaced();
    return result;
}

CommitResult SqlStore::afterBreak(Broken broken)
{
    const auto edit = broken.edit;
    broken_ = std::move(broken);
    try {
        database_.reconnect();
    } catch (const ConnectionLost&) {
        throw ConnectionLost{"the connection to " + path_ + " broke off while it was saved; what you typed stays. Save it once more when the server is back: it is not entered twice"};
    }
    newsWaiting_ = true;
    if (auto known = outcomeOfBroken(edit)) return *known;
    throw ConnectionLost{"the connection to " + path_ + " broke off before it was saved; what you typed stays, save it once more"};
}

std::optional<CommitResult> SqlStore::outcomeOfBroken(const Edit& edit)
{
    if (!broken_) return std::nullopt;
    bool done = false;
    {
        // In turn: what was sent before the connection broke may still be at work on the server, and holds its turn until it is done or not.
        Transaction turn{database_};
        FastStatement select{database_, "SELECT chain FROM edit WHERE id = ?"};
        select.bind(1, broken_->id);
        while (select.step()) done = select.text(0) == broken_->link;
        turn.commit();
    }
    const auto broken = *std::exchange(broken_, std::nullopt);
    if (!done || !isSame(edit, broken.edit)) return std::nullopt;
    newsWaiting_ = true;
    refresh();
    return CommitResult{{}, {}, broken.ids};
}

void SqlStore::reachServer()
{
    if (!database_.isLost()) {
        try {
            newsWaiting_ = database_.wasTold() || newsWaiting_;
            return;
        } catch (const ConnectionLost&) {
            // it went while nobody looked
        }
    }
    database_.reconnect();
    newsWaiting_ = true;
}

std::string SqlStore::undoTitle() const { return stacks_.undo.empty() ? std::string{} : stacks_.undo.back().title; }
std::string SqlStore::redoTitle() const { return stacks_.redo.empty() ? std::string{} : stacks_.redo.back().title; }

CommitResult SqlStore::undo()
{
    refreshOrRefuse();
    return stacks_.undo.empty() ? CommitResult{} : stepBackOrForth(UndoStacks::Step{stacks_.undo.back()}, true);
}

CommitResult SqlStore::redo()
{
    refreshOrRefuse();
    return stacks_.redo.empty() ? CommitResult{} : stepBackOrForth(UndoStacks::Step{stacks_.redo.back()}, false);
}

CommitResult SqlStore::stepBackOrForth(const UndoStacks::Step& step, bool back)
{
    CommitResult result;
    Edit edit{step.title};
    auto changes = changesOfEdit(database_, step.edit, back ? RunValues::left : RunValues::wanted);
    if (back) std::reverse(changes.begin(), changes.end());
    for (const auto& kept : changes) {
        const auto& from = back ? kept.after : kept.before;
        const auto& to = back ? kept.before : kept.after;
        auto now = book_.row(kept.kind, kept.row);
        if (from && !now) {
            result.conflicts.push_back({edit.changes().size(), Row{kept.kind, kept.row, 0, blankRow(kept.kind).values}, std::nullopt});
            continue;
        }
        if (!to) {
            edit.remove(kept.kind, kept.row, now->revision);
            continue;
        }
        Row wanted = now ? *now : blankRow(kept.kind);
        wanted.id = kept.row;
        if (!now) wanted.revision = kept.revision + 1;
        if (now && from) {
            // What somebody changed since in the same fields is not overwritten unseen.
            Row expected = *now;
            if (!overlay(expected, *from)) throw StorageError{"the trail of " + path_ + " is damaged; go back to a copy"};
            if (expected.values != now->values) {
                overlay(wanted, *to);
                result.conflicts.push_back({edit.changes().size(), wanted, now});
                continue;
            }
        }
        if (!overlay(wanted, *to)) throw StorageError{"the trail of " + path_ + " is damaged; go back to a copy"};
        if (now) edit.change(std::move(wanted));
        else edit.changes().push_back({ChangeType::add, std::move(wanted)});
    }
    if (!result.conflicts.empty()) return result;
    // The rows of an edit refer to each other; taken back in reverse they may be removed before what names them, which the check allows as it
    // looks at the book only when all is done.
    return commitStep(std::move(edit), {back ? "undo" : "redo", step.edit, Freezing::lifted});
}

Store::Watch SqlStore::watch(std::function<void()> changed)
{
    auto watcher = std::make_shared<std::function<void()>>(std::move(changed));
    watchers_.push_back(watcher);
    return watcher;
}

void SqlStore::tell()
{
    untold_ = false;
    watchers_.remove_if([](const auto& watcher) { return watcher.expired(); });
    const auto watchers = watchers_;  // a watcher may add or drop others
    for (const auto& weak : watchers)
        if (const auto watcher = weak.lock()) (*watcher)();
}

std::vector<TrailChange> SqlStore::trailOf(RecordKind kind, std::int64_t id) const
{
    std::vector<TrailChange> trail;
    std::optional<Row> state;
    for (const auto& kept : changesOfRow(database_, kind, id)) {
        TrailChange change{entryOf(database_, kept.edit), kind, id, std::nullopt, std::nullopt};
        if (kept.before) {
            if (!state) state = blankRow(kind);
            overlay(*state, *kept.before);
            change.before = state;
        }
        if (kept.after) {
            Row row = kept.before && state ? *state : blankRow(kind);
            overlay(row, *kept.after);
            row.id = id;
            row.revision = kept.revision + 1;
            change.after = row;
            state = row;
        } else {
            state.reset();
        }
        trail.push_back(std::move(change));
    }
    return trail;
}

std::vector<TrailEntry> SqlStore::recentTrail(std::size_t most) const
{
    FastStatement select{database_, "SELECT id, at, desk, title, how FROM edit ORDER BY id DESC LIMIT ?"};
    select.bind(1, static_cast<std::int64_t>(most));
    std::vector<TrailEntry> entries;
    while (select.step())
        entries.push_back({select.number(0), std::string{select.text(1)}, std::string{select.text(2)}, std::string{select.text(3)}, std::string{select.text(4)}});
    return entries;
}

std::vector<TrailChange> SqlStore::removedRows(std::size_t most) const
{
    struct Removed {
        std::int64_t edit;
        RecordKind kind;
        std::int64_t row;
        std::int64_t revision;
        std::string before;
    };
    std::vector<Removed> found;
    std::set<std::pair<RecordKind, std::int64_t>> seen;
    {
        FastStatement select{database_, "SELECT edit, kind, row, revision, before FROM edit_change WHERE after IS NULL ORDER BY edit DESC, place"};
        while (found.size() < most && select.step()) {
            const auto* kind = findKind(select.text(1));
            if (!kind || book_.find(kind->kind, select.number(2))) continue;
            if (seen.emplace(kind->kind, select.number(2)).second) found.push_back({select.number(0), kind->kind, select.number(2), select.number(3), std::string{select.text(4)}});
        }
    }
    std::vector<TrailChange> removed;
    for (const auto& row : found) {
        TrailChange change{entryOf(database_, row.edit), row.kind, row.row, blankRow(row.kind), std::nullopt};
        overlay(*change.before, row.before);
        change.before->id = row.row;
        change.before->revision = row.revision;
        removed.push_back(std::move(change));
    }
    return removed;
}

CommitResult SqlStore::bringBack(const TrailChange& removed) { return bringBack(std::vector{removed}); }

CommitResult SqlStore::bringBack(const std::vector<TrailChange>& removed)
{
    std::vector<Row> rows;
    for (const auto& change : removed) {
        if (!change.before || book_.find(change.kind, change.id)) continue;
        auto row = *change.before;
        row.id = change.id;
        row.revision = change.before->revision + 1;
        rows.push_back(std::move(row));
    }
    if (rows.empty()) return {};
    Edit edit{"Bring back " + (rows.size() == 1 ? std::string{describe(rows.front().kind).label} : std::to_string(rows.size()) + " records")};
    for (auto& row : rows) edit.changes().push_back({ChangeType::add, std::move(row)});
    return commit(std::move(edit));
}

void SqlStore::backup(const std::string& file) const
{
    copyInto(database_, file);
}

bool SqlStore::copyTo(const std::string& to, const AskPassword& ask, const std::function<bool(int)>& progress) const
{
    return copyWhole(database_, to, ask, progress);
}

std::string SqlStore::beginning() const { return beginningOf(database_); }

AskPassword askAsBefore(const Store& store)
{
    const auto* known = dynamic_cast<const SqlStore*>(&store);
    return known ? known->askAsBefore() : AskPassword{};
}

std::string beginningOf(const Store& store)
{
    const auto* known = dynamic_cast<const SqlStore*>(&store);
    return known ? known->beginning() : std::string{};
}

std::optional<TrailEntry> takeReplacement(Store& store)
{
    auto* known = dynamic_cast<SqlStore*>(&store);
    return known ? known->takeReplacement() : std::nullopt;
}

int newsSocket(const Store& store)
{
    const auto* known = dynamic_cast<const SqlStore*>(&store);
    return known ? known->newsSocket() : -1;
}

std::string copyFault(const Store& store)
{
    const auto* known = dynamic_cast<const SqlStore*>(&store);
    return known ? known->copyFault() : std::string{};
}

}
