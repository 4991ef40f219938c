#pragma once

#include "store.h"

namespace strikeoff {

/// A descriptor that becomes readable when another desk tells that it changed a book on a server, for whoever would rather not wait until the next
/// `Store::refresh`; it is another one after the connection was lost. -1 while it is lost, and for a file.
int newsSocket(const Store& store);

/// Gives the password a store was opened with, for one more connection to the same book, from any thread. Blank where none was needed.
AskPassword askAsBefore(const Store& store);

/// The entry of the trail by which the book went back to a copy, when a refresh took that in since this was last asked. A commit that comes upon it says so itself.
std::optional<TrailEntry> takeReplacement(Store& store);

/// What such an entry says to the owner: "Go back to the copy of Nov 26, 2026".
std::string replacementWords(const TrailEntry& entry);

/// What tells a book from any other, whatever became of it since: when and at which desk its trail begins. Blank while nothing was entered.
std::string beginningOf(const Store& store);

/// Why today's copy, asked for when the book was opened (OpenOptions::keepDailyCopy), could not be kept; or empty.
std::string copyFault(const Store& store);

}
