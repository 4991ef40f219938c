#include "trail_check.h"

#include "chain.h"
#include "record/field_text.h"

#include <algorithm>
#include <map>
#include <unordered_map>

namespace strikeoff {

namespace {

constexpr auto goBack = "go back to the last good copy (restore, from the folder of copies beside the book)";

struct PlacedChange : KeptChange {
    std::int64_t place = 0;
};

using RowPlace = std::pair<RecordKind, std::int64_t>;

class TrailCheck {
public:
    TrailCheck(Database& database, const Book& book, std::vector<VerifyFinding>& findings) : database_{database}, book_{book}, findings_{findings} {}

    void run()
    {
        readChanges();
        runs_ = runsAfter(database_, 0);
        checkChain();
        checkRows();
    }

private:
    void find(std::string where, std::string what) { findings_.push_back({std::move(where), std::move(what), goBack}); }

    void readChanges()
    {
        FastStatement select{database_, "SELECT edit, kind, row, revision, before, after, place FROM edit_change ORDER BY edit, place"};
        const auto text = [&](int column) { return select.isNull(column) ? std::nullopt : std::optional{std::string{select.text(column)}}; };
        while (select.step()) {
            const auto* kind = findKind(select.text(1));
            if (!kind) {
                find("the trail, entry " + std::to_string(select.number(0)), "it names a kind of record that does not exist");
                continue;
            }
            PlacedChange change;
            change.edit = select.number(0);
            change.kind = kind->kind;
            change.row = select.number(2);
            change.revision = select.number(3);
            change.before = text(4);
            change.after = text(5);
            change.place = select.number(6);
            ofRow_[{change.kind, change.row}].push_back(changes_.size());
            changes_.push_back(std::move(change));
        }
    }

    /// A row of a run with the values it had when it was added: those of its removal, or of now, less every change in between.
    std::optional<Row> asAdded(const AddedRun& run, std::int64_t id) const
    {
        const auto found = ofRow_.find({run.kind, id});
        if (found == ofRow_.end()) return book_.row(run.kind, id);
        std::vector<std::size_t> later;
        std::optional<Row> state;
        bool removed = false;
        for (const auto i : found->second) {
            const auto& change = changes_[i];
            if (change.edit <= run.edit) continue;
            if (!change.after) {
                state = blankRow(run.kind);
                state->id = id;
                if (!overlay(*state, change.before.value_or(""))) return std::nullopt;
                removed = true;
                break;
            }
            later.push_back(i);
        }
        if (!removed) state = book_.row(run.kind, id);
        for (auto i = later.rbegin(); state && i != later.rend(); ++i)
            if (!overlay(*state, changes_[*i].before.value_or(""))) return std::nullopt;
        return state;
    }

    std::optional<std::string> digestOf(const AddedRun& run) const
    {
        RunDigest digest{run.kind};
        if (run.last - run.first > 100'000'000) return std::nullopt;
        for (auto id = run.first; id <= run.last; ++id) {
            const auto row = asAdded(run, id);
            if (!row) return std::nullopt;
            digest.add(*row);
        }
        return digest.digits();
    }

    void checkChain()
    {
        FastStatement select{database_, "SELECT id, at, desk, title, how, of_edit, chain FROM edit ORDER BY id"};
        std::string previous;
        std::size_t change = 0, run = 0;
        std::int64_t newest = 0;
        while (select.step()) {
            TrailHeading heading{select.number(0), std::string{select.text(1)}, std::string{select.text(2)}, std::string{select.text(3)}, std::string{select.text(4)}, std::nullopt};
            if (!select.isNull(5)) heading.ofEdit = select.number(5);
            newest = heading.edit;
            const auto where = "the trail, entry " + std::to_string(heading.edit) + " of " + heading.at + " by " + heading.desk;
            if (select.isNull(6)) {
                if (!previous.empty()) find(where, "it has no link to the entry before");
                continue;
            }
            while (change < changes_.size() && changes_[change].edit < heading.edit) ++change;
            while (run < runs_.size() && runs_[run].edit < heading.edit) ++run;
            ChainLink link{previous, heading};
            bool whole = true;
            while (true) {
                const bool isChange = change < changes_.size() && changes_[change].edit == heading.edit;
                const bool isRun = run < runs_.size() && runs_[run].edit == heading.edit;
                if (!isChange && !isRun) break;
                if (isChange && (!isRun || changes_[change].place < runs_[run].place)) {
                    const auto& c = changes_[change++];
                    link.addChange(c.place, c.kind, c.row, c.revision, c.before, c.after);
                } else {
                    const auto& r = runs_[run++];
                    const auto rows = digestOf(r);
                    whole = whole && rows;
                    link.addRun(r.place, r.kind, r.first, r.last, rows.value_or(""));
                }
            }
            previous = std::string{select.text(6)};
            if (!whole || link.digits() != previous) find(where, "it, a row it added, or the entry before it is not as it was written");
        }
        FastStatement counter{database_, "SELECT next FROM counter WHERE name = 'edit'"};
        std::int64_t next = 1;
        while (counter.step()) next = counter.number(0);
        if (next != newest + 1) find("the trail", "its newest entry is " + std::to_string(newest) + ", and " + std::to_string(next - 1) + " were written");
    }

