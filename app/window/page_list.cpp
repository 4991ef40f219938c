#include "window/page_list.h"

#include "theme.h"

#include <QPainter>
#include <QStyledItemDelegate>

namespace strikeoff {

namespace {

constexpr int countRole = Qt::UserRole;

class PageDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const auto& palette = windowPalette();
        const bool current = option.state & QStyle::State_Selected;
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        if (current || (option.state & QStyle::State_MouseOver)) {
            const bool focused = current && (option.state & QStyle::State_HasFocus);
            painter->setPen(focused ? QPen{palette.accent, 1} : QPen{Qt::NoPen});
            painter->setBrush(current ? option.palette.color(QPalette::Highlight) : palette.sheet);
            painter->drawRoundedRect(option.rect.adjusted(0, 1, 0, -1), cornerRadius, cornerRadius);
        }
        auto room = option.rect.adjusted(grid(3), 0, -grid(3), 0);
        if (const int count = index.data(countRole).toInt(); count > 0) {
            painter->setFont(textFont(TextSize::small));
            painter->setPen(palette.attention);
            const auto text = QString::number(count);
            painter->drawText(room, Qt::AlignRight | Qt::AlignVCenter, text);
            room.setRight(room.right() - painter->fontMetrics().horizontalAdvance(text) - grid(2));
        }
        auto font = textFont(TextSize::body);
        font.setBold(current);
        painter->setFont(font);
        painter->setPen(palette.ink);
        painter->drawText(room, Qt::AlignLeft | Qt::AlignVCenter, painter->fontMetrics().elidedText(index.data().toString(), Qt::ElideRight, room.width()));
        painter->restore();
    }
    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override { return {grid(40), leastTarget + grid(2)}; }
};

}

PageList::PageList(QWidget* parent) : QListWidget{parent}
{
    setItemDelegate(new PageDelegate{this});
    setAccessibleName(tr("Pages"));
    setFrameShape(QFrame::NoFrame);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setMouseTracking(true);
    viewport()->setAutoFillBackground(false);
}

void PageList::setPages(const QStringList& names)
{
    clear();
    for (const auto& name : names) addItem(name);
    for (int i = 0; i < count(); ++i) {
        item(i)->setToolTip(tr("Alt+%1").arg(i + 1));
        setWaiting(i, 0);
    }
}

void PageList::setWaiting(int page, int waiting)
{
    auto* entry = item(page);
    if (!entry) return;
    entry->setData(countRole, waiting);
    entry->setData(Qt::AccessibleTextRole, waiting > 0 ? tr("%1, %2 waiting").arg(entry->text()).arg(waiting) : entry->text());
}

QSize PageList::sizeHint() const { return {grid(44), grid(40)}; }

}
