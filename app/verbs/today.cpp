#include "verbs/verb.h"

#include "day/day_sheet.h"
#include "json_writer.h"
#include "record/field_text.h"
#include "text_table.h"

#include <ostream>

namespace strikeoff {

namespace {

void addItems(JsonWriter& json, const Book& book, const std::vector<DayItem>& items)
{
    json.beginArray();
    for (const auto& item : items) {
        json.beginObject().key("section").text(codeOf(item.section)).key("at").textOrNull(item.at ? item.at->text() : "");
        json.key("what").text(item.what).key("why").textOrNull(item.why).key("verb").textOrNull(item.verb).key("late").boolean(item.late);
        // One that calls for a record that is not there yet ("enter the tickets") names none.
        const bool named = item.id > 0;
        json.key("kind").textOrNull(named ? describe(item.kind).name : "").key("record").textOrNull(named ? keyText(book, item.kind, item.id) : "").end();
    }
    json.end();
}

std::string asJson(const Book& book, const DaySheet& sheet)
{
    JsonWriter json;
    json.beginObject().key("date").date(sheet.date).key("answer").text(sheet.answer).key("weather").textOrNull(sheet.weather).key("warnings").beginArray();
    for (const auto& warning : sheet.warnings) json.text(warning);
    json.end().key("items");
    addItems(json, book, sheet.items);
    json.key("tomorrow");
    addItems(json, book, sheet.tomorrow);
    json.end();
    return json.finished();
}

void addItem(TextTable& table, const DayItem& item)
{
    auto why = item.why;
    if (item.late) why = why.empty() ? "late" : "late: " + why;
    table.row({item.at ? item.at->shown() : "", item.what, why, item.verb});
}

TextTable blankTable()
{
    TextTable table;
    table.words("At").words("What").words("Why", 80).words("Do");
    return table;
}

std::string asText(const DaySheet& sheet)
{
    auto text = sheet.date.shownShort() + ", " + std::to_string(sheet.date.year()) + ". " + sheet.answer + '\n';
    if (!sheet.weather.empty()) text += sheet.weather + '\n';
    for (const auto& warning : sheet.warnings) text += "! " + warning + '\n';
    for (std::size_t section = 0; section < daySectionChoices.size(); ++section) {
        auto table = blankTable();
        for (const auto& item : sheet.items)
            if (static_cast<std::size_t>(item.section) == section) addItem(table, item);
        if (!table.empty()) text += '\n' + std::string{daySectionChoices[section].label} + '\n' + table.text(2);
    }
    if (!sheet.tomorrow.empty()) {
        auto table = blankTable();
        for (const auto& item : sheet.tomorrow) addItem(table, item);
        text += "\nTomorrow\n" + table.text(2);
    }
    return text;
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto day = arguments.date(surroundings.today);
    const auto store = openToRead(arguments.words[0]);
    const auto sheet = daySheet(store->book(), day);
    surroundings.out << (arguments.has("json") ? asJson(store->book(), sheet) : asText(sheet));
    return done;
}

}

const Verb todayVerb{"today", "BOOK", "the day sheet: what needs me today", {dateOption, jsonOption}, {}, run};

}
