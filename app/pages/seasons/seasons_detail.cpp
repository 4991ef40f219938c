#include "pages/seasons/seasons_detail.h"

#include "labels.h"
#include "season/pace.h"
#include "season/price.h"
#include "season/seasons.h"
#include "table/record_table.h"

#include <QSplitter>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

Cell figureCell(const std::optional<double>& value, int decimals)
{
    return decimalCell(value && std::isfinite(*value) ? std::optional{Quantity::ofUnits(std::llround(*value * 1000))} : std::nullopt, decimals);
}

Cell monthCell(Date month)
{
    auto cell = textCell(qs(shownMonth(month)));
    cell.sort = Value{month.days()};
    return cell;
}

Cell hoursCell(Minutes minutes) { return decimalCell(std::optional{Quantity::ofUnits(divideHalfUp(static_cast<Int128>(minutes.count()) * 1000, 60))}, 1); }

}

SeasonsDetail::SeasonsDetail(Desk& desk, QWidget* parent) : QObject{parent}, desk_{desk}
{
    carryView_ = new QWidget{parent};
    methodView_ = new QWidget{parent};
    carryWords_ = makeLabel({}, TextSize::body, Tone::plain, carryView_);
    method_ = makeLabel(qs(seasonsMethod()), TextSize::small, Tone::quiet, methodView_);

    carry_ = new RecordTable{tr("What to carry"),
                             {{.heading = tr("Pour month"), .width = 14, .stretches = true},
                              {.heading = tr("Carry, $/yd\u00b3"), .align = Align::right, .width = 10},
                              {.heading = tr("Low"), .align = Align::right, .width = 8},
                              {.heading = tr("High"), .align = Align::right, .width = 8}},
                             desk, carryView_};
    carry_->setEmptyText(tr("Nothing to carry yet: the months ahead need a history of tickets."));
    carry_->setFilterVisible(false);
    quotes_ = new RecordTable{tr("Open quotes"),
                              {{.heading = tr("Quote"), .width = 9},
                               {.heading = tr("Job"), .width = 12, .stretches = true},
                               {.heading = tr("Month"), .width = 12},
                               {.heading = tr("Yards"), .align = Align::right, .width = 8},
                               {.heading = tr("Carries, $"), .align = Align::right, .width = 10},
                               {.heading = tr("Expected, $"), .align = Align::right, .width = 11},
                               {.heading = tr("Enough?"), .width = 13}},
                              desk, carryView_};
    quotes_->setEmptyText(tr("No open quote carries concrete for a month ahead."));
    quotes_->setFilterVisible(false);
    suppliers_ = new RecordTable{tr("Suppliers on the same loads"),
                                 {{.heading = tr("Supplier"), .width = 24, .stretches = true},
                                  {.heading = tr("Delivered, $/yd\u00b3"), .align = Align::right, .width = 15},
                                  {.heading = tr("Loads"), .align = Align::right, .width = 8},
                                  {.heading = tr("Yards"), .align = Align::right, .width = 10}},
                                 desk, carryView_};
    suppliers_->setEmptyText(tr("Fewer than two suppliers have sheets for the same loads."));
    suppliers_->setFilterVisible(false);
    connect(quotes_, &RecordTable::opened, this, [this](const RecordRef& record) { desk_.open(record); });

    auto* right = new QSplitter{Qt::Vertical, carryView_};
    right->addWidget(quotes_);
    right->addWidget(suppliers_);
    right->setStretchFactor(0, 3);
    right->setStretchFactor(1, 2);
    right->setChildrenCollapsible(false);
    auto* halves = new QSplitter{Qt::Horizontal, carryView_};
    halves->addWidget(carry_);
    halves->addWidget(right);
    halves->setStretchFactor(0, 3);
    halves->setStretchFactor(1, 5);
    halves->setSizes({grid(98), grid(162)});
    halves->setChildrenCollapsible(false);
    auto* carryLayout = new QVBoxLayout{carryView_};
    carryLayout->setContentsMargins(0, grid(2), 0, 0);
    carryLayout->setSpacing(grid(2));
    carryLayout->addWidget(carryWords_);
    carryLayout->addWidget(halves, 1);

    months_ = new RecordTable{tr("Months"),
                              {{.heading = tr("Month"), .width = 16, .stretches = true},
                               {.heading = tr("Tickets"), .align = Align::right, .width = 8},
                               {.heading = tr("Yards"), .align = Align::right, .width = 9},
                               {.heading = tr("Paid, $"), .align = Align::right, .width = 13},
                               {.heading = tr("Base, $/yd\u00b3"), .align = Align::right, .width = 11},
                               {.heading = tr("Delivered, $/yd\u00b3"), .align = Align::right, .width = 14},
                               {.heading = tr("Fixed mix"), .align = Align::right, .width = 10},
                               {.heading = tr("Laspeyres"), .align = Align::right, .width = 10},
                               {.heading = tr("Paasche"), .align = Align::right, .width = 9},
                               {.heading = tr("Pours"), .align = Align::right, .width = 7},
                               {.heading = tr("Area, ft\u00b2"), .align = Align::right, .width = 10},
                               {.heading = tr("Crew-hours"), .align = Align::right, .width = 10},
                               {.heading = tr("Pace, ft\u00b2/h"), .align = Align::right, .width = 11}},
                              desk, methodView_};
    months_->setEmptyText(tr("Nothing yet: enter tickets on the Ticket desk, and pours with hours, and the months fill up."));
    effects_ = new RecordTable{tr("Trend and seasons"),
                               {{.heading = tr("What"), .width = 14},
                                {.heading = tr("Season"), .width = 22, .stretches = true},
                                {.heading = tr("Effect, %"), .align = Align::right, .width = 10},
                                {.heading = tr("Low"), .align = Align::right, .width = 9},
                                {.heading = tr("High"), .align = Align::right, .width = 9},
                                {.heading = tr("Rests on"), .width = 16}},
                               desk, methodView_};
    effects_->setEmptyText(tr("Too short a history to tell seasons from a trend."));
    effects_->setFilterVisible(false);
    pace_ = new RecordTable{tr("Pace by what it may go with"),
                            {{.heading = tr("By"), .width = 18},
                             {.heading = tr("Which"), .width = 22, .stretches = true},
                             {.heading = tr("Pours"), .align = Align::right, .width = 7},
                             {.heading = tr("Area, ft\u00b2"), .align = Align::right, .width = 11},
                             {.heading = tr("Crew-hours"), .align = Align::right, .width = 10},
                             {.heading = tr("Pace, ft\u00b2/h"), .align = Align::right, .width = 11},
                             {.heading = tr("A tenth slower than"), .align = Align::right, .width = 16},
                             {.heading = tr("A tenth faster than"), .align = Align::right, .width = 16}},
                            desk, methodView_};
    pace_->setEmptyText(tr("No pour has both an area and hours yet."));
    pace_->setFilterVisible(false);
    auto* tabs = new QTabWidget{methodView_};
    tabs->addTab(months_, tr("Months"));
    tabs->addTab(effects_, tr("Trend and seasons"));
    tabs->addTab(pace_, tr("Pace by phase, type, crew"));
    auto* methodLayout = new QVBoxLayout{methodView_};
    methodLayout->setContentsMargins(0, grid(2), 0, 0);
    methodLayout->setSpacing(grid(2));
    methodLayout->addWidget(tabs, 1);
    methodLayout->addWidget(method_);
}

