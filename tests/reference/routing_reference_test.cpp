#include "route/routing.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <numeric>
#include <set>
#include <span>

using namespace strikeoff;

// Sources: published routing problems, through the functions the planner uses. Tours: Reinelt, "TSPLIB, a traveling salesman problem library", ORSA Journal on
// Computing 3 (1991), with its published optima. Hours: Solomon, Operations Research 35 (1987), the first 25 customers; optima as published for
// distances cut to one decimal (Kohl and others, Transportation Science 33, 1999).

namespace {

using Place = std::array<double, 2>;

constexpr std::array<Place, 14> burma14{{
    {16.47, 96.10}, {16.47, 94.44}, {20.09, 92.54}, {22.39, 93.37}, {25.23, 97.24}, {22.00, 96.05},
    {20.47, 97.02}, {17.20, 96.29}, {16.30, 97.38}, {14.05, 98.12}, {16.53, 97.38}, {21.52, 95.59},
    {19.41, 97.13}, {20.09, 94.55}}};

constexpr std::array<Place, 16> ulysses16{{
    {38.24, 20.42}, {39.57, 26.15}, {40.56, 25.32}, {36.26, 23.12}, {33.48, 10.54}, {37.56, 12.19},
    {38.42, 13.11}, {37.52, 20.44}, {41.23, 9.10}, {41.17, 13.05}, {36.08, -5.21}, {38.47, 15.13},
    {38.15, 15.35}, {37.51, 15.17}, {35.49, 14.32}, {39.36, 19.56}}};

/// The table below its diagonal, row by row.
constexpr std::array<int, 136> gr17{
    633,
    257, 390,
    91, 661, 228,
    412, 227, 169, 383,
    150, 488, 112, 120, 267,
    80, 572, 196, 77, 351, 63,
    134, 530, 154, 105, 309, 34, 29,
    259, 555, 372, 175, 338, 264, 232, 249,
    505, 289, 262, 476, 196, 360, 444, 402, 495,
    353, 282, 110, 324, 61, 208, 292, 250, 352, 154,
    324, 638, 437, 240, 421, 329, 297, 314, 95, 578, 435,
    70, 567, 191, 27, 346, 83, 47, 68, 189, 439, 287, 254,
    211, 466, 74, 182, 243, 105, 150, 108, 326, 336, 184, 391, 145,
    268, 420, 53, 239, 199, 123, 207, 165, 383, 240, 140, 448, 202, 57,
    246, 745, 472, 237, 528, 364, 332, 349, 202, 685, 542, 157, 289, 426, 483,
    121, 518, 142, 84, 297, 35, 29, 36, 236, 390, 238, 301, 55, 96, 153, 336};

/// TSPLIB's geographical distance: degrees and minutes in one figure, cut, not rounded.
DriveMatrix geographical(std::span<const Place> places)
{
    const auto radians = [](double figure) {
        const double degrees = std::trunc(figure);
        return 3.141592 * (degrees + 5 * (figure - degrees) / 3) / 180;
    };
    DriveMatrix drives{static_cast<int>(places.size())};
    for (std::size_t a = 0; a < places.size(); ++a)
        for (std::size_t b = 0; b < a; ++b) {
            const double q1 = std::cos(radians(places[a][1]) - radians(places[b][1]));
            const double q2 = std::cos(radians(places[a][0]) - radians(places[b][0]));
            const double q3 = std::cos(radians(places[a][0]) + radians(places[b][0]));
            drives.setBoth(static_cast<int>(a), static_cast<int>(b), static_cast<int>(6378.388 * std::acos(0.5 * ((1 + q1) * q2 - (1 - q1) * q3)) + 1));
        }
    return drives;
}

DriveMatrix belowDiagonal(std::span<const int> figures, int places)
{
    DriveMatrix drives{places};
    std::size_t at = 0;
    for (int a = 1; a < places; ++a)
        for (int b = 0; b < a; ++b) drives.setBoth(a, b, figures[at++]);
    return drives;
}

/// The same tour asked for as a day's stops that may be served at any hour.
std::int64_t asDay(const DriveMatrix& drives)
{
    RoutingProblem problem;
    problem.drives = drives;
    RunClass run;
    run.hours = {0, 100'000'000};
    std::vector<int> all;
    for (int place = 1; place < drives.places(); ++place) {
        all.push_back(place - 1);
        problem.stops.push_back({place, 0, 0, 0});
        run.options.push_back(StopOption{{{0, 100'000'000}}, 0});
    }
    problem.runs = {run};
    return bestOrder(problem, 0, all).value().drive;
}

/// The same day with hours that close just too early for any order to be late, so that it goes by sets of stops.
std::int64_t asDayBySets(const DriveMatrix& drives)
{
    RoutingProblem problem;
    problem.drives = drives;
    RunClass run;
    run.hours = {0, 20'000};
    std::vector<int> all;
    for (int place = 1; place < drives.places(); ++place) {
        all.push_back(place - 1);
        problem.stops.push_back({place, 0, 0, 0});
        run.options.push_back(StopOption{{{0, 20'000}}, 0});
    }
    problem.runs = {run};
    return bestOrder(problem, 0, all).value().drive;
}

struct Customer {
    double x, y;
    int demand, ready, due, service;
};

constexpr std::array<Customer, 26> c101{{
    {40, 50, 0, 0, 1236, 0}, {45, 68, 10, 912, 967, 90}, {45, 70, 30, 825, 870, 90}, {42, 66, 10, 65, 146, 90},
    {42, 68, 10, 727, 782, 90}, {42, 65, 10, 15, 67, 90}, {40, 69, 20, 621, 702, 90}, {40, 66, 20, 170, 225, 90},
    {38, 68, 20, 255, 324, 90}, {38, 70, 10, 534, 605, 90}, {35, 66, 10, 357, 410, 90}, {35, 69, 10, 448, 505, 90},
    {25, 85, 20, 652, 721, 90}, {22, 75, 30, 30, 92, 90}, {22, 85, 10, 567, 620, 90}, {20, 80, 40, 384, 429, 90},
    {20, 85, 40, 475, 528, 90}, {18, 75, 20, 99, 148, 90}, {15, 75, 20, 179, 254, 90}, {15, 80, 10, 278, 345, 90},
    {30, 50, 10, 10, 73, 90}, {30, 52, 20, 914, 965, 90}, {28, 52, 20, 812, 883, 90}, {28, 55, 10, 732, 777, 90},
    {25, 50, 10, 65, 144, 90}, {25, 52, 40, 169, 224, 90}}};

constexpr std::array<Customer, 26> r101{{
    {35, 35, 0, 0, 230, 0}, {41, 49, 10, 161, 171, 10}, {35, 17, 7, 50, 60, 10}, {55, 45, 13, 116, 126, 10},
    {55, 20, 19, 149, 159, 10}, {15, 30, 26, 34, 44, 10}, {25, 30, 3, 99, 109, 10}, {20, 50, 5, 81, 91, 10},
    {10, 43, 9, 95, 105, 10}, {55, 60, 16, 97, 107, 10}, {30, 60, 16, 124, 134, 10}, {20, 65, 12, 67, 77, 10},
    {50, 35, 19, 63, 73, 10}, {30, 25, 23, 159, 169, 10}, {15, 10, 20, 32, 42, 10}, {30, 5, 8, 61, 71, 10},
    {10, 20, 19, 75, 85, 10}, {5, 30, 2, 157, 167, 10}, {20, 40, 12, 87, 97, 10}, {15, 60, 17, 76, 86, 10},
    {45, 65, 9, 126, 136, 10}, {45, 20, 11, 62, 72, 10}, {45, 10, 18, 97, 107, 10}, {55, 5, 29, 68, 78, 10},
    {65, 35, 3, 153, 163, 10}, {65, 20, 6, 172, 182, 10}}};

constexpr std::array<Customer, 26> rc101{{
    {40, 50, 0, 0, 240, 0}, {25, 85, 20, 145, 175, 10}, {22, 75, 30, 50, 80, 10}, {22, 85, 10, 109, 139, 10},
    {20, 80, 40, 141, 171, 10}, {20, 85, 20, 41, 71, 10}, {18, 75, 20, 95, 125, 10}, {15, 75, 20, 79, 109, 10},
    {15, 80, 10, 91, 121, 10}, {10, 35, 20, 91, 121, 10}, {10, 40, 30, 119, 149, 10}, {8, 40, 40, 59, 89, 10},
    {8, 45, 20, 64, 94, 10}, {5, 35, 10, 142, 172, 10}, {5, 45, 10, 35, 65, 10}, {2, 40, 20, 58, 88, 10},
    {0, 40, 20, 72, 102, 10}, {0, 45, 20, 149, 179, 10}, {44, 5, 20, 87, 117, 10}, {42, 10, 40, 72, 102, 10},
    {42, 15, 10, 122, 152, 10}, {40, 5, 10, 67, 97, 10}, {40, 15, 40, 92, 122, 10}, {38, 5, 30, 65, 95, 10},
    {38, 15, 10, 148, 178, 10}, {35, 5, 20, 154, 184, 10}}};

/// In tenths, each distance cut to one decimal; 25 runs with room for 200.
RoutingProblem withHours(std::span<const Customer> customers)
{
    RoutingProblem problem;
    problem.drives = DriveMatrix{static_cast<int>(customers.size())};
    for (std::size_t a = 0; a < customers.size(); ++a)
        for (std::size_t b = 0; b < a; ++b)
            problem.drives.setBoth(static_cast<int>(a), static_cast<int>(b),
                                   static_cast<int>(10 * std::hypot(customers[a].x - customers[b].x, customers[a].y - customers[b].y) + 1e-9));
    RunClass run;
    run.count = 25;
    run.capacity = 200;
    run.hours = {0, customers[0].due * 10};
    for (std::size_t at = 1; at < customers.size(); ++at) {
        const auto& customer = customers[at];
        problem.stops.push_back({static_cast<int>(at), customer.service * 10, customer.demand, 1'000'000});
        run.options.push_back(StopOption{{{customer.ready * 10, (customer.due + customer.service) * 10}}, 0});
    }
    problem.runs = {run};
    return problem;
}

void checkRouting(std::span<const Customer> customers, std::int64_t tenths, std::size_t vehicles)
{
    const auto problem = withHours(customers);
    const auto routing = solveRouting(problem);
    WARN("found " << routing.cost << " tenths, and no routing is shorter than " << routing.bound);
    CHECK(routing.cost == tenths);
    CHECK(routing.bound == tenths);
    CHECK(routing.routes.size() == vehicles);
    // Independently of the search: hours, loads, each customer once, and the distance.
    std::set<int> served;
    std::int64_t distance = 0;
    for (const auto& route : routing.routes) {
        int time = 0, load = 0, place = 0;
        for (const int stop : route.stops) {
            const auto& customer = customers[static_cast<std::size_t>(stop + 1)];
            time = std::max(time + problem.drives(place, stop + 1), customer.ready * 10);
            CHECK(time <= customer.due * 10);
            time += customer.service * 10;
            load += customer.demand;
            distance += problem.drives(place, stop + 1);
            place = stop + 1;
            CHECK(served.insert(stop).second);
        }
        CHECK(time + problem.drives(place, 0) <= customers[0].due * 10);
        CHECK(load <= 200);
        distance += problem.drives(place, 0);
    }
    CHECK(served.size() == 25);
    CHECK(distance == tenths);
}

}

TEST_CASE("shortest round trips of published problems", "[reference][routing]")
{
    const auto burma = geographical(burma14), ulysses = geographical(ulysses16), groetschel = belowDiagonal(gr17, 17);
    CHECK(burma(0, 1) == 153);    // the first distance, as TSPLIB's own reading gives it
    CHECK(ulysses(0, 1) == 509);
    for (const auto& [drives, optimum] : {std::pair{&burma, 3323}, std::pair{&ulysses, 6859}, std::pair{&groetschel, 2085}}) {
        const auto tour = shortestTour(*drives);
        CHECK(tour.length == optimum);
        CHECK(tour.bound == optimum);
        CHECK(asDay(*drives) == optimum);
    }
    // Computed: going to the nearest place each time.
    CHECK(nearestNeighborTour(burma).length == 4048);
    CHECK(nearestNeighborTour(ulysses).length == 9988);
    CHECK(nearestNeighborTour(groetschel).length == 2187);
}

TEST_CASE("the order of a day by sets of stops gives the same round trips", "[reference][routing]")
{
    CHECK(asDayBySets(geographical(burma14)) == 3323);
    CHECK(asDayBySets(geographical(ulysses16)) == 6859);
}

TEST_CASE("published problems with hours are solved with a bound that proves it", "[reference][routing]")
{
    checkRouting(c101, 1913, 3);
    checkRouting(r101, 6171, 8);
    checkRouting(rc101, 4611, 4);
}
