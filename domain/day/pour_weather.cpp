#include "day/pour_weather.h"

#include "quantity/words.h"
#include "ready_mix/statement_findings.h"
#include "takeoff/takeoff.h"
#include "weather/cold.h"
#include "weather/formulas.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace strikeoff::day {

namespace {

// Heat index bands of the older OSHA guide (from memory), and the wind chill from which a crew is told (common practice, no source).
constexpr double hotF = 91;
constexpr double veryHotF = 103;
constexpr double bitterF = 20;

/// The concrete temperature a plan wants, by the thickest piece of the job.
int leastConcrete(const Book& book, Id<Job> job)
{
    std::optional<TapeLength> thickest;
    for (const auto* section : book.referring<&TakeoffSection::job>(job))
        if (section->thickness && (!thickest || *section->thickness > *thickest)) thickest = section->thickness;
    return leastConcreteTempF(book.settings(), thickest);
}

/// The worst hour of drying between placing and the broom.
void warnDrying(const VisitWindows& windows, const PourConditions& pour, Moment until, std::vector<std::string>& warnings)
{
    const auto& weather = windows.weather();
    const auto* day = weather.on(pour.placing.date());
    if (!day->windMph || !day->humidity) {
        warnings.push_back(std::string{!day->windMph ? "the wind" : "the humidity"} + " is unknown, so how fast the surface dries is too");
        return;
    }
    double worst = 0;
    auto worstAt = pour.placing;
    for (SlabTemperature slab{weather, pour}; slab.at() <= until; slab.advance()) {
        const auto air = weather.airF(slab.at());
        if (!air) break;
        const double rate = menzelEvaporation(slab.f(), *air, *day->humidity, *day->windMph);
        if (rate > worst) {
            worst = rate;
            worstAt = slab.at();
        }
    }
    // The estimate is good to four tenths either way (Hover 2020, ACI SP-338): one more digit would be made up.
    const auto rate = Quantity::ofUnits(std::llround(worst * 100) * 10).shown(2) + " lb/ft\u00b2/h around " + worstAt.at().shown();
    if (worst >= evaporationAlarm)
        warnings.push_back("the surface may dry faster than it bleeds, about " + rate + " where 0.2 is the alarm: windbreak, fog or evaporation retarder, and cure at once");
    else if (worst >= evaporationCaution) warnings.push_back("drying of about " + rate + ": have fog or evaporation retarder ready");
}

void warnCrew(const VisitWindows& windows, Date date, std::vector<std::string>& warnings)
{
    const auto* day = windows.weather().on(date);
    if (day->highF && day->humidity && *day->highF >= 80) {
        const auto index = heatIndexF(*day->highF, *day->humidity);
        if (index >= hotF)
            warnings.push_back("heat index up to " + degreesText(index) + (index >= veryHotF ? ": start early, water, shade and rest every hour, nobody alone" : ": water, shade and rest for the crew"));
    }
    if (day->lowF && day->windMph) {
        const auto chill = windChillF(*day->lowF, *day->windMph);
        if (chill < bitterF) warnings.push_back("wind chill down to " + degreesText(chill) + ": dry layers and warm breaks; vent heaters, their fumes kill");
    }
}

}

std::vector<std::string> pourWarnings(const Book& book, const VisitWindows& windows, const Pour& pour, Date day)
{
    std::vector<std::string> warnings;
    const auto& weather = windows.weather();
    const auto* forecast = weather.on(day);
    if (!forecast) return {"no forecast is entered, so the weather is unknown; look it up before the trucks are ordered"};

    auto conditions = windows.finishes().conditionsOf(pour);
    conditions.placing = Moment{day, conditions.placing.at()};
    const bool accelerated = conditions.accelerator > 0;
    const auto least = leastConcrete(book, pour.job);
    const auto keptWarm = "concrete at " + degreesText(least) + " or over, kept so for " + counted(protectionDays(accelerated), "day", "days") + (accelerated ? " with accelerator" : "");
    if (!forecast->lowF) warnings.push_back("the low is unknown; under 40 \u00b0F it needs a cold-weather plan");
    else if (*forecast->lowF < coldF) warnings.push_back("the low of " + degreesText(*forecast->lowF) + " needs a cold-weather plan: " + keptWarm + "; never place on frozen ground");
    else
        for (int i = 1; i <= protectionDays(accelerated); ++i)
            if (const auto* night = weather.on(day + i); night && night->lowF && *night->lowF < coldF) {
                warnings.push_back("the low of " + (i == 1 ? "the next day" : (day + i).shownShort()) + " is " + degreesText(*night->lowF) + "; have the slab covered overnight, " + keptWarm);
                break;
            }
    if (pour.concreteTempF && *pour.concreteTempF < least && forecast->lowF && *forecast->lowF < coldF)
        warnings.push_back("concrete ordered at " + degreesText(*pour.concreteTempF) + " is under the " + degreesText(least) + " it should come at");
    // Only where frost can be: a week whose nights stay over freezing has none.
    if (forecast->lowF && *forecast->lowF <= 32) {
        const auto frozen = isGroundFrozen(weather, conditions.placing);
        if (frozen && *frozen) warnings.push_back("the ground is likely frozen by then: thaw it, no ice or snow in the forms, and probe before placing");
        else if (!frozen) warnings.push_back("the three days before are not all entered, so frost in the ground is unknown; probe before placing");
    }
    const auto estimate = windows.finishes().estimate(pour);
    warnDrying(windows, conditions, estimate ? estimate->broom : conditions.placing + Minutes::of(8 * 60), warnings);
    warnCrew(windows, day, warnings);
    return warnings;
}

std::vector<std::string> sealWarnings(const VisitWindows& windows, const Visit& visit, Date day)
{
    const auto hours = windows.hoursOn(visit, day);
    std::vector<std::string> warnings;
    if (hours.isShut()) warnings.push_back("no hour passes: " + hours.why);
    else if (hours.isUnknown()) warnings.push_back("not known whether it can be done: " + hours.why);
    else if (visit.plannedOn == day && visit.plannedAt) {
        const int at = visit.plannedAt->minutes();
        const auto holds = [at](const ClockSpan& span) { return span.from <= at && at < span.to; };
        if (std::none_of(hours.open.begin(), hours.open.end(), holds))
            warnings.push_back("not at " + visit.plannedAt->shown() + " but " + spansText(hours.open) + ": " + hours.why);
    }
    return warnings;
}

}
