#pragma once

#include "record/edit.h"
#include "route/drive.h"
#include "visits/load_out.h"
#include "visits/planner/plan.h"
#include "visits/windows.h"

#include <string>
#include <vector>

namespace strikeoff {

/// A day on which a visit cannot be made, and why.
struct BlockedDay {
    Date date;
    std::string why;
};

/// An open visit in the plan.
struct PlanRow {
    const Visit* visit = nullptr;
    const Job* job = nullptr;
    std::string place;              ///< site, else customer and town
    VisitWindow window;
    VisitState state{};             ///< on the plan's first day
    Minutes minutes;                ///< on site, as recorded or as such visits usually take
    std::optional<Date> on;         ///< nothing for one that found no day
    std::optional<ClockTime> at;
    std::optional<ClockTime> until;
    int run = 0;                    ///< which run of the day, from 1
    int stop = 0;                   ///< which stop of the run, from 1
    bool outsideHours = false;      ///< pinned where its window or its gates say no
    bool isCall = false;            ///< made by phone: it takes no place in a run
    int lateDays = 0;               ///< by its day
    bool tooLate = false;           ///< by its day
    std::vector<DayHours> hours;    ///< by day of the plan; none for a call
    std::vector<BlockedDay> blocked;
    std::string why;                ///< why then, or why not at all
};

/// One way out and back.
struct RunPlan {
    ClockTime leaves;
    ClockTime back;
    std::size_t startPlace = 0;     ///< in the plan's drives
    std::size_t endPlace = 0;
    int people = 1;
    std::vector<std::size_t> rows;  ///< of the plan, in order
    int driveMinutes = 0;
    double driveMiles = 0;
    int siteMinutes = 0;
};

/// A day of the plan with what is left of it for visits.
struct DayPlan {
    Date date;
    std::vector<RunPlan> runs;
    std::vector<PlanRun> crew;      ///< who can go out, whether they do or not
    std::string crewWhy;            ///< why no more of them: "the crew pours Orchard Street until about 1:30 pm"
    std::optional<DayForecast> forecast;
    std::vector<ClockSpan> sealing; ///< hours in which some sealer of the open visits can go on
    int driveMinutes = 0;
    double driveMiles = 0;
    int siteMinutes = 0;
};

struct VisitPlan {
    Date from;
    std::vector<PlanRow> rows;      ///< by day and time; then those without a day, the most pressing first
    std::vector<DayPlan> days;
    PlanScore score;
    PlanScore bound;                ///< no plan does better
    bool proven = false;
    DriveTable drives;
    std::vector<std::size_t> placeOf;  ///< by row, in the drives
    std::string answer;             ///< in one sentence or two, with numbers
    Plan solved;                    ///< as the planner gave it, by place in `visits`
    std::vector<Id<Visit>> visits;  ///< those that take a place in a run

    int pinned() const;
};

/// The products that run out before the plan's visits need them.
std::vector<Shortage> shortagesOf(const Book& book, const VisitPlan& plan);

/// The plan put into the book: each visit that is not pinned gets the day and time it has in the plan, or loses those it had. Nothing where all is so already.
std::optional<Edit> writePlan(const VisitPlan& plan);

/// The open visits of a book over so many days from a day on (1 to 60), by windows, gates, people, hours and drives. Days off are Sundays, except for cuts,
/// which cannot wait, and for pins. A reseal call is planned for the day it is due and drives nowhere. Hours nobody can tell the weather of are not used.
/// A plan made before, of whatever state of the book, is where the search begins. With SearchEffort::quick() it answers at once, often without a proof.
VisitPlan planVisits(const Book& book, Date from, int days = 14, const SearchEffort& effort = {}, const VisitPlan* before = nullptr);

}
