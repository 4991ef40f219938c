#pragma once

#include "quantity/date.h"
#include "quantity/decimal.h"
#include "quantity/id.h"
#include "quantity/tape_length.h"
#include "record/kind.h"
#include "record/shared_text.h"

#include <cstdint>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <variant>

namespace strikeoff {

/// What a field holds, seen from outside: nothing (not recorded), a whole number of the type's unit, or text.
using Value = std::variant<std::monostate, std::int64_t, std::string>;

inline bool isRecorded(const Value& value) { return !std::holds_alternative<std::monostate>(value); }

enum class FieldType {
    text,       ///< one line
    note,       ///< several lines
    options,    ///< what was batched into a load: "code=amount" pairs joined by ";"
    points,     ///< corner points of a polygon: "x y" pairs in feet joined by ";"
    integer,
    boolean,
    choice,     ///< one of the field's choices, by its place in the list
    date,       ///< days since 1970-01-01
    clockTime,  ///< minutes after midnight
    monthDay,   ///< month × 100 + day
    money,
    unitPrice,
    yards,
    quantity,
    area,
    rate,
    degrees,
    minutes,
    tapeLength,
    reference,  ///< id of a row of the kind referred to
};

struct Choice {
    std::string_view code;   ///< as files carry it: snake_case
    std::string_view label;  ///< as people read it
};

/// The choices of an enumeration whose members count up from 0; specialised beside each enumeration.
template <class Enum>
inline constexpr std::span<const Choice> choicesOf{};

template <class Enum>
constexpr std::string_view codeOf(Enum value) { return choicesOf<Enum>[static_cast<std::size_t>(value)].code; }
template <class Enum>
constexpr std::string_view labelOf(Enum value) { return choicesOf<Enum>[static_cast<std::size_t>(value)].label; }

namespace detail {

template <class T> struct IsOptional : std::false_type { using Inner = T; };
template <class T> struct IsOptional<std::optional<T>> : std::true_type { using Inner = T; };

template <class T> inline constexpr bool isText = std::is_same_v<T, std::string> || std::is_same_v<T, SharedText>;

template <class T> struct IsId : std::false_type {};
template <class R> struct IsId<Id<R>> : std::true_type { using Record = R; };

template <auto Member> struct MemberOf;
template <class R, class T, T R::*Member> struct MemberOf<Member> {
    using Record = R;
    using Type = T;
};

template <class T>
consteval FieldType typeOf()
{
    if constexpr (isText<T>) return FieldType::text;
    else if constexpr (std::is_same_v<T, bool>) return FieldType::boolean;
    else if constexpr (std::is_enum_v<T>) return FieldType::choice;
    else if constexpr (std::is_integral_v<T>) return FieldType::integer;
    else if constexpr (std::is_same_v<T, Date>) return FieldType::date;
    else if constexpr (std::is_same_v<T, ClockTime>) return FieldType::clockTime;
    else if constexpr (std::is_same_v<T, MonthDay>) return FieldType::monthDay;
    else if constexpr (std::is_same_v<T, Money>) return FieldType::money;
    else if constexpr (std::is_same_v<T, UnitPrice>) return FieldType::unitPrice;
    else if constexpr (std::is_same_v<T, Yards>) return FieldType::yards;
    else if constexpr (std::is_same_v<T, Quantity>) return FieldType::quantity;
    else if constexpr (std::is_same_v<T, Area>) return FieldType::area;
    else if constexpr (std::is_same_v<T, Rate>) return FieldType::rate;
    else if constexpr (std::is_same_v<T, Degrees>) return FieldType::degrees;
    else if constexpr (std::is_same_v<T, Minutes>) return FieldType::minutes;
    else if constexpr (std::is_same_v<T, TapeLength>) return FieldType::tapeLength;
    else {
        static_assert(IsId<T>::value, "a record member of a type that no field describes");
        return FieldType::reference;
    }
}

template <class T>
consteval RecordKind referredKind()
{
    if constexpr (IsId<T>::value) return kindOf<typename IsId<T>::Record>;
    else return noKind;
}

template <class T>
std::int64_t numberOf(const T& value)
{
    if constexpr (std::is_enum_v<T> || std::is_integral_v<T>) return static_cast<std::int64_t>(value);
    else if constexpr (std::is_same_v<T, Date>) return value.days();
    else if constexpr (std::is_same_v<T, ClockTime>) return value.minutes();
    else if constexpr (std::is_same_v<T, MonthDay>) return value.number();
    else if constexpr (std::is_same_v<T, Minutes>) return value.count();
    else if constexpr (std::is_same_v<T, TapeLength>) return value.sixteenths();
    else if constexpr (IsId<T>::value) return value.value();
    else return value.units();
}

/// DomainError for a number that is none of the type's values.
template <class T>
T ofNumber(std::int64_t number)
{
    if constexpr (std::is_enum_v<T>) {
        if (number < 0 || static_cast<std::size_t>(number) >= choicesOf<T>.size()) throw DomainError{"a choice that does not exist"};
        return static_cast<T>(number);
    } else if constexpr (std::is_same_v<T, bool>) return number != 0;
    else if constexpr (std::is_integral_v<T>) {
        if (number < std::numeric_limits<T>::min() || number > std::numeric_limits<T>::max()) throw DomainError{"a number out of bounds"};
        return static_cast<T>(number);
    } else if constexpr (std::is_same_v<T, Date>) return Date::ofDays(number);
    else if constexpr (std::is_same_v<T, ClockTime>) {
        const auto time = ClockTime::ofMinutes(number);
        if (!time) throw DomainError{"a time outside the day"};
        return *time;
    } else if constexpr (std::is_same_v<T, MonthDay>) {
        const auto day = MonthDay::ofNumber(number);
        if (!day) throw DomainError{"a day that no year has"};
        return *day;
    } else if constexpr (std::is_same_v<T, Minutes>) return Minutes::of(number);
    else if constexpr (std::is_same_v<T, TapeLength>) return TapeLength::ofSixteenths(number);
    else if constexpr (IsId<T>::value) return T{number};
    else return T::ofUnits(number);
}

template <auto Member>
struct Access {
    using Record = typename MemberOf<Member>::Record;
    using Type = typename MemberOf<Member>::Type;
    using Inner = typename IsOptional<Type>::Inner;

