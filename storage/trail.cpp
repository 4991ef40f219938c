#include "trail.h"

#include "chain.h"
#include "record/field_text.h"
#include "shelf_io.h"

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

QJsonDocument readTrailText(const std::string& text)
{
    auto json = QByteArray::fromStdString(text);
    json.replace("\xEF\xBB\xBF", "\\ufeff");  // read as it is, a mark at the beginning of a text would be taken for the file's and left out
    return QJsonDocument::fromJson(json);
}

/// A value as the trail keeps it.
Value storedIn(const QJsonValue& value)
{
    if (value.isString()) return value.toString().toStdString();
    if (value.isDouble()) return static_cast<std::int64_t>(value.toInteger());
    return {};
}

RecordKind kindCalled(std::string_view name)
{
    const auto* kind = findKind(name);
    if (!kind) throw StorageError{"the trail names a kind of record that does not exist: " + std::string{name}};
    return kind->kind;
}

KeptChange readChange(const FastStatement& statement)
{
    const auto text = [&](int column) { return statement.isNull(column) ? std::nullopt : std::optional{std::string{statement.text(column)}}; };
    return {statement.number(0), kindCalled(statement.text(1)), statement.number(2), statement.number(3), text(4), text(5)};
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
    const auto document = readTrailText(text);
    if (!document.isObject()) return false;
    const auto object = document.object();
    const auto& kind = describe(row.kind);
    for (auto at = object.begin(); at != object.end(); ++at) {
        const auto* field = findField(kind, at.key().toStdString());
        if (!field) continue;  // a field of an older schema
        const auto value = fromStoredForm(*field, storedIn(at.value()));
        if (!value) return false;
        row.values[static_cast<std::size_t>(field - kind.fields.data())] = *value;
    }
    return true;
}

std::string rewrittenTrail(RecordKind kind, const std::string& text, const std::function<Value(const Field&, const Value&)>& each)
{
    const auto object = readTrailText(text).object();
    std::string json = "{";
    bool changed = false;
    for (const auto& field : describe(kind).fields) {
        const auto at = object.constFind(QString::fromUtf8(field.name.data(), static_cast<qsizetype>(field.name.size())));
        if (at == object.constEnd()) continue;
        const auto value = fromStoredForm(field, storedIn(*at));
        if (!value) throw StorageError{"the trail holds a value of " + std::string{field.name} + " that is none; go back to a copy"};
        const auto now = each(field, *value);
        changed = changed || now != *value;
        if (isRecorded(*value) && !isRecorded(now)) continue;
        if (json.size() > 1) json += ',';
        json += '"';
        json += field.name;
        json += "\":";
        appendValue(json, field, now);
    }
    return changed ? json + '}' : text;
}

std::vector<std::string> fieldsIn(const std::string& text)
{
    std::vector<std::string> names;
    for (const auto& key : readTrailText(text).object().keys()) names.push_back(key.toStdString());
    return names;
}

namespace {

/// Fewer rows than this are kept one by one.
constexpr std::size_t shortestRun = 200;

/// Where a run of added rows of one kind with rising ids ends that begins at a place.
std::size_t endOfRun(const std::vector<Applied>& applied, std::size_t begin)
{
    auto end = begin;
    while (end < applied.size() && !applied[end].before && applied[end].after->revision == 1
           && applied[end].after->kind == applied[begin].after->kind
           && applied[end].after->id == applied[begin].after->id + static_cast<std::int64_t>(end - begin))
        ++end;
    return end;
}

std::vector<KeptChange> singleChangesOfRow(Database& database, RecordKind kind, std::int64_t row)
{
    FastStatement select{database, std::string{changeColumns} + "WHERE kind = ? AND row = ? ORDER BY edit, place"};
    select.bind(1, describe(kind).name);
    select.bind(2, row);
    std::vector<KeptChange> changes;
    while (select.step()) changes.push_back(readChange(select));
    return changes;
}

/// A row that an edit added in a run, with the values it had then: those of its removal, or of now, less every change in between.
KeptChange addedInRun(Database& database, std::int64_t edit, RecordKind kind, std::int64_t row)
{
    auto later = singleChangesOfRow(database, kind, row);
    std::erase_if(later, [&](const KeptChange& change) { return change.edit <= edit; });
    const auto removal = std::find_if(later.begin(), later.end(), [](const KeptChange& change) { return !change.after; });
    std::optional<Row> state;
    bool whole = true;
    if (removal != later.end()) {
        state = blankRow(kind);
        whole = overlay(*state, removal->before.value_or(""));
    } else {
        state = readRow(database, kind, row);
    }
    for (auto change = std::make_reverse_iterator(removal); state && change != later.rend(); ++change)
        whole = whole && overlay(*state, change->before.value_or(""));
    if (!state || !whole) throw StorageError{"the trail of " + database.path() + " is damaged; go back to a copy"};
    return {edit, kind, row, 0, std::nullopt, trailText(*state)};
}

}

std::vector<AddedRun> runsAfter(Database& database, std::int64_t edit)
{
    FastStatement select{database, "SELECT edit, place, kind, first, last FROM edit_run WHERE edit > ? ORDER BY edit, place"};
    select.bind(1, edit);
    std::vector<AddedRun> runs;
    while (select.step())
        runs.push_back({select.number(0), select.number(1), kindCalled(select.text(2)), select.number(3), select.number(4)});
    return runs;
}

