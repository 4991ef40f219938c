#include "route/routing.h"
#include "route/tour.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <numeric>
#include <random>

using namespace strikeoff;

namespace {

DriveMatrix madeDrives(std::mt19937& random, int places)
{
    DriveMatrix drives{places};
    for (int a = 0; a < places; ++a)
        for (int b = 0; b < a; ++b) drives.setBoth(a, b, 1 + static_cast<int>(random() % 60));
    return drives;
}

std::int64_t bruteTour(const DriveMatrix& drives)
{
    std::vector<int> order(static_cast<std::size_t>(drives.places()));
    std::iota(order.begin(), order.end(), 0);
    auto best = std::numeric_limits<std::int64_t>::max();
    do {
        std::int64_t length = 0;
        for (std::size_t at = 0; at < order.size(); ++at) length += drives(order[at], order[(at + 1) % order.size()]);
        best = std::min(best, length);
    } while (std::next_permutation(order.begin() + 1, order.end()));
    return best;
}

}

TEST_CASE("no order of places is shorter than the shortest round trip", "[route][tour]")
{
    std::mt19937 random{5};
    for (int round = 0; round < 300; ++round) {
        const auto drives = madeDrives(random, 1 + static_cast<int>(random() % 8));
        const auto tour = shortestTour(drives);
        CHECK(tour.length == bruteTour(drives));
        CHECK(tour.isProven());
        CHECK(nearestNeighborTour(drives).length >= tour.length);
    }
}

TEST_CASE("no order of a day's stops within their hours drives less than the best order", "[route][order]")
{
    std::mt19937 random{6};
    const auto pick = [&](int least, int most) { return least + static_cast<int>(random() % static_cast<unsigned>(most - least + 1)); };
    int possible = 0;
    for (int round = 0; round < 400; ++round) {
        const int stops = pick(1, 6);
        RoutingProblem problem;
        problem.drives = madeDrives(random, stops + 2);
        RunClass run;
        run.startPlace = 0;
        run.endPlace = pick(0, 1) ? 0 : stops + 1;
        run.hours = {480, 480 + pick(300, 700)};
        for (int stop = 0; stop < stops; ++stop) {
            problem.stops.push_back({stop + 1, pick(10, 60), 0, 0});
            const int from = pick(480, 800);
            StopOption option{{{from, from + pick(60, 400)}}, 0};
            if (pick(0, 2) == 0) option.hours.push_back({option.hours[0].to + 30, option.hours[0].to + 200});
            run.options.push_back(option);
        }
        problem.runs = {run};
        std::vector<int> order(static_cast<std::size_t>(stops));
        std::iota(order.begin(), order.end(), 0);
        std::optional<int> least;
        do {
            if (const auto route = timedRoute(problem, 0, order); route && (!least || route->drive < *least)) least = route->drive;
        } while (std::next_permutation(order.begin(), order.end()));
        const auto best = bestOrder(problem, 0, order);
        REQUIRE(best.has_value() == least.has_value());
        if (!best) continue;
        CHECK(best->drive == *least);
        ++possible;
    }
    CHECK(possible > 50);
}

TEST_CASE("twelve stops a day have a best order", "[route][order]")
{
    std::mt19937 random{7};
    RoutingProblem problem;
    problem.drives = madeDrives(random, 13);
    RunClass run;
    run.hours = {420, 1200};
    for (int stop = 0; stop < 12; ++stop) {
        problem.stops.push_back({stop + 1, 20, 0, 0});
        run.options.push_back(StopOption{{{420 + 30 * (stop % 4), 1100}}, 0});
    }
    problem.runs = {run};
    std::vector<int> all(12);
    std::iota(all.begin(), all.end(), 0);
    const auto best = bestOrder(problem, 0, all);
    REQUIRE(best);
    // Without hours it is the round trip's length, which is a bound.
    CHECK(best->drive >= shortestTour(problem.drives).length);
    std::vector<int> sorted = best->stops;
    std::ranges::sort(sorted);
    CHECK(sorted == all);
    // No change of two neighbors betters it.
    for (std::size_t at = 0; at + 1 < 12; ++at) {
        auto changed = best->stops;
        std::swap(changed[at], changed[at + 1]);
        if (const auto other = timedRoute(problem, 0, changed)) CHECK(other->drive >= best->drive);
    }
}
