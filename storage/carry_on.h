#pragma once

#include "database.h"

namespace strikeoff {

/// What a book that goes back to a copy takes over from the book it replaces, so that nothing given out since is given out again: ids and numbers count on
/// from where they were, and a row that is another now has a revision nobody looked at before. An entry of the trail says that it went back. `made` is the
/// copy, in a file of its own; both are of this version. Throws StorageError, `made` then being of no use.
void carryOn(Database& made, Database& before);

}
