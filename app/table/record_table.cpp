#include "table/record_table.h"

#include "labels.h"
#include "table/row_delegate.h"

#include <QEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLineEdit>
#include <QScrollBar>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace strikeoff {

RecordTable::RecordTable(const QString& name, std::vector<Column> columns, Desk& desk, QWidget* parent) : QWidget{parent}, name_{name}, desk_{desk}
{
    model_ = new TableModel{std::move(columns), this};
    filter_ = new QLineEdit{this};
    filter_->setObjectName(QStringLiteral("filter"));
    filter_->setPlaceholderText(tr("Narrow the list"));
    filter_->setAccessibleName(tr("Narrow %1 to words").arg(name));
    filter_->setClearButtonEnabled(true);
    filter_->setMaximumWidth(280);
    filter_->setMinimumWidth(120);
    filter_->installEventFilter(this);
    count_ = makeLabel({}, TextSize::small, Tone::quiet, this);
    count_->setWordWrap(false);

    view_ = new QTableView{this};
    view_->setObjectName(QStringLiteral("table"));
    view_->setAccessibleName(name);
    view_->setModel(model_);
    view_->setItemDelegate(new RowDelegate{view_});
    view_->setSelectionBehavior(QAbstractItemView::SelectRows);
    view_->setSelectionMode(QAbstractItemView::ExtendedSelection);
    view_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    view_->setShowGrid(false);
    view_->setAlternatingRowColors(true);
    view_->setWordWrap(false);
    view_->setTabKeyNavigation(false);
    view_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    view_->verticalHeader()->hide();
    view_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    view_->verticalHeader()->setDefaultSectionSize(leastTarget);
    view_->horizontalHeader()->setHighlightSections(false);
    view_->horizontalHeader()->setSectionsMovable(false);
    view_->horizontalHeader()->setSortIndicator(-1, Qt::AscendingOrder);
    view_->setSortingEnabled(true);
    view_->installEventFilter(this);

    empty_ = makeLabel({}, TextSize::body, Tone::quiet, view_->viewport());
    empty_->setAlignment(Qt::AlignCenter);
    empty_->setMargin(grid(6));
    empty_->setAttribute(Qt::WA_TransparentForMouseEvents);
    view_->viewport()->installEventFilter(this);

    bar_ = new QHBoxLayout;
    bar_->setSpacing(grid(2));
    bar_->addWidget(count_);
    bar_->addStretch(1);
    bar_->addWidget(filter_);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(grid(2));
    layout->addLayout(bar_);
    layout->addWidget(view_, 1);
    setFocusProxy(view_);

    connect(filter_, &QLineEdit::textChanged, this, [this](const QString& words) {
        const auto keep = shown_;
        model_->setFilter(words);
        if (!select(keep) && model_->rowCount() > 0 && !words.isEmpty()) view_->scrollToTop();
        showState();
    });
    connect(view_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this](const QModelIndex& now) {
        if (!now.isValid()) return;  // a reset on the way to the next rows
        const auto record = model_->recordAt(now.row());
        if (record == shown_) return;
        shown_ = record;
        emit currentChanged(record);
    });
    connect(view_, &QTableView::doubleClicked, this, [this](const QModelIndex& index) {
        if (const auto record = model_->recordAt(index.row())) emit opened(record);
    });
    connect(model_, &QAbstractItemModel::layoutChanged, this, [this] {
        if (view_->currentIndex().isValid()) view_->scrollTo(view_->currentIndex());
    });
    connect(view_->horizontalHeader(), &QHeaderView::sectionResized, this, [this](int section, int, int width) {
        if (settingWidths_ || section >= model_->columnCount()) return;
        if (section == model_->columnCount() - 1 && view_->horizontalHeader()->stretchLastSection()) return;  // that is the room left, no choice
        desk_.preferences().setColumnWidth(name_, model_->columns()[static_cast<std::size_t>(section)].heading, width);
    });
    // While the owner reads, the words to filter by are gathered, a few rows at a time.
    gather_ = new QTimer{this};
    connect(gather_, &QTimer::timeout, this, [this] {
        gather_->setInterval(0);
        if (!isVisible() || !model_->gatherWords(500)) gather_->stop();
    });
    setWidths();
    showState();
}

