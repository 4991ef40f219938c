#include "pages/what_pays/what_pays_page.h"

#include "chart_view.h"
#include "labels.h"
#include "plain_words.h"
#include "pages/what_pays/charge_form.h"
#include "quantity/words.h"
#include "review_charts.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QItemSelectionModel>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QTabBar>
#include <QTabWidget>
#include <QTableView>
#include <QVBoxLayout>

#include <cmath>

namespace strikeoff {

namespace {

std::optional<Money> moneyOf(std::optional<double> dollars) { return dollars ? std::optional{Money::ofCents(std::llround(*dollars * 100))} : std::nullopt; }

Cell dollarsPerHour(std::optional<double> figure) { return moneyCell(moneyOf(figure), figure && *figure < 0 ? Tone::wrong : Tone::plain); }

QComboBox* choice(const char* name, const QString& said, QWidget* parent)
{
    auto* box = new QComboBox{parent};
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(said);
    box->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    return box;
}

std::vector<TableRow> rowsOf(const WhatPays& review)
{
    std::vector<TableRow> rows;
    for (const auto& group : review.groups) {
        TableRow row;
        if (group.type) row.record = {RecordKind::jobType, group.type->value()};
        const auto percent = [](std::optional<double> share) { return decimalCell(share ? std::optional{Rate::ofUnits(std::llround(*share * 1'000'000))} : std::nullopt, 0); };
        row.cells = {textCell(qs(group.name)), numberCell(group.jobs), dollarsPerHour(group.perCrewHour.raw), dollarsPerHour(group.perCrewHour.estimate), dollarsPerHour(group.perCrewHour.low),
                     dollarsPerHour(group.perCrewHour.high), dollarsPerHour(group.afterOverhead.estimate), percent(group.chanceOfLoss), textCell(qs(group.sentence)),
                     numberCell(std::llround(group.areaSqft)), moneyCell(group.revenue), moneyCell(group.grossProfit, group.grossProfit < Money{} ? Tone::wrong : Tone::plain),
                     decimalCell(group.margin(), 1), decimalCell(std::optional{Quantity::ofUnits(divideHalfUp(static_cast<Int128>(group.crewMinutes.count()) * 1000, 60))}, 1),
                     decimalCell(group.winRate(), 0), numberCell(group.daysToPaid ? std::optional<std::int64_t>{*group.daysToPaid} : std::nullopt), numberCell(group.callBacks)};
        rows.push_back(std::move(row));
    }
    return rows;
}

constexpr int sentenceColumn = 8;

QScrollArea* scrolled(QWidget* chart, QWidget* parent)
{
    auto* area = new QScrollArea{parent};
    area->setWidget(chart);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    return area;
}

/// A picture alone on a tab, filling it or at its top.
QWidget* alone(ChartView* chart, int stretch, QWidget* parent)
{
    auto* tab = new QWidget{parent};
    auto* layout = new QVBoxLayout{tab};
    layout->setContentsMargins(0, grid(2), 0, 0);
    layout->addWidget(chart, stretch);
    if (stretch == 0) layout->addStretch(1);
    return tab;
}

}

WhatPaysPage::WhatPaysPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    leftOut_ = new RecordTable{tr("Jobs left out"),
                               {{.heading = tr("Job left out"), .width = 10}, {.heading = tr("Title"), .width = 26, .stretches = true}, {.heading = tr("Why"), .width = 30}},
                               desk, this};
    leftOut_->setEmptyText(tr("No job is left out."));
    connect(leftOut_, &RecordTable::opened, this, [this](const RecordRef& record) { this->desk().open(record); });
    charge_ = new ChargeForm{desk, this};

    tabs_ = new QTabWidget{this};
    tabs_->setDocumentMode(true);
    tabs_->tabBar()->setDrawBase(false);
    tabs_->addTab(makeGroupsTab(), tr("What pays"));
    tabs_->addTab(charge_, tr("What should I charge?"));
    tabs_->addTab(makeYearTab(), tr("Year beside year"));
    bids_ = new ChartView{tr("Bids against results"), this};
    tabs_->addTab(alone(bids_, 1, this), tr("Bids and results"));
    leads_ = new ChartView{tr("Leads to paid"), this};
    tabs_->addTab(alone(leads_, 0, this), tr("Leads to paid"));
    tabs_->addTab(leftOut_, tr("Left out"));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(tabs_);
}

WhatPaysPage::~WhatPaysPage() = default;

