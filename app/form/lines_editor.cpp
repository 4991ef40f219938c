#include "form/lines_editor.h"

#include "labels.h"
#include "record/check.h"
#include "record/field_text.h"
#include "records/record_words.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QStyledItemDelegate>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

namespace {

/// Cells are typed in; a choice is a list that goes by its first letters. Enter and Tab are left to the table.
class LineDelegate : public QStyledItemDelegate {
public:
    LineDelegate(LinesModel& model, std::function<void(int step)> goOn, std::function<void()> save, QObject* parent)
        : QStyledItemDelegate{parent}, model_{model}, goOn_{std::move(goOn)}, save_{std::move(save)}
    {
    }

    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem&, const QModelIndex& index) const override
    {
        const auto& field = model_.field(index.column());
        if (field.type != FieldType::choice) {
            auto* line = new QLineEdit{parent};
            line->setAlignment(decimalsOf(field.type) >= 0 ? Qt::AlignRight | Qt::AlignVCenter : Qt::AlignLeft | Qt::AlignVCenter);
            line->setObjectName(qs(field.name));
            line->setAccessibleName(qs(field.label));
            return line;
        }
        auto* box = new QComboBox{parent};
        box->setObjectName(qs(field.name));
        box->setAccessibleName(qs(field.label));
        if (field.nullable || field.required) box->addItem({});
        for (const auto& choice : field.choices) box->addItem(qs(choice.label));
        box->setMaxVisibleItems(16);
        return box;
    }
    void setEditorData(QWidget* editor, const QModelIndex& index) const override
    {
        const auto text = index.data(Qt::EditRole).toString();
        if (auto* box = qobject_cast<QComboBox*>(editor)) box->setCurrentIndex(std::max(box->findText(text), 0));
        else if (auto* line = qobject_cast<QLineEdit*>(editor)) line->setText(text);
    }
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override
    {
        if (const auto* box = qobject_cast<QComboBox*>(editor)) model->setData(index, box->currentText(), Qt::EditRole);
        else if (const auto* line = qobject_cast<QLineEdit*>(editor)) model->setData(index, line->text(), Qt::EditRole);
    }
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option, const QModelIndex&) const override
    {
        auto place = option.rect;
        place.setWidth(std::max(place.width(), editor->sizeHint().width() * (qobject_cast<QComboBox*>(editor) ? 1 : 0)));  // a choice is read whole
        editor->setGeometry(place);
    }
    void paint(QPainter* painter, const QStyleOptionViewItem& given, const QModelIndex& index) const override
    {
        auto option = given;
        initStyleOption(&option, index);
        if (option.features & QStyleOptionViewItem::HasCheckIndicator) {
            if (option.state & QStyle::State_Selected) painter->fillRect(option.rect, option.palette.color(QPalette::Highlight));
            auto box = given;
            box.rect.adjust(grid(1), 0, 0, 0);
            box.state &= ~(QStyle::State_HasFocus | QStyle::State_Selected);
            return QStyledItemDelegate::paint(painter, box, index);
        }
        painter->save();
        if (option.state & QStyle::State_Selected) painter->fillRect(option.rect, option.palette.color(QPalette::Highlight));
        painter->setFont(option.font);
        painter->setPen(option.palette.color(QPalette::Text));
        const auto room = option.rect.adjusted(grid(2), 0, -grid(2), 0);
        painter->drawText(room, static_cast<int>(option.displayAlignment) | Qt::TextSingleLine, option.fontMetrics.elidedText(option.text, Qt::ElideRight, room.width()));
        painter->restore();
    }
    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override { return {0, leastTarget}; }

    bool eventFilter(QObject* watched, QEvent* event) override
    {
        auto* editor = qobject_cast<QWidget*>(watched);
        if (editor && (event->type() == QEvent::KeyPress || event->type() == QEvent::ShortcutOverride)) {
            const auto& key = *static_cast<QKeyEvent*>(event);
            const bool enter = key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
            const bool saves = key.matches(QKeySequence::Save) || (enter && (key.modifiers() & Qt::ControlModifier));
            const bool goes = enter || key.key() == Qt::Key_Tab || key.key() == Qt::Key_Backtab;
            if (event->type() == QEvent::ShortcutOverride && saves) {
                event->accept();
                return true;
            }
            if (event->type() == QEvent::KeyPress && (saves || goes)) {
                emit commitData(editor);
                emit closeEditor(editor, QAbstractItemDelegate::NoHint);
                if (saves) save_();
                else goOn_(key.key() == Qt::Key_Backtab ? -1 : enter ? 2 : 1);
                return true;
            }
        }
        return QStyledItemDelegate::eventFilter(watched, event);
    }

private:
    LinesModel& model_;
    std::function<void(int)> goOn_;
    std::function<void()> save_;
};

}

