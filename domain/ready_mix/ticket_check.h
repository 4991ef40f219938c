#pragma once

#include "ready_mix/line_charge.h"
#include "ready_mix/statement_findings.h"

namespace strikeoff {

/// What statements billed for a ticket before the lines to check: by what was charged for.
struct BilledBefore {
    std::string key;  ///< chargeKey
    const StatementLine* line = nullptr;
    const Statement* statement = nullptr;
};

/// One ticket's lines on a statement held against what the ticket should cost.
struct TicketToCheck {
    const Book& book;
    const PriceSheets& sheets;
    const Ticket& ticket;
    const Statement& statement;
    std::vector<const LineMatch*> lines;  ///< by their place, credits left out
    std::vector<BilledBefore> before;
};

struct CheckedTicket {
    std::vector<LineFinding> findings;    ///< one a line: finding, expected, difference, disputed, why; claims and what the owner let stand are not looked at
    Money taxable;                        ///< what sales tax is due on, of the lines as they should be
    std::vector<Money> taxableLines;      ///< the same line by line
    Rate taxRate;
    bool taxBilled = false;               ///< one of the lines is its tax
    Money earlyDiscount;                  ///< by the sheet, when the mix is billed here
};

CheckedTicket checkTicket(const TicketToCheck& check);

/// Splits what a line bills into agreed and disputed by what is expected of it: never more disputed than is billed, nothing when it bills too little.
void settle(LineFinding& finding, Finding what, std::optional<Money> expected, std::string why);
/// All of it waits for the owner.
void leaveToOwner(LineFinding& finding, std::string why);

/// "Jun 12, 2026, ticket 48213: ", how a finding's sentence begins.
std::string openingOf(const StatementLine& line, const Ticket* ticket);

/// A finding's sentence without its opening, for where ticket and day stand beside it.
std::string sentenceWithoutOpening(const LineFinding& finding);

/// "$170.00", "−$2.50" of a price with four decimals where it needs them.
std::string dollars(UnitPrice price);

}
