#pragma once

#include <QStyledItemDelegate>

namespace strikeoff {

/// Draws a cell: the ground of its row, its text as plain text with the same margins in every state, and over a row of totals a line.
class RowDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void paint(QPainter* painter, const QStyleOptionViewItem& given, const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
};

}
