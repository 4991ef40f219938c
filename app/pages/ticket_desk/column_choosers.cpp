#include "pages/ticket_desk/column_choosers.h"

#include "theme.h"

#include <QComboBox>
#include <QEvent>
#include <QHeaderView>
#include <QScrollBar>
#include <QTableView>

namespace strikeoff {

ColumnChoosers::ColumnChoosers(QTableView& table, QStringList choices, QWidget* parent) : QWidget{parent}, table_{table}, choices_{std::move(choices)}
{
    setFixedHeight(leastTarget + 2);
    auto* header = table.horizontalHeader();
    connect(header, &QHeaderView::sectionResized, this, &ColumnChoosers::place);
    connect(header, &QHeaderView::geometriesChanged, this, &ColumnChoosers::place);
    connect(header, &QHeaderView::sectionCountChanged, this, &ColumnChoosers::place);
    connect(table.verticalHeader(), &QHeaderView::geometriesChanged, this, &ColumnChoosers::place);
    connect(table.horizontalScrollBar(), &QScrollBar::valueChanged, this, &ColumnChoosers::place);
    table.viewport()->installEventFilter(this);
}

void ColumnChoosers::show(const std::vector<int>& wanted, const QStringList& names)
{
    while (boxes_.size() > wanted.size()) {
        delete boxes_.back();
        boxes_.pop_back();
    }
    while (boxes_.size() < wanted.size()) {
        auto* box = new QComboBox{this};
        box->addItems(choices_);
        box->setMaxVisibleItems(16);
        box->installEventFilter(this);
        const int column = static_cast<int>(boxes_.size());
        connect(box, &QComboBox::activated, this, [this, column](int choice) { emit chosen(column, choice); });
        boxes_.push_back(box);
    }
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        boxes_[i]->setCurrentIndex(wanted[i]);
        boxes_[i]->setObjectName(QStringLiteral("column%1").arg(i + 1));
        boxes_[i]->setAccessibleName(tr("What the column \u201c%1\u201d holds").arg(names.value(static_cast<qsizetype>(i))));
    }
    place();
}

void ColumnChoosers::place()
{
    const auto* header = table_.horizontalHeader();
    const int offset = table_.verticalHeader()->isVisible() ? table_.verticalHeader()->width() + table_.frameWidth() : table_.frameWidth();
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
        const int section = static_cast<int>(i) + 1;
        if (section >= header->count()) break;
        const int left = header->sectionViewportPosition(section) + offset;
        const int width = header->sectionSize(section);
        boxes_[i]->setGeometry(left + 1, 0, width - 2, height());
        boxes_[i]->setVisible(left + width > offset && left < this->width());
    }
}

void ColumnChoosers::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    place();
}

bool ColumnChoosers::eventFilter(QObject* watched, QEvent* event)
{
    // The table is asked for what comes while it lives only: its viewport tells of its own end when the table is hardly one any more.
    if (event->type() == QEvent::Resize && watched == table_.viewport()) place();
    if (event->type() == QEvent::Wheel && watched != table_.viewport()) return true;  // not turned by a wheel meant for the table
    return QWidget::eventFilter(watched, event);
}

}
