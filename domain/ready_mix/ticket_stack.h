#pragma once

#include "ready_mix/typed_row.h"
#include "record/book.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace strikeoff {

struct PriceSheet;

/// A ticket of a stack as it is being typed.
using TypedTicket = TypedRow;

/// A typed ticket as it is understood so far. A field that cannot be read stays blank in the ticket and is named in the faults.
struct TicketReading {
    Ticket ticket;
    bool begun = false;               ///< something of this ticket's own was typed, not only what a stack has in common
    std::vector<TypedFault> faults;   ///< in the way of saving
    std::vector<std::string> missing; ///< labels of what a ticket needs and has not yet
    std::vector<std::string> warnings;  ///< for the owner to mend or overrule
    bool canBeSaved() const { return begun && faults.empty() && missing.empty(); }
    /// Faults, what is missing and warnings in one line; blank when all is well.
    std::string says() const;
};

/// Reads the tickets of a stack, each with its warnings; a number that another row of the stack has is one of them.
std::vector<TicketReading> readStack(const Book& book, std::span<const TypedTicket> stack, Date today);

/// Where a stack stands, in a sentence.
std::string stackAnswer(std::span<const TicketReading> readings);

/// Writes in full what was typed short, as far as it can be told: mix and options by first letters from the sheet in force, supplier by first letters, a job by
/// its digits, days, times and figures as they are read. What cannot be read stays as typed.
std::string completedText(const Book& book, const TypedTicket& typed, std::string_view field, Date today);

/// Takes over what the pour knows: supplier, date, mix, slump ordered. Without a pour, that of the job's only one.
void takePour(const Book& book, TypedTicket& typed, Date today);

/// Puts a text into a field, written in full where it can be read. With another job the pour of the former one goes; job and pour bring what the pour knows.
void typeInto(const Book& book, TypedTicket& typed, std::string_view field, std::string_view text, Date today);

/// How a stack begins: with the last pour that is done and has no ticket yet, within 60 days; else with the day alone.
TypedTicket firstOfStack(const Book& book, Date today);
TypedTicket stackOfPour(const Book& book, Id<Pour> pour, Date today);
/// The ticket after another one of the stack: supplier, date, plant, mix, job, pour and slump ordered are carried on.
TypedTicket nextOfStack(const TypedTicket& above);

/// The number one after another: digits at its end counted up, with as many leading zeros; blank when there are none. A hint, never filled in.
std::string numberAfter(std::string_view number);

/// The code of a sheet that a text begins, letters of either case: the whole code goes before longer ones. What fits several is refused with their names; what fits
/// none is kept in capitals, as the paper may carry what the sheet has not.
struct CodeReading {
    std::string code;
    std::string fault;
};
CodeReading readMix(const PriceSheet* sheet, std::string_view typed);
/// Options as typed, "acc 2 fib" or "ACC=2;FIBER", as tickets keep them.
CodeReading readOptions(const PriceSheet* sheet, std::string_view typed);

}
