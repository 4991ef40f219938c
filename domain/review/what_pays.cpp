#include "review/what_pays.h"

#include "quantity/words.h"
#include "review/pay_words.h"
#include "statistics/quantiles.h"
#include "statistics/random_effects.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

/// The figures of a group while its jobs are counted.
struct Counting {
    PayGroup group;
    std::vector<const FinishedJob*> jobs;
    std::vector<double> daysToPaid;
};

double profitOf(const FinishedJob& job) { return job.grossProfit().toDouble(); }

/// How far jobs of a group scatter about its profit per crew-hour, and what that leaves of doubt about it.
struct Scatter {
    GroupScatter jobs;       ///< of the profit per crew-hour of one job
    double shareInValue = 0; ///< the variance of the group's value over that of one job
};

/// The group's value is a ratio of sums, so that long jobs count for more: its variance is that of a job × Σh² / (Σh)². A job's variance comes from the squares of
/// the same terms, Σh²(y − r)², over what they would come to by chance for a variance of one. As many figures as count: (Σh²)² / Σh⁴.
Scatter scatterOf(const Counting& counting)
{
    double h1 = 0, h2 = 0, h3 = 0, h4 = 0, profit = 0;
    for (const auto* job : counting.jobs) {
        const double h = job->hours();
        h1 += h;
        h2 += h * h;
        h3 += h * h * h;
        h4 += h * h * h * h;
        profit += profitOf(*job);
    }
    const double ratio = profit / h1;
    double squares = 0;
    for (const auto* job : counting.jobs) squares += std::pow(profitOf(*job) - ratio * job->hours(), 2);
    Scatter scatter;
    scatter.shareInValue = h2 / (h1 * h1);
    const double byChance = h2 - 2 * h3 / h1 + h2 * h2 / (h1 * h1);
    if (counting.jobs.size() < 2 || byChance <= 1e-9 * h2) return scatter;
    scatter.jobs.freedom = h2 * h2 / h4 - 1;
    scatter.jobs.squares = squares / byChance * scatter.jobs.freedom;
    return scatter;
}

void estimate(WhatPays& review, std::vector<Counting>& counted)
{
    std::vector<GroupScatter> scatters;
    std::vector<double> shares;
    for (auto& each : counted) {
        const auto scatter = scatterOf(each);
        scatters.push_back(scatter.jobs);
        shares.push_back(scatter.shareInValue);
        const double hours = static_cast<double>(each.group.crewMinutes.count()) / 60;
        each.group.perCrewHour.raw = each.group.grossProfit.toDouble() / hours;
        each.group.perCrewHour.estimate = each.group.perCrewHour.raw;
    }
    const auto shared = shareVariance(scatters);
    if (shared.freedom <= 0) return;  // nothing but single jobs: how sure they are cannot be told
    std::vector<GroupValue> values;
    std::vector<double> perJob;
    for (std::size_t i = 0; i < counted.size(); ++i) {
        // A cent squared: jobs that are alike to the cent still prove nothing beyond it.
        perJob.push_back(std::max(shared.of(scatters[i]), 1e-4));
        values.push_back({counted[i].group.perCrewHour.raw, perJob.back() * shares[i], shared.freedomOf(scatters[i])});
    }
    const auto pooled = pool(values);
    review.pooled = pooled.pooled;
    review.spread = std::sqrt(pooled.common.spread);
    review.mean = pooled.common.mean;
    for (std::size_t i = 0; i < counted.size(); ++i) {
        auto& group = counted[i].group;
        const auto& value = pooled.values[i];
        group.perCrewHour.estimate = value.estimate;
        group.perCrewHour.low = value.low;
        group.perCrewHour.high = value.high;
        group.chanceOfLoss = chanceBelow(0, value, perJob[i], values[i].freedom);
    }
}

/// What is one thing to the owner where the bid does not part it: price and tax of a yard, pay, premium and burden of an hour.
std::string_view togetherWith(CostClass costClass, std::string_view reason)
{
    if (costClass == CostClass::concrete && (reason == "price" || reason == "tax")) return "price and tax";
    if (costClass == CostClass::labor && (reason == "rate" || reason == "overtime premium" || reason == "burden")) return "what an hour costs";
    return reason;
}

