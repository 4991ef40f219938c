#include "pages/ticket_desk/check_page.h"

#include "labels.h"
#include "plain_words.h"
#include "pages/ticket_desk/check_sheet.h"
#include "pages/ticket_desk/finding_panel.h"
#include "paper/paper_print.h"
#include "paper/papers.h"
#include "quantity/words.h"
#include "ready_mix/claims.h"
#include "record/field_text.h"
#include "table/record_table.h"

#include <QApplication>
#include <QComboBox>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int figureCount = 5;

QString stateOf(const Statement& statement)
{
    if (statement.paidOn) return CheckPage::tr("paid %1").arg(qs(statement.paidOn->shown()));
    if (statement.approvedOn) return CheckPage::tr("approved %1").arg(qs(statement.approvedOn->shown()));
    return CheckPage::tr("to check");
}

}

CheckPage::CheckPage(Desk& desk, DeskChecks& checks, QWidget* parent) : Page{desk, parent}, checks_{checks}
{
    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    statements_ = new QComboBox{this};
    statements_->setObjectName(QStringLiteral("statements"));
    statements_->setAccessibleName(tr("Statement"));
    statements_->setMaxVisibleItems(20);
    statements_->setMaximumWidth(grid(160));
    bar->addWidget(statements_, 2);
    bar->addStretch(1);
    import_ = makeButton("takeIn", tr("Take one in\u2026"), nullptr, this);
    letter_ = makeButton("letter", tr("Letter as PDF\u2026"), nullptr, this);
    copyLetter_ = makeButton("copyLetter", tr("Copy letter"), nullptr, this);
    reopen_ = makeButton("reopen", tr("Reopen"), nullptr, this);
    pay_ = makeButton("markPaid", tr("Mark paid"), nullptr, this);
    approve_ = makeButton("approve", tr("Approve"), "main", this);
    for (auto* button : {import_, letter_, copyLetter_, reopen_, pay_, approve_}) bar->addWidget(button);

    answer_ = makeLabel({}, TextSize::body, Tone::plain, this);
    answer_->setObjectName(QStringLiteral("checkAnswer"));

    auto* figures = new QFrame{this};
    setRole(*figures, "sheet");
    auto* across = new QHBoxLayout{figures};
    across->setContentsMargins(grid(4), grid(2), grid(4), grid(2));
    across->setSpacing(grid(6));
    const QString names[figureCount] = {tr("Billed, $"), tr("Agreed, $"), tr("In dispute, $"), tr("Needs your eye, $"), tr("Pay this, $")};
    for (const auto& name : names) {
        auto* column = new QVBoxLayout;
        column->setSpacing(0);
        auto* label = makeLabel(name, TextSize::small, Tone::quiet, figures);
        label->setWordWrap(false);
        auto* figure = makeLabel({}, TextSize::question, Tone::plain, figures);
        figure->setWordWrap(false);
        figure->setObjectName(name);
        column->addWidget(label);
        column->addWidget(figure);
        across->addLayout(column);
        figures_.push_back(figure);
    }
    payWords_ = makeLabel({}, TextSize::small, Tone::quiet, figures);
    payWords_->setObjectName(QStringLiteral("payWords"));
    across->addWidget(payWords_, 1);

    sheet_ = new CheckSheet{this};
    sheet_->setMinimumWidth(grid(120));
    auto* right = new QWidget{this};
    auto* rightRows = new QVBoxLayout{right};
    rightRows->setContentsMargins(0, 0, 0, 0);
    rightRows->setSpacing(grid(2));
    filterBox_ = new QComboBox{right};
    filterBox_->setObjectName(QStringLiteral("findingFilter"));
    filterBox_->setAccessibleName(tr("Which findings"));
    filterBox_->addItems({tr("Open findings"), tr("All that differ"), tr("Every line")});
    for (const auto& choice : findingChoices) filterBox_->addItem(tr("Only: %1").arg(qs(choice.label)));
    findings_ = new RecordTable{tr("Findings"),
                                {{.heading = tr("Ticket"), .width = 9}, {.heading = tr("Finding"), .width = 12, .stretches = true}, {.heading = tr("Off, $"), .align = Align::right, .width = 9, .dashWhenBlank = false}},
                                desk, right};
    findings_->setFilterVisible(false);
    findings_->bar().insertWidget(0, filterBox_, 1);
    findings_->view().setMinimumHeight(grid(20));
    panel_ = new FindingPanel{desk, right};
    rightRows->addWidget(findings_, 1);
    rightRows->addWidget(panel_);
    right->setMinimumWidth(grid(78));

    auto* splitter = new QSplitter{Qt::Horizontal, this};
    splitter->setHandleWidth(grid(2));
    splitter->setChildrenCollapsible(false);
    splitter->addWidget(sheet_);
    splitter->addWidget(right);
    splitter->setStretchFactor(0, 1);
    splitter->setStretchFactor(1, 0);
    splitter->setSizes({10'000, grid(84)});

    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));
    rows->addLayout(bar);
    rows->addWidget(answer_);
    rows->addWidget(figures);
    rows->addWidget(splitter, 1);

    connect(statements_, &QComboBox::currentIndexChanged, this, [this](int index) {
        if (!showing_ && index >= 0) showStatement(Id<Statement>{statements_->itemData(index).toLongLong()});
    });
    connect(filterBox_, &QComboBox::currentIndexChanged, this, [this](int index) {
        if (showing_) return;
        FindingFilter filter;
        if (index < 3) filter.show = static_cast<FindingFilter::Show>(index);
        else filter = {FindingFilter::Show::one, static_cast<Finding>(index - 3)};
        setFilter(filter);
    });
    connect(findings_, &RecordTable::currentChanged, this, [this](const RecordRef& record) {
        if (showing_ || !check_) return;
        for (std::size_t i = 0; i < check_->lines.size(); ++i)
            if (const auto* line = check_->lines[i].line; line ? record == RecordRef{RecordKind::statementLine, line->id.value()} : record.kind == RecordKind::statement) choose(i);
    });
    connect(findings_, &RecordTable::opened, this, [&desk](const RecordRef& record) { desk.open(record); });
    connect(sheet_, &CheckSheet::chosen, this, &CheckPage::choose);
    connect(panel_, &FindingPanel::done, this, [this] { sheet_->setFocus(); });
    connect(import_, &QPushButton::clicked, this, &CheckPage::importWanted);
    connect(approve_, &QPushButton::clicked, this, [this] {
        if (check_) perform(approveStatement(this->desk().book(), *check_->statement, this->desk().today()));
    });
    connect(reopen_, &QPushButton::clicked, this, [this] {
        if (check_) perform(reopenStatement(this->desk().book(), *check_->statement));
    });
    connect(pay_, &QPushButton::clicked, this, [this] {
        if (check_) perform(payStatement(this->desk().book(), *check_->statement, this->desk().today()));
    });
    connect(letter_, &QPushButton::clicked, this, &CheckPage::askForLetter);
    connect(copyLetter_, &QPushButton::clicked, this, [this] {
        if (const auto words = letter()) {
            this->desk().copyText(qs(words->text()));
            this->desk().say(tr("The letter is on the clipboard."), Tone::well);
        }
    });
}

