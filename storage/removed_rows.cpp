#include "removed_rows.h"

#include "quantity/words.h"
#include "record/field_text.h"

#include <algorithm>

namespace strikeoff {

RemovedRows::RemovedRows(const Store& store, std::size_t most) : store_{store}, rows_{store.removedRows(most)} {}

std::string RemovedRows::answer() const
{
    if (rows_.empty()) return "Nothing was removed from this book.";
    return capitalized(counted(static_cast<std::int64_t>(rows_.size()), "record was removed", "records were removed")) + " and can be brought back; the last was " + name(0) + ".";
}

std::optional<std::size_t> RemovedRows::placeOf(RecordKind kind, std::int64_t id) const
{
    const auto found = std::find_if(rows_.begin(), rows_.end(), [&](const TrailChange& change) { return change.kind == kind && change.id == id; });
    return found == rows_.end() ? std::nullopt : std::optional{static_cast<std::size_t>(found - rows_.begin())};
}

std::string RemovedRows::nameOf(RecordKind kind, std::int64_t id) const
{
    if (store_.book().find(kind, id)) return keyText(store_.book(), kind, id);
    const auto place = placeOf(kind, id);
    if (!place) return "one that is gone";
    auto name = nameOf(*rows_[*place].before);
    const auto label = describe(kind).label;
    return name.starts_with(label) && name.size() > label.size() ? name.substr(label.size() + 1) : name;
}

std::string RemovedRows::words(const Field& field, const Value& value) const
{
    if (!isRecorded(value)) return {};
    const auto* number = std::get_if<std::int64_t>(&value);
    if (field.type == FieldType::reference && number) return nameOf(field.refersTo, *number);
    return shownWithUnit(field, value);
}

std::string RemovedRows::nameOf(const Row& row) const
{
    const auto& kind = describe(row.kind);
    std::string name{kind.label};
    bool isFirst = true;
    for (const auto i : keyFields(kind)) {
        const auto text = words(kind.fields[i], row.values[i]);
        if (text.empty()) continue;
        name += (isFirst ? " " : ", ") + text;
        isFirst = false;
    }
    return name;
}

void RemovedRows::gather(std::size_t place, std::vector<std::size_t>& places) const
{
    const auto& row = *rows_[place].before;
    for (const auto i : referenceFields(describe(row.kind))) {
        const auto* id = std::get_if<std::int64_t>(&row.values[i]);
        if (!id) continue;
        const auto target = describe(row.kind).fields[i].refersTo;
        if (store_.book().find(target, *id)) continue;
        const auto found = placeOf(target, *id);
        if (found && std::find(places.begin(), places.end(), *found) == places.end()) {
            gather(*found, places);
            if (std::find(places.begin(), places.end(), *found) == places.end()) places.push_back(*found);
        }
    }
}

std::vector<std::size_t> RemovedRows::needed(std::size_t place) const
{
    std::vector<std::size_t> places;
    gather(place, places);
    std::erase(places, place);
    return places;
}

std::vector<std::size_t> RemovedRows::ofSameStep(std::size_t place) const
{
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < rows_.size(); ++i)
        if (i != place && rows_[i].entry.id == rows_[place].entry.id) places.push_back(i);
    return places;
}

std::vector<TrailChange> RemovedRows::withNeeded(std::vector<std::size_t> places) const
{
    std::vector<std::size_t> whole;
    for (const auto place : places) {
        gather(place, whole);
        if (std::find(whole.begin(), whole.end(), place) == whole.end()) whole.push_back(place);
    }
    std::vector<TrailChange> changes;
    for (const auto place : whole) changes.push_back(rows_[place]);
    return changes;
}

std::string RemovedRows::hindrance(std::size_t place) const
{
    auto places = needed(place);
    places.push_back(place);
    for (const auto each : places) {
        const auto& row = *rows_[each].before;
        const auto& kind = describe(row.kind);
        for (const auto i : referenceFields(kind)) {
            const auto* id = std::get_if<std::int64_t>(&row.values[i]);
            const auto target = kind.fields[i].refersTo;
            if (id && !store_.book().find(target, *id) && !placeOf(target, *id))
                return name(each) + " refers to a " + std::string{describe(target).name} + " (" + std::string{kind.fields[i].label} + ") that is gone for good; enter it anew instead";
        }
        std::vector<Value> key;
        for (const auto i : keyFields(kind)) key.push_back(row.values[i]);
        if (!key.empty() && !store_.book().withKey(kind.kind, key).empty())
            return "another " + std::string{kind.label} + " goes by the name " + name(each).substr(std::min(kind.label.size() + 1, name(each).size()))
                   + " now; give that one another name first, then this one can come back";
    }
    return {};
}

}
