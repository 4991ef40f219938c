/// What an open book takes in of what other programs wrote.
#include "schema.h"
#include "shelf_io.h"
#include "sql_store.h"
#include "store_state.h"

#include <map>

namespace strikeoff {

/// What of a trail's newest entry no other one has.
std::string SqlStore::versionAt(std::int64_t entry, const std::string& link) { return std::to_string(entry) + ' ' + link; }

/// The same of an entry that says the book went back to a copy; its link may be made anew when somebody is blotted out.
std::string SqlStore::markOf(const std::optional<TrailEntry>& entry) { return entry ? std::to_string(entry->id) + ' ' + entry->at + ' ' + entry->desk + ' ' + entry->title : std::string{}; }

/// Another one when another program wrote: SQLite counts for us, and on a server every change is an entry of the trail.
std::string SqlStore::versionOfData() const
{
    if (!database_.isOnServer()) return std::to_string(database_.number("PRAGMA data_version"));
    std::string version;
    FastStatement newest{database_, "SELECT id, chain FROM edit ORDER BY id DESC LIMIT 1"};
    while (newest.step()) version = versionAt(newest.number(0), std::string{newest.text(1)});
    return version;
}

/// Row by row, as the trail names them.
void SqlStore::takeInChanges()
{
    std::map<std::pair<RecordKind, std::int64_t>, bool> rows;
    {
        FastStatement select{database_, "SELECT kind, row FROM edit_change WHERE edit > ?"};
        select.bind(1, lastEdit_);
        while (select.step())
            if (const auto* kind = findKind(select.text(0))) rows[{kind->kind, select.number(1)}] = true;
    }
    for (const auto& run : runsAfter(database_, lastEdit_))
        for (auto row = run.first; row <= run.last; ++row) rows[{run.kind, row}] = true;
    for (const auto& [place, unused] : rows) {
        const auto row = readRow(database_, place.first, place.second);
        untold_ = true;
        if (row) book_.put(*row);
        else book_.erase(place.first, place.second);
    }
}

/// Whether rows may be others without a change in the trail that says so: a copy took the place of the book, or somebody was blotted out.
bool SqlStore::wasRewrittenSince()
{
    bool goesOn = lastEdit_ == 0;
    {
        FastStatement mine{database_, "SELECT chain FROM edit WHERE id = ?"};
        mine.bind(1, lastEdit_);
        while (mine.step()) goesOn = mine.text(0) == lastLink_;
    }
    if (!goesOn) return true;
    FastStatement count{database_, "SELECT count(*) FROM edit WHERE id > ? AND how IN ('blot', 'restore')"};
    count.bind(1, lastEdit_);
    std::int64_t rewritings = 0;
    while (count.step()) rewritings = count.number(0);
    return rewritings > 0;
}

void SqlStore::takeInWhole()
{
    Book now;
    readShelves(database_, now);
    for (const auto& kind : allKinds()) {
        std::vector<std::int64_t> gone;
        for (std::size_t i = 0; i < book_.count(kind.kind); ++i)
            if (const auto id = book_.idAt(kind.kind, i); !now.find(kind.kind, id)) gone.push_back(id);
        untold_ = untold_ || !gone.empty();
        book_.eraseAll(kind.kind, std::move(gone));
        for (std::size_t i = 0; i < now.count(kind.kind); ++i) {
            const auto row = *now.row(kind.kind, now.idAt(kind.kind, i));
            const auto mine = book_.row(kind.kind, row.id);
            if (mine && mine->revision == row.revision && mine->values == row.values) continue;
            untold_ = true;
            book_.put(row);
        }
    }
    auto newest = newestReplacement();
    if (const auto mark = markOf(newest); mark != replacedBy_) {
        replacedBy_ = mark;
        replacement_ = std::move(newest);
    }
}

std::optional<TrailEntry> SqlStore::newestReplacement() const
{
    FastStatement select{database_, "SELECT id FROM edit WHERE how = 'restore' ORDER BY id DESC LIMIT 1"};
    std::optional<std::int64_t> entry;
    while (select.step()) entry = select.number(0);
    return entry ? std::optional{entryOf(database_, *entry)} : std::nullopt;
}

void SqlStore::takeInOthers()
{
    const auto version = versionOfData();
    if (version == dataVersion_) return;
    if (database_.number(database_.dialect().version()) != schemaVersion)
        throw StorageError{path_ + " was brought forward by a newer Strikeoff meanwhile; close it and open it with that version"};
    const bool isRewritten = wasRewrittenSince();
    if (isRewritten) takeInWhole();
    else takeInChanges();
    numbers_.read(database_);
    if (isRewritten) {
        stacks_ = stacksOf(database_, desk_);
    } else {
        FastStatement own{database_, "SELECT id, title, how, of_edit FROM edit WHERE id > ? AND desk = ? ORDER BY id"};
        own.bind(1, lastEdit_);
        own.bind(2, std::string_view{desk_});
        while (own.step()) stacks_.take(own.number(0), std::string{own.text(1)}, std::string{own.text(2)}, own.number(3));
    }
    readNewest();
    dataVersion_ = version;  // last: what breaks off is taken in again
}

bool SqlStore::refresh()
{
    if (database_.isOnServer()) {
        // Asked every second or so: a server that is gone is tried now and then, the less often the longer it lets us wait.
        const auto now = std::chrono::steady_clock::now();
        if (database_.isLost() && now < nextTry_) throw ConnectionLost{"the connection to " + path_ + " is lost; what you type stays, and is saved once the server is back"};
        try {
            reachServer();
        } catch (const ConnectionLost&) {
            const auto after = std::chrono::steady_clock::now();
            nextTry_ = after + std::chrono::seconds{3} + 5 * (after - now);
            throw;
        }
        if (database_.isTold() && !newsWaiting_ && !untold_) return false;
    }
    do {
        Transaction snapshot{database_, Transaction::For::reading};
        takeInOthers();
        snapshot.commit();
        newsWaiting_ = false;
    } while (database_.isOnServer() && database_.wasTold());  // what is told meanwhile comes with the answers, and nobody who waits at the connection would see it
    const bool changed = untold_;
    if (changed) tell();
    return changed;
}

std::string replacementWords(const TrailEntry& entry) { return entry.title.substr(0, entry.title.find(';')); }

/// For a step whose title the owner has read: after a copy took the place of the book it would be another one.
void SqlStore::refreshOrRefuse()
{
    const auto replacedBefore = replacedBy_;
    newsWaiting_ = true;  // the server's word of it may be on its way
    refresh();
    if (replacedBy_ != replacedBefore) refuseReplaced();
}

void SqlStore::refuseReplaced()
{
    const auto entry = std::exchange(replacement_, std::nullopt);
    throw StorageError{"the book went back to a copy meanwhile" + (entry ? " (" + entry->desk + ": " + replacementWords(*entry) + ")" : std::string{})
                       + ", and nothing was saved; what you typed stays. Look whether it still fits what the book holds now, then save it once more"};
}

}
