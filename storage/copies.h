#pragma once

#include "database.h"

namespace strikeoff {

/// Writes a consistent copy of an open book, which may stand on a server, into a new file, private to its owner, and reads it back. Throws StorageError; leaves no half file behind.
void copyInto(Database& database, const std::string& file);

/// The folder that holds a book's daily copies: beside a file; for a book on a server, in this user's own data folder.
std::string copiesFolder(const std::string& book);
/// Keeps today's copy if there is none yet, and the last 14.
void keepDailyCopy(Database& database, const std::string& today);
/// Date of the newest daily copy, or empty.
std::string newestCopy(const std::string& book);

}
