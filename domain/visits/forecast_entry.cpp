#include "visits/forecast_entry.h"

#include "quantity/letters.h"
#include "quantity/words.h"
#include "record/check.h"
#include "record/field_text.h"

#include <algorithm>

namespace strikeoff {

namespace {

std::span<const Field> weatherFields() { return describe(RecordKind::forecast).fields; }

/// A cell without what sheets and pages print beside a figure: quotes, per cent, degrees, mph.
std::string bare(std::string_view cell)
{
    auto text = std::string{trimmed(cell)};
    if (text.size() > 1 && text.front() == '"' && text.back() == '"') text = text.substr(1, text.size() - 2);
    for (const std::string_view unit : {"%", "\u00b0F", "\u00b0", "mph", "F"}) {
        const auto rest = std::string_view{trimmed(text)};
        if (rest.size() > unit.size() && rest.ends_with(unit)) {
            const auto before = trimmed(rest.substr(0, rest.size() - unit.size()));
            if (!before.empty() && isDigit(before.back())) text = std::string{before};
        }
    }
    return std::string{trimmed(text)};
}

std::vector<std::string> cellsOf(std::string_view line)
{
    char between = ' ';
    for (const char one : {'\t', ';', ','})
        if (line.find(one) != std::string_view::npos) {
            between = one;
            break;
        }
    std::vector<std::string> cells;
    while (true) {
        const auto end = line.find(between);
        const auto cell = bare(line.substr(0, end));
        if (between != ' ' || !cell.empty()) cells.push_back(cell);  // blanks in a row part once
        if (end == std::string_view::npos) return cells;
        line.remove_prefix(end + 1);
    }
}

/// The field a heading names: by its name, or by its label; nothing for other words.
const Field* fieldNamed(std::string_view heading)
{
    std::string plain;
    for (const char c : heading) plain += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c == ' ' || c == '-' ? '_' : c;
    for (const auto& field : weatherFields()) {
        std::string label{field.label};
        std::transform(label.begin(), label.end(), label.begin(), [](char c) { return c == ' ' ? '_' : lowered(c); });
        if (plain == field.name || plain == label) return &field;
    }
    return nullptr;
}

}

const DayForecast* forecastOn(const Book& book, Date day)
{
    const Value key{day.days()};
    const auto found = book.withKey(RecordKind::forecast, std::span{&key, 1});
    return found.empty() ? nullptr : book.find(Id<DayForecast>{found.front()});
}

std::vector<TypedRow> forecastRows(const Book& book, Date from, int days)
{
    const auto& kind = describe(RecordKind::forecast);
    std::vector<TypedRow> rows;
    for (int i = 0; i < days; ++i) {
        const auto day = daysOn(from, i);
        if (!day) break;
        auto& row = rows.emplace_back();
        row["date"] = day->text();
        const auto* forecast = forecastOn(book, *day);
        if (!forecast) continue;
        for (const auto& field : weatherFields())
            if (auto text = field.name == "date" ? std::string{} : fileText(book, kind, field, forecast); !text.empty()) row[std::string{field.name}] = text;
    }
    return rows;
}

std::string ForecastReading::says() const
{
    std::string text;
    const auto& kind = describe(RecordKind::forecast);
    for (const auto& fault : faults) {
        if (!text.empty()) text += "  ";
        const auto* field = findField(kind, fault.field);
        text += (field ? std::string{field->label} + ": " : std::string{}) + fault.message + '.';
    }
    return text;
}

ForecastReading readForecast(const TypedRow& typed, Date today)
{
    ForecastReading reading;
    auto row = blankRow(RecordKind::forecast);
    const auto& kind = describe(RecordKind::forecast);
    const auto fault = [&](std::string_view field, std::string message) {
        if (std::none_of(reading.faults.begin(), reading.faults.end(), [&](const auto& one) { return one.field == field; }))
            reading.faults.push_back({std::string{field}, std::move(message)});
    };
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        const auto& field = kind.fields[i];
        const auto text = trimmed(typedText(typed, field.name));
        if (text.empty()) {
            if (field.required) fault(field.name, "write the day");
            continue;
        }
        if (field.name != "date") reading.blank = false;
        auto read = readTyped(field, text, today);
        if (!read.ok()) fault(field.name, std::move(read.fault));
        else row.values[i] = std::move(read.value);
    }
    for (auto& problem : checkFields(row)) fault(problem.field, std::move(problem.message));
    for (const auto& one : reading.faults) row.set(one.field, one.field == "date" ? Value{today.days()} : Value{});
    reading.forecast = recordOf<DayForecast>(row);
    const auto& forecast = reading.forecast;
    if (forecast.lowF && forecast.highF && *forecast.highF < *forecast.lowF) fault("high_f", "the high is below the low; correct one of them");
    return reading;
}

