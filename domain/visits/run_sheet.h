#pragma once

#include "visits/calendar.h"
#include "visits/load_out.h"

namespace strikeoff {

/// One stop of a day: a pour or a visit.
struct RunStop {
    std::optional<ClockTime> at;
    std::string what;      ///< "Seal Alder Court driveway, pour 1"
    std::string address;
    std::string contact;   ///< "Hollis Farm, 555-0142"
    std::string notes;     ///< of the site: gate, dog, hose bib
    std::string why;       ///< the window, and a remark on the visit
    std::string notLater;  ///< why it is not left for the day after; blank where it could be, and for a pour
    std::optional<Minutes> minutes;
    std::optional<Minutes> drive;  ///< from the stop before, or from the shop; nothing where the way is not recorded
    std::string reminder;  ///< for the customer, ready to paste; blank for a pour
    Id<Job> job;
    std::optional<Id<Visit>> visit;
};

/// What the helper takes along on a day: stops in their order, what to load, cautions.
struct RunSheet {
    Date day;
    std::string answer;    ///< in one sentence: "Three stops from 7:30 am, 2:30 on site."
    std::vector<RunStop> stops;
    LoadOut loadOut;
    std::optional<Minutes> driveBack;       ///< from the last stop to the shop
    std::vector<std::string> missingWays;   ///< a sentence a place whose way is not recorded
    std::vector<std::string> cautions;      ///< of the load-out, and what always holds
};

/// The run of a day with its visits in the order given; pours of the day stand among them by their time, or first.
RunSheet runSheet(const Book& book, Date day, std::span<const PlannedVisit> visits);
/// The same with the visits of the day as the book has them: planned for it, else due on it; those with a time by their time, then the others.
RunSheet runSheet(const Book& book, Date day);

}
