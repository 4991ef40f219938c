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

    // One value after the other taken out of what is kept, as when a person is blotted out: the others stay.
    const auto kept = trailText(row);
    const auto rewritten = [&](const Field* less) {
        return rewrittenTrail(kind.kind, kept, [&](const Field& field, const Value& value) { return &field == less ? Value{} : value; });
    };
    require(rewritten(nullptr) == kept, "a text nothing is taken out of stays the same");
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        if (!isRecorded(row.values[i])) continue;
        auto rest = blankRow(kind.kind);
        require(overlay(rest, rewritten(&kind.fields[i])), "what is left is read again");
        for (std::size_t other = 0; other < kind.fields.size(); ++other)
            require(rest.values[other] == (other == i ? blankRow(kind.kind) : row).values[other], "a value that is taken out takes no other along");
    }
}

}
