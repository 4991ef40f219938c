#include "form/place_fields.h"

#include "form/field_editor.h"
#include "labels.h"
#include "route/geo_point.h"

#include <algorithm>

namespace strikeoff {

PlaceFields::PlaceFields(FieldEditor& latitude, FieldEditor& longitude, QObject* parent) : QObject{parent}, latitude_{latitude}, longitude_{longitude} {}

std::vector<PlaceFields*> PlaceFields::among(const std::vector<FieldEditor*>& editors, QObject* parent)
{
    std::vector<PlaceFields*> pairs;
    constexpr std::string_view north = "latitude", east = "longitude";
    for (auto* latitude : editors) {
        const auto name = latitude->field().name;
        if (latitude->field().type != FieldType::degrees || !name.ends_with(north)) continue;
        const auto other = std::string{name.substr(0, name.size() - north.size())} + std::string{east};
        const auto longitude = std::ranges::find_if(editors, [&](const auto* editor) { return editor->field().name == other; });
        if (longitude != editors.end()) pairs.push_back(new PlaceFields{*latitude, **longitude, parent});
    }
    return pairs;
}

bool PlaceFields::standsIn(const FieldEditor& editor) { return holdsPlace(utf8(editor.text())); }

bool PlaceFields::take(const FieldEditor& from)
{
    if (!standsIn(from)) return false;
    const auto point = readGeo(utf8(from.text())).point;
    if (!point) return false;
    latitude_.setText(qs(point->latitude.text()));
    longitude_.setText(qs(point->longitude.text()));
    return true;
}

QString PlaceFields::fault(const FieldEditor& editor) const
{
    if (!standsIn(editor)) return {};
    const auto reading = readGeo(utf8(editor.text()));
    return reading.point ? QString{} : qs(reading.problem);
}

bool PlaceFields::cameAtOnce(const FieldEditor& editor)
{
    auto& length = lengthOf_[&editor == &latitude_ ? 0 : 1];
    const auto grown = editor.text().size() - length;
    length = editor.text().size();
    return grown > 1;
}

}
