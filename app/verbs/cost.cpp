#include "verbs/verb.h"

#include "cost/job_cost.h"
#include "json_writer.h"
#include "record/field_text.h"
#include "text_table.h"

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

std::string asJson(const Book& book, const CostReport& report)
{
    JsonWriter json;
    json.beginObject().key("jobs").beginArray();
    for (const auto& cost : report.jobs) {
        json.beginObject().text("job", cost.job->number).textOrNull("type", typeOf(book, cost)).text("stage", codeOf(cost.stage));
        json.money("bid_price", cost.bidPrice).money("bid_cost", bidCostOf(cost)).money("actual_cost", cost.actualCost);
        json.money("billed", cost.billed).money("paid", cost.paid).whole("crew_minutes", cost.crewMinutes.count());
        json.money("gross_profit", cost.grossProfit).key("classes").beginArray();
        for (const auto& each : cost.classes)
            json.beginObject()
                .text("class", codeOf(each.costClass))
                .money("bid", each.bid)
                .money("actual", each.actual)
                .money("difference", each.difference())
                .end();
        json.end().end();
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

std::string allAsText(const CostReport& report)
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
    text += '\n' + table.text();
    const auto advice = remedies(report);
    if (anyOpen || !advice.empty()) text += '\n';
    if (anyOpen) text += "* still open: more cost may come.\n";
    return text + advice;
}

std::string oneAsText(const Book& book, const CostReport& report)
{
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
    text += classes.text() + '\n' + sums.text();
    if (const auto advice = remedies(report); !advice.empty()) text += '\n' + advice;
    return text;
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
    const auto report = costReport(book, only);
    if (arguments.has("json")) surroundings.out << asJson(book, report);
    else if (only && report.jobs.size() == 1) surroundings.out << oneAsText(book, report);
    else surroundings.out << allAsText(report);
    return done;
}

}

const Verb costVerb{
    "cost",
    "BOOK",
    "job cost against bid",
    {{"job", "J", "only the job of this number, with its cost classes"}, jsonOption},
    "Bid is the accepted quote (else the current one) with the accepted change orders. Actual is hours at the pay rate of\n"
    "their day, tickets at the statement's amount (else at the sheet's price), and receipts.\n",
    run};

}
