#include "takeoff/takeoff.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

constexpr double mostYards = 100'000;
constexpr double noise = 1e-6;  // yd³ over a step that come from the arithmetic and not from the slab
constexpr std::int64_t mostLoads = 1'000'000;

}

Yards orderFor(double volumeYards, Rate allowance, Yards step)
{
    if (!std::isfinite(volumeYards) || volumeYards > mostYards) throw DomainError{"a volume to order that is out of bounds"};
    if (step <= Yards{}) throw DomainError{"an order step of nothing"};
    const double needed = volumeYards * (1 + static_cast<double>(allowance.units()) / 1e6);
    const double steps = std::ceil((needed - noise) / step.toDouble());
    return steps > 0 ? step * static_cast<std::int64_t>(steps) : Yards{};
}

std::vector<Yards> loadsFor(Yards order, Yards truck, Yards step)
{
    if (order <= Yards{}) return {};
    if (truck <= Yards{} || step <= Yards{}) throw DomainError{"a truck or an order step of nothing"};
    const auto unit = step <= truck ? step.units() : 1;
    const auto steps = (order.units() - 1) / unit + 1;
    const auto stepsInTruck = truck.units() / unit;
    const auto count = (steps - 1) / stepsInTruck + 1;
    if (count > mostLoads) throw DomainError{"an order of too many loads"};

    std::vector<Yards> loads;
    for (const auto share : splitEvenly(steps, static_cast<std::size_t>(count))) loads.push_back(Yards::ofUnits(share * unit));
    // An order that is no whole number of steps leaves the last load short of one.
    loads.back() -= Yards::ofUnits(steps * unit - order.units());
    return loads;
}

std::vector<const TakeoffSection*> sectionsOf(const Book& book, Id<Job> job)
{
    auto sections = book.referring<&TakeoffSection::job>(job);
    std::stable_sort(sections.begin(), sections.end(), [](const auto* a, const auto* b) { return a->position < b->position; });
    return sections;
}

Takeoff takeoffOf(const Book& book, Id<Job> job)
{
    const auto* folder = book.find(job);
    return takeoffOf(book, folder ? folder->jobType : std::nullopt, sectionsOf(book, job));
}

Takeoff takeoffOf(const Book& book, std::optional<Id<JobType>> jobType, std::span<const TakeoffSection* const> sections)
{
    Takeoff takeoff;
    const auto& settings = book.settings();
    const auto* type = book.find(jobType);
    takeoff.allowance = type ? type->allowance : settings.allowance;
    for (const auto* section : sections) {
        const auto measured = measure(*section);
        if (!measured.fault.empty()) takeoff.faults.push_back(section->name + ": " + measured.fault);
        takeoff.areaSqft += measured.areaSqft;
        takeoff.volumeYards += measured.volumeYards;
    }
    if (takeoff.volumeYards < -noise || takeoff.areaSqft < -noise)
        takeoff.faults.emplace_back("The deductions are more than what they are taken from; check them");
    else if (takeoff.volumeYards > mostYards)
        takeoff.faults.emplace_back("The takeoff comes to more than 100,000 yd\u00b3; check the lengths and counts");
    else
        takeoff.ordered = orderFor(takeoff.volumeYards, takeoff.allowance, settings.orderStep);
    return takeoff;
}

}
