#pragma once

#include "database.h"

namespace strikeoff {

inline constexpr std::int64_t applicationId = 0x53746b6f;  // "Stko"
inline constexpr std::int64_t schemaVersion = 3;

/// Throws StorageError when a book's version is newer than what this program knows.
void requireKnownVersion(const std::string& path, std::int64_t version);
/// Whether on a server there is something where a book would be.
bool isThere(Database& database);
bool isThere(Database& database, const std::string& schema);
/// Looks whether there is a book on a server, and one this program can read. Throws StorageError with a clear line.
void requireBookOnServer(Database& database);
/// Whether a server lets this user write to the book.
bool mayWrite(Database& database);
/// Lays the newest schema into an empty file, inside the caller's transaction.
void layOut(Database& database);
/// Brings a book of an older version forward, a transaction a step; one on a server is kept in a schema beside it as it was, in the transaction of the first.
void migrate(Database& database);
/// What differs from the schema the program expects, a sentence each.
std::vector<std::string> schemaDifferences(Database& database);

}
