#include "verbs/verb.h"

#include "cost/causes.h"
#include "cost/pace.h"
#include "cost/work_in_progress.h"
#include "json_writer.h"
#include "labor/overhead.h"
#include "record/field_text.h"
#include "text_table.h"

#include <algorithm>
#include <cmath>
#include <ostream>

namespace strikeoff {

namespace {

std::string typeOf(const Book& book, const JobCost& cost)
{
    const auto* type = book.find(cost.job->jobType);
    return type ? type->name : std::string{};
}

/// What the job was bid to cost; not recorded without a bid.
std::optional<Money> bidCostOf(const JobCost& cost) { return cost.bidPrice ? std::optional{cost.bidCost} : std::nullopt; }

/// What a job's crew-hours bear of the overhead of their years, up to a day.
using OverheadByJob = std::unordered_map<std::int64_t, Money>;

std::optional<Money> netOf(const OverheadByJob& overhead, const JobCost& cost)
{
    return cost.grossProfit ? std::optional{*cost.grossProfit - overheadOn(overhead, cost.job->id)} : std::nullopt;
}

std::string asJson(const CostReport& report, CostReckoner& reckoner, const OverheadByJob& overhead)
{
    const auto& book = reckoner.book();
    JsonWriter json;
    json.beginObject().key("jobs").beginArray();
    for (const auto& cost : report.jobs) {
        const auto explained = explain(reckoner, *cost.job);
        json.beginObject().text("job", cost.job->number).textOrNull("type", typeOf(book, cost)).text("stage", codeOf(cost.stage));
        json.money("bid_price", cost.bidPrice).money("bid_cost", bidCostOf(cost)).money("actual_cost", cost.actualCost);
        json.money("billed", cost.billed).money("paid", cost.paid).whole("crew_minutes", cost.crewMinutes.count());
        json.money("gross_profit", cost.grossProfit).key("classes").beginArray();
        for (const auto& each : explained.classes) {
            json.beginObject()
                .text("class", codeOf(each.costClass))
                .money("bid", each.bid)
                .money("actual", each.actual)
                .money("difference", each.difference())
                .key("because")
                .beginArray();
            for (const auto& reason : each.because)
                json.beginObject().text("reason", reason.name).money("amount", reason.amount).text("detail", reason.detail).end();
            json.end().end();
        }
        json.end().money("overhead", overheadOn(overhead, cost.job->id)).money("net", netOf(overhead, cost));
        json.money("gross_profit_per_crew_hour", cost.grossProfitPerCrewHour());
        json.money("expected_at_completion", forecastOf(reckoner, *cost.job).expected());
        json.decimal("pace_sqft_per_crew_hour", paceOf(book, *cost.job).sqftPerCrewHour, 2).text("answer", explained.answer).end();
    }
    json.end().end();
    return json.finished();
}

/// What the owner can do about what the figures leave out.
std::string remedies(const CostReport& report)
{
    bool ticketsWithoutPrice = false;
    bool minutesWithoutRate = false;
    for (const auto& cost : report.jobs) {
        ticketsWithoutPrice = ticketsWithoutPrice || cost.ticketsWithoutPrice > 0;
        minutesWithoutRate = minutesWithoutRate || cost.minutesWithoutRate > Minutes{};
    }
    std::string text;
    if (ticketsWithoutPrice)
        text += "Tickets get a price from the supplier's price sheet in force on their day, or from the statement: load one.\n";
    if (minutesWithoutRate) text += "Hours get a cost from the person's pay rate in force on their day: enter it.\n";
    return text;
}

/// What finished jobs that were won cost more or less for, all together; the largest parts.
std::string differenceAsText(const CostReport& report, CostReckoner& reckoner)
{
    std::vector<JobExplanation> finished;
    for (const auto& cost : report.jobs)
        if (!cost.open && cost.bidPrice && cost.stage != Stage::declined && cost.stage != Stage::dropped)
            finished.push_back(explain(reckoner, *cost.job, Words::leftOut));
    struct Part {
        std::string words;
        Money amount;
    };
    std::vector<Part> parts;
    for (const auto& each : addedUp(finished))
        for (const auto& reason : each.because) parts.push_back({std::string{labelOf(each.costClass)} + ", " + reason.name, reason.amount});
    const auto size = [](const Part& part) { return part.amount < Money{} ? -part.amount : part.amount; };
    std::stable_sort(parts.begin(), parts.end(), [&](const Part& a, const Part& b) { return size(a) > size(b); });
    constexpr std::size_t most = 15;
    TextTable table;
    table.words("What made the difference on finished jobs").figures("Cost more or less $");
    for (std::size_t i = 0; i < std::min(parts.size(), most); ++i) table.row({parts[i].words, parts[i].amount.shown()});
    if (parts.size() > most) {
        Money rest;
        for (std::size_t i = most; i < parts.size(); ++i) rest += parts[i].amount;
        table.row({"The " + std::to_string(parts.size() - most) + " smaller ones together", rest.shown()});
    }
    return table.empty() ? std::string{} : '\n' + table.text();
}

std::string allAsText(const CostReport& report, CostReckoner& reckoner)
{
    auto text = report.answer + '\n';
    if (report.jobs.empty()) return text;
    TextTable table;
    table.words("Job")
        .words("Title", 36)
        .words("Stage")
        .figures("Bid price $")
        .figures("Bid cost $")
        .figures("Actual cost $")
        .figures("Over or under $");
    table.figures("Billed $").figures("Paid $").figures("Crew h").figures("Gross profit $");
    bool anyOpen = false;
    for (const auto& cost : report.jobs) {
        const auto bid = bidCostOf(cost);
        const bool lost = cost.stage == Stage::declined || cost.stage == Stage::dropped;
        anyOpen = anyOpen || cost.open;
        table.row({cost.job->number, cost.job->title, std::string{labelOf(cost.stage)} + (cost.open ? " *" : ""),
                   shownOrDash(cost.bidPrice), shownOrDash(bid), cost.actualCost.shown(),
                   bid && !lost ? (cost.actualCost - *bid).shown() : "\u2013", cost.billed.shown(), cost.paid.shown(),
                   cost.crewMinutes.shown(), shownOrDash(cost.grossProfit)});
    }
    text += '\n' + table.text() + differenceAsText(report, reckoner);
    const auto advice = remedies(report);
    if (anyOpen || !advice.empty()) text += '\n';
    if (anyOpen) text += "* still open: more cost may come.\n";
    return text + advice;
}

/// The parts of each class's difference, a line each.
std::string explanationAsText(const JobExplanation& explained)
{
    TextTable parts;
    parts.words("Why").figures("Cost more or less $").words("How it came about", 200);
    for (const auto& each : explained.classes) {
        if (each.because.empty()) continue;
        parts.row({std::string{labelOf(each.costClass)}, each.difference().shown(), {}});
        for (const auto& reason : each.because) parts.row({"  " + reason.name, reason.amount.shown(), reason.detail});
    }
    return parts.empty() ? std::string{} : explained.answer + "\n\n" + parts.text() + '\n';
}

std::string oneAsText(const CostReport& report, CostReckoner& reckoner, const OverheadByJob& overhead)
{
    const auto& book = reckoner.book();
    const auto& cost = report.jobs.front();
    const auto type = typeOf(book, cost);
    auto text = report.answer + "\n\n" + "Job " + onOneLine(cost.job->number) + ", " + onOneLine(cost.job->title)
        + (type.empty() ? "" : " (" + onOneLine(type) + ")") + ": " + std::string{labelOf(cost.stage)}
        + (cost.open ? ", still open: more cost may come" : "") + ".\n\n";
    TextTable classes;
    classes.words("Class").figures("Bid $").figures("Actual $").figures("Difference $");
    for (const auto& each : cost.classes)
        classes.row({std::string{labelOf(each.costClass)}, each.bid.shown(), each.actual.shown(), each.difference().shown()});
    classes.row({"Total", cost.bidCost.shown(), cost.actualCost.shown(), (cost.actualCost - cost.bidCost).shown()});
    TextTable sums;
    sums.words("In all").figures("");
    sums.row({"Bid price $", shownOrDash(cost.bidPrice)});
    sums.row({"Billed $", cost.billed.shown()});
    sums.row({"Paid $", cost.paid.shown()});
    sums.row({"Crew h", cost.crewMinutes.shown()});
    sums.row({"Gross profit $", shownOrDash(cost.grossProfit)});
    const auto forecast = forecastOf(reckoner, *cost.job);
    if (forecast.open) sums.row({"Expected cost at completion $", forecast.expected().shown()});
    sums.row({"Gross profit per crew-hour $", shownOrDash(cost.grossProfitPerCrewHour())});
    if (const auto pace = paceOf(book, *cost.job).sqftPerCrewHour) sums.row({"Square feet per crew-hour", Area::ofUnits(std::llround(*pace * 100)).shown(1)});
    sums.row({"Overhead on its crew-hours $", overheadOn(overhead, cost.job->id).shown()});
    sums.row({"Net of overhead $", shownOrDash(netOf(overhead, cost))});
    const auto explained = explain(reckoner, *cost.job);
    text += classes.text() + '\n' + explanationAsText(explained);
    if (const auto causes = causesInWords(explained); !causes.empty()) text += causes + "\n\n";
    text += sums.text();
    if (forecast.open) text += '\n' + forecast.answer + '\n';
    if (const auto advice = remedies(report); !advice.empty()) text += '\n' + advice;
    return text;
}

std::string asJson(const WorkInProgress& work)
{
    JsonWriter json;
    json.beginObject().date("as_of", work.asOf).key("jobs").beginArray();
    for (const auto& each : work.jobs) {
        json.beginObject().text("job", each.job->number).money("price", each.price).money("cost_to_date", each.costToDate);
        json.money("cost_at_completion", each.costAtCompletion).boolean("forecast", each.isForecast);
        json.decimal("complete_pct", each.part.complete.toDouble(), 2).money("earned", each.part.earned).money("billed", each.part.billed);
        json.money("under_billed", each.part.underBilled()).money("over_billed", each.part.overBilled()).end();
    }
    json.end().money("earned", work.earned).money("billed", work.billed).money("under_billed", work.underBilled).money("over_billed", work.overBilled).end();
    return json.finished();
}

std::string asText(const WorkInProgress& work)
{
    auto text = work.answer + '\n';
    if (work.jobs.empty()) return text;
    TextTable table;
    table.words("Job").words("Title", 36).figures("Price $").figures("Cost to date $").figures("Cost at completion $").figures("Complete %");
    table.figures("Earned $").figures("Billed $").figures("Under-billed $").figures("Over-billed $");
    bool anyForecast = false;
    for (const auto& each : work.jobs) {
        anyForecast = anyForecast || each.isForecast;
        table.row({each.job->number, each.job->title, each.price.shown(), each.costToDate.shown(), each.costAtCompletion.shown() + (each.isForecast ? " *" : "  "),
                   each.part.complete.shown(1), each.part.earned.shown(), each.part.billed.shown(), each.part.underBilled().shown(), each.part.overBilled().shown()});
    }
    text += '\n' + table.text();
    if (anyForecast) text += "* forecast: the job is still open.\n";
    return text + "Cost-to-cost; whoever does your books decides how work in progress is reported.\n";
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto store = openToRead(arguments.words[0]);
    const auto& book = store->book();
    std::optional<Id<Job>> only;
    if (const auto number = arguments.value("job")) {
        const std::vector<Value> key{*number};
        const auto found = book.withKey(RecordKind::job, key);
        if (found.empty())
            throw StorageError{"there is no job " + inQuotes(*number) + " in " + arguments.words[0]
                               + "; `strikeoff dump BOOK job` lists the jobs"};
        only = Id<Job>{found.front()};
    }
    CostReckoner reckoner{book};
    if (const auto typed = arguments.value("work-in-progress")) {
        const auto day = Date::parse(*typed);
        if (!day) throw UsageError{"--work-in-progress " + inQuotes(*typed) + " is no day; write it as YYYY-MM-DD"};
        if (only) throw UsageError{"--work-in-progress is about all jobs; leave out --job"};
        const auto work = workInProgress(reckoner, *day);
        surroundings.out << (arguments.has("json") ? asJson(work) : asText(work));
        return done;
    }
    const auto report = costReport(reckoner, only);
    const auto overhead = overheadByJob(book, reckoner.labor(), surroundings.today);
    if (arguments.has("json")) surroundings.out << asJson(report, reckoner, overhead);
    else if (only && report.jobs.size() == 1) surroundings.out << oneAsText(report, reckoner, overhead);
    else surroundings.out << allAsText(report, reckoner);
    return done;
}

}

const Verb costVerb{
    "cost",
    "BOOK",
    "job cost against bid",
    {{"job", "J", "only the job of this number, with its cost classes and what made them differ from the bid"},
     {"work-in-progress", "D", "the jobs in work at the end of that day (YYYY-MM-DD): earned by cost-to-cost, billed, under- and over-billed"},
     jsonOption},
    "Bid is the accepted quote (else the current one) with the accepted change orders. Actual is hours at their true cost,\n"
    "tickets at the statement's amount (else at the sheet's price), and receipts. With --job or --json every class's difference\n"
    "is explained in parts that add up to it to the cent; above zero is what cost more than bid.\n",
    run};

}
