#pragma once

#include "database.h"

#include <functional>

namespace strikeoff {

/// Writes a consistent copy of an open book, which may stand on a server, into a new file, private to its owner, and reads it back. Throws StorageError; leaves no half file behind.
/// `progress` gets per cent and stops the work by returning false, which is the answer then.
bool copyInto(Database& database, const std::string& file, const std::function<bool(int percent)>& progress = {});

/// The folder that holds a book's daily copies: beside a file; for a book on a server, in this user's own data folder.
std::string copiesFolder(const std::string& book);
/// Makes it, for its owner only, where there is none.
void makeCopiesFolder(const std::string& book);
/// Keeps today's copy if there is none yet, and the last 14. `progress` gets per cent and stops the work by returning false: then nothing is left behind and
/// the answer is false. Throws StorageError.
bool keepDailyCopy(Database& database, const std::string& today, const std::function<bool(int percent)>& progress = {});
/// Date of the newest daily copy, or empty.
std::string newestCopy(const std::string& book);

}
