#include "season/seasons.h"

#include "quantity/words.h"

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

const SeasonEffect* extreme(const std::vector<SeasonEffect>& seasons, bool highest)
{
    if (seasons.empty()) return nullptr;
    const auto less = [](const SeasonEffect& a, const SeasonEffect& b) { return a.percent.value < b.percent.value; };
    return &*(highest ? std::max_element(seasons.begin(), seasons.end(), less) : std::min_element(seasons.begin(), seasons.end(), less));
}

std::string dollarsOf(double amount) { return dollars(Money::ofCents(std::llround(amount * 100))); }

std::string answerOf(const Seasons& seasons)
{
    const auto& price = seasons.price;
    const auto& pace = seasons.pace;
    if (price.months.empty() && pace.months.empty()) return "No priced ticket and no pour with its hours yet: price and pace show here month by month.";
    if (price.months.empty()) return pace.answer;
    const auto* dearest = price.seasonsShow ? extreme(price.seasons, true) : nullptr;
    const auto* slowest = pace.seasonsShow ? extreme(pace.seasons, false) : nullptr;
    if (!dearest && !slowest) {
        const auto& last = price.months.back();
        std::string answer = "A delivered yard cost " + dollars(*last.delivered) + " in " + shownMonth(last.month);
        if (!pace.months.empty()) answer += " and the crew made " + Quantity::ofUnits(std::llround(*pace.months.back().sum.sqftPerCrewHour * 1000)).shown(1) + " sq ft a crew-hour in " + shownMonth(pace.months.back().month);
        if (price.seasons.empty() && pace.seasons.empty()) return answer + "; the seasons are told from " + std::to_string(leastMonthsSpanned) + " months of records on.";
        return answer + "; no season surely moves price or pace.";
    }
    std::string answer;
    if (dearest) answer = capitalized(lowerLabel(dearest->season)) + " yards cost " + percentInWords(dearest->percent) + " than the year's mean";
    if (slowest) {
        const auto words = lowerLabel(slowest->season) + " work makes " + percentInWords(slowest->percent) + " square feet an hour";
        answer += answer.empty() ? capitalized(words) : ", and " + words;
    }
    if (!price.carry.empty()) {
        const auto dear = std::max_element(price.carry.begin(), price.carry.end(), [](const auto& a, const auto& b) { return a.delivered.value < b.delivered.value; });
        answer += "; carry " + dollarsOf(dear->delivered.value) + " a yard (" + dollarsOf(dear->delivered.low) + " to " + dollarsOf(dear->delivered.high) + ") for " + shownMonth(dear->month);
    }
    return answer + ".";
}

}

std::string_view seasonsMethod()
{
    return "Price: each load's delivered price is what its statement line bills, else what the price sheet in force says, for a yard. Loads are compared like with like: the same supplier, mix and "
           "options, full loads with full ones. Trend and seasons come from the logarithm of the price; loads far off what their mix and month say are set aside (hollow in a chart). "
           "The fixed mix is Fisher's index over the mixes and options bought in both months, 100 in the first year; Laspeyres and Paasche stand beside it.\n"
           "Pace: area over all crew-hours of a pour, rework too. What a season does to it allows for the type and the size of the job. Pours whose area or hours are not known are left out.\n"
           "An effect is told against the mean of the four seasons. Every interval is made so that it holds the truth four times in five. The season of a month is that of the weather: winter is December to "
           "February, half a year later in the southern half.";
}

Seasons seasonsOf(const Book& book, const TicketPrices& prices, const SeasonScope& scope)
{
    Seasons seasons{priceSeasons(book, prices, scope), paceSeasons(book, scope), {}};
    seasons.answer = answerOf(seasons);
    return seasons;
}

Seasons seasonsOf(const Book& book, const SeasonScope& scope) { return seasonsOf(book, TicketPrices{book}, scope); }

}
