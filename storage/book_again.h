#pragma once

#include "store.h"

namespace strikeoff {

/// What it takes to open the book of a store once more: a connection of its own, which may be another thread's, while the store is worked in.
struct BookAgain {
    std::string path;
    AskPassword ask;
};
BookAgain bookAgain(const Store& store);

/// Whether there is no copy of that day (YYYY-MM-DD, UTC) yet.
bool isCopyDue(const std::string& book, const std::string& day);
/// Keeps the day's copy if there is none yet, and the last 14. `progress` gets per cent and stops the work by returning false; nothing half is left under the
/// name of a copy, whatever happens. False when it was stopped; throws StorageError.
bool keepDailyCopy(const BookAgain& book, const std::string& day, const std::function<bool(int percent)>& progress);
/// What `Store::verify` finds; nothing when it was stopped. Throws StorageError.
std::optional<std::vector<VerifyFinding>> checkBook(const BookAgain& book, const std::function<bool(int percent)>& progress);

}
