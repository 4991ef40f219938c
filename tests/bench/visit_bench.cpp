#include "visit_bench.h"

#include "domain/visits/made_weeks.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <numeric>

namespace strikeoff {

namespace {

double millisecondsSince(std::chrono::steady_clock::time_point start)
{
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

double at(std::vector<double> figures, double share)
{
    std::sort(figures.begin(), figures.end());
    return figures[std::min(figures.size() - 1, static_cast<std::size_t>(share * static_cast<double>(figures.size())))];
}

void benchWeeks(const char* name, int visits, int days, int runs, int weeks)
{
    std::vector<double> ours, bare;
    int proven = 0, lateProven = 0;
    double gap = 0;
    for (int seed = 1; seed <= weeks; ++seed) {
        MadeWeeks made{static_cast<std::uint32_t>(seed)};
        const auto problem = made.week(visits, days, runs);
        auto start = std::chrono::steady_clock::now();
        const auto plan = planVisits(problem);
        ours.push_back(millisecondsSince(start));
        start = std::chrono::steady_clock::now();
        const auto nearest = nearestNeighborPlan(problem);
        bare.push_back(millisecondsSince(start));
        if (nearest.score < plan.score) std::printf("week %d: the bare pass does better\n", seed);
        proven += plan.isProven();
        auto score = plan.score, bound = plan.bound;
        score.drive = bound.drive = 0;
        if (score == bound) {
            ++lateProven;
            gap += 1 - static_cast<double>(plan.bound.drive) / static_cast<double>(std::max<std::int64_t>(1, plan.score.drive));
        }
    }
    std::printf("%-34s ours %10.4f ms   bare %10.4f ms   ratio %.0f   19 of 20 within %.1f ms, the longest %.1f ms\n", name, at(ours, 0.5), at(bare, 0.5),
                at(ours, 0.5) / at(bare, 0.5), at(ours, 0.95), at(ours, 1.0));
    std::printf("%-34s %d of %d plans proven best; lateness in %d, their driving within %.2f %% of the bound on average\n", "  ", proven, weeks, lateProven,
                lateProven > 0 ? gap / lateProven * 100 : 0.0);
}

}

void benchPlans(bool isShort)
{
    benchWeeks("a week of 16 visits planned", 16, 7, 3, isShort ? 40 : 200);
    benchWeeks("40 visits over 14 days planned", 40, 14, 3, isShort ? 20 : 200);

    std::mt19937 random{3};
    RoutingProblem problem;
    problem.drives = DriveMatrix{13};
    for (int a = 0; a < 13; ++a)
        for (int b = 0; b < a; ++b) problem.drives.setBoth(a, b, 3 + static_cast<int>(random() % 40));
    RunClass run;
    run.hours = {420, 1080};
    std::vector<int> all(12);
    std::iota(all.begin(), all.end(), 0);
    for (int stop = 0; stop < 12; ++stop) {
        problem.stops.push_back({stop + 1, 20, 0, 0});
        const int from = 420 + static_cast<int>(random() % 240);
        run.options.push_back(StopOption{{{from, from + 360}}, 0});
    }
    problem.runs = {run};
    std::vector<double> times;
    std::optional<Route> best;
    for (int turn = 0; turn < 5; ++turn) {
        const auto start = std::chrono::steady_clock::now();
        best = bestOrder(problem, 0, all);
        times.push_back(millisecondsSince(start));
    }
    std::printf("%-34s ours %10.4f ms   %s\n", "twelve stops with hours, exactly", at(times, 0.5), best ? "found" : "no order keeps all hours");
}

}
