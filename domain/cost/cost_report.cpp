#include "cost/job_cost.h"
#include "quantity/words.h"

namespace strikeoff {

namespace {

bool hasAnything(const JobCost& cost)
{
    return cost.bidPrice || !cost.classes.empty() || cost.crewMinutes > Minutes{} || cost.ticketsWithoutPrice > 0 ||
           !cost.billed.isZero();
}

bool wasLost(const JobCost& cost) { return cost.stage == Stage::declined || cost.stage == Stage::dropped; }

/// "$120.00 less than bid", "$35.10 more than bid", "exactly what was bid".
std::string againstBid(Money difference)
{
    if (difference.isZero()) return "exactly what was bid";
    return difference < Money{} ? dollars(-difference) + " less than bid" : dollars(difference) + " more than bid";
}

std::string madeText(Money profit) { return profit < Money{} ? "lost " + dollars(-profit) : "made " + dollars(profit); }

/// What the figures leave out or take for granted.
std::string reservations(Money expected, int ticketsWithoutPrice, Minutes minutesWithoutRate)
{
    std::string text;
    if (!expected.isZero()) text += "; " + dollars(expected) + " of the cost is expected, as no statement bills it yet";
    std::vector<std::string> left;
    if (ticketsWithoutPrice > 0) left.push_back(counted(ticketsWithoutPrice, "ticket without a price", "tickets without a price"));
    if (minutesWithoutRate > Minutes{}) left.push_back(minutesWithoutRate.shown() + " h without a pay rate");
    if (!left.empty())
        text += "; " + listed(left) + (left.size() == 1 && ticketsWithoutPrice == 1 ? " is" : " are") + " not counted";
    return text;
}

std::string answerForOne(const JobCost& cost)
{
    std::string text = "Job " + cost.job->number + " cost " + dollars(cost.actualCost);
    if (cost.open) text += " so far";
    if (cost.bidPrice) {
        const auto difference = cost.actualCost - cost.bidCost;
        text += " against " + dollars(cost.bidCost) + " bid";
        if (cost.open)
            text += difference <= Money{} ? "; " + dollars(-difference) + " is left" : "; that is " + dollars(difference) + " over";
        else text += ", " + againstBid(difference);
    } else {
        text += " and has no bid";
    }
    if (!cost.open && cost.grossProfit) text += "; it " + madeText(*cost.grossProfit);
    return text + reservations(cost.expectedPart, cost.ticketsWithoutPrice, cost.minutesWithoutRate) + ".";
}

std::string answerForAll(const std::vector<JobCost>& jobs)
{
    int finished = 0;
    int within = 0;
    int open = 0;
    Money difference;
    Money profit;
    Money openBid;
    Money openSpent;
    Money expected;
    int ticketsWithoutPrice = 0;
    Minutes minutesWithoutRate;
    for (const auto& cost : jobs) {
        expected += cost.expectedPart;
        ticketsWithoutPrice += cost.ticketsWithoutPrice;
        minutesWithoutRate += cost.minutesWithoutRate;
        if (cost.open && cost.stage >= Stage::awarded) {
            ++open;
            openBid += cost.bidCost;
            openSpent += cost.actualCost;
        } else if (!cost.open && cost.bidPrice && !wasLost(cost)) {
            ++finished;
            if (cost.actualCost <= cost.bidCost) ++within;
            difference += cost.actualCost - cost.bidCost;
            profit += cost.grossProfit.value_or(Money{});
        }
    }
    std::string text;
    if (finished == 0) text = "No job with a bid is finished yet";
    else if (finished == 1) text = "The one finished job cost " + againstBid(difference) + " and " + madeText(profit);
    else
        text = capitalized(within == 0 ? "none" : inWords(within)) + " of " + inWords(finished) +
               " finished jobs cost no more than was bid; together they cost " + againstBid(difference) + " and " +
               madeText(profit);
    if (open > 0)
        text += "; " + counted(open, "won job is", "won jobs are") + " open, " + dollars(openSpent) + " spent so far of " +
                dollars(openBid) + " bid";
    return text + reservations(expected, ticketsWithoutPrice, minutesWithoutRate) + ".";
}

}

CostReport costReport(const Book& book, std::optional<Id<Job>> only)
{
    CostReckoner reckoner{book};
    return costReport(reckoner, only);
}

CostReport costReport(CostReckoner& reckoner, std::optional<Id<Job>> only)
{
    const auto& book = reckoner.book();
    CostReport report;
    if (only) {
        const auto* job = book.find(*only);
        if (!job) {
            report.answer = "There is no such job.";
            return report;
        }
        report.jobs.push_back(reckoner.of(*job));
        report.answer = answerForOne(report.jobs.front());
        return report;
    }
    for (const auto& job : book.all<Job>()) {
        auto cost = reckoner.of(job);
        if (hasAnything(cost)) report.jobs.push_back(std::move(cost));
    }
    report.answer = report.jobs.empty() ? "No job has a bid or a cost yet: write a quote, or enter tickets, hours or receipts."
                                        : answerForAll(report.jobs);
    return report;
}

}
