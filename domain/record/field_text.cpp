#include "record/field_text.h"

#include "quantity/letters.h"

#include <algorithm>

namespace strikeoff {

namespace {

template <class T>
T valueAs(std::int64_t number) { return detail::ofNumber<T>(number); }

int leastDecimals(FieldType type) { return type == FieldType::money || type == FieldType::unitPrice ? 2 : 0; }

std::string choiceList(const Field& field)
{
    std::string list;
    for (const auto& choice : field.choices) {
        if (!list.empty()) list += ", ";
        list += choice.code;
    }
    return list;
}

std::string quoted(std::string_view text)
{
    constexpr std::size_t most = 40;
    std::string shown{text.substr(0, most)};
    while (!shown.empty() && shown.size() < text.size() && (static_cast<unsigned char>(text[shown.size()]) & 0xC0) == 0x80) shown.pop_back();
    return "\u201c" + shown + (text.size() > most ? "\u2026" : "") + "\u201d";
}

Reading fault(std::string text) { return {std::monostate{}, std::move(text)}; }

std::string whatToWrite(const Field& field)
{
    switch (field.type) {
    case FieldType::integer: return "write a whole number";
    case FieldType::boolean: return "write yes or no";
    case FieldType::choice: return "write one of " + choiceList(field);
    case FieldType::date: return "write a day that exists as YYYY-MM-DD";
    case FieldType::clockTime: return "write a time as HH:MM";
    case FieldType::monthDay: return "write a day of the year as MM-DD";
    case FieldType::minutes: return "write whole minutes";
    case FieldType::tapeLength: return "write a length such as 12' 6-1/2\"";
    case FieldType::options: return "write code=amount pairs joined by ;";
    case FieldType::points: return "write corner points in feet such as 0 0; 12 0; 12 8.5";
    default: return "write a number with at most " + std::to_string(decimalsOf(field.type)) + " decimals and no marks, such as 1234.5";
    }
}

std::string plainText(const Field& field, const Value& value)
{
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    const auto* number = std::get_if<std::int64_t>(&value);
    if (!number) return {};
    switch (field.type) {
    case FieldType::boolean: return *number != 0 ? "yes" : "no";
    case FieldType::choice: return std::string{field.choices[static_cast<std::size_t>(*number)].code};
    case FieldType::date: return Date::ofDays(*number).text();
    case FieldType::clockTime: return valueAs<ClockTime>(*number).text();
    case FieldType::monthDay: return valueAs<MonthDay>(*number).text();
    case FieldType::tapeLength: return TapeLength::ofSixteenths(*number).text();
    case FieldType::integer:
    case FieldType::minutes:
    case FieldType::reference: return std::to_string(*number);
    default: return formatDecimal(*number, decimalsOf(field.type), leastDecimals(field.type));
    }
}

std::optional<Value> plainValue(const Field& field, std::string_view text)
{
    const auto number = [](const auto& read, auto unitsOf) -> std::optional<Value> {
        if (!read) return std::nullopt;
        return Value{static_cast<std::int64_t>(unitsOf(*read))};
    };
    switch (field.type) {
    case FieldType::text:
    case FieldType::note: return Value{std::string{text}};
    case FieldType::options: return parseOptions(text) ? std::optional{Value{std::string{text}}} : std::nullopt;
    case FieldType::points: return parsePoints(text) ? std::optional{Value{std::string{text}}} : std::nullopt;
    case FieldType::integer:
    case FieldType::minutes: return number(parseDecimal(text, 0), [](auto n) { return n; });
    case FieldType::boolean: {
        const auto low = lowered(text);
        if (low == "yes" || low == "true" || low == "1" || low == "y") return Value{std::int64_t{1}};
        if (low == "no" || low == "false" || low == "0" || low == "n") return Value{std::int64_t{0}};
        return std::nullopt;
    }
    case FieldType::choice:
        for (std::size_t i = 0; i < field.choices.size(); ++i)
            if (field.choices[i].code == text) return Value{static_cast<std::int64_t>(i)};
        return std::nullopt;
    case FieldType::date: return number(Date::parse(text), [](Date d) { return d.days(); });
    case FieldType::clockTime: return number(ClockTime::parse(text), [](ClockTime t) { return t.minutes(); });
    case FieldType::monthDay: return number(MonthDay::parse(text), [](MonthDay d) { return d.number(); });
    case FieldType::tapeLength: return number(TapeLength::parse(text), [](TapeLength l) { return l.sixteenths(); });
    case FieldType::reference: return std::nullopt;
    default: return number(parseDecimal(text, decimalsOf(field.type)), [](auto n) { return n; });
    }
}

std::string escapedPart(std::string_view text)
{
    std::string escaped;
    for (const char c : text) {
        if (c == '/' || c == '\\') escaped += '\\';
        escaped += c;
    }
    return escaped;
}

/// The key of a row as its parts, references replaced by the parts of what they point at.
void collectKeyParts(const Book& book, const KindDescription& kind, const void* record, std::vector<std::string>& parts, int depth = 0)
{
    for (const auto name : kind.key) {
        const auto& field = kind.fields[fieldIndex(kind, name)];
        const auto value = field.get(record);
        if (field.type != FieldType::reference) {
            parts.push_back(plainText(field, value));
            continue;
        }
        const auto* id = std::get_if<std::int64_t>(&value);
        const auto* target = id ? book.find(field.refersTo, *id) : nullptr;
        if (target && depth < 4) collectKeyParts(book, describe(field.refersTo), target, parts, depth + 1);
        else parts.emplace_back();
    }
}

std::size_t keyPartCount(const KindDescription& kind, int depth = 0)
{
    std::size_t parts = 0;
    for (const auto name : kind.key) {
        const auto& field = kind.fields[fieldIndex(kind, name)];
        parts += field.type == FieldType::reference && depth < 4 ? keyPartCount(describe(field.refersTo), depth + 1) : 1;
    }
    return parts;
}

std::string joined(const std::vector<std::string>& parts)
{
    if (parts.size() == 1) return parts.front();
    std::string text;
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) text += '/';
        text += escapedPart(parts[i]);
    }
    return text;
}

