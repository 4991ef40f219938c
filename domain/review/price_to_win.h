#pragma once

#include "review/finished_jobs.h"
#include "statistics/estimate.h"

namespace strikeoff {

/// The chance that a customer takes a price, and how it was reckoned or why it cannot be.
struct WinChance {
    std::optional<Estimate> chance;
    int won = 0;
    int lost = 0;
    std::string words;
};

/// From all answered quotes with an area: how far each price lay above or below the usual for its type and area (regression of log prices), and whether it was won
/// (logistic regression on that). Where dearer quotes were not lost more often, the share won stands for every price, and the words say so. `type` is
/// the place of the job type among the names.
WinChance chanceToWin(const FinishedJobs& jobs, std::uint16_t type, double areaSqft, double price);

}
