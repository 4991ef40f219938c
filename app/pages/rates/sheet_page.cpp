#include "pages/rates/sheet_page.h"

#include "form/supplier_box.h"
#include "labels.h"
#include "load.h"
#include "pages/rates/sheet_model.h"
#include "quantity/words.h"
#include "ready_mix/sheet_comparison.h"
#include "table/grid_view.h"
#include "table/record_table.h"

#include <QComboBox>
#include <QFile>
#include <QFileDialog>
#include <QFileInfo>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

Cell amountCell(const SheetCharge* charge)
{
    if (!charge) return textCell({});
    auto cell = decimalCell(std::optional{charge->amount}, 2);
    cell.tip = qs(labelOf(charge->unit));
    return cell;
}

Tone toneOf(SheetMove move)
{
    switch (move) {
    case SheetMove::up: return Tone::attention;
    case SheetMove::down: return Tone::well;
    case SheetMove::same: return Tone::quiet;
    default: return Tone::plain;
    }
}

QString sizeOf(const SheetCharge& charge)
{
    if (!charge.fromYards && !charge.toYards) return {};
    if (!charge.toYards) return SheetPage::tr("from %1 yd\u00b3").arg(qs(charge.fromYards->text()));
    if (!charge.fromYards || charge.fromYards->isZero()) return SheetPage::tr("under %1 yd\u00b3").arg(qs(charge.toYards->text()));
    return SheetPage::tr("%1 to under %2 yd\u00b3").arg(qs(charge.fromYards->text()), qs(charge.toYards->text()));
}

/// What it is for, else the loads it is on; those are also told by pointing at it.
Cell meaningCell(const SheetCharge& charge)
{
    const auto size = sizeOf(charge);
    auto cell = textCell(charge.meaning.empty() ? size : qs(charge.meaning));
    cell.tip = size;
    return cell;
}

}

