#pragma once

#include "table/grid_model.h"

#include "form/draft_keeper.h"
#include "labor/hours_sheet.h"

#include <map>

namespace strikeoff {

/// A day's sheet as it is typed: the first two rows name job and phase of each column, the people stand below. Behind the last column begun there is
/// always one more. What cannot be read stays as it was typed, with words about it.
class HoursModel : public GridModel {
    Q_OBJECT
public:
    static constexpr int jobRow = 0, phaseRow = 1, firstPerson = 2, lunchColumn = 0, firstWork = 1;

    explicit HoursModel(Desk& desk, QObject* parent = nullptr);

    /// Shows a day as the book has it; what was typed is gone.
    void showDay(Date day);
    Date day() const { return sheet_.date; }
    bool hasChanged() const { return changed_; }
    /// Whether somebody else changed the day's hours since typing began; saving would undo that unseen.
    bool isOvertaken() const;
    /// What is typed: the rows the book had, and the sheet's cells as texts. Nothing while nothing is.
    std::vector<DraftRow> typedRows() const;
    /// Shows the day of such rows with what was typed.
    void putTyped(const std::vector<DraftRow>& rows);

    void copyDayBefore();
    /// Writes what stands in a cell (or, in a blank one, in the first of its column that holds something) into the cells of everybody; with `exceptHere`
    /// the cell itself is left blank.
    void fillColumn(const QModelIndex& from, bool exceptHere);
    /// The edit that saves the sheet; nothing, with the cell where typing has to go on, when something cannot be read.
    std::optional<Edit> edit(QModelIndex& toType) const;
    std::vector<SheetFlag> warnings() const { return flags_; }

    const Field& fieldFor(const QModelIndex& cell) const override;
    QString wordsAt(int row) const override;
    bool isBlocked(int row) const override;
    int columnToType(int row) const override;
    int columnToBegin() const override { return firstWork; }
    QModelIndex cellAfter(const QModelIndex& cell) const override;
    QModelIndex cellBefore(const QModelIndex& cell) const override;
    void takeOut(int row) override;

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

private:
    /// Shows another sheet in place of this one.
    void take(HoursSheet sheet);
    void keepOneColumnToType();
    void addBlankColumn();
    void settle();
    QString textAt(int row, int column) const;
    QString faultAt(int row, int column) const;
    /// Takes text into the sheet; false when it cannot be read.
    bool read(int row, int column, const std::string& text);
    bool isUsed(std::size_t column) const;
    void readInto(int row, int column, const QString& text);
    /// A cell's name in a draft.
    std::string cellName(int row, int column) const;

    HoursSheet sheet_;
    std::vector<DraftRow> seen_;                        ///< the day's rows as the book had them
    std::vector<bool> phaseKnown_;                      ///< one a column
    std::map<std::pair<int, int>, QString> unread_;     ///< by row and column
    std::vector<SheetFlag> flags_;
    bool changed_ = false;
    mutable int typedColumn_ = firstWork;
};

}
