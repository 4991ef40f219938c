#include "table/grid_view.h"

#include "form/reference_edit.h"
#include "labels.h"
#include "table/grid_model.h"
#include "table/record_source.h"

#include "record/field_text.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QPointer>
#include <QStyledItemDelegate>

#include <algorithm>

namespace strikeoff {

namespace {

constexpr int cellHeight = leastTarget + 2;
constexpr int wordsIndent = grid(2);

int digitsFor(const Field& field)
{
    if (field.name == "supplier" || field.name == "options" || field.name == "charge" || field.name == "unit") return 15;
    if (field.name == "code") return 10;
    if (field.name == "meaning") return 28;
    if (field.name == "note") return 24;
    if (field.name == "mix" || field.name == "number" || field.name == "signed_by") return 9;
    if (field.type == FieldType::date) return 12;
    if (field.type == FieldType::clockTime) return 9;
    if (field.name == "pour") return 4;
    return 6;
}

class CellDelegate : public QStyledItemDelegate {
public:
    CellDelegate(GridModel& model, Desk& desk, GridView& view) : QStyledItemDelegate{&view}, model_{model}, desk_{desk}, view_{view} {}

    void paint(QPainter* painter, const QStyleOptionViewItem& given, const QModelIndex& index) const override
    {
        const auto& palette = windowPalette();
        auto room = given.rect;
        room.setHeight(cellHeight);
        painter->save();
        if (index == view_.currentIndex()) painter->fillRect(room, given.palette.color(QPalette::Highlight));
        const auto fault = index.data(GridModel::faultRole).toString();
        painter->setPen(palette.line);
        painter->drawLine(room.topRight(), room.bottomRight());
        if (!fault.isEmpty()) {
            painter->setPen(palette.wrong);
            painter->drawRect(room.adjusted(1, 1, -2, -1));
        }
        auto text = index.data().toString();
        auto color = index.data(GridModel::carriedRole).toBool() ? palette.quiet : palette.ink;
        if (text.isEmpty()) {
            text = index.data(GridModel::hintRole).toString();
            color = palette.quiet;
            if (!text.isEmpty()) text += QStringLiteral("?");
        }
        painter->setFont(figureFont());
        painter->setPen(color);
        const auto inside = room.adjusted(grid(2), 0, -grid(2), 0);
        painter->drawText(inside, index.data(Qt::TextAlignmentRole).value<Qt::Alignment>() | Qt::TextSingleLine, painter->fontMetrics().elidedText(text, Qt::ElideRight, inside.width()));
        painter->restore();
    }

    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem&, const QModelIndex& index) const override
    {
        const auto& field = model_.fieldFor(index);
        QLineEdit* line = nullptr;
        if (field.type == FieldType::reference) {
            const auto scope = [this, row = index.row(), &field] { return model_.scopeOf(row, field); };
            auto* reference = new ReferenceEdit{field, desk_, scope, parent};
            auto* self = const_cast<CellDelegate*>(this);
            connect(reference, &ReferenceEdit::picked, self, [self, still = QPointer{reference}] {
                if (!still) return;
                emit self->commitData(still);
                emit self->closeEditor(still, EditNextItem);
            }, Qt::QueuedConnection);
            line = reference;
        } else {
            line = new QLineEdit{parent};
            line->setPlaceholderText(index.data(GridModel::hintRole).toString());
        }
        line->setObjectName(qs(field.name));
        line->setAccessibleName(headingOf(field));
        line->setAccessibleDescription(qs(field.meaning));
        return line;
    }

    void setEditorData(QWidget* editor, const QModelIndex& index) const override
    {
        static_cast<QLineEdit*>(editor)->setText(index.data(Qt::EditRole).toString());
    }
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override
    {
        model->setData(index, static_cast<QLineEdit*>(editor)->text(), Qt::EditRole);
    }
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option, const QModelIndex&) const override
    {
        auto room = option.rect;
        room.setHeight(cellHeight);
        editor->setGeometry(room);
    }

protected:
    bool eventFilter(QObject* watched, QEvent* event) override
    {
        auto* line = qobject_cast<QLineEdit*>(watched);
        if (!line || event->type() != QEvent::KeyPress) return QStyledItemDelegate::eventFilter(watched, event);
        const auto& key = *static_cast<QKeyEvent*>(event);
        if (const auto* reference = qobject_cast<ReferenceEdit*>(line); reference && reference->listIsOpen()) return false;
        if (key.matches(QKeySequence::Paste) && view_.pasteCells()) {
            emit closeEditor(line, RevertModelCache);
            view_.typeInRow(view_.currentIndex().row());
            return true;
        }
        const bool enter = key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter;
        if ((enter && (key.modifiers() & Qt::ControlModifier)) || key.matches(QKeySequence::Save)) {
            emit commitData(line);
            emit closeEditor(line, NoHint);
            emit view_.saveWanted();
            return true;
        }
        if (enter && (key.modifiers() & Qt::ShiftModifier)) {
            emit commitData(line);
            emit closeEditor(line, NoHint);
            const int next = view_.currentIndex().row() + 1;
            view_.typeInRow(std::min(next, model_.rowCount() - 1));
            return true;
        }
        if (enter) {
            emit commitData(line);
            emit closeEditor(line, EditNextItem);
            return true;
        }
        const bool up = key.key() == Qt::Key_Up;
        const bool down = key.key() == Qt::Key_Down && !qobject_cast<ReferenceEdit*>(line);
        if ((up || down) && key.modifiers() == Qt::NoModifier) {
            const auto at = view_.currentIndex();
            const int row = at.row() + (up ? -1 : 1);
            if (row < 0) return true;
            emit commitData(line);
            if (row < model_.rowCount()) {
                emit closeEditor(line, NoHint);
                view_.typeAt(row, at.column());
            }
            return true;
        }
        return QStyledItemDelegate::eventFilter(watched, event);
    }

private:
    GridModel& model_;
    Desk& desk_;
    GridView& view_;
};

}

