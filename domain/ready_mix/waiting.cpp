#include "ready_mix/expected_charge.h"

namespace strikeoff {

namespace {

constexpr int minutesPerDay = 24 * 60;
constexpr int longestOverMidnight = 12 * 60;

}

Waiting waitingOf(const Ticket& ticket, const SheetCharge& charge)
{
    Waiting waiting;
    if (!ticket.arrivedAt || !ticket.dischargeEndedAt) {
        waiting.rule = !ticket.arrivedAt && !ticket.dischargeEndedAt ? "neither arrival nor empty time is recorded" : ticket.arrivedAt ? "the time the truck was empty is not recorded" : "the time of arrival is not recorded";
        return waiting;
    }
    const bool overMidnight = *ticket.dischargeEndedAt < *ticket.arrivedAt;
    const int onSite = ticket.dischargeEndedAt->minutes() - ticket.arrivedAt->minutes() + (overMidnight ? minutesPerDay : 0);
    auto& rule = waiting.rule;
    rule = "on site " + ticket.arrivedAt->shown() + ", empty " + ticket.dischargeEndedAt->shown();
    if (overMidnight && onSite > longestOverMidnight) {
        rule += ": the times are out of order";
        return waiting;
    }
    waiting.onSite = Minutes::of(onSite);
    rule += " = " + std::to_string(onSite) + " min";

    // Free minutes per yard times yards have six decimals, and none of them may be lost before the step is taken.
    constexpr Int128 unit = Int128{Quantity::one} * Yards::one;
    Int128 freeUnits = 0;
    if (charge.freeMinutes) {
        const bool perYard = charge.freeBasis == FreeBasis::perYard;
        freeUnits = static_cast<Int128>(charge.freeMinutes->units()) * (perYard ? ticket.yards.units() : Yards::one);
        waiting.freeMinutes = Quantity::ofUnits(divideHalfUp(freeUnits, Yards::one));
        if (perYard) rule += "; " + ticket.yards.text() + " yd\u00b3 at " + charge.freeMinutes->text() + " min free each = " + waiting.freeMinutes.text() + " min";
        else rule += "; " + waiting.freeMinutes.text() + " min free";
    }
    const Int128 over = onSite * unit - freeUnits;
    if (over <= 0) {
        rule += ": nothing due";
        return waiting;
    }
    const std::int64_t step = charge.stepMinutes.value_or(1) > 0 ? charge.stepMinutes.value_or(1) : 1;
    const Int128 steps = (over - 1) / (step * unit) + 1;
    waiting.charged = Minutes::of(static_cast<std::int64_t>(steps) * step);
    if (freeUnits > 0) rule += "; " + Quantity::ofUnits(divideHalfUp(over, Yards::one)).text() + " min over";
    if (step > 1) rule += ", in steps of " + std::to_string(step) + " = " + std::to_string(waiting.charged.count()) + " min";
    return waiting;
}

}
