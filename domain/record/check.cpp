#include "record/check.h"

#include "record/field_text.h"
#include "record/rules.h"
#include "record/utf8.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>

namespace strikeoff {

namespace {

/// The bound of a field in the words it is typed in.
std::string shownBound(const Field& field, std::int64_t bound)
{
    auto text = shownValue(field, Value{bound});
    if (!field.unit.empty() && field.type != FieldType::money) text += ' ' + std::string{field.unit};
    return text;
}

enum class TextFlaw { none, control, encoding };

/// What keeps a text from being kept: characters that steer instead of being printed (Unicode's class Cc; ends of lines and tabs only where there are several
/// lines), and bytes that are no UTF-8, which a server refuses and no other program reads.
TextFlaw flawOf(std::string_view text, bool severalLines)
{
    for (std::size_t i = 0; i < text.size();) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if (byte == 0x7F || (byte < 0x20 && !(severalLines && (byte == '\n' || byte == '\t' || byte == '\r')))) return TextFlaw::control;
        const auto length = byte < 0x80 ? 1 : utf8Length(text.substr(i));
        if (length == 0) return TextFlaw::encoding;
        if (byte == 0xC2 && static_cast<unsigned char>(text[i + 1]) < 0xA0) return TextFlaw::control;
        i += length;
    }
    return TextFlaw::none;
}

void checkField(const Field& field, const Value& value, std::size_t change, std::vector<Problem>& problems)
{
    const auto problem = [&](std::string message) { problems.push_back({change, std::string{field.name}, std::move(message)}); };
    const std::string label{field.label};
    const auto* blank = std::get_if<std::string>(&value);
    if (!isRecorded(value) || (blank && blank->empty())) {
        if (field.required) problem(label + " is missing; fill it in");
        return;
    }
    if (const auto* text = std::get_if<std::string>(&value)) {
        if (static_cast<std::int64_t>(text->size()) > field.most) problem(label + " is longer than " + std::to_string(field.most) + " characters; shorten it");
        const auto flaw = flawOf(*text, field.type == FieldType::note);
        if (flaw == TextFlaw::control) problem(label + " holds a line break or another character that cannot be printed; take it out");
        if (flaw == TextFlaw::encoding) problem(label + " holds bytes that are no text (UTF-8); type it again");
        if (field.type == FieldType::options || field.type == FieldType::points) {
            const auto reading = readFileText(field, *text);
            if (!reading.ok()) problem(label + ": " + reading.fault);
        }
        return;
    }
    const auto number = std::get<std::int64_t>(value);
    if (number < field.least) {
        problem(label + " is " + shownBound(field, number) + "; it must be " + (field.least == 0 ? "zero or more" : shownBound(field, field.least) + " or more"));
    } else if (number > field.most) {
        problem(label + " is " + shownBound(field, number) + "; it must be " + shownBound(field, field.most) + " or less");
    }
    if (field.type == FieldType::choice && (number < 0 || static_cast<std::size_t>(number) >= field.choices.size())) problem(label + " is none of the choices");
}

/// For each kind, the reference fields elsewhere that can point at it.
const std::vector<std::pair<RecordKind, std::size_t>>& referrersTo(RecordKind kind)
{
    static const auto table = [] {
        std::array<std::vector<std::pair<RecordKind, std::size_t>>, kindCount> made;
        for (const auto& description : allKinds())
            for (std::size_t i = 0; i < description.fields.size(); ++i)
                if (description.fields[i].type == FieldType::reference)
                    made[static_cast<std::size_t>(description.fields[i].refersTo)].emplace_back(description.kind, i);
        return made;
    }();
    return table[static_cast<std::size_t>(kind)];
}

std::string named(const Book& book, RecordKind kind, std::int64_t id)
{
    const auto& description = describe(kind);
    auto text = std::string{description.label};
    const auto key = keyText(book, kind, id);
    return key.empty() ? text : text + " " + key;
}

void checkReferences(const Book& book, const KindDescription& kind, const Row& row, std::size_t change, std::vector<Problem>& problems)
{
    for (const auto i : referenceFields(kind)) {
        const auto& field = kind.fields[i];
        const auto* target = std::get_if<std::int64_t>(&row.values[i]);
        if (!target) continue;
        const auto* record = book.find(field.refersTo, *target);
        if (!record) {
            problems.push_back({change, std::string{field.name}, std::string{field.label} + " points at a record that is not in the book; choose another"});
            continue;
        }
        if (field.scope.empty()) continue;
        const auto& owner = row.values[fieldIndex(kind, field.scope)];
        const auto& described = describe(field.refersTo);
        if (isRecorded(owner) && described.fields[fieldIndex(described, described.key.front())].get(record) != owner)
            problems.push_back({change, std::string{field.name}, std::string{field.label} + " belongs to another " + std::string{field.scope} + "; choose one of this " + std::string{field.scope}});
    }
}

void checkKey(const Book& book, const KindDescription& kind, const Row& row, std::size_t change, std::vector<Problem>& problems)
{
    if (kind.key.empty()) {
        if (book.count(kind.kind) > 1) problems.push_back({change, {}, "a book holds one row of settings; change that one"});
        return;
    }
    if (!book.isKeyShared(kind.kind, row.id)) return;
    std::string labels;
    for (const auto name : kind.key) {
        if (!labels.empty()) labels += ", ";
        labels += kind.fields[fieldIndex(kind, name)].label;
    }
    problems.push_back({change, std::string{kind.key.back() == "started_at" ? "phase" : kind.key.back()},
                        named(book, kind.kind, row.id) + " is already in the book; two rows cannot have the same " + labels + ": change that one, or give this one another"});
}

}

