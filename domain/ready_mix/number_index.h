#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace strikeoff {

/// Tickets by their comparable numbers. Filled anew with the few weeks that a statement can bill, so that it stays in the cache however large the book is.
class NumberIndex {
public:
    /// Forgets all, and makes room. What is added is only looked at: the numbers must outlive it.
    void begin(std::size_t count)
    {
        entries_.clear();
        entries_.reserve(count);
        std::size_t size = 16;
        while (size < 2 * count) size *= 2;
        slots_.assign(size, 0);
    }

    /// At most as many as there is room for.
    void add(std::string_view number, std::uint32_t place)
    {
        const auto hash = hashOf(number);
        entries_.push_back({hash, number, place});
        auto slot = hash & (slots_.size() - 1);
        while (slots_[slot] != 0) slot = (slot + 1) & (slots_.size() - 1);
        slots_[slot] = static_cast<std::uint32_t>(entries_.size());
    }

    /// Calls with the place of each ticket of a number.
    template <class Call>
    void each(std::string_view number, Call call) const
    {
        if (slots_.empty()) return;
        const auto hash = hashOf(number);
        for (auto slot = hash & (slots_.size() - 1); slots_[slot] != 0; slot = (slot + 1) & (slots_.size() - 1)) {
            const auto& entry = entries_[slots_[slot] - 1];
            if (entry.hash == hash && entry.number == number) call(entry.place);
        }
    }

private:
    struct Entry {
        std::size_t hash;
        std::string_view number;
        std::uint32_t place;
    };
    static std::size_t hashOf(std::string_view text)
    {
        std::uint64_t hash = 0xcbf29ce484222325ULL;  // FNV-1a
        for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3ULL;
        return static_cast<std::size_t>(hash ^ (hash >> 32));
    }

    std::vector<Entry> entries_;
    std::vector<std::uint32_t> slots_;  ///< place among the entries, from 1
};

}
