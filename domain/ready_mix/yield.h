#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

/// Yards delivered on a pour against what its takeoff measures.
struct PourYield {
    const Pour* pour = nullptr;
    const Job* job = nullptr;
    int loads = 0;
    Yards delivered;                           ///< by the tickets
    Yards returned;                            ///< sent back
    Yards placed;                              ///< delivered − returned
    std::optional<Yards> measured;             ///< the takeoff's volume; of a job with several pours, its share by area poured
    std::optional<Area> area;                  ///< flat area of that
    std::optional<Quantity> plannedThickness;  ///< inches, measured volume over area
    std::optional<Quantity> impliedThickness;  ///< inches, placed volume over area
    std::optional<Rate> over;                  ///< placed over measured, per cent
    std::optional<Money> overCost;             ///< of what was placed beyond the measure, at the load's mix price
    std::optional<Money> returnedCost;         ///< concrete paid for and sent back, with the sheet's charge for it
    std::string answer;                        ///< in a sentence
};

/// Nothing for a pour without tickets.
std::optional<PourYield> yieldOf(const Book& book, const Pour& pour);

/// What the pours of a job type have taken over their measure.
struct TypeYield {
    Id<JobType> type;
    int pours = 0;
    Yards measured;
    Yards placed;
    Rate over;            ///< of all its pours together
    Rate allowance;       ///< what a quote carries now
    Rate suggested;       ///< the running over-order, up to the next half per cent, not below zero
    std::string answer;
};

/// One a job type with at least one pour that can be reckoned; by name.
std::vector<TypeYield> yieldByType(const Book& book);

/// What a quote should order over the measure for a job type: the running over-order once `pours` of them are known, else nothing.
std::optional<TypeYield> suggestedAllowance(const Book& book, Id<JobType> type, int pours = 5);

}