namespace {

/// A row as it is kept: blank text is not recorded, and a field that always has a value falls back on its own.
Row settled(Row row)
{
    const auto fields = describe(row.kind).fields;
    for (std::size_t i = 0; i < fields.size(); ++i) {
        if (const auto* text = std::get_if<std::string>(&row.values[i]); text && text->empty()) row.values[i] = std::monostate{};
        if (!fields[i].nullable && !isRecorded(row.values[i])) row.values[i] = blankRow(row.kind).values[i];
    }
    return row;
}

}

std::vector<Problem> checkFields(const Row& row)
{
    std::vector<Problem> problems;
    const auto& kind = describe(row.kind);
    for (std::size_t i = 0; i < kind.fields.size(); ++i) checkField(kind.fields[i], row.values[i], 0, problems);
    return problems;
}

void takeBack(Book& book, const std::vector<Applied>& applied)
{
    std::map<RecordKind, std::vector<std::int64_t>> added;
    for (auto change = applied.rbegin(); change != applied.rend(); ++change) {
        if (change->before) book.put(*change->before);
        else added[change->after->kind].push_back(change->after->id);
    }
    for (auto& [kind, ids] : added) book.eraseAll(kind, std::move(ids));
}

namespace {

/// The changes, by place, of rows that an earlier change of the edit touched already.
std::vector<std::size_t> repeatedIn(const std::vector<Change>& changes)
{
    std::vector<std::tuple<RecordKind, std::int64_t, std::size_t>> touched;
    touched.reserve(changes.size());
    for (std::size_t i = 0; i < changes.size(); ++i) touched.emplace_back(changes[i].row.kind, changes[i].row.id, i);
    if (!std::is_sorted(touched.begin(), touched.end())) std::sort(touched.begin(), touched.end());
    std::vector<std::size_t> repeated;
    for (std::size_t i = 1; i < touched.size(); ++i)
        if (std::get<0>(touched[i]) == std::get<0>(touched[i - 1]) && std::get<1>(touched[i]) == std::get<1>(touched[i - 1]))
            repeated.push_back(std::get<2>(touched[i]));
    return repeated;
}

}

Outcome applyEdit(Book& book, Edit edit, Freezing freezing)
{
    Outcome outcome;
    auto& changes = edit.changes();

    // Fields first: a row whose values do not fit never gets near the book.
    std::map<RecordKind, std::size_t> adds;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const auto& [what, row] = changes[i];
        const auto& kind = describe(row.kind);
        if (what != ChangeType::remove) {
            if (row.values.size() != kind.fields.size()) throw DomainError{"a row with another number of fields than its kind has"};
            for (std::size_t f = 0; f < kind.fields.size(); ++f) checkField(kind.fields[f], row.values[f], i, outcome.problems);
        }
        if (what == ChangeType::add) {
            if (row.id <= 0 || book.find(row.kind, row.id)) throw DomainError{"an added row without an id of its own"};
            ++adds[row.kind];
        } else if (!book.find(row.kind, row.id)) {
            outcome.problems.push_back({i, {}, "this " + std::string{kind.label} + " is no longer in the book; look it up again"});
        }
    }
    for (const auto i : repeatedIn(changes))
        outcome.problems.push_back(
            {i, {}, named(book, changes[i].row.kind, changes[i].row.id) + " stands twice in one edit; leave one out"});
    if (!outcome.problems.empty()) return outcome;

    for (const auto& [kind, count] : adds)
        if (count > 500) book.expectMany(kind, count);
    outcome.applied.reserve(changes.size());
    try {
        for (auto& [what, row] : changes) {
            Applied applied{what == ChangeType::add ? std::nullopt : book.row(row.kind, row.id), std::nullopt};
            if (what == ChangeType::remove) {
                book.erase(row.kind, row.id);
            } else {
                applied.after = settled(std::move(row));
                applied.after->revision = (applied.before ? applied.before->revision : applied.after->revision) + 1;
                book.put(*applied.after);
            }
            outcome.applied.push_back(std::move(applied));
        }

        // Made when first asked for: few edits touch what can be frozen.
        std::optional<std::set<std::pair<RecordKind, std::int64_t>>> added;
        const auto isAddedHere = [&](RecordKind kind, std::int64_t id) {
            if (!added) {
                added.emplace();
                for (const auto& applied : outcome.applied)
                    if (!applied.before) added->emplace(applied.after->kind, applied.after->id);
            }
            return added->contains({kind, id});
        };

        for (std::size_t i = 0; i < outcome.applied.size(); ++i) {
            const auto& applied = outcome.applied[i];
            const auto& kind = describe(applied.kind());
            const Report report = [&](std::string_view field, std::string message) { outcome.problems.push_back({i, std::string{field}, std::move(message)}); };
            if (freezing == Freezing::kept) checkFrozen(book, applied, isAddedHere, report);
            if (applied.after) {
                checkReferences(book, kind, *applied.after, i, outcome.problems);
                checkKey(book, kind, *applied.after, i, outcome.problems);
                checkRow(book, *applied.after, report);
            } else {
                for (const auto& [referrer, field] : referrersTo(kind.kind)) {
                    const auto ids = book.referring(referrer, field, applied.before->id);
                    if (ids.empty()) continue;
                    outcome.problems.push_back({i, {}, "this " + std::string{kind.label} + " is still named by " + named(book, referrer, ids.front())
                                                           + (ids.size() > 1 ? " and " + std::to_string(ids.size() - 1) + " more" : "") + "; remove or change those first"});
                }
            }
        }
    } catch (...) {
        takeBack(book, outcome.applied);
        throw;
    }
    if (!outcome.problems.empty()) {
        takeBack(book, outcome.applied);
        outcome.applied.clear();
    }
    return outcome;
}

}
