#pragma once

#include "route/routing.h"

#include <compare>
#include <optional>
#include <vector>

namespace strikeoff {

/// An open visit as the planner sees it. Days are counted from the first day of the plan.
struct PlanVisit {
    int place = 0;
    int minutes = 1;                       ///< on site, at least one
    int people = 1;
    std::vector<std::vector<Span>> hours;  ///< by day: when the work may be under way; none on a day it cannot be done
    std::vector<int> lateDays;             ///< by day: how many days late it is then
    int tooLateFrom = 1'000'000;           ///< the first day on which it is too late
    int lateDaysLeftOut = 0;               ///< what it counts when no day is found for it
    std::optional<int> pinnedTo;           ///< the day the owner wants; kept even where its hours say no
};

/// People who can go out on a day, together: where they start and end, and when.
struct PlanRun {
    int startPlace = 0;
    int endPlace = 0;
    Span hours;
    int people = 1;
    int count = 1;  ///< so many runs alike
};

struct PlanDay {
    std::vector<PlanRun> runs;
};

struct PlanProblem {
    DriveMatrix drives;
    std::vector<PlanVisit> visits;
    std::vector<PlanDay> days;
};

/// What a plan is judged by, the first that differs deciding.
struct PlanScore {
    int pinsBroken = 0;  ///< pinned visits that found no room on their day
    int tooLate = 0;     ///< visits done too late, or left out although they will be
    int leftOut = 0;
    int lateDays = 0;
    std::int64_t drive = 0;  ///< minutes, without ways that are driven anyway (from a pour back to the shop)
    friend auto operator<=>(const PlanScore&, const PlanScore&) = default;
};

struct PlannedStop {
    std::size_t visit = 0;
    int arrive = 0;  ///< when the work begins, minutes of the day
    int leave = 0;
    int drive = 0;   ///< minutes from the place before
    bool outsideHours = false;  ///< pinned where its hours say no
};

struct PlannedRun {
    int day = 0;
    std::size_t run = 0;  ///< in its day
    int leaves = 0;
    int back = 0;
    int drive = 0;        ///< all minutes at the wheel
    std::vector<PlannedStop> stops;
};

struct Plan {
    std::vector<PlannedRun> runs;      ///< by day, then by when they leave
    std::vector<std::size_t> leftOut;  ///< visits without a day
    PlanScore score;
    PlanScore bound;                   ///< no plan scores better
    bool isProven() const { return bound == score; }

    /// A run that was looked at, made or not.
    struct Order {
        int day = 0;
        std::size_t run = 0;  ///< in its day
        std::vector<std::size_t> visits;
    };
    std::vector<Order> promising;      ///< from which the plan of nearly the same visits is made faster
};

/// Gives each visit a day, a run and a time: no pin broken, none too late, none left out, fewest late days, least driving, in this order. Proven where
/// the search ends within its effort (see solveRouting). A plan made before of the same visits in the same order, on the same days, is where the search
/// begins; hours, pins and crews may have changed since.
Plan planVisits(const PlanProblem& problem, const SearchEffort& effort = {}, const Plan* before = nullptr);

/// A plain pass for comparison: day by day, each run goes to the nearest visit it can still make, until none is left or the day is over.
Plan nearestNeighborPlan(const PlanProblem& problem);

}
