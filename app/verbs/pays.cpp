#include "verbs/verb.h"

#include "json_writer.h"
#include "review/pay_words.h"
#include "review/year_bridge.h"
#include "text_table.h"

#include <cmath>
#include <ostream>

namespace strikeoff {

namespace {

/// Dollars with cents from a figure that was estimated.
std::optional<Money> moneyOf(std::optional<double> dollars)
{
    return dollars ? std::optional{Money::ofCents(std::llround(*dollars * 100))} : std::nullopt;
}

Grouping groupingNamed(const std::string& typed)
{
    std::string all;
    for (std::size_t i = 0; i < groupingCount; ++i) {
        if (groupingChoices[i].code == typed) return static_cast<Grouping>(i);
        if (!all.empty()) all += ", ";
        all += groupingChoices[i].code;
    }
    throw UsageError{"--by " + inQuotes(typed) + " is no way to group jobs; the ways are " + all};
}

std::optional<Date> dayOf(const Arguments& arguments, std::string_view option)
{
    const auto typed = arguments.value(option);
    if (!typed) return std::nullopt;
    const auto day = Date::parse(*typed);
    if (!day) throw UsageError{"--" + std::string{option} + ' ' + inQuotes(*typed) + " is no day that exists; write it as YYYY-MM-DD"};
    return day;
}

void writeFigure(JsonWriter& json, std::string_view key, const PerCrewHour& figure)
{
    json.key(key).beginObject().money("raw", moneyOf(figure.raw)).money("estimate", moneyOf(figure.estimate));
    json.money("low", moneyOf(figure.low)).money("high", moneyOf(figure.high)).end();
}

void writeYear(JsonWriter& json, std::string_view key, const ReviewYear& year)
{
    json.key(key).beginObject().whole("year", year.year).whole("jobs", year.jobs).decimal("area_sqft", year.areaSqft, 2).money("revenue", year.revenue);
    json.money("gross_profit", year.grossProfit()).money("overhead", year.overhead).money("profit", year.profit()).end();
}

std::string asJson(const WhatPays& review, const FinishedJobs& jobs, const std::optional<YearBridge>& bridge)
{
    JsonWriter json;
    json.beginObject().key("types").beginArray();
    for (const auto& group : review.groups) {
        const auto margin = group.margin();
        const auto winRate = group.winRate();
        json.beginObject().text("type", group.name).whole("jobs", group.jobs).decimal("area_sqft", group.areaSqft, 2).money("revenue", group.revenue);
        json.money("gross_profit", group.grossProfit).decimal("margin_pct", margin ? std::optional{margin->toDouble()} : std::nullopt, 2);
        writeFigure(json, "per_crew_hour", group.perCrewHour);
        json.decimal("chance_of_loss", group.chanceOfLoss, 4).textOrNull("driver", group.driver ? codeOf(group.driver->costClass) : std::string_view{});
        json.textOrNull("driver_reason", group.driver ? std::string_view{group.driver->reason} : std::string_view{});
        json.money("driver_over_bid", group.driver ? std::optional{group.driver->over} : std::nullopt);
        writeFigure(json, "per_crew_hour_after_overhead", group.afterOverhead);
        json.whole("crew_minutes", group.crewMinutes.count()).money("overhead", group.overhead);
        json.whole("quotes_won", group.quotesWon).whole("quotes_lost", group.quotesLost).decimal("win_rate_pct", winRate ? std::optional{winRate->toDouble()} : std::nullopt, 2);
        json.decimal("days_to_paid", group.daysToPaid ? std::optional<double>{*group.daysToPaid} : std::nullopt, 0).whole("call_backs", group.callBacks);
        json.text("because", group.sentence).end();
    }
    json.end().key("left_out").beginArray();
    for (const auto& left : jobs.leftOut) json.beginObject().text("job", left.job->number).text("why", left.why).end();
    json.end().text("by", codeOf(review.by)).text("answer", review.answer).textOrNull("undecided", review.undecidedSentence).text("method", review.method);
    json.key("years");
    if (!bridge) json.null();
    else {
        json.beginObject();
        writeYear(json, "before", bridge->before);
        writeYear(json, "after", bridge->after);
        json.date("up_to", bridge->upTo).key("steps").beginArray();
        for (const auto& step : bridge->steps) json.beginObject().text("step", step.name).money("amount", step.amount).text("detail", step.detail).end();
        json.end().text("answer", bridge->answer).end();
    }
    json.end();
    return json.finished();
}

std::string bridgeAsText(const YearBridge& bridge)
{
    TextTable table;
    table.words("What moved the profit").figures("More or less $").words("How", 90);
    table.row({"Profit of " + std::to_string(bridge.before.year), bridge.before.profit().shown(), {}});
    for (const auto& step : bridge.steps) table.row({"  " + step.name, step.amount.shown(), step.detail});
    table.row({"Profit of " + std::to_string(bridge.after.year), bridge.after.profit().shown(), {}});
    return '\n' + bridge.answer + "\n\n" + table.text();
}

std::string asText(const WhatPays& review, const FinishedJobs& jobs, const std::optional<YearBridge>& bridge)
{
    auto text = review.answer + '\n';
    const auto cents = [](std::optional<double> figure) { return shownOrDash(moneyOf(figure)); };
    if (!review.groups.empty()) {
        TextTable table;
        table.words(std::string{labelOf(review.by)}, 28).figures("Jobs").figures("Area ft\u00b2").figures("Revenue $").figures("Gross profit $").figures("Margin %");
        table.figures("Per crew-h $").figures("Estimate $").figures("80 % from $").figures("to $").figures("After overhead $").figures("Chance of loss %");
        table.figures("Won %").figures("Days to paid").figures("Call-backs");
        for (const auto& group : review.groups) {
            const auto margin = group.margin();
            const auto won = group.winRate();
            table.row({group.name, std::to_string(group.jobs), Area::ofUnits(std::llround(group.areaSqft * 100)).shown(0), group.revenue.shown(), group.grossProfit.shown(),
                       margin ? margin->shown(1) : "\u2013", cents(group.perCrewHour.raw), cents(group.perCrewHour.estimate), cents(group.perCrewHour.low), cents(group.perCrewHour.high),
                       cents(group.afterOverhead.estimate), group.chanceOfLoss ? shownDecimal(std::llround(*group.chanceOfLoss * 100), 0, 0) : "\u2013", won ? won->shown(0) : "\u2013",
                       group.daysToPaid ? std::to_string(*group.daysToPaid) : "\u2013", std::to_string(group.callBacks)});
        }
        text += '\n' + table.text() + '\n';
        for (const auto& group : review.groups) text += onOneLine(group.name) + ' ' + group.sentence + ".\n";
        if (!review.undecidedSentence.empty()) text += '\n' + review.undecidedSentence + '\n';
        text += '\n' + review.method + '\n';
    }
    if (!jobs.leftOut.empty()) {
        TextTable table;
        table.words("Job left out").words("Title", 36).words("Why");
        for (const auto& left : jobs.leftOut) table.row({left.job->number, left.job->title, left.why});
        text += '\n' + table.text();
    }
    if (bridge) text += bridgeAsText(*bridge);
    return text;
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto by = arguments.value("by") ? groupingNamed(*arguments.value("by")) : Grouping::jobType;
    ReviewFilter filter;
    filter.from = dayOf(arguments, "from");
    filter.to = dayOf(arguments, "to");
    if (filter.from && filter.to && *filter.to < *filter.from) throw UsageError{"--to is before --from; give the first day with --from"};
    const auto store = openToRead(arguments.words[0]);
    CostReckoner reckoner{store->book()};
    const auto jobs = finishedJobs(reckoner, surroundings.today);
    const auto review = whatPays(jobs, by, filter);
    std::optional<YearBridge> bridge;
    if (const auto years = reviewYears(jobs); years.size() > 1 && years.back() - 1 == years[years.size() - 2])
        bridge = yearBridge(jobs, reckoner, years.back() - 1, years.back(), surroundings.today);
    surroundings.out << (arguments.has("json") ? asJson(review, jobs, bridge) : asText(review, jobs, bridge));
    return done;
}

}

const Verb paysVerb{
    "pays",
    "BOOK",
    "which work makes money: job types by profit per crew-hour",
    {{"by", "G", "group by job_type (when left out), lead_source, size, season, supplier, crew_size or town"},
     {"from", "D", "only jobs done on or after that day (YYYY-MM-DD)"},
     {"to", "D", "only jobs done on or before that day"},
     jsonOption},
    "A job counts once it is done, has hours, was bid and is billed; the others are listed with why. Types of few jobs are drawn\n"
    "toward the common mean; between the two ends of the 80 % interval the truth lies eight times in ten. Below stands what\n"
    "moved the profit from the last year but one to the last.\n",
    run};

}
