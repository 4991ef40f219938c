#include "ready_mix/ticket_stack.h"

#include "quantity/letters.h"
#include "quantity/words.h"
#include "ready_mix/expected_charge.h"
#include "ready_mix/ticket_warnings.h"
#include "record/check.h"
#include "record/field_text.h"

#include <algorithm>
#include <array>

namespace strikeoff {

namespace {

/// What a stack of one pour has in common.
constexpr std::array<std::string_view, 7> common{"supplier", "date", "plant", "mix", "job", "pour", "slump_ordered_in"};

constexpr int daysBack = 60;

const Field& fieldOf(std::string_view name)
{
    const auto& kind = describe(RecordKind::ticket);
    return kind.fields[fieldIndex(kind, name)];
}

/// The id a reference field of the typed ticket names.
template <class Record>
std::optional<Id<Record>> referenceOf(const Book& book, const TypedTicket& typed, std::string_view field)
{
    const auto& described = fieldOf(field);
    std::optional<std::int64_t> scope;
    if (field == "pour")
        if (const auto job = referenceOf<Job>(book, typed, "job")) scope = job->value();
    const auto reading = readReference(book, described, completedText(book, typed, field, Date{}), scope);
    const auto* id = std::get_if<std::int64_t>(&reading.value);
    return id ? std::optional{Id<Record>{*id}} : std::nullopt;
}

std::optional<PriceSheet> sheetOf(const Book& book, const TypedTicket& typed, Date today)
{
    const auto supplier = referenceOf<Supplier>(book, typed, "supplier");
    const auto date = Date::read(trimmed(typedText(typed, "date")), today);
    if (!supplier) return std::nullopt;
    return sheetInForce(book, *supplier, date.value_or(today));
}

/// The pour's name as a ticket's field has it: within its job.
std::string pourText(const Book& book, const Pour& pour)
{
    auto name = keyText(book, pour.id);
    const auto job = keyText(book, pour.job) + '/';
    return name.starts_with(job) ? name.substr(job.size()) : name;
}

Reading readField(const Book& book, const TypedTicket& typed, const Field& field, const PriceSheet* sheet, Date today)
{
    const auto text = typedText(typed, field.name);
    if (trimmed(text).empty()) return {};
    if (field.name == "mix" || field.name == "options") {
        auto read = field.name == "mix" ? readMix(sheet, text) : readOptions(sheet, text);
        return {read.code.empty() ? Value{} : Value{std::move(read.code)}, std::move(read.fault)};
    }
    if (field.type != FieldType::reference) return readTyped(field, text, today);
    std::optional<std::int64_t> scope;
    if (!field.scope.empty())
        if (const auto job = referenceOf<Job>(book, typed, field.scope)) scope = job->value();
    return readReference(book, field, completedText(book, typed, field.name, today), scope);
}

void addFault(TicketReading& reading, const std::string& field, std::string message)
{
    const auto same = [&](const auto& fault) { return fault.field == field; };
    if (std::none_of(reading.faults.begin(), reading.faults.end(), same)) reading.faults.push_back({field, std::move(message)});
}

TicketReading readOne(const Book& book, const TypedTicket& typed, Date today)
{
    TicketReading reading;
    const auto sheet = sheetOf(book, typed, today);
    auto row = blankRow(RecordKind::ticket);
    const auto& kind = describe(RecordKind::ticket);
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        const auto& field = kind.fields[i];
        const bool blank = trimmed(typedText(typed, field.name)).empty();
        if (!blank && std::find(common.begin(), common.end(), field.name) == common.end()) reading.begun = true;
        if (blank && field.required) reading.missing.emplace_back(field.label);
        auto read = readField(book, typed, field, sheet ? &*sheet : nullptr, today);
        if (!read.ok()) addFault(reading, std::string{field.name}, std::move(read.fault));
        else if (isRecorded(read.value)) row.values[i] = std::move(read.value);
    }
    for (auto& problem : checkFields(row)) {
        const auto* field = findField(kind, problem.field);
        if (field && trimmed(typedText(typed, problem.field)).empty()) continue;  // that is missing, not wrong
        addFault(reading, problem.field, std::move(problem.message));
    }
    try {
        reading.ticket = recordOf<Ticket>(row);
    } catch (const DomainError&) {
        for (const auto& fault : reading.faults) row.set(fault.field, {});
        reading.ticket = recordOf<Ticket>(row);
    }
    return reading;
}

}

std::string_view typedText(const TypedTicket& typed, std::string_view field)
{
    const auto found = typed.find(field);
    return found == typed.end() ? std::string_view{} : std::string_view{found->second};
}

std::string TicketReading::says() const
{
    if (!begun) return {};
    std::string text;
    const auto add = [&text](std::string_view sentence) {
        if (!text.empty()) text += "  ";
        text += sentence;
    };
    for (const auto& fault : faults) add(std::string{fieldOf(fault.field).label} + ": " + fault.message + '.');
    if (!missing.empty()) add("Still needed: " + listed(missing) + '.');
    for (const auto& warning : warnings) add(warning);
    return text;
}

std::vector<TicketReading> readStack(const Book& book, std::span<const TypedTicket> stack, Date today)
{
    std::vector<TicketReading> readings;
    readings.reserve(stack.size());
    for (const auto& typed : stack) readings.push_back(readOne(book, typed, today));
    for (std::size_t i = 0; i < readings.size(); ++i) {
        auto& reading = readings[i];
        if (!reading.begun) continue;
        reading.warnings = ticketWarnings(book, reading.ticket);
        const auto number = comparableNumber(reading.ticket.number);
        if (number.empty()) continue;
        for (std::size_t other = 0; other < i; ++other)
            if (readings[other].begun && readings[other].ticket.supplier == reading.ticket.supplier && comparableNumber(readings[other].ticket.number) == number) {
                reading.warnings.push_back("Row " + std::to_string(other + 1) + " of this stack has the number " + reading.ticket.number + " too.");
                break;
            }
    }
    return readings;
}