/// The class that went most over its bids, and the largest part within it.
std::optional<PayDriver> driverOf(const FinishedJobs& all, const Counting& counting)
{
    std::array<Money, costClassCount> classes{};
    std::map<std::pair<std::size_t, std::string_view>, Money> parts;
    for (const auto* job : counting.jobs)
        for (std::size_t i = job->firstMissed; i < job->firstMissed + job->missedCount; ++i) {
            const auto& part = all.missed[i];
            const auto place = static_cast<std::size_t>(part.costClass);
            classes[place] += part.amount;
            parts[{place, togetherWith(part.costClass, all.reasons[part.reason])}] += part.amount;
        }
    const auto worst = std::max_element(classes.begin(), classes.end());
    if (*worst <= Money{}) return std::nullopt;
    PayDriver driver;
    const auto place = static_cast<std::size_t>(worst - classes.begin());
    driver.costClass = static_cast<CostClass>(place);
    driver.over = *worst;
    Money most;
    for (const auto& [key, amount] : parts)
        if (key.first == place && amount > most) {
            most = amount;
            driver.reason = key.second;
        }
    return driver;
}

void finish(const FinishedJobs& all, Counting& counting)
{
    auto& group = counting.group;
    group.grossProfit = group.revenue - group.cost;
    group.driver = driverOf(all, counting);
    group.daysKnown = static_cast<int>(counting.daysToPaid.size());
    if (const auto days = median(counting.daysToPaid)) group.daysToPaid = static_cast<int>(std::lround(*days));
}

void addOverhead(PayGroup& group)
{
    const double perHour = group.overhead.toDouble() / (static_cast<double>(group.crewMinutes.count()) / 60);
    group.afterOverhead = group.perCrewHour;
    group.afterOverhead.raw -= perHour;
    group.afterOverhead.estimate -= perHour;
    if (group.afterOverhead.low) *group.afterOverhead.low -= perHour;
    if (group.afterOverhead.high) *group.afterOverhead.high -= perHour;
}

}

std::optional<Rate> PayGroup::margin() const
{
    if (revenue.isZero()) return std::nullopt;
    return Rate::ofUnits(divideHalfUp(static_cast<Int128>(grossProfit.cents()) * 1'000'000, revenue.cents()));
}

std::optional<Rate> PayGroup::winRate() const
{
    if (quotesWon + quotesLost == 0) return std::nullopt;
    return Rate::ofUnits(divideHalfUp(static_cast<Int128>(quotesWon) * 1'000'000, quotesWon + quotesLost));
}

WhatPays whatPays(const FinishedJobs& jobs, Grouping by, const ReviewFilter& filter)
{
    const auto at = static_cast<std::size_t>(by);
    std::vector<Counting> byKey(jobs.names[at].size());
    for (const auto& job : jobs.jobs) {
        if (!passes(jobs, filter, job.day, job.keys)) continue;
        auto& counting = byKey[job.keys[at]];
        auto& group = counting.group;
        counting.jobs.push_back(&job);
        if (job.daysToPaid) counting.daysToPaid.push_back(*job.daysToPaid);
        ++group.jobs;
        group.areaSqft += job.areaSqft;
        group.revenue += job.revenue;
        group.cost += job.cost;
        group.overhead += job.overhead;
        group.crewMinutes += job.crewMinutes;
        group.bidCost += job.bidCost;
        if (job.calledBack) ++group.callBacks;
    }
    // Who delivers and how many come is settled after a quote is won, so those groupings have no win rate.
    if (by != Grouping::supplier && by != Grouping::crewSize)
        for (const auto& quote : jobs.quotes) {
            if (!passes(jobs, filter, quote.day, quote.keys)) continue;
            auto& group = byKey[quote.keys[at]].group;
            ++(quote.won ? group.quotesWon : group.quotesLost);
        }
    for (std::size_t key = 0; key < byKey.size(); ++key) {
        byKey[key].group.name = jobs.names[at][key];
        byKey[key].group.key = key;
        if (by == Grouping::jobType) byKey[key].group.type = jobs.types[key];
    }
    std::erase_if(byKey, [](const Counting& counting) { return counting.jobs.empty(); });

    WhatPays review;
    review.by = by;
    for (auto& each : byKey) finish(jobs, each);
    if (!byKey.empty()) estimate(review, byKey);
    for (auto& each : byKey) {
        addOverhead(each.group);
        review.groups.push_back(std::move(each.group));
    }
    std::stable_sort(review.groups.begin(), review.groups.end(), [](const auto& a, const auto& b) { return a.perCrewHour.estimate > b.perCrewHour.estimate; });
    for (std::size_t i = 0; i < review.groups.size(); ++i)
        for (std::size_t j = i + 1; j < review.groups.size(); ++j)
            if (!review.groups[i].perCrewHour.isSurelyAbove(review.groups[j].perCrewHour) && !review.groups[j].perCrewHour.isSurelyAbove(review.groups[i].perCrewHour))
                review.undecided.emplace_back(i, j);
    writeWords(review, jobs.leftOut.size());
    return review;
}

}
