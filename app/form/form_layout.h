#pragma once

#include <QString>

#include "record/row.h"

#include <string>
#include <vector>

namespace strikeoff {

/// Fields that belong together, under a quiet heading (none when empty): lines of one field or of several side by side.
struct FormGroup {
    QString heading;
    std::vector<std::vector<std::string>> lines;
};

/// How a form is arranged: its groups, and the fields whose values are carried on into the next new record.
struct FormLayout {
    std::vector<FormGroup> groups;
    std::vector<std::string> carried;
};

/// Values set for a new record before the owner types.
using Presets = std::vector<std::pair<std::string, Value>>;

/// Every field in the order of the description, one a line.
FormLayout plainLayout(RecordKind kind);
/// Arranged by hand for the records that have it, else plain. A field left out of a hand-made layout keeps its value.
FormLayout layoutFor(RecordKind kind);
/// A layout without a field whose value is settled by where the form stands (the job, in its folder).
FormLayout without(FormLayout layout, std::string_view field);
/// So many groups stand in the first of two columns that both are about as high.
std::size_t firstColumn(const KindDescription& kind, const FormLayout& layout);

}
