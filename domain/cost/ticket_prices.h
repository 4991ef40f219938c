#pragma once

#include "cost/concrete_charges.h"
#include "cost/ticket_billing.h"
#include "ready_mix/expected_charge.h"

#include <span>

namespace strikeoff {

/// What tickets cost, made once for many: what statements bill for each, and the sheets for those no statement bills. The book must outlive it and stand still
/// while it is used.
class TicketPrices {
public:
    explicit TicketPrices(const Book& book) : billed_{billedParts(book)}, sheets_{book}, codes_{book} {}

    struct Cost {
        std::optional<Money> amount;  ///< none where neither a statement nor a sheet with the mix on it tells
        bool expected = false;        ///< by the sheet
    };
    /// What statements bill for a ticket, else what it should cost by the sheet, tax included.
    Cost of(const Ticket& ticket) const;

    /// What statements bill for a ticket, line by line; empty when none does.
    std::span<const BilledPart> billedFor(const Ticket& ticket) const;
    /// The supplier's sheet in force on the ticket's day, or nullptr.
    const PriceSheet* sheetFor(const Ticket& ticket) const { return sheets_.inForce(ticket.supplier, ticket.date); }
    /// What the ticket should cost by that sheet; nothing without a sheet or without the mix on it.
    std::optional<ExpectedCharge> expectedFor(const Ticket& ticket) const;
    const SheetCodes& codes() const { return codes_; }

private:
    std::unordered_map<std::int64_t, std::vector<BilledPart>> billed_;
    PriceSheets sheets_;
    SheetCodes codes_;
};

}
