#include "pages/job_folders/job_folder_view.h"

#include "billing/billing.h"
#include "cost/job_cost.h"
#include "form/record_form.h"
#include "labels.h"
#include "paper/papers.h"
#include "quantity/words.h"
#include "records/records_panel.h"
#include "table/record_table.h"
#include "takeoff/takeoff.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace strikeoff {

namespace {

/// Of a kind's rows, those of one job: directly, or through the paper they stand on.
RecordFilter ofJob(RecordKind kind, Id<Job> job)
{
    switch (kind) {
    case RecordKind::job: return [job](const Book&, const void* record) { return static_cast<const Job*>(record)->id == job; };
    case RecordKind::quoteLine:
        return [job](const Book& book, const void* record) {
            const auto* quote = book.find(static_cast<const QuoteLine*>(record)->quote);
            return quote && quote->job == job;
        };
    case RecordKind::invoiceLine:
        return [job](const Book& book, const void* record) {
            const auto* invoice = book.find(static_cast<const InvoiceLine*>(record)->invoice);
            return invoice && invoice->job == job;
        };
    default: {
        const auto* field = findField(describe(kind), "job");
        return [job, field](const Book&, const void* record) { return field->get(record) == Value{job.value()}; };
    }
    }
}

QString count(std::size_t rows, const char* one, const char* many) { return qs(counted(static_cast<std::int64_t>(rows), one, many)); }

QString yardsText(double yards) { return qs(Quantity::ofUnits(std::llround(yards * 1000)).shown(2)) + QStringLiteral(" yd\u00b3"); }

}

JobFolderView::JobFolderView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    auto* head = new QHBoxLayout;
    auto* back = makeButton("allFolders", tr("All folders"), "link", this);
    connect(back, &QPushButton::clicked, this, &JobFolderView::backWanted);
    title_ = makeLabel({}, TextSize::question, Tone::plain, this);
    title_->setWordWrap(false);
    state_ = makeLabel({}, TextSize::body, Tone::quiet, this);
    head->addWidget(back);
    head->addWidget(title_);
    head->addWidget(state_, 1);
    layout->addLayout(head);
    run_ = new QHBoxLayout;
    run_->setSpacing(grid(1));
    layout->addLayout(run_);
    verbs_ = new QHBoxLayout;
    verbs_->setSpacing(grid(2));
    layout->addLayout(verbs_);
    stack_ = new QStackedWidget{this};
    layout->addWidget(stack_, 1);

    addPaper(tr("Job"), {RecordKind::job});
    addPaper(tr("Takeoff"), {RecordKind::takeoffSection});
    addPaper(tr("Quote"), {RecordKind::quote, RecordKind::quoteLine, RecordKind::changeOrder});
    addPaper(tr("Pours"), {RecordKind::pour});
    addPaper(tr("Tickets & hours"), {RecordKind::ticket, RecordKind::hours, RecordKind::receipt});
    addPaper(tr("Visits"), {RecordKind::visit});
    addPaper(tr("Invoices"), {RecordKind::invoice, RecordKind::invoiceLine});
    addPaper(tr("Result"), {});

    addVerb("quoteSend", tr("Send quote"), {RecordKind::quote}, [this] { sendQuote(); });
    addVerb("quoteAccept", tr("Accepted"), {RecordKind::quote}, [this] { answerQuote(true); });
    addVerb("quoteDecline", tr("Declined"), {RecordKind::quote}, [this] { answerQuote(false); });
    addVerb("quoteRevise", tr("New revision"), {RecordKind::quote}, [this] { reviseQuote(); });
    addVerb("invoiceDeposit", tr("Draft deposit"), {RecordKind::invoice}, [this] { draft(InvoiceKind::deposit); });
    addVerb("invoiceFinal", tr("Draft final"), {RecordKind::invoice}, [this] { draft(InvoiceKind::final); });
    addVerb("invoiceIssue", tr("Issue"), {RecordKind::invoice}, [this] { issueInvoice(); });
    addVerb("invoicePaid", tr("Paid in full today"), {RecordKind::invoice}, [this] { receivePayment(); });
    verbs_->addStretch(1);
}

