#include "quantity/percent.h"

#include <limits>

namespace strikeoff {

namespace {

constexpr std::int64_t whole = 1'000'000;  // 100 % in the units of a rate

/// A rounded quotient, when there is one and it can be kept.
std::optional<std::int64_t> quotient(Int128 top, Int128 bottom)
{
    constexpr Int128 limit = std::numeric_limits<std::int64_t>::max();
    if (bottom == 0 || top / bottom >= limit || top / bottom <= -limit) return std::nullopt;
    return divideHalfUp(top, bottom);
}

std::optional<Rate> asRate(std::optional<std::int64_t> units) { return units ? std::optional{Rate::ofUnits(*units)} : std::nullopt; }

}

Money withPercent(Money base, Rate rate) { return base + percentOf(base, rate); }

std::optional<Money> beforePercent(Money total, Rate rate)
{
    if (rate.units() <= -whole) return std::nullopt;
    const auto cents = quotient(static_cast<Int128>(total.cents()) * whole, static_cast<Int128>(rate.units()) + whole);
    return cents ? std::optional{Money::ofCents(*cents)} : std::nullopt;
}

std::optional<Rate> percentPutOn(Money base, Money total)
{
    return asRate(quotient((static_cast<Int128>(total.cents()) - base.cents()) * whole, base.cents()));
}

std::optional<Rate> markupForMargin(Rate margin)
{
    if (margin.units() >= whole) return std::nullopt;
    return asRate(quotient(static_cast<Int128>(margin.units()) * whole, static_cast<Int128>(whole) - margin.units()));
}

std::optional<Rate> marginForMarkup(Rate markup)
{
    if (markup.units() <= -whole) return std::nullopt;
    return asRate(quotient(static_cast<Int128>(markup.units()) * whole, static_cast<Int128>(whole) + markup.units()));
}

}