SheetPage::SheetPage(Desk& desk, QWidget* parent) : Page{desk, parent}, drafts_{desk, "price sheet", [this] { return typedDraft(); }}
{
    auto* bar = new QHBoxLayout;
    bar->setSpacing(grid(2));
    const auto label = [this](const QString& words) {
        auto* made = makeLabel(words, TextSize::body, Tone::plain, this);
        made->setWordWrap(false);
        return made;
    };
    const auto box = [this](const char* name, const QString& words) {
        auto* made = new QComboBox{this};
        made->setObjectName(QString::fromLatin1(name));
        made->setAccessibleName(words);
        made->setMinimumContentsLength(12);
        return made;
    };
    suppliers_ = new SupplierBox{"sheetSupplier", tr("Supplier"), this};
    before_ = box("sheetBefore", tr("The earlier sheet"));
    after_ = box("sheetAfter", tr("The later sheet"));
    type_ = makeButton("typeSheet", tr("Type a new sheet"), nullptr, this);
    load_ = makeButton("loadSheet", tr("Load from CSV\u2026"), nullptr, this);
    bar->addWidget(label(tr("Supplier")));
    bar->addWidget(suppliers_);
    bar->addWidget(label(tr("Sheet of")));
    bar->addWidget(after_);
    bar->addWidget(label(tr("against")));
    bar->addWidget(before_);
    bar->addStretch(1);
    auto* verbs = new QHBoxLayout;  // a line of their own, so that the window can be narrow
    verbs->setSpacing(grid(2));
    verbs->addWidget(type_);
    verbs->addWidget(load_);
    verbs->addStretch(1);

    stack_ = new QStackedWidget{this};
    comparing_ = new QWidget{stack_};
    words_ = makeLabel({}, TextSize::body, Tone::plain, comparing_);
    words_->setObjectName(QStringLiteral("sheetWords"));
    moves_ = new RecordTable{tr("What changed"),
                             {{.heading = tr("Charge"), .width = 13}, {.heading = tr("Code"), .width = 9}, {.heading = tr("Meaning"), .width = 25, .dashWhenBlank = false},
                              {.heading = tr("Unit"), .width = 11}, {.heading = tr("Was, $"), .align = Align::right, .width = 7}, {.heading = tr("Is, $"), .align = Align::right, .width = 7},
                              {.heading = tr("Change, $"), .align = Align::right, .width = 7}, {.heading = tr("%"), .align = Align::right, .width = 6},
                              {.heading = tr("On last season, $"), .align = Align::right, .width = 10, .tip = tr("What the change costs on the tickets of the twelve months before the later sheet")},
                              {.heading = tr("What"), .width = 14, .dashWhenBlank = false, .stretches = true}},
                             desk, comparing_};
    auto* compareRows = new QVBoxLayout{comparing_};
    compareRows->setContentsMargins(0, 0, 0, 0);
    compareRows->setSpacing(grid(2));
    compareRows->addWidget(words_);
    compareRows->addWidget(moves_, 1);

    typing_ = new QWidget{stack_};
    model_ = new SheetModel{desk, this};
    grid_ = new GridView{tr("Charges being typed"), *model_, desk, typing_};
    day_ = new QLineEdit{typing_};
    day_->setObjectName(QStringLiteral("sheetDay"));
    day_->setAccessibleName(tr("In force from"));
    day_->setFixedWidth(grid(32));
    state_ = makeLabel({}, TextSize::body, Tone::plain, typing_);
    state_->setObjectName(QStringLiteral("sheetState"));
    save_ = makeButton("saveSheet", tr("Save the sheet"), "main", typing_);
    save_->setToolTip(tr("Ctrl+Enter"));
    auto* leave = makeButton("leaveSheet", tr("Put away"), nullptr, typing_);
    auto* typeBar = new QHBoxLayout;
    typeBar->setSpacing(grid(2));
    typeBar->addWidget(label(tr("In force from")));
    typeBar->addWidget(day_);
    typeBar->addWidget(state_, 1);
    typeBar->addWidget(leave);
    typeBar->addWidget(save_);
    auto* hint = makeLabel(tr("It begins with the charges of the last sheet: type over what changed. Charge and unit by their first letters, y for taxable; Ctrl+Delete takes a row out, Ctrl+Enter saves the sheet. "
                              "A range holds its From and not its To. A sheet that a later one follows stays as it is."),
                           TextSize::small, Tone::quiet, typing_);
    auto* typeRows = new QVBoxLayout{typing_};
    typeRows->setContentsMargins(0, 0, 0, 0);
    typeRows->setSpacing(grid(2));
    typeRows->addLayout(typeBar);
    typeRows->addWidget(grid_, 1);
    typeRows->addWidget(hint);

    faulty_ = new QWidget{stack_};
    faultWords_ = makeLabel({}, TextSize::body, Tone::wrong, faulty_);
    faultWords_->setObjectName(QStringLiteral("sheetFaults"));
    faults_ = new RecordTable{tr("Faults in the file"), {{.heading = tr("Line"), .align = Align::right, .width = 6}, {.heading = tr("Column"), .width = 16}, {.heading = tr("What is wrong"), .width = 60, .stretches = true}}, desk, faulty_};
    auto* back = makeButton("leaveFaults", tr("Back to the sheets"), nullptr, faulty_);
    auto* faultBar = new QHBoxLayout;
    faultBar->addWidget(faultWords_, 1);
    faultBar->addWidget(back);
    auto* faultRows = new QVBoxLayout{faulty_};
    faultRows->setContentsMargins(0, 0, 0, 0);
    faultRows->setSpacing(grid(2));
    faultRows->addLayout(faultBar);
    faultRows->addWidget(faults_, 1);

    for (auto* part : {comparing_, typing_, faulty_}) stack_->addWidget(part);
    auto* rows = new QVBoxLayout{this};
    rows->setContentsMargins(0, 0, 0, 0);
    rows->setSpacing(grid(2));
    rows->addLayout(bar);
    rows->addLayout(verbs);
    rows->addWidget(stack_, 1);

    connect(suppliers_, &QComboBox::currentIndexChanged, this, [this] {
        if (filling_) return;
        fillSheets();
        compare();
    });
    for (auto* each : {before_, after_})
        connect(each, &QComboBox::currentIndexChanged, this, [this] {
            if (!filling_) compare();
        });
    connect(type_, &QPushButton::clicked, this, &SheetPage::startSheet);
    connect(load_, &QPushButton::clicked, this, [this] {
        const auto path = QFileDialog::getOpenFileName(this, tr("Price sheet"), this->desk().preferences().folder(), tr("CSV files (*.csv);;All files (*)"));
        if (path.isEmpty()) return;
        this->desk().preferences().setFolder(QFileInfo{path}.absolutePath());
        loadSheet(path);
    });
    connect(back, &QPushButton::clicked, this, [this] { stack_->setCurrentWidget(comparing_); });
    connect(leave, &QPushButton::clicked, this, [this] {
        model_->startWith({}, {});
        stack_->setCurrentWidget(comparing_);
        takeFocus();
    });
    connect(save_, &QPushButton::clicked, this, &SheetPage::saveSheet);
    connect(grid_, &GridView::saveWanted, this, &SheetPage::saveSheet);
    connect(model_, &SheetModel::wordsChanged, this, &SheetPage::showTyped);
    connect(day_, &QLineEdit::textChanged, this, [this] {
        if (!model_->isEmpty()) drafts_.wasTyped();
        if (const auto day = Date::read(utf8(day_->text()), this->desk().today())) model_->setDay(*day);
    });
}

