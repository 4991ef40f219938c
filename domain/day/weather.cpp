#include "day/pour_weather.h"
#include "day/sections.h"
#include "quantity/words.h"
#include "visits/forecast_entry.h"
#include "visits/visit_words.h"

#include <algorithm>

namespace strikeoff::day {

namespace {

std::string rainText(const DayForecast& forecast)
{
    auto text = "rain " + std::to_string(*forecast.rainChance) + " %";
    if (forecast.rainFrom) text += " from " + forecast.rainFrom->shown();
    if (forecast.rainTo) text += " to " + forecast.rainTo->shown();
    return text;
}

std::string onDay(Date day, Date date) { return day == date ? "today" : day == date + 1 ? "tomorrow" : "on " + day.shownShort(); }

void warnPour(const Book& book, const VisitWindows& windows, const Pour& pour, Date day, Date date, std::vector<std::string>& warnings)
{
    const auto about = "Pour " + workPlace(book, pour.job, pour.id) + ' ' + onDay(day, date) + ": ";
    for (const auto& warning : pourWarnings(book, windows, pour, day)) warnings.push_back(about + warning);
    const auto* forecast = forecastOn(book, day);
    if (!forecast) return;
    if (!forecast->rainChance) warnings.push_back(about + "the chance of rain is unknown");
    else if (*forecast->rainChance >= Weather::likelyRain)
        warnings.push_back(about + rainText(*forecast) + "; have covers ready or choose another day");
}

}

std::string weatherLine(const Book& book, Date date)
{
    const auto* forecast = forecastOn(book, date);
    if (!forecast) return "No forecast is entered for " + date.shownShort() + ": the weather is unknown";
    std::string text = "Low " + (forecast->lowF ? degreesText(*forecast->lowF) : "unknown") + ", high " +
                       (forecast->highF ? degreesText(*forecast->highF) : "unknown");
    text += ", " + (forecast->rainChance ? rainText(*forecast) : "rain unknown");
    if (forecast->windMph) text += ", wind " + std::to_string(*forecast->windMph) + " mph";
    if (forecast->humidity) text += ", humidity " + std::to_string(*forecast->humidity) + " %";
    return text;
}

std::vector<std::string> weatherWarnings(const Book& book, Date date)
{
    std::vector<std::string> warnings;
    const VisitWindows windows{book};
    for (const auto day : {date, date + 1}) {
        for (const auto* pour : poursPlanned(book, day)) warnPour(book, windows, *pour, day, date, warnings);
        // What holds back several slabs alike is said once.
        std::vector<std::pair<std::string, std::vector<std::string>>> held;
        for (const auto* visit : visitsOn(book, day)) {
            if (visit->kind != VisitKind::seal || !(visit->plannedOn ? *visit->plannedOn == day : windows.inDays(*visit).due == day)) continue;
            for (auto& warning : sealWarnings(windows, *visit, day)) {
                auto same = std::find_if(held.begin(), held.end(), [&](const auto& one) { return one.first == warning; });
                if (same == held.end()) same = held.insert(held.end(), {std::move(warning), {}});
                same->second.push_back(workPlace(book, visit->job, visit->pour));
            }
        }
        for (const auto& [warning, places] : held) warnings.push_back("Seal " + listed(places) + ' ' + onDay(day, date) + ": " + warning);
    }
    return warnings;
}

}
