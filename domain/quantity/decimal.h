#pragma once

#include "quantity/rounding.h"

#include <compare>
#include <optional>
#include <string_view>

namespace strikeoff {

/// Reads a plain decimal, "-1234.50", into whole units of 10^-scale. Nothing but digits, one point and a leading minus;
/// more decimals than the scale keeps (other than zeros), or a figure past 15 digits, is refused: never a guess.
std::optional<std::int64_t> parseDecimal(std::string_view text, int scale);

/// Reads what people type: "$1,250", "9 1/2", "9-1/2", ".5", "1/4", "(12.50)" and "−12.50" for negatives. Refused: fractions that the
/// scale cannot keep exactly or that are more than a whole beside one ("9 3/2"), and figures past 15 digits.
std::optional<std::int64_t> readDecimal(std::string_view text, int scale);

/// "-1234.5" style: a plain decimal with at least minDecimals and no more zeros than that.
std::string formatDecimal(std::int64_t units, int scale, int minDecimals);

/// For people: thousands marks and a real minus sign, with exactly the decimals asked for (rounded half up, filled with zeros).
std::string shownDecimal(std::int64_t units, int scale, int decimals);

/// A decimal figure kept as a whole number of its smallest unit. No double gets in; a sum that does not fit throws. Up to 15 digits,
/// what text prints is what parse reads.
template <class Tag>
class Decimal {
public:
    static constexpr int scale = Tag::scale;
    static constexpr int minDecimals = Tag::minDecimals;
    static constexpr std::int64_t one = [] {
        std::int64_t unit = 1;
        for (int i = 0; i < Tag::scale; ++i) unit *= 10;
        return unit;
    }();

    constexpr Decimal() = default;
    static constexpr Decimal ofUnits(std::int64_t units) { return Decimal{units}; }
    static constexpr Decimal ofWhole(std::int64_t whole) { return Decimal{checkedMultiply(whole, one)}; }
    static constexpr Decimal ofCents(std::int64_t cents) requires(Tag::isMoney) { return Decimal{cents}; }
    static std::optional<Decimal> parse(std::string_view text)
    {
        const auto units = parseDecimal(text, scale);
        return units ? std::optional{Decimal{*units}} : std::nullopt;
    }

    constexpr std::int64_t units() const { return units_; }
    constexpr std::int64_t cents() const requires(Tag::isMoney) { return units_; }
    constexpr double toDouble() const { return static_cast<double>(units_) / static_cast<double>(one); }
    constexpr bool isZero() const { return units_ == 0; }

    /// "1234.50": for files and JSON.
    std::string text() const { return formatDecimal(units_, scale, minDecimals); }
    /// "1,234.50" with a real minus sign: for people.
    std::string shown(int decimals = minDecimals) const { return shownDecimal(units_, scale, decimals); }

    friend constexpr auto operator<=>(Decimal, Decimal) = default;
    friend constexpr Decimal operator+(Decimal a, Decimal b) { return Decimal{checkedAdd(a.units_, b.units_)}; }
    friend constexpr Decimal operator-(Decimal a, Decimal b) { return Decimal{checkedSubtract(a.units_, b.units_)}; }
    friend constexpr Decimal operator-(Decimal a) { return Decimal{checkedSubtract(0, a.units_)}; }
    friend constexpr Decimal operator*(Decimal a, std::int64_t times) { return Decimal{checkedMultiply(a.units_, times)}; }
    constexpr Decimal& operator+=(Decimal other) { return *this = *this + other; }
    constexpr Decimal& operator-=(Decimal other) { return *this = *this - other; }

private:
    explicit constexpr Decimal(std::int64_t units) : units_{units} {}
    std::int64_t units_ = 0;
};

struct MoneyTag { static constexpr int scale = 2, minDecimals = 2; static constexpr bool isMoney = true; };
struct UnitPriceTag { static constexpr int scale = 4, minDecimals = 2; static constexpr bool isMoney = false; };
struct YardsTag { static constexpr int scale = 3, minDecimals = 0; static constexpr bool isMoney = false; };
struct QuantityTag { static constexpr int scale = 3, minDecimals = 0; static constexpr bool isMoney = false; };
struct AreaTag { static constexpr int scale = 2, minDecimals = 0; static constexpr bool isMoney = false; };
struct RateTag { static constexpr int scale = 4, minDecimals = 0; static constexpr bool isMoney = false; };
struct DegreesTag { static constexpr int scale = 6, minDecimals = 0; static constexpr bool isMoney = false; };

using Money = Decimal<MoneyTag>;          ///< whole cents
using UnitPrice = Decimal<UnitPriceTag>;  ///< dollars per unit, four decimals
using Yards = Decimal<YardsTag>;          ///< yd³, three decimals
using Quantity = Decimal<QuantityTag>;    ///< gallons, inches of slump, hours, feet, …: three decimals of the unit named beside it
using Area = Decimal<AreaTag>;            ///< ft², two decimals
using Rate = Decimal<RateTag>;            ///< per cent with four decimals, so a unit is one part per million
using Degrees = Decimal<DegreesTag>;      ///< latitude or longitude, six decimals

/// Price times quantity, rounded once, half up, to the cent: the line of a paper.
template <class Tag>
Money lineAmount(UnitPrice price, Decimal<Tag> quantity)
{
    return Money::ofCents(divideHalfUp(static_cast<Int128>(price.units()) * quantity.units(), static_cast<Int128>(100) * Decimal<Tag>::one));
}

/// A percentage of a sum, rounded once, half up.
inline Money percentOf(Money base, Rate rate)
{
    return Money::ofCents(divideHalfUp(static_cast<Int128>(base.cents()) * rate.units(), 1'000'000));
}

/// A total split by weights to the cent (largest remainder).
std::vector<Money> split(Money total, std::span<const std::int64_t> weights);

}
