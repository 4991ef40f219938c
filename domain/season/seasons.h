#pragma once

#include "season/pace.h"
#include "season/price.h"

namespace strikeoff {

/// "How do the seasons move price and pace?"
struct Seasons {
    PriceSeasons price;
    PaceSeasons pace;
    std::string answer;  ///< in one sentence with numbers
};

Seasons seasonsOf(const Book& book, const TicketPrices& prices, const SeasonScope& scope);
Seasons seasonsOf(const Book& book, const SeasonScope& scope);

/// How price and pace are reckoned, for who wants to know.
std::string_view seasonsMethod();

}