std::vector<std::string> splitKey(std::string_view text, std::size_t count)
{
    if (count == 1) return {std::string{text}};
    std::vector<std::string> parts(1);
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\\' && i + 1 < text.size()) parts.back() += text[++i];
        else if (text[i] == '/') parts.emplace_back();
        else parts.back() += text[i];
    }
    // An unescaped "/" in the first part (a name with a stroke in it) is no reason to refuse.
    if (const auto more = static_cast<std::ptrdiff_t>(parts.size()) - static_cast<std::ptrdiff_t>(count); more > 0) {
        for (auto part = parts.begin() + 1; part != parts.begin() + 1 + more; ++part) parts.front() += '/' + *part;
        parts.erase(parts.begin() + 1, parts.begin() + 1 + more);
    }
    return parts;
}

/// The row with a key of parts, or nothing; `parts` is consumed from the front.
std::optional<std::int64_t> findByParts(const Book& book, const KindDescription& kind, std::span<const std::string>& parts, int depth = 0)
{
    std::vector<Value> key;
    for (const auto name : kind.key) {
        const auto& field = kind.fields[fieldIndex(kind, name)];
        if (field.type == FieldType::reference && depth < 4) {
            const auto& target = describe(field.refersTo);
            const auto count = keyPartCount(target, depth + 1);
            if (parts.size() < count) return std::nullopt;
            if (field.nullable && std::all_of(parts.begin(), parts.begin() + static_cast<std::ptrdiff_t>(count), [](const auto& p) { return p.empty(); })) {
                parts = parts.subspan(count);
                key.emplace_back();
                continue;
            }
            const auto id = findByParts(book, target, parts, depth + 1);
            if (!id) return std::nullopt;
            key.emplace_back(*id);
        } else {
            if (parts.empty()) return std::nullopt;
            const auto& part = parts.front();
            if (part.empty()) key.emplace_back();
            else {
                auto value = plainValue(field, part);
                if (!value) return std::nullopt;
                key.push_back(std::move(*value));
            }
            parts = parts.subspan(1);
        }
    }
    const auto ids = book.withKey(kind.kind, key);
    return ids.size() == 1 ? std::optional{ids.front()} : std::nullopt;
}

