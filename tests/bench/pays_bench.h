#pragma once

#include "store.h"

#include <string>

namespace strikeoff {

/// Gives every job of a made book with bids a pour, a final invoice and its payment, so that all of them are done and billed.
void addBills(Store& store);

struct PaysTimes {
    double ours = 0;      ///< seconds: a reckoner made, every finished job gathered, all seven groupings figured with their intervals, two years bridged
    double regroup = 0;   ///< seconds: one grouping of the gathered jobs figured anew, as a filter change does
    double bare = 0;      ///< seconds: hours, tickets, receipts, quotes and bills summed by month and type in SQLite, and nothing else
    std::size_t jobs = 0; ///< finished ones
};
/// Medians over a few runs.
PaysTimes timePays(Store& store, const std::string& path);

}