QString CheckPage::answer() const { return check_ ? qs(check_->answer) : QString{}; }

void CheckPage::fillStatements()
{
    const auto& book = desk().book();
    std::vector<const Statement*> all;
    for (const auto& statement : book.all<Statement>()) all.push_back(&statement);
    std::stable_sort(all.begin(), all.end(), [](const auto* a, const auto* b) { return a->date > b->date; });
    if (!book.find(statement_)) {
        // The oldest that waits, else the newest.
        statement_ = {};
        for (const auto* statement : all)
            if (!statement->approvedOn) statement_ = statement->id;
        if (statement_.value() == 0 && !all.empty()) statement_ = all.front()->id;
    }
    showing_ = true;
    statements_->clear();
    for (const auto* statement : all) {
        const auto* supplier = book.find(statement->supplier);
        statements_->addItem(tr("%1 %2, %3: %4").arg(supplier ? qs(supplier->name) : QString{}, qs(statement->number), qs(statement->date.shown()), stateOf(*statement)),
                             QVariant::fromValue<qlonglong>(statement->id.value()));
        if (statement->id == statement_) statements_->setCurrentIndex(statements_->count() - 1);
    }
    showing_ = false;
}

void CheckPage::refresh()
{
    fillStatements();
    showCheck();
}

void CheckPage::showStatement(Id<Statement> statement)
{
    if (statement != statement_) current_.reset();
    statement_ = statement;
    filter_ = {};
    fillStatements();
    showCheck();
}

