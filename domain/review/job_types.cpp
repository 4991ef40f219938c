#include "review/job_types.h"

#include "quantity/words.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <map>

namespace strikeoff {

std::optional<Money> TypeResult::perCrewHour() const
{
    if (crewMinutes <= Minutes{}) return std::nullopt;
    return Money::ofCents(divideHalfUp(static_cast<Int128>(grossProfit.cents()) * 60, crewMinutes.count()));
}

std::optional<Rate> TypeResult::margin() const
{
    if (revenue.isZero()) return std::nullopt;
    return Rate::ofUnits(divideHalfUp(static_cast<Int128>(grossProfit.cents()) * 1'000'000, revenue.cents()));
}

JobTypeReview reviewJobTypes(const Book& book)
{
    JobTypeReview review;
    std::map<std::int64_t, TypeResult> types;
    for (const auto& cost : costReport(book).jobs) {
        if (cost.open || !cost.grossProfit || cost.billed.isZero() || cost.crewMinutes.count() == 0) {
            review.leftOut.push_back(cost.job);
            continue;
        }
        const auto* type = book.find(cost.job->jobType);
        auto& result = types[type ? type->id.value() : 0];
        result.type = type;
        result.name = type ? type->name : "No type";
        ++result.jobs;
        result.areaSqft += takeoffOf(book, cost.job->id).areaSqft;
        result.revenue += cost.billed;
        result.cost += cost.actualCost;
        result.grossProfit += *cost.grossProfit;
        result.crewMinutes += cost.crewMinutes;
        result.bidCost += cost.bidCost;
    }
    for (auto& [id, result] : types) review.types.push_back(std::move(result));
    std::stable_sort(review.types.begin(), review.types.end(), [](const auto& a, const auto& b) { return a.perCrewHour().value_or(Money::ofWhole(-1'000'000)) > b.perCrewHour().value_or(Money::ofWhole(-1'000'000)); });

    if (review.types.empty()) review.answer = "No finished job has hours and a bill yet.";
    else {
        const auto& best = review.types.front();
        review.answer = best.name + " brought the most, " + dollars(*best.perCrewHour()) + " a crew-hour over " + counted(best.jobs, "job", "jobs");
        if (review.types.size() > 1) {
            const auto& last = review.types.back();
            review.answer += "; " + last.name + " the least, " + dollars(*last.perCrewHour()) + " over " + counted(last.jobs, "job", "jobs");
        }
        review.answer += ".";
    }
    return review;
}

}
