#include "ready_mix/sheet_entry.h"

#include "quantity/letters.h"
#include "quantity/words.h"
#include "record/check.h"
#include "record/field_text.h"

#include <algorithm>

namespace strikeoff {

namespace {

const Field& fieldOf(std::string_view name)
{
    const auto& kind = describe(RecordKind::priceSheet);
    return kind.fields[fieldIndex(kind, name)];
}

bool isGiven(std::string_view field) { return field == "supplier" || field == "effective_on"; }

/// Yes and no as people type them.
Reading readYesNo(std::string_view text)
{
    if (text == "y" || text == "Y" || text == "x" || text == "X" || text == "yes" || text == "Yes" || text == "1") return {std::int64_t{1}, {}};
    if (text == "n" || text == "N" || text == "no" || text == "No" || text == "0" || text == "-") return {std::int64_t{0}, {}};
    return {{}, "\u201c" + std::string{text} + "\u201d is not understood; write yes or no"};
}

Reading readCharge(const Field& field, std::string_view typed)
{
    const auto text = trimmed(typed);
    if (text.empty()) return {};
    if (field.type == FieldType::boolean) return readYesNo(text);
    return readTyped(field, text, Date{});
}

std::string shownCharge(const Field& field, const Value& value)
{
    if (field.type == FieldType::boolean) return value == Value{std::int64_t{1}} ? "yes" : std::string{};
    if (field.type == FieldType::monthDay || field.type == FieldType::unitPrice) {
        // As it is typed: no thousands marks, no zeros that say nothing.
        const auto* number = std::get_if<std::int64_t>(&value);
        if (number && field.type == FieldType::unitPrice) return UnitPrice::ofUnits(*number).text();
        if (number) return MonthDay::ofNumber(*number).value_or(MonthDay{}).text();
    }
    return shownValue(field, value);
}

ChargeUnit usualUnit(ChargeKind kind)
{
    switch (kind) {
    case ChargeKind::mix:
    case ChargeKind::option:
    case ChargeKind::winter:
    case ChargeKind::returned: return ChargeUnit::perYard;
    case ChargeKind::waiting: return ChargeUnit::perMinute;
    case ChargeKind::tax:
    case ChargeKind::discount: return ChargeUnit::percent;
    default: return ChargeUnit::perLoad;
    }
}

ChargeReading readOne(const TypedRow& typed, Id<Supplier> supplier, Date effectiveOn)
{
    ChargeReading reading;
    auto row = blankRow(RecordKind::priceSheet);
    row.set("supplier", Value{supplier.value()});
    row.set("effective_on", Value{effectiveOn.days()});
    const auto& kind = describe(RecordKind::priceSheet);
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        const auto& field = kind.fields[i];
        if (isGiven(field.name)) continue;
        const bool blank = trimmed(typedText(typed, field.name)).empty();
        if (!blank) reading.begun = true;
        else if (field.required) reading.missing.emplace_back(field.label);
        auto read = readCharge(field, typedText(typed, field.name));
        if (!read.ok()) reading.faults.push_back({std::string{field.name}, std::move(read.fault)});
        else if (isRecorded(read.value)) row.values[i] = std::move(read.value);
    }
    for (auto& problem : checkFields(row)) {
        if (trimmed(typedText(typed, problem.field)).empty()) continue;  // missing, not wrong
        const auto same = [&](const auto& fault) { return fault.field == problem.field; };
        if (std::none_of(reading.faults.begin(), reading.faults.end(), same)) reading.faults.push_back({problem.field, std::move(problem.message)});
    }
    try {
        reading.charge = recordOf<SheetCharge>(row);
    } catch (const DomainError&) {
        for (const auto& fault : reading.faults) row.set(fault.field, {});
        reading.charge = recordOf<SheetCharge>(row);
    }
    if (reading.begun && reading.charge.code.empty() && (reading.charge.charge == ChargeKind::mix || reading.charge.charge == ChargeKind::option)) reading.missing.emplace_back(fieldOf("code").label);
    return reading;
}

bool isSame(const SheetCharge& a, const SheetCharge& b) { return a.charge == b.charge && a.code == b.code && a.fromYards == b.fromYards; }

}