void CheckPage::setFilter(FindingFilter filter)
{
    filter_ = filter;
    showFindings();
}

void CheckPage::showCheck()
{
    check_ = checks_.of(statement_);
    const auto& book = desk().book();
    const bool any = check_ != nullptr;
    const bool mayWrite = !desk().store().isReadOnly();
    statements_->setVisible(any);
    answer_->setVisible(any);
    figures_.front()->parentWidget()->setVisible(any);
    findings_->parentWidget()->setVisible(any);
    for (auto* button : {approve_, reopen_, pay_, letter_, copyLetter_}) button->setVisible(any);
    if (!any) {
        panel_->show(nullptr, nullptr);
        current_.reset();
        sheet_->setEmptyText(tr("No statement yet. When the supplier\u2019s bill comes, press \u201cTake one in\u201d: from a CSV file, from the clipboard, or typed."));
        sheet_->show({}, 0);
        emit answerChanged();
        return;
    }
    answer_->setText(qs(check_->answer));
    const Money sums[figureCount] = {check_->billed, check_->agreed, check_->disputed, check_->needsEye, check_->pay.pay};
    for (std::size_t i = 0; i < figures_.size(); ++i) figures_[i]->setText(qs(sums[i].shown()));
    setTone(*figures_[2], check_->disputed.isZero() ? Tone::plain : Tone::wrong);
    setTone(*figures_[3], check_->needsEye.isZero() ? Tone::plain : Tone::attention);
    payWords_->setText(qs(check_->pay.sentence));
    const auto& statement = book.get(statement_);
    approve_->setVisible(!statement.approvedOn);
    approve_->setEnabled(mayWrite);
    reopen_->setVisible(statement.approvedOn && !statement.paidOn);
    reopen_->setEnabled(mayWrite);
    pay_->setVisible(statement.approvedOn && !statement.paidOn);
    pay_->setEnabled(mayWrite);
    const bool disputed = letter().has_value();
    letter_->setVisible(disputed);
    copyLetter_->setVisible(disputed);
    if (current_ && *current_ >= check_->lines.size()) current_.reset();
    showFindings();
    emit answerChanged();
}

void CheckPage::showFindings()
{
    if (!check_) return;
    const bool everything = filter_.show == FindingFilter::Show::everything;
    showing_ = true;
    filterBox_->setCurrentIndex(filter_.show == FindingFilter::Show::one ? 3 + static_cast<int>(filter_.one) : static_cast<int>(filter_.show));
    std::vector<TableRow> rows;
    for (const auto& finding : check_->lines) {
        if (!filter_.takes(finding)) continue;
        const auto record = finding.line ? RecordRef{RecordKind::statementLine, finding.line->id.value()} : RecordRef{RecordKind::statement, statement_.value()};
        rows.push_back({record,
                        {textCell(finding.line ? qs(finding.line->ticketNumber) : tr("Total")), textCell(wordsOf(finding), toneOf(finding)),
                         finding.finding == Finding::agrees ? Cell{} : moneyCell(finding.difference)},
                        qs(finding.why), false});
    }
    findings_->setEmptyText(filter_.show == FindingFilter::Show::open ? tr("Nothing is open on this statement.") : tr("No line is like that."));
    findings_->setRows(std::move(rows));
    sheet_->setEmptyText(filter_.show == FindingFilter::Show::open ? tr("Nothing is open. Choose \u201cEvery line\u201d to see the whole check.") : tr("No line is like that."));
    sheet_->show(checkBlocks(desk().book(), *check_, filter_), largestDifference(*check_));
    showing_ = false;
    if (!current_ || (!everything && !filter_.takes(check_->lines[*current_]))) {
        current_.reset();
        for (std::size_t i = 0; i < check_->lines.size() && !current_; ++i)
            if (filter_.takes(check_->lines[i])) current_ = i;
    }
    if (current_) choose(*current_);
    else {
        sheet_->setCurrent(std::nullopt);
        panel_->show(check_, nullptr);
    }
}

