#include "pages/money_in/money_in_page.h"

#include "form/record_form.h"
#include "job/steps.h"
#include "labels.h"
#include "paper/paper_print.h"
#include "paper/papers.h"
#include "table/record_table.h"

#include <QBoxLayout>
#include <QPrinter>
#include <QPushButton>

#include <algorithm>

namespace strikeoff {

namespace {

std::vector<PanelSetup> tabs(const Desk& desk)
{
    const auto balance = [&desk](const Book& book, const void* record) { return moneyCell(totalOf(book, *static_cast<const Invoice*>(record), desk.today()).balance); };
    const auto total = [](const Book& book, const void* record) { return moneyCell(totalOf(book, *static_cast<const Invoice*>(record)).total); };
    const auto state = [&desk](const Book& book, const void* record) {
        const auto& invoice = *static_cast<const Invoice*>(record);
        if (!invoice.issuedOn) return textCell(MoneyInPage::tr("Draft"), Tone::quiet);
        if (totalOf(book, invoice, desk.today()).balance <= Money{}) return textCell(MoneyInPage::tr("Paid"), Tone::well);
        return dueDay(book, invoice) < desk.today() ? textCell(MoneyInPage::tr("Late"), Tone::wrong) : textCell(MoneyInPage::tr("Owed"), Tone::attention);
    };
    std::vector<PanelSetup> tabs;
    tabs.push_back({.kind = RecordKind::invoice,
                    .columns = {{.field = "number"}, {.field = "job.customer", .width = 20}, {.field = "job"}, {.field = "kind"}, {.field = "issued_on"}, {.field = "due_on"},
                                {.field = {}, .heading = MoneyInPage::tr("Total, $"), .width = 12, .reckon = total, .align = Align::right},
                                {.field = {}, .heading = MoneyInPage::tr("Balance, $"), .width = 12, .reckon = balance, .align = Align::right},
                                {.field = {}, .heading = MoneyInPage::tr("State"), .width = 8, .reckon = state}},
                    .emptyText = MoneyInPage::tr("No invoices yet. Open a job\u2019s folder and draft its deposit or final invoice there."), .sortBy = "number", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::invoiceLine, .emptyText = MoneyInPage::tr("No invoice lines yet.")});
    tabs.push_back({.kind = RecordKind::payment, .emptyText = MoneyInPage::tr("No payments yet. Press New when money comes in."), .sortBy = "received_on", .order = Qt::DescendingOrder});
    tabs.push_back({.kind = RecordKind::paymentShare, .name = MoneyInPage::tr("Split over invoices"), .emptyText = MoneyInPage::tr("No payment is split over invoices yet.")});
    tabs.push_back({.kind = RecordKind::credit, .emptyText = MoneyInPage::tr("No credits. A mistake on an issued invoice is put right by one.")});
    return tabs;
}

}

MoneyInPage::MoneyInPage(Desk& desk, QWidget* parent) : RecordsPage{desk, tr("Who owes me?"), tabs(desk), parent}
{
    auto* column = static_cast<QBoxLayout*>(layout());
    column->setSpacing(grid(2));
    auto* figures = new QHBoxLayout;
    figures->setSpacing(grid(2));
    for (std::size_t i = 0; i < agingBucketChoices.size(); ++i) {
        auto* button = makeButton("age", {}, "paper", this);
        button->setCheckable(true);
        connect(button, &QPushButton::clicked, this, [this, i](bool on) {
            narrowed_ = on ? std::optional{static_cast<AgingBucket>(i)} : std::nullopt;
            refresh();
        });
        figures->addWidget(button, 1);
        ages_.push_back(button);
    }
    column->insertLayout(0, figures);
    owed_ = new RecordTable{tr("Owed"),
                            {{.heading = tr("Invoice"), .width = 9},
                             {.heading = tr("Customer"), .width = 24, .stretches = true},
                             {.heading = tr("Job"), .width = 8},
                             {.heading = tr("Due"), .width = 13},
                             {.heading = tr("Balance, $"), .align = Align::right, .width = 13},
                             {.heading = tr("Days late"), .align = Align::right, .width = 9, .dashWhenBlank = false},
                             {.heading = tr("Age"), .width = 13},
                             {.heading = tr("Late charge, $"), .align = Align::right, .width = 13}},
                            desk, this};
    owed_->setFilterVisible(false);
    owed_->setFixedHeight(grid(52));
    owed_->setEmptyText(tr("Nobody owes anything."));
    connect(owed_, &RecordTable::currentChanged, this, [this](const RecordRef& record) {
        if (record) openRecord(record.kind, record.id);
    });
    column->insertWidget(1, owed_);
    issue_ = makeButton("issueInvoice", tr("Issue"), nullptr, this);
    panel(RecordKind::invoice)->form().buttons().insertWidget(0, issue_);
    connect(issue_, &QPushButton::clicked, this, &MoneyInPage::issue);
    connect(panel(RecordKind::invoice), &RecordsPanel::recordShown, this, [this] { issue_->setEnabled(chosen() && !chosen()->issuedOn); });
    panel(RecordKind::payment)->form().setAlso([this](Edit& edit, const Row& row) {
        if (edit.changes().empty() || edit.changes().front().what != ChangeType::add) return;
        auto payment = recordOf<Payment>(row);
        payment.id = Id<Payment>{edit.changes().front().row.id};
        addShares(edit, this->desk().book(), payment);
    });
}

const Invoice* MoneyInPage::chosen() const { return desk().book().find(Id<Invoice>{panel(RecordKind::invoice)->form().record().id}); }

int MoneyInPage::waiting() const
{
    const auto owed = owedOn(desk().book(), desk().today());
    return static_cast<int>(std::ranges::count_if(owed.invoices, [](const auto& invoice) { return invoice.daysLate > 0; }));
}

void MoneyInPage::refresh()
{
    const auto owed = owedOn(desk().book(), desk().today());
    answer_ = qs(owed.answer);
    for (std::size_t i = 0; i < ages_.size(); ++i) {
        ages_[i]->setText(qs(agingBucketChoices[i].label) + QStringLiteral("\n$") + qs(owed.buckets[i].shown()));
        ages_[i]->setChecked(narrowed_ == static_cast<AgingBucket>(i));
    }
    showOwed(owed);
    RecordsPage::refresh();
}

void MoneyInPage::showOwed(const Owed& owed)
{
    const auto& book = desk().book();
    std::vector<TableRow> rows;
    for (const auto& each : owed.invoices) {
        if (narrowed_ && each.bucket != *narrowed_) continue;
        const auto* job = book.find(each.invoice->job);
        const auto tone = each.daysLate > 0 ? Tone::wrong : Tone::plain;
        rows.push_back({{RecordKind::invoice, each.invoice->id.value()},
                        {textCell(qs(each.invoice->number)), textCell(each.customer ? qs(each.customer->name) : QString{}), textCell(job ? qs(job->number) : QString{}), dateCell(each.due, tone),
                         moneyCell(each.balance), numberCell(each.daysLate > 0 ? std::optional<std::int64_t>{each.daysLate} : std::nullopt), textCell(qs(labelOf(each.bucket)), tone),
                         moneyCell(each.lateCharge.isZero() ? std::nullopt : std::optional{each.lateCharge})},
                        {}, false});
    }
    owed_->setRows(std::move(rows));
}

void MoneyInPage::issue()
{
    const auto* invoice = chosen();
    if (!invoice || invoice->issuedOn) return;
    const auto step = issueInvoice(desk().book(), *invoice, desk().today());
    if (!step.possible()) return desk().say(qs(step.obstacle), Tone::attention);
    desk().commitOrSay(*step.edit);
}

void MoneyInPage::print(QPrinter& printer) const
{
    const auto& book = desk().book();
    const auto* invoice = chosen();
    if (!invoice) return Page::print(printer);
    const auto paper = invoicePaper(book, *invoice, desk().today());
    setUpPage(printer, paper);
    strikeoff::print(printer, paper);
}

}
