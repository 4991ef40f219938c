#include "pages/money_in/invoice_list.h"

#include "chart_view.h"
#include "form/record_form.h"
#include "job/steps.h"
#include "labels.h"
#include "paper/papers.h"
#include "quantity/words.h"
#include "records/records_panel.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QPushButton>
#include <QVBoxLayout>

namespace strikeoff {

namespace {

Tone toneOf(InvoiceState state)
{
    switch (state) {
    case InvoiceState::late: return Tone::wrong;
    case InvoiceState::owed:
    case InvoiceState::overpaid: return Tone::attention;
    case InvoiceState::paid: return Tone::well;
    default: return Tone::quiet;
    }
}

std::optional<Money> unlessZero(Money money) { return money.isZero() ? std::nullopt : std::optional{money}; }

const Invoice& invoiceOf(const void* record) { return *static_cast<const Invoice*>(record); }

}

InvoiceList::InvoiceList(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(grid(2));
    auto* figures = new QHBoxLayout;
    figures->setSpacing(grid(2));
    const auto figure = [&](const char* name, const QString& tip) {
        auto* button = makeButton(name, {}, "paper", this);
        button->setCheckable(true);
        button->setToolTip(tip);
        figures->addWidget(button, 1);
        return button;
    };
    for (std::size_t i = 0; i < agingBucketChoices.size(); ++i) {
        auto* button = figure("age", tr("Press to see these only; press again to see all that is open."));
        connect(button, &QPushButton::clicked, this, [this, i](bool on) {
            bucket_ = on ? std::optional{static_cast<AgingBucket>(i)} : std::nullopt;
            heldOnly_ = false;
            which_->setCurrentIndex(openOnes);
            refresh();
        });
        ages_.push_back(button);
    }
    held_ = figure("retainageHeld", tr("Held back by customers until the work is accepted, and not billed yet. Press to see the invoices it was held on."));
    connect(held_, &QPushButton::clicked, this, [this](bool on) {
        heldOnly_ = on;
        bucket_.reset();
        which_->setCurrentIndex(on ? everyOne : openOnes);
        refresh();
    });
    column->addLayout(figures);

    line_ = new ChartView{tr("Open invoices by due day"), this};
    line_->setMinimumHeight(grid(36));
    line_->setMaximumHeight(grid(56));
    line_->setSpots([this](const QPointF& point, const QRectF& area, const ChartStyle& style) -> std::optional<ChartSpot> {
        const auto bar = dueBarAt(point, area, due_, style);
        if (!bar) return std::nullopt;
        return ChartSpot{dueTips_[*bar], [this, id = dueIds_[*bar]] { open(id); }};
    });
    column->addWidget(line_, 2);
    buildVerbs();
    buildPanel();
    column->addWidget(panel_, 5);
}

void InvoiceList::buildPanel()
{
    const auto reckoned = [this](const auto& cellOf) {
        return [this, cellOf](const Book&, const void* record) { return cellOf(invoiceOf(record), standing(invoiceOf(record))); };
    };
    using Standing = InvoiceStanding;
    const auto due = reckoned([](const Invoice& invoice, const Standing& now) {
        return invoice.issuedOn ? dateCell(now.due, now.state == InvoiceState::late ? Tone::wrong : Tone::plain) : Cell{};
    });
    const auto daysLate = reckoned([](const Invoice&, const Standing& now) { return numberCell(now.daysLate > 0 ? std::optional<std::int64_t>{now.daysLate} : std::nullopt); });
    const auto balance = reckoned([](const Invoice&, const Standing& now) { return moneyCell(unlessZero(now.total.balance)); });
    const auto total = reckoned([](const Invoice&, const Standing& now) { return moneyCell(now.total.total); });
    const auto retained = reckoned([](const Invoice&, const Standing& now) { return moneyCell(unlessZero(now.total.retained)); });
    const auto charge = reckoned([](const Invoice&, const Standing& now) { return moneyCell(unlessZero(now.lateCharge)); });
    const auto state = reckoned([](const Invoice&, const Standing& now) { return textCell(qs(labelOf(now.state)), toneOf(now.state)); });
    PanelSetup setup;
    setup.kind = RecordKind::invoice;
    setup.columns = {{.field = "number", .width = 8},
                     {.field = "job.customer", .width = 18},
                     {.field = {}, .heading = tr("Due"), .width = 12, .reckon = due},
                     {.field = {}, .heading = tr("Days late"), .width = 6, .reckon = daysLate, .align = Align::right, .dashWhenBlank = false},
                     {.field = {}, .heading = tr("Balance, $"), .width = 10, .reckon = balance, .align = Align::right, .dashWhenBlank = false, .sum = true},
                     {.field = {}, .heading = tr("State"), .width = 9, .reckon = state},
                     {.field = "issued_on", .width = 12},
                     {.field = {}, .heading = tr("Total, $"), .width = 11, .reckon = total, .align = Align::right, .sum = true},
                     {.field = {}, .heading = tr("Late charge, $"), .width = 9, .reckon = charge, .align = Align::right, .dashWhenBlank = false, .sum = true},
                     {.field = {}, .heading = tr("Retainage, $"), .width = 10, .reckon = retained, .align = Align::right, .dashWhenBlank = false, .sum = true},
                     {.field = "kind", .width = 10},
                     {.field = "job", .width = 8}};
    setup.filter = [this](const Book&, const void* record) { return isShown(invoiceOf(record)); };
    setup.layout = {{{{}, {{"number"}, {"kind"}, {"job"}, {"drafted_on"}, {"issued_on"}, {"due_on"}, {"tax_pct"}, {"retainage_pct"}, {"heading"}, {"terms"}, {"note"}}}}, {}};
    setup.formShare = 35;
    panel_ = new RecordsPanel{desk_, std::move(setup), this};
    table()->sortBy(2);  // what is due longest on top
    which_ = new QComboBox{this};
    which_->setObjectName(QStringLiteral("whichInvoices"));
    which_->setAccessibleName(tr("Which invoices"));
    which_->addItems({tr("open"), tr("drafts"), tr("all")});
    table()->bar().insertWidget(1, which_);
    connect(which_, &QComboBox::currentIndexChanged, this, [this](int which) {
        if (which != openOnes) bucket_.reset();
        if (which != everyOne) heldOnly_ = false;
        if (which == everyOne) table()->sortBy(0, Qt::DescendingOrder);
        else table()->sortBy(2);
        refresh();
    });
    connect(&panel_->form(), &RecordForm::dirtyChanged, this, &InvoiceList::showVerbs);
    connect(panel_, &RecordsPanel::recordShown, this, [this] {
        due_.chosen.reset();
        for (std::size_t i = 0; i < dueIds_.size(); ++i)
            if (chosen() && dueIds_[i] == chosen()->id.value()) due_.chosen = i;
        line_->update();
    });
}

void InvoiceList::buildVerbs()
{
    const auto verb = [&](const char* name, const QString& words, void (InvoiceList::*signal)(const Invoice&)) {
        auto* button = makeButton(name, words, nullptr, this);
        connect(button, &QPushButton::clicked, this, [this, signal] {
            if (const auto* invoice = chosen()) emit (this->*signal)(*invoice);
        });
        return button;
    };
    issue_ = makeButton("issueInvoice", tr("&Issue"), "main", this);
    connect(issue_, &QPushButton::clicked, this, &InvoiceList::issue);
    pay_ = verb("receivePayment", tr("Receive a &payment"), &InvoiceList::paymentWanted);
    credit_ = verb("writeCredit", tr("Write &credit"), &InvoiceList::creditWanted);
    account_ = verb("openAccount", tr("Statement of &account"), &InvoiceList::accountWanted);
    lines_ = verb("openLines", tr("&Lines"), &InvoiceList::linesWanted);
    folder_ = makeButton("openFolder", tr("J&ob folder"), nullptr, this);
    connect(folder_, &QPushButton::clicked, this, [this] {
        if (const auto* invoice = chosen()) desk_.open(invoice->job);
    });
    auto* verbs = new QHBoxLayout;
    verbs->setSpacing(grid(2));
    verbs->addWidget(makeLabel(tr("Chosen invoice:"), TextSize::body, Tone::quiet, this));
    for (auto* button : {issue_, lines_, pay_, credit_, account_, folder_}) verbs->addWidget(button);
    verbs->addStretch(1);
    static_cast<QVBoxLayout*>(layout())->addLayout(verbs);
}

RecordTable* InvoiceList::table() const { return panel_->table(); }

const Invoice* InvoiceList::chosen() const
{
    const auto record = panel_->form().record();
    return desk_.book().find(Id<Invoice>{record.id});
}

const InvoiceStanding& InvoiceList::standing(const Invoice& invoice) const
{
    const std::pair now{desk_.book().version(), desk_.today()};
    if (now != standingsOf_) standings_.clear();
    standingsOf_ = now;
    const auto found = standings_.find(invoice.id.value());
    if (found != standings_.end()) return found->second;
    return standings_.emplace(invoice.id.value(), standingOf(desk_.book(), invoice, desk_.today())).first->second;
}

bool InvoiceList::isShown(const Invoice& invoice) const
{
    const auto& now = standing(invoice);
    switch (which_->currentIndex()) {
    case drafts: return now.state == InvoiceState::draft;
    case everyOne: return !heldOnly_ || (!now.total.retained.isZero() && now.state != InvoiceState::draft);
    default: return now.state != InvoiceState::draft && !now.total.balance.isZero() && (!bucket_ || now.bucket == *bucket_);
    }
}

void InvoiceList::refresh()
{
    const auto owed = owedOn(desk_.book(), desk_.today());
    showAges(owed);
    showLine(owed);
    const bool none = desk_.book().count(RecordKind::invoice) == 0;
    table()->setEmptyText(none ? tr("No invoices yet. Open a job\u2019s folder and draft its deposit or final invoice there.")
                          : bucket_ ? tr("Nothing open is that old.")
                          : which_->currentIndex() == openOnes ? tr("Nobody owes anything.")
                          : which_->currentIndex() == drafts ? tr("No invoice waits to be issued.") : tr("No invoice holds retainage back."));
    panel_->refresh();
    showVerbs();
}

void InvoiceList::showAges(const Owed& owed)
{
    for (std::size_t i = 0; i < ages_.size(); ++i) {
        ages_[i]->setText(qs(agingBucketChoices[i].label) + QStringLiteral("\n") + qs(dollars(owed.buckets[i])));
        ages_[i]->setChecked(bucket_ == static_cast<AgingBucket>(i));
    }
    held_->setText(tr("Retainage held") + QStringLiteral("\n") + qs(dollars(retainageHeld(desk_.book()))));
    held_->setChecked(heldOnly_);
}

void InvoiceList::showLine(const Owed& owed)
{
    due_ = {desk_.today(), {}, {}};
    dueIds_.clear();
    dueTips_.clear();
    const auto* now = chosen();
    for (const auto& one : owed.invoices) {
        const auto customer = one.customer ? qs(one.customer->name) : QString{};
        if (now && now->id == one.invoice->id) due_.chosen = due_.bars.size();
        due_.bars.push_back({one.due, static_cast<double>(one.balance.cents()) / 100, customer, one.daysLate > 0});
        dueIds_.push_back(one.invoice->id.value());
        auto tip = tr("Invoice %1, %2\n%3 open, due %4").arg(qs(one.invoice->number), customer, qs(dollars(one.balance)), qs(one.due.shown()));
        if (one.daysLate > 0) tip += tr("\n%1 past due").arg(qs(counted(one.daysLate, "day", "days")));
        if (!one.lateCharge.isZero()) tip += tr(", late charge so far %1").arg(qs(dollars(one.lateCharge)));
        dueTips_.push_back(tip);
    }
    line_->setVisible(!due_.bars.empty());
    line_->show([this](QPainter& painter, const QRectF& area, const ChartStyle& style) { paintDueLine(painter, area, due_, style); }, qs(owed.answer));
}

void InvoiceList::showVerbs()
{
    const auto* invoice = chosen();
    const bool writable = !desk_.store().isReadOnly();
    const bool issued = invoice && invoice->issuedOn;
    issue_->setVisible(!issued);
    issue_->setEnabled(writable && invoice && !issued);
    pay_->setEnabled(writable && issued && standing(*invoice).total.balance > Money{});
    credit_->setEnabled(writable && issued && standing(*invoice).total.balance > Money{});
    for (auto* button : {account_, lines_, folder_}) button->setEnabled(invoice != nullptr);
    panel_->form().setLocked(issued ? tr("It was issued and stays as it is. A mistake is put right by a credit.") : QString{});
}

bool InvoiceList::open(std::int64_t id)
{
    const auto* invoice = desk_.book().find(Id<Invoice>{id});
    if (!invoice) return false;
    if (!isShown(*invoice)) {
        bucket_.reset();
        heldOnly_ = false;
        const auto& now = standing(*invoice);
        which_->setCurrentIndex(now.state == InvoiceState::draft ? drafts : now.total.balance.isZero() ? everyOne : openOnes);
        refresh();
    }
    return panel_->open(id);
}

void InvoiceList::issue()
{
    const auto* invoice = chosen();
    if (!invoice) return;
    const auto id = invoice->id.value();
    const auto step = issueInvoice(desk_.book(), *invoice, desk_.today());
    if (!step.possible()) return desk_.say(qs(step.obstacle) + u'.', Tone::attention);
    if (desk_.commitOrSay(*step.edit)) open(id);
}

std::optional<PaperDocument> InvoiceList::paper() const
{
    const auto* invoice = chosen();
    return invoice ? std::optional{invoicePaper(desk_.book(), *invoice, desk_.today())} : std::nullopt;
}

}
