#include "pages/ticket_desk/import_page.h"

#include "form/supplier_box.h"
#include "labels.h"
#include "pages/ticket_desk/column_choosers.h"
#include "pages/ticket_desk/statement_draft.h"
#include "pages/ticket_desk/statement_rows.h"
#include "quantity/words.h"
#include "ready_mix/statement_words.h"
#include "table/row_delegate.h"

#include <QApplication>
#include <QClipboard>
#include <QComboBox>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLineEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QTableView>
#include <QThread>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>
#include <set>

namespace strikeoff {

namespace {

/// Below this a statement is read before anyone could see a bar.
constexpr qsizetype shortText = 400'000;

QComboBox* choiceBox(const char* name, const QString& words, QWidget* parent)
{
    auto* box = new QComboBox{parent};
    box->setObjectName(QString::fromLatin1(name));
    box->setAccessibleName(words);
    box->setToolTip(words);
    return box;
}

}

ImportPage::ImportPage(Desk& desk, QWidget* parent) : Page{desk, parent}, drafts_{desk, "statement on its way in", [this] { return typedDraft(); }}
{
    rows_ = new StatementRows{desk, this};

    const auto field = [this](QHBoxLayout& into, const QString& words, QWidget* input) {
        auto* label = makeLabel(words, TextSize::body, Tone::plain, this);
        label->setWordWrap(false);
        into.addWidget(label);
        into.addWidget(input);
    };
    auto* head = new QHBoxLayout;
    head->setSpacing(grid(2));
    suppliers_ = new SupplierBox{"importSupplier", tr("Supplier"), this};
    number_ = new QLineEdit{this};
    number_->setObjectName(QStringLiteral("importNumber"));
    number_->setAccessibleName(tr("Statement number, as printed on it"));
    number_->setFixedWidth(grid(36));
    date_ = new QLineEdit{this};
    date_->setObjectName(QStringLiteral("importDate"));
    date_->setAccessibleName(tr("Date of the statement"));
    date_->setFixedWidth(grid(30));
    field(*head, tr("Supplier"), suppliers_);
    field(*head, tr("Statement"), number_);
    field(*head, tr("Date"), date_);
    head->addStretch(1);
    put_ = makeButton("putAway", tr("Put away"), nullptr, this);
    takeIn_ = makeButton("takeStatementIn", tr("Take it in"), "main", this);
    head->addWidget(put_);
    head->addWidget(takeIn_);

    auto* sources = new QHBoxLayout;
    sources->setSpacing(grid(2));
    choose_ = makeButton("chooseFile", tr("Choose a file\u2026"), nullptr, this);
    paste_ = makeButton("pasteStatement", tr("Paste"), nullptr, this);
    typing_ = makeButton("typeStatement", tr("Type the lines"), nullptr, this);
    from_ = makeLabel({}, TextSize::body, Tone::quiet, this);
    dates_ = choiceBox("dateOrder", tr("How dates are written"), this);
    for (const auto& choice : dateOrderChoices) dates_->addItem(tr("Dates: %1").arg(qs(choice.label)));
    decimals_ = choiceBox("decimalMark", tr("How figures are written"), this);
    decimals_->addItems({tr("Figures: 1,234.50"), tr("Figures: 1.234,50")});
    for (auto* widget : {choose_, paste_, typing_}) sources->addWidget(widget);
    sources->addWidget(from_, 1);
    sources->addWidget(dates_);
    sources->addWidget(decimals_);

    reading_ = new QWidget{this};
    auto* readingRow = new QHBoxLayout{reading_};
    readingRow->setContentsMargins(0, 0, 0, 0);
    bar_ = new QProgressBar{reading_};
    bar_->setRange(0, 100);
    bar_->setAccessibleName(tr("Reading"));
    stop_ = makeButton("stopReading", tr("Stop"), nullptr, reading_);
    readingRow->addWidget(bar_, 1);
    readingRow->addWidget(stop_);
    reading_->hide();

    view_ = new QTableView{this};
    view_->setObjectName(QStringLiteral("importRows"));
    view_->setAccessibleName(tr("Rows of the statement"));
    view_->setModel(rows_);
    view_->setItemDelegate(new RowDelegate{view_});
    view_->setShowGrid(false);
    view_->setAlternatingRowColors(true);
    view_->setWordWrap(false);
    view_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed | QAbstractItemView::AnyKeyPressed);
    view_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    view_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    view_->verticalHeader()->setDefaultSectionSize(leastTarget);
    view_->horizontalHeader()->setHighlightSections(false);
    view_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    QStringList choices;
    for (const auto& choice : statementColumnChoices) choices << qs(choice.label);
    choosers_ = new ColumnChoosers{*view_, choices, this};
    empty_ = makeLabel(tr("Choose the file the supplier sent, or copy the lines and press Paste, or type them from the paper. Any order of columns will do; what the columns are taken for is shown over them and can be put right."),
                       TextSize::body, Tone::quiet, this);
    empty_->setAlignment(Qt::AlignCenter);
    empty_->setMargin(grid(10));

