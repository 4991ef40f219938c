#pragma once

#include "record/book.h"

#include <unordered_map>
#include <vector>

namespace strikeoff {

/// The tickets of a job: those that name it, and those that name no job but one of its pours. By their ids.
std::vector<const Ticket*> ticketsOf(const Book& book, Id<Job> job);

/// What all statements bill for each ticket (by its id), credits included; a ticket that no line names is not in it.
///
/// A line names the ticket it was paired with by hand; else the supplier's ticket whose number compares equal and whose date is at most 5 days off
/// the line's. A line without a date takes a ticket dated at most 120 days before the statement and 5 after. Of several tickets the nearest
/// by date counts (for a line without a date: nearest to the statement); two equally near ones get nothing, as nobody said which is meant.
///
/// A credit line that names no ticket goes to the tickets of the claims it closes, split by the claims' amounts when it closes several.
///
/// Sales tax that a statement charges on a line without a ticket number is split over the tickets its other lines name, by what they bill
/// (largest remainder), so that a job carries the tax of its concrete. Other charges without a ticket belong to no job.
std::unordered_map<std::int64_t, Money> billedByTicket(const Book& book);

}
