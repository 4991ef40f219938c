#pragma once

#include "database.h"

#include <functional>

namespace strikeoff {

/// Copies a whole book, trail and counters included, from one state of an open one to a file or a place on a server where there is none, through what both
/// engines speak. Every cell is read back and compared before it counts; on any failure nothing is left behind. `progress` gets per cent and stops the work
/// by returning false. False when it was stopped; throws StorageError.
bool copyWhole(Database& from, const std::string& to, const AskPassword& ask = {}, const std::function<bool(int percent)>& progress = {});

/// Lays a book out in an empty place and fills it from another, every cell read back and compared, all within transactions of the caller's. False when it was
/// stopped; throws StorageError. Either way the caller takes it back.
bool fillFrom(Database& from, Database& to, const std::function<bool(int percent)>& progress = {});

}
