#pragma once

#include "cost/explanation_parts.h"
#include "quantity/words.h"

namespace strikeoff {

inline constexpr std::size_t phaseCount = phaseChoices.size();

/// Hours the bid carries, in thousandths, with what they were to cost.
struct Pot {
    std::int64_t thousandths = 0;
    Money cost;

    void take(const Carried& line, std::int64_t hours)
    {
        thousandths = checkedAdd(thousandths, hours);
        cost += line.cost;
    }
    Money at(Minutes minutes) const
    {
        return Money::ofCents(divideHalfUp(static_cast<Int128>(cost.cents()) * minutes.count() * 1000, static_cast<Int128>(thousandths) * 60));
    }
    std::string hoursText() const { return Minutes::of(divideHalfUp(static_cast<Int128>(thousandths) * 60, 1000)).shown() + " h"; }
    std::string rateText() const { return eachText(cost, thousandths) + " an hour"; }
};

/// Thousandths of an hour on a line; nothing when it is not by the hour.
std::optional<std::int64_t> hoursOn(const Carried& line);

/// What the bid carries of labor.
struct LaborBid {
    std::array<Pot, phaseCount> phases;
    Pot noPhase;         ///< hours without a phase: set against all phases that have none of their own
    Pot all;
    Money withoutHours;  ///< sums that give no hours
    std::string withoutHoursWords;

    explicit LaborBid(const std::vector<Carried>& lines);
};

}
