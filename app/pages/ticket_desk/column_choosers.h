#pragma once

#include <QWidget>

#include <vector>

class QComboBox;
class QTableView;

namespace strikeoff {

/// A chooser over each column of a table, as wide as it and moving with it; the first column has none.
class ColumnChoosers : public QWidget {
    Q_OBJECT
public:
    ColumnChoosers(QTableView& table, QStringList choices, QWidget* parent = nullptr);

    /// One chooser a column, with what it is set to; names for a screen reader.
    void show(const std::vector<int>& chosen, const QStringList& names);
    QComboBox* at(int column) const { return boxes_[static_cast<std::size_t>(column)]; }

signals:
    void chosen(int column, int choice);

protected:
    void resizeEvent(QResizeEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void place();

    QTableView& table_;
    QStringList choices_;
    std::vector<QComboBox*> boxes_;
};

}
