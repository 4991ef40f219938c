#pragma once

#include "table/grid_model.h"

#include "ready_mix/ticket_stack.h"

namespace strikeoff {

/// The tickets of a stack as they are typed, one row a ticket; behind the last one begun there is always one more to type into.
class StackModel : public GridModel {
    Q_OBJECT
public:
    explicit StackModel(Desk& desk, QObject* parent = nullptr);

    const TypedTicket& typedAt(int row) const { return rows_[static_cast<std::size_t>(row)]; }
    const TicketReading& readingAt(int row) const { return readings_[static_cast<std::size_t>(row)]; }
    const std::vector<TicketReading>& readings() const { return readings_; }
    /// The tickets typed, up to the last one begun.
    std::span<const TypedTicket> typed() const;
    /// What is to be said about a row: why it was not saved, or what its reading says.
    QString wordsAt(int row) const override;
    bool isBlocked(int row) const override;
    int columnToType(int row) const override;
    int columnToBegin() const override { return columnOf("number"); }
    std::optional<std::int64_t> scopeOf(int row, const Field& field) const override;

    /// Begins with the last pour that has no ticket, unless something is typed.
    void begin();
    void startWith(std::vector<TypedTicket> rows);
    bool hasBegun() const;
    void takeOut(int row) override;
    /// Reads all rows again, by what the book says now.
    void readAgain();
    /// Words for a row that the book refused; they go when the row is typed into.
    void refuse(int row, const QString& words);

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

private:
    void keepOneToType();

    std::vector<TypedTicket> rows_;
    std::vector<TicketReading> readings_;
    std::vector<QString> refusals_;
};

}
