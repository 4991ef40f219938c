#pragma once

#include <QAbstractTableModel>

#include "table/table_source.h"

#include <memory>

namespace strikeoff {

/// A table over a source: sorted by raw values, narrowed to the rows that hold every word of a filter. Where a column is added up, a row of sums over the
/// rows shown stands at the end.
class TableModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Role { sortRole = Qt::UserRole, recordRole, apartRole };

    explicit TableModel(std::vector<Column> columns, QObject* parent = nullptr);

    const std::vector<Column>& columns() const { return columns_; }
    void setColumns(std::vector<Column> columns);
    void setSource(std::shared_ptr<const TableSource> source);
    const TableSource* source() const { return source_.get(); }
    /// Narrows to rows that hold every word (case does not matter).
    void setFilter(const QString& words);
    /// Gathers the words of some more rows to filter by, so that the first letter typed need not wait for it; false when all are gathered.
    bool gatherWords(std::size_t rows);
    /// How many rows there are without the filter.
    std::size_t totalRows() const { return source_ ? source_->size() : 0; }
    /// How many rows there are with it, the row of sums not counted.
    int shownRows() const { return static_cast<int>(visible_.size()); }

    RecordRef recordAt(int row) const;
    /// The row showing a record, or -1.
    int rowOf(RecordRef record) const;
    Cell cellAt(int row, int column) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    void sort(int column, Qt::SortOrder order) override;
    int sortColumn() const { return sortColumn_; }

private:
    void arrange();
    void narrow(const std::vector<std::uint32_t>& among);
    bool isSum(int row) const { return row == shownRows(); }
    bool isApart(int row) const;
    Cell sumCell(std::size_t column) const;
    Cell reckonSum(std::size_t column) const;

    std::vector<Column> columns_;
    std::shared_ptr<const TableSource> source_;
    std::vector<std::uint32_t> sorted_;   ///< all rows of the source in the order of sorting
    std::vector<std::uint32_t> visible_;  ///< those that pass the filter
    std::vector<std::string> filterWords_;
    std::string words_;                   ///< the words of all rows behind one another
    std::vector<std::size_t> wordsEnd_;   ///< where each row's end
    mutable std::vector<std::optional<Cell>> sumCells_;  ///< of each column, reckoned when first shown
    bool sums_ = false;                   ///< some column is added up
    int sortColumn_ = -1;
    Qt::SortOrder sortOrder_ = Qt::AscendingOrder;
};

}
