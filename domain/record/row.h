#pragma once

#include "record/description.h"

#include <vector>

namespace strikeoff {

/// A row of any kind as plain values, in the order of the kind's fields.
struct Row {
    RecordKind kind{};
    std::int64_t id = 0;
    std::int64_t revision = 0;
    std::vector<Value> values;

    const Value& value(std::string_view field) const { return values[fieldIndex(describe(kind), field)]; }
    void set(std::string_view field, Value value) { values[fieldIndex(describe(kind), field)] = std::move(value); }
};

/// The values of a record, by its kind's description.
std::vector<Value> valuesOf(const KindDescription& kind, const void* record);

template <class Record>
Row rowOf(const Record& record)
{
    constexpr auto kind = kindOf<Record>;
    return Row{kind, record.id.value(), record.revision, valuesOf(describe(kind), &record)};
}

/// The record of a row; DomainError when a value does not fit its field.
template <class Record>
Record recordOf(const Row& row)
{
    if (row.kind != kindOf<Record>) throw DomainError{"a row read as another kind of record"};
    Record record;
    record.id = Id<Record>{row.id};
    record.revision = static_cast<std::int32_t>(row.revision);
    const auto fields = describe(row.kind).fields;
    for (std::size_t i = 0; i < fields.size(); ++i) fields[i].set(&record, row.values[i]);
    return record;
}

/// A row with every field at its default.
Row blankRow(RecordKind kind);

}
