#pragma once

#include "record/book.h"

#include <string>
#include <vector>

namespace strikeoff {

/// The rate of a person in force on a day for work without a rate of its own phase; nullptr before the first one.
const PayRate* rateInForce(const Book& book, Id<CrewMember> person, Date day);

/// "What do my hours and yards cost me?" in one sentence: crew and pay on the day, and each supplier's sheet in force.
std::string ratesAnswer(const Book& book, Date day);

}
