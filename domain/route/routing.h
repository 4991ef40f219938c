#pragma once

#include "route/tour.h"

#include <compare>
#include <cstdint>
#include <optional>
#include <vector>

namespace strikeoff {

/// Hours in which work may be under way: it begins at or after `from` and is done by `to`, in minutes of the day.
struct Span {
    int from = 0;
    int to = 0;
    friend bool operator==(const Span&, const Span&) = default;
};

/// A place where something is to be done.
struct Stop {
    int place = 0;
    int service = 0;               ///< minutes of work
    int load = 0;                  ///< what a run has to carry for it
    std::int64_t leftOutCost = 0;  ///< what it costs to leave it out; not negative
};

/// A stop on a run: the hours it may be served in, sorted and apart, and what that costs beside the drive.
struct StopOption {
    std::vector<Span> hours;
    std::int64_t cost = 0;
};

/// People who go out and come back: up to `count` of them alike.
struct RunClass {
    int count = 1;
    int startPlace = 0;
    int endPlace = 0;
    Span hours;    ///< leave at or after `from`, back by `to`
    int capacity = 0;
    std::vector<std::optional<StopOption>> options;  ///< by stop; nothing where the run cannot serve it
};

struct RoutingProblem {
    DriveMatrix drives;
    std::vector<Stop> stops;
    std::vector<RunClass> runs;
};

/// Stops in the order a run comes to them.
struct RunOrder {
    std::size_t run = 0;
    std::vector<int> stops;
    friend auto operator<=>(const RunOrder&, const RunOrder&) = default;
};

/// One run with its stops in order.
struct Route {
    std::size_t run = 0;
    std::vector<int> stops;
    std::vector<int> begins;  ///< of the work at each stop
    int leaves = 0;           ///< the start, as late as the first stop allows
    int back = 0;             ///< at the end
    int drive = 0;
    std::int64_t cost = 0;    ///< the options' costs and the drive, less the way from start to end that is driven anyway
};

struct Routing {
    std::vector<Route> routes;
    std::vector<int> leftOut;
    std::int64_t cost = 0;
    std::int64_t bound = 0;  ///< no routing costs less
    std::vector<RunOrder> promising;  ///< runs, chosen or not, from which the search of nearly the same problem may set out
    bool isProven() const { return bound >= cost; }
};

/// How far the search goes before it gives what it has; counts of work done, so that the same problem gives the same answer on every machine.
struct SearchEffort {
    int labels = 300'000;     ///< beginnings of runs looked at in one pricing of a run
    int rounds = 200;         ///< of column generation
    int enumerated = 40'000;  ///< runs that may still be part of something better; with none nothing is proven beyond the linear program
    int nodes = 2'000;        ///< of the final branch and bound
    int turns = 20'000;       ///< of the simplex method in it
    int rebuilt = 200;        ///< times parts of the best routing are taken out and put in again

    /// What answers at once: a good routing with the linear program's bound.
    static SearchEffort quick() { return {20'000, 200, 500, 200, 1'500, 0}; }
};

/// What is known before a search begins. What does not fit the problem is passed over.
struct SearchStart {
    std::vector<RunOrder> plan;            ///< a routing to begin with, of each run as many as there are
    std::vector<RunOrder> promising;       ///< runs worth looking at
    std::optional<std::int64_t> below;     ///< a routing that costs as much is of no use: the search ends once there is hardly one that costs less
};

/// A run in this order, begun as early as can be, or nothing when it does not fit hours and capacity.
std::optional<Route> timedRoute(const RoutingProblem& problem, std::size_t run, const std::vector<int>& order);

/// The order of some stops on one run that drives least, over all orders (dynamic programming over sets, Held and Karp 1962, a front of drive
/// and time a set and last stop); without binding hours more than 13 stops go by shortestTour. Nothing when no order fits. DomainError for more
/// than 20 stops whose hours bind.
std::optional<Route> bestOrder(const RoutingProblem& problem, std::size_t run, const std::vector<int>& stops);

/// Stops given to runs at least total cost. Column generation over a partition into runs, whose dual prices give the bound; then every run that can
/// be part of something better is listed and the least sum found by branch and bound (Baldacci, Christofides and Mingozzi, Mathematical Programming
/// 115, 2008). Where that ends within the effort the result is proven; otherwise it is the best found, with its bound.
Routing solveRouting(const RoutingProblem& problem, const SearchEffort& effort = {}, const SearchStart& start = {});

/// The first plan of solveRouting, without a bound: each stop, those with the least choice first, where it adds least.
Routing insertedRouting(const RoutingProblem& problem);

}
