#include "person_account.h"

#include "quantity/words.h"
#include "record/field_text.h"

#include <algorithm>
#include <charconv>
#include <map>

namespace strikeoff {

namespace {

/// The words the person goes by now, and went by.
PersonWords wordsOf(const Store& store, const std::vector<PersonRow>& rows)
{
    PersonWords words;
    const auto take = [&](const Row& row) {
        const auto fields = describe(row.kind).fields;
        for (std::size_t i = 0; i < fields.size(); ++i)
            if (const auto* text = std::get_if<std::string>(&row.values[i])) words.take(row.kind, fields[i].name, *text);
    };
    for (const auto& [kind, id] : rows) {
        take(*store.book().row(kind, id));
        if (!PersonWords::takesFrom(kind)) continue;
        for (const auto& change : store.trailOf(kind, id))
            if (change.before) take(*change.before);
    }
    return words;
}

std::vector<PersonRow> rowsOf(const Store& store, Person person)
{
    std::vector<std::string> names;
    for (const auto& change : store.trailOf(person.kind, person.id))
        for (const auto* row : {&change.before, &change.after})
            if (*row)
                if (const auto* name = std::get_if<std::string>(&(*row)->value("name"))) names.push_back(*name);
    return rowsAbout(store.book(), person, names);
}

std::string valueText(const Book& book, const Field& field, const Value& value)
{
    const auto* id = std::get_if<std::int64_t>(&value);
    if (field.type != FieldType::reference || !id) return shownWithUnit(field, value);
    return book.find(field.refersTo, *id) ? keyText(book, field.refersTo, *id) : "one that was removed";
}

/// The rows of a book in which free text names a person, without their own.
std::vector<PersonRow> mentions(const Book& book, const std::vector<PersonRow>& about, const PersonWords& words)
{
    std::vector<PersonRow> rows;
    for (const auto& kind : allKinds())
        for (std::size_t i = 0; i < book.count(kind.kind); ++i) {
            const PersonRow place{kind.kind, book.idAt(kind.kind, i)};
            if (std::binary_search(about.begin(), about.end(), place)) continue;
            const auto row = *book.row(place.kind, place.id);
            for (std::size_t f = 0; f < kind.fields.size(); ++f)
                if (sweptElsewhere(words, kind.kind, kind.fields[f], row.values[f]) != row.values[f]) {
                    rows.push_back(place);
                    break;
                }
        }
    return rows;
}

void tellRow(const Book& book, const PersonRow& place, std::string& text)
{
    const auto& kind = describe(place.kind);
    const auto row = *book.row(place.kind, place.id);
    text += std::string{kind.label} + ' ' + keyText(book, place.kind, place.id) + '\n';
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        const auto words = valueText(book, kind.fields[i], row.values[i]);
        if (words.empty() || (kind.fields[i].type == FieldType::boolean && words == "no")) continue;
        text += "    " + std::string{kind.fields[i].label} + ": ";
        for (const char c : words) text += c == '\n' ? std::string{"\n        "} : std::string{c};
        text += '\n';
    }
}

}

std::string personAccount(const Store& store, Person person)
{
    const auto& book = store.book();
    const auto rows = rowsOf(store, person);
    if (rows.empty()) return {};
    const auto words = wordsOf(store, rows);
    auto text = "What this book holds about " + keyText(book, person.kind, person.id) + "\n";
    if (!book.settings().outfitName.empty()) text += "Kept by " + book.settings().outfitName + "\n";
    std::optional<RecordKind> last;
    for (const auto& place : rows) {
        if (!tellsOf(person, place.kind)) continue;
        if (last != place.kind) text += '\n' + std::string{describe(place.kind).plural} + "\n\n";
        last = place.kind;
        tellRow(book, place, text);
    }
    const auto named = mentions(book, rows, words);
    if (!named.empty()) {
        text += "\nNamed elsewhere\n\n";
        for (const auto& [kind, id] : named) {
            const auto row = *book.row(kind, id);
            const auto& description = describe(kind);
            for (std::size_t i = 0; i < description.fields.size(); ++i)
                if (sweptElsewhere(words, kind, description.fields[i], row.values[i]) != row.values[i])
                    text += "    " + std::string{description.label} + ' ' + keyText(book, kind, id) + ", " + std::string{description.fields[i].label} + ": " + std::get<std::string>(row.values[i]) + '\n';
        }
    }
    std::string changes;
    for (const auto& [kind, id] : rows) {
        if (!tellsOf(person, kind)) continue;
        const auto& description = describe(kind);
        for (const auto& change : store.trailOf(kind, id)) {
            if (!change.before || !change.after) continue;
            for (std::size_t i = 0; i < description.fields.size(); ++i) {
                const auto& before = change.before->values[i];
                const auto& after = change.after->values[i];
                if (before == after) continue;
                const auto shown = [&](const Value& value) { return isRecorded(value) ? valueText(book, description.fields[i], value) : std::string{"not recorded"}; };
                changes += "    " + change.entry.at.substr(0, 10) + ' ' + change.entry.desk + ": " + std::string{description.label} + ' ' + keyText(book, kind, id) + ", " + std::string{description.fields[i].label}
                         + ": " + shown(before) + " \u2192 " + shown(after) + '\n';
            }
        }
    }
    if (!changes.empty()) text += "\nWhat was changed\n\n" + changes;
    return text;
}

std::string blottingWords(const Store& store, Person person)
{
    const auto& book = store.book();
    const auto rows = rowsOf(store, person);
    if (rows.empty()) return {};
    std::map<RecordKind, std::int64_t> counts;
    for (const auto& row : rows) ++counts[row.kind];
    std::vector<std::string> parts;
    std::int64_t others = 0;
    for (const auto& [kind, count] : counts) {
        const bool isTold = kind == person.kind || kind == RecordKind::site || kind == RecordKind::lead || kind == RecordKind::job || kind == RecordKind::quote || kind == RecordKind::invoice
                            || kind == RecordKind::payment || (person.kind == RecordKind::crewMember && kind == RecordKind::hours);
        if (!isTold) {
            others += count;
            continue;
        }
        auto one = std::string{describe(kind).label}, many = std::string{kind == RecordKind::crewMember ? "Crew members" : describe(kind).plural};
        if (kind == RecordKind::hours) one = many = "Entries of hours";
        one.front() = static_cast<char>(one.front() | 0x20);
        many.front() = static_cast<char>(many.front() | 0x20);
        parts.push_back(counted(count, one, many));
    }
    if (others > 0) parts.push_back(counted(others, "record under them", "records under them"));
    const auto named = mentions(book, rows, wordsOf(store, rows));
    if (!named.empty()) parts.push_back(counted(static_cast<std::int64_t>(named.size()), "other record that names them", "other records that name them"));
    return listed(parts);
}

std::optional<Person> findPerson(const Book& book, RecordKind kind, std::string_view words)
{
    const std::vector<Value> key{std::string{words}};
    if (const auto found = book.withKey(kind, key); !found.empty()) return Person{kind, found.front()};
    std::int64_t id = 0;
    const auto [end, error] = std::from_chars(words.data(), words.data() + words.size(), id);
    if (error == std::errc{} && end == words.data() + words.size() && book.find(kind, id)) return Person{kind, id};
    return std::nullopt;
}

}
