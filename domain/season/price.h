#pragma once

#include "cost/ticket_prices.h"
#include "season/scope.h"
#include "season/season.h"
#include "statistics/estimate.h"

#include <string>
#include <vector>

namespace strikeoff {

/// One load as the price of a yard sees it: a point of a chart.
struct PricedTicket {
    const Ticket* ticket = nullptr;
    double delivered = 0;        ///< dollars a yard, everything on the ticket, tax included
    std::optional<double> base;  ///< dollars a yard, the mix alone; none where a statement does not tell
    bool expected = false;       ///< by the sheet: no statement bills it yet
    bool odd = false;            ///< far from what its mix and month say, and left out of trend, seasons and the months ahead
};

/// One month's concrete, added up as it is.
struct PriceMonth {
    Date month;                        ///< its first day
    int tickets = 0;                   ///< those with a price
    Yards yards;
    Money paid;
    std::optional<Money> delivered;    ///< a yard, rounded once; likewise base
    std::optional<Money> base;
    std::optional<double> low, high;   ///< a tenth of the month's loads cost less, a tenth more, dollars a yard delivered; none for fewer than five
    // The same basket: 100 is what it cost in the first year. None where too little of what was bought has a price in both.
    std::optional<double> fixedMixIndex;  ///< Fisher's
    std::optional<double> laspeyres;
    std::optional<double> paasche;
};

/// What a season does to a figure, against the mean of the four.
struct SeasonEffect {
    Season season{};
    Estimate percent;
    int records = 0;  ///< tickets or pours seen in it
};

/// What to carry in a bid for a month.
struct CarryMonth {
    Date month;
    Estimate delivered;  ///< dollars a yard of the last twelve months' loads, reckoned in that month
};

/// A new price sheet.
struct SheetChange {
    Date on;
    const Supplier* supplier = nullptr;
    std::optional<double> mixPercent;  ///< mean change of the mixes both sheets have; none for a supplier's first sheet
    int mixes = 0;
};

/// What the same loads would cost from one supplier: the last twelve months' loads, each by that supplier's sheet in force, without waiting.
struct SupplierBasket {
    const Supplier* supplier = nullptr;
    Money perYard;
    int loads = 0;    ///< the loads every supplier compared has mix and options for
    Yards yards;
};

/// What an open quote carries for a yard of concrete, against what its month is reckoned to cost.
struct QuoteCarry {
    const Quote* quote = nullptr;
    Date month;
    Money carried;        ///< a yard
    Estimate expected;    ///< dollars a yard
    Yards yards;
    bool tooLow() const { return carried.toDouble() < expected.low; }
};

struct PriceSeasons {
    std::vector<PricedTicket> tickets;     ///< by their days
    std::vector<PriceMonth> months;        ///< rising, those with a priced ticket
    std::optional<Estimate> trendPercent;  ///< a year
    std::vector<SeasonEffect> seasons;     ///< those seen, in the year's order; empty where history is too short
    bool seasonsShow = false;              ///< the seasons are told apart from chance
    std::vector<CarryMonth> carry;         ///< the next nine months, less those of a season never seen
    std::vector<SheetChange> sheets;
    std::vector<SupplierBasket> suppliers; ///< the cheapest first; empty with fewer than two to compare
    std::vector<QuoteCarry> openQuotes;    ///< the most under what is expected first
    int odd = 0;                           ///< tickets set aside
    std::string missing;                   ///< what trend, seasons and the months ahead still need; blank where they are there
    std::string answer;                    ///< in one sentence with numbers
};

/// How prices of concrete move with time and season. Delivered price is what statements bill for a load, else what the sheet in force says, by the yard. Trend, season
/// and the months ahead come from the logarithm of each load's delivered price, each against loads of the same supplier, mix and options, short or
/// full (`fitSeasons`). Hot water and accelerator (settings' codes) are part of what a season costs, not of the mix.
PriceSeasons priceSeasons(const Book& book, const TicketPrices& prices, const SeasonScope& scope);
PriceSeasons priceSeasons(const Book& book, const SeasonScope& scope);

/// What the months ahead carry for one month, or nothing.
const CarryMonth* carryFor(const PriceSeasons& prices, Date month);

/// The per cent that a logarithm's change is.
Estimate asPercent(const Estimate& logarithm);

/// "winter": as it stands within a sentence.
std::string lowerLabel(Season season);

/// "4.1% more (2.9% to 5.3%)", "2.0% less (…)": an effect in words.
std::string percentInWords(const Estimate& percent);

}
