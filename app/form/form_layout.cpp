#include "form/form_layout.h"

#include <QCoreApplication>

#include <algorithm>
#include <numeric>

namespace strikeoff {

namespace {

QString words(const char* text) { return QCoreApplication::translate("FormLayout", text); }

}

FormLayout plainLayout(RecordKind kind)
{
    FormGroup group;
    for (const auto& field : describe(kind).fields) group.lines.push_back({std::string{field.name}});
    return {{std::move(group)}, {}};
}

FormLayout layoutFor(RecordKind kind)
{
    switch (kind) {
    case RecordKind::lead:
        return {{{words("Who asked"), {{"received_on", "number"}, {"name"}, {"phone", "email"}, {"town"}, {"source", "customer"}}},
                 {words("What they want"), {{"job_type", "area_sqft"}, {"wish"}}},
                 {words("Calls"), {{"called_on", "next_call_on"}, {"lost_on", "lost_reason"}, {"note"}}}},
                {"received_on"}};
    case RecordKind::ticket:
        return {{{words("The ticket"), {{"supplier"}, {"number", "date"}, {"plant", "truck"}, {"mix", "yards"}, {"options"}}},
                 {words("Where it went"), {{"job", "pour"}}},
                 {words("Times"), {{"batched_at", "arrived_at"}, {"discharge_began_at", "discharge_ended_at"}}},
                 {words("On site"), {{"slump_ordered_in", "slump_in"}, {"concrete_temp_f", "water_added_gal"}, {"returned_yards", "signed_by"}, {"note"}}}},
                {"supplier", "plant", "date", "mix", "job", "pour", "slump_ordered_in"}};
    case RecordKind::hours:
        return {{{{}, {{"person"}, {"date"}, {"job", "pour"}, {"phase"}, {"started_at", "ended_at"}, {"unpaid_minutes", "minutes"}, {"note"}}}},
                {"date", "job", "pour", "phase", "started_at", "ended_at", "unpaid_minutes"}};
    case RecordKind::receipt:
        return {{{{}, {{"date", "number"}, {"vendor"}, {"reference"}, {"job"}, {"cost_class"}, {"description"}, {"quantity", "unit", "unit_price"}, {"amount", "paid_on"}, {"note"}}}},
                {"date", "job"}};
    case RecordKind::payment:
        return {{{{}, {{"customer"}, {"received_on", "number"}, {"amount"}, {"method", "reference"}, {"note"}}}}, {"received_on"}};
    case RecordKind::customer:
        return {{{{}, {{"name"}, {"phone"}, {"email"}, {"address"}, {"town"}, {"terms_days"}, {"tax_exempt"}, {"note"}}}}, {}};
    case RecordKind::site:
        return {{{{}, {{"name"}, {"customer"}, {"address"}, {"town"}, {"latitude", "longitude"}, {"drive_minutes"}, {"note"}}}}, {"customer"}};
    case RecordKind::job:
        return {{{{}, {{"number", "opened_on"}, {"title"}, {"customer"}, {"site"}, {"lead", "job_type"}, {"note"}}},
                 {words("The end"), {{"closed_on", "lien_notice_due"}, {"dropped_on", "dropped_reason"}}}},
                {}};
    case RecordKind::pour:
        return {{{words("Plan"), {{"job", "sequence"}, {"planned_on", "planned_at"}, {"supplier"}, {"mix", "ordered_yards"}, {"slump_ordered_in", "crew_size"}, {"options_ordered"}, {"product"}}},
                 {words("As it went"), {{"poured_on", "placed_at"}, {"broomed_at", "finished_at"}, {"area_sqft", "air_temp_f"}, {"concrete_temp_f", "saw_joint_ft"}, {"relief_cut"}, {"note"}}}},
                {"job"}};
    case RecordKind::visit:
        return {{{{}, {{"job", "pour"}, {"kind", "coat"}, {"not_before", "due"}, {"too_late"}, {"planned_on", "planned_at"}, {"pinned"}, {"minutes", "people"}, {"product", "gallons"}}},
                 {words("How it ended"), {{"done_on"}, {"waived_on", "waived_reason"}, {"photos"}, {"note"}}}},
                {"job", "pour"}};
    case RecordKind::statement:
        return {{{{}, {{"supplier"}, {"number", "date"}, {"period_from", "period_to"}, {"total"}, {"due_on", "discount_until"}, {"approved_on", "paid_on"}, {"note"}}}}, {"supplier"}};
    case RecordKind::invoice:
        return {{{words("The invoice"), {{"job"}, {"number", "kind"}, {"drafted_on", "issued_on"}, {"due_on"}, {"tax_pct", "retainage_pct"}}},
                 {words("Words"), {{"heading"}, {"terms"}, {"note"}}}},
                {}};
    case RecordKind::quote:
        return {{{words("The quote"), {{"job"}, {"number", "issue"}, {"drafted_on", "sent_on"}, {"valid_until", "pour_month"}}},
                 {words("Figures"), {{"markup_pct", "tax_pct"}, {"deposit_pct"}}},
                 {words("The answer"), {{"accepted_on", "declined_on"}, {"declined_reason"}}},
                 {words("As the customer reads it"), {{"scope"}, {"exclusions"}, {"terms"}}}},
                {}};
    case RecordKind::changeOrder:
        return {{{words("What is asked for"), {{"job"}, {"number", "asked_on"}, {"description"}, {"cost_class", "phase"}, {"quantity", "unit"}, {"cost", "price"}}},
                 {words("The answer"), {{"accepted_on", "declined_on"}, {"note"}}}},
                {}};
    case RecordKind::takeoffSection:
        return {{{{}, {{"job"}, {"name"}, {"shape", "count"}, {"points"}, {"length", "width"}, {"second_length"}, {"thickness", "joint_spacing"}, {"finish", "position"}, {"deduct"}, {"note"}}}},
                {"shape", "thickness", "joint_spacing", "finish"}};
    default: return plainLayout(kind);
    }
}

FormLayout without(FormLayout layout, std::string_view field)
{
    for (auto& group : layout.groups) {
        for (auto& line : group.lines) std::erase(line, field);
        std::erase_if(group.lines, [](const auto& line) { return line.empty(); });
    }
    std::erase_if(layout.groups, [](const auto& group) { return group.lines.empty(); });
    std::erase(layout.carried, field);
    return layout;
}

std::size_t firstColumn(const KindDescription& kind, const FormLayout& layout)
{
    std::vector<int> heights;
    for (const auto& group : layout.groups) {
        int height = 1;
        for (const auto& line : group.lines)
            height += std::ranges::any_of(line, [&](const auto& name) { return kind.fields[fieldIndex(kind, name)].type == FieldType::note; }) ? 4 : 2;
        heights.push_back(height);
    }
    std::size_t best = heights.size();
    int least = std::accumulate(heights.begin(), heights.end(), 0);
    const int whole = least;
    int first = 0;
    for (std::size_t i = 0; i + 1 < heights.size(); ++i) {
        first += heights[i];
        if (const int highest = std::max(first, whole - first); highest < least) {
            least = highest;
            best = i + 1;
        }
    }
    return best;
}

}
