#include "visits/planner/plan.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace strikeoff {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// One run of one day.
struct DayRun {
    int day = 0;
    std::size_t run = 0;
    const PlanRun* what = nullptr;
};

/// How the parts of a score are weighed into one whole number: each part outweighs all that come after it.
struct Weights {
    std::int64_t lateDay = 1, leftOut = 1, tooLate = 1, pin = 1;

    Weights(const PlanProblem& problem, const std::vector<DayRun>& runs)
    {
        // No plan drives more than the longest way to each visit and from there back: typed minutes need not keep the triangle's rule.
        std::int64_t drive = 1, late = 1;
        for (const auto& visit : problem.visits) {
            std::int64_t there = 0, back = 0;
            for (const auto& run : runs) {
                there = std::max<std::int64_t>(there, problem.drives(run.what->startPlace, visit.place));
                back = std::max<std::int64_t>(back, problem.drives(visit.place, run.what->endPlace));
            }
            for (const auto& before : problem.visits) there = std::max<std::int64_t>(there, problem.drives(before.place, visit.place));
            drive += there + back;
            late += std::max(visit.lateDaysLeftOut, visit.lateDays.empty() ? 0 : std::ranges::max(visit.lateDays));
        }
        // Ways driven anyway are taken off, so that a run may cost less than nothing.
        for (const auto& run : runs) drive += std::int64_t{run.what->count} * problem.drives(run.what->startPlace, run.what->endPlace);
        const auto visits = static_cast<std::int64_t>(problem.visits.size()) + 1;
        lateDay = drive;
        leftOut = lateDay * late;
        tooLate = leftOut * visits;
        pin = tooLate * visits;
    }
};

class Planner {
public:
    Planner(const PlanProblem& problem, const SearchEffort& effort, const Plan* before) : problem_{problem}, effort_{effort}
    {
        check();
        if (before) {
            known_ = before->promising;
            for (const auto& run : before->runs) {
                auto& order = begun_.emplace_back(Plan::Order{run.day, run.run, {}});
                for (const auto& stop : run.stops) order.visits.push_back(stop.visit);
            }
        }
        for (std::size_t day = 0; day < problem.days.size(); ++day)
            for (std::size_t run = 0; run < problem.days[day].runs.size(); ++run)
                dayRuns_.push_back({static_cast<int>(day), run, &problem.days[day].runs[run]});
        for (std::size_t visit = 0; visit < problem.visits.size(); ++visit)
            widened_.push_back(problem.visits[visit].pinnedTo && !fitsAlone(visit));
    }

    Plan run()
    {
        auto plan = solve();
        // A pin is kept where the visit's hours leave no room for it, if any hour does.
        bool again = false;
        for (const auto visit : plan.leftOut)
            if (problem_.visits[visit].pinnedTo && !widened_[visit]) widened_[visit] = again = true;
        return again ? solve() : plan;
    }

private:
    void check() const
    {
        for (const auto& visit : problem_.visits) {
            if (visit.hours.size() != problem_.days.size() || visit.lateDays.size() != problem_.days.size())
                throw DomainError{"A visit of a plan needs hours and lateness for every day."};
            if (visit.minutes < 1) throw DomainError{"A visit of a plan takes at least a minute."};
            if (visit.pinnedTo && (*visit.pinnedTo < 0 || at(*visit.pinnedTo) >= problem_.days.size()))
                throw DomainError{"A visit is pinned to a day outside the plan."};
        }
    }

    /// Whether a pinned visit can be made within its hours on its day by someone who makes no other.
    bool fitsAlone(std::size_t visit) const
    {
        const auto& what = problem_.visits[visit];
        return std::ranges::any_of(dayRuns_, [&](const DayRun& run) {
            if (run.day != *what.pinnedTo || what.people > run.what->people) return false;
            const int arrives = run.what->hours.from + problem_.drives(run.what->startPlace, what.place);
            const int back = run.what->hours.to - problem_.drives(what.place, run.what->endPlace);
            return std::ranges::any_of(what.hours[at(run.day)], [&](const Span& span) {
                const int end = std::max(arrives, span.from) + what.minutes;
                return end <= span.to && end <= back;
            });
        });
    }

    bool isTooLate(std::size_t visit, int day) const { return day >= problem_.visits[visit].tooLateFrom; }
    int daysPlanned() const { return static_cast<int>(problem_.days.size()); }

    /// Parts of the score that a visit brings on a day, or left out for day −1.
    PlanScore scoreOf(std::size_t visit, int day) const
    {
        const auto& what = problem_.visits[visit];
        PlanScore score;
        if (day < 0) {
            score.pinsBroken = what.pinnedTo.has_value();
            score.tooLate = isTooLate(visit, daysPlanned() - 1);
            score.leftOut = 1;
            score.lateDays = what.lateDaysLeftOut;
        } else {
            score.tooLate = isTooLate(visit, day);
            score.lateDays = what.lateDays[at(day)];
        }
        return score;
    }

