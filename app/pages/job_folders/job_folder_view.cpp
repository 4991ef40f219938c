#include "pages/job_folders/job_folder_view.h"

#include "billing/billing.h"
#include "cost/job_cost.h"
#include "form/record_form.h"
#include "job/papers.h"
#include "job/steps.h"
#include "labels.h"
#include "paper/papers.h"
#include "quantity/words.h"
#include "records/records_panel.h"
#include "table/record_table.h"

#include <QHBoxLayout>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <QVBoxLayout>

#include <algorithm>

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

    const auto today = [this] { return desk_.today(); };
    const auto onJob = [this](auto step) { return [this, step] { perform(step(desk_.book(), desk_.book().get(job_), desk_.today())); }; };
    const auto onQuote = [this, today](auto step) {
        return [this, today, step] {
            if (const auto* quote = chosen<Quote>()) perform(step(desk_.book(), *quote, today()));
        };
    };
    addVerb("jobClose", tr("Close the job"), RecordKind::job, onJob(closeJob), [](const Book&, const Row& row) { return !isRecorded(row.value("closed_on")); });
    addVerb("quoteDraft", tr("Draft from takeoff"), RecordKind::quote, onJob(draftQuote));
    addVerb("quoteSend", tr("Send quote"), RecordKind::quote, onQuote(sendQuote), [](const Book&, const Row& row) { return !isRecorded(row.value("sent_on")); });
    const auto isOut = [](const Book&, const Row& row) { return isRecorded(row.value("sent_on")) && !isRecorded(row.value("accepted_on")) && !isRecorded(row.value("declined_on")); };
    addVerb("quoteAccept", tr("Accepted"), RecordKind::quote, onQuote(acceptQuote), isOut);
    addVerb("quoteDecline", tr("Declined"), RecordKind::quote, onQuote([](const Book& book, const Quote& quote, Date day) { return declineQuote(book, quote, {}, day); }), isOut);
    addVerb("quoteRevise", tr("New revision"), RecordKind::quote, onQuote(reviseQuote),
            [](const Book&, const Row& row) { return isRecorded(row.value("sent_on")) && !isRecorded(row.value("accepted_on")); });
    const auto isAsked = [](const Book&, const Row& row) { return !isRecorded(row.value("accepted_on")) && !isRecorded(row.value("declined_on")); };
    addVerb("changeAccept", tr("Accepted"), RecordKind::changeOrder, [this, today] {
        if (const auto* order = chosen<ChangeOrder>()) perform(acceptChange(desk_.book(), *order, today()));
    }, isAsked);
    addVerb("changeDecline", tr("Declined"), RecordKind::changeOrder, [this, today] {
        if (const auto* order = chosen<ChangeOrder>()) perform(declineChange(desk_.book(), *order, today()));
    }, isAsked);
    addVerb("pourDone", tr("Poured today"), RecordKind::pour, [this, today] {
        if (const auto* pour = chosen<Pour>()) perform(finishPour(desk_.book(), *pour, today()));
    }, [](const Book&, const Row& row) { return !isRecorded(row.value("poured_on")); });
    addVerb("visitDone", tr("Done today"), RecordKind::visit, [this, today] {
        if (const auto* visit = chosen<Visit>()) perform(finishVisit(desk_.book(), *visit, today()));
    }, [](const Book&, const Row& row) { return !isRecorded(row.value("done_on")) && !isRecorded(row.value("waived_on")); });
    const auto invoiceOf = [onJob](InvoiceKind kind) { return onJob([kind](const Book& book, const Job& job, Date day) { return writeInvoice(book, job, kind, day); }); };
    addVerb("invoiceDeposit", tr("Draft deposit"), RecordKind::invoice, invoiceOf(InvoiceKind::deposit));
    addVerb("invoiceFinal", tr("Draft final"), RecordKind::invoice, invoiceOf(InvoiceKind::final));
    addVerb("invoiceIssue", tr("Issue"), RecordKind::invoice, [this, today] {
        if (const auto* invoice = chosen<Invoice>()) perform(issueInvoice(desk_.book(), *invoice, today()));
    }, [](const Book&, const Row& row) { return !isRecorded(row.value("issued_on")); });
    addVerb("invoicePaid", tr("Paid in full today"), RecordKind::invoice, [this] { receivePayment(); }, [](const Book& book, const Row& row) {
        const auto* invoice = book.find(Id<Invoice>{row.id});
        return invoice && invoice->issuedOn && totalOf(book, *invoice).balance > Money{};
    });
    verbs_->addStretch(1);
}

