#pragma once

#include <cstdint>
#include <functional>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace strikeoff {

/// Finds numbers within two edits (two neighboring characters swapped counted as one) of a given one, without comparing it with all: two texts that
/// close have a common rest after leaving out at most two characters of each.
class NearNumbers {
public:
    static constexpr std::size_t longest = 24;  ///< longer numbers are near to none

    void add(std::string_view number, std::size_t which);
    /// Calls with each number near to this one, and the edits between them (0, 1 or 2); each once.
    void near(std::string_view number, const std::function<void(std::size_t which, int edits)>& found);

private:
    struct Entry {
        std::string_view number;
        std::size_t which;
        std::uint64_t seen = 0;  ///< by which question it was met last
    };
    std::vector<Entry> entries_;
    std::unordered_map<std::uint64_t, std::vector<std::uint32_t>> rests_;  ///< by hash
    std::uint64_t question_ = 0;
};

}
