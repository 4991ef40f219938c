#include "table/row_delegate.h"

#include "table/table_model.h"
#include "theme.h"

#include <QPainter>

namespace strikeoff {

void RowDelegate::paint(QPainter* painter, const QStyleOptionViewItem& given, const QModelIndex& index) const
{
    auto option = given;
    initStyleOption(&option, index);
    painter->save();
    if (option.state & QStyle::State_Selected) painter->fillRect(option.rect, option.palette.color(QPalette::Highlight));
    else if (option.features & QStyleOptionViewItem::Alternate) painter->fillRect(option.rect, option.palette.color(QPalette::AlternateBase));
    if (index.data(TableModel::apartRole).toBool()) {
        painter->setPen(windowPalette().quiet);
        painter->drawLine(option.rect.topLeft(), option.rect.topRight());
    }
    painter->setFont(option.font);
    painter->setPen(option.palette.color(QPalette::Text));
    const auto room = option.rect.adjusted(grid(2), 0, -grid(2), 0);
    painter->drawText(room, static_cast<int>(option.displayAlignment) | Qt::TextSingleLine, option.fontMetrics.elidedText(option.text, Qt::ElideRight, room.width()));
    painter->restore();
}

QSize RowDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    return QStyledItemDelegate::sizeHint(option, index) + QSize{grid(4), 0};
}

}
