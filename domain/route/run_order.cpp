#include "route/routing.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <limits>

namespace strikeoff {
namespace {

constexpr int never = std::numeric_limits<int>::max() / 4;

int beginAt(const StopOption& option, int service, int arrives)
{
    for (const auto& span : option.hours)
        if (const int begin = std::max(arrives, span.from); begin + service <= span.to) return begin;
    return never;
}

/// What an order is reckoned from: a partial run over a set of stops, as good as any other in drive or in time.
struct Front {
    int time = 0;
    int drive = 0;
    int beforeLast = -1;
    int beforeAt = -1;  ///< which of that one's fronts
};

/// Keeps fronts sorted by time with falling drive; says whether the new one was kept.
void keep(std::vector<Front>& fronts, const Front& front)
{
    for (const auto& other : fronts)
        if (other.time <= front.time && other.drive <= front.drive) return;
    // Entries already referred to must keep their place, so worse ones are kept as well; they are few.
    fronts.push_back(front);
}

/// Whether hours and the day's end cannot matter: every stop may be served at any time a run could get there, however it goes.
bool hoursNeverBind(const RoutingProblem& problem, const RunClass& run, const std::vector<int>& stops)
{
    int longest = 0;
    for (int place = 0; place < problem.drives.places(); ++place)
        for (int other = 0; other < problem.drives.places(); ++other) longest = std::max(longest, problem.drives(place, other));
    int latest = run.hours.from + longest;
    for (const int stop : stops) latest += longest + problem.stops[static_cast<std::size_t>(stop)].service;
    if (latest > run.hours.to) return false;
    return std::ranges::all_of(stops, [&](int stop) {
        const auto& hours = run.options[static_cast<std::size_t>(stop)]->hours;
        return hours.size() == 1 && hours[0].from <= run.hours.from && hours[0].to >= latest;
    });
}

std::optional<Route> byTour(const RoutingProblem& problem, std::size_t run, const std::vector<int>& stops)
{
    const auto& klass = problem.runs[run];
    const auto place = [&](int at) { return at == 0 ? klass.startPlace : problem.stops[static_cast<std::size_t>(stops[static_cast<std::size_t>(at - 1)])].place; };
    DriveMatrix drives{static_cast<int>(stops.size()) + 1};
    for (int a = 0; a < drives.places(); ++a)
        for (int b = 0; b < drives.places(); ++b) drives.set(a, b, problem.drives(place(a), place(b)));
    if (!drives.isSymmetric()) return {};
    const auto tour = shortestTour(drives);
    if (!tour.isProven()) return {};
    std::vector<int> order;
    for (std::size_t at = 1; at < tour.order.size(); ++at) order.push_back(stops[static_cast<std::size_t>(tour.order[at] - 1)]);
    return timedRoute(problem, run, order);
}

}

std::optional<Route> timedRoute(const RoutingProblem& problem, std::size_t run, const std::vector<int>& order)
{
    const auto& klass = problem.runs.at(run);
    Route route;
    route.run = run;
    route.stops = order;
    int place = klass.startPlace, time = klass.hours.from, load = 0;
    for (const int at : order) {
        const auto& stop = problem.stops.at(static_cast<std::size_t>(at));
        const auto& option = klass.options.at(static_cast<std::size_t>(at));
        load += stop.load;
        if (!option || load > klass.capacity) return {};
        const int drive = problem.drives(place, stop.place);
        const int begin = beginAt(*option, stop.service, time + drive);
        if (begin == never) return {};
        route.begins.push_back(begin);
        route.drive += drive;
        route.cost += option->cost;
        time = begin + stop.service;
        place = stop.place;
    }
    const int home = order.empty() ? 0 : problem.drives(place, klass.endPlace);
    route.drive += home;
    route.back = time + home;
    if (!order.empty()) route.cost += route.drive - problem.drives(klass.startPlace, klass.endPlace);
    if (route.back > klass.hours.to) return {};
    route.leaves = order.empty() ? klass.hours.from
                                 : route.begins[0] - problem.drives(klass.startPlace, problem.stops[static_cast<std::size_t>(order[0])].place);
    return route;
}

std::optional<Route> bestOrder(const RoutingProblem& problem, std::size_t run, const std::vector<int>& stops)
{
    const auto& klass = problem.runs.at(run);
    if (stops.empty()) return timedRoute(problem, run, stops);
    int load = 0;
    for (const int at : stops) {
        if (!klass.options.at(static_cast<std::size_t>(at))) return {};
        load += problem.stops[static_cast<std::size_t>(at)].load;
    }
    if (load > klass.capacity) return {};
    if (stops.size() > 13 && klass.startPlace == klass.endPlace && hoursNeverBind(problem, klass, stops))
        if (auto route = byTour(problem, run, stops)) return route;
    if (stops.size() > 20) throw DomainError{"The best order of more than twenty stops with hours of their own is not to be had."};

    const int n = static_cast<int>(stops.size());
    const auto stop = [&](int local) -> const Stop& { return problem.stops[static_cast<std::size_t>(stops[static_cast<std::size_t>(local)])]; };
    const auto option = [&](int local) -> const StopOption& { return *klass.options[static_cast<std::size_t>(stops[static_cast<std::size_t>(local)])]; };
    const auto cell = [&](std::size_t set, int last) { return set * static_cast<std::size_t>(n) + static_cast<std::size_t>(last); };
    std::vector<std::vector<Front>> fronts((std::size_t{1} << n) * static_cast<std::size_t>(n));
    const auto go = [&](std::size_t set, int last, int at, int place, int time, int drive, int to) {
        const int leg = problem.drives(place, stop(to).place);
        const int begin = beginAt(option(to), stop(to).service, time + leg);
        if (begin == never) return;
        keep(fronts[cell(set | std::size_t{1} << to, to)], {begin + stop(to).service, drive + leg, last, at});
    };
    for (int to = 0; to < n; ++to) go(0, -1, -1, klass.startPlace, klass.hours.from, 0, to);
    const std::size_t all = (std::size_t{1} << n) - 1;
    for (std::size_t set = 1; set < all; ++set)
        for (int last = 0; last < n; ++last) {
            const auto& here = fronts[cell(set, last)];
            for (std::size_t at = 0; at < here.size(); ++at) {
                const auto front = here[at];
                const bool worse = std::ranges::any_of(here, [&](const Front& other) {
                    return (other.time < front.time && other.drive <= front.drive) || (other.time <= front.time && other.drive < front.drive);
                });
                if (worse) continue;
                for (int to = 0; to < n; ++to)
                    if (!(set >> to & 1)) go(set, last, static_cast<int>(at), stop(last).place, front.time, front.drive, to);
            }
        }
    int bestLast = -1, bestAt = -1, bestDrive = never;
    for (int last = 0; last < n; ++last) {
        const auto& here = fronts[cell(all, last)];
        for (std::size_t at = 0; at < here.size(); ++at) {
            const int home = problem.drives(stop(last).place, klass.endPlace);
            if (here[at].time + home <= klass.hours.to && here[at].drive + home < bestDrive)
                bestDrive = here[at].drive + home, bestLast = last, bestAt = static_cast<int>(at);
        }
    }
    if (bestLast < 0) return {};
    std::vector<int> order;
    for (std::size_t set = all; bestLast >= 0;) {
        const auto front = fronts[cell(set, bestLast)][static_cast<std::size_t>(bestAt)];
        order.push_back(stops[static_cast<std::size_t>(bestLast)]);
        set &= ~(std::size_t{1} << bestLast);
        bestLast = front.beforeLast;
        bestAt = front.beforeAt;
    }
    std::ranges::reverse(order);
    return timedRoute(problem, run, order);
}

}
