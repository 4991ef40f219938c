#pragma once

#include "record/edit.h"

#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// One fault planted in a supplier's statement: the answer a check of that statement has to come to.
struct PlantedFault {
    std::string supplier;
    std::string statement;      ///< the statement's number
    int line = 0;               ///< its line; 0 for the statement as a whole and for a load it leaves out
    std::string printedNumber;  ///< the ticket number as the statement prints it; blank when it prints none
    std::string ticketNumber;   ///< the number of the ticket on file it is about; blank when there is none
    /// price_off, yards_off, charge_not_on_sheet, not_earned, billed_twice, no_ticket, sum_off, tax_off; "unbilled" for a ticket
    /// that no statement bills; "agrees" for a line whose number alone is mistyped; "needs_your_eye" where two tickets fit equally well; "remark" for what the ticket holds against
    /// the load without dollars.
    std::string finding;
    Money overSheet;            ///< billed less what the price sheet makes it; negative when the supplier billed too little
    Money comesBack;            ///< what the owner should ask back; nothing when the slip is the supplier's own loss
    bool follows = false;       ///< a tax line that is off only because the line it taxes is
    std::string what;           ///< in a sentence
};

/// The demonstration book: a small flatwork outfit from June 2023 to the morning of 25 November 2026, as one edit of added rows
/// in loading order for an empty book. Its people, places, firms and products are made up. The same rows every time.
Edit demonstrationEdit();

/// The faults in that book's statements.
std::vector<PlantedFault> plantedFaults();

/// The day on which the demonstration book was last worked on: 25 November 2026.
Date demonstrationDay();

/// The kinds worth having as CSV files from the demonstration book, so that a newcomer can load a book by hand: all that the
/// statements, forecasts and hours name, in loading order.
std::span<const RecordKind> demonstrationSamples();

}