void JobFolderView::addPaper(const QString& name, std::vector<RecordKind> kinds)
{
    Paper paper{name, kinds, makeButton("paper", name, "paper", this), stack_->count()};
    paper.button->setCheckable(true);
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
            connect(&panel->form(), &RecordForm::saved, this, &JobFolderView::showVerbs, Qt::QueuedConnection);  // once the form has its row
            if (kind == RecordKind::job) panel->table()->hide();  // a folder is of one job
            panels_.emplace_back(kind, panel);
            tabs->addTab(panel, qs(describe(kind).plural));
        }
        tabs->tabBar()->setVisible(kinds.size() > 1);
        if (kinds.size() == 1) tabs->setFocusPolicy(Qt::NoFocus);  // it would hand the focus to its hidden bar, and Tab would stick
        connect(tabs, &QTabWidget::currentChanged, this, &JobFolderView::showVerbs);
        stack_->addWidget(tabs);
    }
    papers_.push_back(std::move(paper));
}

void JobFolderView::addVerb(const char* name, const QString& words, RecordKind on, std::function<void()> act, std::function<bool(const Book&, const Row&)> when)
{
    auto* button = makeButton(name, words, nullptr, this);
    connect(button, &QPushButton::clicked, this, [act = std::move(act)] { act(); });
    button->hide();
    verbs_->addWidget(button);
    verbList_.push_back({button, on, std::move(when)});
}

void JobFolderView::perform(const Step& step)
{
    if (!step.possible()) return desk_.say(qs(step.obstacle), Tone::attention);
    if (!desk_.commitOrSay(*step.edit) || step.remarks.empty()) return;
    std::string remarks;
    for (const auto& remark : step.remarks) remarks += (remarks.empty() ? "" : " ") + remark;
    desk_.say(tr("Look at this: %1").arg(qs(remarks)), Tone::attention);
}

RecordsPanel* JobFolderView::panel(RecordKind kind) const
{
    const auto found = std::ranges::find_if(panels_, [&](const auto& entry) { return entry.first == kind; });
    return found == panels_.end() ? nullptr : found->second;
}

std::int64_t JobFolderView::chosenId(RecordKind kind) const { return panel(kind)->form().record().id; }

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
    const auto pour = rowOf(proposedPour(desk_.book(), *job));
    Presets presets;
    for (std::size_t i = 0; i < pour.values.size(); ++i)
        if (isRecorded(pour.values[i])) presets.emplace_back(std::string{describe(RecordKind::pour).fields[i].name}, pour.values[i]);
    panel(RecordKind::pour)->setFilter(ofJob(RecordKind::pour, job_), std::move(presets));
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
    const auto papers = folderPapers(book, job, jobCost(book, job));
    for (std::size_t i = 0; i < papers_.size(); ++i) {
        auto figure = job.jobType ? qs(book.get(*job.jobType).name) : tr("no type");
        if (i > 0) figure = qs(papers[i].figure.empty() ? std::string{labelOf(papers[i].state)} : papers[i].figure);
        papers_[i].button->setText(withoutMnemonic(papers_[i].name) + u'\n' + withoutMnemonic(figure));
        papers_[i].button->setToolTip(i > 0 ? qs(papers[i].detail) : QString{});
    }
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
    for (const auto& verb : verbList_) {
        verb.button->setVisible(verb.on == kind);
        if (verb.on != kind || !verb.when) continue;
        const auto row = desk_.book().row(kind, panel(kind)->form().record().id);
        verb.button->setEnabled(row && verb.when(desk_.book(), *row));
    }
}

void JobFolderView::receivePayment()
{
    const auto* invoice = chosen<Invoice>();
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
        if (const auto* quote = chosen<Quote>() ? chosen<Quote>() : currentQuote(book, job_)) return quotePaper(book, *quote);
    if (std::ranges::find(kinds, RecordKind::invoice) != kinds.end())
        if (const auto* invoice = chosen<Invoice>()) return invoicePaper(book, *invoice, desk_.today());
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