    state_ = makeLabel({}, TextSize::body, Tone::plain, this);
    state_->setObjectName(QStringLiteral("importState"));
    problems_ = makeLabel({}, TextSize::body, Tone::wrong, this);
    problems_->setObjectName(QStringLiteral("importProblems"));
    nextProblem_ = makeButton("firstProblem", tr("Show the row"), nullptr, this);
    auto* foot = new QHBoxLayout;
    foot->addWidget(problems_, 1);
    foot->addWidget(nextProblem_, 0, Qt::AlignTop);

    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(grid(2));
    column->addLayout(head);
    column->addLayout(sources);
    column->addWidget(reading_);
    column->addWidget(state_);
    column->addWidget(choosers_);
    column->addWidget(view_, 1);
    column->addWidget(empty_, 1);
    column->addLayout(foot);

    poll_ = new QTimer{this};
    poll_->setInterval(40);
    connect(poll_, &QTimer::timeout, this, [this] {
        if (work_) bar_->setValue(work_->percent);
    });
    connect(choose_, &QPushButton::clicked, this, [this] {
        const auto path = QFileDialog::getOpenFileName(this, tr("Statement file"), this->desk().preferences().folder(), tr("Text with columns (*.csv *.txt *.tsv);;All files (*)"));
        if (path.isEmpty()) return;
        this->desk().preferences().setFolder(QFileInfo{path}.absolutePath());
        readFile(path);
    });
    connect(paste_, &QPushButton::clicked, this, &ImportPage::paste);
    connect(typing_, &QPushButton::clicked, this, &ImportPage::typeLines);
    connect(stop_, &QPushButton::clicked, this, &ImportPage::stopReading);
    connect(put_, &QPushButton::clicked, this, [this] {
        putAway();
        takeFocus();
    });
    connect(takeIn_, &QPushButton::clicked, this, &ImportPage::takeIn);
    connect(choosers_, &ColumnChoosers::chosen, this, [this](int chosenColumn, int choice) {
        rows_->correct([&](StatementGuess& guess) { guess.set(static_cast<StatementColumn>(choice), static_cast<std::size_t>(chosenColumn)); });
    });
    connect(dates_, &QComboBox::activated, this, [this](int choice) {
        rows_->correct([&](StatementGuess& guess) {
            guess.dateOrder = static_cast<DateOrder>(choice);
            guess.dateOrderSure = true;
        });
    });
    connect(decimals_, &QComboBox::activated, this, [this](int choice) { rows_->correct([&](StatementGuess& guess) { guess.decimalMark = choice == 1 ? ',' : '.'; }); });
    const auto changed = [this] {
        showState();
        if (!rows_->isEmpty()) drafts_.wasTyped();
    };
    connect(rows_, &StatementRows::readAgain, this, changed);
    connect(number_, &QLineEdit::textChanged, this, changed);
    connect(date_, &QLineEdit::textChanged, this, changed);
    connect(suppliers_, &QComboBox::activated, this, changed);
    connect(nextProblem_, &QPushButton::clicked, this, [this] {
        if (const auto row = rows_->firstRefused()) {
            view_->setCurrentIndex(rows_->index(*row, 1));
            view_->scrollTo(rows_->index(*row, 1));
            view_->setFocus();
        }
    });
    showState();
}

ImportPage::~ImportPage()
{
    if (work_) work_->stop = true;
    if (thread_) thread_->wait();
}

std::optional<Id<Supplier>> ImportPage::supplier() const { return suppliers_->chosen(); }

void ImportPage::refresh()
{
    suppliers_->list(desk().book());
    if (date_->text().isEmpty()) date_->setText(qs(desk().today().shown()));
    if (const auto draft = drafts_.kept(); draft && rows_->isEmpty()) takeUp(*draft);
    showState();
}

void ImportPage::takeFocus()
{
    if (rows_->isEmpty()) choose_->setFocus();
    else if (number_->text().isEmpty()) number_->setFocus();
    else view_->setFocus();
}

bool ImportPage::hasUnsaved() const { return !rows_->isEmpty() || drafts_.any(); }

