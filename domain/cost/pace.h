#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

/// Hours of one phase and how fast it went.
struct PhasePace {
    Phase phase{};
    Minutes minutes;
    std::optional<double> sqftPerCrewHour;  ///< none for rework, which places nothing, and where the area is not known
};

/// Square feet placed per crew-hour (one person, one hour).
struct PourPace {
    const Pour* pour = nullptr;
    double areaSqft = 0;                    ///< as poured, else a job's only pour has its takeoff's; 0 when neither is known
    Minutes minutes;                        ///< all hours of the pour, rework too
    std::optional<double> sqftPerCrewHour;  ///< area over all hours; none without either
    std::vector<PhasePace> phases;          ///< those with hours, in the trade's order
    std::optional<int> crewSize;            ///< as recorded, else the people with hours to it on its day
    std::optional<int> airTempF;
};

struct JobPace {
    double areaSqft = 0;                    ///< of the pours that were poured
    Minutes minutes;                        ///< all hours of the job; rework and call-backs are hours without square feet
    std::optional<double> sqftPerCrewHour;
    std::vector<PhasePace> phases;
    std::vector<PourPace> pours;            ///< those poured, in their order
};

/// A job's pace from its pours and hours. Hours of a job with one pour belong to that pour, named or not.
JobPace paceOf(const Book& book, const Job& job);
/// "Pace 21.4 ft² per crew-hour over all 12:30 hours: prep & form 62.0, place 95.1; rework took 2:00; four people, 54 °F". Blank without hours.
std::string paceInWords(const JobPace& pace);

}
