#pragma once

#include <QWidget>

#include "table/table_model.h"

class QHBoxLayout;
class QLabel;
class QLineEdit;
class QTableView;
class QTimer;

namespace strikeoff {

struct PaperDocument;

/// A table the owner reads, sorts, narrows, copies and exports: a filter field over it, the rows, and words where there are none. One row is current; Enter
/// or a double click opens it.
class RecordTable : public QWidget {
    Q_OBJECT
public:
    /// The name is what a screen reader says and under which the widths are remembered ("Tickets").
    RecordTable(const QString& name, std::vector<Column> columns, Desk& desk, QWidget* parent = nullptr);

    /// Shows other rows; the current record, the sorting and the filter stay.
    void setSource(std::shared_ptr<const TableSource> source);
    void setRows(std::vector<TableRow> rows) { setSource(std::make_shared<PlainSource>(std::move(rows))); }
    /// Sorting to begin with; the owner's clicks on headings go on from there.
    void sortBy(int column, Qt::SortOrder order = Qt::AscendingOrder);
    /// What to do first when there are no rows at all.
    void setEmptyText(const QString& text);
    void setFilterVisible(bool visible);
    void setFilter(const QString& words);

    /// The row of widgets over the table; pages put their own buttons and choices in front of the filter.
    QHBoxLayout& bar() { return *bar_; }
    QLineEdit& filterField() { return *filter_; }
    QTableView& view() { return *view_; }
    TableModel& model() { return *model_; }
    const QString& name() const { return name_; }

    RecordRef current() const;
    /// Makes a record's row current; false when it is not among the rows shown.
    bool select(RecordRef record);
    /// Moves the current row down (or up); false at the end.
    bool step(int rows);

    /// The rows as shown (sorted, narrowed) with headings, as RFC 4180 CSV; text that a spreadsheet would run is guarded.
    QByteArray csv() const;
    /// The selected rows (all when none is) as tab-separated text with headings.
    QString tabSeparated() const;
    void copySelection() const;
    void exportCsv();
    /// The rows as shown as a paper, with a heading.
    PaperDocument paper(const QString& heading) const;

signals:
    void currentChanged(const strikeoff::RecordRef& record);
    void opened(const strikeoff::RecordRef& record);

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void showState();
    void setWidths();
    std::vector<int> selectedRows() const;

    QString name_;
    Desk& desk_;
    QHBoxLayout* bar_;
    QLineEdit* filter_;
    QLabel* count_;
    QLabel* empty_;
    QTableView* view_;
    TableModel* model_;
    QTimer* gather_;
    QString emptyText_;
    RecordRef shown_;
    bool settingWidths_ = false;
};

}