GridView::GridView(const QString& name, GridModel& model, Desk& desk, QWidget* parent) : QTableView{parent}, model_{model}
{
    setObjectName(QStringLiteral("grid"));
    setAccessibleName(name);
    setModel(&model);
    setItemDelegate(new CellDelegate{model, desk, *this});
    setSelectionMode(QAbstractItemView::NoSelection);
    setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed | QAbstractItemView::AnyKeyPressed);
    setShowGrid(false);
    setWordWrap(false);
    setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    verticalHeader()->setMinimumSectionSize(cellHeight);
    verticalHeader()->setDefaultSectionSize(cellHeight);
    verticalHeader()->setDefaultAlignment(Qt::AlignRight | Qt::AlignTop);
    verticalHeader()->setFixedWidth(grid(9));
    horizontalHeader()->setHighlightSections(false);
    horizontalHeader()->setSectionsMovable(false);
    const QFontMetrics figures{figureFont()};
    const QFontMetrics words{textFont(TextSize::body)};
    for (int i = 0; i < model.columnCount(); ++i) {
        const auto heading = words.horizontalAdvance(model.headerData(i, Qt::Horizontal, Qt::DisplayRole).toString()) + grid(5);
        setColumnWidth(i, std::max(figures.horizontalAdvance(u'0') * digitsFor(model.fieldAt(i)) + grid(5), heading));
    }
    connect(this, &QTableView::clicked, this, [this](const QModelIndex& at) { typeAt(at.row(), at.column()); });
    connect(&model, &GridModel::wordsChanged, this, &GridView::layOutRows);
    layOutRows();
}

void GridView::typeAt(int row, int column)
{
    const auto at = model_.index(row, column);
    if (!at.isValid() || state() == EditingState) return;
    setCurrentIndex(at);
    scrollTo(at);
    if (model_.flags(at) & Qt::ItemIsEditable) edit(at);
}

bool GridView::pasteCells()
{
    const auto text = QApplication::clipboard()->text();
    const bool several = text.trimmed().contains(u'\n') || text.trimmed().contains(u'\t');
    return several && model_.paste(currentIndex(), text);
}

void GridView::typeInRow(int row) { typeAt(row, model_.columnToType(row)); }

QModelIndex GridView::moveCursor(CursorAction action, Qt::KeyboardModifiers modifiers)
{
    const auto at = currentIndex();
    if (at.isValid() && action == MoveNext) return model_.cellAfter(at);
    if (at.isValid() && action == MovePrevious) return model_.cellBefore(at);
    return QTableView::moveCursor(action, modifiers);
}

void GridView::currentChanged(const QModelIndex& current, const QModelIndex& previous)
{
    QTableView::currentChanged(current, previous);
    if (current.row() != previous.row()) emit rowChanged();
}

void GridView::layOutRows()
{
    const QFontMetrics metrics{textFont(TextSize::small)};
    const int width = std::max(viewport()->width() - 2 * wordsIndent, 100);
    for (int row = 0; row < model_.rowCount(); ++row) {
        const auto words = model_.wordsAt(row);
        const int more = words.isEmpty() ? 0 : metrics.boundingRect(QRect{0, 0, width, 1000}, Qt::TextWordWrap, words).height() + grid(2);
        if (rowHeight(row) != cellHeight + more) setRowHeight(row, cellHeight + more);
    }
    viewport()->update();
}

QRect GridView::wordsRect(int row) const
{
    return {wordsIndent, rowViewportPosition(row) + cellHeight, viewport()->width() - 2 * wordsIndent, rowHeight(row) - cellHeight - grid(1)};
}

void GridView::paintEvent(QPaintEvent* event)
{
    QTableView::paintEvent(event);
    QPainter painter{viewport()};
    const auto& palette = windowPalette();
    painter.setFont(textFont(TextSize::small));
    for (int row = 0; row < model_.rowCount(); ++row) {
        const int top = rowViewportPosition(row);
        if (top > viewport()->height() || top + rowHeight(row) < 0) continue;
        painter.setPen(palette.line);
        painter.drawLine(0, top + rowHeight(row) - 1, viewport()->width(), top + rowHeight(row) - 1);
        const auto words = model_.wordsAt(row);
        if (words.isEmpty()) continue;
        painter.setPen(model_.isBlocked(row) ? palette.wrong : palette.attention);
        painter.drawText(wordsRect(row), Qt::TextWordWrap | Qt::AlignLeft | Qt::AlignTop, words);
    }
}

void GridView::resizeEvent(QResizeEvent* event)
{
    QTableView::resizeEvent(event);
    layOutRows();
}

void GridView::keyPressEvent(QKeyEvent* event)
{
    const bool enter = event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter;
    if ((enter && (event->modifiers() & Qt::ControlModifier)) || event->matches(QKeySequence::Save)) emit saveWanted();
    else if (event->matches(QKeySequence::Paste) && pasteCells()) return;
    else if (enter && currentIndex().isValid()) typeAt(currentIndex().row(), currentIndex().column());
    else if (event->key() == Qt::Key_Delete && (event->modifiers() & Qt::ControlModifier)) model_.takeOut(currentIndex().row());
    else QTableView::keyPressEvent(event);
}

}
