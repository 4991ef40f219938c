#pragma once

#include "store.h"

namespace strikeoff {

/// The rows that were removed from a book, newest first, with what an owner wants to know of each before it comes back. Good until the book changes.
class RemovedRows {
public:
    explicit RemovedRows(const Store& store, std::size_t most = 2000);

    const std::vector<TrailChange>& rows() const { return rows_; }
    /// How many there are and which was the last, in a sentence.
    std::string answer() const;
    /// "Job 1034", "Invoice line 1002, 3": what the row goes by, also where what it is named after was removed too.
    std::string name(std::size_t place) const { return nameOf(*rows_[place].before); }
    /// A value of a removed row as people read it, with its unit; a reference by name.
    std::string words(const Field& field, const Value& value) const;
    /// The places of the removed rows it refers to, directly or by way of another, which have to come back before it: those first.
    std::vector<std::size_t> needed(std::size_t place) const;
    /// The places of the rows that were removed in the same step, without itself.
    std::vector<std::size_t> ofSameStep(std::size_t place) const;
    /// What bringing it back takes, with what it refers to: whatever is referred to first.
    std::vector<TrailChange> withNeeded(std::vector<std::size_t> places) const;
    /// Why the row cannot come back, even with what it needs: it refers to something that is neither in the book nor among the removed rows, or another
    /// row goes by its name now. Blank when nothing is known to be in the way.
    std::string hindrance(std::size_t place) const;

private:
    std::string nameOf(const Row& row) const;
    std::string nameOf(RecordKind kind, std::int64_t id) const;
    std::optional<std::size_t> placeOf(RecordKind kind, std::int64_t id) const;
    void gather(std::size_t place, std::vector<std::size_t>& places) const;

    const Store& store_;
    std::vector<TrailChange> rows_;
};

}
