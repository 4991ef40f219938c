#pragma once

#include "store.h"

namespace strikeoff {

/// Whether this user may put a copy in the place of a book on a server: it takes whoever owns it there. Throws StorageError that says who can, else.
void requireMayReplace(const std::string& book, const AskPassword& ask);

/// Puts a whole book, verified and in a file of its own that is used up by it, in the place of the one on a server. What was there is kept first, as a file among
/// the copies of the book, whose name comes back. All of it is done at once or not at all: nobody sees half of it, and other desks are told. Blank when `progress`
/// stopped it. Throws StorageError, everything then being as before.
std::string replaceOnServer(const std::string& made, const std::string& book, const AskPassword& ask, const std::function<bool(int percent)>& progress);

}
