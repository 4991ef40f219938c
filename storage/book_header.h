#pragma once

#include <string>

namespace strikeoff {

/// Looks at the first bytes of a file before a book is opened in it. Throws StorageError with a line that says what is wrong: missing, a folder, not to be
/// read, a sealed copy, no book, another program's, a newer one's, cut short. What stands in a log or journal beside the file and not yet in it is left for
/// the engine to bring in: whatever state a program that was killed may leave is let through.
void requireBook(const std::string& path);

/// Whether what begins a file says that it is a book or a sealed copy of one, or another database, which nothing else is written over. False for what cannot be read.
bool holdsBook(const std::string& path);

}
