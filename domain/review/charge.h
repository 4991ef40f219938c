#pragma once

#include "review/finished_jobs.h"
#include "statistics/estimate.h"

namespace strikeoff {

/// What a job is asked to be priced for.
struct ChargeQuestion {
    Id<JobType> type;
    double areaSqft = 0;
    double thicknessIn = 4;
    int month = 1;                          ///< it is poured in, 1 to 12
    std::optional<Money> profitPerCrewHour; ///< chosen; what all finished jobs made, when left out
    std::optional<Money> price;             ///< typed, to be judged
};

/// What a yard cost delivered in a month.
struct MonthPrice {
    Date month;
    double perYard = 0;
    int tickets = 0;
};
/// Prices the answer goes by: of past months, and what the seasons let expect of the months ahead; a month that is not among them goes by the last
/// twelve months'.
struct ChargePrices {
    std::vector<MonthPrice> past;
    std::vector<MonthPrice> ahead;
};

/// One part of the cost and what it rests on.
struct ChargePart {
    std::string name;     ///< "Concrete", "Labor", "All else"
    double amount = 0;    ///< dollars
    std::string detail;   ///< "5.4 yd³ with 6 % over, at $171.40 a yd³: 31 jobs"
    int jobs = 0;
};

/// What to charge, with everything it rests on. Figures are in dollars.
struct Charge {
    std::string missing;          ///< why there is no cost; blank when there is
    int jobsOfType = 0;           ///< finished jobs of the type with area, hours and concrete
    int jobs = 0;                 ///< of all types: what size and season are told by
    Estimate cost;                ///< its mean, and the 80 % range of one job
    Estimate hours;               ///< crew-hours, likewise
    std::vector<ChargePart> parts;
    double profitPerCrewHour = 0; ///< as chosen
    double priceForProfit = 0;
    std::optional<double> profitAtPrice;   ///< of the typed price, per crew-hour
    double judgedPrice = 0;       ///< the typed one, else priceForProfit
    double chanceOfLoss = 0;      ///< at it
    std::optional<Estimate> chanceOfWinning;  ///< at it; none below the counts, or where quotes do not tell
    int quotesWon = 0;            ///< of all types, with an area
    int quotesLost = 0;
    std::string winning;          ///< how the chance of winning was reckoned, or why there is none
    std::string answer;           ///< in one sentence with numbers
};

/// Below these there is not enough history. A chance by one predictor wants ten of the rarer outcome (Peduzzi et al., Journal of Clinical Epidemiology 49 (1996)
/// 1373–1379); eight jobs of a type are common practice, no source.
inline constexpr int leastJobsToCharge = 8;
inline constexpr int leastQuotesOfEither = 10;

/// Cost from the shop's own finished jobs. Crew-hours, and all that is neither concrete nor labor, by regression of their logarithms on area, job type and (for hours)
/// season; concrete by the yards the area calls for, times what jobs ordered beyond theirs and paid beyond the month's price, fees in it. Each finished
/// job then tells what this one would cost if it went as that one did; the range of these costs, with what the regression leaves open, is the range of the
/// answer (logarithms, Student's t). Chance of winning: logistic regression of answered quotes on how far their price lay above or below the usual for
/// type and area.
Charge chargeFor(const FinishedJobs& jobs, const ChargeQuestion& question, const ChargePrices& prices, bool southernHalf, Date asOf);

/// Delivered price by month from what tickets cost, and what the months after a day are expected to cost.
ChargePrices pricesToCharge(CostReckoner& reckoner, Date today);

}