std::string stackAnswer(std::span<const TicketReading> readings)
{
    int begun = 0, ready = 0, odd = 0;
    Yards yards;
    for (const auto& reading : readings) {
        if (!reading.begun) continue;
        ++begun;
        if (reading.canBeSaved()) ++ready;
        if (!reading.warnings.empty()) ++odd;
        yards += reading.ticket.yards;
    }
    if (begun == 0) return "No ticket typed yet.";
    auto text = counted(begun, "ticket", "tickets") + " in the stack, " + yards.shown(2) + " yd\u00b3; ";
    text += ready == begun ? begun == 1 ? "ready to save" : "all ready to save" : inWords(begun - ready) + " not ready to save";
    if (odd > 0) text += "; look again at " + inWords(odd);
    return capitalized(text + ".");
}

std::string completedText(const Book& book, const TypedTicket& typed, std::string_view name, Date today)
{
    const auto text = trimmed(typedText(typed, name));
    if (text.empty()) return {};
    const auto& field = fieldOf(name);
    if (name == "mix" || name == "options") {
        const auto sheet = sheetOf(book, typed, today);
        const auto read = name == "mix" ? readMix(sheet ? &*sheet : nullptr, text) : readOptions(sheet ? &*sheet : nullptr, text);
        return read.fault.empty() ? read.code : std::string{text};
    }
    if (name == "supplier") {
        const auto low = lowered(text);
        const Supplier* found = nullptr;
        for (const auto& supplier : book.all<Supplier>()) {
            const auto key = lowered(keyText(book, supplier.id));
            if (key == low) return keyText(book, supplier.id);
            if (!key.starts_with(low)) continue;
            if (found) return std::string{text};
            found = &supplier;
        }
        return found ? keyText(book, found->id) : std::string{text};
    }
    if (name == "job") {
        const auto low = lowered(text);
        for (const auto& job : book.all<Job>()) {
            const auto number = lowered(job.number);
            if (number == low || (number.size() == low.size() + 1 && number.ends_with(low) && (number.front() < '0' || number.front() > '9'))) return keyText(book, job.id);
        }
        return std::string{text};
    }
    if (field.type == FieldType::reference) return std::string{text};
    const auto read = readTyped(field, text, today);
    return read.ok() ? shownValue(field, read.value) : std::string{text};
}

void takePour(const Book& book, TypedTicket& typed, Date today)
{
    const auto* pour = book.find(referenceOf<Pour>(book, typed, "pour"));
    if (!pour && trimmed(typedText(typed, "pour")).empty()) {
        if (const auto job = referenceOf<Job>(book, typed, "job"))
            if (const auto pours = book.referring<&Pour::job>(*job); pours.size() == 1) pour = pours.front();
    }
    if (!pour) return;
    const auto fill = [&](const char* field, const std::string& text) {
        if (!text.empty()) typed[field] = text;
    };
    fill("pour", pourText(book, *pour));
    if (pour->supplier) fill("supplier", keyText(book, *pour->supplier));
    const auto day = pour->pouredOn ? pour->pouredOn : pour->plannedOn;
    if (day && *day <= today) fill("date", day->shown());
    fill("mix", pour->mix);
    if (pour->slumpOrdered) fill("slump_ordered_in", pour->slumpOrdered->text());
}

void typeInto(const Book& book, TypedTicket& typed, std::string_view field, std::string_view text, Date today)
{
    const std::string before{typedText(typed, field)};
    typed[std::string{field}] = text;
    auto full = completedText(book, typed, field, today);
    if (full.empty()) typed.erase(std::string{field});
    else typed[std::string{field}] = full;
    if (full == before) return;
    if (field == "job") typed.erase("pour");
    if (field == "job" || field == "pour") takePour(book, typed, today);
}

TypedTicket stackOfPour(const Book& book, Id<Pour> id, Date today)
{
    TypedTicket typed;
    if (const auto* pour = book.find(id)) {
        typed["job"] = keyText(book, pour->job);
        typed["pour"] = pourText(book, *pour);
        takePour(book, typed, today);
    }
    if (typedText(typed, "date").empty()) typed["date"] = today.shown();
    return typed;
}

TypedTicket firstOfStack(const Book& book, Date today)
{
    const Pour* last = nullptr;
    for (const auto& pour : book.all<Pour>()) {
        if (!pour.pouredOn || *pour.pouredOn > today || today - *pour.pouredOn > daysBack) continue;
        if (last && *pour.pouredOn <= *last->pouredOn) continue;
        if (book.referring<&Ticket::pour>(pour.id).empty()) last = &pour;
    }
    if (last) return stackOfPour(book, last->id, today);
    return {{"date", today.shown()}};
}

TypedTicket nextOfStack(const TypedTicket& above)
{
    TypedTicket next;
    for (const auto field : common)
        if (const auto text = typedText(above, field); !text.empty()) next.emplace(field, text);
    return next;
}

std::string numberAfter(std::string_view number)
{
    std::string next{trimmed(number)};
    if (next.empty() || next.back() < '0' || next.back() > '9') return {};
    auto at = next.size();
    while (at > 0 && isDigit(next[at - 1])) {
        --at;
        if (next[at] != '9') {
            ++next[at];
            return next;
        }
        next[at] = '0';
    }
    next.insert(at, 1, '1');
    return next;
}

}
