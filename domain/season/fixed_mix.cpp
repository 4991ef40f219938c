#include "season/fixed_mix.h"

#include "ready_mix/codes.h"

#include <map>

namespace strikeoff {

namespace {

struct Spent {
    double amount = 0;
    double yards = 0;
    double price() const { return yards > 0 ? amount / yards : 0; }
};
using Basket = std::vector<Spent>;  ///< by good

/// The goods two baskets both have a price for, and what share of what the later one bought they are.
struct Matched {
    std::vector<GoodInTwoPeriods> goods;
    double share = 0;
};

Matched match(const Basket& then, const Basket& now, const std::vector<double>& sheetPrices)
{
    Matched matched;
    double all = 0, priced = 0;
    for (std::size_t good = 0; good < then.size(); ++good) {
        all += now[good].amount;
        const double priceThen = then[good].price();
        const double priceNow = now[good].yards > 0 ? now[good].price() : sheetPrices.empty() ? 0 : sheetPrices[good];
        if (!(priceThen > 0) || !(priceNow > 0)) continue;
        priced += now[good].amount;
        matched.goods.push_back({priceThen, then[good].yards, priceNow, now[good].yards});
    }
    matched.share = all > 0 ? priced / all : 0;
    return matched;
}

constexpr double leastShare = 0.5;

std::optional<PriceIndex> indexBetween(const Basket& then, const Basket& now, const std::vector<double>& sheetPrices)
{
    const auto matched = match(then, now, sheetPrices);
    return matched.share < leastShare ? std::nullopt : priceIndex(matched.goods);
}

std::vector<double> sheetPricesOn(const PriceSheets& sheets, const std::vector<Good>& goods, Date day)
{
    std::vector<double> prices(goods.size(), 0.0);
    for (std::size_t i = 0; i < goods.size(); ++i) {
        const auto& good = goods[i];
        const auto* sheet = sheets.inForce(good.supplier, day);
        if (!sheet) continue;
        for (const auto* charge : sheet->charges)
            if (charge->charge == good.kind && charge->unit == ChargeUnit::perYard && sameCode(charge->code, good.code)) {
                prices[i] = charge->amount.toDouble() * (good.amount ? good.amount->toDouble() : 1);
                break;
            }
    }
    return prices;
}

PriceIndex times(const PriceIndex& level, const PriceIndex& step) { return {level.laspeyres * step.laspeyres, level.paasche * step.paasche, level.fisher * step.fisher}; }

}

std::unordered_map<int, PriceIndex> fixedMixIndex(const Book& book, const LoadPrices& loads)
{
    std::map<int, Basket> months, years;
    const auto count = loads.goods().size();
    Basket* month = nullptr;
    Basket* year = nullptr;
    int at = -1;
    for (const auto& load : loads.loads()) {
        if (!month || load.month != at) {
            at = load.month;
            month = &months.try_emplace(at, Basket(count)).first->second;
            year = &years.try_emplace(at / 12, Basket(count)).first->second;
        }
        for (const auto& bought : loads.boughtOn(load))
            for (auto* basket : {month, year}) {
                auto& spent = (*basket)[static_cast<std::size_t>(bought.good)];
                spent.amount += bought.amount;
                spent.yards += load.yards;
            }
    }

    const PriceSheets sheets{book};
    std::unordered_map<int, PriceIndex> index;
    const Basket* base = nullptr;
    PriceIndex level;
    for (const auto& [number, bought] : years) {
        if (!base) base = &bought;
        for (auto place = months.lower_bound(number * 12); place != months.end() && place->first < (number + 1) * 12; ++place)
            if (const auto step = indexBetween(*base, place->second, sheetPricesOn(sheets, loads.goods(), monthOfNumber(place->first) + 14)))
                index.emplace(place->first, times(level, *step));
        // Years are compared on what both bought; where that is too little, the older year stays the one to compare with.
        if (const auto step = base == &bought ? std::optional{PriceIndex{}} : indexBetween(*base, bought, {})) {
            level = times(level, *step);
            base = &bought;
        }
    }
    return index;
}

}
