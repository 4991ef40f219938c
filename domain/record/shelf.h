#pragma once

#include "quantity/id.h"

#include <algorithm>
#include <span>
#include <vector>

namespace strikeoff {

/// All rows of one kind, in the order of their ids.
template <class Record>
class Shelf {
public:
    auto begin() const { return rows_.begin(); }
    auto end() const { return rows_.end(); }
    std::size_t size() const { return rows_.size(); }
    bool empty() const { return rows_.empty(); }
    const Record& operator[](std::size_t index) const { return rows_[index]; }
    std::int64_t lastId() const { return rows_.empty() ? 0 : rows_.back().id.value(); }

    /// The row with an id, or nullptr.
    const Record* find(Id<Record> id) const
    {
        const auto index = place(id);
        return index < rows_.size() && rows_[index].id == id ? &rows_[index] : nullptr;
    }

    void reserve(std::size_t count) { rows_.reserve(count); }
    Record& append(Record record) { return rows_.emplace_back(std::move(record)); }
    void put(Record record)
    {
        const auto index = place(record.id);
        if (index < rows_.size() && rows_[index].id == record.id) rows_[index] = std::move(record);
        else rows_.insert(rows_.begin() + static_cast<std::ptrdiff_t>(index), std::move(record));
    }
    void erase(Id<Record> id)
    {
        const auto index = place(id);
        if (index < rows_.size() && rows_[index].id == id) rows_.erase(rows_.begin() + static_cast<std::ptrdiff_t>(index));
    }
    /// Takes out all rows of sorted ids in one pass.
    void eraseAll(std::span<const std::int64_t> sortedIds)
    {
        std::erase_if(rows_, [&](const Record& row) { return std::binary_search(sortedIds.begin(), sortedIds.end(), row.id.value()); });
    }

private:
    /// Where a row with the id stands or would stand. Ids mostly count up without gaps, so the guess by distance is tried first.
    std::size_t place(Id<Record> id) const
    {
        if (rows_.empty() || id > rows_.back().id) return rows_.size();
        const auto first = rows_.front().id.value();
        if (id.value() <= first) return 0;
        const auto guess = static_cast<std::size_t>(id.value() - first);
        if (guess < rows_.size() && rows_[guess].id == id) return guess;
        const auto found = std::lower_bound(rows_.begin(), rows_.end(), id, [](const Record& row, Id<Record> wanted) { return row.id < wanted; });
        return static_cast<std::size_t>(found - rows_.begin());
    }

    std::vector<Record> rows_;
};

}
