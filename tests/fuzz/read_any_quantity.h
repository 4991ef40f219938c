#pragma once

#include "fuzz/promise.h"
#include "labor/hours_sheet.h"
#include "quantity/percent.h"
#include "quantity/words.h"
#include "record/check.h"
#include "record/field_text.h"

#include <set>

namespace strikeoff::fuzz {

namespace detail {

/// A field of each type and each list of choices, with a record to hold its value.
struct TypedField {
    const KindDescription* kind;
    std::size_t place;
    void* record;
    Row blank;
};

inline const std::vector<TypedField>& fieldsOfEachType()
{
    static Book book;
    static const auto fields = [] {
        std::vector<TypedField> found;
        std::set<std::pair<FieldType, const void*>> seen;
        for (const auto& kind : allKinds()) {
            void* record = nullptr;
            for (std::size_t i = 0; i < kind.fields.size(); ++i) {
                const auto& field = kind.fields[i];
                if (field.type == FieldType::reference || !seen.emplace(field.type, field.choices.data()).second) continue;
                if (!record) record = book.append(kind.kind, 1, 1);
                found.push_back({&kind, i, record, blankRow(kind.kind)});
            }
        }
        return found;
    }();
    return fields;
}

/// What a field takes for good is held as it is, and is read again from the form that files carry.
inline void keepAndReadAgain(const TypedField& typed, const Reading& reading)
{
    require(reading.ok() || !isRecorded(reading.value), "a value or what is wrong");
    if (!reading.ok() || !isRecorded(reading.value)) return;
    const auto& field = typed.kind->fields[typed.place];
    auto row = typed.blank;
    row.values[typed.place] = reading.value;
    for (const auto& problem : checkFields(row)) {
        require(!problem.message.empty(), "a problem is said");
        if (problem.field == field.name) return;
    }
    (void)shownValue(field, reading.value);
    field.set(typed.record, reading.value);
    require(field.get(typed.record) == reading.value, "a field holds what it is given");
    static const Book none;
    const auto again = readFileText(field, fileText(none, *typed.kind, field, typed.record));
    require(again.ok() && again.value == reading.value, "a value in a file is read as the same value");
    require(fromStoredForm(field, storedForm(field, reading.value)) == reading.value, "a value in a table is read as the same value");
    field.clear(typed.record);
}

}

/// Reads any bytes as every quantity that people type or files carry: figures, money, days, times, hours, per cents, stretches of a day.
inline void readAnyQuantity(std::string_view bytes)
{
    const auto today = Date::ofDays(20'000 + static_cast<std::int64_t>(choiceIn(bytes)) * 5);
    for (const auto& typed : detail::fieldsOfEachType()) {
        const auto& field = typed.kind->fields[typed.place];
        detail::keepAndReadAgain(typed, readTyped(field, bytes, today));
        detail::keepAndReadAgain(typed, readFileText(field, bytes));
    }
    for (const int scale : {0, 2, 3, 4, 6}) {
        const auto exact = parseDecimal(bytes, scale);
        if (exact) require(parseDecimal(formatDecimal(*exact, scale, scale / 2), scale) == exact, "a figure written is read as the same figure");
        const auto typed = readDecimal(bytes, scale);
        if (exact) require(typed == exact, "what files carry can be typed");
        if (typed) require(readDecimal(shownDecimal(*typed, scale, scale), scale) == typed, "a figure shown can be typed");
    }
    if (const auto date = Date::read(bytes, today)) {
        require(Date::parse(date->text()) == date && Date::read(date->text(), today) == date, "a day written is read as the same day");
        require(Date::read(date->shown(), today) == date, "a day shown can be typed");
        (void)dayText(*date, today);
    }
    if (const auto time = ClockTime::read(bytes)) {
        require(ClockTime::parse(time->text()) == time, "a time written is read as the same time");
        require(ClockTime::read(time->shown()) == time, "a time shown can be typed");
    }
    if (const auto day = MonthDay::parse(bytes)) require(MonthDay::parse(day->text()) == day, "a day of the year written is read as the same one");
    if (const auto minutes = Minutes::read(bytes)) require(Minutes::read(minutes->shown()) == minutes, "hours shown can be typed");
    if (const auto cell = readCell(bytes)) {
        const auto text = cellText(*cell);
        const auto again = readCell(text);
        require(again && again->start == cell->start && again->stop == cell->stop && again->minutes == cell->minutes, "a stretch of a day shown can be typed");
    }
    (void)readPhase(bytes);
    if (const auto rate = readDecimal(bytes, Rate::scale)) {
        const auto percent = Rate::ofUnits(*rate);
        (void)beforePercent(Money::ofCents(123'456), percent);
        (void)markupForMargin(percent);
        (void)marginForMarkup(percent);
        (void)percentPutOn(Money::ofCents(*rate), Money::ofCents(123'456));
    }
}

}
