#include "season_charts.h"

#include "interval_plot.h"
#include "labels.h"
#include "scatter.h"
#include "time_chart.h"

#include "quantity/words.h"

#include <QCoreApplication>

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("SeasonCharts", text); }

/// What a ticket is called and what else is known of it. Asked for one at a time, so nothing is made for the thousands nobody looks at; the book outlives the
/// chart's use, and rows are looked up by id, so that a changed book gives its own words or none.
std::function<QString(std::size_t)> ticketWords(const Book& book, const PriceSeasons& prices)
{
    struct Known {
        Id<Ticket> id;
        bool expected = false, odd = false;
    };
    std::vector<Known> known;
    known.reserve(prices.tickets.size());
    for (const auto& priced : prices.tickets) known.push_back({priced.ticket->id, priced.expected, priced.odd});
    return [&book, known = std::move(known)](std::size_t i) {
        const auto* ticket = book.find(known[i].id);
        if (!ticket) return QString{};
        QStringList lines;
        const auto* supplier = book.find(ticket->supplier);
        lines << words("Ticket %1, %2").arg(qs(ticket->number), supplier ? qs(supplier->name) : words("no supplier"));
        lines << words("%1, %2 yd\u00b3").arg(qs(std::string{ticket->mix}), qs(ticket->yards.shown(2)));
        if (known[i].expected) lines << words("by the price sheet, not billed yet");
        if (known[i].odd) lines << words("odd for its mix and month, left out of trend and seasons");
        return lines.join(u'\n');
    };
}

std::function<QString(std::size_t)> pourWords(const Book& book, const std::vector<const PacedPour*>& pours)
{
    struct Known {
        Id<Job> job;
        double area = 0;
        Minutes minutes;
        std::optional<int> crew;
        bool odd = false;
    };
    std::vector<Known> known;
    known.reserve(pours.size());
    for (const auto* pour : pours) known.push_back({pour->job ? pour->job->id : Id<Job>{}, pour->areaSqft, pour->minutes, pour->crewSize, pour->odd});
    return [&book, known = std::move(known)](std::size_t i) {
        const auto& is = known[i];
        QStringList lines;
        if (const auto* job = book.find(is.job)) lines << words("Job %1, %2").arg(qs(job->number), qs(job->title));
        lines << words("%1 ft\u00b2 in %2 crew-hours").arg(tickText(is.area, 1), qs(is.minutes.shown()));
        if (is.crew) lines << words("crew of %1").arg(*is.crew);
        if (is.odd) lines << words("odd for its type and size, left out of the seasons");
        return lines.join(u'\n');
    };
}

TimePanel pricePanel(const Book& book, const PriceSeasons& prices)
{
    TimePanel panel;
    panel.axis = words("Delivered price, $ per yd\u00b3");
    panel.one = words("ticket");
    panel.counted = words("tickets");
    panel.kind = RecordKind::ticket;
    panel.points.reserve(prices.tickets.size());
    for (const auto& priced : prices.tickets) panel.points.push_back({priced.ticket->date, priced.delivered, priced.ticket->id.value(), priced.odd});
    panel.tip = ticketWords(book, prices);
    panel.middle = words("average of the month");
    panel.spread = words("eight loads in ten");
    TimeLine base{words("mix alone"), {}};
    for (const auto& month : prices.months) {
        const auto toDouble = [](const std::optional<Money>& money) { return money ? std::optional{money->toDouble()} : std::nullopt; };
        panel.months.push_back({month.month, toDouble(month.delivered), month.low, month.high, month.tickets});
        base.months.push_back({month.month, toDouble(month.base), {}, {}, month.tickets});
    }
    panel.lines.push_back(std::move(base));
    panel.expected = words("to carry, 80 % sure");
    for (const auto& month : prices.carry) panel.ahead.push_back({month.month, month.delivered.value, month.delivered.low, month.delivered.high, 0});
    panel.marked = words("new price sheet");
    for (const auto& change : prices.sheets) {
        auto what = words("New price sheet of %1").arg(change.supplier ? qs(change.supplier->name) : QString{});
        if (change.mixPercent) what += words(", mixes %1%2 % on average").arg(*change.mixPercent < 0 ? QStringLiteral("\u2212") : QStringLiteral("+"), tickText(std::abs(*change.mixPercent), 0.1));
        panel.marks.push_back({change.on, what});
    }
    return panel;
}

TimePanel pacePanel(const Book& book, const PaceSeasons& pace)
{
    TimePanel panel;
    panel.axis = words("Pace, ft\u00b2 per crew-hour");
    panel.one = words("pour");
    panel.counted = words("pours");
    panel.kind = RecordKind::pour;
    panel.decimals = 1;
    std::vector<const PacedPour*> pours;
    panel.running = words("running median of 15 pours");
    for (const auto& pour : pace.pours) {
        if (!pour.pour || !pour.pour->pouredOn) continue;
        pours.push_back(&pour);
        panel.points.push_back({*pour.pour->pouredOn, pour.sqftPerCrewHour, pour.pour->id.value(), pour.odd});
        panel.runningLine.push_back({*pour.pour->pouredOn, pour.runningMedian});
    }
    panel.tip = pourWords(book, pours);
    panel.middle = words("the month's pours together");
    panel.spread = words("eight pours in ten");
    for (const auto& month : pace.months) panel.months.push_back({month.month, month.sum.sqftPerCrewHour, month.sum.low, month.sum.high, month.sum.pours});
    return panel;
}

