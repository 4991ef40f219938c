#pragma once

#include "database.h"

namespace strikeoff {

inline constexpr std::int64_t applicationId = 0x53746b6f;  // "Stko"
inline constexpr std::int64_t schemaVersion = 3;

/// Lays the newest schema into an empty file, inside the caller's transaction.
void layOut(Database& database);
/// Brings a book of an older version forward, a transaction a step.
void migrate(Database& database);
/// What differs from the schema the program expects, a sentence each.
std::vector<std::string> schemaDifferences(Database& database);

}
