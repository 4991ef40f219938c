#pragma once

#include "desk.h"

#include <vector>

namespace strikeoff {

/// One record found, and where in it.
struct Found {
    RecordRef record;
    std::string field;  ///< label of the field the words stand in
    std::string text;   ///< what stands there
};

/// Looks for words in all records of the book: names, numbers, notes; every word must stand in the row (case does not matter). Figures are found as
/// written without marks. At most so many, the newest of each kind first.
std::vector<Found> searchBook(const Book& book, std::string_view words, std::size_t most = 400);

}