    static Value get(const void* record)
    {
        const auto& member = static_cast<const Record*>(record)->*Member;
        if constexpr (IsOptional<Type>::value) {
            if (!member) return std::monostate{};
            return numberOf<Inner>(*member);
        } else if constexpr (isText<Type>) {
            if (member.empty()) return std::monostate{};
            return std::string{member};
        } else return numberOf<Inner>(member);
    }
    static void setNumber(void* record, std::int64_t number)
    {
        if constexpr (isText<Inner>) throw DomainError{"a number where text is kept"};
        else static_cast<Record*>(record)->*Member = ofNumber<Inner>(number);
    }
    static void setText(void* record, std::string_view text)
    {
        if constexpr (isText<Type>) (static_cast<Record*>(record)->*Member).assign(text);
        else throw DomainError{"text where a number is kept"};
    }
    static void clear(void* record)
    {
        if constexpr (IsOptional<Type>::value) (static_cast<Record*>(record)->*Member).reset();
        else static_cast<Record*>(record)->*Member = Record{}.*Member;
    }
};

}

/// One field of a record kind, described once: SQL, CSV, trail, forms and headings are made from it.
struct Field {
    std::string_view name;     ///< snake_case, as files carry it
    std::string_view label;    ///< as forms and headings show it
    std::string_view unit;     ///< behind the field and in the heading: "ft²", "min"; may be empty
    std::string_view meaning;  ///< one line of help
    FieldType type = FieldType::text;
    bool required = false;
    bool nullable = true;      ///< false where the record has a value of its own to fall back on
    std::int64_t least = std::numeric_limits<std::int64_t>::min();  ///< of the number, in the type's unit; of the text, in bytes
    std::int64_t most = std::numeric_limits<std::int64_t>::max();
    RecordKind refersTo = noKind;
    std::string_view scope;    ///< a reference that is named within what another reference of the row points at
    std::span<const Choice> choices;

    Value (*get)(const void* record) = nullptr;
    void (*setNumber)(void* record, std::int64_t number) = nullptr;
    void (*setText)(void* record, std::string_view text) = nullptr;
    void (*clear)(void* record) = nullptr;

    bool isText() const { return type <= FieldType::points; }
    void set(void* record, const Value& value) const
    {
        if (const auto* number = std::get_if<std::int64_t>(&value)) setNumber(record, *number);
        else if (const auto* text = std::get_if<std::string>(&value)) setText(record, *text);
        else clear(record);
    }

    constexpr Field in(std::string_view unitText) const { auto f = *this; f.unit = unitText; return f; }
    constexpr Field within(std::int64_t low, std::int64_t high) const { auto f = *this; f.least = low; f.most = high; return f; }
    constexpr Field needed() const { auto f = *this; f.required = true; return f; }
    /// May be left blank although the record always has a value: it keeps its default.
    constexpr Field defaulted() const { auto f = *this; f.required = false; return f; }
    constexpr Field as(FieldType other) const { auto f = *this; f.type = other; if (other == FieldType::note) f.most = 20'000; return f; }
    constexpr Field scopedBy(std::string_view other) const { auto f = *this; f.scope = other; return f; }
};

/// Describes one member of a record: field<&Job::title>("title", "Title", "what the job is called").
template <auto Member>
consteval Field field(std::string_view name, std::string_view label, std::string_view meaning)
{
    using Access = detail::Access<Member>;
    constexpr bool optional = detail::IsOptional<typename Access::Type>::value;
    constexpr bool text = detail::isText<typename Access::Type>;
    Field f;
    f.name = name;
    f.label = label;
    f.meaning = meaning;
    f.type = detail::typeOf<typename Access::Inner>();
    f.nullable = optional || text;
    f.required = !optional && !text && f.type != FieldType::boolean;
    f.refersTo = detail::referredKind<typename Access::Inner>();
    if constexpr (std::is_enum_v<typename Access::Inner>) f.choices = choicesOf<typename Access::Inner>;
    if (f.type == FieldType::text) f.most = 400;
    if (f.type == FieldType::boolean) { f.least = 0; f.most = 1; }
    f.get = &Access::get;
    f.setNumber = &Access::setNumber;
    f.setText = &Access::setText;
    f.clear = &Access::clear;
    return f;
}

}