std::string writeTrail(Database& database, const TrailHeading& heading, const std::vector<Applied>& applied, const std::string& previousLink)
{
    // Told first, as the entry that carries the link is written before what refers to it.
    struct Part {
        std::size_t begin = 0, end = 0;  ///< more than one: a run
        std::int64_t revision = 0;
        std::optional<std::string> before, after;
    };
    std::vector<Part> parts;
    ChainLink link{previousLink, heading};
    const auto placeOf = [](std::size_t i) { return static_cast<std::int64_t>(i + 1); };
    for (std::size_t i = 0; i < applied.size();) {
        const auto end = endOfRun(applied, i);
        if (end >= i + shortestRun) {
            RunDigest digest{applied[i].kind()};
            for (auto row = i; row < end; ++row) digest.add(*applied[row].after);
            link.addRun(placeOf(i), applied[i].kind(), applied[i].after->id, applied[end - 1].after->id, digest.digits());
            parts.push_back({i, end, 0, std::nullopt, std::nullopt});
            i = end;
            continue;
        }
        do {
            const auto* before = applied[i].before ? &*applied[i].before : nullptr;
            const auto* after = applied[i].after ? &*applied[i].after : nullptr;
            Part part{i, i + 1, before ? before->revision : 0, std::nullopt, std::nullopt};
            if (before) part.before = trailText(*before, after);
            if (after) part.after = trailText(*after, before);
            link.addChange(placeOf(i), applied[i].kind(), (after ? after : before)->id, part.revision, part.before, part.after);
            parts.push_back(std::move(part));
        } while (++i < end);
    }
    auto digits = link.digits();

    FastStatement entry{database, "INSERT INTO edit (id, at, desk, title, how, of_edit, chain) VALUES (?, ?, ?, ?, ?, ?, ?)"};
    entry.bind(1, heading.edit);
    entry.bind(2, std::string_view{heading.at});
    entry.bind(3, std::string_view{heading.desk});
    entry.bind(4, std::string_view{heading.title});
    entry.bind(5, std::string_view{heading.how});
    entry.bind(6, heading.ofEdit ? Value{*heading.ofEdit} : Value{});
    entry.bind(7, std::string_view{digits});
    entry.run();
    FastStatement single{database, "INSERT INTO edit_change (edit, place, kind, row, revision, before, after) VALUES (?, ?, ?, ?, ?, ?, ?)"};
    for (const auto& part : parts) {
        const auto& first = applied[part.begin];
        const auto& row = first.after ? *first.after : *first.before;
        if (!part.before && !part.after) {
            FastStatement run{database, "INSERT INTO edit_run (edit, place, kind, first, last) VALUES (?, ?, ?, ?, ?)"};
            run.bind(1, heading.edit);
            run.bind(2, placeOf(part.begin));
            run.bind(3, describe(row.kind).name);
            run.bind(4, row.id);
            run.bind(5, applied[part.end - 1].after->id);
            run.run();
            continue;
        }
        single.bind(1, heading.edit);
        single.bind(2, placeOf(part.begin));
        single.bind(3, describe(row.kind).name);
        single.bind(4, row.id);
        single.bind(5, part.revision);
        single.bind(6, part.before ? Value{*part.before} : Value{});
        single.bind(7, part.after ? Value{*part.after} : Value{});
        single.run();
    }
    return digits;
}

std::vector<KeptChange> changesOfEdit(Database& database, std::int64_t edit, RunValues values)
{
    std::vector<std::pair<std::int64_t, KeptChange>> placed;
    {
        FastStatement select{database, "SELECT edit, kind, row, revision, before, after, place FROM edit_change WHERE edit = ?"};
        select.bind(1, edit);
        while (select.step()) placed.emplace_back(select.number(6), readChange(select));
    }
    for (const auto& run : runsAfter(database, edit - 1))
        for (auto row = run.first; row <= run.last; ++row)
            if (run.edit == edit)
                placed.emplace_back(run.place + row - run.first,
                                    values == RunValues::wanted ? addedInRun(database, edit, run.kind, row)
                                                                : KeptChange{edit, run.kind, row, 0, std::nullopt, "{}"});
    std::sort(placed.begin(), placed.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<KeptChange> changes;
    changes.reserve(placed.size());
    for (auto& [place, change] : placed) changes.push_back(std::move(change));
    return changes;
}

std::vector<KeptChange> changesOfRow(Database& database, RecordKind kind, std::int64_t row)
{
    auto changes = singleChangesOfRow(database, kind, row);
    for (const auto& run : runsAfter(database, 0))
        if (run.kind == kind && run.first <= row && row <= run.last) changes.push_back(addedInRun(database, run.edit, kind, row));
    std::stable_sort(changes.begin(), changes.end(), [](const auto& a, const auto& b) { return a.edit < b.edit; });
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

std::string beginningOf(Database& database)
{
    const auto first = entryOf(database, 1);
    return first.id == 1 ? first.at + ' ' + first.desk : std::string{};
}

void UndoStacks::take(std::int64_t edit, const std::string& title, const std::string& how, std::int64_t ofEdit)
{
    const auto drop = [&](std::vector<Step>& steps) {
        const auto found = std::find_if(steps.rbegin(), steps.rend(), [&](const Step& step) { return step.edit == ofEdit; });
        if (found == steps.rend()) return;
        steps.erase(std::next(found).base());
    };
    if (edit == 1 && how == "do") return;  // what a book begins with, without which it is none
    if (how == "blot" || how == "restore") return;  // what came before a restore stands in the copy that was kept
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
    FastStatement select{database, "SELECT id, title, how, of_edit FROM (SELECT * FROM edit WHERE desk = ? ORDER BY id DESC LIMIT 1000) AS newest ORDER BY id"};
    select.bind(1, std::string_view{desk});
    UndoStacks stacks;
    while (select.step()) stacks.take(select.number(0), std::string{select.text(1)}, std::string{select.text(2)}, select.number(3));
    return stacks;
}

}
