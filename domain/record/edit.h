#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

enum class ChangeType { add, change, remove };

/// One row added, changed or removed. An added row's id is negative (another row of the same edit may refer to it); a changed or removed one
/// carries the revision it was seen at.
struct Change {
    ChangeType what{};
    Row row;
};

/// What a page or a command wants done, as one step that is undone as one.
class Edit {
public:
    explicit Edit(std::string title) : title_{std::move(title)} {}

    const std::string& title() const { return title_; }
    const std::vector<Change>& changes() const { return changes_; }
    std::vector<Change>& changes() { return changes_; }
    bool empty() const { return changes_.empty(); }

    void add(Row row)
    {
        row.id = nextNew_--;
        row.revision = 0;
        changes_.push_back({ChangeType::add, std::move(row)});
    }
    void change(Row row) { changes_.push_back({ChangeType::change, std::move(row)}); }
    void remove(RecordKind kind, std::int64_t id, std::int64_t revision) { changes_.push_back({ChangeType::remove, Row{kind, id, revision, {}}}); }

    /// Adds a record and returns the id by which other rows of this edit can refer to it.
    template <class Record>
    Id<Record> add(const Record& record)
    {
        add(rowOf(record));
        return Id<Record>{changes_.back().row.id};
    }
    template <class Record>
    void change(const Record& record) { change(rowOf(record)); }
    template <class Record>
    void remove(const Record& record) { remove(kindOf<Record>, record.id.value(), record.revision); }

private:
    std::string title_;
    std::vector<Change> changes_;
    std::int64_t nextNew_ = -1;
};

/// A broken rule: which change of the edit (by place), which field, and a sentence with what to do.
struct Problem {
    std::size_t change = 0;
    std::string field;  ///< name of the field; blank when the row as a whole is meant
    std::string message;
};

}
