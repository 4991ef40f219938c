#include "cost/ticket_prices.h"

#include <algorithm>

namespace strikeoff {

std::span<const BilledPart> TicketPrices::billedFor(const Ticket& ticket) const
{
    const auto found = billed_.find(ticket.id.value());
    return found == billed_.end() ? std::span<const BilledPart>{} : std::span<const BilledPart>{found->second};
}

std::optional<ExpectedCharge> TicketPrices::expectedFor(const Ticket& ticket) const
{
    const auto* sheet = sheetFor(ticket);
    if (!sheet) return std::nullopt;
    auto charge = expectedCharge(ticket, *sheet, Words::leftOut);
    const bool hasMix = std::any_of(charge.lines.begin(), charge.lines.end(), [](const ChargeLine& line) { return line.kind == ChargeKind::mix; });
    return hasMix ? std::optional{std::move(charge)} : std::nullopt;
}

TicketPrices::Cost TicketPrices::of(const Ticket& ticket) const
{
    if (const auto parts = billedFor(ticket); !parts.empty()) {
        Money billed;
        for (const auto& part : parts) billed += part.amount;
        return {billed, false};
    }
    const auto charge = expectedFor(ticket);
    if (!charge) return {};
    return {charge->total, true};
}

}