    static std::int64_t weigh(const PlanScore& score, const Weights& weights)
    {
        return score.pinsBroken * weights.pin + score.tooLate * weights.tooLate + score.leftOut * weights.leftOut + score.lateDays * weights.lateDay + score.drive;
    }

    static PlanScore unweigh(std::int64_t cost, const Weights& weights)
    {
        PlanScore score;
        const auto take = [&](std::int64_t weight) {
            const auto times = std::max<std::int64_t>(0, cost / weight);
            cost -= times * weight;
            return static_cast<int>(times);
        };
        score.pinsBroken = take(weights.pin);
        score.tooLate = take(weights.tooLate);
        score.leftOut = take(weights.leftOut);
        score.lateDays = take(weights.lateDay);
        score.drive = cost;
        return score;
    }

    std::optional<StopOption> optionOf(std::size_t visit, const DayRun& run) const
    {
        const auto& what = problem_.visits[visit];
        if (what.people > run.what->people || (what.pinnedTo && *what.pinnedTo != run.day)) return {};
        if (widened_[visit]) return StopOption{{run.what->hours}, 0};
        const auto& hours = what.hours[at(run.day)];
        if (hours.empty()) return {};
        return StopOption{hours, 0};
    }

    /// What is left when only the days on which each visit is least late are looked at; when every visit finds a place so, nothing can be better.
    Plan solve()
    {
        const Weights weights{problem_, dayRuns_};
        if (auto plan = solveWith(weights, true)) return *plan;
        return *solveWith(weights, false);
    }

    std::optional<Plan> solveWith(const Weights& weights, bool leastLateOnly)
    {
        RoutingProblem routing;
        routing.drives = problem_.drives;
        std::vector<std::size_t> visitOf;
        PlanScore fixed;  ///< of the visits that cannot be planned at all
        PlanScore least;
        Plan plan;
        for (std::size_t visit = 0; visit < problem_.visits.size(); ++visit) {
            std::optional<PlanScore> best;
            for (const auto& run : dayRuns_)
                if (optionOf(visit, run) && (!best || scoreOf(visit, run.day) < *best)) best = scoreOf(visit, run.day);
            if (!best) {
                plan.leftOut.push_back(visit);
                add(fixed, scoreOf(visit, -1));
                continue;
            }
            leastOf_.resize(problem_.visits.size());
            leastOf_[visit] = *best;
            add(least, *best);
            visitOf.push_back(visit);
            const auto& what = problem_.visits[visit];
            // Costs beyond the least that each visit costs in any case: small numbers, so that none is lost in rounding.
            routing.stops.push_back({what.place, what.minutes, 0, leastLateOnly ? weights.lateDay : weigh(scoreOf(visit, -1), weights) - weigh(*best, weights)});
        }
        std::vector<std::vector<DayRun>> sameRuns;  // by run of the routing problem
        for (const auto& run : dayRuns_) {
            RunClass klass;
            klass.count = run.what->count;
            klass.startPlace = run.what->startPlace;
            klass.endPlace = run.what->endPlace;
            klass.hours = run.what->hours;
            for (const auto visit : visitOf) {
                auto option = optionOf(visit, run);
                const auto score = scoreOf(visit, run.day);
                if (option && leastLateOnly && score != leastOf_[visit]) option.reset();
                if (option && !leastLateOnly) option->cost = weigh(score, weights) - weigh(leastOf_[visit], weights);
                klass.options.push_back(std::move(option));
            }
            addRun(routing, sameRuns, std::move(klass), run);
        }

        auto start = startOf(sameRuns, visitOf);
        if (leastLateOnly) start.below = weights.lateDay;
        const auto routed = solveRouting(routing, effort_, start);
        keepPromising(routed, sameRuns, visitOf);
        if (leastLateOnly && !routed.leftOut.empty()) return {};

        take(plan, routing, routed, sameRuns, visitOf);
        plan.score = fixed;
        for (const auto& run : plan.runs)
            for (const auto& stop : run.stops) add(plan.score, scoreOf(stop.visit, run.day));
        for (const int stop : routed.leftOut) {
            plan.leftOut.push_back(visitOf[at(stop)]);
            add(plan.score, scoreOf(visitOf[at(stop)], -1));
        }
        for (const auto& route : routed.routes) plan.score.drive += driveOf(routing, route);
        std::ranges::sort(plan.leftOut);
        if (leastLateOnly) {
            plan.bound = fixed;
            add(plan.bound, least);
            plan.bound.drive = routed.bound;
        } else {
            plan.bound = unweigh(routed.bound + weigh(least, weights), weights);
            add(plan.bound, fixed);
        }
        if (routed.isProven()) plan.bound = plan.score;
        plan.promising = known_;
        return plan;
    }

