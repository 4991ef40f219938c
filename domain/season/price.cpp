#include "season/price.h"

#include "quantity/words.h"
#include "season/fixed_mix.h"
#include "season/load_prices.h"
#include "season/price_sheets.h"
#include "statistics/quantiles.h"
#include "statistics/seasonal_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace strikeoff {

namespace {

constexpr int monthsAhead = 9;
constexpr int monthsOfBasket = 12;
constexpr std::size_t leastForSpread = 5;
/// A load within this share of what its likes cost is never odd: loads that cost a sheet's price to the cent differ by their size alone.
constexpr double leastOddShare = 0.01;

std::optional<Money> aYard(Money paid, Yards yards)
{
    if (yards <= Yards{} || paid <= Money{}) return std::nullopt;
    return Money::ofCents(divideHalfUp(static_cast<Int128>(paid.cents()) * Yards::one, yards.units()));
}

std::vector<PriceMonth> monthsOf(const LoadPrices& loads)
{
    std::vector<PriceMonth> months;
    std::vector<double> prices;
    Money mix;
    Yards mixYards;
    const auto finish = [&] {
        if (months.empty()) return;
        auto& month = months.back();
        month.delivered = aYard(month.paid, month.yards);
        month.base = aYard(mix, mixYards);
        if (prices.size() >= leastForSpread) {
            const auto ends = quantiles(prices, std::array{0.1, 0.9});
            month.low = ends[0];
            month.high = ends[1];
        }
        prices.clear();
        mix = {};
        mixYards = {};
    };
    int at = -1;
    for (const auto& load : loads.loads()) {
        if (load.month != at) {
            finish();
            at = load.month;
            months.emplace_back().month = monthOfNumber(at);
        }
        auto& month = months.back();
        ++month.tickets;
        month.yards += load.ticket->yards;
        month.paid += load.paid;
        if (load.mix) {
            mix += *load.mix;
            mixYards += load.ticket->yards;
        }
        prices.push_back(load.paid.toDouble() / load.yards);
    }
    finish();
    return months;
}

/// What last year's loads would cost a yard at the levels of another month.
void addCarry(PriceSeasons& result, const LoadPrices& loads, const SeasonalFit& fit, const std::vector<int>& ahead)
{
    const int last = loads.loads().back().month;
    double yards = 0, paid = 0;  // paid at level 0
    for (std::size_t i = 0; i < loads.loads().size(); ++i) {
        const auto& load = loads.loads()[i];
        if (load.month <= last - monthsOfBasket || fit.weights[i] <= 0) continue;
        const auto* month = fit.monthAt(load.month);
        if (!month) continue;
        yards += load.yards;
        paid += load.paid.toDouble() * std::exp(-month->level);
    }
    if (!(yards > 0)) return;
    for (std::size_t i = 0; i < ahead.size(); ++i) {
        const auto& level = fit.ahead[i];
        if (std::isnan(level.value)) continue;
        result.carry.push_back({monthOfNumber(ahead[i]), {paid / yards * std::exp(level.value), paid / yards * std::exp(level.low), paid / yards * std::exp(level.high)}});
    }
}

void addFit(PriceSeasons& result, const Book& book, const LoadPrices& loads, const SeasonScope& scope)
{
    const bool southern = book.settings().southernHalf;
    SeasonalQuestion question;
    for (int month = 0; month < 12; ++month) question.quarterOf[static_cast<std::size_t>(month)] = static_cast<int>(seasonOf(month + 1, southern));
    question.leastScale = leastOddShare / 3;
    std::vector<SeasonalObservation> observations;
    observations.reserve(loads.loads().size());
    for (const auto& load : loads.loads()) observations.push_back({load.month, load.likeness, 0, std::log(load.paid.toDouble() / load.yards)});
    if (!loads.loads().empty() && !scope.to) {
        const int first = std::max(monthNumber(scope.today), loads.loads().back().month) + 1;
        for (int i = 0; i < monthsAhead; ++i) question.ahead.push_back(first + i);
    }
    const auto fitted = fitSeasons(observations, question);
    if (!fitted.fit) {
        result.missing = "What a season does to the price " + fitted.refusal + ".";
        return;
    }
    const auto& fit = *fitted.fit;
    std::array<int, seasonCount> seen{};
    for (std::size_t i = 0; i < result.tickets.size(); ++i) {
        // What could not be compared is not odd; what was compared and given no weight is.
        result.tickets[i].odd = fit.weights[i] <= 0 && fit.groupAt(observations[i].group).has_value();
        result.odd += result.tickets[i].odd ? 1 : 0;
        ++seen[static_cast<std::size_t>(seasonOf(result.tickets[i].ticket->date, southern))];
    }
    result.trendPercent = asPercent(*fit.trendPerYear);
    for (std::size_t quarter = 0; quarter < seasonCount; ++quarter)
        if (fit.quarters[quarter]) result.seasons.push_back({static_cast<Season>(quarter), asPercent(*fit.quarters[quarter]), seen[quarter]});
    result.seasonsShow = fit.showsSeason();
    addCarry(result, loads, fit, question.ahead);
}

std::string plainPercent(double percent) { return Quantity::ofUnits(std::llround(std::abs(percent) * 1000)).shown(1) + "%"; }

std::string signedPercent(double percent) { return (percent < 0 ? "\u2212" : "") + plainPercent(percent); }

std::string answerOf(const PriceSeasons& prices)
{
    if (prices.months.empty()) return "No priced ticket yet: prices show here month by month.";
    const auto& last = prices.months.back();
    std::string answer = "A delivered yard cost " + dollars(*last.delivered) + " in " + shownMonth(last.month);
    for (const auto& month : prices.months)
        if (month.month == monthsOn(last.month, -12)) {
            const auto more = *last.delivered - *month.delivered;
            answer += more.isZero() ? ", as a year before" : ", " + dollars(more < Money{} ? -more : more) + (more < Money{} ? " less" : " more") + " than a year before";
        }
    if (prices.trendPercent) {
        const auto& trend = *prices.trendPercent;
        answer += trend.isClearOf(0) ? "; the same mix gets " + plainPercent(trend.value) + (trend.value < 0 ? " cheaper" : " dearer") + " a year" : "; the same mix gets neither surely dearer nor cheaper";
    }
    if (!prices.seasons.empty()) {
        if (!prices.seasonsShow) answer += ", and no season is surely dearer than another";
        else {
            const auto dearest = std::max_element(prices.seasons.begin(), prices.seasons.end(), [](const auto& a, const auto& b) { return a.percent.value < b.percent.value; });
            answer += ", and " + lowerLabel(dearest->season) + " yards cost " + percentInWords(dearest->percent) + " than the year's mean";
        }
    }
    return answer + ".";
}

}