std::string forecastAnswer(std::span<const ForecastReading> days, Date today)
{
    if (days.empty()) return {};
    std::int64_t known = 0;
    std::int64_t faulty = 0;
    std::optional<Date> unknown;
    for (const auto& day : days) {
        if (!day.faults.empty()) ++faulty;
        if (!day.blank) ++known;
        else if (!unknown) unknown = day.forecast.date;
    }
    const auto all = static_cast<std::int64_t>(days.size());
    auto text = known == 0 ? "None of " + inWords(all) + " days has a forecast" : known == all ? "All " + inWords(all) + " days have a forecast"
                             : capitalized(inWords(known)) + " of " + inWords(all) + " days " + (known == 1 ? "has" : "have") + " a forecast";
    if (unknown) text += "; the weather of " + dayText(*unknown, today) + (known + 1 == all ? " is unknown" : " and others is unknown");
    if (faulty > 0) text += "; " + counted(faulty, "day is", "days are") + " not right yet";
    return text + '.';
}

Edit forecastEdit(const Book& book, std::span<const ForecastReading> days)
{
    Edit edit{"Enter the forecast"};
    for (const auto& day : days) {
        const auto* kept = forecastOn(book, day.forecast.date);
        if (day.blank) {
            if (kept) edit.remove(*kept);
            continue;
        }
        auto row = rowOf(day.forecast);
        if (!kept) {
            edit.add(std::move(row));
            continue;
        }
        row.id = kept->id.value();
        row.revision = kept->revision;
        if (row.values != rowOf(*kept).values) edit.change(std::move(row));
    }
    return edit;
}

PastedForecast pasteForecast(std::vector<TypedRow>& rows, std::string_view text, std::size_t row, std::string_view field, Date today)
{
    PastedForecast pasted;
    const auto fields = weatherFields();
    std::vector<const Field*> order;
    for (const auto& one : fields)
        if (!order.empty() || one.name == field) order.push_back(&one);
    bool headed = false;
    int beyond = 0, unread = 0;
    while (!text.empty()) {
        const auto end = text.find('\n');
        const auto line = trimmed(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        if (line.empty()) continue;
        const auto cells = cellsOf(line);
        if (!headed && pasted.taken == 0 && cells.size() > 1 && std::count_if(cells.begin(), cells.end(), [](const auto& cell) { return fieldNamed(cell); }) > 1) {
            order.clear();
            for (const auto& cell : cells) order.push_back(fieldNamed(cell));
            headed = true;
            continue;
        }
        // The day a line is for: from its own date, by the heading or in front.
        auto columns = order;
        std::optional<Date> day;
        for (std::size_t i = 0; i < cells.size() && i < columns.size(); ++i)
            if (columns[i] && columns[i]->name == "date") day = Date::read(cells[i], today);
        if (!day && !headed && cells.size() > 1 && cells.front().find_first_of("-/") != std::string::npos) {
            day = Date::read(cells.front(), today);
            if (day) {
                columns.clear();
                for (const auto& one : fields) columns.push_back(&one);
            }
        }
        auto target = row;
        if (day) {
            const auto found = std::find_if(rows.begin(), rows.end(), [&](const TypedRow& one) { return typedText(one, "date") == day->text(); });
            target = static_cast<std::size_t>(found - rows.begin());
        } else if (headed && std::any_of(columns.begin(), columns.end(), [](const auto* one) { return one && one->name == "date"; })) {
            ++unread;
            continue;
        }
        if (target >= rows.size()) {
            ++beyond;
            continue;
        }
        for (std::size_t i = 0; i < cells.size() && i < columns.size(); ++i)
            if (columns[i] && columns[i]->name != "date") rows[target][std::string{columns[i]->name}] = cells[i];
        ++pasted.taken;
        if (!day) ++row;
    }
    if (beyond > 0) pasted.remark = counted(beyond, "line is", "lines are") + " outside the days shown and left out";
    if (unread > 0) pasted.remark += (pasted.remark.empty() ? "" : "; ") + counted(unread, "line has", "lines have") + " a date that cannot be read (write 2026-11-25)";
    if (headed && pasted.taken == 0 && pasted.remark.empty()) pasted.remark = "only headings were copied; copy the days below them too";
    if (!pasted.remark.empty()) pasted.remark = capitalized(pasted.remark) + '.';
    return pasted;
}

}