    /// What is known of runs, in the numbers of a routing problem.
    SearchStart startOf(const std::vector<std::vector<DayRun>>& sameRuns, const std::vector<std::size_t>& visitOf) const
    {
        std::map<std::pair<int, std::size_t>, std::size_t> classOf;
        for (std::size_t klass = 0; klass < sameRuns.size(); ++klass)
            for (const auto& run : sameRuns[klass]) classOf[{run.day, run.run}] = klass;
        std::map<std::size_t, int> stopOf;
        for (std::size_t stop = 0; stop < visitOf.size(); ++stop) stopOf[visitOf[stop]] = static_cast<int>(stop);
        const auto inRouting = [&](const std::vector<Plan::Order>& orders) {
            std::vector<RunOrder> result;
            for (const auto& order : orders) {
                const auto klass = classOf.find({order.day, order.run});
                if (klass == classOf.end()) continue;
                auto& one = result.emplace_back(RunOrder{klass->second, {}});
                for (const auto visit : order.visits)
                    if (const auto stop = stopOf.find(visit); stop != stopOf.end()) one.stops.push_back(stop->second);
                if (one.stops.empty()) result.pop_back();
            }
            return result;
        };
        SearchStart start;
        start.plan = inRouting(begun_);
        start.promising = inRouting(known_);
        std::ranges::sort(start.promising);
        start.promising.erase(std::unique(start.promising.begin(), start.promising.end()), start.promising.end());
        return start;
    }

    void keepPromising(const Routing& routed, const std::vector<std::vector<DayRun>>& sameRuns, const std::vector<std::size_t>& visitOf)
    {
        known_.clear();
        for (const auto& order : routed.promising) {
            std::vector<std::size_t> visits;
            for (const int stop : order.stops) visits.push_back(visitOf[at(stop)]);
            for (const auto& run : sameRuns[order.run]) known_.push_back({run.day, run.run, visits});
        }
    }

    static std::int64_t driveOf(const RoutingProblem& routing, const Route& route)
    {
        return route.drive - routing.drives(routing.runs[route.run].startPlace, routing.runs[route.run].endPlace);
    }

    static void add(PlanScore& to, const PlanScore& part)
    {
        to.pinsBroken += part.pinsBroken;
        to.tooLate += part.tooLate;
        to.leftOut += part.leftOut;
        to.lateDays += part.lateDays;
        to.drive += part.drive;
    }

    /// Runs of different days that can do the same at the same cost are one class with a higher count: the search need not tell them apart.
    static void addRun(RoutingProblem& routing, std::vector<std::vector<DayRun>>& sameRuns, RunClass klass, const DayRun& run)
    {
        if (klass.count < 1 || std::ranges::none_of(klass.options, [](const auto& option) { return option.has_value(); })) return;
        for (std::size_t other = 0; other < routing.runs.size(); ++other) {
            auto& same = routing.runs[other];
            const bool alike = same.startPlace == klass.startPlace && same.endPlace == klass.endPlace && same.hours == klass.hours &&
                               std::ranges::equal(same.options, klass.options, [](const auto& a, const auto& b) {
                                   return a.has_value() == b.has_value() && (!a || (a->cost == b->cost && a->hours == b->hours));
                               });
            if (!alike) continue;
            same.count += klass.count;
            sameRuns[other].push_back(run);
            return;
        }
        routing.runs.push_back(std::move(klass));
        sameRuns.push_back({run});
    }

