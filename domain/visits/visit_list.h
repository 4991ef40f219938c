#pragma once

#include "record/book.h"

#include <array>
#include <string>
#include <vector>

namespace strikeoff {

enum class VisitState { tooLate, late, due, waiting, done, waived };
inline constexpr std::array visitStateChoices{Choice{"too_late", "Too late"}, Choice{"late", "Late"}, Choice{"due", "Due"},
                                              Choice{"waiting", "Not yet"}, Choice{"done", "Done"}, Choice{"waived", "Waived"}};
template <> inline constexpr std::span<const Choice> choicesOf<VisitState> = visitStateChoices;

/// Where a visit stands on a day: past its last day, past due, in its window (or planned for the day), or not to be done before a later day.
VisitState stateOn(const Visit& visit, Date day);

struct VisitRow {
    const Visit* visit = nullptr;
    const Job* job = nullptr;
    std::string place;  ///< site, else customer and town
    VisitState state{};
};

struct VisitList {
    std::vector<VisitRow> visits;  ///< open ones first, the most pressing on top; then done and waived, newest first
    int late = 0;                  ///< past due or too late
    int due = 0;
    int open = 0;
    std::string answer;            ///< in one sentence with numbers
};
VisitList visitList(const Book& book, Date day);

}