void JobFolderView::addPaper(const QString& name, std::vector<RecordKind> kinds)
{
    Paper paper{name, kinds, makeButton("paper", name, nullptr, this), stack_->count()};
    paper.button->setCheckable(true);
    paper.button->setMinimumHeight(grid(12));
    const auto place = papers_.size();
    connect(paper.button, &QPushButton::clicked, this, [this, place] { choose(place); });
    run_->addWidget(paper.button, 1);
    if (kinds.empty()) {
        auto* view = new QWidget{this};
        auto* inside = new QVBoxLayout{view};
        inside->setContentsMargins(0, 0, 0, 0);
        resultWords_ = makeLabel({}, TextSize::body, Tone::plain, view);
        result_ = new RecordTable{tr("Bid and result"),
                                  {{.heading = tr("Class"), .width = 26},
                                   {.heading = tr("Bid, $"), .align = Align::right, .width = 14},
                                   {.heading = tr("Actual, $"), .align = Align::right, .width = 14},
                                   {.heading = tr("Difference, $"), .align = Align::right, .width = 14},
                                   {.heading = tr("In words"), .width = 24, .dashWhenBlank = false, .stretches = true}},
                                  desk_, view};
        result_->setFilterVisible(false);
        result_->setEmptyText(tr("Nothing was bid or spent on this job yet."));
        inside->addWidget(resultWords_);
        inside->addWidget(result_, 1);
        stack_->addWidget(view);
    } else {
        auto* tabs = new QTabWidget{this};
        tabs->setDocumentMode(true);
        for (const auto kind : kinds) {
            auto* panel = new RecordsPanel{desk_, {.kind = kind}, tabs};
            connect(panel, &RecordsPanel::recordShown, this, &JobFolderView::showVerbs);
            panels_.emplace_back(kind, panel);
            tabs->addTab(panel, qs(describe(kind).plural));
        }
        tabs->tabBar()->setVisible(kinds.size() > 1);
        connect(tabs, &QTabWidget::currentChanged, this, &JobFolderView::showVerbs);
        stack_->addWidget(tabs);
    }
    papers_.push_back(std::move(paper));
}

void JobFolderView::addVerb(const char* name, const QString& words, std::vector<RecordKind> on, std::function<void()> act)
{
    auto* button = makeButton(name, words, nullptr, this);
    connect(button, &QPushButton::clicked, this, [act = std::move(act)] { act(); });
    verbs_->addWidget(button);
    verbList_.push_back({button, std::move(on)});
}

RecordsPanel* JobFolderView::panel(RecordKind kind) const
{
    const auto found = std::ranges::find_if(panels_, [&](const auto& entry) { return entry.first == kind; });
    return found == panels_.end() ? nullptr : found->second;
}

void JobFolderView::setJob(Id<Job> job)
{
    if (job == job_) return refresh();
    job_ = job;
    for (const auto& [kind, panel] : panels_) {
        Presets presets;
        if (findField(describe(kind), "job")) presets.emplace_back("job", Value{job.value()});
        panel->setFilter(ofJob(kind, job), std::move(presets));
    }
    refresh();
}

void JobFolderView::refresh()
{
    const auto* job = desk_.book().find(job_);
    if (!job) return emit backWanted();
    const auto stage = stageOf(desk_.book(), *job);
    title_->setText(tr("Job %1: %2").arg(qs(job->number), qs(job->title)));
    const auto next = nextThing(desk_.book(), *job, stage);
    state_->setText(next.empty() ? qs(labelOf(stage)) : tr("%1; next: %2").arg(qs(labelOf(stage)), qs(next)));
    // A quote's or an invoice's lines begin on the newest paper.
    if (const auto quotes = desk_.book().referring<&Quote::job>(job_); !quotes.empty())
        panel(RecordKind::quoteLine)->setFilter(ofJob(RecordKind::quoteLine, job_), {{"quote", Value{quotes.back()->id.value()}}});
    if (const auto invoices = desk_.book().referring<&Invoice::job>(job_); !invoices.empty())
        panel(RecordKind::invoiceLine)->setFilter(ofJob(RecordKind::invoiceLine, job_), {{"invoice", Value{invoices.back()->id.value()}}});
    showFigures();
    choose(chosen_);
}

void JobFolderView::choose(std::size_t paper)
{
    chosen_ = paper;
    for (std::size_t i = 0; i < papers_.size(); ++i) papers_[i].button->setChecked(i == paper);
    stack_->setCurrentIndex(papers_[paper].place);
    for (const auto kind : papers_[paper].kinds) panel(kind)->refresh();
    if (papers_[paper].kinds.empty()) showResult();
    if (papers_[paper].kinds == std::vector{RecordKind::job}) panel(RecordKind::job)->open(job_.value());
    showVerbs();
}

