#pragma once

#include "cost/explanation.h"

namespace strikeoff {

/// Where a difference between bid and result comes from, so that a job that grew is told apart from a bid that missed.
enum class Cause {
    job,     ///< the job itself: its measure, its mix, what was asked for on top
    prices,  ///< what suppliers, the law and the crew's rates cost against what the bid carried
    work,    ///< how the work went: pace, rework, overtime, over-order, waiting
    leftOut, ///< the bid carried nothing for it, or a sum that cannot be held against anything
    notDone, ///< carried and not bought, delivered or worked, or not yet
};
inline constexpr std::array causeChoices{
    Choice{"job", "The job was another"}, Choice{"prices", "Prices and rates"}, Choice{"work", "How the work went"},
    Choice{"left_out", "Not told by the bid"}, Choice{"not_done", "Not bought or done"}};
template <> inline constexpr std::span<const Choice> choicesOf<Cause> = causeChoices;

/// The cause a part of a class is counted under, by its name.
Cause causeOf(CostClass costClass, const Reason& reason);

struct CausePart {
    CostClass costClass{};
    Reason reason;
};
/// A cause with its parts, the dearest first; they add up to it.
struct CauseSum {
    Cause cause{};
    Money amount;
    std::vector<CausePart> parts;
};
/// All parts of a job by cause, in the order of the causes; causes without parts are left out. They add up to the job's difference.
std::vector<CauseSum> causesOf(const JobExplanation& job);

/// "Of $612.00 more, the job itself cost $400.00 more, …": the causes in one sentence; blank without a bid or a difference.
std::string causesInWords(const JobExplanation& job);

}
