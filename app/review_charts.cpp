#include "review_charts.h"

#include "bars.h"
#include "interval_plot.h"
#include "labels.h"
#include "scatter.h"
#include "waterfall.h"

#include "review/pay_words.h"

#include <QCoreApplication>

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

constexpr std::size_t mostGroups = 4;  ///< marks that are told apart

QString words(const char* text) { return QCoreApplication::translate("ReviewCharts", text); }

QString inDollars(double amount) { return qs(wholeDollars(amount)); }

}

Chart whatPaysChart(const WhatPays& pays)
{
    IntervalPlot plot;
    plot.name = words("Gross profit per crew-hour by %1").arg(qs(labelOf(pays.by)).toLower());
    plot.axis = words("gross profit before overhead, $ per crew-hour");
    plot.estimated = words("estimate");
    plot.interval = words("80 % interval");
    plot.raw = words("as it came out");
    plot.countedOne = words("job");
    plot.counted = words("jobs");
    Money overhead;
    Minutes minutes;
    for (const auto& group : pays.groups) {
        const auto& hour = group.perCrewHour;
        IntervalRow row;
        row.name = qs(group.name);
        row.raw = hour.raw;
        row.estimate = hour.estimate;
        row.low = hour.low;
        row.high = hour.high;
        row.count = group.jobs;
        row.figure = inDollars(hour.estimate);
        if (hour.low && hour.high) row.figure = words("%1 (%2 to %3)").arg(row.figure, inDollars(*hour.low), inDollars(*hour.high));
        if (group.driver) row.note = words("%1 hurts it").arg(qs(driverWords(*group.driver)));
        if (group.type) {
            row.kind = RecordKind::jobType;
            row.id = group.type->value();
        }
        plot.rows.push_back(std::move(row));
        overhead += group.overhead;
        minutes += group.crewMinutes;
    }
    if (!overhead.isZero() && minutes.count() > 0) {
        const double perHour = overhead.toDouble() * 60 / static_cast<double>(minutes.count());
        plot.references.push_back({perHour, words("overhead $%1").arg(tickText(perHour, 0.01))});
    }
    auto chart = chartOf(std::move(plot));
    chart.size.setWidth(1280);  // room for the sentences beside their rows
    chart.inWords = qs(pays.answer);
    return chart;
}

Chart bidsChart(const FinishedJobs& jobs, const ReviewFilter& filter)
{
    ScatterPlot plot;
    plot.name = words("Bids against results");
    plot.xAxis = words("cost as bid, $");
    plot.yAxis = words("Cost as it came out, $");
    plot.xDecimals = plot.yDecimals = 2;
    plot.kind = RecordKind::job;
    plot.diagonal = true;
    plot.onDiagonal = words("as bid");
    plot.above = words("cost more than bid");
    plot.below = words("cost less than bid");
    // The commonest types have marks of their own, the rest share one.
    const auto& names = jobs.names[static_cast<std::size_t>(Grouping::jobType)];
    std::map<std::uint16_t, int> counts;
    std::vector<const FinishedJob*> shown;
    for (const auto& job : jobs.jobs)
        if (passes(jobs, filter, job.day, job.keys)) {
            shown.push_back(&job);
            ++counts[job.keys[static_cast<std::size_t>(Grouping::jobType)]];
        }
    std::vector<std::uint16_t> common;
    for (const auto& [key, count] : counts) common.push_back(key);
    std::ranges::stable_sort(common, std::greater{}, [&](std::uint16_t key) { return counts[key]; });
    const bool others = common.size() > mostGroups;
    if (others) common.resize(mostGroups - 1);
    for (const auto key : common) plot.groups.push_back(qs(names[key]));
    if (others) plot.groups.push_back(words("other types"));
    std::vector<QString> called;
    int over = 0;
    for (const auto* job : shown) {
        const auto group = std::ranges::find(common, job->keys[static_cast<std::size_t>(Grouping::jobType)]) - common.begin();
        plot.points.push_back({job->bidCost.toDouble(), job->cost.toDouble(), job->job->id.value(), static_cast<std::size_t>(group)});
        called.push_back(words("Job %1, %2").arg(qs(job->job->number), qs(job->job->title)));
        over += job->cost > job->bidCost;
    }
    plot.tip = [called = std::move(called)](std::size_t i) { return called[i]; };
    auto chart = chartOf(std::move(plot));
    chart.inWords = shown.empty() ? QString{} : words("%1 of %2 finished jobs cost more than they were bid to.").arg(tickText(over, 1), tickText(static_cast<double>(shown.size()), 1));
    return chart;
}

