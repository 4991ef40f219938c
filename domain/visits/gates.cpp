#include "visits/gates.h"

#include "quantity/words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

constexpr int step = 15;             // minutes
constexpr int stepsInDay = 1440 / step;
constexpr int stepsInHour = 60 / step;
constexpr int surfaceHours = 6;      // common practice, no source
constexpr int shownFrom = 6 * 60;    // reasons are about the hours somebody works in
constexpr int shownTo = 20 * 60;
constexpr int never = 1'000'000;

enum class Gate { air, surface, warmAfter, rain, dryAfter, airUnknown, rainUnknown };
constexpr std::array gates{Gate::air, Gate::surface, Gate::warmAfter, Gate::rain, Gate::dryAfter, Gate::airUnknown, Gate::rainUnknown};

/// What the weather does in every quarter of an hour from some before the day to as long after it as the product asks for.
class Quarters {
public:
    Quarters(const FinishingProduct& product, const Weather& weather, Date date)
    {
        const int after = std::max(product.warmHoursAfter.value_or(0), product.dryHours.value_or(0)) + 1;
        const auto start = Moment::startOf(date) + Minutes::of(-surfaceHours * 60);
        const auto count = static_cast<std::size_t>(before + stepsInDay + after * stepsInHour);
        air_.resize(count);
        rain_.resize(count);
        for (std::size_t i = 0; i < count; ++i) {
            const auto at = start + Minutes::of(static_cast<std::int64_t>(i) * step);
            air_[i] = weather.airF(at);
            rain_[i] = weather.rains(at);
        }
        const double lowest = product.lowestAirF ? *product.lowestAirF : -1000;
        const auto until = [count](auto is) {
            std::vector<int> steps(count + 1, never);
            for (std::size_t i = count; i-- > 0;) steps[i] = is(i) ? 0 : std::min(never, steps[i + 1] + 1);
            return steps;
        };
        cold_ = until([&](std::size_t i) { return air_[i] && *air_[i] < lowest; });
        noAir_ = until([&](std::size_t i) { return !air_[i]; });
        wet_ = until([&](std::size_t i) { return rain_[i] && *rain_[i]; });
        noRain_ = until([&](std::size_t i) { return !rain_[i]; });
        // Running sum of the air, for the surface's mean.
        sum_.resize(count + 1);
        known_.resize(count + 1);
        for (std::size_t i = 0; i < count; ++i) {
            sum_[i + 1] = sum_[i] + air_[i].value_or(0);
            known_[i + 1] = known_[i] + (air_[i] ? 1 : 0);
        }
    }

    /// What shuts a quarter of the day, or keeps it from being known; nothing when it is open. What is known to shut goes first.
    std::optional<Gate> shutBy(const FinishingProduct& product, int quarter) const
    {
        const auto i = static_cast<std::size_t>(before + quarter);
        const int warm = product.warmHoursAfter.value_or(0) * stepsInHour;
        const int dry = product.dryHours.value_or(0) * stepsInHour;
        const bool wantsAir = product.lowestAirF.has_value();
        if (wantsAir && cold_[i] == 0) return Gate::air;
        if (wet_[i] == 0) return Gate::rain;
        std::optional<double> surface;
        if (product.lowestSurfaceF && air_[i]) {
            // Before the forecast begins, the mean is over what is known of the six hours.
            const auto from = i - before;
            surface = std::min(*air_[i], (sum_[i + 1] - sum_[from]) / std::max(1, known_[i + 1] - known_[from]));
            if (*surface < *product.lowestSurfaceF) return Gate::surface;
        }
        if (wantsAir && cold_[i] <= warm) return Gate::warmAfter;
        if (wet_[i] <= dry) return Gate::dryAfter;
        if ((wantsAir && noAir_[i] <= warm) || (product.lowestSurfaceF && !surface)) return Gate::airUnknown;
        if (noRain_[i] <= dry) return Gate::rainUnknown;
        return std::nullopt;
    }

private:
    static constexpr int before = surfaceHours * stepsInHour;
    std::vector<std::optional<double>> air_;
    std::vector<std::optional<bool>> rain_;
    std::vector<int> cold_, noAir_, wet_, noRain_;  ///< steps until the next one, itself included
    std::vector<double> sum_;
    std::vector<int> known_;
};

