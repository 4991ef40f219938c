#include "weather/cold.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr double freezingF = 32;
constexpr double frostDegreeHours = 100;
constexpr int spellDays = 4;

}

std::optional<bool> isColdSpell(const Weather& weather, Date date)
{
    bool cold = true;
    for (int i = 0; i < spellDays; ++i) {
        const auto* day = weather.on(date - i);
        if (!day || !day->lowF || !day->highF) return std::nullopt;
        cold = cold && *day->lowF + *day->highF < 2 * coldF;
    }
    return cold;
}

int protectionDays(bool accelerated) { return accelerated ? 2 : 3; }

std::optional<bool> isGroundFrozen(const Weather& weather, Moment moment)
{
    double frost = 0;
    for (auto at = moment + Minutes::of(-72 * 60); at < moment; at = at + Minutes::of(60)) {
        const auto air = weather.airF(at);
        if (!air) return std::nullopt;
        frost = std::max(0.0, frost + freezingF - *air);
    }
    return frost > frostDegreeHours;
}

}
