#include "route/first_routing.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace strikeoff {
namespace {

constexpr std::int64_t impossible = std::numeric_limits<std::int64_t>::max() / 4;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

}

FirstRouting::FirstRouting(const RoutingProblem& problem, const std::vector<RunSpace>& spaces) : problem_{problem}, spaces_{spaces}
{
    for (std::size_t klass = 0; klass < spaces.size(); ++klass) {
        localOf_.emplace_back(problem.stops.size(), -1);
        for (int local = 0; local < spaces[klass].size(); ++local) localOf_[klass][at(spaces[klass].stop(local))] = local;
        const int runs = std::min(problem.runs[klass].count, spaces[klass].size());
        for (int run = 0; run < runs; ++run) runs_.push_back({klass, {}, 0});
    }
    runOf_.assign(problem.stops.size(), -1);
}

/// What a run costs in this order; impossible when it does not fit.
std::int64_t FirstRouting::costOf(std::size_t klass, const std::vector<int>& stops) const
{
    if (stops.empty()) return 0;
    const auto& space = spaces_[klass];
    int time = space.hours().from, load = 0, before = -1;
    std::int64_t cost = -space.emptyDrive();
    for (const int stop : stops) {
        const int local = localOf_[klass][at(stop)];
        if (local < 0) return impossible;
        const int drive = before < 0 ? space.fromStart(local) : space.drive(before, local);
        time = space.finish(local, time + drive);
        load += space.load(local);
        if (time > space.hours().to || load > space.capacity()) return impossible;
        cost += drive + space.cost(local);
        before = local;
    }
    return space.canReturn(before, time) ? cost + space.toEnd(before) : impossible;
}

FirstRouting::Place FirstRouting::cheapestPlace(int stop) const
{
    Place best;
    for (std::size_t at = 0; at < runs_.size(); ++at) {
        const auto& run = runs_[at];
        // Of the runs of a class that stay at home, one is enough to look at.
        if (run.stops.empty() && at > 0 && runs_[at - 1].klass == run.klass && runs_[at - 1].stops.empty()) continue;
        if (localOf_[run.klass][static_cast<std::size_t>(stop)] < 0) continue;
        auto tried = run.stops;
        tried.insert(tried.begin(), stop);
        for (std::size_t position = 0;; ++position) {
            const auto cost = costOf(run.klass, tried);
            if (cost < impossible && (!best.found || cost - run.cost < best.added)) best = {at, position, cost - run.cost, true};
            if (position + 1 >= tried.size()) break;
            std::swap(tried[position], tried[position + 1]);
        }
    }
    return best;
}

void FirstRouting::put(int stop, const Place& place)
{
    auto& run = runs_[place.run];
    run.stops.insert(run.stops.begin() + static_cast<std::ptrdiff_t>(place.position), stop);
    run.cost += place.added;
    runOf_[at(stop)] = static_cast<int>(place.run);
}

void FirstRouting::takeOver(const std::vector<RunOrder>& plan)
{
    for (const auto& known : plan) {
        const auto run = std::ranges::find_if(runs_, [&](const Run& one) { return one.klass == known.run && one.stops.empty(); });
        if (run == runs_.end()) continue;
        for (const int stop : known.stops) {
            if (localOf_[run->klass][at(stop)] < 0 || runOf_[at(stop)] >= 0) continue;
            run->stops.push_back(stop);
            if (costOf(run->klass, run->stops) >= impossible) run->stops.pop_back();
            else runOf_[at(stop)] = static_cast<int>(run - runs_.begin());
        }
        run->cost = costOf(run->klass, run->stops);
    }
}

void FirstRouting::insertAll()
{
    std::vector<int> order(problem_.stops.size());
    std::iota(order.begin(), order.end(), 0);
    std::vector<int> choices(order.size(), 0);
    for (std::size_t klass = 0; klass < spaces_.size(); ++klass)
        for (const int stop : order) choices[at(stop)] += localOf_[klass][at(stop)] >= 0 ? problem_.runs[klass].count : 0;
    std::ranges::stable_sort(order, [&](int a, int b) {
        return std::pair{choices[at(a)], -problem_.stops[at(a)].leftOutCost} < std::pair{choices[at(b)], -problem_.stops[at(b)].leftOutCost};
    });
    for (const int stop : order)
        if (runOf_[at(stop)] >= 0) continue;
        else if (const auto place = cheapestPlace(stop); place.found && place.added <= problem_.stops[at(stop)].leftOutCost) put(stop, place);
}

bool FirstRouting::moveOne(int stop)
{
    const int from = runOf_[at(stop)];
    std::int64_t saved = problem_.stops[at(stop)].leftOutCost;
    std::vector<int> before;
    std::int64_t beforeCost = 0;
    if (from >= 0) {
        auto& run = runs_[at(from)];
        before = run.stops;
        beforeCost = run.cost;
        auto rest = run.stops;
        std::erase(rest, stop);
        const auto cost = costOf(run.klass, rest);
        if (cost >= impossible) return false;
        saved = run.cost - cost;
        run.stops = rest;
        run.cost = cost;
    }
    if (const auto place = cheapestPlace(stop); place.found && place.added < saved) {
        put(stop, place);
        return true;
    }
    if (from >= 0) {
        runs_[at(from)].stops = before;
        runs_[at(from)].cost = beforeCost;
    }
    return false;
}

