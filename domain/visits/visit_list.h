#pragma once

#include "visits/needed_visits.h"
#include "visits/windows.h"

#include <string>
#include <vector>

namespace strikeoff {

struct VisitRow {
    const Visit* visit = nullptr;
    const Job* job = nullptr;
    std::string place;  ///< site, else customer and town
    VisitWindow window;  ///< of an open visit
    VisitState state{};
};

/// Days from a day on within which a visit counts as one to go back to soon: as far as the plan reaches.
inline constexpr int visitHorizonDays = 14;

struct VisitList {
    std::vector<VisitRow> visits;  ///< open ones first, the most pressing on top; then done and waived, newest first
    std::vector<NeededVisit> missing;  ///< needed by a pour that is done, and neither done, waived nor on the list
    int late = 0;                  ///< past due or too late; reseal calls are counted apart
    int due = 0;
    int open = 0;                  ///< that are late or can be made within the horizon
    int later = 0;                 ///< open, but not to be made before the horizon ends, or waiting for a pour that has no day
    int calls = 0;                 ///< reseal calls to make within the horizon
    int callsLater = 0;            ///< mostly years away
    std::string answer;            ///< in one sentence with numbers
};
VisitList visitList(const Book& book, Date day);

}
