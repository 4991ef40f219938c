#include "verbs/verb.h"

#include "json_writer.h"
#include "text_table.h"

#include <algorithm>
#include <ostream>

namespace strikeoff {

namespace {

std::string_view typeName(FieldType type)
{
    switch (type) {
    case FieldType::text: return "text";
    case FieldType::note: return "text_lines";
    case FieldType::options: return "options";
    case FieldType::points: return "points";
    case FieldType::integer: return "whole";
    case FieldType::boolean: return "yes_no";
    case FieldType::choice: return "choice";
    case FieldType::date: return "date";
    case FieldType::clockTime: return "time";
    case FieldType::monthDay: return "month_day";
    case FieldType::money: return "money";
    case FieldType::unitPrice: return "price";
    case FieldType::yards: return "yards";
    case FieldType::quantity: return "quantity";
    case FieldType::area: return "area";
    case FieldType::rate: return "percent";
    case FieldType::degrees: return "degrees";
    case FieldType::minutes: return "minutes";
    case FieldType::tapeLength: return "length";
    case FieldType::reference: return "reference";
    }
    return "";
}

/// How the type is written in a file.
std::string_view howToWrite(FieldType type)
{
    switch (type) {
    case FieldType::text: return "one line";
    case FieldType::note: return "several lines, in quotes";
    case FieldType::options: return "code=amount pairs: ACC=1;FIBER=1.5";
    case FieldType::points: return "corner points in feet: 0 0; 12 0; 12 8.5";
    case FieldType::integer:
    case FieldType::minutes: return "a whole number";
    case FieldType::boolean: return "yes or no";
    case FieldType::choice: return "one of the words listed";
    case FieldType::date: return "YYYY-MM-DD";
    case FieldType::clockTime: return "HH:MM, 24 hours";
    case FieldType::monthDay: return "MM-DD";
    case FieldType::money: return "dollars: 1234.50";
    case FieldType::unitPrice:
    case FieldType::rate: return "up to 4 decimals: 12.3456";
    case FieldType::yards:
    case FieldType::quantity: return "up to 3 decimals: 9.375";
    case FieldType::area: return "up to 2 decimals: 412.25";
    case FieldType::degrees: return "up to 6 decimals";
    case FieldType::tapeLength: return "feet and inches: 12' 6-1/2\"";
    case FieldType::reference: return "the name or number of one in the book";
    }
    return "";
}

bool isKey(const KindDescription& kind, const Field& field)
{
    return std::find(kind.key.begin(), kind.key.end(), field.name) != kind.key.end();
}

std::string meaningOf(const Field& field)
{
    std::string meaning{field.meaning.empty() ? field.label : field.meaning};
    if (field.type == FieldType::choice) {
        meaning += ": ";
        for (const auto& choice : field.choices) {
            if (&choice != &field.choices.front()) meaning += ", ";
            meaning += choice.code;
        }
    }
    return meaning;
}

void listKinds(const Arguments& arguments, std::ostream& out)
{
    if (arguments.has("json")) {
        JsonWriter json;
        json.beginObject().key("kinds").beginArray();
        for (const auto& kind : allKinds())
            json.beginObject().text("kind", kind.name).text("label", kind.label).text("meaning", kind.meaning).end();
        json.end().end();
        out << json.finished();
        return;
    }
    TextTable table;
    table.words("Kind").words("What it is", 100);
    for (const auto& kind : allKinds()) table.row({std::string{kind.name}, std::string{kind.meaning}});
    out << "A book keeps " << allKinds().size()
        << " kinds of record, in the order in which they can be loaded; `strikeoff kinds KIND` lists the columns of one.\n\n"
        << table.text();
}

void listColumns(const KindDescription& kind, const Arguments& arguments, std::ostream& out)
{
    if (arguments.has("json")) {
        JsonWriter json;
        json.beginObject().text("kind", kind.name).text("label", kind.label).text("meaning", kind.meaning).key("key").beginArray();
        for (const auto name : kind.key) json.text(name);
        json.end().key("columns").beginArray();
        for (const auto& field : kind.fields) {
            json.beginObject().text("name", field.name).text("type", typeName(field.type)).boolean("required", field.required);
            json.textOrNull("unit", field.unit).textOrNull("meaning", field.meaning).key("refers_to");
            if (field.type == FieldType::reference) json.text(describe(field.refersTo).name);
            else json.null();
            json.key("choices").beginArray();
            for (const auto& choice : field.choices) json.text(choice.code);
            json.end().end();
        }
        json.end().end();
        out << json.finished();
        return;
    }
    TextTable table;
    table.words("Column").words("Type").words("Unit").words("Required").words("Meaning", 400);
    for (const auto& field : kind.fields) {
        auto type = std::string{field.type == FieldType::reference ? describe(field.refersTo).name : typeName(field.type)};
        table.row({std::string{field.name} + (isKey(kind, field) ? " *" : ""), std::move(type), std::string{field.unit},
                   field.required ? "yes" : "", meaningOf(field)});
    }
    out << kind.name << ": " << kind.meaning << ".\n\n" << table.text() << '\n';
    if (!kind.key.empty()) out << "* names the row: a row of a file with the same updates it.\n";
    TextTable types;
    types.words("Type").words("Written as");
    std::vector<FieldType> shown;
    for (const auto& field : kind.fields) {
        if (std::find(shown.begin(), shown.end(), field.type) != shown.end()) continue;
        shown.push_back(field.type);
        types.row({std::string{field.type == FieldType::reference ? "(a kind)" : typeName(field.type)},
                   std::string{howToWrite(field.type)}});
    }
    out << '\n' << types.text();
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    if (arguments.words.empty()) listKinds(arguments, surroundings.out);
    else listColumns(kindNamed(arguments.words[0]), arguments, surroundings.out);
    return done;
}

}

const Verb kindsVerb{"kinds", "[KIND]", "the record kinds, or the columns of one: name, type, required, meaning",
                     {jsonOption}, {}, run};

}