    /// Routes onto days: where a route could go out on several days at the same cost, on the earliest that is free.
    void take(Plan& plan, const RoutingProblem& routing, const Routing& routed, const std::vector<std::vector<DayRun>>& sameRuns,
              const std::vector<std::size_t>& visitOf) const
    {
        std::vector<std::vector<int>> used(problem_.days.size());
        for (std::size_t day = 0; day < used.size(); ++day) used[day].assign(problem_.days[day].runs.size(), 0);
        const auto takeFirst = [&](const std::vector<DayRun>& runs) -> const DayRun* {
            for (const auto& run : runs)
                if (used[at(run.day)][run.run] < run.what->count) {
                    ++used[at(run.day)][run.run];
                    return &run;
                }
            return nullptr;
        };
        struct Taken {
            Route route;
            const DayRun* on;
        };
        std::vector<Taken> taken;
        for (const auto& route : routed.routes) taken.push_back({route, takeFirst(sameRuns[route.run])});
        // Earlier where that costs nothing.
        for (bool moved = true; moved;) {
            moved = false;
            for (auto& one : taken)
                for (std::size_t other = 0; other < routing.runs.size() && !moved; ++other)
                    for (const auto& run : sameRuns[other]) {
                        if (run.day >= one.on->day || used[at(run.day)][run.run] >= run.what->count) continue;
                        auto route = timedRoute(routing, other, one.route.stops);
                        if (!route || route->cost > one.route.cost) continue;
                        --used[at(one.on->day)][one.on->run];
                        ++used[at(run.day)][run.run];
                        one = {*route, &run};
                        moved = true;
                        break;
                    }
        }
        for (const auto& [route, on] : taken) {
            PlannedRun run{on->day, on->run, route.leaves, route.back, route.drive, {}};
            int place = routing.runs[route.run].startPlace;
            for (std::size_t index = 0; index < route.stops.size(); ++index) {
                const auto visit = visitOf[at(route.stops[index])];
                const auto& what = problem_.visits[visit];
                const Span work{route.begins[index], route.begins[index] + what.minutes};
                const auto& hours = what.hours[at(on->day)];
                const bool inside = std::ranges::any_of(hours, [&](const Span& span) { return span.from <= work.from && work.to <= span.to; });
                run.stops.push_back({visit, work.from, work.to, problem_.drives(place, what.place), !inside});
                place = what.place;
            }
            plan.runs.push_back(std::move(run));
        }
        std::ranges::sort(plan.runs, [](const PlannedRun& a, const PlannedRun& b) { return std::tie(a.day, a.leaves, a.run) < std::tie(b.day, b.leaves, b.run); });
    }

    const PlanProblem& problem_;
    const SearchEffort& effort_;
    std::vector<DayRun> dayRuns_;
    std::vector<bool> widened_;  ///< pinned visits that may be done at any hour of their day
    std::vector<PlanScore> leastOf_;
    std::vector<Plan::Order> begun_;  ///< the runs of the plan before
    std::vector<Plan::Order> known_;  ///< runs worth looking at
};

}

Plan planVisits(const PlanProblem& problem, const SearchEffort& effort, const Plan* before)
{
    return Planner{problem, effort, before}.run();
}

Plan nearestNeighborPlan(const PlanProblem& problem)
{
    Plan plan;
    std::vector<bool> done(problem.visits.size(), false);
    for (std::size_t day = 0; day < problem.days.size(); ++day)
        for (std::size_t index = 0; index < problem.days[day].runs.size(); ++index)
            for (int copy = 0; copy < problem.days[day].runs[index].count; ++copy) {
                const auto& run = problem.days[day].runs[index];
                PlannedRun planned{static_cast<int>(day), index, run.hours.from, run.hours.from, 0, {}};
                int place = run.startPlace, time = run.hours.from;
                while (true) {
                    std::optional<PlannedStop> nearest;
                    for (std::size_t visit = 0; visit < problem.visits.size(); ++visit) {
                        const auto& what = problem.visits[visit];
                        if (done[visit] || what.people > run.people || (what.pinnedTo && *what.pinnedTo != static_cast<int>(day))) continue;
                        const int drive = problem.drives(place, what.place);
                        if (nearest && drive >= nearest->drive) continue;
                        for (const auto& span : what.hours[day]) {
                            const int begin = std::max(time + drive, span.from);
                            if (begin + what.minutes > span.to) continue;
                            if (begin + what.minutes + problem.drives(what.place, run.endPlace) <= run.hours.to)
                                nearest = PlannedStop{visit, begin, begin + what.minutes, drive, false};
                            break;
                        }
                    }
                    if (!nearest) break;
                    done[nearest->visit] = true;
                    planned.drive += nearest->drive;
                    time = nearest->leave;
                    place = problem.visits[nearest->visit].place;
                    plan.score.lateDays += problem.visits[nearest->visit].lateDays[day];
                    plan.score.tooLate += static_cast<int>(day) >= problem.visits[nearest->visit].tooLateFrom;
                    planned.stops.push_back(*nearest);
                }
                if (planned.stops.empty()) continue;
                planned.drive += problem.drives(place, run.endPlace);
                planned.back = time + problem.drives(place, run.endPlace);
                plan.score.drive += planned.drive - problem.drives(run.startPlace, run.endPlace);
                plan.runs.push_back(std::move(planned));
            }
    for (std::size_t visit = 0; visit < done.size(); ++visit)
        if (!done[visit]) {
            plan.leftOut.push_back(visit);
            ++plan.score.leftOut;
            plan.score.lateDays += problem.visits[visit].lateDaysLeftOut;
            plan.score.tooLate += problem.visits[visit].tooLateFrom < static_cast<int>(problem.days.size());
            plan.score.pinsBroken += problem.visits[visit].pinnedTo.has_value();
        }
    return plan;
}

}
