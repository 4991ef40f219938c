#include "verbs/verb.h"

#include "day/day_sheet.h"
#include "json_writer.h"
#include "record/field_text.h"
#include "text_table.h"

#include <algorithm>
#include <limits>
#include <ostream>

namespace strikeoff {

namespace {

void addItems(JsonWriter& json, const Book& book, const std::vector<DayItem>& items)
{
    json.beginArray();
    for (const auto& item : items) {
        json.beginObject().text("section", codeOf(item.section)).textOrNull("at", item.at ? item.at->text() : "");
        json.text("what", item.what).textOrNull("why", item.why).textOrNull("verb", item.verb).boolean("late", item.late);
        // One that calls for a record that is not there yet ("enter the tickets") names none.
        const bool named = item.id > 0;
        json.textOrNull("kind", named ? describe(item.kind).name : "")
            .textOrNull("record", named ? keyText(book, item.kind, item.id) : "")
            .end();
    }
    json.end();
}

std::string asJson(const Book& book, const DaySheet& sheet)
{
    JsonWriter json;
    json.beginObject()
        .date("date", sheet.date)
        .text("answer", sheet.answer)
        .textOrNull("weather", sheet.weather)
        .key("warnings")
        .beginArray();
    for (const auto& warning : sheet.warnings) json.text(warning);
    json.end().key("items");
    addItems(json, book, sheet.items);
    json.key("tomorrow");
    addItems(json, book, sheet.tomorrow);
    json.key("load_out").beginArray();
    for (const auto& item : sheet.loadOut.items) {
        json.beginObject().text("item", item.item);
        json.decimal("amount", item.amount ? std::optional{item.amount->toDouble()} : std::nullopt, 3).textOrNull("unit", item.amount ? item.unit : "").textOrNull("why", item.why).end();
    }
    json.end();
    json.end();
    return json.finished();
}

/// Items as a table, led by their times where any has one. Nothing is cut: a reason may end in a caution, and what to do in a
/// phone number.
std::string tableOf(const std::vector<const DayItem*>& items)
{
    const bool timed = std::any_of(items.begin(), items.end(), [](const auto* item) { return item->at.has_value(); });
    constexpr auto uncut = std::numeric_limits<std::size_t>::max();
    TextTable table;
    if (timed) table.words("At");
    table.words("What", uncut).words("Do").words("Why", uncut);
    for (const auto* item : items) {
        auto why = item->why;
        if (item->late) why = why.empty() ? "late" : "late: " + why;
        std::vector<std::string> cells;
        if (timed) cells.push_back(item->at ? item->at->shown() : "");
        cells.insert(cells.end(), {item->what, item->verb, why});
        table.row(std::move(cells));
    }
    return table.text(2);
}

std::string asText(const DaySheet& sheet)
{
    auto text = sheet.date.shownShort() + ", " + std::to_string(sheet.date.year()) + ". " + sheet.answer + '\n';
    if (!sheet.weather.empty()) text += sheet.weather + '\n';
    for (const auto& warning : sheet.warnings) text += "! " + warning + '\n';
    for (std::size_t section = 0; section < daySectionChoices.size(); ++section) {
        std::vector<const DayItem*> items;
        for (const auto& item : sheet.items)
            if (static_cast<std::size_t>(item.section) == section) items.push_back(&item);
        if (!items.empty()) text += '\n' + std::string{daySectionChoices[section].label} + '\n' + tableOf(items);
        if (static_cast<DaySection>(section) != DaySection::loadOut) continue;
        for (const auto& item : sheet.loadOut.items) text += "  [ ] " + item.text() + '\n';
        for (const auto& caution : sheet.loadOut.cautions) text += "  ! " + caution + '\n';
    }
    std::vector<const DayItem*> tomorrow;
    for (const auto& item : sheet.tomorrow) tomorrow.push_back(&item);
    if (!tomorrow.empty()) text += "\nTomorrow\n" + tableOf(tomorrow);
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
