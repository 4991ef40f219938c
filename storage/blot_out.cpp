/// Blotting a person out of a book: the one way of writing that is no edit, as it rewrites what the trail kept.
#include "chain.h"
#include "person_account.h"
#include "shelf_io.h"
#include "sql_store.h"
#include "trail_check.h"
#include "whole_trail.h"

#include "record/field_text.h"

#include <algorithm>
#include <limits>
#include <set>

namespace strikeoff {

namespace {

using Rows = std::set<PersonRow>;

/// Takes the words of a change's values.
void takeWords(PersonWords& words, RecordKind kind, const std::optional<std::string>& text)
{
    if (!text) return;
    rewrittenTrail(kind, *text, [&](const Field& field, const Value& value) {
        if (const auto* said = std::get_if<std::string>(&value)) words.take(kind, field.name, *said);
        return value;
    });
}

std::vector<std::string> formerNames(const WholeTrail& trail, Person person)
{
    std::vector<std::string> names;
    const auto* changes = trail.changesOf(person.kind, person.id);
    if (!changes) return names;
    for (const auto place : *changes)
        for (const auto* text : {&trail.changes()[place].before, &trail.changes()[place].after}) {
            if (!*text) continue;
            rewrittenTrail(person.kind, **text, [&](const Field& field, const Value& value) {
                if (const auto* name = std::get_if<std::string>(&value); name && field.name == "name") names.push_back(*name);
                return value;
            });
        }
    return names;
}

PersonWords wordsOf(const Book& ever, const Rows& about, const WholeTrail& trail)
{
    PersonWords words;
    for (const auto& [kind, id] : about) {
        const auto row = ever.row(kind, id);
        const auto fields = describe(kind).fields;
        for (std::size_t i = 0; row && i < fields.size(); ++i)
            if (const auto* text = std::get_if<std::string>(&row->values[i])) words.take(kind, fields[i].name, *text);
        const auto* changes = trail.changesOf(kind, id);
        if (!changes) continue;
        for (const auto place : *changes) {
            takeWords(words, kind, trail.changes()[place].before);
            takeWords(words, kind, trail.changes()[place].after);
        }
    }
    return words;
}

/// What the rows of a book become.
std::vector<Applied> blottedRows(const Book& book, const Rows& about, const PersonWords& words, BlottedOut& out)
{
    std::vector<Applied> applied;
    for (const auto& kind : allKinds()) {
        const auto fields = kind.fields;
        for (std::size_t i = 0; i < book.count(kind.kind); ++i) {
            const auto id = book.idAt(kind.kind, i);
            const bool isOwn = about.contains({kind.kind, id});
            const auto before = book.row(kind.kind, id);
            auto after = *before;
            bool names = false;
            for (std::size_t f = 0; f < fields.size(); ++f) {
                after.values[f] = isOwn ? blotted(words, kind.kind, id, fields[f], before->values[f]) : sweptElsewhere(words, kind.kind, fields[f], before->values[f]);
                const auto* text = std::get_if<std::string>(&after.values[f]);
                names = names || (text && words.names(*text));
            }
            if (names) out.stillNaming.push_back(std::string{kind.label} + " " + keyText(book, kind.kind, id));
            if (after.values == before->values) continue;
            ++(isOwn ? out.rows : out.mentions);
            ++after.revision;  // so that a form that still shows what was there is told
            applied.push_back({before, std::move(after)});
        }
    }
    return applied;
}

/// Rewrites what the trail kept of rows; the first entry that changed, or the highest number.
std::int64_t rewriteChanges(Database& database, WholeTrail& trail, const Rows& about, const PersonWords& words, std::set<std::int64_t>& steps)
{
    auto first = std::numeric_limits<std::int64_t>::max();
    FastStatement update{database, "UPDATE edit_change SET before = ?, after = ? WHERE edit = ? AND place = ?"};
    for (auto& change : trail.changes()) {
        const bool isOwn = about.contains({change.kind, change.row});
        bool changed = false;
        for (auto* text : {&change.before, &change.after}) {
            // Where the trail had to escape something, a line's end or a quote, a word looks otherwise than in its row.
            if (!*text || (!isOwn && (*text)->find('\\') == std::string::npos && !words.names(**text))) continue;
            auto now = rewrittenTrail(change.kind, **text, [&](const Field& field, const Value& value) {
                return isOwn ? blotted(words, change.kind, change.row, field, value) : sweptElsewhere(words, change.kind, field, value);
            });
            if (now == **text) continue;
            *text = std::move(now);
            changed = true;
        }
        if (!changed) continue;
        update.bind(1, change.before ? Value{*change.before} : Value{});
        update.bind(2, change.after ? Value{*change.after} : Value{});
        update.bind(3, change.edit);
        update.bind(4, change.place);
        update.run();
        steps.insert(change.edit);
        first = std::min(first, change.edit);
    }
    return first;
}

std::int64_t rewriteTitles(Database& database, const WholeTrail& trail, const Rows& about, const PersonWords& words, std::set<std::int64_t>& steps)
{
    std::set<std::int64_t> own;
    for (const auto& change : trail.changes())
        if (about.contains({change.kind, change.row})) own.insert(change.edit);
    for (const auto& run : trail.runs())
        if (const auto at = about.lower_bound({run.kind, run.first}); at != about.end() && at->kind == run.kind && at->id <= run.last) own.insert(run.edit);
    std::vector<std::pair<std::int64_t, std::string>> titles;
    {
        FastStatement select{database, "SELECT id, title FROM edit ORDER BY id"};
        while (select.step()) {
            const std::string title{select.text(1)};
            if (auto now = words.sweptTitle(title, own.contains(select.number(0))); now != title) titles.emplace_back(select.number(0), std::move(now));
        }
    }
    FastStatement update{database, "UPDATE edit SET title = ? WHERE id = ?"};
    for (const auto& [edit, title] : titles) {
        update.bind(1, std::string_view{title});
        update.bind(2, edit);
        update.run();
        steps.insert(edit);
    }
    return titles.empty() ? std::numeric_limits<std::int64_t>::max() : titles.front().first;
}

/// Reckons every link from an entry on anew; the last one comes back.
std::string makeChainAnew(Database& database, const WholeTrail& trail, const Book& book, std::int64_t from)
{
    std::string last;
    std::vector<std::pair<std::int64_t, std::string>> links;
    trail.follow(book, [&](const WholeTrail::Entry& entry) {
        if (!entry.isLinked) return last;
        if (entry.heading.edit < from) return last = entry.written;
        if (!entry.isWhole) throw StorageError{"the trail of " + database.path() + " is damaged; go back to a copy"};
        links.emplace_back(entry.heading.edit, entry.reckoned);
        return last = entry.reckoned;
    });
    Batch batch{database};
    FastStatement update{database, "UPDATE edit SET chain = ? WHERE id = ?"};
    for (const auto& [edit, link] : links) {
        update.bind(1, std::string_view{link});
        update.bind(2, edit);
        update.run();
    }
    batch.finish();
    return last;
}

}

BlottedOut SqlStore::blotOut(Person person)
{
    if (options_.readOnly) throw StorageError{path_ + " is open to look only; nothing can be changed in it"};
    if (person.kind != RecordKind::customer && person.kind != RecordKind::crewMember) throw DomainError{"blotting out a record that is no person"};
    if (database_.isOnServer()) reachServer();
    BlottedOut out;
    auto numbers = numbers_;
    std::vector<Applied> applied;
    try {
        if (!database_.isOnServer()) database_.run("PRAGMA secure_delete = ON");
        Transaction transaction{database_};
        const auto replacedBefore = replacedBy_;
        takeInOthers();
        if (replacedBy_ != replacedBefore) refuseReplaced();  // the number may be another person's now
        numbers = numbers_;                                   // others may have moved the counters on
        auto book = book_;
        auto ever = book_;
        for (const auto& removed : removedRows(std::numeric_limits<std::size_t>::max())) ever.put(*removed.before);
        if (!ever.find(person.kind, person.id)) throw StorageError{"there is no " + std::string{describe(person.kind).label} + " " + std::to_string(person.id) + " in " + path_};
        // A trail with a fault in it would look sound once its chain is made anew.
        std::vector<VerifyFinding> faults;
        checkTrail(database_, book, faults);
        if (!faults.empty()) throw StorageError{"nobody is blotted out while the trail has a fault (" + faults.front().where + ": " + faults.front().what + "); run verify and mend it first"};

        WholeTrail trail{database_};
        const auto list = rowsAbout(ever, person, formerNames(trail, person));
        const Rows about{list.begin(), list.end()};
        const auto words = wordsOf(ever, about, trail);
        applied = blottedRows(book, about, words, out);
        {
            Batch batch{database_};
            writeRows(database_, applied);
            batch.finish();
        }
        std::set<std::int64_t> steps;
        auto first = rewriteChanges(database_, trail, about, words, steps);
        first = std::min(first, rewriteTitles(database_, trail, about, words, steps));
        Rows changed;
        for (const auto& change : applied) {
            book.put(*change.after);
            changed.insert({change.after->kind, change.after->id});
        }
        for (const auto& change : trail.changes())
            if (steps.contains(change.edit)) changed.insert({change.kind, change.row});
        for (const auto& run : trail.runs())
            if (const auto at = changed.lower_bound({run.kind, run.first}); at != changed.end() && at->kind == run.kind && at->id <= run.last) first = std::min(first, run.edit);
        out.steps = steps.size();

        if (!applied.empty() || !steps.empty()) {
            const auto edit = numbers_.nextEdit();
            first = std::min(first, edit);
            const auto title = blottingTitle(person) + "; the trail was made anew from entry " + std::to_string(first) + " on, and ended in " + lastLink_ + " before";
            FastStatement entry{database_, "INSERT INTO edit (id, at, desk, title, how, of_edit, chain) VALUES (?, ?, ?, ?, ?, ?, ?)"};
            entry.bind(1, edit);
            entry.bind(2, std::string_view{options_.now.empty() ? utcNow() : options_.now});
            entry.bind(3, std::string_view{desk_});
            entry.bind(4, std::string_view{title});
            entry.bind(5, std::string_view{"blot"});
            entry.bind(6, first);
            entry.bind(7, std::string_view{"-"});  // until it is reckoned
            entry.run();
            auto link = makeChainAnew(database_, trail, book, first);
            numbers_.write(database_, edit);
            if (const auto tell = database_.dialect().tellOthers(); !tell.empty()) database_.run(tell);
            transaction.commit();
            lastEdit_ = edit;
            lastLink_ = std::move(link);
            if (database_.isOnServer()) dataVersion_ = versionAt(lastEdit_, lastLink_);
        } else {
            transaction.commit();
        }
    } catch (...) {
        numbers_ = numbers;
        throw;
    }
    for (const auto& change : applied) book_.put(*change.after);
    stacks_ = stacksOf(database_, desk_);
    out.remark = scrub();
    if (untold_ || !applied.empty()) tell();
    return out;
}

std::string SqlStore::scrub()
{
    const auto& dialect = database_.dialect();
    try {
        if (const auto others = dialect.tablesOfOthers(); !others.empty() && database_.number(others) > 0)
            return "the server keeps what was overwritten until whoever owns the book there runs VACUUM FULL";
        for (const auto& statement : dialect.scrubbing(database_.column(dialect.tables()))) {
            if (statement.starts_with("PRAGMA wal")) {
                if (database_.number(statement) != 0) return "another program holds the book open, so that its log still keeps what was overwritten; close it there and blot out once more";
            } else {
                database_.run(statement);
            }
        }
    } catch (const StorageError& error) {
        return std::string{"what was overwritten may still lie in the file: "} + error.what() + "; blot out once more";
    }
    return {};
}

std::vector<TrailEntry> SqlStore::blottings() const
{
    FastStatement select{database_, "SELECT id, at, desk, title, how FROM edit WHERE how = 'blot' ORDER BY id"};
    std::vector<TrailEntry> entries;
    while (select.step())
        entries.push_back({select.number(0), std::string{select.text(1)}, std::string{select.text(2)}, std::string{select.text(3)}, std::string{select.text(4)}});
    return entries;
}

}
