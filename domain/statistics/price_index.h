#pragma once

#include <optional>
#include <span>
#include <vector>

namespace strikeoff {

/// Price and quantity of one good in two periods. A quantity may be zero (not bought then), a price is above zero.
struct GoodInTwoPeriods {
    double priceThen = 0;
    double quantityThen = 0;
    double priceNow = 0;
    double quantityNow = 0;
};

/// How many times as dear the goods are now as then.
struct PriceIndex {
    double laspeyres = 1;  ///< what the basket of then costs now, over what it cost
    double paasche = 1;    ///< what the basket of now costs, over what it would have cost then
    double fisher = 1;     ///< the geometric mean of both: fair to both baskets
};

/// The index over goods priced in both periods (IMF and others, Producer Price Index Manual 2004, chapter 15). Nothing when a basket is empty. DomainError for
/// prices that are not above zero or quantities below it.
std::optional<PriceIndex> priceIndex(std::span<const GoodInTwoPeriods> goods);

/// One period's prices and quantities, good by good in the same order in all periods.
struct PricedPeriod {
    std::vector<double> prices;
    std::vector<double> quantities;
};
/// Each period against the first.
std::vector<PriceIndex> fixedBase(std::span<const PricedPeriod> periods);
/// Each period against the one before, multiplied up: chained.
std::vector<PriceIndex> chained(std::span<const PricedPeriod> periods);

}