void CheckPage::choose(std::size_t finding)
{
    if (!check_ || finding >= check_->lines.size()) return;
    current_ = finding;
    const auto& chosen = check_->lines[finding];
    showing_ = true;
    findings_->select(chosen.line ? RecordRef{RecordKind::statementLine, chosen.line->id.value()} : RecordRef{RecordKind::statement, statement_.value()});
    showing_ = false;
    sheet_->setCurrent(finding);
    panel_->show(check_, &chosen);
}

std::optional<std::size_t> CheckPage::current() const { return current_; }

bool CheckPage::stepOpen(int direction)
{
    if (!check_) return false;
    const auto count = static_cast<std::ptrdiff_t>(check_->lines.size());
    const auto begin = current_ ? static_cast<std::ptrdiff_t>(*current_) : direction > 0 ? -1 : count;
    for (auto i = begin + direction; i >= 0 && i < count; i += direction) {
        const auto& finding = check_->lines[static_cast<std::size_t>(i)];
        if (finding.state != FindingState::open) continue;
        if (!filter_.takes(finding)) {
            current_ = static_cast<std::size_t>(i);
            setFilter({});
        }
        choose(static_cast<std::size_t>(i));
        return true;
    }
    desk().say(check_->linesOpen == 0 ? tr("Nothing is open on this statement.") : direction > 0 ? tr("That was the last open finding.") : tr("That was the first open finding."), Tone::quiet);
    return true;
}

void CheckPage::takeFocus()
{
    if (check_) sheet_->setFocus();
    else import_->setFocus();
}

void CheckPage::perform(const Step& step)
{
    if (!step.possible()) {
        desk().say(qs(step.obstacle), Tone::attention);
        return;
    }
    if (!desk().commitOrSay(*step.edit)) return;
    std::string remarks;
    for (const auto& remark : step.remarks) remarks += (remarks.empty() ? "" : " ") + remark;
    desk().say(remarks.empty() ? tr("Done: %1. Ctrl+Z takes it back.").arg(qs(step.edit->title())) : qs(remarks), Tone::well);
}

std::optional<SupplierLetter> CheckPage::letter() const { return check_ ? letterFor(desk().book(), *check_, desk().today()) : std::nullopt; }

std::optional<PaperDocument> CheckPage::paper() const
{
    if (const auto words = letter()) return letterPaper(desk().book().settings(), *words);
    return findings_->paper(tr("Findings"));
}

void CheckPage::askForLetter()
{
    if (!check_) return;
    const auto proposed = tr("Letter on statement %1.pdf").arg(inFileName(qs(check_->statement->number)));
    const auto path = QFileDialog::getSaveFileName(QApplication::activeWindow(), tr("Letter to the supplier"), desk().preferences().folder() + u'/' + proposed, tr("PDF files (*.pdf)"));
    if (path.isEmpty()) return;
    desk().preferences().setFolder(QFileInfo{path}.absolutePath());
    writeLetter(path);
}

bool CheckPage::writeLetter(const QString& path)
{
    const auto words = letter();
    if (!words) return false;
    QString fault;
    const bool written = writePdf(path, letterPaper(desk().book().settings(), *words), fault);
    desk().say(written ? tr("Written: %1").arg(path) : fault, written ? Tone::well : Tone::wrong);
    return written;
}

}