std::string ChargeReading::says() const
{
    if (!begun) return {};
    std::string text;
    const auto add = [&text](const std::string& sentence) { text += (text.empty() ? "" : "  ") + sentence; };
    for (const auto& fault : faults) add((fault.field.empty() ? std::string{} : std::string{fieldOf(fault.field).label} + ": ") + fault.message + '.');
    if (!missing.empty()) add("Still needed: " + listed(missing) + '.');
    for (const auto& warning : warnings) add(warning);
    return text;
}

std::vector<TypedRow> typedSheet(const PriceSheet& sheet)
{
    std::vector<TypedRow> rows;
    for (const auto* charge : sheet.charges) {
        TypedRow row;
        for (const auto& field : describe(RecordKind::priceSheet).fields) {
            if (isGiven(field.name)) continue;
            const auto value = field.get(charge);
            if (!isRecorded(value)) continue;
            if (auto text = shownCharge(field, value); !text.empty()) row.emplace(field.name, std::move(text));
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

std::vector<ChargeReading> readSheet(std::span<const TypedRow> rows, Id<Supplier> supplier, Date effectiveOn)
{
    std::vector<ChargeReading> readings;
    readings.reserve(rows.size());
    for (const auto& row : rows) readings.push_back(readOne(row, supplier, effectiveOn));
    for (std::size_t i = 0; i < readings.size(); ++i) {
        auto& reading = readings[i];
        if (!reading.begun || !reading.missing.empty()) continue;
        if (reading.charge.amount < UnitPrice{}) reading.warnings.push_back("The amount is below zero.");
        for (std::size_t other = 0; other < i; ++other)
            if (readings[other].begun && isSame(readings[other].charge, reading.charge)) {
                reading.faults.push_back({"code", "row " + std::to_string(other + 1) + " is the same charge; give this one another code or another smallest load"});
                break;
            }
    }
    return readings;
}

void typeInto(TypedRow& typed, std::string_view name, std::string_view text)
{
    const auto& field = fieldOf(name);
    const auto plain = trimmed(text);
    if (plain.empty()) {
        typed.erase(std::string{name});
        return;
    }
    const auto read = readCharge(field, plain);
    auto& cell = typed[std::string{name}];
    cell = read.ok() ? shownCharge(field, read.value) : std::string{plain};
    if (cell.empty()) typed.erase(std::string{name});
    if (name != "charge" || !read.ok() || !typedText(typed, "unit").empty()) return;
    if (const auto* place = std::get_if<std::int64_t>(&read.value)) typed["unit"] = labelOf(usualUnit(static_cast<ChargeKind>(*place)));
}

std::string sheetAnswer(std::span<const ChargeReading> readings)
{
    int begun = 0, ready = 0;
    for (const auto& reading : readings) {
        if (!reading.begun) continue;
        ++begun;
        if (reading.canBeSaved()) ++ready;
    }
    if (begun == 0) return "No charge typed yet.";
    return capitalized(counted(begun, "charge", "charges") + " on the sheet; " + (ready == begun ? begun == 1 ? "ready to save" : "all ready to save" : inWords(begun - ready) + " not ready to save") + ".");
}

Step enterSheet(const Book& book, std::span<const ChargeReading> readings, Id<Supplier> supplier, Date effectiveOn)
{
    Step step;
    const auto* whose = book.find(supplier);
    if (!whose) {
        step.obstacle = "Choose the supplier first.";
        return step;
    }
    Edit edit{"Enter the sheet of " + whose->name + " from " + effectiveOn.shown()};
    for (std::size_t i = 0; i < readings.size(); ++i) {
        if (!readings[i].begun) continue;
        if (!readings[i].canBeSaved()) {
            step.obstacle = "Row " + std::to_string(i + 1) + " is not ready: " + readings[i].says();
            return step;
        }
        edit.add(readings[i].charge);
    }
    if (edit.empty()) {
        step.obstacle = "There is no charge to save yet.";
        return step;
    }
    for (const auto* charge : book.referring<&SheetCharge::supplier>(supplier))
        if (charge->effectiveOn == effectiveOn) {
            step.obstacle = "There is a sheet of " + whose->name + " from " + effectiveOn.shown() + " already; give this one another day, or change that one in the list of charges.";
            return step;
        }
    step.edit = std::move(edit);
    return step;
}

}
