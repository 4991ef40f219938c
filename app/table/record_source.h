#pragma once

#include "table/table_source.h"

#include "record/field_text.h"

#include <functional>
#include <memory>

namespace strikeoff {

/// A column of a table of records: a field by name ("town", or through a reference "job.title"), or a cell reckoned from the record.
struct RecordColumn {
    std::string field;
    QString heading = {};  ///< the field's label and unit when empty
    int width = 0;         ///< in digits' widths; by the field's type when 0
    std::function<Cell(const Book& book, const void* record)> reckon = {};
    Align align = Align::left;  ///< of a reckoned column; a field's follows its type
    bool dashWhenBlank = true;
    bool sum = false;           ///< the rows shown are added up under it; of a reckoned column, as money
};

/// Which records a table shows; every one when empty.
using RecordFilter = std::function<bool(const Book& book, const void* record)>;

/// The records of a kind as a source of rows: texts are made when shown, so that a shelf of any size costs little.
class RecordSource : public TableSource {
public:
    RecordSource(const Book& book, RecordKind kind, const std::vector<RecordColumn>& columns, const RecordFilter& filter = {});

    std::size_t size() const override { return ids_.size(); }
    Cell cell(std::size_t row, std::size_t column) const override;
    Value sortValue(std::size_t row, std::size_t column) const override;
    RecordRef record(std::size_t row) const override { return {kind_, ids_[row]}; }
    void appendWords(std::size_t row, std::string& words) const override;

private:
    struct Place;
    const void* follow(const Place& place, const void* record) const;

    struct Place {
        const KindDescription* kind = nullptr;      ///< of the record the field belongs to
        const Field* field = nullptr;
        std::vector<const Field*> through;  ///< references followed on the way
        std::function<Cell(const Book&, const void*)> reckon;
        int decimals = -1;                  ///< the same in the whole column, so that the points stand in line
    };
    const Book& book_;
    RecordKind kind_;
    std::vector<std::int64_t> ids_;
    std::vector<Place> places_;
};

/// Headings, sides and widths for columns of records.
std::vector<Column> columnsOf(RecordKind kind, const std::vector<RecordColumn>& columns);
/// All fields of a kind as columns, notes last.
std::vector<RecordColumn> everyField(RecordKind kind);
/// The source of a table of records.
std::shared_ptr<const TableSource> tableOf(const Desk& desk, RecordKind kind, const std::vector<RecordColumn>& columns, const RecordFilter& filter = {});

/// The decimals a figure of a scale needs to be shown whole.
int decimalsUsed(std::int64_t units, int scale);
/// The heading of a field: "Area, ft²".
QString headingOf(const Field& field);

}
