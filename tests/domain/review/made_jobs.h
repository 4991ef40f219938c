#pragma once

#include "review/finished_jobs.h"

#include "domain/book_maker.h"

#include <cmath>

namespace strikeoff {

/// Finished jobs with known figures, as if gathered from a book. Keys other than the job type are all the same.
struct MadeJobs {
    Job nobody;
    FinishedJobs jobs;

    explicit MadeJobs(std::vector<std::string> types)
    {
        for (auto& names : jobs.names) names.push_back("All");
        jobs.names[0] = std::move(types);
        jobs.types.resize(jobs.names[0].size());
        for (std::size_t i = 0; i < jobs.types.size(); ++i) jobs.types[i] = Id<JobType>{static_cast<std::int64_t>(i + 1)};
    }

    FinishedJob& add(std::size_t type, std::string_view day, double areaSqft, Money revenue, Money concrete, Money labor, int minutes)
    {
        FinishedJob job;
        job.job = &nobody;
        job.day = on(day);
        job.keys[0] = static_cast<std::uint16_t>(type);
        job.areaSqft = areaSqft;
        job.revenue = revenue;
        job.byClass[static_cast<std::size_t>(CostClass::concrete)] = concrete;
        job.byClass[static_cast<std::size_t>(CostClass::labor)] = labor;
        job.cost = concrete + labor;
        job.crewMinutes = Minutes::of(minutes);
        return jobs.jobs.emplace_back(job);
    }
    /// A job of so many hours that earned so much an hour.
    FinishedJob& earned(std::size_t type, double hours, double perHour)
    {
        const auto minutes = static_cast<int>(std::lround(hours * 60));
        const auto cost = Money::ofWhole(1000);
        return add(type, "2026-05-04", 400, cost + Money::ofCents(std::llround(perHour * minutes / 60 * 100)), Money{}, cost, minutes);
    }
    void missed(FinishedJob& job, CostClass costClass, const std::string& reason, Money amount)
    {
        if (job.missedCount == 0) job.firstMissed = static_cast<std::uint32_t>(jobs.missed.size());
        jobs.reasons.push_back(reason);
        jobs.missed.push_back({costClass, static_cast<std::uint16_t>(jobs.reasons.size() - 1), amount});
        ++job.missedCount;
    }
};

}
