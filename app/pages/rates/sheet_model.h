#pragma once

#include "table/grid_model.h"

#include "ready_mix/sheet_entry.h"

namespace strikeoff {

/// The charges of a price sheet as they are typed, with one blank row behind the last.
class SheetModel : public GridModel {
    Q_OBJECT
public:
    explicit SheetModel(Desk& desk, QObject* parent = nullptr);

    void startWith(std::vector<TypedRow> rows, Id<Supplier> supplier);
    void setDay(Date effectiveOn);
    bool isEmpty() const { return rows_.size() <= 1 && !readings_.front().begun; }
    const std::vector<ChargeReading>& readings() const { return readings_; }
    /// The charges typed, without the blank row behind them, and whose they are.
    std::span<const TypedRow> typed() const { return std::span{rows_}.first(rows_.size() - 1); }
    Id<Supplier> supplier() const { return supplier_; }
    /// Words for a row that the book refused; they go when the row is typed into.
    void refuse(int row, const QString& words);

    QString wordsAt(int row) const override;
    bool isBlocked(int row) const override;
    int columnToType(int row) const override;
    void takeOut(int row) override;
    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

private:
    void readAgain();

    std::vector<TypedRow> rows_;
    std::vector<ChargeReading> readings_;
    std::vector<QString> refusals_;
    Id<Supplier> supplier_;
    Date day_;
};

}