Id<Supplier> SheetPage::supplier() const { return suppliers_->chosen().value_or(Id<Supplier>{}); }

RecordTable* SheetPage::table() const { return stack_->currentWidget() == faulty_ ? faults_ : stack_->currentWidget() == comparing_ ? moves_ : nullptr; }

bool SheetPage::hasUnsaved() const { return !model_->isEmpty() || drafts_.any(); }

Draft SheetPage::typedDraft() const
{
    const auto* whose = desk().book().find(model_->supplier());
    Draft draft{0, 0, tr("a price sheet of %1").arg(whose ? qs(whose->name) : QString{})};
    if (model_->isEmpty()) return draft;
    draft.rows.push_back({model_->supplier().value(), 0, {{"effective_on", utf8(day_->text())}}});
    for (const auto& charge : model_->typed()) draft.rows.push_back({0, 0, charge});
    return draft;
}

void SheetPage::takeUp(const Draft& draft)
{
    const Id<Supplier> whose{draft.rows.front().id};
    suppliers_->choose(whose);
    std::vector<TypedRow> charges;
    for (std::size_t i = 1; i < draft.rows.size(); ++i) charges.push_back(draft.rows[i].texts);
    model_->startWith(std::move(charges), whose);
    day_->setText(qs(typedText(draft.rows.front().texts, "effective_on")));
    stack_->setCurrentWidget(typing_);
}

void SheetPage::refresh()
{
    const auto& book = desk().book();
    filling_ = true;
    if (!suppliers_->list(book))
        for (const auto& each : book.all<Supplier>())  // one that has sheets
            if (!sheetDates(book, each.id).empty()) {
                suppliers_->choose(each.id);
                break;
            }
    filling_ = false;
    if (const auto draft = drafts_.kept(); draft && model_->isEmpty()) takeUp(*draft);
    const bool mayWrite = !desk().store().isReadOnly();
    type_->setEnabled(mayWrite && suppliers_->count() > 0);
    load_->setEnabled(mayWrite && suppliers_->count() > 0);
    fillSheets();
    compare();
}

void SheetPage::fillSheets()
{
    filling_ = true;
    const auto keepBefore = before_->currentData();
    const auto keepAfter = after_->currentData();
    const auto dates = sheetDates(desk().book(), supplier());
    for (auto* box : {before_, after_}) {
        box->clear();
        for (auto date = dates.rbegin(); date != dates.rend(); ++date) box->addItem(qs(date->shown()), QVariant::fromValue<qlonglong>(date->days()));
    }
    after_->setCurrentIndex(std::max(after_->findData(keepAfter), dates.empty() ? -1 : 0));
    const int kept = before_->findData(keepBefore);
    before_->setCurrentIndex(kept >= 0 && keepBefore != after_->currentData() ? kept : std::min<int>(1, static_cast<int>(dates.size()) - 1));
    filling_ = false;
}

void SheetPage::compare()
{
    const auto& book = desk().book();
    const auto dates = sheetDates(book, supplier());
    std::vector<TableRow> rows;
    answer_.clear();
    if (book.all<Supplier>().empty()) {
        moves_->setEmptyText(tr("No supplier yet. Enter one on the tab Suppliers; then type the price sheet here or load it from CSV."));
    } else if (dates.empty()) {
        moves_->setEmptyText(tr("No price sheet of this supplier yet. Press \u201cType a new sheet\u201d, or load it from CSV."));
    } else if (before_->currentData() == after_->currentData()) {
        moves_->setEmptyText(tr("One sheet so far. When the next one comes, what moved and what it costs on last season\u2019s yards stands here."));
    } else {
        const auto was = sheetInForce(book, supplier(), Date::ofDays(before_->currentData().toLongLong()));
        const auto is = sheetInForce(book, supplier(), Date::ofDays(after_->currentData().toLongLong()));
        const auto result = compareSheets(book, *was, *is);
        answer_ = qs(result.answer);
        for (const auto& move : result.moves) {
            const auto& charge = move.charge();
            const bool same = move.move == SheetMove::same;
            auto what = qs(labelOf(move.move));
            if (!move.terms.empty()) what = move.move == SheetMove::otherTerms ? qs(move.terms) : what + QStringLiteral("; ") + qs(move.terms);
            rows.push_back({{RecordKind::priceSheet, charge.id.value()},
                            {textCell(qs(labelOf(charge.charge))), textCell(qs(charge.code)), meaningCell(charge), textCell(qs(labelOf(charge.unit))), amountCell(move.before), amountCell(move.after),
                             same ? Cell{} : decimalCell(move.change, 2), same ? Cell{} : decimalCell(move.percent, 1), moneyCell(move.cost), textCell(what, toneOf(move.move))},
                            {}, false});
        }
        TableRow total;
        total.apart = true;
        total.cells.resize(10, textCell(QStringLiteral(" ")));
        total.cells[0] = textCell(tr("In all, with tax"));
        total.cells[8] = result.loads > 0 ? moneyCell(result.costAfter - result.costBefore) : Cell{};
        rows.push_back(std::move(total));
    }
    words_->setText(answer_);
    words_->setVisible(!answer_.isEmpty());
    moves_->setRows(std::move(rows));
    emit answerChanged();
}