QString signedPercent(double percent)
{
    return (percent < 0 ? QStringLiteral("\u2212") : QStringLiteral("+")) + tickText(std::abs(percent), 0.1) + QStringLiteral(" %");
}

IntervalPlot effectsPlot(const std::vector<SeasonEffect>& seasons)
{
    IntervalPlot plot;
    plot.estimated = words("effect");
    plot.interval = words("80 % sure");
    plot.decimals = 1;
    for (const auto& season : seasons) {
        IntervalRow row;
        row.name = qs(labelOf(season.season));
        row.estimate = season.percent.value;
        row.low = season.percent.low;
        row.high = season.percent.high;
        row.count = season.records;
        row.figure = signedPercent(season.percent.value);
        plot.rows.push_back(std::move(row));
    }
    return plot;
}

Chart said(Chart chart, const std::string& answer, const std::string& missing = {})
{
    chart.inWords = qs(answer);
    if (!missing.empty()) chart.inWords += u' ' + qs(missing);
    return chart;
}

}

Chart priceChart(const Book& book, const PriceSeasons& prices)
{
    return said(chartOf(TimeChart{words("Price of a yard"), {pricePanel(book, prices)}, book.settings().southernHalf}), prices.answer);
}

Chart paceChart(const Book& book, const PaceSeasons& pace)
{
    return said(chartOf(TimeChart{words("Pace of the crew"), {pacePanel(book, pace)}, book.settings().southernHalf}), pace.answer);
}

Chart priceAndPaceChart(const Book& book, const Seasons& seasons)
{
    TimeChart time{words("Price of a yard and pace of the crew"), {pricePanel(book, seasons.price), pacePanel(book, seasons.pace)}, book.settings().southernHalf};
    return said(chartOf(std::move(time)), seasons.answer);
}

Chart priceSeasonsChart(const PriceSeasons& prices)
{
    auto plot = effectsPlot(prices.seasons);
    plot.name = words("Price by season");
    plot.axis = words("against the mean of the year, %");
    plot.countedOne = words("ticket");
    plot.counted = words("tickets");
    return said(chartOf(std::move(plot)), prices.answer, prices.missing);
}

Chart paceSeasonsChart(const PaceSeasons& pace)
{
    auto plot = effectsPlot(pace.seasons);
    plot.name = words("Pace by season");
    plot.axis = words("against the mean of the year, %");
    plot.countedOne = words("pour");
    plot.counted = words("pours");
    return said(chartOf(std::move(plot)), pace.answer, pace.missing);
}

Chart paceByTemperatureChart(const Book& book, const PaceSeasons& pace)
{
    ScatterPlot plot;
    plot.name = words("Pace by temperature");
    plot.xAxis = words("temperature of the air on the day of the pour, \u00b0F");
    plot.yAxis = words("Pace, ft\u00b2 per crew-hour");
    plot.yDecimals = 1;
    plot.kind = RecordKind::pour;
    plot.groups = {words("one pour")};
    std::vector<const PacedPour*> pours;
    for (const auto& pour : pace.pours) {
        if (!pour.airTempF || !pour.pour) continue;
        pours.push_back(&pour);
        plot.points.push_back({static_cast<double>(*pour.airTempF), pour.sqftPerCrewHour, pour.pour->id.value(), 0});
    }
    plot.tip = pourWords(book, pours);
    plot.middle = words("pours of ten degrees together");
    plot.spread = words("eight pours in ten");
    for (const auto& slice : pace.byAirTemp) plot.slices.push_back({slice.fromF + 5.0, slice.sum.sqftPerCrewHour, slice.sum.low, slice.sum.high, slice.sum.pours});
    auto chart = chartOf(std::move(plot));
    if (pace.percentPerTenDegrees)
        chart.inWords = words("Ten degrees warmer, the crew does %1, type and size alike.").arg(qs(percentInWords(*pace.percentPerTenDegrees)));
    return chart;
}

std::vector<Chart> seasonCharts(const Book& book, const Seasons& seasons)
{
    const auto& prices = seasons.price;
    const auto& pace = seasons.pace;
    std::vector<Chart> charts;
    charts.push_back(priceChart(book, prices));
    charts.push_back(priceSeasonsChart(prices));
    charts.push_back(paceChart(book, pace));
    charts.push_back(paceSeasonsChart(pace));
    charts.push_back(paceByTemperatureChart(book, pace));
    return charts;
}

}