void JobFolderView::showFigures()
{
    const auto& book = desk_.book();
    const auto& job = book.get(job_);
    const auto takeoff = takeoffOf(book, job_);
    const auto bid = bidOf(book, job_);
    const auto pours = book.referring<&Pour::job>(job_);
    const auto poured = std::ranges::count_if(pours, [](const auto* pour) { return pour->pouredOn.has_value(); });
    const auto visits = book.referring<&Visit::job>(job_);
    const auto open = std::ranges::count_if(visits, [](const auto* visit) { return visit->isOpen(); });
    const auto billing = billingOf(book, job_);
    const auto cost = jobCost(book, job);
    const std::array<QString, 8> figures{
        job.jobType ? qs(book.get(*job.jobType).name) : tr("no type"),
        takeoff.areaSqft > 0 ? tr("%1 ft\u00b2, order %2").arg(qs(shownDecimal(std::llround(takeoff.areaSqft), 0, 0)), yardsText(takeoff.ordered.toDouble())) : tr("nothing measured"),
        bid ? qs("$" + bid->price.shown(0)) : tr("none yet"),
        pours.empty() ? tr("none planned") : tr("%1 of %2 poured").arg(poured).arg(pours.size()),
        count(book.referring<&Ticket::job>(job_).size(), "ticket", "tickets"),
        visits.empty() ? tr("none") : open == 0 ? tr("all done") : tr("%1 open").arg(open),
        billing.anyIssued ? (billing.balance.isZero() ? tr("paid") : tr("$%1 owed").arg(qs(billing.balance.shown(0)))) : tr("none issued"),
        cost.grossProfit && !cost.actualCost.isZero() ? qs(cost.grossProfit->shown(0)).prepend(QStringLiteral("$")) + (cost.open ? tr(" so far") : QString{}) : tr("nothing spent"),
    };
    for (std::size_t i = 0; i < papers_.size(); ++i) papers_[i].button->setText(withoutMnemonic(papers_[i].name) + u'\n' + withoutMnemonic(figures[i]));
}

void JobFolderView::showResult()
{
    const auto& book = desk_.book();
    const auto report = costReport(book, job_);
    resultWords_->setText(qs(report.answer));
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
    result_->setRows(std::move(rows));
}

void JobFolderView::showVerbs()
{
    const auto* tabs = qobject_cast<QTabWidget*>(stack_->currentWidget());
    const auto& kinds = papers_[chosen_].kinds;
    const auto kind = tabs && !kinds.empty() ? kinds[static_cast<std::size_t>(std::max(tabs->currentIndex(), 0))] : noKind;
    for (const auto& verb : verbList_) verb.button->setVisible(std::ranges::find(verb.on, kind) != verb.on.end());
    for (const auto& verb : verbList_) {
        const auto name = verb.button->objectName();
        const auto* quote = chosenQuote();
        const auto* invoice = chosenInvoice();
        if (name == QStringLiteral("quoteSend")) verb.button->setEnabled(quote && !quote->sentOn);
        else if (name == QStringLiteral("quoteAccept") || name == QStringLiteral("quoteDecline")) verb.button->setEnabled(quote && quote->sentOn && !quote->acceptedOn && !quote->declinedOn);
        else if (name == QStringLiteral("quoteRevise")) verb.button->setEnabled(quote && quote->sentOn && !quote->acceptedOn);
        else if (name == QStringLiteral("invoiceIssue")) verb.button->setEnabled(invoice && !invoice->issuedOn);
        else if (name == QStringLiteral("invoicePaid")) verb.button->setEnabled(invoice && invoice->issuedOn && totalOf(desk_.book(), *invoice).balance > Money{});
    }
}

const Quote* JobFolderView::chosenQuote() const
{
    const auto record = panel(RecordKind::quote)->form().record();
    return desk_.book().find(Id<Quote>{record.id});
}

const Invoice* JobFolderView::chosenInvoice() const
{
    const auto record = panel(RecordKind::invoice)->form().record();
    return desk_.book().find(Id<Invoice>{record.id});
}

void JobFolderView::sendQuote()
{
    const auto* quote = chosenQuote();
    if (!quote) return;
    auto sent = *quote;
    sent.sentOn = desk_.today();
    if (!sent.validUntil) sent.validUntil = desk_.today() + desk_.book().settings().quoteValidDays;
    Edit edit{"Send quote " + sent.number};
    edit.change(sent);
    desk_.commitOrSay(edit);
}

void JobFolderView::answerQuote(bool accepted)
{
    const auto* quote = chosenQuote();
    if (!quote) return;
    auto answered = *quote;
    (accepted ? answered.acceptedOn : answered.declinedOn) = desk_.today();
    Edit edit{(accepted ? "Quote accepted: " : "Quote declined: ") + answered.number};
    edit.change(answered);
    desk_.commitOrSay(edit);
}

void JobFolderView::reviseQuote()
{
    const auto* quote = chosenQuote();
    if (!quote) return;
    auto next = *quote;
    for (const auto* other : desk_.book().referring<&Quote::job>(job_))
        if (other->number == quote->number) next.issue = std::max(next.issue, other->issue);
    ++next.issue;
    next.draftedOn = desk_.today();
    next.sentOn = next.validUntil = next.acceptedOn = next.declinedOn = std::nullopt;
    next.declinedReason.clear();
    Edit edit{"New revision of quote " + next.number};
    const auto lines = desk_.book().referring<&QuoteLine::quote>(quote->id);
    const auto id = edit.add(next);
    for (const auto* line : lines) {
        auto copy = *line;
        copy.quote = id;
        edit.add(copy);
    }
    desk_.commitOrSay(edit);
}