void SeasonsDetail::show(const PriceSeasons& prices, const PaceSeasons& pace)
{
    showCarry(prices);
    showMonths(prices, pace);
    showEffects(prices, pace);
    showPace(pace);
}

void SeasonsDetail::showCarry(const PriceSeasons& prices)
{
    std::vector<TableRow> rows;
    for (const auto& month : prices.carry)
        rows.push_back({{}, {monthCell(month.month), figureCell(month.delivered.value, 2), figureCell(month.delivered.low, 2), figureCell(month.delivered.high, 2)}, {}, false});
    carry_->setRows(std::move(rows));
    int low = 0;
    rows.clear();
    for (const auto& carried : prices.openQuotes) {
        const auto* job = desk_.book().find(carried.quote->job);
        const double missing = carried.expected.value - carried.carried.toDouble();
        low += carried.tooLow();
        const auto words = carried.tooLow() ? tr("$%1 short").arg(qs(Money::ofCents(std::llround(missing * 100)).shown())) : missing > 0 ? tr("in the range") : tr("enough");
        rows.push_back({{RecordKind::quote, carried.quote->id.value()},
                        {textCell(qs(carried.quote->number)), textCell(job ? qs(job->title) : QString{}), monthCell(carried.month), decimalCell(std::optional{carried.yards}, 1), moneyCell(carried.carried),
                         figureCell(carried.expected.value, 2), textCell(words, carried.tooLow() ? Tone::wrong : Tone::plain)},
                        {},
                        false});
    }
    quotes_->setRows(std::move(rows));
    rows.clear();
    for (const auto& basket : prices.suppliers)
        rows.push_back({{RecordKind::supplier, basket.supplier->id.value()},
                        {textCell(qs(basket.supplier->name)), moneyCell(basket.perYard), numberCell(basket.loads), decimalCell(std::optional{basket.yards}, 1)},
                        {},
                        false});
    suppliers_->setRows(std::move(rows));
    carryWords_->setText(prices.carry.empty() ? (prices.missing.empty() ? tr("No month ahead can be told.") : qs(prices.missing))
                                              : tr("A yard of what you bought in the last twelve months, delivered, as it is expected month by month; the truth lies between low and high four times in five.")
                                                    + (low > 0 ? u' ' + tr("Open quotes that carry less than that: %1.").arg(low) : QString{}));
}

