#include "records/records_panel.h"

#include "form/history_view.h"
#include "form/record_form.h"
#include "form/side_by_side.h"
#include "labels.h"
#include "table/record_table.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>

namespace strikeoff {

namespace {

QString lowered(QString text)
{
    if (text.size() > 1 && text[1].isLower()) text[0] = text[0].toLower();
    return text;
}

}

std::vector<RecordColumn> usualColumns(RecordKind kind)
{
    const auto of = [](std::initializer_list<const char*> names) {
        std::vector<RecordColumn> columns;
        for (const auto* name : names) columns.push_back({.field = name});
        return columns;
    };
    switch (kind) {
    case RecordKind::customer: return of({"name", "town", "phone", "email", "note"});
    case RecordKind::site: return of({"name", "customer", "town", "drive_minutes", "note"});
    case RecordKind::lead: return of({"number", "received_on", "name", "town", "job_type", "area_sqft", "next_call_on", "source", "wish"});
    case RecordKind::job: return of({"number", "title", "customer", "site.town", "job_type", "opened_on", "closed_on", "note"});
    case RecordKind::quote: return of({"number", "issue", "job", "job.title", "drafted_on", "sent_on", "accepted_on", "declined_on"});
    case RecordKind::pour: return of({"job", "sequence", "job.title", "planned_on", "poured_on", "supplier", "mix", "ordered_yards"});
    case RecordKind::ticket: return of({"number", "date", "supplier", "plant", "mix", "yards", "job", "pour", "arrived_at", "discharge_ended_at", "note"});
    case RecordKind::statement: return of({"number", "supplier", "date", "total", "due_on", "approved_on", "paid_on", "note"});
    case RecordKind::hours: return of({"date", "person", "job", "phase", "started_at", "ended_at", "minutes", "note"});
    case RecordKind::receipt: return of({"number", "date", "vendor", "job", "cost_class", "description", "amount", "paid_on"});
    case RecordKind::visit: return of({"job", "job.title", "kind", "due", "too_late", "planned_on", "done_on", "note"});
    case RecordKind::invoice: return of({"number", "job", "job.customer", "kind", "issued_on", "due_on", "heading"});
    case RecordKind::payment: return of({"number", "received_on", "customer", "amount", "method", "reference", "note"});
    default: return everyField(kind);
    }
}

RecordsPanel::RecordsPanel(Desk& desk, PanelSetup setup, QWidget* parent) : QWidget{parent}, desk_{desk}, setup_{std::move(setup)}
{
    const auto& kind = describe(setup_.kind);
    if (setup_.columns.empty()) setup_.columns = usualColumns(setup_.kind);
    if (setup_.layout.groups.empty()) setup_.layout = layoutFor(setup_.kind);
    if (setup_.name.isEmpty()) setup_.name = qs(kind.plural);

    if (!kind.key.empty()) table_ = new RecordTable{setup_.name, columnsOf(setup_.kind, setup_.columns), desk_, this};  // first in the order of Tab
    form_ = new RecordForm{desk_, setup_.kind, setup_.layout, this};
    history_ = new HistoryView{desk_, this};
    stack_ = new QStackedWidget{this};
    stack_->addWidget(form_);
    stack_->addWidget(history_);
    auto* sheet = new QFrame{this};
    setRole(*sheet, "sheet");
    auto* inside = new QHBoxLayout{sheet};
    inside->setContentsMargins(grid(4), grid(3), grid(4), grid(3));
    inside->addWidget(stack_);
    auto* layout = new QHBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);

    connect(form_, &RecordForm::historyWanted, this, [this] {
        history_->show(form_->record());
        stack_->setCurrentWidget(history_);
    });
    connect(history_, &HistoryView::left, this, &RecordsPanel::showForm);

    if (kind.key.empty()) {  // the one row of settings needs no list
        sheet->setMaximumWidth(720);
        layout->addWidget(sheet);
        layout->addStretch(1);
        return;
    }
    table_->setEmptyText(setup_.emptyText.isEmpty() ? tr("No %1 yet. Press Ctrl+N to enter the first.").arg(lowered(setup_.name)) : setup_.emptyText);
    new_ = makeButton("newRecord", tr("New %1").arg(lowered(qs(kind.label))), nullptr, this);
    new_->setToolTip(tr("Ctrl+N"));
    table_->bar().insertWidget(0, new_);
    new_->setVisible(setup_.adds);
    another_ = makeButton("newRecord", tr("New %1").arg(lowered(qs(kind.label))), nullptr, this);
    another_->setToolTip(tr("Ctrl+N"));
    another_->hide();
    form_->buttons().insertWidget(0, another_);
    connect(another_, &QPushButton::clicked, this, [this] { startNew(); });
    if (!setup_.sortBy.empty())
        for (std::size_t i = 0; i < setup_.columns.size(); ++i)
            if (setup_.columns[i].field == setup_.sortBy) table_->sortBy(static_cast<int>(i), setup_.order);

