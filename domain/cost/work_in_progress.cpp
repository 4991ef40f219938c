#include "cost/work_in_progress.h"

#include "billing/billing.h"
#include "quantity/words.h"

#include <algorithm>

namespace strikeoff {

namespace {

Money costUpTo(CostReckoner& reckoner, const Job& job, Date day)
{
    const auto& book = reckoner.book();
    Money cost;
    for (const auto* row : book.referring<&Hours::job>(job.id))
        if (row->date <= day)
            if (const auto* each = reckoner.labor().of(row->id)) cost += each->trueCost();
    for (const auto* ticket : ticketsOf(book, job.id))
        if (ticket->date <= day) cost += reckoner.of(*ticket).amount.value_or(Money{});
    for (const auto* receipt : book.referring<&Receipt::job>(job.id))
        if (receipt->date <= day) cost += receipt->amount;
    return cost;
}

Money priceUpTo(const Book& book, const Job& job, Date day)
{
    Money price;
    if (const auto* quote = acceptedQuote(book, job.id); quote && *quote->acceptedOn <= day) price += totalOf(book, *quote).net;
    for (const auto* order : book.referring<&ChangeOrder::job>(job.id))
        if (order->acceptedOn && *order->acceptedOn <= day) price += order->price;
    return price;
}

std::string answerOf(const WorkInProgress& work)
{
    if (work.jobs.empty()) return "No job was in work on " + work.asOf.shown() + '.';
    auto text = capitalized(counted(static_cast<std::int64_t>(work.jobs.size()), "job was", "jobs were")) + " in work on " + work.asOf.shown() + ": " + dollars(work.earned) +
                " earned by cost, " + dollars(work.billed) + " billed";
    if (!work.underBilled.isZero()) text += "; " + dollars(work.underBilled) + " earned and not billed yet";
    if (!work.overBilled.isZero()) text += "; " + dollars(work.overBilled) + " billed ahead of the work";
    return text + '.';
}

}

CostToCost costToCost(Money price, Money costToDate, Money costAtCompletion, Money billed)
{
    CostToCost part;
    part.billed = billed;
    if (costAtCompletion <= costToDate || costAtCompletion <= Money{}) {
        part.complete = Rate::ofWhole(100);
        part.earned = price;
        return part;
    }
    if (costToDate <= Money{}) return part;
    part.complete = Rate::ofUnits(divideHalfUp(static_cast<Int128>(costToDate.cents()) * 1'000'000, costAtCompletion.cents()));
    part.earned = Money::ofCents(divideHalfUp(static_cast<Int128>(price.cents()) * costToDate.cents(), costAtCompletion.cents()));
    return part;
}

WorkInProgress workInProgress(CostReckoner& reckoner, Date asOf)
{
    const auto& book = reckoner.book();
    WorkInProgress work;
    work.asOf = asOf;
    for (const auto& job : book.all<Job>()) {
        if (job.openedOn > asOf) continue;
        const auto stage = stageOf(book, job);
        if (stage == Stage::declined || stage == Stage::dropped) continue;
        JobInProgress each;
        each.job = &job;
        const auto billing = billingOf(book, job.id, asOf);
        const auto billed = billing.net;
        // After the final invoice a job brings what was billed: a credit on it was taken off its price.
        each.price = billing.inFull ? billed : priceUpTo(book, job, asOf);
        if (each.price.isZero()) continue;
        each.costToDate = costUpTo(reckoner, job, asOf);
        if (each.costToDate.isZero() && billed.isZero()) continue;
        const auto forecast = forecastOf(reckoner, job);
        each.isForecast = forecast.open;
        each.costAtCompletion = forecast.expected();
        each.part = costToCost(each.price, each.costToDate, each.costAtCompletion, billed);
        if (each.costAtCompletion <= each.costToDate && each.part.earned == billed) continue;
        work.earned += each.part.earned;
        work.billed += billed;
        work.underBilled += each.part.underBilled();
        work.overBilled += each.part.overBilled();
        work.jobs.push_back(std::move(each));
    }
    std::stable_sort(work.jobs.begin(), work.jobs.end(), [](const JobInProgress& a, const JobInProgress& b) { return a.job->number < b.job->number; });
    work.answer = answerOf(work);
    return work;
}

}
