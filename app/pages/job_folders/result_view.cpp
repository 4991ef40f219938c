#include "pages/job_folders/result_view.h"

#include "chart_view.h"
#include "cost_bridge.h"
#include "cost/causes.h"
#include "cost/forecast.h"
#include "cost/pace.h"
#include "labels.h"
#include "labor/overhead.h"
#include "quantity/words.h"
#include "table/record_table.h"

#include <QSplitter>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

ResultView::ResultView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    words_ = makeLabel({}, TextSize::body, Tone::plain, this);
    causes_ = makeLabel({}, TextSize::body, Tone::plain, this);
    figures_ = makeLabel({}, TextSize::body, Tone::quiet, this);
    pace_ = makeLabel({}, TextSize::body, Tone::quiet, this);
    chart_ = new ChartView{tr("Bid to result"), this};
    table_ = new RecordTable{tr("Bid and result"),
                             {{.heading = tr("Class"), .width = 20, .dashWhenBlank = false},
                              {.heading = tr("Why"), .width = 22, .dashWhenBlank = false},
                              {.heading = tr("Bid, $"), .align = Align::right, .width = 11, .dashWhenBlank = false},
                              {.heading = tr("Actual, $"), .align = Align::right, .width = 11, .dashWhenBlank = false},
                              {.heading = tr("Difference, $"), .align = Align::right, .width = 12},
                              {.heading = tr("How it came about"), .width = 30, .dashWhenBlank = false, .stretches = true}},
                             desk, this};
    table_->setFilterVisible(false);
    table_->setEmptyText(tr("Nothing was bid or spent on this job yet."));
    auto* both = new QSplitter{Qt::Vertical, this};
    both->setChildrenCollapsible(false);
    both->addWidget(chart_);
    both->addWidget(table_);
    both->setStretchFactor(0, 3);
    both->setStretchFactor(1, 2);
    layout->addWidget(words_);
    layout->addWidget(causes_);
    layout->addWidget(figures_);
    layout->addWidget(pace_);
    layout->addWidget(both, 1);
    chart_->setMinimumHeight(grid(62));
    table_->setMinimumHeight(grid(30));
}

void ResultView::show(Id<Job> job)
{
    const auto* row = desk_.book().find(job);
    if (!row) return;
    auto& reckoner = desk_.costs();
    const auto cost = reckoner.of(*row);
    const auto explained = explain(reckoner, *row);
    const auto forecast = forecastOf(reckoner, *row);
    const auto overhead = overheadOn(overheadByJob(desk_.book(), reckoner.labor(), desk_.today()), job);

    words_->setText(qs(explained.classes.empty() ? std::string{} : explained.answer));
    causes_->setText(qs(forecast.open && !explained.classes.empty() ? forecast.answer : causesInWords(explained)));
    setTone(*causes_, forecast.isHeadingForALoss() ? Tone::wrong : Tone::plain);
    for (auto* label : {words_, causes_}) label->setVisible(!label->text().isEmpty());

    std::vector<std::pair<QString, QString>> figures;
    if (cost.bidPrice) figures.emplace_back(tr("Price"), qs(dollars(*cost.bidPrice)));
    if (cost.grossProfit) {
        figures.emplace_back(cost.open ? tr("Gross profit so far") : tr("Gross profit"), qs(dollars(*cost.grossProfit)));
        figures.emplace_back(tr("Overhead on its crew-hours"), qs(dollars(overhead)));
        figures.emplace_back(tr("Net"), qs(dollars(*cost.grossProfit - overhead)));
    }
    if (const auto each = cost.grossProfitPerCrewHour()) figures.emplace_back(tr("Gross profit per crew-hour"), qs(dollars(*each)));
    showFigures(figures);
    pace_->setText(qs(paceInWords(paceOf(desk_.book(), *row))));
    pace_->setVisible(!pace_->text().isEmpty());
    showBridge(explained);
}

void ResultView::showFigures(const std::vector<std::pair<QString, QString>>& figures)
{
    QStringList parts;
    for (const auto& [name, figure] : figures) parts.append(name + QStringLiteral("\u00a0") + QString{figure}.replace(u' ', QChar{0x00a0}));
    figures_->setText(parts.join(QStringLiteral("  \u00b7  ")));
    figures_->setVisible(!parts.isEmpty());
}

void ResultView::showBridge(const JobExplanation& explained)
{
    const bool any = std::any_of(explained.classes.begin(), explained.classes.end(), [](const ClassExplanation& each) { return !each.because.empty(); });
    chart_->setVisible(any && !explained.bid.isZero());
    if (any)
        chart_->show([bridge = bridgeOf(explained)](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintWaterfall(painter, area, bridge, style); },
                     words_->text() + u' ' + causes_->text());

    std::vector<TableRow> rows;
    const auto toneOf = [](Money difference) { return difference > Money{} ? Tone::wrong : difference < Money{} ? Tone::well : Tone::plain; };
    for (const auto& each : explained.classes) {
        const auto tone = toneOf(each.difference());
        const std::string name{labelOf(each.costClass)};
        rows.push_back({{}, {textCell(qs(name)), {}, moneyCell(each.bid), moneyCell(each.actual), moneyCell(each.difference(), tone), textCell(qs(costMoreOrLess(each.difference())), tone)}, {}, false});
        for (const auto& reason : each.because)  // under its class, also when sorted by it
            rows.push_back({{}, {{{}, Value{name}, Tone::plain, {}}, textCell(qs(reason.name)), {}, {}, moneyCell(reason.amount), textCell(qs(reason.detail))}, qs(name), false});
    }
    if (!explained.classes.empty()) {
        const auto tone = toneOf(explained.difference());
        rows.push_back({{}, {textCell(tr("All classes")), {}, moneyCell(explained.bid), moneyCell(explained.actual), moneyCell(explained.difference(), tone), textCell(qs(costMoreOrLess(explained.difference())), tone)}, {}, true});
    }
    table_->setRows(std::move(rows));
}

}
