#pragma once

#include "store.h"

#include <string>

namespace strikeoff {

/// Gives every job of a made book a pour with its area, crew and air. The book needs its price sheet (addBids).
void addPours(Store& store);

struct SeasonTimes {
    double ours = 0;   ///< seconds: all of the page Seasons from the open book
    double price = 0;  ///< of it, the prices
    double bare = 0;   ///< seconds: tickets, pours and hours added up by month and type in SQLite, and nothing else
    std::size_t months = 0;
};

/// Medians over a few runs.
SeasonTimes timeSeasons(const Store& store, const std::string& path);

}