    auto* splitter = new QSplitter{setup_.besides ? Qt::Horizontal : Qt::Vertical, this};
    splitter_ = splitter;
    splitter->setHandleWidth(grid(2));
    splitter->setChildrenCollapsible(false);
    splitter->addWidget(table_);
    splitter->addWidget(sheet);
    splitter->setStretchFactor(0, 100 - setup_.formShare);
    splitter->setStretchFactor(1, setup_.formShare);
    splitter->setSizes({(100 - setup_.formShare) * 100, setup_.formShare * 100});
    layout->addWidget(splitter);
    rememberHandle(splitter, desk_.preferences(), setup_.name);

    fold();
    connect(new_, &QPushButton::clicked, this, [this] { startNew(); });
    connect(table_, &RecordTable::currentChanged, this, [this](const RecordRef& record) {
        if (!record || (record.id == form_->record().id && !form_->isNew())) return;
        if (form_->isNew() && form_->isDirty() && enteringNew_ && !table_->view().hasFocus()) return;  // rows moved under a new record being typed
        enteringNew_ = false;
        showForm();
        form_->edit(record.id);
        emit recordShown(record);
    });
    connect(table_, &RecordTable::opened, this, [this](const RecordRef& record) {
        if (form_->record() != record) form_->edit(record.id);
        showForm();
        form_->focusFirst();
    });
    connect(form_, &RecordForm::saved, this, [this](const RecordRef& record, bool) { table_->select(record); });
    connect(form_, &RecordForm::typed, this, &RecordsPanel::fold);
    connect(form_, &RecordForm::nextWanted, this, [this] {
        if (table_->step(1)) form_->focusFirst();
        else table_->view().setFocus();
    });
    connect(form_, &RecordForm::left, this, [this] {
        enteringNew_ = false;
        if (const auto record = table_->current(); form_->isNew() && record) form_->edit(record.id);
        table_->view().setFocus();
    });
}

void RecordsPanel::setFilter(RecordFilter filter, Presets presets)
{
    setup_.filter = std::move(filter);
    setup_.presets = std::move(presets);
    refresh();
}

void RecordsPanel::turnTo(RecordFilter filter, Presets presets)
{
    enteringNew_ = false;
    form_->startNew(presets);  // puts aside what is typed, and takes up what was typed for this owner before
    setFilter(std::move(filter), std::move(presets));
}

void RecordsPanel::setLocked(const QString& why, const std::vector<std::string>& open)
{
    form_->setLocked(why, open);
    for (auto* button : {new_, another_})
        if (button) button->setEnabled(why.isEmpty() && !desk_.store().isReadOnly());
}

void RecordsPanel::putUnderTable(QWidget* widget)
{
    auto* column = new QSplitter{Qt::Vertical, this};
    column->setHandleWidth(grid(2));
    column->setChildrenCollapsible(false);
    splitter_->replaceWidget(0, column);
    splitter_->setStretchFactor(0, 3);
    column->addWidget(table_);
    column->addWidget(widget);
    column->setStretchFactor(1, 1);
    column->setSizes({grid(41), grid(100)});
    column->show();
    table_->show();
    fold();
}

void RecordsPanel::refresh()
{
    if (!table_) {
        const auto& book = desk_.book();
        if (form_->isNew() && book.count(setup_.kind) > 0) form_->edit(book.idAt(setup_.kind, 0));
        form_->refresh();
        return;
    }
    table_->setSource(tableOf(desk_, setup_.kind, setup_.columns, setup_.filter));
    form_->refresh();
    if (form_->isNew() && !form_->isDirty() && !enteringNew_) {
        // No new record was asked for: show the current one rather than an empty form.
        if (const auto record = table_->current()) form_->edit(record.id);
        else if (table_->model().rowCount() > 0) table_->select(table_->model().recordAt(0));
        else form_->startNew(setup_.presets);
    }
    fold();
}

void RecordsPanel::fold()
{
    if (!setup_.folds || !table_) return;
    const auto rows = table_->model().totalRows();
    const bool folded = rows == 0 || (rows == 1 && !(enteringNew_ && form_->isNew()));  // a second one being written can be left for the first
    table_->setHidden(folded);
    another_->setVisible(setup_.adds && folded && rows == 1);
}

bool RecordsPanel::open(std::int64_t id)
{
    if (!desk_.book().find(setup_.kind, id)) return false;
    if (!table_) return form_->edit(id);
    if (!table_->select({setup_.kind, id})) {
        table_->setFilter({});
        if (!table_->select({setup_.kind, id})) return false;
    }
    enteringNew_ = false;
    showForm();
    form_->edit(id);
    fold();
    return true;
}

void RecordsPanel::startNew(const Presets& presets)
{
    if (!setup_.adds || (new_ && !new_->isEnabled())) return;
    enteringNew_ = true;
    showForm();
    form_->startNew(presets);
    form_->focusFirst();
}

void RecordsPanel::takeFocus()
{
    if (table_ && !table_->isHidden()) table_->view().setFocus();
    else form_->focusFirst();
}

void RecordsPanel::showForm() { stack_->setCurrentWidget(form_); }

}
