#include "pages/rates/hour_cost_page.h"

#include "chart_view.h"
#include "labels.h"
#include "labor/burden.h"
#include "ladder.h"
#include "quantity/words.h"
#include "table/record_table.h"

#include <QBoxLayout>
#include <QPushButton>
#include <QTableView>

#include <algorithm>

namespace strikeoff {

namespace {

QString shownPerHour(UnitPrice price) { return QStringLiteral("$") + qs(price.shown(2)); }

std::vector<Column> columns()
{
    std::vector<Column> made{{.heading = HourCostPage::tr("Hour of"), .width = 20, .stretches = true}};
    const auto figures = [&](const QString& heading, const QString& tip = {}) { made.push_back({.heading = heading, .align = Align::right, .width = 11, .tip = tip}); };
    figures(HourCostPage::tr("Worked, h"), HourCostPage::tr("In the twelve months the averages rest on; a dash where the rates in force are shown"));
    figures(HourCostPage::tr("Pay, $"), HourCostPage::tr("Straight pay with bonuses"));
    figures(HourCostPage::tr("Premium, $"), HourCostPage::tr("What overtime adds, over all hours"));
    figures(HourCostPage::tr("Taxes, $"), HourCostPage::tr("Social Security, Medicare, federal and state unemployment"));
    figures(HourCostPage::tr("Insurance, $"), HourCostPage::tr("Workers\u2019 compensation and liability"));
    figures(HourCostPage::tr("Leave, tools, $"));
    figures(HourCostPage::tr("True cost, $"));
    return made;
}

UnitPrice sumOf(const HourLadder& ladder, std::initializer_list<BurdenItem> items)
{
    UnitPrice sum;
    for (const auto item : items) sum += ladder.burden[static_cast<std::size_t>(item)];
    return sum;
}

TableRow rowOf(const HourLadder& ladder, const QString& name)
{
    using enum BurdenItem;
    const auto cell = [](UnitPrice price) { return decimalCell(std::optional{price}, 2); };
    return {ladder.person ? RecordRef{RecordKind::crewMember, ladder.person->id.value()} : RecordRef{},
            {textCell(name), minutesCell(ladder.worked > Minutes{} ? std::optional{ladder.worked} : std::nullopt), cell(ladder.pay), cell(ladder.premium),
             cell(sumOf(ladder, {socialSecurity, medicare, federalUnemployment, stateUnemployment})), cell(sumOf(ladder, {workersComp, liability})),
             cell(sumOf(ladder, {paidLeave, smallTools})), cell(ladder.total())},
            {},
            false};
}

}

HourCostPage::HourCostPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));
    missing_ = makeLabel({}, TextSize::body, Tone::attention, this);
    rows->addWidget(missing_);
    fill_ = makeButton("fillBurden", tr("Fill in the federal rates of 2023 to 2026"), nullptr, this);
    auto* bar = new QHBoxLayout;
    bar->addWidget(fill_);
    bar->addStretch(1);
    rows->addLayout(bar);
    whose_ = makeLabel({}, TextSize::body, Tone::plain, this);
    rows->addWidget(whose_);
    chart_ = new ChartView{tr("Ladder of an hour\u2019s cost"), this};
    rows->addWidget(chart_);
    overhead_ = makeLabel({}, TextSize::body, Tone::plain, this);
    rows->addWidget(overhead_);
    table_ = new RecordTable{tr("Cost of an hour"), columns(), desk, this};
    table_->setFilterVisible(false);
    table_->setEmptyText(tr("Nobody on the crew has a pay rate yet. Enter the crew and their pay on the tabs beside this one."));
    rows->addWidget(table_, 1);
    connect(table_, &RecordTable::currentChanged, this, &HourCostPage::showLadder);
    connect(table_, &RecordTable::opened, this, [this](const RecordRef& record) {
        if (record) this->desk().open(record);
    });
    connect(fill_, &QPushButton::clicked, this, &HourCostPage::fillTables);
}

