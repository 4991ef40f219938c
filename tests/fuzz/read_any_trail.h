#pragma once

#include "fuzz/promise.h"
#include "trail.h"

namespace strikeoff::fuzz {

/// Reads any bytes as what the trail keeps of a row, of the kind that the first byte chooses.
inline void readAnyTrail(std::string_view bytes)
{
    const auto& kind = allKinds()[choiceIn(bytes) % kindCount];
    const std::string text{bytes};
    auto row = blankRow(kind.kind);
    (void)fieldsIn(text);
    if (!overlay(row, text)) return;
    require(row.values.size() == kind.fields.size(), "a row keeps its fields");
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        const auto& value = row.values[i];
        if (isRecorded(value)) require(kind.fields[i].isText() == std::holds_alternative<std::string>(value), "a value is of its field's type");
    }
    auto again = blankRow(kind.kind);
    require(overlay(again, trailText(row)), "what the trail would keep is read again");
    require(again.values == row.values, "a row kept in the trail comes back as it was");
}

}
