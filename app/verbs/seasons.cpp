#include "verbs/verb.h"

#include "chart_file.h"
#include "json_writer.h"
#include "quantity/words.h"
#include "review_charts.h"
#include "season/seasons.h"
#include "season_charts.h"
#include "text_table.h"

#include <cmath>
#include <ostream>

namespace strikeoff {

namespace {

constexpr int percentDecimals = 2;

std::string isoMonth(Date month) { return month.text().substr(0, 7); }
Money asMoney(double amount) { return Money::ofCents(std::llround(amount * 100)); }

void writeEffects(JsonWriter& json, std::string_view name, const std::vector<SeasonEffect>& seasons)
{
    json.key(name).beginArray();
    for (const auto& effect : seasons)
        json.beginObject().text("season", codeOf(effect.season)).decimal("effect_pct", effect.percent.value, percentDecimals).decimal("low", effect.percent.low, percentDecimals)
            .decimal("high", effect.percent.high, percentDecimals).end();
    json.end();
}

std::string asJson(const Seasons& seasons)
{
    JsonWriter json;
    json.beginObject().key("price").beginArray();
    for (const auto& month : seasons.price.months)
        json.beginObject().text("month", isoMonth(month.month)).whole("tickets", month.tickets).text("yards", month.yards.text()).money("base", month.base)
            .money("delivered", month.delivered).decimal("fixed_mix_index", month.fixedMixIndex, 2).end();
    json.end().key("price_trend_pct_per_year");
    if (const auto& trend = seasons.price.trendPercent)
        json.beginObject().decimal("estimate", trend->value, percentDecimals).decimal("low", trend->low, percentDecimals).decimal("high", trend->high, percentDecimals).end();
    else json.null();
    writeEffects(json, "price_season", seasons.price.seasons);
    json.key("pace").beginArray();
    for (const auto& month : seasons.pace.months)
        json.beginObject().text("month", isoMonth(month.month)).whole("jobs", month.jobs).decimal("area_sqft", month.sum.areaSqft, 2).whole("crew_minutes", month.sum.minutes.count())
            .decimal("sqft_per_crew_hour", month.sum.sqftPerCrewHour, 2).decimal("low", month.sum.low, 2).decimal("high", month.sum.high, 2).end();
    json.end();
    writeEffects(json, "pace_season", seasons.pace.seasons);
    json.key("carry").beginArray();
    for (const auto& month : seasons.price.carry)
        json.beginObject().text("month", isoMonth(month.month)).money("delivered", asMoney(month.delivered.value)).money("low", asMoney(month.delivered.low))
            .money("high", asMoney(month.delivered.high)).end();
    return json.end().end().finished();
}

std::string figure(const std::optional<double>& value, int decimals)
{
    return value ? Quantity::ofUnits(std::llround(*value * 1000)).shown(decimals) : "\u2013";
}

std::string range(const Estimate& estimate) { return figure(estimate.low, 1) + " to " + figure(estimate.high, 1); }

std::string effectsText(const std::vector<SeasonEffect>& seasons, bool show, std::string_view records)
{
    TextTable table;
    table.words("Season").figures("Effect %").figures("80 % range").figures(std::string{records});
    for (const auto& effect : seasons) table.row({std::string{labelOf(effect.season)}, figure(effect.percent.value, 1), range(effect.percent), std::to_string(effect.records)});
    return table.text() + (show ? "" : "Differences of this size come up by chance: no season shows.\n");
}

std::string priceText(const PriceSeasons& price)
{
    std::string text;
    TextTable months;
    months.words("Month").figures("Tickets").figures("Yards").figures("Base $/yd\u00b3").figures("Delivered $/yd\u00b3").figures("Same mix, first year 100");
    for (const auto& month : price.months)
        months.row({shownMonth(month.month), std::to_string(month.tickets), month.yards.shown(2), shownOrDash(month.base), shownOrDash(month.delivered), figure(month.fixedMixIndex, 1)});
    if (!months.empty()) text += "\nPrice of a yard\n" + months.text();
    if (!price.missing.empty()) text += '\n' + price.missing + '\n';
    if (price.trendPercent) text += "\nThe same mix moves " + figure(price.trendPercent->value, 1) + " % a year (" + range(*price.trendPercent) + ").\n";
    if (!price.seasons.empty()) text += "\nWhat a season does to the price\n" + effectsText(price.seasons, price.seasonsShow, "Tickets");
    if (price.odd > 0) text += capitalized(counted(price.odd, "odd ticket is", "odd tickets are")) + " left out of trend and seasons.\n";
    TextTable carry;
    carry.words("Month").figures("Carry $/yd\u00b3").figures("80 % range");
    for (const auto& month : price.carry) carry.row({shownMonth(month.month), asMoney(month.delivered.value).shown(), asMoney(month.delivered.low).shown() + " to " + asMoney(month.delivered.high).shown()});
    if (!carry.empty()) text += "\nCarry next\n" + carry.text();
    TextTable quotes;
    quotes.words("Quote").words("Month").figures("Carries $/yd\u00b3").figures("Expected $/yd\u00b3").words("");
    for (const auto& quote : price.openQuotes)
        quotes.row({quote.quote->number, shownMonth(quote.month), quote.carried.shown(), asMoney(quote.expected.value).shown(), quote.tooLow() ? "too little" : ""});
    if (!quotes.empty()) text += "\nOpen quotes\n" + quotes.text();
    TextTable suppliers;
    suppliers.words("Supplier").figures("Same loads $/yd\u00b3").figures("Loads");
    for (const auto& basket : price.suppliers) suppliers.row({basket.supplier->name, basket.perYard.shown(), std::to_string(basket.loads)});
    if (!suppliers.empty()) text += "\nThe last twelve months' loads by each supplier's sheet\n" + suppliers.text();
    return text;
}

std::string paceText(const PaceSeasons& pace)
{
    std::string text;
    TextTable months;
    months.words("Month").figures("Pours").figures("Area ft\u00b2").figures("Crew-hours").figures("Pace ft\u00b2/h").figures("A tenth below").figures("A tenth above");
    for (const auto& month : pace.months)
        months.row({shownMonth(month.month), std::to_string(month.sum.pours), figure(month.sum.areaSqft, 0), month.sum.minutes.shown(), figure(month.sum.sqftPerCrewHour, 1), figure(month.sum.low, 1),
                    figure(month.sum.high, 1)});
    if (!months.empty()) text += "\nPace\n" + months.text();
    if (!pace.missing.empty()) text += '\n' + pace.missing + '\n';
    if (!pace.seasons.empty()) text += "\nWhat a season does to the pace, type and size alike\n" + effectsText(pace.seasons, pace.seasonsShow, "Pours");
    return text;
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto today = arguments.date(surroundings.today);
    const auto store = openToRead(arguments.words[0]);
    const auto seasons = seasonsOf(store->book(), SeasonScope{.today = today, .from = {}, .to = {}, .jobType = {}});
    if (const auto folder = arguments.value("out")) {
        if (folder->empty()) throw UsageError{"--out needs the name of a folder"};
        auto charts = seasonCharts(store->book(), seasons);
        for (auto& chart : reviewCharts(store->book(), today)) charts.push_back(std::move(chart));
        const auto written = writeCharts(*folder, charts);
        if (arguments.has("json")) surroundings.out << asJson(seasons);
        else {
            surroundings.out << seasons.answer << '\n' << capitalized(counted(static_cast<std::int64_t>(charts.size()), "picture", "pictures")) << " with the numbers behind:\n";
            for (const auto& path : written) surroundings.out << path << '\n';
        }
        return done;
    }
    surroundings.out << (arguments.has("json") ? asJson(seasons) : seasons.answer + '\n' + priceText(seasons.price) + paceText(seasons.pace) + '\n' + std::string{seasonsMethod()} + '\n');
    return done;
}

}

const Verb seasonsVerb{
    "seasons",
    "BOOK",
    "how the seasons move price and pace, and what to carry next",
    {outOption, dateOption, jsonOption},
    "Prices are delivered, tax included. Ranges hold the truth four times in five.\n",
    run};

}
