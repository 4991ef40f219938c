#pragma once

#include <QAbstractTableModel>

#include "desk.h"

#include "ready_mix/statement_reader.h"

#include <functional>

namespace strikeoff {

/// A statement on its way in: the rows of a file or of the clipboard as they are, what each column is taken for, and what each row is read as.
class StatementRows : public QAbstractTableModel {
    Q_OBJECT
public:
    explicit StatementRows(Desk& desk, QObject* parent = nullptr);

    /// Takes rows with a guess at their layout.
    void setRows(TextRows rows, StatementGuess guess, ReadStatement read);
    void clear();
    bool isEmpty() const { return rows_.empty(); }
    const TextRows& rows() const { return rows_; }
    const StatementGuess& guess() const { return guess_; }
    const ReadStatement& read() const { return read_; }
    /// Corrects the guess and reads the rows again.
    void correct(const std::function<void(StatementGuess&)>& how);
    /// Whether a blank row is kept behind the last one, for typing.
    void setGrowing(bool growing) { growing_ = growing; }
    /// The first row that cannot be read, or nothing.
    std::optional<int> firstRefused() const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

signals:
    void readAgain();

private:
    void readRows();

    Desk& desk_;
    TextRows rows_;
    StatementGuess guess_;
    ReadStatement read_;
    bool growing_ = false;
};

}
