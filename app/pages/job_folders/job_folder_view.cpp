#include "pages/job_folders/job_folder_view.h"

#include "billing/billing.h"
#include "form/lines_editor.h"
#include "form/reason_strip.h"
#include "form/record_form.h"
#include "form/visit_strip.h"
#include "job/steps.h"
#include "labels.h"
#include "pages/job_folders/lead_view.h"
#include "pages/job_folders/paper_button.h"
#include "pages/job_folders/result_view.h"
#include "pages/job_folders/takeoff_view.h"
#include "paper/papers.h"
#include "quantity/words.h"
#include "records/records_panel.h"
#include "records/visit_columns.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QPushButton>
#include <QStackedWidget>
#include <QTabBar>
#include <QTabWidget>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

/// Of a kind's rows, those of one job.
RecordFilter ofJob(RecordKind kind, Id<Job> job)
{
    const auto* field = findField(describe(kind), "job");
    return [job, field](const Book&, const void* record) { return field->get(record) == Value{job.value()}; };
}

/// In a folder the job goes without saying.
std::vector<RecordColumn> columnsInFolder(RecordKind kind)
{
    auto columns = usualColumns(kind);
    std::erase_if(columns, [](const auto& column) { return column.field == "job" || column.field.starts_with("job."); });
    return columns;
}

template <class Line>
std::vector<const Line*> pointersTo(const std::vector<Line>& lines)
{
    std::vector<const Line*> all;
    for (const auto& line : lines) all.push_back(&line);
    return all;
}

/// Lines as typed: a choice not made yet stands at its default, which only the sum sees.
template <class Line>
std::vector<Line> linesOf(const std::vector<Row>& rows)
{
    std::vector<Line> lines;
    const auto blank = blankRow(kindOf<Line>);
    const auto fields = describe(kindOf<Line>).fields;
    for (auto row : rows) {
        for (std::size_t i = 0; i < fields.size(); ++i)
            if (!isRecorded(row.values[i]) && !fields[i].nullable) row.values[i] = blank.values[i];
        lines.push_back(recordOf<Line>(row));
    }
    return lines;
}

Presets presetsOf(const Row& row)
{
    Presets presets;
    for (std::size_t i = 0; i < row.values.size(); ++i)
        if (isRecorded(row.values[i])) presets.emplace_back(std::string{describe(row.kind).fields[i].name}, row.values[i]);
    return presets;
}

QString quoteWords(const Quote& quote)
{
    auto words = qs(quoteName(quote)) + QStringLiteral(", ");
    if (quote.acceptedOn) return words + JobFolderView::tr("accepted %1").arg(qs(quote.acceptedOn->shown()));
    if (quote.declinedOn) return words + JobFolderView::tr("declined %1").arg(qs(quote.declinedOn->shown()));
    return words + (quote.sentOn ? JobFolderView::tr("sent %1").arg(qs(quote.sentOn->shown())) : JobFolderView::tr("draft"));
}

QString invoiceWords(const Invoice& invoice)
{
    return qs(invoice.number) + QStringLiteral(", ") + qs(labelOf(invoice.kind)).toLower() + QStringLiteral(", ")
        + (invoice.issuedOn ? JobFolderView::tr("issued %1").arg(qs(invoice.issuedOn->shown())) : JobFolderView::tr("draft"));
}

}

