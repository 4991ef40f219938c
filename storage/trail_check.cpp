#include "trail_check.h"

#include "record/field_text.h"
#include "whole_trail.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

constexpr auto goBack = "go back to the last good copy (restore, from the folder of copies beside the book)";

using RowPlace = WholeTrail::RowPlace;

class TrailCheck {
public:
    TrailCheck(Database& database, const Book& book, std::vector<VerifyFinding>& findings) : database_{database}, book_{book}, findings_{findings},
          trail_{database, [this](std::int64_t entry) { find("the trail, entry " + std::to_string(entry), "it names a kind of record that does not exist"); }} {}

    void run()
    {
        checkChain();
        checkRows();
    }

private:
    void find(std::string where, std::string what) { findings_.push_back({std::move(where), std::move(what), goBack}); }

    void checkChain()
    {
        std::string last;
        std::int64_t newest = 0;
        trail_.follow(book_, [&](const WholeTrail::Entry& entry) {
            newest = entry.heading.edit;
            const auto where = "the trail, entry " + std::to_string(newest) + " of " + entry.heading.at + " by " + entry.heading.desk;
            if (!entry.isLinked) {
                if (!last.empty()) find(where, "it has no link to the entry before");
                return last;
            }
            if (!entry.isWhole || entry.reckoned != entry.written) find(where, "it, a row it added, or the entry before it is not as it was written");
            return last = entry.written;
        });
        FastStatement counter{database_, "SELECT next FROM counter WHERE name = 'edit'"};
        std::int64_t next = 1;
        while (counter.step()) next = counter.number(0);
        if (next != newest + 1) find("the trail", "its newest entry is " + std::to_string(newest) + ", and " + std::to_string(next - 1) + " were written");
    }

    void checkRows()
    {
        for (const auto& [place, changes] : trail_.byRow()) checkRow(place, changes);
        std::map<RecordKind, std::vector<std::pair<std::int64_t, std::int64_t>>> added;
        for (const auto& run : trail_.runs()) added[run.kind].emplace_back(run.first, run.last);
        for (const auto& kind : allKinds()) {
            auto& runs = added[kind.kind];
            std::sort(runs.begin(), runs.end());
            for (std::size_t i = 0; i < book_.count(kind.kind); ++i) {
                const auto id = book_.idAt(kind.kind, i);
                if (trail_.changesOf(kind.kind, id)) continue;
                const auto after = std::upper_bound(runs.begin(), runs.end(), std::pair{id, std::numeric_limits<std::int64_t>::max()});
                if (after == runs.begin() || std::prev(after)->second < id) find(whereIs(kind.kind, id), "the trail knows nothing of it");
            }
        }
        // Rows of a run that were never touched again are there; what they hold, the chain covers.
        for (const auto& run : trail_.runs()) {
            if (run.last - run.first > longestRun) continue;  // said by the chain
            for (auto id = run.first; id <= run.last; ++id)
                if (!trail_.changesOf(run.kind, id) && !book_.find(run.kind, id)) find(std::string{describe(run.kind).name} + " row " + std::to_string(id), "it is gone and the trail does not say why");
        }
    }

    std::string whereIs(RecordKind kind, std::int64_t id) const { return std::string{describe(kind).name} + " " + keyText(book_, kind, id); }

    void checkRow(RowPlace place, const std::vector<std::size_t>& changes)
    {
        const auto [kind, id] = place;
        const auto now = book_.row(kind, id);
        const auto& last = trail_.changes()[changes.back()];
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
            const auto& change = trail_.changes()[i];
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
        return std::any_of(trail_.runs().begin(), trail_.runs().end(), [&](const AddedRun& run) { return run.kind == place.first && run.edit > edit && run.first <= place.second && place.second <= run.last; });
    }

    Database& database_;
    const Book& book_;
    std::vector<VerifyFinding>& findings_;
    const WholeTrail trail_;
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
