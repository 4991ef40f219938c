#pragma once

#include "desk.h"

#include <QString>

#include <string>
#include <vector>

namespace strikeoff {

enum class Align { left, right };

/// A column of a table: its heading with the unit, where its text stands, and how wide it begins (in digits' widths).
struct Column {
    QString heading = {};
    Align align = Align::left;
    int width = 14;
    bool dashWhenBlank = true;  ///< a blank cell is a thing not recorded and shows a dash; false where blank means nothing to say
    bool stretches = false;     ///< takes what room is left
    QString tip = {};           ///< what the column means
    int sumDecimals = -1;       ///< decimals its raw values have (money two) when the rows shown are added up under it; not added up below zero
};

/// One cell: the words shown, the raw value it sorts by (not recorded comes last), and its tone. Tone goes with words that say the same.
struct Cell {
    QString text = {};
    Value sort = {};
    Tone tone = Tone::plain;
    QString tip = {};
};

/// A row of computed cells, the record it opens (if any), and words to be found by that no cell shows.
struct TableRow {
    RecordRef record = {};
    std::vector<Cell> cells = {};
    QString alsoFoundBy = {};
    bool apart = false;  ///< a row of totals: set apart, always last
};

/// Where a table takes its rows from. Cells are asked for when shown; the sort values and the words for searching when first needed.
class TableSource {
public:
    virtual ~TableSource() = default;
    virtual std::size_t size() const = 0;
    virtual Cell cell(std::size_t row, std::size_t column) const = 0;
    virtual Value sortValue(std::size_t row, std::size_t column) const { return cell(row, column).sort; }
    virtual RecordRef record(std::size_t row) const = 0;
    virtual bool isApart(std::size_t) const { return false; }
    /// Everything the row can be found by, in lower case, appended to the text.
    virtual void appendWords(std::size_t row, std::string& words) const = 0;
};

/// Rows that were computed beforehand.
class PlainSource : public TableSource {
public:
    explicit PlainSource(std::vector<TableRow> rows) : rows_{std::move(rows)} {}
    std::size_t size() const override { return rows_.size(); }
    Cell cell(std::size_t row, std::size_t column) const override { return column < rows_[row].cells.size() ? rows_[row].cells[column] : Cell{}; }
    RecordRef record(std::size_t row) const override { return rows_[row].record; }
    bool isApart(std::size_t row) const override { return rows_[row].apart; }
    void appendWords(std::size_t row, std::string& words) const override;

private:
    std::vector<TableRow> rows_;
};

/// Cells of the usual kinds. A value that is not recorded makes a blank cell.
Cell textCell(const QString& text, Tone tone = Tone::plain);
Cell moneyCell(std::optional<Money> money, Tone tone = Tone::plain);
Cell numberCell(std::optional<std::int64_t> number);
Cell dateCell(std::optional<Date> date, Tone tone = Tone::plain);
Cell minutesCell(std::optional<Minutes> minutes);
/// A decimal with the same number of decimals in every row of its column, so that they stand in line.
template <class Tag>
Cell decimalCell(std::optional<Decimal<Tag>> value, int decimals)
{
    if (!value) return {};
    const auto text = value->shown(decimals);
    return {QString::fromStdString(text), Value{value->units()}, Tone::plain, {}};
}

}