JobFolderView::JobFolderView(Desk& desk, QWidget* parent) : QWidget{parent}, desk_{desk}
{
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, grid(2), 0, 0);
    layout->setSpacing(grid(2));
    auto* head = new QHBoxLayout;
    head->setSpacing(grid(3));
    auto* back = makeButton("allFolders", tr("\u2190 All folders"), "link", this);
    back->setToolTip(tr("Alt+Left goes back, too"));
    connect(back, &QPushButton::clicked, this, &JobFolderView::backWanted);
    title_ = makeLabel({}, TextSize::question, Tone::plain, this);
    title_->setWordWrap(false);
    whose_ = makeLabel({}, TextSize::body, Tone::quiet, this);
    whose_->setWordWrap(false);
    head->addWidget(back);
    head->addWidget(title_);
    head->addWidget(whose_, 1);
    layout->addLayout(head);
    run_ = new QHBoxLayout;
    run_->setSpacing(grid(1));
    layout->addLayout(run_);
    verbLine_ = new QWidget{this};
    verbs_ = new QHBoxLayout{verbLine_};
    verbs_->setContentsMargins(0, 0, 0, 0);
    verbs_->setSpacing(grid(2));
    layout->addWidget(verbLine_);
    note_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    note_->setObjectName(QStringLiteral("folderNote"));
    layout->addWidget(note_);
    reason_ = new ReasonStrip{this};
    layout->addWidget(reason_);
    visit_ = new VisitStrip{desk_, this};
    layout->addWidget(visit_);
    connect(visit_, &VisitStrip::settled, this, [this] {
        showLines();
        showVerbs();
    });
    stack_ = new QStackedWidget{this};
    layout->addWidget(stack_, 1);

    lead_ = new LeadView{desk_, this};
    keep(RecordKind::lead, lead_->lead());
    keep(RecordKind::job, lead_->job());
    takeoff_ = new TakeoffView{desk_, this};
    keep(RecordKind::takeoffSection, takeoff_->panel());
    result_ = new ResultView{desk_, this};
    auto* quote = addPanel(RecordKind::quote);
    auto* invoice = addPanel(RecordKind::invoice);
    auto* quoteSheet = addLinesSheet(quoteLines_, quoteChoice_, RecordKind::quote);
    auto* invoiceSheet = addLinesSheet(invoiceLines_, invoiceChoice_, RecordKind::invoice);

    addPaper(PaperKind::lead, {{{}, lead_}}, {{{RecordKind::lead, RecordKind::job}}});
    addPaper(PaperKind::takeoff, {{{}, takeoff_}}, {{{RecordKind::takeoffSection}}});
    addPaper(PaperKind::quote, {{tr("Lines"), quoteSheet}, {tr("Words, dates and rates"), quote}, {tr("Change orders"), addPanel(RecordKind::changeOrder)}},
             {{{RecordKind::quoteLine, RecordKind::quote}, quoteLines_}, {{RecordKind::quote}}, {{RecordKind::changeOrder}}});
    addPaper(PaperKind::pours, {{{}, addPanel(RecordKind::pour)}}, {{{RecordKind::pour}}});
    addPaper(PaperKind::work, {{tr("Tickets"), addPanel(RecordKind::ticket)}, {tr("Hours"), addPanel(RecordKind::hours)}, {tr("Receipts"), addPanel(RecordKind::receipt)}},
             {{{RecordKind::ticket}}, {{RecordKind::hours}}, {{RecordKind::receipt}}});
    addPaper(PaperKind::visits, {{{}, addPanel(RecordKind::visit, tr("No return visits yet. A pour that is marked as done puts those it needs here by itself."))}}, {{{RecordKind::visit}}});
    addPaper(PaperKind::invoices, {{tr("Lines"), invoiceSheet}, {tr("Words, dates and rates"), invoice}}, {{{RecordKind::invoiceLine, RecordKind::invoice}, invoiceLines_}, {{RecordKind::invoice}}});
    addPaper(PaperKind::result, {{{}, result_}}, {{}});
    addVerbs();
}

RecordsPanel* JobFolderView::addPanel(RecordKind kind, const QString& emptyText)
{
    auto* panel = new RecordsPanel{desk_, {.kind = kind, .columns = kind == RecordKind::visit ? visitColumns(desk_, true) : columnsInFolder(kind), .layout = without(layoutFor(kind), "job"), .name = tr("%1 of the job").arg(qs(describe(kind).plural)), .emptyText = emptyText, .folds = true}, this};
    if (kind == RecordKind::visit) new WindowHints{desk_, panel->form()};
    keep(kind, panel);
    return panel;
}

void JobFolderView::keep(RecordKind kind, RecordsPanel* panel)
{
    connect(panel, &RecordsPanel::recordShown, this, [this] {
        showLines();
        showVerbs();
    });
    // Once the form has its row.
    connect(&panel->form(), &RecordForm::saved, this, &JobFolderView::showVerbs, Qt::QueuedConnection);
    panels_.emplace_back(kind, panel);
}

