#pragma once

#include "trail.h"

#include <functional>
#include <unordered_map>

namespace strikeoff {

struct PlacedChange : KeptChange {
    std::int64_t place = 0;
};

/// The trail of a book in memory, entry by entry, for checking its chain and for making it anew.
class WholeTrail {
public:
    using RowPlace = std::pair<RecordKind, std::int64_t>;
    struct HashOfPlace {
        std::size_t operator()(const RowPlace& place) const { return std::hash<std::int64_t>{}(place.second * 64 + static_cast<std::int64_t>(place.first)); }
    };
    using ByRow = std::unordered_map<RowPlace, std::vector<std::size_t>, HashOfPlace>;

    /// Reads it. A change that names a kind of record which does not exist is left out and told: `told(entry)`.
    WholeTrail(Database& database, const std::function<void(std::int64_t entry)>& told = {});

    const std::vector<PlacedChange>& changes() const { return changes_; }
    /// To be rewritten in place; their order stays.
    std::vector<PlacedChange>& changes() { return changes_; }
    const std::vector<AddedRun>& runs() const { return runs_; }
    /// The places in `changes` of those of one row, in their order; null where there are none.
    const std::vector<std::size_t>* changesOf(RecordKind kind, std::int64_t row) const;
    const ByRow& byRow() const { return ofRow_; }

    /// One entry with its link to the one before.
    struct Entry {
        TrailHeading heading;
        bool isLinked = false;     ///< entries of an older version are not
        std::string written;       ///< the link as it is kept
        std::string reckoned;      ///< the link as it follows from what the trail and the book say
        bool isWhole = true;       ///< false when a row that it added cannot be found again
    };
    /// Calls `take` for each entry in order; it gives the link that the next entry is reckoned on.
    void follow(const Book& book, const std::function<std::string(Entry& entry)>& take) const;

private:
    std::optional<Row> asAdded(const Book& book, const AddedRun& run, std::int64_t id) const;
    std::optional<std::string> digestOf(const Book& book, const AddedRun& run) const;

    Database& database_;
    std::vector<PlacedChange> changes_;
    ByRow ofRow_;
    std::vector<AddedRun> runs_;
};

/// A run is never longer than this; one that says so was not written here.
inline constexpr std::int64_t longestRun = 100'000'000;

}