void HourCostPage::refresh()
{
    const auto& book = desk().book();
    rates_ = crewRates(book, LaborCost{book}, desk().today());
    answer_ = qs(rates_.answer);
    missing_->setText(rates_.missing.empty() ? QString{} : qs(rates_.missing) + u' ' + tr("Set them on the tab Burden rates; ask whoever does your payroll."));
    missing_->setVisible(!rates_.missing.empty());
    fill_->setVisible(!burdenOnOffer(book).empty() && !desk().store().isReadOnly());
    std::vector<TableRow> rows;
    if (!rates_.people.empty()) rows.push_back(rowOf(rates_.crew, tr("The crew")));
    for (const auto& mine : rates_.people) rows.push_back(rowOf(mine, qs(mine.person->name)));
    table_->setRows(std::move(rows));

    const auto told = [](const YearOverhead& of) {
        if (!of.perHour) return tr("%1: no hours on jobs").arg(of.year);
        return tr("%1: $%2 over %3 h on jobs, $%4 an hour, %5 % of all hours").arg(of.toDate ? tr("%1 to date").arg(of.year) : QString::number(of.year),
            qs(of.overhead.shown()), qs(of.billable.shown()), qs(of.perHour->shown(2)), qs(of.billableShare->shown(0)));
    };
    overhead_->setText(tr("Overhead. %1. %2.").arg(told(rates_.lastYear), told(rates_.toDate)));
    overhead_->setVisible(!rates_.people.empty());
    showLadder();
    emit answerChanged();
}

void HourCostPage::showLadder()
{
    const auto chosen = table_->current();  // the crew's row names nobody
    const auto found = std::ranges::find_if(rates_.people, [&](const auto& mine) { return chosen == RecordRef{RecordKind::crewMember, mine.person->id.value()}; });
    const auto& ladder = found == rates_.people.end() ? rates_.crew : *found;
    std::vector<LadderStep> steps;
    const auto add = [&](const QString& name, UnitPrice price) {
        if (!price.isZero()) steps.push_back({name, price.toDouble(), shownPerHour(price)});
    };
    add(tr("Pay"), ladder.pay);
    add(tr("Overtime premium"), ladder.premium);
    for (std::size_t i = 0; i < burdenItemCount; ++i) add(qs(burdenItemChoices[i].label), ladder.burden[i]);
    const bool none = rates_.people.empty() || steps.empty();
    chart_->setVisible(!none);
    whose_->setVisible(!none);
    if (none) return;
    const LadderStep total{tr("True cost"), ladder.total().toDouble(), shownPerHour(ladder.total())};
    const auto name = ladder.person ? qs(ladder.person->name) : tr("The crew");
    whose_->setText(ladder.worked > Minutes{} ? tr("%1: an hour step by step, average of the last twelve months").arg(name)
                                              : tr("%1: an hour step by step, by the rates in force, without overtime").arg(name));
    if (!ladder.person) whose_->setText(whose_->text() + tr(". Choose a row below for one person\u2019s."));
    QStringList words;
    for (const auto& step : steps) words << step.name + u' ' + step.figure;
    chart_->setMinimumHeight(static_cast<int>(heightOfLadder(steps, windowChartStyle())) + grid(6));
    chart_->setMaximumHeight(static_cast<int>(heightOfLadder(steps, windowChartStyle())) + grid(6));
    chart_->show([steps, total](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintLadder(painter, area, steps, total, HourCostPage::tr("$ an hour"), style); },
                 words.join(QStringLiteral(", ")) + QStringLiteral(", ") + total.name + u' ' + total.figure);
}

void HourCostPage::fillTables()
{
    Edit edit{"Fill in the burden tables"};
    for (const auto& rate : burdenOnOffer(desk().book())) edit.add(rate);
    desk().commitOrSay(edit);
}

void HourCostPage::takeFocus() { table_->view().setFocus(); }

}
