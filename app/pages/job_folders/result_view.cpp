#include "pages/job_folders/result_view.h"

#include "cost/job_cost.h"
#include "labels.h"
#include "quantity/words.h"
#include "table/record_table.h"

#include <QVBoxLayout>

namespace strikeoff {

ResultView::ResultView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    words_ = makeLabel({}, TextSize::body, Tone::plain, this);
    table_ = new RecordTable{tr("Bid and result"),
                             {{.heading = tr("Class"), .width = 26},
                              {.heading = tr("Bid, $"), .align = Align::right, .width = 14},
                              {.heading = tr("Actual, $"), .align = Align::right, .width = 14},
                              {.heading = tr("Difference, $"), .align = Align::right, .width = 14},
                              {.heading = tr("In words"), .width = 24, .dashWhenBlank = false, .stretches = true}},
                             desk, this};
    table_->setFilterVisible(false);
    table_->setEmptyText(tr("Nothing was bid or spent on this job yet."));
    layout->addWidget(words_);
    layout->addWidget(table_, 1);
}

void ResultView::show(Id<Job> job)
{
    const auto report = costReport(desk_.book(), job);
    words_->setText(qs(report.answer));
    std::vector<TableRow> rows;
    if (!report.jobs.empty()) {
        const auto& cost = report.jobs.front();
        const auto row = [&](const QString& name, Money bid, Money actual, bool apart) {
            const auto difference = actual - bid;
            const auto words = difference.isZero() ? tr("as bid") : difference > Money{} ? tr("cost %1 more").arg(qs(dollars(difference))) : tr("cost %1 less").arg(qs(dollars(-difference)));
            const auto tone = difference > Money{} ? Tone::wrong : difference < Money{} ? Tone::well : Tone::plain;
            rows.push_back({{}, {textCell(name), moneyCell(bid), moneyCell(actual), moneyCell(difference, tone), textCell(words, tone)}, {}, apart});
        };
        for (const auto& part : cost.classes) row(qs(labelOf(part.costClass)), part.bid, part.actual, false);
        row(tr("All classes"), cost.bidCost, cost.actualCost, true);
    }
    table_->setRows(std::move(rows));
}

}
