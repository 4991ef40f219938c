#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

namespace strikeoff {

/// Rows by the hash of their key: one flat table, probed in line, as a load of many rows adds to it row by row.
class KeyIndex {
public:
    void reserve(std::size_t rows)
    {
        if (2 * rows > slots_.size()) rebuild(rows);
    }
    void add(std::size_t hash, std::int64_t id)
    {
        if (2 * (used_ + 1) > slots_.size()) rebuild(2 * count_ + 8);
        auto at = placeOf(hash);
        for (; slots_[at].id != freeSlot; at = (at + 1) & (slots_.size() - 1))
            if (slots_[at].hash == hash && slots_[at].id != takenOut) mayShare_ = true;
        slots_[at] = {hash, id};
        ++used_;
        ++count_;
    }
    void remove(std::size_t hash, std::int64_t id)
    {
        if (slots_.empty()) return;
        for (auto at = placeOf(hash); slots_[at].id != freeSlot; at = (at + 1) & (slots_.size() - 1)) {
            if (slots_[at].hash != hash || slots_[at].id != id) continue;
            slots_[at].id = takenOut;
            --count_;
            return;
        }
    }
    /// False while no two rows have had the same hash, so that no two keys are the same.
    bool mayShare() const { return mayShare_; }
    /// Calls `take(id)` for each row with the hash.
    template <class Take>
    void each(std::size_t hash, Take take) const
    {
        if (slots_.empty()) return;
        for (auto at = placeOf(hash); slots_[at].id != freeSlot; at = (at + 1) & (slots_.size() - 1))
            if (slots_[at].hash == hash && slots_[at].id != takenOut) take(slots_[at].id);
    }

private:
    static constexpr auto freeSlot = std::numeric_limits<std::int64_t>::min();
    static constexpr auto takenOut = freeSlot + 1;
    struct Slot {
        std::size_t hash = 0;
        std::int64_t id = freeSlot;
    };
    std::size_t placeOf(std::size_t hash) const { return (hash ^ (hash >> 29)) & (slots_.size() - 1); }
    void rebuild(std::size_t rows)
    {
        std::size_t size = 16;
        while (size < 2 * rows) size *= 2;
        std::vector<Slot> old(size);
        old.swap(slots_);
        used_ = count_ = 0;
        mayShare_ = false;
        for (const auto& slot : old)
            if (slot.id != freeSlot && slot.id != takenOut) add(slot.hash, slot.id);
    }

    std::vector<Slot> slots_;  // a power of two of them, at least half of them free
    std::size_t used_ = 0;     // slots that are not free
    std::size_t count_ = 0;    // rows
    bool mayShare_ = false;
};

}