bool FirstRouting::swapOne(int stop, int other)
{
    const int a = runOf_[at(stop)], b = runOf_[at(other)];
    if (a < 0 || b < 0 || a == b) return false;
    auto& first = runs_[at(a)];
    auto& second = runs_[at(b)];
    if (localOf_[first.klass][at(other)] < 0 || localOf_[second.klass][at(stop)] < 0) return false;
    auto firstStops = first.stops, secondStops = second.stops;
    std::ranges::replace(firstStops, stop, other);
    std::ranges::replace(secondStops, other, stop);
    const auto firstCost = costOf(first.klass, firstStops);
    if (firstCost >= impossible) return false;
    const auto secondCost = costOf(second.klass, secondStops);
    if (secondCost >= impossible || firstCost + secondCost >= first.cost + second.cost) return false;
    first.stops = firstStops, first.cost = firstCost;
    second.stops = secondStops, second.cost = secondCost;
    runOf_[at(stop)] = b;
    runOf_[at(other)] = a;
    return true;
}

void FirstRouting::improve()
{
    const int stops = static_cast<int>(problem_.stops.size());
    for (int round = 0; round < 50; ++round) {
        bool better = false;
        for (int stop = 0; stop < stops; ++stop) better |= moveOne(stop);
        for (int stop = 0; stop < stops; ++stop)
            for (int other = stop + 1; other < stops; ++other) better |= swapOne(stop, other);
        if (!better) return;
    }
}

std::int64_t FirstRouting::cost() const
{
    std::int64_t cost = 0;
    for (const auto& run : runs_) cost += run.cost;
    for (std::size_t stop = 0; stop < runOf_.size(); ++stop)
        if (runOf_[stop] < 0) cost += problem_.stops[stop].leftOutCost;
    return cost;
}

/// Takes out a stop and those nearest to it, or every third time its whole run with those left out.
std::vector<int> FirstRouting::takeOut(std::uint32_t pick, std::uint32_t size)
{
    const int first = static_cast<int>(pick % problem_.stops.size());
    std::vector<std::pair<int, int>> near;
    for (int stop = 0; stop < static_cast<int>(problem_.stops.size()); ++stop) {
        const bool goes = size % 3 == 0 ? runOf_[at(stop)] < 0 || runOf_[at(stop)] == runOf_[at(first)] : true;
        // A run's own stops count as a little nearer.
        if (goes) near.emplace_back(problem_.drives(problem_.stops[at(first)].place, problem_.stops[at(stop)].place) - (runOf_[at(stop)] == runOf_[at(first)] ? 5 : 0), stop);
    }
    std::ranges::sort(near);
    near.resize(std::min<std::size_t>(near.size(), 3 + size % 8));
    std::vector<int> out;
    for (const auto& [drive, stop] : near) {
        out.push_back(stop);
        const int from = runOf_[at(stop)];
        if (from < 0) continue;
        auto& run = runs_[at(from)];
        auto rest = run.stops;
        std::erase(rest, stop);
        const auto cost = costOf(run.klass, rest);
        if (cost >= impossible) {  // by typed minutes that do not keep the triangle's rule
            out.pop_back();
            continue;
        }
        run.stops = std::move(rest);
        run.cost = cost;
        runOf_[at(stop)] = -1;
    }
    return out;
}

void FirstRouting::rebuildParts(int times)
{
    if (problem_.stops.empty()) return;
    std::uint32_t state = 12345;
    const auto next = [&] { return (state = state * 1664525U + 1013904223U) >> 8; };
    auto now = cost();
    for (int time = 0; time < times; ++time) {
        const auto runs = runs_;
        const auto runOf = runOf_;
        auto out = takeOut(next(), next());
        for (std::size_t left = out.size(); left > 1; --left) std::swap(out[left - 1], out[next() % left]);
        for (const int stop : out)
            if (const auto place = cheapestPlace(stop); place.found && place.added <= problem_.stops[at(stop)].leftOutCost) put(stop, place);
        if (const auto after = cost(); after <= now) {
            now = after;
            continue;
        }
        runs_ = runs;
        runOf_ = runOf;
    }
}

Routing FirstRouting::routing() const
{
    Routing result;
    for (const auto& run : runs_) {
        if (run.stops.empty()) continue;
        result.routes.push_back(timedRoute(problem_, run.klass, run.stops).value());
        result.cost += result.routes.back().cost;
    }
    for (std::size_t stop = 0; stop < runOf_.size(); ++stop)
        if (runOf_[stop] < 0) result.leftOut.push_back(static_cast<int>(stop)), result.cost += problem_.stops[stop].leftOutCost;
    return result;
}

}