std::string referenceText(const Book& book, const KindDescription& kind, const Field& field, std::int64_t id, const void* record)
{
    const auto* target = book.find(field.refersTo, id);
    if (!target) return {};
    const auto& described = describe(field.refersTo);
    std::vector<std::string> parts;
    collectKeyParts(book, described, target, parts);
    if (!field.scope.empty()) {
        const auto scopeValue = kind.fields[fieldIndex(kind, field.scope)].get(record);
        const auto& first = described.fields[fieldIndex(described, described.key.front())];
        if (isRecorded(scopeValue) && first.get(target) == scopeValue)
            parts.erase(parts.begin(), parts.begin() + static_cast<std::ptrdiff_t>(keyPartCount(describe(first.refersTo))));
    }
    return joined(parts);
}

}

int decimalsOf(FieldType type)
{
    switch (type) {
    case FieldType::money: return Money::scale;
    case FieldType::unitPrice: return UnitPrice::scale;
    case FieldType::yards: return Yards::scale;
    case FieldType::quantity: return Quantity::scale;
    case FieldType::area: return Area::scale;
    case FieldType::rate: return Rate::scale;
    case FieldType::degrees: return Degrees::scale;
    default: return -1;
    }
}

Value storedForm(const Field& field, const Value& value)
{
    if (std::holds_alternative<std::int64_t>(value) && (field.type == FieldType::choice || field.type == FieldType::date)) return plainText(field, value);
    return value;
}

std::optional<Value> fromStoredForm(const Field& field, const Value& stored)
{
    if (!isRecorded(stored)) return stored;
    const auto* text = std::get_if<std::string>(&stored);
    if (field.type == FieldType::choice || field.type == FieldType::date) return text ? plainValue(field, *text) : std::nullopt;
    if (field.isText() != (text != nullptr)) return std::nullopt;
    return stored;
}

std::string fileText(const Book& book, const KindDescription& kind, const Field& field, const void* record)
{
    const auto value = field.get(record);
    if (field.type != FieldType::reference) return plainText(field, value);
    const auto* id = std::get_if<std::int64_t>(&value);
    return id ? referenceText(book, kind, field, *id, record) : std::string{};
}

std::string shownValue(const Field& field, const Value& value)
{
    const auto* number = std::get_if<std::int64_t>(&value);
    if (!number) return plainText(field, value);
    switch (field.type) {
    case FieldType::choice: return std::string{field.choices[static_cast<std::size_t>(*number)].label};
    case FieldType::date: return Date::ofDays(*number).shown();
    case FieldType::clockTime: return valueAs<ClockTime>(*number).shown();
    case FieldType::integer:
    case FieldType::minutes: return shownDecimal(*number, 0, 0);
    case FieldType::money:
    case FieldType::unitPrice:
    case FieldType::yards:
    case FieldType::quantity:
    case FieldType::area:
    case FieldType::rate:
    case FieldType::degrees: {
        const auto plain = formatDecimal(*number, decimalsOf(field.type), leastDecimals(field.type));
        const auto point = plain.find('.');
        return shownDecimal(*number, decimalsOf(field.type), point == std::string::npos ? 0 : static_cast<int>(plain.size() - point - 1));
    }
    default: return plainText(field, value);
    }
}

std::string shownWithUnit(const Field& field, const Value& value)
{
    const auto* number = std::get_if<std::int64_t>(&value);
    if (field.type == FieldType::reference || !isRecorded(value)) return {};
    if (field.type == FieldType::boolean && number) return *number != 0 ? "yes" : "no";
    const auto text = shownValue(field, value);
    if (field.unit.empty() || text.empty()) return text;
    if (field.unit.starts_with('$')) {
        constexpr std::string_view minus = "\u2212";
        const bool negative = text.starts_with(minus);
        return (negative ? std::string{minus} : std::string{}) + '$' + text.substr(negative ? minus.size() : 0) + std::string{field.unit.substr(1)};
    }
    return text + (field.unit == "%" || field.unit == "\u00b0" ? "" : " ") + std::string{field.unit};
}

std::string shownText(const Book& book, const KindDescription& kind, const Field& field, const void* record)
{
    const auto value = field.get(record);
    if (field.type != FieldType::reference) return shownValue(field, value);
    return fileText(book, kind, field, record);
}

Reading readFileText(const Field& field, std::string_view text)
{
    if (!field.isText()) text = trimmed(text);
    if (text.empty()) return {};
    auto value = plainValue(field, text);
    if (!value) return fault(quoted(text) + " is not understood; " + whatToWrite(field));
    return {std::move(*value), {}};
}

