#pragma once

#include <string>

namespace strikeoff {

class Store;

/// A descriptor that becomes readable when another desk tells that it changed a book on a server, for whoever would rather not wait until the next
/// `Store::refresh`; it is another one after the connection was lost. -1 while it is lost, and for a file.
int newsSocket(const Store& store);

/// Why today's copy, asked for when the book was opened (OpenOptions::keepDailyCopy), could not be kept; or empty.
std::string copyFault(const Store& store);

}