void SheetPage::startSheet()
{
    if (desk().store().isReadOnly() || supplier().value() == 0) return;
    if (model_->isEmpty()) {
        const auto dates = sheetDates(desk().book(), supplier());
        const auto last = dates.empty() ? std::nullopt : sheetInForce(desk().book(), supplier(), dates.back());
        day_->setText(qs(desk().today().shown()));
        model_->startWith(last ? typedSheet(*last) : std::vector<TypedRow>{}, supplier());
    }
    stack_->setCurrentWidget(typing_);
    day_->setFocus();
    day_->selectAll();
}

void SheetPage::showTyped()
{
    state_->setText(qs(sheetAnswer(model_->readings())));
    save_->setEnabled(!model_->isEmpty());
    if (model_->isEmpty()) drafts_.keepNow();
    else drafts_.wasTyped();
}

bool SheetPage::saveSheet()
{
    const auto day = Date::read(utf8(day_->text()), desk().today());
    if (!day) {
        desk().say(tr("In force from: the day is not understood; write it like 3/1, Mar 1 2027 or 2027-03-01."), Tone::attention);
        day_->setFocus();
        return false;
    }
    model_->setDay(*day);
    const auto step = enterSheet(desk().book(), model_->readings(), supplier(), *day);
    if (!step.possible()) {
        desk().say(tr("Nothing is saved yet. %1").arg(qs(step.obstacle)), Tone::attention);
        for (int row = 0; row < model_->rowCount(); ++row)
            if (model_->isBlocked(row)) {
                grid_->typeInRow(row);
                break;
            }
        return false;
    }
    const auto result = desk().commit(*step.edit);
    if (!result.done()) {
        // The rows of the edit are those begun, in their order.
        std::vector<int> begun;
        for (int row = 0; row < model_->rowCount(); ++row)
            if (model_->readings()[static_cast<std::size_t>(row)].begun) begun.push_back(row);
        for (const auto& problem : result.problems)
            if (problem.change < begun.size()) model_->refuse(begun[problem.change], qs(problem.message));
        desk().say(tr("Nothing is saved yet. %1").arg(sentencesOf(result)), Tone::attention);
        return false;
    }
    const auto entered = *day;
    model_->startWith({}, {});
    stack_->setCurrentWidget(comparing_);
    filling_ = true;
    after_->setCurrentIndex(after_->findData(QVariant::fromValue<qlonglong>(entered.days())));
    filling_ = false;
    refresh();
    desk().say(tr("Saved: the sheet in force from %1. Ctrl+Z takes it back.").arg(qs(entered.shown())), Tone::well);
    takeFocus();
    return true;
}

bool SheetPage::loadSheet(const QString& path)
{
    QFile file{path};
    if (!file.open(QIODevice::ReadOnly)) {
        desk().say(tr("%1 cannot be read: %2. Choose another file.").arg(path, file.errorString()), Tone::wrong);
        return false;
    }
    const auto name = QFileInfo{path}.fileName();
    LoadResult result;
    if (!desk().guarded(tr("Load %1").arg(name), [&] { result = loadCsv(desk().store(), RecordKind::priceSheet, utf8(name), file.readAll().toStdString()); })) return false;
    if (result.done()) {
        stack_->setCurrentWidget(comparing_);
        refresh();
        desk().say(tr("Loaded from %1: %2 added, %3 changed. Ctrl+Z takes it back.").arg(name).arg(result.added).arg(result.changed), Tone::well);
        return true;
    }
    std::vector<TableRow> rows;
    for (const auto& fault : result.faults)
        rows.push_back({{}, {numberCell(static_cast<std::int64_t>(fault.line)), textCell(qs(fault.column)), textCell(qs(fault.message), Tone::wrong)}, {}, false});
    faultWords_->setText(tr("Nothing of %1 was loaded: %2. Put them right in the file and load it again.").arg(name, qs(counted(static_cast<std::int64_t>(result.faultCount), "fault", "faults"))));
    faults_->setRows(std::move(rows));
    stack_->setCurrentWidget(faulty_);
    faults_->view().setFocus();
    return false;
}

void SheetPage::takeFocus()
{
    if (stack_->currentWidget() == typing_) grid_->setFocus();
    else if (moves_->model().rowCount() > 0) moves_->view().setFocus();
    else suppliers_->setFocus();
}

}
