#pragma once

#include "cost/job_cost.h"

#include <string>
#include <vector>

namespace strikeoff {

/// What the finished jobs of one type brought in, added up as they are, without judging how sure it is.
struct TypeResult {
    const JobType* type = nullptr;  ///< nullptr for jobs without one
    std::string name;
    int jobs = 0;
    double areaSqft = 0;
    Money revenue;
    Money cost;
    Money grossProfit;
    Minutes crewMinutes;
    Money bidCost;

    /// Gross profit per crew-hour, rounded once; nothing without hours.
    std::optional<Money> perCrewHour() const;
    /// Gross profit of revenue; nothing without revenue.
    std::optional<Rate> margin() const;
};

struct JobTypeReview {
    std::vector<TypeResult> types;  ///< by profit per crew-hour, best first; those without hours last
    std::vector<const Job*> leftOut;  ///< still open, or without hours or a bill
    std::string answer;
};
JobTypeReview reviewJobTypes(const Book& book);

}