void append(std::vector<ClockSpan>& spans, int quarter)
{
    const int from = quarter * step;
    if (!spans.empty() && spans.back().to == from) spans.back().to = from + step;
    else spans.push_back({from, from + step});
}

std::string rainText(const Weather& weather, Date date)
{
    const auto* day = weather.on(date);
    if (!day || !day->rainChance) return "rain";
    auto text = "rain " + std::to_string(*day->rainChance) + " %";
    if (day->rainFrom) text += " from " + day->rainFrom->shown();
    if (day->rainTo) text += " to " + day->rainTo->shown();
    return text;
}

/// The first day on or after a date that lacks what a product needs.
std::string unknownText(const Weather& weather, Date date, bool air)
{
    auto day = date - 1;
    for (int i = 0; i < 12; ++i, day = day + 1) {
        const auto* forecast = weather.on(day);
        const bool known = forecast && (air ? forecast->lowF && forecast->highF : forecast->rainChance.has_value());
        if (day >= date && !forecast) return "no forecast is entered for " + day.shownShort();
        if (day >= date && !known) return std::string{air ? "the low or high" : "the chance of rain"} + " of " + day.shownShort() + " is not entered";
    }
    return air ? "the air is not known" : "the chance of rain is not known";
}

/// A gate's reason, with the hours it shuts when that is not the whole working day.
std::string reason(Gate gate, const FinishingProduct& product, const Weather& weather, Date date, const std::vector<ClockSpan>& spans, bool allDay)
{
    const auto when = allDay ? std::string{" all day"} : " from " + spansText(spans);
    switch (gate) {
    case Gate::air: return "the air is under the " + degreesText(*product.lowestAirF) + " it needs" + when;
    case Gate::surface: return "the surface may be under the " + degreesText(*product.lowestSurfaceF) + " it needs" + when;
    case Gate::warmAfter:
        return "the air falls under " + degreesText(*product.lowestAirF) + " within the " + counted(*product.warmHoursAfter, "hour", "hours") + " after" + (allDay ? "" : " when it goes on" + when);
    case Gate::rain: return rainText(weather, date);
    case Gate::dryAfter: {
        const auto* day = weather.on(date);
        const bool today = day && day->rainChance && *day->rainChance >= Weather::likelyRain;
        auto wet = date;
        while (wet - date < 11 && !(weather.on(wet) && weather.on(wet)->rainChance && *weather.on(wet)->rainChance >= Weather::likelyRain)) wet = wet + 1;
        return rainText(weather, today ? date : wet) + (today ? "" : " on " + wet.shownShort()) + "; it needs " + counted(*product.dryHours, "dry hour", "dry hours");
    }
    case Gate::airUnknown: return unknownText(weather, date, true) + ", so the air is unknown" + (allDay ? "" : when);
    case Gate::rainUnknown: return unknownText(weather, date, false) + ", so rain is unknown" + (allDay ? "" : when);
    }
    return {};
}

}

DayHours gateHours(const FinishingProduct& product, const Weather& weather, Date date)
{
    const Quarters quarters{product, weather, date};
    DayHours hours;
    std::map<Gate, std::vector<ClockSpan>> shut;
    for (int i = 0; i < stepsInDay; ++i) {
        const auto gate = quarters.shutBy(product, i);
        if (!gate) append(hours.open, i);
        else {
            if (*gate == Gate::airUnknown || *gate == Gate::rainUnknown) append(hours.unknown, i);
            if (i * step >= shownFrom && i * step < shownTo) append(shut[*gate], i);
        }
    }
    std::vector<std::string> reasons;
    for (const auto gate : gates)
        if (const auto found = shut.find(gate); found != shut.end()) {
            const bool allDay = found->second.size() == 1 && found->second.front() == ClockSpan{shownFrom, shownTo};
            reasons.push_back(reason(gate, product, weather, date, found->second, allDay));
        }
    for (const auto& text : reasons) hours.why += (hours.why.empty() ? "" : "; ") + text;
    return hours;
}

}
