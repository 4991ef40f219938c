#pragma once

#include "weather/weather.h"

namespace strikeoff {

inline constexpr int coldF = 40;  ///< under it concrete needs a plan (ACI 306R from 2010 on: air fallen to, or expected to fall, below 40 °F)

/// Whether a day is cold weather by the older definition: more than three days on end with a mean (of high and low) under 40 °F, this the last of them
/// (ACI 306R-88). Nothing when one of the days is not known.
std::optional<bool> isColdSpell(const Weather& weather, Date date);

/// Days outdoor flatwork is kept at temperature, not loaded but exposed: three, with an accelerator two (ACI 306R-88 table 5.1; from memory).
int protectionDays(bool accelerated);

/// Whether the ground is likely frozen at a moment: degree-hours under 32 °F less those over it, counted over the three days before and never under
/// nothing, are more than a hundred, which is an inch or two of frost in bare ground (common practice, no source). Nothing when any of it is not known.
std::optional<bool> isGroundFrozen(const Weather& weather, Moment moment);

}
