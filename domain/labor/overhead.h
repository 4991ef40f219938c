#pragma once

#include "labor/labor_cost.h"

#include <unordered_map>

namespace strikeoff {

/// What a year's overhead comes to on each billable crew-hour. Billable hours are those written to a job; the others are the shop's.
struct YearOverhead {
    int year = 0;
    bool toDate = false;                ///< the year is not over: overhead by the days gone of it, hours up to that day
    Money overhead;
    Minutes worked;
    Minutes billable;
    std::optional<UnitPrice> perHour;   ///< none without billable hours
    std::optional<Rate> billableShare;  ///< of all hours; none without hours
};

/// A year's overhead as seen on a day; what is entered for a year is for the whole of it, so that of a running year counts by its days.
YearOverhead overheadOf(const Book& book, const LaborCost& labor, int year, Date asOf);

/// Every job's share of overhead up to a day: each year's overhead over that year's job hours by minutes, the shares of a year adding up to its
/// overhead to the cent. A year without job hours leaves its overhead on no job.
std::unordered_map<std::int64_t, Money> overheadByJob(const Book& book, const LaborCost& labor, Date asOf);
/// A job's share of it; a job without hours bears none.
Money overheadOn(const std::unordered_map<std::int64_t, Money>& byJob, Id<Job> job);

}
