#include "visit_bench.h"

#include "domain/visits/made_weeks.h"

#include <algorithm>
#include <cstdio>
#include <ctime>
#include <numeric>

namespace strikeoff {

namespace {

/// Of the processor, as other work on the machine only ever adds to the time that passes.
double millisecondsSince(std::clock_t start) { return 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC; }

double at(std::vector<double> figures, double share)
{
    std::sort(figures.begin(), figures.end());
    return figures[std::min(figures.size() - 1, static_cast<std::size_t>(share * static_cast<double>(figures.size())))];
}

/// Least of three, each the mean of so many.
template <class Work>
double leastMilliseconds(Work work, int times = 1)
{
    double least = 0;
    for (int turn = 0; turn < 3; ++turn) {
        const auto start = std::clock();
        for (int time = 0; time < times; ++time) work();
        const double took = millisecondsSince(start) / times;
        if (turn == 0 || took < least) least = took;
    }
    return least;
}

/// The problem with one visit that has a day pinned to another on which its hours are open, as a drag does it.
PlanProblem dragged(PlanProblem problem, const Plan& plan, std::size_t seed)
{
    for (std::size_t turn = 0; turn < problem.visits.size(); ++turn) {
        const auto index = (seed * 7 + turn) % problem.visits.size();
        auto& visit = problem.visits[index];
        if (visit.pinnedTo) continue;
        int now = -1;
        for (const auto& run : plan.runs)
            for (const auto& stop : run.stops)
                if (stop.visit == index) now = run.day;
        std::vector<int> others;
        for (int day = 0; day < static_cast<int>(problem.days.size()); ++day)
            if (const auto at = static_cast<std::size_t>(day); day != now && !problem.days[at].runs.empty() && !visit.hours[at].empty()) others.push_back(day);
        if (now < 0 || others.empty()) continue;
        visit.pinnedTo = others[seed % others.size()];
        break;
    }
    return problem;
}

void printTimes(const char* name, const std::vector<double>& ours, const std::vector<double>& bare)
{
    std::printf("%-34s ours %10.4f ms   bare %10.4f ms   ratio %.0f   19 of 20 within %.1f ms, the longest %.1f ms\n", name, at(ours, 0.5), at(bare, 0.5),
                at(ours, 0.5) / at(bare, 0.5), at(ours, 0.95), at(ours, 1.0));
}

void benchWeeks(const char* name, int visits, int days, int runs, int weeks)
{
    std::vector<double> ours, bare, again, provedAgain;
    int proven = 0, lateProven = 0, quickBest = 0, againProven = 0;
    double gap = 0, more = 0;
    for (int seed = 1; seed <= weeks; ++seed) {
        MadeWeeks made{static_cast<std::uint32_t>(seed)};
        const auto problem = made.week(visits, days, runs);
        Plan plan, nearest, quick, full;
        ours.push_back(leastMilliseconds([&] { plan = planVisits(problem); }));
        bare.push_back(leastMilliseconds([&] { nearest = nearestNeighborPlan(problem); }, 50));
        if (nearest.score < plan.score) std::printf("week %d: the bare pass does better\n", seed);
        proven += plan.isProven();
        auto score = plan.score, bound = plan.bound;
        score.drive = bound.drive = 0;
        if (score == bound) {
            ++lateProven;
            gap += 1 - static_cast<double>(plan.bound.drive) / static_cast<double>(std::max<std::int64_t>(1, plan.score.drive));
        }
        const auto pinned = dragged(problem, plan, static_cast<std::size_t>(seed));
        again.push_back(leastMilliseconds([&] { quick = planVisits(pinned, SearchEffort::quick(), &plan); }));
        provedAgain.push_back(leastMilliseconds([&] { full = planVisits(pinned, {}, &quick); }));
        againProven += full.isProven();
        quickBest += quick.score == full.score;
        more += static_cast<double>(quick.score.drive - full.score.drive);
    }
    printTimes(name, ours, bare);
    std::printf("%-34s %d of %d plans proven best; lateness in %d, their driving within %.2f %% of the bound on average\n", "  ", proven, weeks, lateProven,
                lateProven > 0 ? gap / lateProven * 100 : 0.0);
    printTimes("  anew, one pinned to another day", again, bare);
    std::printf("%-34s %d of %d as good as what the proof finds after, %.2f min more driving on average\n", "  ", quickBest, weeks, more / weeks);
    printTimes("  and its proof after that", provedAgain, bare);
    std::printf("%-34s %d of %d proven best\n", "  ", againProven, weeks);
}

}

void benchPlans(bool isShort)
{
    std::printf("visits: milliseconds of the processor, the least of three runs\n");
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
        const auto start = std::clock();
        best = bestOrder(problem, 0, all);
        times.push_back(millisecondsSince(start));
    }
    std::printf("%-34s ours %10.4f ms   %s\n", "twelve stops with hours, exactly", at(times, 0.5), best ? "found" : "no order keeps all hours");
}

}
