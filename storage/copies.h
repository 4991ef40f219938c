#pragma once

#include "database.h"

namespace strikeoff {

/// Writes a consistent copy of an open book into a new file, private to its owner, and reads it back. Throws StorageError; leaves no half file behind.
void copyInto(Database& database, const std::string& file);

/// The folder beside a book that holds its daily copies.
std::string copiesFolder(const std::string& book);
/// Keeps today's copy if there is none yet, and the last 14.
void keepDailyCopy(Database& database, const std::string& today);
/// Date of the newest daily copy, or empty.
std::string newestCopy(const std::string& book);

}