QWidget* JobFolderView::addLinesSheet(LinesEditor*& lines, QComboBox*& choice, RecordKind owner)
{
    auto* whole = new QWidget{this};
    LinesSetup setup;
    if (owner == RecordKind::quote) {
        setup.kind = RecordKind::quoteLine;
        setup.owner = "quote";
        setup.columns = {{"cost_class", 14}, {"phase", 10}, {"description", 0}, {"code", 9}, {"quantity", 9}, {"unit", 6}, {"unit_cost", 11}, {"unit_price", 11}, {"taxable", 7}};
        setup.carried = {"cost_class", "taxable"};
        setup.amountHeading = tr("Price, $");
        setup.amount = [this](const Row& row) {
            const auto* quote = chosen<Quote>();
            return linesOf<QuoteLine>({row}).front().price(quote ? quote->markup : Rate{});
        };
        setup.answer = [this](const std::vector<Row>& rows) {
            const auto* quote = chosen<Quote>();
            return quote ? qs(quoteAnswer(totalOf(desk_.book(), *quote, pointersTo(linesOf<QuoteLine>(rows))))) : QString{};
        };
        setup.title = [this] { return "Change the lines of quote " + (chosen<Quote>() ? quoteName(*chosen<Quote>()) : std::string{}); };
        setup.emptyText = tr("No quote yet. Draft it from the takeoff, or write it by hand.");
    } else {
        setup.kind = RecordKind::invoiceLine;
        setup.owner = "invoice";
        setup.columns = {{"description", 0}, {"quantity", 10}, {"unit", 8}, {"unit_price", 13}, {"taxable", 8}};
        setup.carried = {"taxable"};
        setup.amountHeading = tr("Amount, $");
        setup.amount = [](const Row& row) { return linesOf<InvoiceLine>({row}).front().amount(); };
        setup.answer = [this](const std::vector<Row>& rows) {
            const auto* invoice = chosen<Invoice>();
            return invoice ? qs(invoiceAnswer(totalOf(desk_.book(), *invoice, pointersTo(linesOf<InvoiceLine>(rows))))) : QString{};
        };
        setup.title = [this] { return "Change the lines of invoice " + (chosen<Invoice>() ? chosen<Invoice>()->number : std::string{}); };
        setup.emptyText = tr("No invoice yet. Draft one by what was bid and poured.");
    }
    lines = new LinesEditor{desk_, std::move(setup), whole};
    choice = new QComboBox{whole};
    choice->setAccessibleName(owner == RecordKind::quote ? tr("Which quote") : tr("Which invoice"));
    choice->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    connect(choice, &QComboBox::activated, this, [this, owner, box = choice] { panel(owner)->open(box->currentData().toLongLong()); });
    auto* layout = new QVBoxLayout{whole};
    layout->setContentsMargins(0, grid(2), 0, 0);
    layout->setSpacing(grid(2));
    layout->addWidget(choice, 0, Qt::AlignLeft);
    layout->addWidget(lines, 1);
    return whole;
}

void JobFolderView::addPaper(PaperKind kind, std::vector<std::pair<QString, QWidget*>> widgets, std::vector<Sheet> sheets)
{
    Paper paper{new PaperButton{qs(labelOf(kind)), this}, nullptr, std::move(sheets)};
    connect(paper.button, &QPushButton::clicked, this, [this, kind] { choose(kind); });
    run_->addWidget(paper.button, 1);
    if (widgets.size() == 1) {
        stack_->addWidget(widgets.front().second);
    } else {
        paper.tabs = new QTabWidget{this};
        paper.tabs->setDocumentMode(true);
        for (const auto& [name, widget] : widgets) paper.tabs->addTab(widget, name);
        connect(paper.tabs, &QTabWidget::currentChanged, this, [this] {
            showLines();
            showVerbs();
        });
        stack_->addWidget(paper.tabs);
    }
    papers_.push_back(std::move(paper));
}

RecordsPanel* JobFolderView::panel(RecordKind kind) const
{
    const auto found = std::ranges::find_if(panels_, [&](const auto& entry) { return entry.first == kind; });
    return found == panels_.end() ? nullptr : found->second;
}

