#pragma once

#include "route/routing.h"

#include <limits>

namespace strikeoff {

/// One run of a routing problem, with only the stops it can serve, numbered anew, and the drives between them side by side.
class RunSpace {
public:
    RunSpace(const RoutingProblem& problem, std::size_t run);

    int size() const { return static_cast<int>(stops_.size()); }
    int stop(int local) const { return stops_[static_cast<std::size_t>(local)]; }
    int service(int local) const { return service_[static_cast<std::size_t>(local)]; }
    int load(int local) const { return load_[static_cast<std::size_t>(local)]; }
    std::int64_t cost(int local) const { return cost_[static_cast<std::size_t>(local)]; }
    int drive(int from, int to) const { return drives_(from, to); }
    int fromStart(int local) const { return drives_(size(), local); }
    int toEnd(int local) const { return drives_(local, size() + 1); }
    int emptyDrive() const { return drives_(size(), size() + 1); }
    const Span& hours() const { return hours_; }
    int capacity() const { return capacity_; }

    static constexpr int never = std::numeric_limits<int>::max() / 4;
    /// When the work at a stop is done for one who arrives then; never when no hours are left for it.
    int finish(int local, int arrives) const
    {
        for (const auto& span : *spans_[static_cast<std::size_t>(local)]) {
            const int end = (arrives > span.from ? arrives : span.from) + service(local);
            if (end <= span.to) return end;
        }
        return never;
    }
    /// Whether one who is done at a stop then can still be back in time.
    bool canReturn(int local, int time) const { return time + toEnd(local) <= hours_.to; }

    /// Whether a run may go from one stop to the other. Of two at one place with the same hours the first goes first: the other way is no better.
    bool mayFollow(int from, int to) const { return mayFollow_[static_cast<std::size_t>(from * size() + to)] != 0; }

private:
    std::vector<char> mayFollow_;
    std::vector<int> stops_, service_, load_;
    std::vector<std::int64_t> cost_;
    std::vector<const std::vector<Span>*> spans_;
    DriveMatrix drives_;
    Span hours_;
    int capacity_ = 0;
};

}