/// A long statement comes from a file, which is still there, and is not kept.
Draft ImportPage::typedDraft() const
{
    Draft draft{0, 0, number_->text().trimmed().isEmpty() ? tr("a statement") : tr("statement %1").arg(number_->text().trimmed())};
    const auto& rows = rows_->rows();
    std::size_t size = 0;
    for (const auto& row : rows)
        for (const auto& cell : row) size += cell.size();
    if (rows.empty() || size > static_cast<std::size_t>(shortText)) return draft;
    auto& head = draft.rows.emplace_back(DraftRow{suppliers_->chosen().value_or(Id<Supplier>{}).value()});
    head.texts = {{"number", utf8(number_->text())}, {"date", utf8(date_->text())}, {"source", utf8(source_)}};
    if (isTyped_) head.texts["typed"] = "yes";
    std::ranges::move(draftRowsOf(rows, rows_->guess()), std::back_inserter(draft.rows));
    return draft;
}

void ImportPage::takeUp(const Draft& draft)
{
    const auto& head = draft.rows.front();
    suppliers_->choose(Id<Supplier>{head.id});
    number_->setText(qs(typedText(head.texts, "number")));
    date_->setText(qs(typedText(head.texts, "date")));
    source_ = qs(typedText(head.texts, "source"));
    isTyped_ = head.texts.contains("typed");
    rows_->setGrowing(isTyped_);
    showFile(statementOfDraft(std::span{draft.rows}.subspan(1)));
    if (rows_->isEmpty()) drafts_.drop();
}

void ImportPage::putAway()
{
    rows_->clear();
    source_.clear();
    isTyped_ = false;
    number_->clear();
    drafts_.keepNow();
    showState();
}

bool ImportPage::readFile(const QString& path)
{
    QFile file{path};
    if (!file.open(QIODevice::ReadOnly)) {
        desk().say(tr("%1 cannot be read: %2. Choose another file.").arg(path, file.errorString()), Tone::wrong);
        return false;
    }
    takeText(file.readAll(), QFileInfo{path}.fileName());
    return true;
}

void ImportPage::paste()
{
    const auto text = QApplication::clipboard()->text();
    if (text.trimmed().isEmpty()) {
        desk().say(tr("There is no text on the clipboard. Select the statement\u2019s lines in the other program and copy them first."), Tone::attention);
        return;
    }
    takeText(text.toUtf8(), tr("the clipboard"));
}

void ImportPage::typeLines()
{
    source_ = tr("typed");
    isTyped_ = true;
    rows_->setGrowing(true);
    showFile(blankStatement());
    view_->setFocus();
    view_->setCurrentIndex(rows_->index(1, 1));
    view_->edit(rows_->index(1, 1));
}

void ImportPage::takeText(const QByteArray& bytes, const QString& from)
{
    if (work_) return;
    source_ = from;
    isTyped_ = false;
    rows_->setGrowing(false);
    const auto* known = desk().book().find(supplier());
    const auto remembered = known ? known->statementColumns : std::string{};
    if (bytes.size() < shortText) {
        showFile(readStatementFile(bytes.toStdString(), remembered));
        return;
    }
    work_ = std::make_shared<Work>();
    thread_ = QThread::create([work = work_, text = bytes.toStdString(), remembered]() mutable {
        try {
            work->result = readStatementFile(std::move(text), remembered, [&work](int percent) {
                work->percent = percent;
                return !work->stop.load();
            });
        } catch (const std::exception& error) {
            work->result.fault = error.what();
        }
    });
    connect(thread_, &QThread::finished, this, &ImportPage::finishReading);
    bar_->setValue(0);
    reading_->show();
    poll_->start();
    showState();
    thread_->start();
}

void ImportPage::stopReading()
{
    if (work_) work_->stop = true;
}

void ImportPage::finishReading()
{
    poll_->stop();
    reading_->hide();
    thread_->deleteLater();
    thread_ = nullptr;
    const auto work = std::move(work_);
    work_.reset();
    if (work->result.stopped || work->stop) {
        desk().say(tr("Stopped: nothing of %1 was taken.").arg(source_), Tone::attention);
        source_.clear();
        showState();
        return;
    }
    showFile(std::move(work->result));
}

void ImportPage::showFile(StatementFile file)
{
    if (!file.fault.empty()) {
        desk().say(tr("%1: %2").arg(source_, qs(file.fault)), Tone::wrong);
        return;
    }
    rows_->setRows(std::move(file.rows), std::move(file.guess), std::move(file.read));
    const QFontMetrics metrics{figureFont()};
    for (int i = 0; i < rows_->columnCount(); ++i) {
        int width = metrics.horizontalAdvance(rows_->headerData(i, Qt::Horizontal, Qt::DisplayRole).toString()) + grid(6);
        for (int row = 0; row < std::min(rows_->rowCount(), 40); ++row) width = std::max(width, metrics.horizontalAdvance(rows_->index(row, i).data().toString()) + grid(5));
        view_->setColumnWidth(i, std::clamp(width, i == 0 ? grid(18) : grid(30), grid(75)));
    }
    view_->scrollToTop();
    showState();
    takeFocus();
}

