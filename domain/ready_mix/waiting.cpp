#include "ready_mix/expected_charge.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int minutesPerDay = 24 * 60;
constexpr int longestOverMidnight = 12 * 60;

/// What is read off the ticket; free time and the time over it still with all six decimals of minutes × yards.
struct Stay {
    Minutes onSite;
    Int128 freeUnits = 0;
    Int128 over = 0;
    std::int64_t step = 1;
};
constexpr Int128 unitsPerMinute = Int128{Quantity::one} * Yards::one;

Quantity rounded(Int128 units) { return Quantity::ofUnits(divideHalfUp(units, Yards::one)); }

/// The times as a sentence begins with them.
std::string timesOf(const Ticket& ticket) { return "on site " + ticket.arrivedAt->shown() + ", empty " + ticket.dischargeEndedAt->shown(); }

std::string ruleOf(const Ticket& ticket, const SheetCharge& charge, const Stay& stay, Minutes charged)
{
    auto rule = timesOf(ticket) + " = " + std::to_string(stay.onSite.count()) + " min";
    if (charge.freeMinutes) {
        const auto freeTime = rounded(stay.freeUnits).text();
        rule += "; ";
        if (charge.freeBasis != FreeBasis::perYard) rule += freeTime + " min free";
        else rule += ticket.yards.text() + " yd\u00b3 at " + charge.freeMinutes->text() + " min free each = " + freeTime + " min";
    }
    if (stay.over <= 0) return rule + ": nothing due";
    if (stay.freeUnits > 0) rule += "; " + rounded(stay.over).text() + " min over";
    if (stay.step > 1) rule += ", in steps of " + std::to_string(stay.step) + " = " + std::to_string(charged.count()) + " min";
    return rule;
}

}

Waiting waitingOf(const Ticket& ticket, const SheetCharge& charge, Words words)
{
    Waiting waiting;
    if (!ticket.arrivedAt || !ticket.dischargeEndedAt) {
        if (ticket.arrivedAt) waiting.rule = "the time the truck was empty is not recorded";
        else if (ticket.dischargeEndedAt) waiting.rule = "the time of arrival is not recorded";
        else waiting.rule = "neither arrival nor empty time is recorded";
        return waiting;
    }
    const bool overMidnight = *ticket.dischargeEndedAt < *ticket.arrivedAt;
    const int onSite = ticket.dischargeEndedAt->minutes() - ticket.arrivedAt->minutes() + (overMidnight ? minutesPerDay : 0);
    if (overMidnight && onSite > longestOverMidnight) {
        waiting.rule = timesOf(ticket) + ": the times are out of order";
        return waiting;
    }

    Stay stay;
    stay.onSite = Minutes::of(onSite);
    if (charge.freeMinutes) {
        const auto times = charge.freeBasis == FreeBasis::perYard ? ticket.yards : Yards::ofWhole(1);
        stay.freeUnits = static_cast<Int128>(charge.freeMinutes->units()) * times.units();
    }
    stay.over = onSite * unitsPerMinute - stay.freeUnits;
    stay.step = std::max(charge.stepMinutes.value_or(1), 1);
    waiting.onSite = stay.onSite;
    waiting.freeMinutes = rounded(stay.freeUnits);
    if (stay.over > 0) waiting.charged = Minutes::of(static_cast<std::int64_t>((stay.over - 1) / (stay.step * unitsPerMinute) + 1) * stay.step);
    if (words == Words::written) waiting.rule = ruleOf(ticket, charge, stay, waiting.charged);
    return waiting;
}

}