const JobFolderView::Sheet& JobFolderView::sheet() const
{
    const auto& paper = papers_[static_cast<std::size_t>(chosen_)];
    return paper.sheets[static_cast<std::size_t>(paper.tabs ? std::max(paper.tabs->currentIndex(), 0) : 0)];
}

std::int64_t JobFolderView::chosenId(RecordKind kind) const { return panel(kind)->form().record().id; }

void JobFolderView::setJob(Id<Job> job)
{
    if (job == job_) return refresh();
    job_ = job;
    reason_->leave();
    visit_->leave();
    lead_->setJob(job);
    takeoff_->setJob(job);
    for (const auto& [kind, panel] : panels_)
        if (kind != RecordKind::lead && kind != RecordKind::job && kind != RecordKind::takeoffSection) panel->turnTo(ofJob(kind, job), {{"job", Value{job.value()}}});
    refresh();
    if (const auto* found = desk_.book().find(job)) {
        // The quote and the invoice that count now, not the first there were.
        if (const auto* quote = currentQuote(desk_.book(), job)) panel(RecordKind::quote)->open(quote->id.value());
        if (const auto invoices = desk_.book().referring<&Invoice::job>(job); !invoices.empty()) panel(RecordKind::invoice)->open(invoices.back()->id.value());
        choose(paperOfNextThing(desk_.book(), *found, stageOf(desk_.book(), *found)));
    }
}

QString JobFolderView::answer() const
{
    const auto* job = desk_.book().find(job_);
    return job ? qs(jobAnswer(desk_.book(), desk_.costs().of(*job))) : QString{};
}

void JobFolderView::refresh()
{
    const auto* job = desk_.book().find(job_);
    if (!job) return emit backWanted();
    title_->setText(tr("Job %1: %2").arg(qs(job->number), qs(job->title)));
    QStringList whose;
    if (const auto* customer = desk_.book().find(job->customer)) whose << qs(customer->name);
    if (const auto* site = desk_.book().find(job->site); site && !site->town.empty()) whose << qs(site->town);
    whose_->setText(whose.join(QStringLiteral(", ")));
    panel(RecordKind::pour)->setFilter(ofJob(RecordKind::pour, job_), presetsOf(rowOf(proposedPour(desk_.book(), *job))));
    if (const auto step = startQuote(desk_.book(), *job, desk_.today()); step.possible())
        panel(RecordKind::quote)->setFilter(ofJob(RecordKind::quote, job_), presetsOf(step.edit->changes().front().row));
    showFigures();
    choose(chosen_);
}

void JobFolderView::choose(PaperKind paper)
{
    if (paper != chosen_) {
        reason_->leave();
        visit_->leave();
    }
    chosen_ = paper;
    for (std::size_t i = 0; i < papers_.size(); ++i) papers_[i].button->setChecked(i == static_cast<std::size_t>(paper));
    stack_->setCurrentIndex(static_cast<int>(paper));
    if (paper == PaperKind::lead) lead_->refresh();
    else if (paper == PaperKind::takeoff) takeoff_->refresh();
    else if (paper == PaperKind::result) result_->show(job_);
    else
        for (const auto& each : papers_[static_cast<std::size_t>(paper)].sheets)
            if (!each.lines) panel(each.kinds.front())->refresh();
    showLines();
    showVerbs();
}

void JobFolderView::showFigures()
{
    const auto& book = desk_.book();
    const auto& job = book.get(job_);
    const auto papers = folderPapers(book, job, desk_.costs().of(job));
    for (std::size_t i = 0; i < papers_.size(); ++i) papers_[i].button->setPaper(papers[i]);
}

