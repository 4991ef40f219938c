#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

/// What one month paid for concrete and how fast the crew was, added up as it is.
struct SeasonMonth {
    Date month;  ///< its first day
    int tickets = 0;
    Yards yards;
    Money paid;          ///< billed, else expected by the sheet
    int pours = 0;
    double areaSqft = 0;  ///< of the pours with hours
    Minutes crewMinutes;  ///< prep, placing and finishing hours of those pours' jobs in the month

    std::optional<Money> perYard() const;           ///< delivered, rounded once
    std::optional<double> sqftPerCrewHour() const;
};

struct SeasonMonths {
    std::vector<SeasonMonth> months;  ///< from the first with a ticket or a pour to the last, without gaps
    std::string answer;
};
SeasonMonths seasonMonths(const Book& book);

}
