#pragma once

#include "database.h"

#include <functional>

namespace strikeoff {

/// Field values of a row as one JSON object, by field name and in stored form; with `other`, only those that differ from it.
std::string trailText(const Row& row, const Row* other = nullptr);
/// Puts the values of a trailText over a row. False when the text is none of ours.
bool overlay(Row& row, const std::string& trailText);
/// A trailText with each value as `each` gives it; a value that is not recorded any more is left out. The same text when nothing changes.
std::string rewrittenTrail(RecordKind kind, const std::string& trailText, const std::function<Value(const Field& field, const Value& value)>& each);
/// The fields a trailText names.
std::vector<std::string> fieldsIn(const std::string& trailText);

/// One row of the trail's changes as it is kept.
struct KeptChange {
    std::int64_t edit = 0;
    RecordKind kind{};
    std::int64_t row = 0;
    std::int64_t revision = 0;  ///< of the row before the change
    std::optional<std::string> before;
    std::optional<std::string> after;
};

/// Rows that one edit added one after the other.
struct AddedRun {
    std::int64_t edit = 0;
    std::int64_t place = 0;
    RecordKind kind{};
    std::int64_t first = 0, last = 0;
};
/// The runs of all edits after one.
std::vector<AddedRun> runsAfter(Database& database, std::int64_t edit);

/// One entry of the trail as it is written.
struct TrailHeading {
    std::int64_t edit = 0;
    std::string at, desk, title, how;
    std::optional<std::int64_t> ofEdit;
};

/// Writes the trail of one edit. Many rows added one after the other, as a load does, are kept as a run of ids without their values: those
/// follow from what the rows hold now and what was changed since. The entry is linked to the one before, whose link is given; its own link comes back.
std::string writeTrail(Database& database, const TrailHeading& heading, const std::vector<Applied>& applied, const std::string& previousLink);

/// Whether the values of rows added in a run are wanted, which takes a look at each of them, or only that they were added.
enum class RunValues { wanted, left };
std::vector<KeptChange> changesOfEdit(Database& database, std::int64_t edit, RunValues values);
std::vector<KeptChange> changesOfRow(Database& database, RecordKind kind, std::int64_t row);
TrailEntry entryOf(Database& database, std::int64_t edit);
/// When and at which desk the trail begins.
std::string beginningOf(Database& database);

/// The undo and redo stacks of one desk, as the trail tells them.
struct UndoStacks {
    struct Step {
        std::int64_t edit = 0;
        std::string title;
    };
    std::vector<Step> undo;
    std::vector<Step> redo;
    void take(std::int64_t edit, const std::string& title, const std::string& how, std::int64_t ofEdit);
};
UndoStacks stacksOf(Database& database, const std::string& desk);

}