/// The lines of the quote and of the invoice that are chosen, and what there is to choose from.
void JobFolderView::showLines()
{
    const auto& book = desk_.book();
    if (!book.find(job_)) return;
    const auto fill = [](QComboBox& box, const auto& papers, std::int64_t chosen, auto words) {
        box.clear();
        for (const auto* each : papers) box.addItem(words(*each), QVariant{static_cast<qlonglong>(each->id.value())});
        box.setCurrentIndex(box.findData(QVariant{static_cast<qlonglong>(chosen)}));
        box.setVisible(!papers.empty());
        box.setEnabled(papers.size() > 1);
    };
    const auto* quote = chosen<Quote>();
    fill(*quoteChoice_, book.referring<&Quote::job>(job_), quote ? quote->id.value() : 0, quoteWords);
    quoteLines_->show(quote ? quote->id.value() : 0, quote && quote->sentOn ? tr("This quote was sent and stays as it is; a new revision can be changed.") : QString{});
    panel(RecordKind::quote)->setLocked(quote && quote->sentOn ? tr("This quote was sent and stays as it is; only the answer to it is written here.") : QString{},
                                        quote && quote->sentOn ? std::vector<std::string>{"accepted_on", "declined_on", "declined_reason"} : std::vector<std::string>{});
    const auto* invoice = chosen<Invoice>();
    panel(RecordKind::invoice)->setLocked(invoice && invoice->issuedOn ? tr("This invoice was issued and stays as it is; a credit takes something back.") : QString{},
                                          invoice && invoice->issuedOn ? std::vector<std::string>{"note"} : std::vector<std::string>{});
    fill(*invoiceChoice_, book.referring<&Invoice::job>(job_), invoice ? invoice->id.value() : 0, invoiceWords);
    invoiceLines_->show(invoice ? invoice->id.value() : 0, invoice && invoice->issuedOn ? tr("This invoice was issued and stays as it is; a credit takes something back.") : QString{});
}

bool JobFolderView::openRecord(RecordKind kind, std::int64_t id)
{
    if (kind == RecordKind::job) return id == job_.value();  // on the paper setJob chose
    for (std::size_t i = 0; i < papers_.size(); ++i) {
        const auto& sheets = papers_[i].sheets;
        const auto found = std::ranges::find_if(sheets, [kind](const auto& sheet) { return !sheet.kinds.empty() && sheet.kinds.front() == kind; });
        if (found == sheets.end()) continue;
        choose(static_cast<PaperKind>(i));
        if (papers_[i].tabs) papers_[i].tabs->setCurrentIndex(static_cast<int>(found - sheets.begin()));
        if (!found->lines) return panel(kind)->open(id);
        const auto row = desk_.book().row(kind, id);
        const auto* owner = row ? std::get_if<std::int64_t>(&row->value(kind == RecordKind::quoteLine ? "quote" : "invoice")) : nullptr;
        if (!owner || !panel(found->kinds.back())->open(*owner)) return false;
        showLines();
        return found->lines->select(id);
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
    const auto& kinds = sheet().kinds;
    if (kinds == std::vector{RecordKind::changeOrder})
        if (const auto* order = chosen<ChangeOrder>()) return changeOrderPaper(book, *order);
    if (chosen_ == PaperKind::quote)
        if (const auto* quote = chosen<Quote>() ? chosen<Quote>() : currentQuote(book, job_)) return quotePaper(book, *quote);
    if (chosen_ == PaperKind::invoices)
        if (const auto* invoice = chosen<Invoice>()) return invoicePaper(book, *invoice, desk_.today());
    return costPaper(desk_.costs(), *job, desk_.today());
}

RecordTable* JobFolderView::table() const
{
    if (chosen_ == PaperKind::result) return result_->table();
    return sheet().kinds.empty() ? nullptr : panel(sheet().kinds.back())->table();
}

bool JobFolderView::hasUnsaved() const
{
    return quoteLines_->hasDrafts() || invoiceLines_->hasDrafts() || std::ranges::any_of(panels_, [](const auto& entry) { return entry.second->form().hasDrafts(); });
}

void JobFolderView::newRecord()
{
    if (sheet().lines) return sheet().lines->addLine();
    if (!sheet().kinds.empty()) panel(sheet().kinds.front())->startNew();
}

void JobFolderView::takeFocus()
{
    if (sheet().lines) return sheet().lines->takeFocus();
    if (chosen_ == PaperKind::result) return result_->table()->setFocus();
    panel(sheet().kinds.front())->takeFocus();
}

}
