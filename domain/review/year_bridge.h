#pragma once

#include "review/finished_jobs.h"

namespace strikeoff {

/// What one year's jobs came to.
struct ReviewYear {
    int year = 0;
    int jobs = 0;
    double areaSqft = 0;
    Money revenue;
    std::array<Money, costClassCount> byClass{};
    Minutes crewMinutes;
    Money overhead;
    Money cost() const;
    Money grossProfit() const { return revenue - cost(); }
    Money profit() const { return grossProfit() - overhead; }
};

/// One thing that moved the profit, and by how much; above zero is more profit.
struct BridgeStep {
    std::string name;    ///< "Volume", "Price", "Concrete cost", "Pace", "Labor rate", a cost class bought by receipts, "Overhead"
    Money amount;
    std::string detail;  ///< both figures, in a sentence
};

/// Two years beside one another, and the steps from one profit to the other; they add up to the cent.
struct YearBridge {
    ReviewYear before, after;
    std::optional<Date> upTo;  ///< the later year still runs: both count up to this day of theirs (given of the later)
    std::vector<BridgeStep> steps;
    std::string answer;        ///< in one sentence with numbers
    Money difference() const { return after.profit() - before.profit(); }
};

/// What moved the profit of the jobs done in a year against those done in another. Each job type is taken by itself, so that pouring more of a dear type is volume and
/// not price. Each step changes one thing and leaves the others as the year before had them per ft²: volume (ft² done; all of a type that only one
/// year has), price (billed per ft²), concrete cost per ft², pace (crew-hours per ft² at the year before's cost of an hour), labor rate (what an hour cost), each
/// other class per ft², overhead. Steps of nothing are left out. A job counts in the year it was done, whole.
YearBridge yearBridge(const FinishedJobs& jobs, const CostReckoner& reckoner, int before, int after, Date asOf);

/// The years with a job that is done, rising.
std::vector<int> reviewYears(const FinishedJobs& jobs);

}