LinesEditor::LinesEditor(Desk& desk, LinesSetup setup, QWidget* parent)
    : QWidget{parent}, desk_{desk}, setup_{std::move(setup)},
      drafts_{desk, DraftKeeper::of(desk).numbered("lines of " + std::string{describe(ownerKind()).name}), [this] { return typedDraft(); }}
{
    drafts_.dropLost(ownerKind());
    model_ = new LinesModel{setup_.kind, setup_.columns, setup_.amountHeading, setup_.amount, desk_, this};
    view_ = new QTableView{this};
    view_->setModel(model_);
    view_->setAccessibleName(qs(describe(setup_.kind).plural));
    view_->setSelectionMode(QAbstractItemView::SingleSelection);
    view_->setTabKeyNavigation(false);  // Tab passes on; within a cell being typed it goes to the next one
    view_->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::SelectedClicked | QAbstractItemView::AnyKeyPressed | QAbstractItemView::EditKeyPressed);
    view_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    view_->verticalHeader()->hide();
    view_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    view_->verticalHeader()->setDefaultSectionSize(leastTarget + grid(1));
    view_->horizontalHeader()->setHighlightSections(false);
    view_->horizontalHeader()->setMinimumSectionSize(grid(10));
    view_->setItemDelegate(new LineDelegate{*model_,
                                            [this](int step) {
                                                const auto from = view_->currentIndex();
                                                QTimer::singleShot(0, this, [this, from, step] { goOn(from, step); });  // once the cell's editor is gone
                                            },
                                            [this] { QTimer::singleShot(0, this, [this] { save(); }); }, view_});
    view_->installEventFilter(this);
    const QFontMetrics metrics{figureFont()};
    for (std::size_t i = 0; i <= setup_.columns.size(); ++i) {
        const int digits = i < setup_.columns.size() ? setup_.columns[i].width : 12;
        if (digits == 0) view_->horizontalHeader()->setSectionResizeMode(static_cast<int>(i), QHeaderView::Stretch);
        else view_->setColumnWidth(static_cast<int>(i), digits * metrics.horizontalAdvance(u'0') + grid(4));
    }
    view_->setWordWrap(false);
    empty_ = makeLabel(setup_.emptyText, TextSize::body, Tone::quiet, this);
    empty_->setAlignment(Qt::AlignCenter);
    answer_ = makeLabel({}, TextSize::body, Tone::plain, this);
    answer_->setObjectName(QStringLiteral("linesAnswer"));
    locked_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    locked_->setObjectName(QStringLiteral("linesLocked"));
    problem_ = makeLabel({}, TextSize::body, Tone::wrong, this);
    problem_->setObjectName(QStringLiteral("linesProblem"));
    problem_->hide();

    add_ = makeButton("addLine", tr("Add a line"), nullptr, this);
    add_->setToolTip(tr("Enter behind the last line does the same"));
    remove_ = makeButton("removeLine", tr("Remove the line"), nullptr, this);
    remove_->setToolTip(tr("Delete"));
    putBack_ = makeButton("putBackLines", tr("Put back as saved"), nullptr, this);
    save_ = makeButton("saveLines", tr("Save lines"), "main", this);
    save_->setToolTip(tr("Ctrl+S"));
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(grid(2));
    buttons->addWidget(add_);
    buttons->addWidget(remove_);
    buttons->addStretch(1);
    buttons->addWidget(putBack_);
    buttons->addWidget(save_);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    layout->addWidget(view_, 1);
    layout->addWidget(empty_, 1);
    layout->addWidget(answer_);
    layout->addWidget(locked_);
    layout->addWidget(problem_);
    layout->addLayout(buttons);

    connect(add_, &QPushButton::clicked, this, &LinesEditor::addLine);
    connect(remove_, &QPushButton::clicked, this, &LinesEditor::removeLine);
    connect(putBack_, &QPushButton::clicked, this, &LinesEditor::putBack);
    connect(save_, &QPushButton::clicked, this, [this] { save(); });
    connect(model_, &LinesModel::edited, this, [this] {
        problem_->hide();
        if (isDirty()) drafts_.wasTyped();
        else drafts_.keepNow();
        showState();
        emit dirtyChanged();
    });
    connect(view_->selectionModel(), &QItemSelectionModel::currentChanged, this, [this] { showState(); });
    showState();
}

RecordKind LinesEditor::ownerKind() const
{
    const auto& kind = describe(setup_.kind);
    return kind.fields[fieldIndex(kind, setup_.owner)].refersTo;
}

Draft LinesEditor::typedDraft() const
{
    Draft draft{owner_, 0, tr("the lines of %1").arg(recordName(desk_.book(), {ownerKind(), owner_}))};
    if (owner_ != 0) draft.rows = model_->typedRows();
    return draft;
}

