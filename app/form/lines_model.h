#pragma once

#include <QAbstractTableModel>

#include "desk.h"
#include "form/draft_keeper.h"

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace strikeoff {

/// A column of lines that are edited in place: a field of theirs, and how wide it begins (in digits' widths; 0 takes what room is left).
struct LineColumn {
    std::string field;
    int width = 0;
};

/// Lines of one paper as they are being typed. A cell that cannot be read keeps what was typed, with its fault; nothing is in the book before it is saved.
/// The last column is the line's amount, reckoned from what was typed.
class LinesModel : public QAbstractTableModel {
    Q_OBJECT
public:
    struct Line {
        Row base;  ///< as it was seen, or as it began; id 0 for a new one
        Row now;
        std::map<int, QString> typed;   ///< by column: texts that could not be read
        std::map<int, QString> faults;  ///< by column: what is wrong, in words
        bool isNew() const { return base.id == 0; }
        bool isTouched() const { return !typed.empty() || now.values != base.values; }
    };
    /// The lines of one paper as they stand.
    struct State {
        std::vector<Line> lines;
        std::vector<Row> removed;
    };

    LinesModel(RecordKind kind, std::vector<LineColumn> columns, QString amountHeading, std::function<Money(const Row&)> amount, Desk& desk, QObject* parent);

    const State& state() const { return state_; }
    void setState(State state);
    void setReadOnly(bool readOnly);
    bool isReadOnly() const { return readOnly_; }
    bool isDirty() const;
    /// The lines without new ones that nobody typed in.
    std::vector<Row> typedLines() const;

    /// What is typed and not saved: of lines of the book what differs, new ones, and those taken out (without texts).
    std::vector<DraftRow> typedRows() const;
    /// Types that into the lines as the book has them now; `makeLine` makes a new line behind the last one.
    void putTyped(const std::vector<DraftRow>& rows, const std::function<Row()>& makeLine);

    /// Puts a line behind the last one and returns its place.
    int addLine(Row row);
    void removeLine(int row);
    void setFault(int row, int column, const QString& fault);
    int columnOf(std::string_view field) const;
    bool isAmount(int column) const { return column == static_cast<int>(columns_.size()); }
    const Field& field(int column) const { return *fields_[static_cast<std::size_t>(column)]; }

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

signals:
    /// Something was typed, added or removed.
    void edited();

private:
    QString shown(const Line& line, int column) const;
    QString typedText(const Line& line, int column) const;
    void take(Line& line, int column, const QString& text);

    RecordKind kind_;
    std::vector<LineColumn> columns_;
    std::vector<const Field*> fields_;
    std::vector<std::size_t> places_;  ///< of the fields in the kind
    QString amountHeading_;
    std::function<Money(const Row&)> amount_;
    Desk& desk_;
    State state_;
    bool readOnly_ = false;
};

}
