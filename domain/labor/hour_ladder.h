#pragma once

#include "labor/overhead.h"

#include <string>

namespace strikeoff {

/// What an hour truly costs, step by step. Per hour worked.
struct HourLadder {
    const CrewMember* person = nullptr;  ///< nullptr: the crew's hour, all people by their hours
    Minutes worked;                      ///< what it rests on; zero when nothing was worked and it goes by the rates in force alone
    UnitPrice pay;                       ///< straight, with bonuses
    UnitPrice premium;
    std::array<UnitPrice, burdenItemCount> burden{};
    UnitPrice total() const;
};

struct CrewRates {
    std::vector<HourLadder> people;  ///< who is on the crew on the day and has a rate, by name
    HourLadder crew;
    YearOverhead lastYear;           ///< the last full one
    YearOverhead toDate;
    /// What must be charged for a billable hour so that hours of the shop, burden and overhead are paid for: the crew's hour over last year's billable
    /// share, and last year's overhead on a billable hour. None without last year's hours or anybody's rate.
    std::optional<UnitPrice> breakEven;
    std::string answer;  ///< in one sentence with numbers
    std::string missing; ///< what counts for nothing because it is not set; blank when all is set
};

/// The rates on a day: averages of the twelve months up to it; by the rates in force, without overtime and wage bases, for who has not worked in them.
CrewRates crewRates(const Book& book, const LaborCost& labor, Date day);

}
