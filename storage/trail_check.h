#pragma once

#include "database.h"

namespace strikeoff {

/// Looks whether the trail is the one that was written, entry by entry along its chain, and whether the book holds what the trail says it does. Within the
/// caller's transaction. Entries from before books had a chain are believed.
void checkTrail(Database& database, const Book& book, std::vector<VerifyFinding>& findings);

}
