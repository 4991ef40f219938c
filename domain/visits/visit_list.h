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

struct VisitList {
    std::vector<VisitRow> visits;  ///< open ones first, the most pressing on top; then done and waived, newest first
    std::vector<NeededVisit> missing;  ///< needed by a pour that is done, and neither done, waived nor on the list
    int late = 0;                  ///< past due or too late
    int due = 0;
    int open = 0;
    std::string answer;            ///< in one sentence with numbers
};
VisitList visitList(const Book& book, Date day);

}
