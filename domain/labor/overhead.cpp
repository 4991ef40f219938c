#include "labor/overhead.h"

#include "quantity/rounding.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

Date firstOf(int year) { return Date::of(year, 1, 1).value(); }

/// A year's overhead, of a running year the part of its days that are gone.
Money amountOf(const Book& book, int year, Date asOf)
{
    Money sum;
    for (const auto& item : book.all<Overhead>())
        if (item.year == year) sum += item.amount;
    const auto first = firstOf(year), last = Date::of(year, 12, 31).value();
    if (asOf < first) return {};
    if (asOf >= last) return sum;
    return Money::ofCents(divideHalfUp(static_cast<Int128>(sum.cents()) * (asOf - first + 1), last - first + 1));
}

}

YearOverhead overheadOf(const Book& book, const LaborCost& labor, int year, Date asOf)
{
    YearOverhead of;
    of.year = year;
    of.toDate = asOf < Date::of(year, 12, 31).value();
    of.overhead = amountOf(book, year, asOf);
    for (const auto& row : book.all<Hours>()) {
        if (row.date.year() != year || row.date > asOf) continue;
        const auto minutes = labor.of(row.id)->minutes;
        of.worked += minutes;
        if (row.job) of.billable += minutes;
    }
    if (of.billable > Minutes{})
        of.perHour = UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(of.overhead.cents()) * 100 * 60, of.billable.count()));
    if (of.worked > Minutes{})
        of.billableShare = Rate::ofUnits(divideHalfUp(static_cast<Int128>(of.billable.count()) * 1'000'000, of.worked.count()));
    return of;
}

std::unordered_map<std::int64_t, Money> overheadByJob(const Book& book, const LaborCost& labor, Date asOf)
{
    std::map<int, std::map<std::int64_t, std::int64_t>> minutes;  // by year, then job
    std::map<int, bool> years;
    for (const auto& item : book.all<Overhead>()) years[item.year] = true;
    for (const auto& row : book.all<Hours>()) {
        if (!row.job || row.date > asOf) continue;
        const auto year = row.date.year();
        if (years.contains(year)) minutes[year][row.job->value()] += labor.of(row.id)->minutes.count();
    }
    std::unordered_map<std::int64_t, Money> byJob;
    for (const auto& [year, jobs] : minutes) {
        std::vector<std::int64_t> weights;
        for (const auto& [job, worked] : jobs) weights.push_back(worked);
        if (std::all_of(weights.begin(), weights.end(), [](auto weight) { return weight == 0; })) continue;
        const auto shares = split(amountOf(book, year, asOf), weights);
        std::size_t place = 0;
        for (const auto& [job, worked] : jobs) byJob[job] += shares[place++];
    }
    return byJob;
}

Money overheadOn(const std::unordered_map<std::int64_t, Money>& byJob, Id<Job> job)
{
    const auto found = byJob.find(job.value());
    return found == byJob.end() ? Money{} : found->second;
}

}
