#pragma once

#include "database.h"

namespace strikeoff {

/// Reads every shelf of a book. Throws StorageError naming the table and row of a value that does not fit its field.
void readShelves(Database& database, Book& book);
/// The row of a kind with an id as the file has it, or nothing.
std::optional<Row> readRow(Database& database, RecordKind kind, std::int64_t id);
/// Writes what was applied to the book's tables.
void writeRows(Database& database, const std::vector<Applied>& applied);

}
