#pragma once

#include "database.h"

namespace strikeoff {

/// Field values of a row as one JSON object, by field name and in stored form; with `other`, only those that differ from it.
std::string trailText(const Row& row, const Row* other = nullptr);
/// Puts the values of a trailText over a row. False when the text is none of ours.
bool overlay(Row& row, const std::string& trailText);
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

/// Writes the trail of one edit; `applied` may be large.
class TrailWriter {
public:
    TrailWriter(Database& database, std::int64_t edit, const std::string& at, const std::string& desk, const std::string& title, const std::string& how,
                std::optional<std::int64_t> ofEdit);
    void add(const Applied& change);

private:
    FastStatement insert_;
    std::int64_t edit_;
    std::int64_t place_ = 0;
};

std::vector<KeptChange> changesOfEdit(Database& database, std::int64_t edit);
std::vector<KeptChange> changesOfRow(Database& database, RecordKind kind, std::int64_t row);
TrailEntry entryOf(Database& database, std::int64_t edit);

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
