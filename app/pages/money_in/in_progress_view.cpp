#include "pages/money_in/in_progress_view.h"

#include "cost/work_in_progress.h"
#include "labels.h"
#include "table/record_table.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

namespace strikeoff {

namespace {

/// A day a book is closed on: the last of December of the year before.
Date lastYearsEnd(Date today) { return Date::of(today.year() - 1, 12, 31).value_or(today); }

}

InProgressView::InProgressView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    const auto money = [](const QString& heading, const QString& tip = {}) {
        Column column{.heading = heading, .align = Align::right, .width = 10, .dashWhenBlank = false};
        column.tip = tip;
        column.sumDecimals = 2;
        return column;
    };
    table_ = new RecordTable{tr("Earned and billed"),
                             {{.heading = tr("Job"), .width = 5},
                              {.heading = tr("Title"), .width = 20, .stretches = true},
                              money(tr("Price, $"), tr("With the change orders accepted by the day, before tax")),
                              money(tr("Cost to date, $")),
                              money(tr("At completion, $"), tr("What the job cost in the end; of an open one what it is expected to cost")),
                              {.heading = tr("Rests on"), .width = 8},
                              {.heading = tr("Complete, %"), .align = Align::right, .width = 9, .tip = tr("Cost to date over cost at completion")},
                              money(tr("Earned, $"), tr("Price times what is complete")),
                              money(tr("Billed, $"), tr("Issued by the day, less credits, before tax")),
                              money(tr("Billed ahead, $"), tr("Billed and not earned yet (over-billed); with a minus, earned and not billed yet (under-billed)"))},
                             desk, this};
    table_->setEmptyText(tr("No job was in work at the end of this day. Choose another day: the last of the year is what whoever does your books asks for."));

    field_ = new QLineEdit{this};
    field_->setObjectName(QStringLiteral("inProgressDay"));
    field_->setAccessibleName(tr("At the end of which day"));
    field_->setMaximumWidth(grid(32));
    auto* yearEnd = makeButton("inProgressYearEnd", tr("Last year\u2019s end"), nullptr, this);
    auto* today = makeButton("inProgressToday", tr("Today"), nullptr, this);
    table_->bar().insertWidget(0, makeLabel(tr("At the end of"), TextSize::body, Tone::quiet, this));
    table_->bar().insertWidget(1, field_);
    table_->bar().insertWidget(2, today);
    table_->bar().insertWidget(3, yearEnd);

    answer_ = makeLabel({}, TextSize::body, Tone::plain, this);
    answer_->setObjectName(QStringLiteral("inProgressAnswer"));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    layout->addWidget(answer_);
    layout->addWidget(table_, 1);
    layout->addWidget(makeLabel(tr("Cost-to-cost; whoever does your books decides how work in progress is reported."), TextSize::small, Tone::quiet, this));

    connect(today, &QPushButton::clicked, this, [this] { turnTo(desk_.today()); });
    connect(yearEnd, &QPushButton::clicked, this, [this] { turnTo(lastYearsEnd(desk_.today())); });
    connect(field_, &QLineEdit::returnPressed, this, [this] {
        if (const auto day = Date::read(utf8(field_->text()), desk_.today())) turnTo(*day);
        else desk_.say(tr("Write the day like 12/31 or 2025-12-31."), Tone::attention);
    });
    connect(table_, &RecordTable::opened, this, [this](const RecordRef& record) { desk_.open(record); });
}

void InProgressView::turnTo(Date day)
{
    day_ = day == desk_.today() ? std::nullopt : std::optional{day};
    field_->setText(qs(day.shown()));
    refresh();
}

void InProgressView::refresh()
{
    const auto day = day_.value_or(desk_.today());
    if (!field_->hasFocus()) field_->setText(qs(day.shown()));
    const auto work = workInProgress(desk_.costs(), day);
    answer_->setText(qs(work.answer));
    std::vector<TableRow> rows;
    for (const auto& each : work.jobs) {
        const auto ahead = each.part.billed - each.part.earned;
        rows.push_back({{RecordKind::job, each.job->id.value()},
                        {textCell(qs(each.job->number)), textCell(qs(each.job->title)), moneyCell(each.price), moneyCell(each.costToDate), moneyCell(each.costAtCompletion),
                         textCell(each.isForecast ? tr("forecast") : tr("result")), Cell{qs(each.part.complete.shown(1)), Value{each.part.complete.units()}, Tone::plain, {}},
                         moneyCell(each.part.earned), moneyCell(each.part.billed), ahead.isZero() ? Cell{} : moneyCell(ahead, ahead < Money{} ? Tone::attention : Tone::plain)},
                        {}, false});
    }
    table_->setRows(std::move(rows));
}

PaperDocument InProgressView::paper() const { return table_->paper(tr("Earned and billed at the end of %1").arg(qs(day_.value_or(desk_.today()).shown()))); }

void InProgressView::takeFocus() { table_->view().setFocus(); }

}
