#pragma once

#include "record/book.h"

#include <functional>

namespace strikeoff {

/// Decimals a field's type keeps, or -1 for a type that is no decimal figure.
int decimalsOf(FieldType type);

/// A value as text or number in files and tables: choices by their code, days in ISO form, all else as it is kept.
Value storedForm(const Field& field, const Value& value);
/// Back from storedForm; nothing for what the field cannot hold.
std::optional<Value> fromStoredForm(const Field& field, const Value& stored);

/// The exact text of a value for CSV and for comparing: "1234.50", "2026-11-25", "07:30", a choice's code, "yes" or "no"; blank when not recorded.
/// A reference is the name or number the owner knows it by. `record` is the row the field belongs to (for references named within another one).
std::string fileText(const Book& book, const KindDescription& kind, const Field& field, const void* record);

/// What people see: "1,234.50" with a real minus, "Nov 25, 2026", "7:30 am", a choice's words; blank when not recorded.
std::string shownText(const Book& book, const KindDescription& kind, const Field& field, const void* record);
std::string shownValue(const Field& field, const Value& value);
/// The same with the field's unit: "$1,234.50", "$23.50/h", "640 ft²", "5%", "yes". A reference's id has no words of its own and comes back blank.
std::string shownWithUnit(const Field& field, const Value& value);

/// A value read, or why it could not be.
struct Reading {
    Value value;
    std::string fault;  ///< empty when all is well; else a sentence that says what to write
    bool ok() const { return fault.empty(); }
};

/// Reads fileText's form, and no other, for every type but references.
Reading readFileText(const Field& field, std::string_view text);
/// Reads what people type ("9 1/2", "7:30a", "tomorrow", a choice's first letters) for every type but references.
Reading readTyped(const Field& field, std::string_view text, Date today);

/// The name of a row as the owner knows it: its key fields, joined by "/" (a "/" within one is written "\/").
std::string keyText(const Book& book, RecordKind kind, std::int64_t id);
template <class Record>
std::string keyText(const Book& book, Id<Record> id) { return keyText(book, kindOf<Record>, id.value()); }

/// The row a reference field names. `scope` is the id the field's scope points at, when it has one and it is recorded.
Reading readReference(const Book& book, const Field& field, std::string_view text, std::optional<std::int64_t> scope);

}