Reading readTyped(const Field& field, std::string_view typed, Date today)
{
    const auto text = trimmed(typed);
    if (text.empty()) return {};
    const auto refused = [&](std::string_view example) { return fault(quoted(text) + " is not understood; write it like " + std::string{example}); };
    switch (field.type) {
    case FieldType::text:
    case FieldType::note: return {std::string{text}, {}};
    case FieldType::date:
        if (const auto date = Date::read(text, today)) return {date->days(), {}};
        return refused("6/12, Jun 12 2026, tomorrow or 2026-06-12");
    case FieldType::clockTime:
        if (const auto time = ClockTime::read(text)) return {std::int64_t{time->minutes()}, {}};
        return refused("7:30a, 742 or 15:05");
    case FieldType::minutes:
        if (const auto minutes = Minutes::read(text)) return {minutes->count(), {}};
        return refused("90, 1:30 or 1.5h");
    case FieldType::tapeLength:
        if (const auto length = TapeLength::parse(text)) return {length->sixteenths(), {}};
        return refused("12' 6-1/2\", 12-6 1/2 or 12.5'");
    case FieldType::choice: {
        const auto low = lowered(text);
        for (std::size_t i = 0; i < field.choices.size(); ++i)
            if (lowered(field.choices[i].label) == low || field.choices[i].code == low) return {static_cast<std::int64_t>(i), {}};
        for (std::size_t i = 0; i < field.choices.size(); ++i)
            if (lowered(field.choices[i].label).starts_with(low)) return {static_cast<std::int64_t>(i), {}};
        return fault(quoted(text) + " is none of the choices; " + whatToWrite(field));
    }
    case FieldType::rate:
        if (text.ends_with('%')) {
            if (const auto units = readDecimal(trimmed(text.substr(0, text.size() - 1)), Rate::scale)) return {*units, {}};
            return refused("8.25%");
        }
        [[fallthrough]];
    case FieldType::money:
    case FieldType::unitPrice:
    case FieldType::yards:
    case FieldType::quantity:
    case FieldType::area:
    case FieldType::degrees:
    case FieldType::integer:
        if (const auto units = readDecimal(text, std::max(decimalsOf(field.type), 0))) return {*units, {}};
        return refused(field.type == FieldType::integer ? "12" : field.type == FieldType::money || field.type == FieldType::unitPrice ? "1,250 or 12.50" : "9 1/2 or 9.5");
    default: return readFileText(field, text);
    }
}

std::string keyText(const Book& book, RecordKind kind, std::int64_t id)
{
    const auto* record = book.find(kind, id);
    if (!record) return {};
    std::vector<std::string> parts;
    collectKeyParts(book, describe(kind), record, parts);
    return joined(parts);
}

Reading readReference(const Book& book, const Field& field, std::string_view text, std::optional<std::int64_t> scope)
{
    const auto& target = describe(field.refersTo);
    const auto count = keyPartCount(target);
    const auto find = [&](std::string_view name) -> std::optional<std::int64_t> {
        if (scope && !field.scope.empty()) {
            const auto& first = target.fields[fieldIndex(target, target.key.front())];
            std::vector<std::string> parts;
            if (const auto* owner = book.find(first.refersTo, *scope)) {
                collectKeyParts(book, describe(first.refersTo), owner, parts);
                const auto own = splitKey(name, count - parts.size());
                parts.insert(parts.end(), own.begin(), own.end());
                std::span<const std::string> rest{parts};
                if (parts.size() == count)
                    if (const auto id = findByParts(book, target, rest)) return id;
            }
        }
        const auto parts = splitKey(name, count);
        std::span<const std::string> rest{parts};
        return parts.size() == count ? findByParts(book, target, rest) : std::nullopt;
    };
    // As it stands first: a name may begin or end with a space.
    if (!text.empty())
        if (const auto id = find(text)) return {*id, {}};
    const auto plain = trimmed(text);
    if (plain.empty()) return {};
    if (plain.size() < text.size())
        if (const auto id = find(plain)) return {*id, {}};
    return fault("there is no " + lowered(target.label) + " " + quoted(plain) + " in the book; enter it first or correct the name");
}

}
