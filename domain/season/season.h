#pragma once

#include "quantity/date.h"
#include "record/field.h"

#include <array>

namespace strikeoff {

/// The four seasons by the weather's quarters: December to February is the first of them in the northern half.
enum class Season { winter, spring, summer, fall };
inline constexpr std::array seasonChoices{Choice{"winter", "Winter"}, Choice{"spring", "Spring"}, Choice{"summer", "Summer"}, Choice{"fall", "Fall"}};
template <> inline constexpr std::span<const Choice> choicesOf<Season> = seasonChoices;
inline constexpr std::size_t seasonCount = seasonChoices.size();

/// The season a month (1 to 12) lies in; half a year on in the southern half.
constexpr Season seasonOf(int month, bool southernHalf)
{
    const auto quarter = month % 12 / 3;
    return static_cast<Season>((quarter + (southernHalf ? 2 : 0)) % 4);
}
inline Season seasonOf(Date day, bool southernHalf) { return seasonOf(day.month(), southernHalf); }

}