Estimate asPercent(const Estimate& logarithm)
{
    const auto percent = [](double value) { return 100 * std::expm1(value); };
    return {percent(logarithm.value), percent(logarithm.low), percent(logarithm.high)};
}

std::string lowerLabel(Season season) { return std::string{codeOf(season)}; }

std::string percentInWords(const Estimate& percent)
{
    return plainPercent(percent.value) + (percent.value < 0 ? " less" : " more") + " (" + signedPercent(percent.value < 0 ? -percent.high : percent.low) + " to " +
           signedPercent(percent.value < 0 ? -percent.low : percent.high) + ")";
}

const CarryMonth* carryFor(const PriceSeasons& prices, Date month)
{
    for (const auto& carry : prices.carry)
        if (carry.month == firstOfMonth(month)) return &carry;
    return nullptr;
}

PriceSeasons priceSeasons(const Book& book, const TicketPrices& prices, const SeasonScope& scope)
{
    const LoadPrices loads{book, prices, scope};
    PriceSeasons result;
    result.tickets.reserve(loads.loads().size());
    for (const auto& load : loads.loads())
        result.tickets.push_back({load.ticket, load.paid.toDouble() / load.yards, load.mix ? std::optional{load.mix->toDouble() / load.yards} : std::nullopt, load.expected, false});
    result.months = monthsOf(loads);
    const auto index = fixedMixIndex(book, loads);
    for (auto& month : result.months)
        if (const auto found = index.find(monthNumber(month.month)); found != index.end()) {
            month.fixedMixIndex = 100 * found->second.fisher;
            month.laspeyres = 100 * found->second.laspeyres;
            month.paasche = 100 * found->second.paasche;
        }
    if (loads.loads().empty()) result.missing = "What a season does to the price needs tickets with a price.";
    else addFit(result, book, loads, scope);
    result.sheets = sheetChanges(book, scope);
    result.suppliers = sameBasket(book, scope.today);
    result.openQuotes = quotesAgainst(book, prices.codes(), result);
    result.answer = answerOf(result);
    return result;
}

PriceSeasons priceSeasons(const Book& book, const SeasonScope& scope) { return priceSeasons(book, TicketPrices{book}, scope); }

}
