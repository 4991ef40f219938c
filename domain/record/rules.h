#pragma once

#include "record/check.h"

#include <functional>

namespace strikeoff {

/// Where a rule says what is broken: field name ("" for the row) and sentence.
using Report = std::function<void(std::string_view field, std::string message)>;

/// Rules between a row's fields, and between the row and the rest of the book, on the book as the edit leaves it.
void checkRow(const Book& book, const Row& row, const Report& report);

/// What may no longer be changed once it left the house. `addedHere` tells whether a row of a kind was added by this very edit.
void checkFrozen(const Book& book, const Applied& change, const std::function<bool(RecordKind, std::int64_t)>& addedHere, const Report& report);

}
