#pragma once

#include "cost/pace.h"
#include "season/price.h"
#include "statistics/seasonal_fit.h"

namespace strikeoff {

/// One pour as the pace sees it: a point of a chart.
struct PacedPour {
    const Pour* pour = nullptr;
    const Job* job = nullptr;
    double areaSqft = 0;
    Minutes minutes;               ///< all hours of the pour, rework too
    double sqftPerCrewHour = 0;
    double runningMedian = 0;      ///< of the pours around it in time, seven to each side
    std::optional<int> crewSize;
    std::optional<int> airTempF;
    bool odd = false;              ///< far from what its type, size and month say, and left out of seasons and hours to carry
};

/// Pours added up: area over hours.
struct PaceSum {
    int pours = 0;
    double areaSqft = 0;
    Minutes minutes;
    std::optional<double> sqftPerCrewHour;
    std::optional<double> low, high;  ///< a tenth of the pours were slower, a tenth faster; none for fewer than five
};

struct PaceMonth {
    Date month;
    PaceSum sum;
    int jobs = 0;
};
struct PaceOfPhase {
    Phase phase{};
    PaceSum sum;  ///< `pours` are those with hours of the phase
};
struct PaceOfType {
    const JobType* type = nullptr;  ///< nullptr for jobs without one
    PaceSum sum;
};
struct PaceOfCrew {
    int crewSize = 0;
    PaceSum sum;
};
struct PaceOfSeason {
    Season season{};
    PaceSum sum;
};
/// Pours of ten degrees of air temperature.
struct PaceOfAir {
    int fromF = 0;
    PaceSum sum;
};

struct PaceSeasons {
    std::vector<PacedPour> pours;          ///< by their days
    std::vector<PaceMonth> months;         ///< rising, those with a pour of known pace
    std::vector<PaceOfSeason> bySeason;
    std::vector<PaceOfPhase> byPhase;
    std::vector<PaceOfType> byType;        ///< the most pours first
    std::vector<PaceOfCrew> byCrewSize;
    std::vector<PaceOfAir> byAirTemp;
    std::optional<Estimate> percentPerTenDegrees;  ///< what ten degrees warmer do to the pace, type and size alike
    std::optional<Estimate> trendPercent;  ///< a year
    std::vector<SeasonEffect> seasons;     ///< after allowing for type and size; empty where history is too short
    bool seasonsShow = false;
    int odd = 0;
    int leftOut = 0;                       ///< pours that were poured and whose area or hours are not known
    std::string missing;                   ///< what the seasons still need; blank where they are there
    std::optional<SeasonalFit> fit;        ///< logarithms of the paces, in the pours' order: how the seasons were reckoned
    std::string answer;
};

/// How the crew's pace moves with month, season, phase, type, crew and air. A pour's pace is its square feet over all its hours, rework too (`paceOf`), in the month it
/// was poured. Season effects come from the logarithms of the paces, each pour against pours of its own job type and allowing for its size (`fitSeasons`).
PaceSeasons paceSeasons(const Book& book, const SeasonScope& scope);

/// Crew-hours a bid should carry.
struct CarryHours {
    Estimate hours;           ///< with the 80 % range of the next job
    int pours = 0;            ///< of the type and season it rests on
    std::string words;        ///< in one sentence
};
/// Hours for an area of a job type poured in a month: from the pours of the type, allowing for size and season. Nothing below eight pours of the type.
std::optional<CarryHours> hoursToCarry(const Book& book, const PaceSeasons& pace, Id<JobType> type, double areaSqft, Date month);

}
