#pragma once

#include "record/book.h"

#include <unordered_map>
#include <vector>

namespace strikeoff {

/// The tickets of a job: those that name it, and those that name no job but one of its pours. By their ids.
std::vector<const Ticket*> ticketsOf(const Book& book, Id<Job> job);

/// What all statements bill for each ticket (by its id), credits included; a ticket that no line names is not in it.
///
/// Which ticket a line bills is StatementMatches' answer; a line that needs the owner's eye bills none yet.
///
/// A credit line that names no ticket goes to the tickets of the claims it closes, split by the claims' amounts when it closes several.
///
/// Sales tax that a statement charges on a line without a ticket number is split over the tickets its other lines name, by what they bill
/// (largest remainder), so that a job carries the tax of its concrete. Other charges without a ticket belong to no job.
std::unordered_map<std::int64_t, Money> billedByTicket(const Book& book);

/// How a statement's line came to count for a ticket.
enum class BilledFrom {
    line,    ///< it bills the ticket
    credit,  ///< a credit that names no ticket, by the claim it closes: the ticket's share of it
    tax,     ///< sales tax on the whole statement: the ticket's share of it
};

struct BilledPart {
    BilledFrom from = BilledFrom::line;
    const StatementLine* line = nullptr;  ///< none for a share of tax, which may come from several lines
    Money amount;
};

/// The parts billedByTicket adds up. They point into the book.
std::unordered_map<std::int64_t, std::vector<BilledPart>> billedParts(const Book& book);

}