void RecordTable::setWidths()
{
    settingWidths_ = true;
    const QFontMetrics metrics{figureFont()};
    const auto& columns = model_->columns();
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const auto remembered = desk_.preferences().columnWidth(name_, columns[i].heading);
        const auto heading = metrics.horizontalAdvance(columns[i].heading) + grid(8);
        const auto usual = std::max(metrics.horizontalAdvance(u'0') * columns[i].width + grid(4), heading);
        view_->setColumnWidth(static_cast<int>(i), remembered > 0 ? remembered : usual);
        if (columns[i].stretches) view_->horizontalHeader()->setSectionResizeMode(static_cast<int>(i), QHeaderView::Stretch);
    }
    if (!columns.empty() && columns.back().align == Align::left) view_->horizontalHeader()->setStretchLastSection(true);
    view_->horizontalHeader()->setMinimumSectionSize(grid(10));
    settingWidths_ = false;
}

void RecordTable::setSource(std::shared_ptr<const TableSource> source)
{
    const auto keep = shown_;
    const int row = view_->currentIndex().row();
    const int scroll = view_->verticalScrollBar()->value();
    model_->setSource(std::move(source));
    gather_->start(300);
    view_->verticalScrollBar()->setValue(scroll);
    if (!select(keep) && keep && row >= 0 && model_->shownRows() > 0) {
        // The current record is gone: its neighbor takes its place.
        view_->setCurrentIndex(model_->index(std::min(row, model_->shownRows() - 1), 0));
    }
    showState();
}

void RecordTable::sortBy(int column, Qt::SortOrder order) { view_->sortByColumn(column, order); }

void RecordTable::setEmptyText(const QString& text)
{
    emptyText_ = text;
    showState();
}

void RecordTable::setFilterVisible(bool visible)
{
    filter_->setVisible(visible);
    count_->setVisible(visible);
}

void RecordTable::setFilter(const QString& words) { filter_->setText(words); }

void RecordTable::showState()
{
    const auto total = static_cast<int>(model_->totalRows());
    const int rows = model_->shownRows();
    count_->setText(rows == total ? tr("%n row(s)", nullptr, total).replace(QStringLiteral("row(s)"), total == 1 ? tr("row") : tr("rows"))
                                  : tr("%1 of %2 rows").arg(rows).arg(total));
    empty_->setText(rows > 0 ? QString{} : total > 0 ? tr("No row holds \u201c%1\u201d. Clear the filter to see all %2.").arg(filter_->text()).arg(total) : emptyText_);
    empty_->setVisible(rows == 0);
    empty_->setGeometry(view_->viewport()->rect());
}

RecordRef RecordTable::current() const
{
    const auto index = view_->currentIndex();
    return index.isValid() ? model_->recordAt(index.row()) : RecordRef{};
}

bool RecordTable::select(RecordRef record)
{
    if (!record) return false;
    const int row = model_->rowOf(record);
    if (row < 0) return false;
    const int column = std::max(view_->currentIndex().column(), 0);
    const bool elsewhere = shown_ != record;
    shown_ = record;
    view_->setCurrentIndex(model_->index(row, column));
    if (elsewhere) emit currentChanged(record);
    return true;
}

bool RecordTable::step(int rows)
{
    const int row = view_->currentIndex().row() + rows;
    if (row < 0 || row >= model_->shownRows()) return false;
    view_->setCurrentIndex(model_->index(row, std::max(view_->currentIndex().column(), 0)));
    return true;
}

std::vector<int> RecordTable::selectedRows() const
{
    std::vector<int> rows;
    for (const auto& index : view_->selectionModel()->selectedRows()) rows.push_back(index.row());
    if (rows.empty())
        for (int i = 0; i < model_->rowCount(); ++i) rows.push_back(i);
    std::sort(rows.begin(), rows.end());
    return rows;
}

void RecordTable::copySelection() const { desk_.copyText(tabSeparated()); }

bool RecordTable::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() == QEvent::Resize && watched == view_->viewport()) empty_->setGeometry(view_->viewport()->rect());
    if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
    auto* key = static_cast<QKeyEvent*>(event);
    const bool enter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (watched == view_) {
        if (enter && key->modifiers() == Qt::NoModifier) {
            if (const auto record = current()) emit opened(record);
            return true;
        }
        if (key->matches(QKeySequence::Copy)) {
            copySelection();
            return true;
        }
        // Letters typed on the list go to the filter.
        if (filter_->isVisible() && !key->text().isEmpty() && key->text().front().isLetterOrNumber()
            && (key->modifiers() == Qt::NoModifier || key->modifiers() == Qt::ShiftModifier)) {
            filter_->setFocus();
            filter_->setText(key->text());
            return true;
        }
    }
    if (watched == filter_) {
        if (enter || key->key() == Qt::Key_Down) {
            if (model_->rowCount() > 0 && !view_->currentIndex().isValid()) view_->setCurrentIndex(model_->index(0, 0));
            view_->setFocus();
            return true;
        }
        if (key->key() == Qt::Key_Escape && !filter_->text().isEmpty()) {
            filter_->clear();
            view_->setFocus();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

}
