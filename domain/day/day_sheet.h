#pragma once

#include "record/book.h"
#include "visits/load_out.h"

#include <array>
#include <string>
#include <vector>

namespace strikeoff {

class CostReckoner;

enum class DaySection { loadOut, pours, visits, calls, paper, money };
inline constexpr std::array daySectionChoices{Choice{"load_out", "Load-out"}, Choice{"pours", "Pours"}, Choice{"visits", "Return visits"},
                                              Choice{"calls", "Calls"}, Choice{"paper", "Paper"}, Choice{"money", "Money"}};
template <> inline constexpr std::span<const Choice> choicesOf<DaySection> = daySectionChoices;

/// One thing that needs the owner, and the record it is about.
struct DayItem {
    DaySection section{};
    std::optional<ClockTime> at;
    std::string what;      ///< "Seal Alder Court 12, pour 1"
    std::string why;       ///< "due today; the product waits at most 30 days"
    std::string verb;      ///< "Done", "Enter", "Call", "Open"
    RecordKind kind{};     ///< of the record to open
    std::int64_t id = 0;
    bool late = false;
    RecordKind enters = noKind;  ///< of "Enter": the kind of record that is entered
};

/// What needs the owner on a day: pours and return visits, calls, tickets to enter or match, money due in and out, weather warnings.
struct DaySheet {
    Date date;
    std::string answer;    ///< in one sentence with numbers
    std::string weather;   ///< the day's forecast in one line; says so when there is none
    std::vector<std::string> warnings;
    std::vector<DayItem> items;     ///< in the order of the sections, timed ones by time
    std::vector<DayItem> tomorrow;  ///< pours and visits of the day after
    LoadOut loadOut;                ///< of the whole day after, to be ticked off the evening before
    bool forecastMissing = false;   ///< for the day after
};
DaySheet daySheet(const Book& book, Date date);
DaySheet daySheet(CostReckoner& reckoner, Date date);

}