LinesModel::State LinesEditor::stateOf(std::int64_t owner) const
{
    LinesModel::State state;
    if (owner == 0) return state;
    const auto& book = desk_.book();
    for (const auto id : book.referring(setup_.kind, fieldIndex(describe(setup_.kind), setup_.owner), owner))
        if (auto row = book.row(setup_.kind, id)) state.lines.push_back({*row, *row, {}, {}});
    std::ranges::stable_sort(state.lines, [](const auto& a, const auto& b) { return a.base.value("position") < b.base.value("position"); });
    return state;
}

void LinesEditor::show(std::int64_t owner, const QString& lockedWhy)
{
    lockedWhy_ = lockedWhy;
    model_->setReadOnly(!lockedWhy.isEmpty() || desk_.store().isReadOnly());
    if (owner == owner_) return refresh();
    if (owner_ != 0) drafts_.keepNow();
    owner_ = owner;
    problem_->hide();
    model_->setState(stateOf(owner));
    if (const auto draft = drafts_.kept({owner, 0})) model_->putTyped(draft->rows, [this] { return newLine(); });
    showState();
}

void LinesEditor::refresh()
{
    if (isDirty()) return showState();
    auto now = stateOf(owner_);
    const auto& shown = model_->state().lines;
    const bool same = now.lines.size() == shown.size()
        && std::ranges::equal(now.lines, shown, [](const auto& a, const auto& b) { return a.base.id == b.base.id && a.base.revision == b.base.revision && a.base.values == b.base.values; });
    if (!same) {
        const auto at = view_->currentIndex();
        model_->setState(std::move(now));
        if (at.isValid()) view_->setCurrentIndex(model_->index(std::min(at.row(), model_->rowCount() - 1), at.column()));
    }
    showState();
}

void LinesEditor::putBack()
{
    model_->setState(stateOf(owner_));
    drafts_.keepNow();
    problem_->hide();
    showState();
    emit dirtyChanged();
}

void LinesEditor::showState()
{
    const bool locked = model_->isReadOnly();
    const bool any = model_->rowCount() > 0;
    view_->setVisible(any);
    empty_->setVisible(!any);
    answer_->setVisible(any);
    answer_->setText(any && setup_.answer ? setup_.answer(model_->typedLines()) : QString{});
    // Lines typed before the paper was sent elsewhere are shown, so that they are not lost unseen.
    const bool tooLate = !lockedWhy_.isEmpty() && isDirty();
    locked_->setText(tooLate ? tr("%1 What was typed here before is not on it.").arg(lockedWhy_) : lockedWhy_);
    locked_->setVisible(!lockedWhy_.isEmpty());
    for (auto* button : {add_, remove_, save_}) button->setVisible(!locked && owner_ != 0);
    putBack_->setVisible((!locked || tooLate) && owner_ != 0);
    remove_->setEnabled(view_->currentIndex().isValid());
    putBack_->setEnabled(isDirty());
    save_->setEnabled(isDirty());
}

void LinesEditor::begin(const QModelIndex& index)
{
    view_->setFocus();
    view_->setCurrentIndex(index);
    view_->scrollTo(index);
    if (index.flags() & Qt::ItemIsEditable) view_->edit(index);
}

/// To the next cell that is typed in (2: and a new line behind the last one), or back to the one before (-1).
void LinesEditor::goOn(const QModelIndex& from, int step)
{
    if (!from.isValid()) return;
    const int direction = step < 0 ? -1 : 1;
    int row = from.row();
    int column = from.column() + direction;
    for (;; column += direction) {
        if (column < 0) {
            if (--row < 0) return view_->setFocus();
            column = model_->columnCount() - 1;
        } else if (column >= model_->columnCount()) {
            if (++row >= model_->rowCount()) {
                if (step == 2) addLine();
                else view_->setFocus();
                return;
            }
            column = 0;
        }
        if (!model_->isAmount(column)) return begin(model_->index(row, column));
    }
}

/// A line that goes behind what is there, and behind what is taken out but still holds its place in the book.
Row LinesEditor::newLine() const
{
    const auto& kind = describe(setup_.kind);
    auto row = blankRow(setup_.kind);
    for (std::size_t i = 0; i < kind.fields.size(); ++i)
        if (kind.fields[i].required) row.values[i] = Value{};
    row.set(setup_.owner, Value{owner_});
    std::int64_t place = 0;
    const auto count = [&place](const Row& other) {
        if (const auto* number = std::get_if<std::int64_t>(&other.value("position"))) place = std::max(place, *number);
    };
    for (const auto& line : model_->state().lines) count(line.now);
    for (const auto& removed : model_->state().removed) count(removed);
    row.set("position", Value{place + 1});
    if (!model_->state().lines.empty())
        for (const auto& name : setup_.carried) row.set(name, model_->state().lines.back().now.value(name));
    return row;
}

