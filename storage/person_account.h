#pragma once

#include "store.h"

namespace strikeoff {

/// All that a book holds about a person, as text to hand to them: the rows about them field by field, where else they are named, and what was entered
/// before it was changed. Blank when the person is not in the book.
std::string personAccount(const Store& store, Person person);

/// What blotting a person out would touch, in a sentence of counts: "one customer, two sites, three jobs, 14 records under them and one other record that
/// names them".
/// Blank when the person is not in the book.
std::string blottingWords(const Store& store, Person person);

/// The person of a kind that goes by a name, or by its number in the book; nothing when there is none.
std::optional<Person> findPerson(const Book& book, RecordKind kind, std::string_view nameOrNumber);

/// What stands beside the question before somebody is blotted out.
inline constexpr auto blottingCaution =
    "Law says how long pay, hours and tax records must be kept, and often with the name on them: ask whoever does your payroll or taxes, or a lawyer, before you blot anybody out.";

}
