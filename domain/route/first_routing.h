#pragma once

#include "route/run_space.h"

#include <cstdint>

namespace strikeoff {

/// A plan that grows by insertion and is bettered by moving and swapping stops: the search's first one.
class FirstRouting {
public:
    FirstRouting(const RoutingProblem& problem, const std::vector<RunSpace>& spaces);

    /// Begins with the runs of another routing, as far as they fit.
    void takeOver(const std::vector<RunOrder>& plan);
    /// Inserts what is not in a run yet.
    void insertAll();
    /// Moves single stops and swaps pairs as long as that lowers the cost.
    void improve();
    /// Takes neighboring stops or a whole run out and puts them in again where they add least, so many times, keeping what is no worse (Shaw, Principles
    /// and Practice of Constraint Programming, 1998). Always the same for the same routing.
    void rebuildParts(int times);
    Routing routing() const;

private:
    struct Run {
        std::size_t klass = 0;
        std::vector<int> stops;
        std::int64_t cost = 0;
    };
    struct Place {
        std::size_t run = 0;
        std::size_t position = 0;
        std::int64_t added = 0;
        bool found = false;
    };
    std::int64_t costOf(std::size_t klass, const std::vector<int>& stops) const;
    Place cheapestPlace(int stop) const;
    void put(int stop, const Place& place);
    bool moveOne(int stop);
    bool swapOne(int stop, int other);
    std::vector<int> takeOut(std::uint32_t pick, std::uint32_t size);
    std::int64_t cost() const;

    const RoutingProblem& problem_;
    const std::vector<RunSpace>& spaces_;
    std::vector<std::vector<int>> localOf_;  ///< by class and stop; −1 where the run cannot serve it
    std::vector<Run> runs_;                  ///< all that may go out, also those that stay at home
    std::vector<int> runOf_;                 ///< by stop; −1 left out
};

}
