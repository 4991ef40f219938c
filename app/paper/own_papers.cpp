#include "paper/paper_parts.h"
#include "paper/papers.h"

#include "cost_bridge.h"

#include "cost/causes.h"
#include "cost/forecast.h"
#include "job/stage.h"
#include "labor/overhead.h"

namespace strikeoff {

namespace {

PaperTable itemsTable(const std::vector<DayItem>& items)
{
    PaperTable table;
    table.columns = {{"", PaperSide::tick}, {"Time", PaperSide::left}, {"What", PaperSide::left}, {"Why", PaperSide::left}};
    std::optional<DaySection> section;
    for (const auto& item : items) {
        if (section != item.section) {
            section = item.section;
            table.rows.push_back({{std::string{labelOf(item.section)}}, {}, PaperRowManner::group});
        }
        table.rows.push_back({{{}, item.at ? item.at->shown() : std::string{}, item.what, item.late ? "Late: " + item.why : item.why}, {}, PaperRowManner::plain});
    }
    return table;
}

constexpr auto crewCautions = "Wet concrete burns skin and eyes: boots, gloves, glasses, rinse at once. Saw and grind wet or with a vacuum: silica dust. Look up for lines before a pump "
                              "boom goes up; stay clear of hoses under pressure. Heat and cold: water, shade, breaks, dry gloves. Product labels govern.";

}

PaperDocument daySheetPaper(const Settings& settings, const DaySheet& sheet)
{
    auto [paper, heading] = startPaper(settings, "Day sheet", sheet.date.text());
    heading.facts.push_back({"Day", sheet.date.shownShort() + ", " + std::to_string(sheet.date.year()), true});
    heading.state = "For ourselves";
    heading.outfitLines.clear();
    heading.logo.clear();
    paper.add(std::move(heading));

    paper.add(PaperParagraph{sheet.answer, PaperText::body, true});
    paper.add(PaperParagraph{sheet.weather, PaperText::body, false});
    for (const auto& warning : sheet.warnings) paper.add(PaperParagraph{"Mind: " + warning, PaperText::body, true});

    if (sheet.items.empty()) paper.add(PaperParagraph{"Nothing is written down for this day."});
    else paper.add(itemsTable(sheet.items));
    if (!sheet.loadOut.items.empty()) {
        PaperTable load;
        load.size = PaperText::small;
        load.columns = {{"", PaperSide::tick}, {"To load tonight", PaperSide::left}};
        for (const auto& item : sheet.loadOut.items) load.rows.push_back({{{}, item.text()}, {}, PaperRowManner::plain});
        paper.add(std::move(load));
    }
    if (!sheet.tomorrow.empty()) {
        paper.add(PaperSection{"The day after"});
        auto table = itemsTable(sheet.tomorrow);
        table.size = PaperText::small;
        paper.add(std::move(table));
    }
    paper.add(PaperParagraph{crewCautions, PaperText::small, false});
    return std::move(paper);
}

PaperDocument costPaper(CostReckoner& reckoner, const Job& of, Date today)
{
    const auto& book = reckoner.book();
    const auto cost = reckoner.of(of);
    const auto explained = explain(reckoner, of);
    const auto forecast = forecastOf(reckoner, of);
    const auto overhead = overheadOn(overheadByJob(book, reckoner.labor(), today), of.id);
    const auto& settings = book.settings();
    const auto& job = *cost.job;
    auto [paper, heading] = startPaper(settings, "Job cost", job.number);
    heading.facts.push_back({"Job", job.number, true});
    heading.facts.push_back({"Stage", std::string{labelOf(cost.stage)}, false});
    heading.state = "For ourselves, not for the customer";
    heading.outfitLines.clear();
    heading.logo.clear();
    paper.add(std::move(heading));

    const auto& customer = book.get(job.customer);
    PaperParties parties{{PaperParty{"Job", {job.title}}, PaperParty{"Customer", {customer.name, customer.town}}}};
    if (auto site = siteParty(book, job)) parties.parties.push_back(std::move(*site));
    paper.add(std::move(parties));

    const auto orDash = [](const std::optional<Money>& money) { return money ? dollars(*money) : std::string{"\u2013"}; };
    paper.add(PaperFigures{{{cost.open ? "Gross profit so far" : "Gross profit", orDash(cost.grossProfit), true}, {"Bid price, before tax", orDash(cost.bidPrice), false},
                            {cost.open ? "Cost so far" : "Cost", dollars(cost.actualCost), false}, {"Crew hours", cost.crewMinutes.shown(), false}}});
    if (!explained.classes.empty()) paper.add(PaperParagraph{explained.answer, PaperText::body, true});
    if (cost.open && !explained.classes.empty()) paper.add(PaperParagraph{"The job is still open: more cost may come. " + forecast.answer});

    // The picture tells the causes; without one they are told in words.
    const bool isDrawn = !bridgeOf(explained).groups.empty() && !explained.bid.isZero();
    if (const auto causes = causesInWords(explained); !causes.empty() && !cost.open && !isDrawn) paper.add(PaperParagraph{causes});
    if (const auto bridge = bridgeOf(explained); isDrawn) {
        paper.add(PaperSection{cost.open ? "From the bid to what was spent so far" : "From the bid to the result"});
        paper.add(PaperChart{[bridge](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintWaterfall(painter, area, bridge, style); },
                             [bridge](const ChartStyle& style) { return heightOfWaterfall(bridge, style); }, {}});
    }

    paper.add(PaperSection{"Cost by class"});
    PaperTable table;
    table.size = PaperText::small;
    table.columns = {{"Class", PaperSide::left}, {"Why, $", PaperSide::left}, {"Bid, $", PaperSide::right}, {"Actual, $", PaperSide::right}, {"Over (\u2212 under), $", PaperSide::right}};
    for (const auto& each : explained.classes) {
        std::vector<std::string> parts;
        for (const auto& reason : each.because) parts.push_back(reason.name + ' ' + (reason.amount > Money{} ? "+" : "") + reason.amount.shown());
        table.rows.push_back({{std::string{labelOf(each.costClass)}, listed(parts), each.bid.shown(), each.actual.shown(), each.difference().shown()}, {}, PaperRowManner::plain});
    }
    table.rows.push_back({{"In all", {}, cost.bidCost.shown(), cost.actualCost.shown(), (cost.actualCost - cost.bidCost).shown()}, {}, PaperRowManner::apart});
    paper.add(std::move(table));

    std::string money = "Billed " + dollars(cost.billed) + " before tax; received " + dollars(cost.paid) + ", tax included.";
    if (cost.grossProfit)
        money += " Overhead on its crew-hours " + dollars(overhead) + ", net of overhead" + (cost.open ? " so far " : " ") + dollars(*cost.grossProfit - overhead) + '.';
    paper.add(PaperParagraph{money});

    std::string open;
    const auto add = [&open](const std::string& sentence) { open += (open.empty() ? "" : "\n") + sentence; };
    if (!cost.expectedPart.isZero()) add(dollars(cost.expectedPart) + " of the cost is for tickets that no statement has billed yet, at the sheet's price.");
    if (cost.ticketsWithoutPrice > 0) add("Not in the cost: " + counted(cost.ticketsWithoutPrice, "ticket", "tickets") + " without a price.");
    if (cost.minutesWithoutRate > Minutes{}) add("Not in the cost: " + cost.minutesWithoutRate.shown() + " hours of people without a pay rate.");
    if (!open.empty()) paper.add(PaperParagraph{"Not certain yet: " + open, PaperText::small, false});
    return std::move(paper);
}

PaperDocument tablePaper(const Settings& settings, const std::string& title, const std::string& answer, std::vector<PaperColumn> columns, std::vector<PaperRow> rows)
{
    auto [paper, heading] = startPaper(settings, title, {});
    heading.outfitLines.clear();
    heading.logo.clear();
    paper.add(std::move(heading));
    paper.turn = PaperTurn::asNeeded;
    if (!answer.empty()) paper.add(PaperParagraph{answer});
    if (rows.empty()) paper.add(PaperParagraph{"There are no rows."});
    else paper.add(PaperTable{std::move(columns), std::move(rows), {}, PaperText::small});
    return std::move(paper);
}

}
