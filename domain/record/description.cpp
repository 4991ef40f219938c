#include "record/description.h"

#include "record/fields.h"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

namespace strikeoff {

std::span<const KindDescription> allKinds()
{
    using namespace fields;
    static const std::array<KindDescription, kindCount> kinds{settings, customer, site, finishingProduct, jobType, supplier, crewMember, lead, job,
        takeoffSection, quote, quoteLine, changeOrder, pour, priceSheet, ticket, statement, statementLine, claim, payRate, bonus, burdenRate, hours, receipt, overhead,
        visit, forecast, townDrive, invoice, invoiceLine, payment, paymentShare, credit};
    return kinds;
}

const KindDescription& describe(RecordKind kind)
{
    const auto index = static_cast<std::size_t>(kind);
    if (index >= kindCount) throw DomainError{"a kind of record that does not exist"};
    return allKinds()[index];
}

const KindDescription* findKind(std::string_view name)
{
    const auto kinds = allKinds();
    const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const auto& kind) { return kind.name == name; });
    return found == kinds.end() ? nullptr : &*found;
}

std::size_t fieldIndex(const KindDescription& kind, std::string_view name)
{
    for (std::size_t i = 0; i < kind.fields.size(); ++i)
        if (kind.fields[i].name == name) return i;
    throw DomainError{std::string{kind.name} + " has no field " + std::string{name}};
}

namespace {

using Places = std::array<std::vector<std::size_t>, kindCount>;

template <class PlacesOf>
Places placesInAllKinds(PlacesOf placesOf)
{
    Places places;
    for (const auto& kind : allKinds()) placesOf(kind, places[static_cast<std::size_t>(kind.kind)]);
    return places;
}

}

std::span<const std::size_t> keyFields(const KindDescription& kind)
{
    static const auto places = placesInAllKinds([](const KindDescription& each, auto& found) {
        for (const auto name : each.key) found.push_back(fieldIndex(each, name));
    });
    return places.at(static_cast<std::size_t>(kind.kind));
}

std::span<const std::size_t> referenceFields(const KindDescription& kind)
{
    static const auto places = placesInAllKinds([](const KindDescription& each, auto& found) {
        for (std::size_t i = 0; i < each.fields.size(); ++i)
            if (each.fields[i].type == FieldType::reference) found.push_back(i);
    });
    return places.at(static_cast<std::size_t>(kind.kind));
}

const Field* findField(const KindDescription& kind, std::string_view name)
{
    const auto found = std::find_if(kind.fields.begin(), kind.fields.end(), [&](const auto& field) { return field.name == name; });
    return found == kind.fields.end() ? nullptr : &*found;
}

std::optional<std::size_t> numberField(const KindDescription& kind)
{
    return kind.numberPrefix ? std::optional{fieldIndex(kind, "number")} : std::nullopt;
}

}