    void checkRows()
    {
        for (const auto& [place, changes] : ofRow_) checkRow(place, changes);
        std::map<RecordKind, std::vector<std::pair<std::int64_t, std::int64_t>>> added;
        for (const auto& run : runs_) added[run.kind].emplace_back(run.first, run.last);
        for (const auto& kind : allKinds()) {
            auto& runs = added[kind.kind];
            std::sort(runs.begin(), runs.end());
            for (std::size_t i = 0; i < book_.count(kind.kind); ++i) {
                const auto id = book_.idAt(kind.kind, i);
                if (ofRow_.contains({kind.kind, id})) continue;
                const auto after = std::upper_bound(runs.begin(), runs.end(), std::pair{id, std::numeric_limits<std::int64_t>::max()});
                if (after == runs.begin() || std::prev(after)->second < id) find(whereIs(kind.kind, id), "the trail knows nothing of it");
            }
        }
        // Rows of a run that were never touched again are there; what they hold, the chain covers.
        for (const auto& run : runs_) {
            if (run.last - run.first > 100'000'000) continue;  // said by the chain
            for (auto id = run.first; id <= run.last; ++id)
                if (!ofRow_.contains({run.kind, id}) && !book_.find(run.kind, id)) find(std::string{describe(run.kind).name} + " row " + std::to_string(id), "it is gone and the trail does not say why");
        }
    }

    std::string whereIs(RecordKind kind, std::int64_t id) const { return std::string{describe(kind).name} + " " + keyText(book_, kind, id); }

    void checkRow(RowPlace place, const std::vector<std::size_t>& changes)
    {
        const auto [kind, id] = place;
        const auto now = book_.row(kind, id);
        const auto& last = changes_[changes.back()];
        const auto name = std::string{describe(kind).name} + " row " + std::to_string(id);
        if (!last.after) {
            if (now && !addedLater(place, last.edit)) find(whereIs(kind, id), "the trail says that it was removed");
            return;
        }
        if (!now) return find(name, "it is gone and the trail does not say why");
        // What the trail says of each field since the row was last added.
        auto expected = blankRow(kind);
        std::vector<std::string> said;
        bool fromItsAdding = false;
        for (const auto i : changes) {
            const auto& change = changes_[i];
            if (!change.before) {
                expected = blankRow(kind);
                said.clear();
                fromItsAdding = true;
            }
            if (!change.after) {
                fromItsAdding = false;
                continue;
            }
            if (!overlay(expected, *change.after)) return find(name, "the trail's entry " + std::to_string(change.edit) + " about it cannot be read");
            for (auto& field : fieldsIn(*change.after)) said.push_back(std::move(field));
        }
        const auto fields = describe(kind).fields;
        for (std::size_t i = 0; i < fields.size(); ++i) {
            if (now->values[i] == expected.values[i]) continue;
            const bool isSaid = std::find(said.begin(), said.end(), fields[i].name) != said.end();
            // A field that is always recorded and was not when the row was added is younger than the row.
            if (isSaid || (fromItsAdding && fields[i].nullable)) find(whereIs(kind, id), std::string{fields[i].label} + " is not what the trail says was entered last");
        }
    }

    bool addedLater(RowPlace place, std::int64_t edit) const
    {
        return std::any_of(runs_.begin(), runs_.end(), [&](const AddedRun& run) { return run.kind == place.first && run.edit > edit && run.first <= place.second && place.second <= run.last; });
    }

    struct HashOfPlace {
        std::size_t operator()(const RowPlace& place) const { return std::hash<std::int64_t>{}(place.second * 64 + static_cast<std::int64_t>(place.first)); }
    };

    Database& database_;
    const Book& book_;
    std::vector<VerifyFinding>& findings_;
    std::vector<PlacedChange> changes_;
    std::unordered_map<RowPlace, std::vector<std::size_t>, HashOfPlace> ofRow_;
    std::vector<AddedRun> runs_;
};

}

void checkTrail(Database& database, const Book& book, std::vector<VerifyFinding>& findings)
{
    try {
        TrailCheck{database, book, findings}.run();
    } catch (const StorageError& error) {
        findings.push_back({"the trail", error.what(), goBack});
    }
}

}
