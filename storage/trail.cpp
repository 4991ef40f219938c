#include "trail.h"

#include "record/field_text.h"

#include <QJsonDocument>
#include <QJsonObject>

#include <algorithm>

namespace strikeoff {

namespace {

void appendString(std::string& json, std::string_view text)
{
    static constexpr std::string_view hex = "0123456789abcdef";
    json += '"';
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\') {
            json += '\\';
            json += c;
        } else if (c == '\n') {
            json += "\\n";
        } else if (byte < 0x20 || byte == 0x7F) {
            json += "\\u00";
            json += hex[byte >> 4];
            json += hex[byte & 15];
        } else {
            json += c;
        }
    }
    json += '"';
}

void appendValue(std::string& json, const Field& field, const Value& value)
{
    const auto stored = storedForm(field, value);
    if (const auto* number = std::get_if<std::int64_t>(&stored)) json += std::to_string(*number);
    else if (const auto* text = std::get_if<std::string>(&stored)) appendString(json, *text);
    else json += "null";
}

KeptChange readChange(const FastStatement& statement)
{
    const std::string name{statement.text(1)};
    const auto* kind = findKind(name);
    if (!kind) throw StorageError{"the trail names a kind of record that does not exist: " + name};
    const auto text = [&](int column) { return statement.isNull(column) ? std::nullopt : std::optional{std::string{statement.text(column)}}; };
    return {statement.number(0), kind->kind, statement.number(2), statement.number(3), text(4), text(5)};
}

constexpr auto changeColumns = "SELECT edit, kind, row, revision, before, after FROM edit_change ";

}

std::string trailText(const Row& row, const Row* other)
{
    const auto fields = describe(row.kind).fields;
    std::string json = "{";
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (other ? row.values[i] == other->values[i] : !isRecorded(row.values[i])) continue;
        if (json.size() > 1) json += ',';
        json += '"';
        json += fields[i].name;
        json += "\":";
        appendValue(json, fields[i], row.values[i]);
    }
    json += '}';
    return json;
}

bool overlay(Row& row, const std::string& text)
{
    const auto document = QJsonDocument::fromJson(QByteArray::fromStdString(text));
    if (!document.isObject()) return false;
    const auto object = document.object();
    const auto& kind = describe(row.kind);
    for (auto at = object.begin(); at != object.end(); ++at) {
        const auto* field = findField(kind, at.key().toStdString());
        if (!field) continue;  // a field of an older schema
        Value stored;
        if (at.value().isString()) stored = at.value().toString().toStdString();
        else if (at.value().isDouble()) stored = static_cast<std::int64_t>(at.value().toInteger());
        const auto value = fromStoredForm(*field, stored);
        if (!value) return false;
        row.values[static_cast<std::size_t>(field - kind.fields.data())] = *value;
    }
    return true;
}

std::vector<std::string> fieldsIn(const std::string& text)
{
    std::vector<std::string> names;
    for (const auto& key : QJsonDocument::fromJson(QByteArray::fromStdString(text)).object().keys()) names.push_back(key.toStdString());
    return names;
}

TrailWriter::TrailWriter(Database& database, std::int64_t edit, const std::string& at, const std::string& desk, const std::string& title,
                         const std::string& how, std::optional<std::int64_t> ofEdit)
    : insert_{database, "INSERT INTO edit_change (edit, place, kind, row, revision, before, after) VALUES (?, ?, ?, ?, ?, ?, ?)"}, edit_{edit}
{
    FastStatement entry{database, "INSERT INTO edit (id, at, desk, title, how, of_edit) VALUES (?, ?, ?, ?, ?, ?)"};
    entry.bind(1, edit);
    entry.bind(2, std::string_view{at});
    entry.bind(3, std::string_view{desk});
    entry.bind(4, std::string_view{title});
    entry.bind(5, std::string_view{how});
    entry.bind(6, ofEdit ? Value{*ofEdit} : Value{});
    entry.run();
}

void TrailWriter::add(const Applied& change)
{
    const auto& row = change.after ? *change.after : *change.before;
    const auto* before = change.before ? &*change.before : nullptr;
    const auto* after = change.after ? &*change.after : nullptr;
    insert_.bind(1, edit_);
    insert_.bind(2, ++place_);
    insert_.bind(3, describe(row.kind).name);
    insert_.bind(4, row.id);
    insert_.bind(5, before ? before->revision : std::int64_t{0});
    insert_.bind(6, before ? Value{trailText(*before, after)} : Value{});
    insert_.bind(7, after ? Value{trailText(*after, before)} : Value{});
    insert_.run();
}

std::vector<KeptChange> changesOfEdit(Database& database, std::int64_t edit)
{
    FastStatement select{database, std::string{changeColumns} + "WHERE edit = ? ORDER BY place"};
    select.bind(1, edit);
    std::vector<KeptChange> changes;
    while (select.step()) changes.push_back(readChange(select));
    return changes;
}

std::vector<KeptChange> changesOfRow(Database& database, RecordKind kind, std::int64_t row)
{
    FastStatement select{database, std::string{changeColumns} + "WHERE kind = ? AND row = ? ORDER BY edit, place"};
    select.bind(1, describe(kind).name);
    select.bind(2, row);
    std::vector<KeptChange> changes;
    while (select.step()) changes.push_back(readChange(select));
    return changes;
}

TrailEntry entryOf(Database& database, std::int64_t edit)
{
    FastStatement select{database, "SELECT id, at, desk, title, how FROM edit WHERE id = ?"};
    select.bind(1, edit);
    TrailEntry entry;
    while (select.step())
        entry = {select.number(0), std::string{select.text(1)}, std::string{select.text(2)}, std::string{select.text(3)}, std::string{select.text(4)}};
    return entry;
}

void UndoStacks::take(std::int64_t edit, const std::string& title, const std::string& how, std::int64_t ofEdit)
{
    const auto drop = [&](std::vector<Step>& steps) {
        const auto found = std::find_if(steps.rbegin(), steps.rend(), [&](const Step& step) { return step.edit == ofEdit; });
        if (found == steps.rend()) return;
        steps.erase(std::next(found).base());
    };
    if (how == "undo") {
        drop(undo);
        redo.push_back({ofEdit, title});
    } else if (how == "redo") {
        drop(redo);
        undo.push_back({ofEdit, title});
    } else {
        undo.push_back({edit, title});
        redo.clear();
    }
}

UndoStacks stacksOf(Database& database, const std::string& desk)
{
    // The newest thousand steps are as far back as anyone undoes; the trail keeps the rest.
    FastStatement select{database, "SELECT id, title, how, of_edit FROM (SELECT * FROM edit WHERE desk = ? ORDER BY id DESC LIMIT 1000) ORDER BY id"};
    select.bind(1, std::string_view{desk});
    UndoStacks stacks;
    while (select.step()) stacks.take(select.number(0), std::string{select.text(1)}, std::string{select.text(2)}, select.number(3));
    return stacks;
}

}
