#pragma once

#include "table/grid_model.h"

#include "form/draft_keeper.h"
#include "visits/forecast_entry.h"

namespace strikeoff {

/// Two weeks of weather as they are typed, one row a day. The day stands first and is not typed.
class ForecastModel : public GridModel {
    Q_OBJECT
public:
    explicit ForecastModel(Desk& desk, QObject* parent = nullptr);

    const std::vector<ForecastReading>& readings() const { return readings_; }
    /// Shows the days from today as the book has them, unless something is typed.
    void refresh();
    /// Whether something is typed that the book has not.
    bool hasChanged() const;
    /// Whether somebody else changed the days since typing began; saving would undo that unseen.
    bool isOvertaken() const;
    /// The days that are typed and not saved, each with what the book had of it.
    std::vector<DraftRow> typedRows() const;
    void putTyped(const std::vector<DraftRow>& rows);
    /// What is typed as one edit; nothing while a day is at fault, and then its row.
    std::optional<Edit> edit(int& faulty) const;
    /// Shows what the book has, whatever was typed.
    void startAgain();
    bool paste(const QModelIndex& at, const QString& text) override;

    QString wordsAt(int row) const override;
    bool isBlocked(int row) const override;
    int columnToType(int row) const override;
    int columnToBegin() const override { return 1; }
    QModelIndex cellBefore(const QModelIndex& cell) const override;
    void takeOut(int row) override;

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

private:
    void readAgain();

    std::vector<TypedRow> rows_;
    std::vector<TypedRow> kept_;  ///< as the book has them
    std::vector<DraftRow> seen_;  ///< the records they were made of, id 0 where there was none
    std::vector<ForecastReading> readings_;
    Date from_;
};

}