void LinesEditor::addLine()
{
    if (model_->isReadOnly() || owner_ == 0) return;
    const int at = model_->addLine(newLine());
    showState();
    begin(model_->index(at, 0));
}

void LinesEditor::removeLine()
{
    const auto at = view_->currentIndex();
    if (!at.isValid() || model_->isReadOnly()) return;
    model_->removeLine(at.row());
    if (model_->rowCount() > 0) {
        view_->setCurrentIndex(model_->index(std::min(at.row(), model_->rowCount() - 1), at.column()));
        view_->setFocus();
    } else {
        add_->setFocus();
    }
    showState();
}

/// Whether every cell can be read and every line is sound; the first that is not is said and made current.
bool LinesEditor::check()
{
    for (int row = 0; row < model_->rowCount(); ++row) {
        const auto line = model_->state().lines[static_cast<std::size_t>(row)];
        if (line.isNew() && !line.isTouched()) continue;
        auto faults = line.faults;
        QString general;
        for (const auto& problem : checkFields(line.now)) {
            const int column = model_->columnOf(problem.field);
            if (column >= 0) faults.emplace(column, qs(problem.message));
            else general = qs(problem.message);
        }
        if (faults.empty() && general.isEmpty()) continue;
        for (const auto& [column, fault] : faults) model_->setFault(row, column, fault);
        const int column = faults.empty() ? 0 : faults.begin()->first;
        problem_->setText(tr("Line %1: %2").arg(row + 1).arg(faults.empty() ? general : faults.begin()->second));
        problem_->show();
        view_->setFocus();
        view_->setCurrentIndex(model_->index(row, column));
        return false;
    }
    return true;
}

bool LinesEditor::save()
{
    if (!isDirty()) return true;
    view_->setFocus();  // a cell being typed is taken
    if (!check() || !commit()) return false;
    putBack();
    return true;
}

bool LinesEditor::commit()
{
    Edit edit{setup_.title()};
    std::vector<int> rows;  // which line each change is of
    for (const auto& removed : model_->state().removed) {
        edit.remove(setup_.kind, removed.id, removed.revision);
        rows.push_back(-1);
    }
    for (int row = 0; row < model_->rowCount(); ++row) {
        const auto& line = model_->state().lines[static_cast<std::size_t>(row)];
        if (!line.isTouched()) continue;
        if (line.isNew()) edit.add(line.now);
        else edit.change(line.now);
        rows.push_back(row);
    }
    const auto result = desk_.commit(edit);
    if (result.done()) return true;
    for (const auto& problem : result.problems) {
        const int row = problem.change < rows.size() ? rows[problem.change] : -1;
        if (const int column = model_->columnOf(problem.field); row >= 0 && column >= 0) model_->setFault(row, column, qs(problem.message));
    }
    auto words = sentencesOf(result);
    if (!result.conflicts.empty()) words += tr(". \u201cPut back as saved\u201d shows what the book says now.");
    problem_->setText(words);
    problem_->show();
    return false;
}

bool LinesEditor::select(std::int64_t id)
{
    const auto& lines = model_->state().lines;
    const auto found = std::ranges::find_if(lines, [id](const auto& line) { return line.base.id == id; });
    if (found == lines.end()) return false;
    view_->setCurrentIndex(model_->index(static_cast<int>(found - lines.begin()), 0));
    return true;
}

void LinesEditor::takeFocus()
{
    if (model_->rowCount() == 0) return add_->setFocus();
    view_->setFocus();
    if (!view_->currentIndex().isValid()) view_->setCurrentIndex(model_->index(0, 0));
}

bool LinesEditor::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == view_ && event->type() == QEvent::KeyPress) {
        const auto& key = *static_cast<QKeyEvent*>(event);
        const auto at = view_->currentIndex();
        const bool enter = key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
        if (enter && key.modifiers() == Qt::NoModifier && at.isValid() && !model_->isReadOnly()) {
            if (at.flags() & Qt::ItemIsEditable) view_->edit(at);
            else goOn(at, 2);
            return true;
        }
        if (key.key() == Qt::Key_Delete && key.modifiers() == Qt::NoModifier) {
            removeLine();
            return true;
        }
        if (key.key() == Qt::Key_Escape && at.isValid()) {
            const auto& line = model_->state().lines[static_cast<std::size_t>(at.row())];
            if (line.isNew() && !line.isTouched()) {
                removeLine();
                return true;
            }
        }
        if (key.matches(QKeySequence::Save) || (enter && (key.modifiers() & Qt::ControlModifier))) {
            save();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

void LinesEditor::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if (event->matches(QKeySequence::Save) || (enter && (event->modifiers() & Qt::ControlModifier))) save();
    else QWidget::keyPressEvent(event);
}

}