QWidget* WhatPaysPage::makeGroupsTab()
{
    auto* tab = new QWidget{this};
    by_ = choice("paysBy", tr("Group by"), tab);
    for (const auto& each : groupingChoices) by_->addItem(tr("by %1").arg(qs(each.label).toLower()));
    years_ = choice("paysYears", tr("Jobs done in"), tab);
    types_ = choice("paysType", tr("Job type"), tab);
    chart_ = new ChartView{tr("Gross profit per crew-hour"), this};
    chart_->setObjectName(QStringLiteral("paysChart"));
    sentence_ = makeLabel({}, TextSize::body, Tone::plain, tab);
    sentence_->setObjectName(QStringLiteral("paysSentence"));
    undecided_ = makeLabel({}, TextSize::small, Tone::quiet, tab);
    undecided_->setObjectName(QStringLiteral("paysUndecided"));
    groups_ = new RecordTable{tr("Job types"),
                              {{.heading = tr("Job type"), .width = 16},
                               {.heading = tr("Jobs"), .align = Align::right, .width = 6},
                               {.heading = tr("Per crew-hour, $"), .align = Align::right, .width = 14},
                               {.heading = tr("Estimate, $"), .align = Align::right, .width = 11},
                               {.heading = tr("80 % from, $"), .align = Align::right, .width = 12},
                               {.heading = tr("to, $"), .align = Align::right, .width = 9},
                               {.heading = tr("After overhead, $"), .align = Align::right, .width = 15},
                               {.heading = tr("Chance of loss, %"), .align = Align::right, .width = 15},
                               {.heading = tr("What it does"), .width = 50},
                               {.heading = tr("Area, ft\u00b2"), .align = Align::right, .width = 10},
                               {.heading = tr("Revenue, $"), .align = Align::right, .width = 13},
                               {.heading = tr("Gross profit, $"), .align = Align::right, .width = 13},
                               {.heading = tr("Margin, %"), .align = Align::right, .width = 9},
                               {.heading = tr("Crew-hours"), .align = Align::right, .width = 11},
                               {.heading = tr("Quotes won, %"), .align = Align::right, .width = 13},
                               {.heading = tr("Days, lead to paid"), .align = Align::right, .width = 15},
                               {.heading = tr("Call-backs"), .align = Align::right, .width = 10}},
                              desk(), this};
    groups_->setEmptyText(tr("Nothing to compare yet: a job counts once it is done, has hours, was bid and is billed."));
    groups_->setFilterVisible(false);
    connect(groups_, &RecordTable::opened, this, [this](const RecordRef& record) { desk().open(record); });
    // Which row's sentence is read: also where the rows are no records.
    connect(groups_->view().selectionModel(), &QItemSelectionModel::currentChanged, this, &WhatPaysPage::showSentence);
    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    for (auto* box : {by_, years_, types_}) {
        bar->addWidget(box);
        connect(box, &QComboBox::currentIndexChanged, this, &WhatPaysPage::showGroups);
    }
    bar->addStretch(1);
    auto* layout = new QVBoxLayout{tab};
    layout->setContentsMargins(0, grid(2), 0, 0);
    layout->setSpacing(grid(2));
    layout->addLayout(bar);
    layout->addWidget(scrolled(chart_, tab));
    layout->addWidget(groups_, 1);
    layout->addWidget(sentence_);
    layout->addWidget(undecided_);
    return tab;
}

QWidget* WhatPaysPage::makeYearTab()
{
    auto* tab = new QWidget{this};
    bridgeYears_ = choice("bridgeYears", tr("Years compared"), tab);
    connect(bridgeYears_, &QComboBox::currentIndexChanged, this, &WhatPaysPage::showYear);
    bridgeAnswer_ = makeLabel({}, TextSize::body, Tone::plain, tab);
    bridgeAnswer_->setObjectName(QStringLiteral("bridgeAnswer"));
    bridge_ = new ChartView{tr("What moved the profit"), this};
    bridge_->setObjectName(QStringLiteral("bridgeChart"));
    steps_ = new RecordTable{tr("What moved the profit"),
                             {{.heading = tr("What moved it"), .width = 24}, {.heading = tr("More or less, $"), .align = Align::right, .width = 14}, {.heading = tr("How"), .width = 50, .stretches = true}},
                             desk(), this};
    steps_->setEmptyText(tr("Two years in a row with finished jobs are needed."));
    steps_->setFilterVisible(false);
    auto* bar = new QHBoxLayout;
    bar->addWidget(bridgeYears_);
    bar->addStretch(1);
    auto* layout = new QVBoxLayout{tab};
    layout->setContentsMargins(0, grid(2), 0, 0);
    layout->setSpacing(grid(2));
    layout->addLayout(bar);
    layout->addWidget(bridgeAnswer_);
    layout->addWidget(scrolled(bridge_, tab));
    layout->addWidget(steps_, 1);
    return tab;
}

QString WhatPaysPage::question() const { return tr("Which work makes money?"); }

void WhatPaysPage::refresh()
{
    CostReckoner reckoner{desk().book()};
    jobs_ = finishedJobs(reckoner, desk().today());
    fillChoices();
    showGroups();
    showYear();
    charge_->setJobs(jobs_, reckoner);
    std::vector<TableRow> left;
    for (const auto& each : jobs_.leftOut) left.push_back({{RecordKind::job, each.job->id.value()}, {textCell(qs(each.job->number)), textCell(qs(each.job->title)), textCell(qs(each.why))}, {}, false});
    tabs_->setTabText(tabs_->indexOf(leftOut_), left.empty() ? tr("Left out") : tr("Left out (%1)").arg(left.size()));
    leftOut_->setRows(std::move(left));
}

