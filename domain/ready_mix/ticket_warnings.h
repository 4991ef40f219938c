#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

/// What looks wrong about a ticket as it is typed, a sentence each, for the owner to mend or overrule: a date outside the pour, a number already used,
/// more yards than a truck holds, times out of order.
std::vector<std::string> ticketWarnings(const Book& book, const Ticket& ticket);

}