Chart yearBridgeChart(const YearBridge& bridge)
{
    const auto figure = [](Money amount, bool isStep) {
        const auto text = inDollars(amount.toDouble());
        return isStep && amount > Money{} ? u'+' + text : text;
    };
    Waterfall waterfall;
    waterfall.name = words("What moved the profit from %1 to %2").arg(bridge.before.year).arg(bridge.after.year);
    waterfall.axis = words("profit after overhead, $");
    waterfall.moreIsBetter = true;
    waterfall.from = bridge.upTo ? words("%1 to the same day").arg(bridge.before.year) : QString::number(bridge.before.year);
    waterfall.start = bridge.before.profit().toDouble();
    waterfall.startFigure = figure(bridge.before.profit(), false);
    waterfall.to = bridge.upTo ? words("%1 so far").arg(bridge.after.year) : QString::number(bridge.after.year);
    waterfall.endFigure = figure(bridge.after.profit(), false);
    for (const auto& step : bridge.steps) waterfall.groups.push_back({qs(step.name), {}, {{{}, step.amount.toDouble(), figure(step.amount, true)}}});
    auto chart = chartOf(std::move(waterfall));
    chart.inWords = qs(bridge.answer);
    // The figures to the cent, which a drawn length does not tell.
    NumberTable table{{{words("step"), true}, {words("amount, $")}, {words("in words"), true}}, {}};
    table.rows.push_back({QString::number(bridge.before.year), qs(bridge.before.profit().text()), {}});
    for (const auto& step : bridge.steps) table.rows.push_back({qs(step.name), qs(step.amount.text()), qs(step.detail)});
    table.rows.push_back({QString::number(bridge.after.year), qs(bridge.after.profit().text()), {}});
    chart.numbers = [table = std::move(table)] { return table; };
    return chart;
}

Chart leadsToPaidChart(const LeadsToPaid& leads)
{
    BarPlot plot;
    plot.name = words("Leads to paid");
    plot.axis = words("leads; behind each step the days since the one before, and how many are still open or were lost there");
    plot.columns = {{words("step"), true}, {words("reached")}, {words("still open")}, {words("lost")}, {words("days since the step before (median)")}, {words("leads that tell")}};
    int before = 0;
    for (const auto& step : leads.steps) {
        Bar bar;
        bar.name = qs(labelOf(step.step));
        bar.amount = step.reached;
        bar.whole = before;
        bar.figure = before > 0 ? words("%1 of %2").arg(step.reached).arg(before) : QString::number(step.reached);
        if (step.days) bar.note = words("%1 days").arg(tickText(std::round(*step.days), 1));
        QStringList stay;
        if (step.open > 0) stay << words("%1 open").arg(step.open);
        if (step.lost > 0) stay << words("%1 lost").arg(step.lost);
        if (!stay.isEmpty()) bar.note += (bar.note.isEmpty() ? QString{} : QStringLiteral("; ")) + stay.join(QStringLiteral(", "));
        plot.bars.push_back(std::move(bar));
        plot.numbers.push_back({qs(labelOf(step.step)), QString::number(step.reached), QString::number(step.open), QString::number(step.lost), plainNumber(step.days, 1), QString::number(step.daysKnown)});
        before = step.reached;
    }
    auto chart = chartOf(std::move(plot));
    chart.inWords = qs(leads.answer);
    return chart;
}

std::vector<Chart> reviewCharts(const Book& book, Date today)
{
    CostReckoner reckoner{book};
    const auto jobs = finishedJobs(reckoner, today);
    std::vector<Chart> charts{whatPaysChart(whatPays(jobs, Grouping::jobType)), bidsChart(jobs)};
    if (const auto years = reviewYears(jobs); years.size() >= 2) charts.push_back(yearBridgeChart(yearBridge(jobs, reckoner, years[years.size() - 2], years.back(), today)));
    charts.push_back(leadsToPaidChart(leadsToPaid(book, {.today = today, .from = {}, .to = {}, .jobType = {}})));
    return charts;
}

}