/// Years and types there are now; what was chosen stays chosen while it is there.
void WhatPaysPage::fillChoices()
{
    const auto years = reviewYears(jobs_);
    const auto fill = [](QComboBox& box, const std::vector<std::pair<QString, QVariant>>& items) {
        const QSignalBlocker quiet{box};
        const auto chosen = box.currentData();
        box.clear();
        for (const auto& [words, value] : items) box.addItem(words, value);
        box.setCurrentIndex(std::max(0, box.findData(chosen)));
    };
    std::vector<std::pair<QString, QVariant>> done{{tr("all years"), 0}}, compared, types{{tr("all job types"), 0}};
    for (auto year = years.rbegin(); year != years.rend(); ++year) {
        done.emplace_back(tr("done in %1").arg(*year), *year);
        if (std::find(years.begin(), years.end(), *year - 1) != years.end()) compared.emplace_back(tr("%1 against %2").arg(*year).arg(*year - 1), *year);
    }
    for (std::size_t i = 0; i < jobs_.types.size(); ++i)
        if (jobs_.types[i]) types.emplace_back(withoutMnemonic(qs(jobs_.names[0][i])), static_cast<qlonglong>(jobs_.types[i]->value()));
    fill(*years_, done);
    fill(*types_, types);
    fill(*bridgeYears_, compared);
}

ReviewFilter WhatPaysPage::filter() const
{
    ReviewFilter filter;
    if (const int year = years_->currentData().toInt(); year > 0) {
        filter.from = Date::of(year, 1, 1);
        filter.to = Date::of(year, 12, 31);
    }
    if (const auto type = types_->currentData().toLongLong(); type > 0) filter.type = Id<JobType>{type};
    return filter;
}

void WhatPaysPage::showGroups()
{
    const auto review = whatPays(jobs_, static_cast<Grouping>(by_->currentIndex()), filter());
    answer_ = qs(review.answer);
    undecided_->setText(qs(review.undecidedSentence));
    undecided_->setVisible(!review.undecidedSentence.empty());
    undecided_->setToolTip(asPlainTip(qs(review.method)));
    auto columns = groups_->model().columns();
    columns[0].heading = qs(labelOf(review.by));
    groups_->model().setColumns(std::move(columns));
    groups_->setRows(rowsOf(review));
    showSentence();
    chart_->parentWidget()->parentWidget()->setVisible(!review.groups.empty());
    if (!review.groups.empty()) chart_->show(whatPaysChart(review), &desk());
    chart_->setAccessibleDescription(answer_);
    setHeights();
    bids_->show(bidsChart(jobs_, filter()), &desk());
    leads_->show(leadsToPaidChart(leadsToPaid(desk().book(), {.today = desk().today(), .from = filter().from, .to = filter().to, .jobType = filter().type})), &desk());
    leads_->setFixedHeight(leads_->heightFor(grid(200)));
    emit answerChanged();
}

void WhatPaysPage::showYear()
{
    const auto year = bridgeYears_->currentData().toInt();
    auto* area = bridge_->parentWidget()->parentWidget();
    if (year == 0) {
        bridgeAnswer_->setText({});
        area->setVisible(false);
        steps_->setRows({});
        return;
    }
    CostReckoner reckoner{desk().book()};
    const auto bridge = yearBridge(jobs_, reckoner, year - 1, year, desk().today());
    bridgeAnswer_->setText(qs(bridge.answer));
    std::vector<TableRow> rows;
    for (const auto& step : bridge.steps) rows.push_back({{}, {textCell(qs(step.name)), moneyCell(step.amount, step.amount < Money{} ? Tone::wrong : Tone::plain), textCell(qs(step.detail))}, {}, false});
    steps_->setRows(std::move(rows));
    area->setVisible(true);
    bridge_->show(yearBridgeChart(bridge), &desk());
    setHeights();
}

void WhatPaysPage::showSentence()
{
    const auto row = std::max(0, groups_->view().currentIndex().row());
    const auto& model = groups_->model();
    sentence_->setVisible(model.shownRows() > 0);
    if (row < model.shownRows()) sentence_->setText(model.cellAt(row, 0).text + QLatin1Char{' '} + model.cellAt(row, sentenceColumn).text + QLatin1Char{'.'});
}

/// A chart stands as high as it needs, up to what leaves the table under it a few rows.
void WhatPaysPage::setHeights()
{
    for (auto* chart : {chart_, bridge_}) {
        const auto needed = chart->heightFor(width() - grid(6));
        chart->setMinimumHeight(needed);
        chart->parentWidget()->parentWidget()->setFixedHeight(std::max(grid(30), std::min(needed + 2, height() * 13 / 20)));
    }
}

void WhatPaysPage::resizeEvent(QResizeEvent* event)
{
    Page::resizeEvent(event);
    setHeights();
}

RecordTable* WhatPaysPage::table() const
{
    const auto* tab = tabs_->currentWidget();
    return tab == leftOut_ ? leftOut_ : tabs_->currentIndex() == 2 ? steps_ : tabs_->currentIndex() == 1 ? charge_->table() : groups_;
}

void WhatPaysPage::takeFocus() { table()->view().setFocus(); }

}
