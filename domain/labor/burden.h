#pragma once

#include "record/book.h"

#include <vector>

namespace strikeoff {

/// The burden tables a book begins with: the federal rates and wage bases of 2023 to 2026 with their sources, and a line without a rate for each
/// item that differs by state, policy or outfit, for the owner to set.
std::vector<BurdenRate> startingBurden();

/// The rows of the starting tables that a book has nothing of its own for: no row of the same item from the same day. For a book that was begun
/// before there were burden tables, or before a year's figures were known.
std::vector<BurdenRate> burdenOnOffer(const Book& book);

/// The rate of an item in force on a day for a person of a class: the class's own row, else the one for all others; nullptr when there is none.
/// The newest row from a day on or before it holds.
const BurdenRate* burdenInForce(const Book& book, BurdenItem item, Date day, std::string_view compClass);

/// Items that count for nothing on a day because their rate is not set, in the order of the items.
std::vector<BurdenItem> burdenNotSet(const Book& book, Date day);

}
