#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

/// The charges of one supplier's sheet in force on a day.
struct PriceSheet {
    Id<Supplier> supplier;
    Date effectiveOn;
    std::vector<const SheetCharge*> charges;
};

/// The sheet with the latest effective date not after the day; nothing before the first one.
std::optional<PriceSheet> sheetInForce(const Book& book, Id<Supplier> supplier, Date day);

struct ChargeLine {
    ChargeKind kind{};
    std::string code;
    std::string description;  ///< "Mix 4000AE"
    Quantity quantity;
    std::string unit;         ///< "yd³", "load", "min", …
    UnitPrice unitPrice;
    Money amount;             ///< rounded once, half up
    bool taxable = false;
    std::string rule;         ///< the rule that made it, in a sentence
};

/// What a ticket should cost by a sheet, line by line.
struct ExpectedCharge {
    std::vector<ChargeLine> lines;
    Money net;
    Money tax;            ///< once, on the sum of the taxable lines
    Money total;
    Money earlyDiscount;  ///< shown, not deducted
    std::vector<std::string> unknown;  ///< codes on the ticket that the sheet has not, and what is not recorded
};

/// Pure function of ticket and sheet: mix, options (amount times the ticketed amount; without one, once), charges per load, short load (ranges hold
/// from and exclude to; per_yard_under is amount × (to − yards)), waiting (arrival to empty, less the free minutes, up to the step, never
/// negative), Saturday (by the date), after hours and holiday (when the ticket's options name the charge's code), winter (every load of the season, or only when the options name its code),
/// returned concrete, fuel, tax.
ExpectedCharge expectedCharge(const Ticket& ticket, const PriceSheet& sheet);

/// The expected charge of a ticket by the sheet in force on its day; nothing when there is no sheet.
std::optional<ExpectedCharge> expectedCharge(const Book& book, const Ticket& ticket);

/// A ticket number as it is compared: no prefix letters, separators or leading zeros.
std::string comparableNumber(std::string_view number);

}
