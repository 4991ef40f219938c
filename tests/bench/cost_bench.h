#pragma once

#include "store.h"

#include <string>

namespace strikeoff {

/// Gives every job of a made book a bid, a few receipts and a price sheet to hold its tickets against.
void addBids(Store& store);

struct ExplainTimes {
    double ours = 0;     ///< seconds: every job's cost and all parts of its difference, from the open book
    double worded = 0;   ///< seconds: the same with a sentence for each part and each job
    double bare = 0;     ///< seconds: hours summed by job and phase, tickets by job and mix, receipts by job and class in SQLite, and nothing else
    double oneDay = 0;   ///< seconds: one day's hours changed, everyone and every job they touch reckoned and explained anew
    std::size_t jobs = 0;
    std::size_t touched = 0;  ///< jobs explained anew for that day
};

/// Medians over a few runs. Changes the hours of one day in the book.
ExplainTimes timeExplain(Store& store, const std::string& path);

}