void SeasonsDetail::showMonths(const PriceSeasons& prices, const PaceSeasons& pace)
{
    struct Both {
        const PriceMonth* price = nullptr;
        const PaceMonth* pace = nullptr;
    };
    std::map<Date, Both> months;
    for (const auto& month : prices.months) months[month.month].price = &month;
    for (const auto& month : pace.months) months[month.month].pace = &month;
    std::vector<TableRow> rows;
    for (const auto& [month, both] : months) {
        TableRow row;
        row.cells = {monthCell(month)};
        if (const auto* price = both.price)
            row.cells.insert(row.cells.end(), {numberCell(price->tickets), decimalCell(std::optional{price->yards}, 2), moneyCell(price->paid), moneyCell(price->base), moneyCell(price->delivered),
                                               figureCell(price->fixedMixIndex, 1), figureCell(price->laspeyres, 1), figureCell(price->paasche, 1)});
        else
            row.cells.insert(row.cells.end(), {numberCell(0), decimalCell(std::optional<Yards>{}, 2), moneyCell({}), moneyCell({}), moneyCell({}), figureCell({}, 1), figureCell({}, 1), figureCell({}, 1)});
        if (const auto* sum = both.pace ? &both.pace->sum : nullptr)
            row.cells.insert(row.cells.end(), {numberCell(sum->pours), numberCell(std::llround(sum->areaSqft)), hoursCell(sum->minutes), figureCell(sum->sqftPerCrewHour, 1)});
        else row.cells.insert(row.cells.end(), {numberCell(0), numberCell({}), minutesCell({}), figureCell({}, 1)});
        rows.push_back(std::move(row));
    }
    months_->setRows(std::move(rows));
    months_->sortBy(0, Qt::DescendingOrder);
}

void SeasonsDetail::showEffects(const PriceSeasons& prices, const PaceSeasons& pace)
{
    std::vector<TableRow> rows;
    const auto add = [&](const QString& what, const QString& season, const Estimate& effect, const QString& restsOn) {
        rows.push_back({{}, {textCell(what), textCell(season), figureCell(effect.value, 1), figureCell(effect.low, 1), figureCell(effect.high, 1), textCell(restsOn)}, {}, false});
    };
    const auto tickets = static_cast<int>(prices.tickets.size()), pours = static_cast<int>(pace.pours.size());
    if (prices.trendPercent) add(tr("Price"), tr("Trend, a year"), *prices.trendPercent, tr("%1 tickets").arg(tickets));
    for (const auto& season : prices.seasons) add(tr("Price"), qs(labelOf(season.season)), season.percent, tr("%1 tickets").arg(season.records));
    if (pace.trendPercent) add(tr("Pace"), tr("Trend, a year"), *pace.trendPercent, tr("%1 pours").arg(pours));
    for (const auto& season : pace.seasons) add(tr("Pace"), qs(labelOf(season.season)), season.percent, tr("%1 pours").arg(season.records));
    if (pace.percentPerTenDegrees) add(tr("Pace"), tr("Ten degrees \u00b0F warmer"), *pace.percentPerTenDegrees, tr("%1 pours").arg(pours));
    effects_->setRows(std::move(rows));
}

void SeasonsDetail::showPace(const PaceSeasons& pace)
{
    std::vector<TableRow> rows;
    const auto add = [&](const QString& by, const QString& which, const PaceSum& sum, RecordRef record = {}) {
        rows.push_back({record,
                        {textCell(by), textCell(which), numberCell(sum.pours), numberCell(std::llround(sum.areaSqft)), hoursCell(sum.minutes), figureCell(sum.sqftPerCrewHour, 1),
                         figureCell(sum.low, 1), figureCell(sum.high, 1)},
                        {},
                        false});
    };
    for (const auto& is : pace.bySeason) add(tr("Season"), qs(labelOf(is.season)), is.sum);
    for (const auto& is : pace.byPhase) add(tr("Phase"), qs(labelOf(is.phase)), is.sum);
    for (const auto& is : pace.byType) add(tr("Job type"), is.type ? qs(is.type->name) : tr("no type"), is.sum, is.type ? RecordRef{RecordKind::jobType, is.type->id.value()} : RecordRef{});
    for (const auto& is : pace.byCrewSize) add(tr("Crew"), is.crewSize == 1 ? tr("one person") : tr("%1 people").arg(is.crewSize), is.sum);
    for (const auto& is : pace.byAirTemp) add(tr("Air temperature"), tr("%1 to %2 \u00b0F").arg(is.fromF).arg(is.fromF + 9), is.sum);
    pace_->setRows(std::move(rows));
}

}
