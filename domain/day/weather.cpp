#include "day/sections.h"
#include "quantity/words.h"
#include "visits/forecast_entry.h"
#include "visits/visit_words.h"

namespace strikeoff::day {

namespace {

constexpr int coldF = 40;       // under it concrete needs a plan (ACI 306R: air fallen to or expected to fall below 40 °F)
constexpr int likelyRain = 50;  // common practice

std::string degrees(int f) { return (f < 0 ? "\u2212" : "") + std::to_string(f < 0 ? -f : f) + " \u00b0F"; }

std::string rainText(const DayForecast& forecast)
{
    auto text = "rain " + std::to_string(*forecast.rainChance) + " %";
    if (forecast.rainFrom) text += " from " + forecast.rainFrom->shown();
    if (forecast.rainTo) text += " to " + forecast.rainTo->shown();
    return text;
}

std::string onDay(Date day, Date date) { return day == date ? "today" : day == date + 1 ? "tomorrow" : "on " + day.shownShort(); }

void warnPour(const Book& book, const Pour& pour, Date day, Date date, std::vector<std::string>& warnings)
{
    const auto about = "Pour " + workPlace(book, pour.job, pour.id) + ' ' + onDay(day, date) + ": ";
    const auto* forecast = forecastOn(book, day);
    if (!forecast) {
        warnings.push_back(about + "no forecast is entered, so the weather is unknown; look it up before the trucks are ordered");
        return;
    }
    if (!forecast->lowF) warnings.push_back(about + "the low is unknown; under 40 \u00b0F it needs a cold-weather plan");
    else if (*forecast->lowF < coldF)
        warnings.push_back(about + "the low of " + degrees(*forecast->lowF) +
                           " needs a cold-weather plan; never place on frozen ground");
    else if (const auto* night = forecastOn(book, day + 1); night && night->lowF && *night->lowF < coldF)
        warnings.push_back(about + "the low of the next day is " + degrees(*night->lowF) + "; have the slab covered overnight");
    if (!forecast->rainChance) warnings.push_back(about + "the chance of rain is unknown");
    else if (*forecast->rainChance >= likelyRain)
        warnings.push_back(about + rainText(*forecast) + "; have covers ready or choose another day");
}

void warnSeal(const Book& book, const Visit& visit, Date day, Date date, std::vector<std::string>& warnings)
{
    const auto about = "Seal " + workPlace(book, visit.job, visit.pour) + ' ' + onDay(day, date) + ": ";
    const auto* forecast = forecastOn(book, day);
    if (!forecast) {
        warnings.push_back(about + "no forecast is entered, so the weather is unknown");
        return;
    }
    const auto* product = book.find(visit.product);
    if (product && product->lowestAirF && forecast->highF && *forecast->highF < *product->lowestAirF)
        warnings.push_back(about + "the high of " + degrees(*forecast->highF) + " is under the " + degrees(*product->lowestAirF) +
                           " that " + product->name + " needs");
    if (!forecast->rainChance) warnings.push_back(about + "the chance of rain is unknown");
    else if (*forecast->rainChance >= likelyRain)
        warnings.push_back(about + rainText(*forecast) +
                           (product && product->dryHours
                                ? "; " + product->name + " needs " + counted(*product->dryHours, "dry hour", "dry hours")
                                : "; it needs a dry day"));
}

}

std::string weatherLine(const Book& book, Date date)
{
    const auto* forecast = forecastOn(book, date);
    if (!forecast) return "No forecast is entered for " + date.shownShort() + ": the weather is unknown";
    std::string text = "Low " + (forecast->lowF ? degrees(*forecast->lowF) : "unknown") + ", high " +
                       (forecast->highF ? degrees(*forecast->highF) : "unknown");
    text += ", " + (forecast->rainChance ? rainText(*forecast) : "rain unknown");
    if (forecast->windMph) text += ", wind " + std::to_string(*forecast->windMph) + " mph";
    if (forecast->humidity) text += ", humidity " + std::to_string(*forecast->humidity) + " %";
    return text;
}

std::vector<std::string> weatherWarnings(const Book& book, Date date)
{
    std::vector<std::string> warnings;
    for (const auto day : {date, date + 1}) {
        for (const auto* pour : poursPlanned(book, day)) warnPour(book, *pour, day, date, warnings);
        for (const auto* visit : visitsOn(book, day))
            if (visit->kind == VisitKind::seal && (visit->plannedOn ? *visit->plannedOn == day : visit->due == day))
                warnSeal(book, *visit, day, date, warnings);
    }
    return warnings;
}

}
