#pragma once

#include "review/finished_jobs.h"

#include <string>
#include <vector>

namespace strikeoff {

/// Profit per crew-hour in dollars, as it came and as it is to be believed: drawn toward the other groups the more, the fewer jobs stand behind it.
struct PerCrewHour {
    double raw = 0;       ///< all profit over all hours
    double estimate = 0;
    std::optional<double> low;   ///< between low and high the truth lies eight times in ten; none while no group has two jobs
    std::optional<double> high;
    bool isSurelyAbove(const PerCrewHour& other) const { return low && other.high && *low > *other.high; }
};

/// What costs a group most beyond its bids.
struct PayDriver {
    CostClass costClass{};
    std::string reason;   ///< "price", "over-order", "pace: place"; the largest part within the class
    Money over;           ///< of the class, over all its jobs
};

/// What the jobs of one type (lead source, size …) brought in.
struct PayGroup {
    std::string name;
    std::size_t key = 0;                ///< its place in FinishedJobs::names of the grouping
    std::optional<Id<JobType>> type;    ///< of a grouping by job type
    int jobs = 0;
    double areaSqft = 0;
    Money revenue;
    Money cost;
    Money grossProfit;
    Money overhead;                     ///< its crew-hours' share of their years' overhead
    Minutes crewMinutes;
    Money bidCost;
    PerCrewHour perCrewHour;            ///< gross profit, before overhead
    PerCrewHour afterOverhead;          ///< the same less the group's overhead per crew-hour
    std::optional<double> chanceOfLoss; ///< that the next job of the group costs more than it brings, before overhead; none while no group has two jobs
    int quotesWon = 0;
    int quotesLost = 0;
    std::optional<int> daysToPaid;      ///< from the lead to the last payment, the middle one of the jobs that tell
    int daysKnown = 0;                  ///< jobs that tell
    int callBacks = 0;                  ///< jobs the crew went back to for rework after the last pour
    std::optional<PayDriver> driver;    ///< none when the jobs kept within their bids in every class
    std::string sentence;               ///< "pays $61 per crew-hour, surely above sidewalks; concrete price is what hurts it"

    std::optional<Rate> margin() const;  ///< of revenue
    std::optional<Rate> winRate() const; ///< of quotes answered
};

/// Which work makes money, by one grouping, the best paid first.
struct WhatPays {
    Grouping by{};
    std::vector<PayGroup> groups;
    bool pooled = false;                            ///< three groups or more, so that they could be pooled
    double spread = 0;                              ///< standard deviation between groups, dollars per crew-hour
    double mean = 0;                                ///< of all groups
    std::vector<std::pair<std::size_t, std::size_t>> undecided;  ///< places in `groups` whose intervals overlap
    std::string undecidedSentence;                  ///< blank when every pair is decided
    std::string answer;                             ///< in one sentence with numbers
    std::string method;                             ///< how it is reckoned, for who wants to know
};
WhatPays whatPays(const FinishedJobs& jobs, Grouping by, const ReviewFilter& filter = {});

}
