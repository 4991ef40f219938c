#pragma once

#include "season/price.h"

namespace strikeoff {

/// The sheets of all suppliers that took effect within the scope, by their days.
std::vector<SheetChange> sheetChanges(const Book& book, const SeasonScope& scope);

/// The loads of the twelve months up to a day by every supplier's sheet in force on it. A mix is found on another sheet by its code, else by the strength in its
/// words where only one mix there has it. Empty unless two suppliers can be compared on at least one load.
std::vector<SupplierBasket> sameBasket(const Book& book, Date day);

/// What the open quotes of the months ahead carry for a yard of concrete.
std::vector<QuoteCarry> quotesAgainst(const Book& book, const SheetCodes& codes, const PriceSeasons& prices);

/// What a quote carries for a yard: all its concrete over the yards of its mixes. Nothing where it has no mix by the yard.
struct CarriedYard {
    Money perYard;
    Yards yards;
};
std::optional<CarriedYard> carriedYard(const Book& book, const SheetCodes& codes, const Job& job, const Quote& quote);

}
