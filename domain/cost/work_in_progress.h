#pragma once

#include "cost/forecast.h"

namespace strikeoff {

/// Cost-to-cost: what part of a contract is earned by the cost so far (26 CFR 1.460-4(b); ASC 606-10-55-20).
struct CostToCost {
    Rate complete;  ///< cost to date over cost at completion, 100 % at most; to four decimals, to be shown
    Money earned;   ///< price × cost to date ÷ cost at completion, rounded once
    Money billed;
    Money underBilled() const { return earned > billed ? earned - billed : Money{}; }
    Money overBilled() const { return billed > earned ? billed - earned : Money{}; }
};
/// A contract without any cost to come counts as complete.
CostToCost costToCost(Money price, Money costToDate, Money costAtCompletion, Money billed);

/// A job that was in work on a day.
struct JobInProgress {
    const Job* job = nullptr;
    Money price;             ///< bid price with the change orders accepted by the day, net of tax; what was billed once a final invoice closed the job
    Money costToDate;        ///< hours, tickets and receipts up to the day
    Money costAtCompletion;  ///< of a job finished since, what it cost; else its forecast
    CostToCost part;
    bool isForecast = false;
};

struct WorkInProgress {
    Date asOf;
    std::vector<JobInProgress> jobs;  ///< by number
    Money earned, billed, underBilled, overBilled;
    std::string answer;
};
/// Jobs that had cost or were billed by the end of the day and were not complete then, nor billed for just what was earned. Lost and dropped jobs
/// are left out. Whoever does your books decides how it is reported.
WorkInProgress workInProgress(CostReckoner& reckoner, Date asOf);

}
