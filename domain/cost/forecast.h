#pragma once

#include "cost/job_cost.h"

namespace strikeoff {

/// One class of an open job seen to its end.
struct ClassForecast {
    CostClass costClass{};
    Money bid;
    Money spent;
    Money committed;  ///< of toCome: ordered yards at the sheet's price, subcontract that was carried and not billed yet
    Money toCome;
    std::string how;  ///< what toCome rests on, in a sentence; blank when nothing is to come
    Money expected() const { return spent + toCome; }
    Money difference() const { return expected() - bid; }
};

/// What a job will have cost when it is done. A job with no work left is expected to cost what it cost.
struct Forecast {
    const Job* job = nullptr;
    bool open = false;
    std::optional<Money> price;  ///< what it earns: bid price with accepted change orders
    Money bid;
    Money spent;
    Money committed;
    Money toCome;
    std::vector<ClassForecast> classes;  ///< every class with a bid or an actual, in the trade's order; they add up to the job
    Money expected() const { return spent + toCome; }
    std::optional<Money> profit() const { return price ? std::optional{*price - expected()} : std::nullopt; }
    bool isHeadingForALoss() const { return open && price && expected() > *price; }
    /// The class that goes most over its bid; nullptr when none does.
    const ClassForecast* driver() const;
    std::string answer;  ///< in one sentence with numbers
};

/// Still to come, by class:
/// - concrete: pours ordered and not poured by the sheet in force on their planned day, load by load; of the yards the bid carries beyond those and
///   the yards delivered, at the price per yd³ seen so far on the job, else the bid's. Nothing more once every pour is poured.
/// - labor: of each phase the hours the bid carries; placing and finishing at the pace seen so far once part of the area is poured; each hour at what
///   an hour cost so far on the job, else the bid's. Once all is poured only the phases after it.
/// - every other class: what the bid carries beyond what was spent; once all is poured, only of what is bought after it (joint & finish materials,
///   sealer, travel, permits & dump) and of classes without any receipt yet.
Forecast forecastOf(CostReckoner& reckoner, const Job& job);

/// The won jobs that are heading for a loss, the largest first.
std::vector<Forecast> headingForALoss(CostReckoner& reckoner);

}
