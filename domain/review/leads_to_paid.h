#pragma once

#include "season/scope.h"

#include <array>
#include <string>

namespace strikeoff {

/// The way of an asking to the money, in order.
enum class LeadStep { asked, quoted, won, poured, billed, paid };
inline constexpr std::array leadStepChoices{Choice{"asked", "Asked"}, Choice{"quoted", "Quoted"}, Choice{"won", "Won"},
                                            Choice{"poured", "Poured"}, Choice{"billed", "Billed"}, Choice{"paid", "Paid"}};
template <> inline constexpr std::span<const Choice> choicesOf<LeadStep> = leadStepChoices;
inline constexpr std::size_t leadStepCount = leadStepChoices.size();

/// How far leads came.
struct LeadStepSum {
    LeadStep step{};
    int reached = 0;
    int open = 0;   ///< got here, no further yet, and may
    int lost = 0;   ///< got here and no further: lost, declined, dropped
    std::optional<double> days;  ///< since the step before, the middle one of the leads that tell
    int daysKnown = 0;
};

struct LeadsToPaid {
    std::array<LeadStepSum, leadStepCount> steps;  ///< asked first
    std::optional<double> days;                    ///< from asking to the last payment, the middle one
    std::string answer;                            ///< in one sentence with numbers
};

/// How many of the leads received in the scope's days (of its job type) were quoted, won, poured, billed and paid, and how long each step took.
/// Quoted: the first quote sent. Won: a quote accepted. Poured: the first pour. Billed: the last invoice issued, once the job is billed in full. Paid:
/// the last payment, once nothing is owed. A lead that reached a later step reached the ones before it, though no day was recorded. Days count only where both are known.
LeadsToPaid leadsToPaid(const Book& book, const SeasonScope& scope);

}