void ImportPage::showState()
{
    const bool any = !rows_->isEmpty();
    const bool mayWrite = !desk().store().isReadOnly();
    view_->setVisible(any);
    choosers_->setVisible(any);
    empty_->setVisible(!any);
    dates_->setVisible(any);
    decimals_->setVisible(any);
    put_->setVisible(any);
    for (auto* button : {choose_, paste_, typing_}) button->setEnabled(!work_ && mayWrite);
    from_->setText(work_ ? tr("Reading %1").arg(source_) : any ? tr("From %1, %2 rows").arg(source_, qs(shownDecimal(rows_->rowCount(), 0, 0))) : QString{});
    const auto& guess = rows_->guess();
    const auto& read = rows_->read();
    QString words;
    if (any) {
        std::vector<int> chosen;
        QStringList names;
        for (std::size_t i = 0; i < guess.columns.size(); ++i) {
            chosen.push_back(static_cast<int>(guess.columns[i]));
            names << rows_->headerData(static_cast<int>(i) + 1, Qt::Horizontal, Qt::DisplayRole).toString();
        }
        choosers_->show(chosen, names);
        dates_->setCurrentIndex(static_cast<int>(guess.dateOrder));
        decimals_->setCurrentIndex(guess.decimalMark == ',' ? 1 : 0);
        words = qs(statementAnswer(read));
        for (const auto& remark : guess.remarks) words += u' ' + qs(remark);
        for (const auto& remark : read.remarks) words += u' ' + qs(remark);
    }
    state_->setText(words);
    state_->setVisible(!words.isEmpty());
    showProblems();
    takeIn_->setEnabled(any && !work_ && mayWrite);
}

void ImportPage::showProblems()
{
    const auto& read = rows_->read();
    QStringList words;
    if (!rows_->isEmpty()) {
        if (const auto obstacle = rows_->guess().obstacle(); !obstacle.empty()) words << qs(obstacle);
        for (const auto& problem : read.problems) {
            if (words.size() == 4) {
                words << tr("\u2026 and %1 more").arg(read.problems.size() - 4);
                break;
            }
            if (const auto text = qs(problem); !words.contains(text)) words << text;
        }
    }
    problems_->setText(words.join(u'\n'));
    problems_->setVisible(!words.isEmpty());
    nextProblem_->setVisible(rows_->firstRefused().has_value());
}

bool ImportPage::takeIn()
{
    const auto refuse = [this](const QString& words, QWidget* where) {
        desk().say(words, Tone::attention);
        where->setFocus();
        return false;
    };
    const auto& read = rows_->read();
    const auto whose = supplier();
    if (!whose) return refuse(tr("Enter the supplier on the page Rates first."), suppliers_);
    if (rows_->isEmpty()) return refuse(tr("There are no lines yet: choose a file, paste or type them."), choose_);
    if (const auto obstacle = rows_->guess().obstacle(); !obstacle.empty()) return refuse(qs(obstacle), choosers_->at(0));
    if (!read.fine()) {
        nextProblem_->click();
        return refuse(read.problems.empty() ? tr("No line of it can be read. Put right what the columns hold.") : tr("Nothing was taken in. %1").arg(qs(read.problems.front())), view_);
    }
    const auto number = utf8(number_->text().trimmed());
    if (number.empty()) return refuse(tr("Write the statement\u2019s number first, as printed on it."), number_);
    const auto day = Date::read(utf8(date_->text().trimmed()), desk().today());
    if (!day) return refuse(tr("The date is not understood; write it like 6/30, Jun 30 2026 or 2026-06-30."), date_);

    Edit edit{"Take in statement " + number};
    const auto id = edit.add(statementFor(read, *whose, number, *day));
    for (auto line : read.lines) {
        line.statement = id;
        edit.add(line);
    }
    auto known = desk().book().get(*whose);
    if (auto layout = rows_->guess().text(); !isTyped_ && layout != known.statementColumns) {
        known.statementColumns = std::move(layout);
        edit.change(known);
    }
    QApplication::setOverrideCursor(Qt::WaitCursor);
    const auto result = desk().commit(edit);
    QApplication::restoreOverrideCursor();
    if (!result.done()) return refuse(tr("Nothing was taken in. %1").arg(sentencesOf(result)), number_);
    const Id<Statement> made{result.ids.front()};
    desk().say(tr("Taken in: statement %1, %2. Ctrl+Z takes it back.").arg(qs(number), qs(counted(static_cast<std::int64_t>(read.lines.size()), "line", "lines"))), Tone::well);
    putAway();
    date_->setText(qs(desk().today().shown()));
    emit takenIn(made);
    return true;
}

}
