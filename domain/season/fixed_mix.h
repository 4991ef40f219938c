#pragma once

#include "season/load_prices.h"
#include "statistics/price_index.h"

namespace strikeoff {

/// By month (years × 12 + months): how dear the same basket was, the first year being 1. Every month is held against the basket of the calendar year before it (the
/// first year's months against their own year), and the years are linked, so that mixes may come and go. A good that a month did not buy has its price from
/// the sheet in force in the middle of the month. Months in which less than half of what was bought had a price before are left out.
std::unordered_map<int, PriceIndex> fixedMixIndex(const Book& book, const LoadPrices& loads);

}
