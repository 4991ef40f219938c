#pragma once

#include "record/edit.h"

namespace strikeoff {

/// A change as it was applied: the row before (none for an added one) and after (none for a removed one).
struct Applied {
    std::optional<Row> before;
    std::optional<Row> after;
    RecordKind kind() const { return after ? after->kind : before->kind; }
};

enum class Freezing {
    kept,     ///< sent quotes, issued invoices and superseded sheets stay as they are
    lifted,   ///< for taking back the very edit that froze them
};

/// The rules of one row's fields taken alone: required, bounds, length, no control characters. For a form while it is typed.
std::vector<Problem> checkFields(const Row& row);

/// Puts an edit into the book, taking its rows, and checks every rule on what comes out. Ids and numbers must already be given (no negative
/// ids, no blank numbers). With problems the book is put back as it was and `applied` is empty; without, `applied` says what changed. Rows that the edit
/// changes or removes but the book does not hold are problems too.
struct Outcome {
    std::vector<Problem> problems;
    std::vector<Applied> applied;
};
Outcome applyEdit(Book& book, Edit edit, Freezing freezing = Freezing::kept);

/// Takes an applied edit back out of the book.
void takeBack(Book& book, const std::vector<Applied>& applied);

}
