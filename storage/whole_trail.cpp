#include "whole_trail.h"

#include "chain.h"

namespace strikeoff {

WholeTrail::WholeTrail(Database& database, const std::function<void(std::int64_t)>& told) : database_{database}
{
    {
        FastStatement select{database, "SELECT edit, kind, row, revision, before, after, place FROM edit_change ORDER BY edit, place"};
        const auto text = [&](int column) { return select.isNull(column) ? std::nullopt : std::optional{std::string{select.text(column)}}; };
        while (select.step()) {
            const auto* kind = findKind(select.text(1));
            if (!kind) {
                if (told) told(select.number(0));
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
            changes_.push_back(std::move(change));
        }
    }
    for (std::size_t i = 0; i < changes_.size(); ++i) ofRow_[{changes_[i].kind, changes_[i].row}].push_back(i);
    runs_ = runsAfter(database, 0);
}

const std::vector<std::size_t>* WholeTrail::changesOf(RecordKind kind, std::int64_t row) const
{
    const auto found = ofRow_.find({kind, row});
    return found == ofRow_.end() ? nullptr : &found->second;
}

/// A row of a run with the values it had when it was added: those of its removal, or of now, less every change in between.
std::optional<Row> WholeTrail::asAdded(const Book& book, const AddedRun& run, std::int64_t id) const
{
    const auto* found = changesOf(run.kind, id);
    if (!found) return book.row(run.kind, id);
    std::vector<std::size_t> later;
    std::optional<Row> state;
    bool removed = false;
    for (const auto i : *found) {
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
    if (!removed) state = book.row(run.kind, id);
    for (auto i = later.rbegin(); state && i != later.rend(); ++i)
        if (!overlay(*state, changes_[*i].before.value_or(""))) return std::nullopt;
    return state;
}

std::optional<std::string> WholeTrail::digestOf(const Book& book, const AddedRun& run) const
{
    RunDigest digest{run.kind};
    if (run.last - run.first > longestRun) return std::nullopt;
    for (auto id = run.first; id <= run.last; ++id) {
        const auto row = asAdded(book, run, id);
        if (!row) return std::nullopt;
        digest.add(*row);
    }
    return digest.digits();
}

void WholeTrail::follow(const Book& book, const std::function<std::string(Entry&)>& take) const
{
    std::vector<Entry> entries;
    {
        FastStatement select{database_, "SELECT id, at, desk, title, how, of_edit, chain FROM edit ORDER BY id"};
        while (select.step()) {
            auto& entry = entries.emplace_back();
            entry.heading = {select.number(0), std::string{select.text(1)}, std::string{select.text(2)}, std::string{select.text(3)}, std::string{select.text(4)}, std::nullopt};
            if (!select.isNull(5)) entry.heading.ofEdit = select.number(5);
            entry.isLinked = !select.isNull(6);
            if (entry.isLinked) entry.written = std::string{select.text(6)};
        }
    }
    std::string previous;
    std::size_t change = 0, run = 0;
    for (auto& entry : entries) {
        const auto edit = entry.heading.edit;
        while (change < changes_.size() && changes_[change].edit < edit) ++change;
        while (run < runs_.size() && runs_[run].edit < edit) ++run;
        if (entry.isLinked) {
            ChainLink link{previous, entry.heading};
            while (true) {
                const bool isChange = change < changes_.size() && changes_[change].edit == edit;
                const bool isRun = run < runs_.size() && runs_[run].edit == edit;
                if (!isChange && !isRun) break;
                if (isChange && (!isRun || changes_[change].place < runs_[run].place)) {
                    const auto& c = changes_[change++];
                    link.addChange(c.place, c.kind, c.row, c.revision, c.before, c.after);
                } else {
                    const auto& r = runs_[run++];
                    const auto rows = digestOf(book, r);
                    entry.isWhole = entry.isWhole && rows;
                    link.addRun(r.place, r.kind, r.first, r.last, rows.value_or(""));
                }
            }
            entry.reckoned = link.digits();
        }
        previous = take(entry);
    }
}

}
