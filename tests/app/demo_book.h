#pragma once

#include "demo/demonstration.h"
#include "record/check.h"

#include <map>

namespace strikeoff {

/// The edit with ids of its own, as a store gives them.
inline Edit withIds(const Edit& edit)
{
    Edit numbered{edit.title()};
    std::map<std::pair<RecordKind, std::int64_t>, std::int64_t> ids;
    std::map<RecordKind, std::int64_t> last;
    for (auto change : edit.changes()) {
        auto& row = change.row;
        row.id = ids[{row.kind, row.id}] = ++last[row.kind];
        const auto fields = describe(row.kind).fields;
        for (std::size_t i = 0; i < fields.size(); ++i) {
            auto* id = fields[i].type == FieldType::reference ? std::get_if<std::int64_t>(&row.values[i]) : nullptr;
            if (id && *id < 0) *id = ids.at({fields[i].refersTo, *id});  // only rows that came before
        }
        numbered.changes().push_back(std::move(change));
    }
    return numbered;
}

}
