#include "statistics/price_index.h"

#include "quantity/rounding.h"

#include <cmath>

namespace strikeoff {

namespace {

std::vector<GoodInTwoPeriods> goodsIn(const PricedPeriod& then, const PricedPeriod& now)
{
    if (then.prices.size() != now.prices.size() || then.prices.size() != then.quantities.size() || now.prices.size() != now.quantities.size())
        throw DomainError{"periods of a price index need the same goods"};
    std::vector<GoodInTwoPeriods> goods;
    goods.reserve(then.prices.size());
    for (std::size_t i = 0; i < then.prices.size(); ++i) goods.push_back({then.prices[i], then.quantities[i], now.prices[i], now.quantities[i]});
    return goods;
}

PriceIndex between(const PricedPeriod& then, const PricedPeriod& now)
{
    const auto index = priceIndex(goodsIn(then, now));
    if (!index) throw DomainError{"a period of a price index has nothing bought in it"};
    return *index;
}

}

std::optional<PriceIndex> priceIndex(std::span<const GoodInTwoPeriods> goods)
{
    double thenAtThen = 0, thenAtNow = 0, nowAtThen = 0, nowAtNow = 0;
    for (const auto& good : goods) {
        if (!(good.priceThen > 0) || !(good.priceNow > 0) || !(good.quantityThen >= 0) || !(good.quantityNow >= 0))
            throw DomainError{"a price index needs prices above zero and quantities that are not below it"};
        thenAtThen += good.priceThen * good.quantityThen;
        thenAtNow += good.priceNow * good.quantityThen;
        nowAtThen += good.priceThen * good.quantityNow;
        nowAtNow += good.priceNow * good.quantityNow;
    }
    if (!(thenAtThen > 0) || !(nowAtThen > 0)) return std::nullopt;
    PriceIndex index{thenAtNow / thenAtThen, nowAtNow / nowAtThen, 1};
    index.fisher = std::sqrt(index.laspeyres * index.paasche);
    return index;
}

std::vector<PriceIndex> fixedBase(std::span<const PricedPeriod> periods)
{
    std::vector<PriceIndex> indices;
    for (const auto& period : periods) indices.push_back(between(periods.front(), period));
    return indices;
}

std::vector<PriceIndex> chained(std::span<const PricedPeriod> periods)
{
    std::vector<PriceIndex> indices;
    for (std::size_t i = 0; i < periods.size(); ++i) {
        if (i == 0) {
            indices.push_back({});
            continue;
        }
        const auto step = between(periods[i - 1], periods[i]);
        const auto& before = indices.back();
        indices.push_back({before.laspeyres * step.laspeyres, before.paasche * step.paasche, before.fisher * step.fisher});
    }
    return indices;
}

}
