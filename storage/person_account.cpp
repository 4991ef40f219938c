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

PersonAccount::Record recordOf(const Book& book, const PersonRow& place)
{
    const auto& kind = describe(place.kind);
    const auto row = *book.row(place.kind, place.id);
    PersonAccount::Record record{place.kind, keyText(book, place.kind, place.id), {}};
    for (std::size_t i = 0; i < kind.fields.size(); ++i) {
        auto words = valueText(book, kind.fields[i], row.values[i]);
        if (words.empty() || (kind.fields[i].type == FieldType::boolean && words == "no")) continue;
        record.fields.push_back({&kind.fields[i], std::move(words), fileText(book, kind, kind.fields[i], book.find(place.kind, place.id))});
    }
    return record;
}

void takeMentions(const Book& book, const PersonRow& place, const PersonWords& words, PersonAccount& account)
{
    const auto row = *book.row(place.kind, place.id);
    const auto& kind = describe(place.kind);
    for (std::size_t i = 0; i < kind.fields.size(); ++i)
        if (sweptElsewhere(words, place.kind, kind.fields[i], row.values[i]) != row.values[i])
            account.mentions.push_back({place.kind, keyText(book, place.kind, place.id), &kind.fields[i], std::get<std::string>(row.values[i])});
}

void takeChanges(const Store& store, const PersonRow& place, PersonAccount& account)
{
    const auto& book = store.book();
    const auto& kind = describe(place.kind);
    for (const auto& change : store.trailOf(place.kind, place.id)) {
        if (!change.before || !change.after) continue;
        for (std::size_t i = 0; i < kind.fields.size(); ++i) {
            const auto& before = change.before->values[i];
            const auto& after = change.after->values[i];
            if (before != after) account.changes.push_back({change.entry, place.kind, keyText(book, place.kind, place.id), &kind.fields[i], valueText(book, kind.fields[i], before), valueText(book, kind.fields[i], after)});
        }
    }
}

}

std::optional<PersonAccount> accountOf(const Store& store, Person person)
{
    const auto& book = store.book();
    const auto rows = rowsOf(store, person);
    if (rows.empty()) return std::nullopt;
    PersonAccount account{keyText(book, person.kind, person.id), book.settings().outfitName, {}, {}, {}};
    for (const auto& place : rows) {
        if (!tellsOf(person, place.kind)) continue;
        account.records.push_back(recordOf(book, place));
        takeChanges(store, place, account);
    }
    const auto words = wordsOf(store, rows);
    for (const auto& place : mentions(book, rows, words)) takeMentions(book, place, words, account);
    return account;
}

std::string personAccount(const Store& store, Person person)
{
    const auto account = accountOf(store, person);
    if (!account) return {};
    auto text = "What this book holds about " + account->name + "\n";
    if (!account->keptBy.empty()) text += "Kept by " + account->keptBy + "\n";
    std::optional<RecordKind> last;
    for (const auto& record : account->records) {
        const auto& kind = describe(record.kind);
        if (last != record.kind) text += '\n' + std::string{kind.plural} + "\n\n";
        last = record.kind;
        text += std::string{kind.label} + ' ' + record.key + '\n';
        for (const auto& field : record.fields) {
            text += "    " + std::string{field.field->label} + ": ";
            for (const char c : field.words) text += c == '\n' ? std::string{"\n        "} : std::string{c};
            text += '\n';
        }
    }
    if (!account->mentions.empty()) text += "\nNamed elsewhere\n\n";
    for (const auto& mention : account->mentions)
        text += "    " + std::string{describe(mention.kind).label} + ' ' + mention.key + ", " + std::string{mention.field->label} + ": " + mention.text + '\n';
    if (!account->changes.empty()) text += "\nWhat was changed\n\n";
    for (const auto& change : account->changes) {
        const auto shown = [](const std::string& words) { return words.empty() ? std::string{"not recorded"} : words; };
        text += "    " + change.entry.at.substr(0, 10) + ' ' + change.entry.desk + ": " + std::string{describe(change.kind).label} + ' ' + change.key + ", " + std::string{change.field->label} + ": "
              + shown(change.before) + " \u2192 " + shown(change.after) + '\n';
    }
    return text;
}

std::string blottingTitle(Person person)
{
    auto noun = std::string{describe(person.kind).label};
    noun.front() = static_cast<char>(noun.front() | 0x20);
    return "Blot out " + noun + ' ' + std::to_string(person.id);
}

std::optional<Person> blottedPerson(const TrailEntry& entry)
{
    if (entry.how != "blot") return std::nullopt;
    const auto title = std::string_view{entry.title}.substr(0, entry.title.find(';'));
    const auto digits = title.substr(std::min(title.size(), title.rfind(' ') + 1));
    Person person;
    if (std::from_chars(digits.data(), digits.data() + digits.size(), person.id).ec != std::errc{}) return std::nullopt;
    for (const auto kind : {RecordKind::customer, RecordKind::crewMember}) {
        person.kind = kind;
        if (blottingTitle(person) == title) return person;
    }
    return std::nullopt;
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
