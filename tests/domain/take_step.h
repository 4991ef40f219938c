#pragma once

#include "domain/book_maker.h"

#include "job/steps.h"

#include <map>

namespace strikeoff {

/// Commits a step as the store would: new rows and the references to them get ids, blank numbers are given.
inline void take(Book& book, const Step& step)
{
    INFO(step.obstacle);
    REQUIRE(step.possible());
    Edit edit{step.edit->title()};
    std::map<std::pair<RecordKind, std::int64_t>, std::int64_t> ids;
    std::map<RecordKind, std::int64_t> last;
    for (const auto& change : step.edit->changes()) {
        if (change.what != ChangeType::add) continue;
        auto& id = last.try_emplace(change.row.kind, book.lastId(change.row.kind)).first->second;
        ids[{change.row.kind, change.row.id}] = ++id;
    }
    for (auto change : step.edit->changes()) {
        const auto& kind = describe(change.row.kind);
        if (change.what == ChangeType::add) change.row.id = ids.at({change.row.kind, change.row.id});
        if (change.what != ChangeType::remove)
            for (std::size_t i = 0; i < kind.fields.size(); ++i) {
                auto& value = change.row.values[i];
                if (kind.fields[i].type != FieldType::reference) continue;
                if (const auto* id = std::get_if<std::int64_t>(&value); id && *id < 0) value = ids.at({kind.fields[i].refersTo, *id});
            }
        if (const auto number = numberField(kind); number && change.what == ChangeType::add)
            if (const auto* text = std::get_if<std::string>(&change.row.values[*number]); !text || text->empty())
                change.row.values[*number] = std::string{*kind.numberPrefix} + std::to_string(1000 + change.row.id);
        edit.changes().push_back(std::move(change));
    }
    const auto outcome = applyEdit(book, edit);
    for (const auto& problem : outcome.problems) FAIL(problem.field << ": " << problem.message);
}

}
