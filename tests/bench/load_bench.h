#pragma once

#include "made_book.h"

namespace strikeoff {

struct LoadTimes {
    double ours = 0;  ///< seconds: CSV read, checked, committed with its trail
    double bare = 0;  ///< seconds: the same rows by a prepared insert in one transaction of a file of its own, and nothing else
};

/// Loads ticket rows from CSV into a fresh book in the folder, and inserts the same rows bare. Jobs and the like are made first.
LoadTimes timeLoad(const std::string& folder, int tickets);

}
