#pragma once

#include <QAbstractTableModel>

#include "desk.h"

#include <optional>

namespace strikeoff {

/// Rows of one record kind as they are typed, text by text, before they are saved together. What is typed stays as it is until it can be read.
class GridModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Role {
        faultRole = Qt::UserRole,  ///< what is wrong with the cell, in words
        carriedRole,               ///< taken over from elsewhere, not typed here
        hintRole,                  ///< shown in a blank cell; never taken for a value
    };

    GridModel(Desk& desk, RecordKind kind, const std::vector<std::string_view>& columns, QObject* parent = nullptr);

    const Field& fieldAt(int column) const { return *fields_[static_cast<std::size_t>(column)]; }
    /// The field typed in a cell; its column's, unless the rows are of several kinds.
    virtual const Field& fieldFor(const QModelIndex& cell) const { return fieldAt(cell.column()); }
    int columnOf(std::string_view field) const;

    /// What is to be said about a row; blank when all is well.
    virtual QString wordsAt(int row) const = 0;
    /// Whether the words say that the row cannot be saved as it is.
    virtual bool isBlocked(int row) const = 0;
    /// Where typing goes on in a row: what is at fault or missing, else where a row begins.
    virtual int columnToType(int row) const = 0;
    /// Where typing begins in the row behind another.
    virtual int columnToBegin() const { return 0; }
    /// The cell that typing goes on to (or back to); the same one at the end. Along the row, unless said otherwise.
    virtual QModelIndex cellAfter(const QModelIndex& cell) const;
    virtual QModelIndex cellBefore(const QModelIndex& cell) const;
    /// The id within which a reference of the row is named.
    virtual std::optional<std::int64_t> scopeOf(int, const Field&) const { return std::nullopt; }
    virtual void takeOut(int row) = 0;
    /// Takes several cells copied from elsewhere, beginning at a cell; false where the grid has no use for them.
    virtual bool paste(const QModelIndex&, const QString&) { return false; }

    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

signals:
    /// The words about rows are others now.
    void wordsChanged();

protected:
    /// Adds a column behind the others.
    void addColumn(std::string_view field);
    /// Other columns altogether; for use within a reset.
    void setColumns(const std::vector<std::string_view>& columns);
    Desk& desk() const { return desk_; }
    Qt::Alignment sideOf(int column) const;

private:
    Desk& desk_;
    const KindDescription& kind_;
    std::vector<const Field*> fields_;
};

}
