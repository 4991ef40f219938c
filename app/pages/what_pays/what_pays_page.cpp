#include "pages/what_pays/what_pays_page.h"

#include "bars.h"
#include "chart_view.h"
#include "labels.h"
#include "quantity/words.h"
#include "review/job_types.h"
#include "table/record_table.h"

#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

#include <cmath>

namespace strikeoff {

namespace {

QString reasonOf(const Book& book, const Job& job)
{
    const auto stage = stageOf(book, job);
    if (isOpenStage(stage) || stage == Stage::declined || stage == Stage::dropped) return qs(labelOf(stage));
    if (book.referring<&Hours::job>(job.id).empty()) return WhatPaysPage::tr("No hours");
    return WhatPaysPage::tr("%1, nothing billed").arg(qs(labelOf(stage)));
}

}

WhatPaysPage::WhatPaysPage(Desk& desk, QWidget* parent) : Page{desk, parent}
{
    chart_ = new ChartView{tr("Gross profit per crew-hour by job type"), this};
    types_ = new RecordTable{tr("Job types"),
                             {{.heading = tr("Job type"), .width = 20, .stretches = true},
                              {.heading = tr("Jobs"), .align = Align::right, .width = 6},
                              {.heading = tr("Area, ft\u00b2"), .align = Align::right, .width = 10},
                              {.heading = tr("Revenue, $"), .align = Align::right, .width = 13},
                              {.heading = tr("Cost, $"), .align = Align::right, .width = 13},
                              {.heading = tr("Gross profit, $"), .align = Align::right, .width = 13},
                              {.heading = tr("Margin, %"), .align = Align::right, .width = 9},
                              {.heading = tr("Crew-hours"), .align = Align::right, .width = 10},
                              {.heading = tr("Per crew-hour, $"), .align = Align::right, .width = 14}},
                             desk, this};
    types_->setEmptyText(tr("Nothing to compare yet: a job counts once it is done, has hours and is billed."));
    types_->setFilterVisible(false);
    leftOut_ = new RecordTable{tr("Jobs left out"),
                               {{.heading = tr("Job left out"), .width = 10}, {.heading = tr("Title"), .width = 26, .stretches = true}, {.heading = tr("Why"), .width = 22}},
                               desk, this};
    leftOut_->setEmptyText(tr("No job is left out."));
    connect(types_, &RecordTable::opened, this, [this](const RecordRef& record) { this->desk().open(record); });
    connect(leftOut_, &RecordTable::opened, this, [this](const RecordRef& record) { this->desk().open(record); });

    auto* lower = new QSplitter{Qt::Vertical, this};
    lower->addWidget(types_);
    lower->addWidget(leftOut_);
    lower->setStretchFactor(0, 3);
    lower->setStretchFactor(1, 2);
    lower->setChildrenCollapsible(false);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(3));
    layout->addWidget(chart_);
    layout->addWidget(lower, 1);
}

QString WhatPaysPage::question() const { return tr("Which work makes money?"); }

void WhatPaysPage::refresh()
{
    const auto& book = desk().book();
    const auto review = reviewJobTypes(book);
    answer_ = qs(review.answer);

    std::vector<Bar> bars;
    std::vector<TableRow> rows;
    for (const auto& type : review.types) {
        const auto perHour = type.perCrewHour();
        if (perHour) bars.push_back({qs(type.name), perHour->toDouble(), qs(dollars(*perHour)), type.jobs == 1 ? tr("1 job") : tr("%1 jobs").arg(type.jobs)});
        TableRow row;
        if (type.type) row.record = {RecordKind::jobType, type.type->id.value()};
        row.cells = {textCell(qs(type.name)), numberCell(type.jobs), numberCell(std::llround(type.areaSqft)), moneyCell(type.revenue), moneyCell(type.cost),
                     moneyCell(type.grossProfit, type.grossProfit < Money{} ? Tone::wrong : Tone::plain), decimalCell(type.margin(), 1),
                     decimalCell(std::optional{Quantity::ofUnits(divideHalfUp(static_cast<Int128>(type.crewMinutes.count()) * 1000, 60))}, 1), moneyCell(perHour)};
        rows.push_back(std::move(row));
    }
    types_->setRows(std::move(rows));
    chart_->setVisible(!bars.empty());
    const auto style = windowChartStyle();
    chart_->setFixedHeight(static_cast<int>(heightOfBars(bars, style)) + grid(6));
    chart_->show([bars](QPainter& painter, const QRectF& area, const ChartStyle& with) { paintBars(painter, area, bars, tr("gross profit before overhead, $ per crew-hour"), with); }, answer_);

    std::vector<TableRow> left;
    for (const auto* job : review.leftOut) left.push_back({{RecordKind::job, job->id.value()}, {textCell(qs(job->number)), textCell(qs(job->title)), textCell(reasonOf(book, *job))}, {}, false});
    leftOut_->setRows(std::move(left));
    emit answerChanged();
}

void WhatPaysPage::takeFocus() { types_->view().setFocus(); }

}
