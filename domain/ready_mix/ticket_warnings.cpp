#include "ready_mix/ticket_warnings.h"

#include "ready_mix/expected_charge.h"

#include <array>

namespace strikeoff {

std::vector<std::string> ticketWarnings(const Book& book, const Ticket& ticket)
{
    std::vector<std::string> warnings;
    if (const auto* pour = book.find(ticket.pour)) {
        const auto day = pour->pouredOn ? pour->pouredOn : pour->plannedOn;
        if (day && *day != ticket.date) warnings.push_back("The ticket is of " + ticket.date.shown() + ", the pour of " + day->shown() + ".");
    }
    if (!ticket.number.empty()) {
        const auto number = comparableNumber(ticket.number);
        for (const auto* other : book.referring<&Ticket::supplier>(ticket.supplier))
            if (other->id != ticket.id && comparableNumber(other->number) == number) {
                warnings.push_back("Ticket " + other->number + " of " + other->date.shown() + " has this number already.");
                break;
            }
    }
    const auto holds = book.settings().truckYards;
    if (ticket.yards > holds) warnings.push_back(ticket.yards.shown(2) + " yd\u00b3 is more than a truck holds (" + holds.shown(2) + ").");
    const std::array<std::pair<const char*, std::optional<ClockTime>>, 4> times{{{"batched", ticket.batchedAt}, {"arrived", ticket.arrivedAt},
                                                                                {"discharge began", ticket.dischargeBeganAt}, {"empty", ticket.dischargeEndedAt}}};
    const std::pair<const char*, std::optional<ClockTime>>* last = nullptr;
    for (const auto& time : times) {
        if (!time.second) continue;
        if (last && *time.second < *last->second)
            warnings.push_back(std::string{"The times are out of order: "} + last->first + ' ' + last->second->shown() + ", " + time.first + ' ' + time.second->shown() + '.');
        last = &time;
    }
    return warnings;
}

}