void JobFolderView::draft(InvoiceKind kind)
{
    const auto& job = desk_.book().get(job_);
    const auto drafted = draftInvoice(desk_.book(), job, kind, desk_.today());
    if (!drafted) return desk_.say(tr("There is nothing to bill: a quote has to be accepted first, and what was billed is not billed again."), Tone::attention);
    Edit edit{"Draft invoice for job " + job.number};
    const auto id = edit.add(drafted->invoice);
    for (auto line : drafted->lines) {
        line.invoice = id;
        edit.add(line);
    }
    desk_.commitOrSay(edit);
}

void JobFolderView::issueInvoice()
{
    const auto* invoice = chosenInvoice();
    if (!invoice) return;
    auto issued = *invoice;
    issued.issuedOn = desk_.today();
    if (!issued.dueOn) issued.dueOn = dueDay(desk_.book(), issued);
    Edit edit{"Issue invoice " + issued.number};
    edit.change(issued);
    desk_.commitOrSay(edit);
}

void JobFolderView::receivePayment()
{
    const auto* invoice = chosenInvoice();
    if (!invoice) return;
    const auto balance = totalOf(desk_.book(), *invoice).balance;
    Payment payment;
    payment.customer = desk_.book().get(job_).customer;
    payment.receivedOn = desk_.today();
    payment.amount = balance;
    Edit edit{"Payment for invoice " + invoice->number};
    PaymentShare share;
    share.payment = edit.add(payment);
    share.invoice = invoice->id;
    share.amount = balance;
    edit.add(share);
    desk_.commitOrSay(edit);
}

bool JobFolderView::openRecord(RecordKind kind, std::int64_t id)
{
    for (std::size_t i = 0; i < papers_.size(); ++i) {
        const auto found = std::ranges::find(papers_[i].kinds, kind);
        if (found == papers_[i].kinds.end()) continue;
        choose(i);
        if (auto* tabs = qobject_cast<QTabWidget*>(stack_->currentWidget())) tabs->setCurrentIndex(static_cast<int>(found - papers_[i].kinds.begin()));
        return panel(kind)->open(id);
    }
    return false;
}

std::optional<Id<Job>> JobFolderView::jobOf(const Book& book, RecordKind kind, std::int64_t id)
{
    if (kind == RecordKind::job) return Id<Job>{id};
    if (const auto* line = kind == RecordKind::quoteLine ? book.find(Id<QuoteLine>{id}) : nullptr) return jobOf(book, RecordKind::quote, line->quote.value());
    if (const auto* line = kind == RecordKind::invoiceLine ? book.find(Id<InvoiceLine>{id}) : nullptr) return jobOf(book, RecordKind::invoice, line->invoice.value());
    const auto* field = findField(describe(kind), "job");
    const auto* record = book.find(kind, id);
    if (!field || !record) return std::nullopt;
    const auto value = field->get(record);
    const auto* job = std::get_if<std::int64_t>(&value);
    return job ? std::optional{Id<Job>{*job}} : std::nullopt;
}

std::optional<PaperDocument> JobFolderView::paper() const
{
    const auto& book = desk_.book();
    const auto* job = book.find(job_);
    if (!job) return std::nullopt;
    const auto& kinds = papers_[chosen_].kinds;
    if (std::ranges::find(kinds, RecordKind::quote) != kinds.end())
        if (const auto* quote = chosenQuote() ? chosenQuote() : currentQuote(book, job_)) return quotePaper(book, *quote);
    if (std::ranges::find(kinds, RecordKind::invoice) != kinds.end())
        if (const auto* invoice = chosenInvoice()) return invoicePaper(book, *invoice, desk_.today());
    return costPaper(book, jobCost(book, *job));
}

RecordTable* JobFolderView::table() const
{
    const auto& kinds = papers_[chosen_].kinds;
    if (kinds.empty()) return result_;
    const auto* tabs = qobject_cast<QTabWidget*>(stack_->currentWidget());
    return panel(kinds[static_cast<std::size_t>(tabs ? std::max(tabs->currentIndex(), 0) : 0)])->table();
}

bool JobFolderView::hasUnsaved() const
{
    return std::ranges::any_of(panels_, [](const auto& entry) { return entry.second->form().hasDrafts(); });
}

void JobFolderView::newRecord()
{
    const auto& kinds = papers_[chosen_].kinds;
    if (kinds.empty() || kinds.front() == RecordKind::job) return;
    const auto* tabs = qobject_cast<QTabWidget*>(stack_->currentWidget());
    panel(kinds[static_cast<std::size_t>(tabs ? std::max(tabs->currentIndex(), 0) : 0)])->startNew();
}

}
