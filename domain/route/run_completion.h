#pragma once

#include "route/run_space.h"

#include <array>
#include <cstdint>
#include <vector>

namespace strikeoff {

/// What a run can still gain at best after a stop, by the time it is done there: over all ways on that keep the hours but may come to a stop again,
/// though not at once, and never to the stops named `once` (Christofides, Mingozzi and Toth, Networks 11, 1981, with such stops added as they are
/// needed: Righini and Salani, Networks 51, 2008). A cell keeps the best ways with their next stops, so that one who has been there takes another.
class RunCompletion {
public:
    using Set = std::uint64_t;
    static constexpr double hopeless = 1e18;

    /// The time is cut into steps of at most `longestStep`, and no longer than the shortest work with its drive, so that every way leads to a later one.
    RunCompletion(const RunSpace& space, const std::vector<double>& gains, double runPrice, int longestStep, std::vector<int> once = {});

    double after(int last, int time, Set seen) const { return step_ == 0 ? least_ : cells_[cell(last, time) + onceOf(seen)].without(seen); }

    /// Stops that the best way of all comes to more than once.
    std::vector<int> repeated() const;

private:
    struct Way {
        double value = hopeless;
        int next = -1;  ///< −1 home
    };
    struct Cell {
        std::array<Way, 3> ways;  ///< the best ones, by value

        void keep(double value, int next);
        /// The best way that does not lead to one of some stops next, or the last one kept, which no other is better than.
        const Way& wayWithout(Set stops) const
        {
            for (const auto& way : ways)
                if (way.next < 0 || !(stops >> way.next & 1)) return way;
            return ways[2];
        }
        double without(Set stops) const { return wayWithout(stops).value; }
    };
    std::size_t cell(int local, int time) const { return (static_cast<std::size_t>((time - space_->hours().from) / step_) * static_cast<std::size_t>(space_->size()) + static_cast<std::size_t>(local)) << once_.size(); }
    std::size_t onceOf(Set seen) const
    {
        std::size_t some = 0;
        for (std::size_t place = 0; place < once_.size(); ++place) some |= static_cast<std::size_t>(seen >> once_[place] & 1) << place;
        return some;
    }

    const RunSpace* space_;
    const std::vector<double>* gains_;
    std::vector<int> once_;
    std::vector<Cell> cells_;
    double least_ = 0;
    int step_ = 0;
};

}
