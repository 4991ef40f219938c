#pragma once

#include "visits/planner/plan.h"

#include <cmath>
#include <random>

namespace strikeoff {

/// Weeks of our own invention for the planner. The engine's numbers are used as they come, so that a seed gives the same week everywhere.
class MadeWeeks {
public:
    explicit MadeWeeks(std::uint32_t seed) : random_{seed} {}

    int pick(int least, int most) { return least + static_cast<int>(random_() % static_cast<std::uint32_t>(most - least + 1)); }

    /// A small crew's open visits: sites in a few towns round the shop, cuts and strips in narrow windows of a day or two, seals between rain and cold
    /// over many days, walk-throughs whenever. A pour takes the morning of some days, and the run then starts at its site.
    PlanProblem week(int visits, int days, int runsADay)
    {
        PlanProblem problem;
        const int towns = pick(3, 5), sites = std::max(3, visits * 2 / 3);
        std::vector<std::pair<double, double>> centers, points{{0, 0}};
        for (int town = 0; town < towns; ++town) centers.emplace_back(pick(-180, 180) / 10.0, pick(-180, 180) / 10.0);
        for (int site = 0; site < sites; ++site) {
            const auto [x, y] = centers[static_cast<std::size_t>(pick(0, towns - 1))];
            points.emplace_back(x + pick(-25, 25) / 10.0, y + pick(-25, 25) / 10.0);
        }
        problem.drives = DriveMatrix{sites + 1};
        for (int a = 0; a <= sites; ++a)
            for (int b = 0; b < a; ++b) {
                const auto [ax, ay] = points[static_cast<std::size_t>(a)];
                const auto [bx, by] = points[static_cast<std::size_t>(b)];
                problem.drives.setBoth(a, b, std::max(1, static_cast<int>(std::lround(std::hypot(ax - bx, ay - by) * 1.3 * 60 / 35))));
            }
        std::vector<std::vector<Span>> gates;  // a sealer's hours
        for (int day = 0; day < days; ++day) {
            PlanDay one;
            const bool pours = pick(0, 99) < 35;
            PlanRun run{0, 0, {7 * 60, 16 * 60 + 30}, 2, 1};
            if (pours) run.startPlace = pick(1, sites), run.hours.from = pick(12 * 60, 14 * 60);
            if (pick(0, 6) < 6) one.runs.assign(1, run);
            if (runsADay > 1 && !pours) one.runs.push_back({0, 0, {8 * 60, 16 * 60}, 1, runsADay - 1});
            problem.days.push_back(one);
            const int weather = pick(0, 9);
            if (weather < 2) gates.push_back({});                                                    // rain or cold all day
            else if (weather < 5) gates.push_back({{pick(9, 11) * 60, pick(14, 17) * 60}});          // a cold morning
            else if (weather < 6) gates.push_back({{7 * 60, 10 * 60}, {14 * 60, 18 * 60}});          // a shower at noon
            else gates.push_back({{7 * 60, 18 * 60}});
        }
        for (int index = 0; index < visits; ++index) {
            PlanVisit visit;
            visit.place = pick(1, sites);
            const int kind = pick(0, 9);
            visit.minutes = kind < 3 ? pick(4, 9) * 10 : kind < 7 ? pick(3, 12) * 15 : pick(2, 4) * 10;
            visit.people = kind < 3 && pick(0, 3) == 0 ? 2 : 1;
            const int from = pick(-2, days - 2);
            const int length = kind < 3 ? pick(0, 1) : kind < 7 ? pick(3, 10) : pick(2, 14);
            const int due = from + length;
            visit.tooLateFrom = due + (kind < 3 ? pick(1, 2) : pick(2, 9)) + 1;
            for (int day = 0; day < days; ++day) {
                visit.lateDays.push_back(std::max(0, day - due));
                if (day < from) visit.hours.push_back({});
                else if (kind >= 3 && kind < 7) visit.hours.push_back(gates[static_cast<std::size_t>(day)]);
                else visit.hours.push_back({{7 * 60, 18 * 60}});
            }
            visit.lateDaysLeftOut = std::max(0, days - due);
            if (pick(0, 19) == 0) visit.pinnedTo = pick(0, days - 1);
            problem.visits.push_back(visit);
        }
        return problem;
    }

private:
    std::mt19937 random_;
};

}
