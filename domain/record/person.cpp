#include "record/person.h"

#include "quantity/letters.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>

namespace strikeoff {

namespace {

constexpr std::string_view gone = "(blotted out)";

bool isLetter(char c)
{
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x80 || isDigit(static_cast<char>(byte)) || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z');
}

/// Whether a sign of more than one byte begins a text: Latin signs, punctuation, arrows, boxes (U+2000 to U+2BFF), wide punctuation, the mark of byte order, pictures.
bool beginsWithSign(std::string_view text)
{
    if (text.size() > 1 && text[0] == '\xE2') return static_cast<unsigned char>(text[1]) < 0xB0;
    return text.starts_with("\xC2") || text.starts_with("\xE3\x80") || text.starts_with("\xEF\xB8") || text.starts_with("\xEF\xBB\xBF") || text.starts_with("\xF0\x9F");
}

/// Whether a letter or digit begins at a place.
bool letterAt(std::string_view text, std::size_t at) { return at < text.size() && isLetter(text[at]) && !beginsWithSign(text.substr(at)); }
/// Whether one ends before a place.
bool letterBefore(std::string_view text, std::size_t at)
{
    if (at == 0) return false;
    auto begin = at - 1;
    while (begin > 0 && at - begin < 4 && (static_cast<unsigned char>(text[begin]) & 0xC0) == 0x80) --begin;
    return letterAt(text, begin);
}

/// Without what stands around a name or a number.
std::string_view bared(std::string_view text)
{
    while (!text.empty() && !isLetter(text.front()) && text.front() != '+' && text.front() != '(') text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\n' || text.back() == '\t' || text.back() == '.' || text.back() == ',')) text.remove_suffix(1);
    return text;
}

/// So many characters of a text in UTF-8.
std::string_view firstCharacters(std::string_view text, std::size_t count)
{
    std::size_t at = 0;
    for (; at < text.size(); ++at)
        if ((static_cast<unsigned char>(text[at]) & 0xC0) != 0x80 && count-- == 0) break;
    return text.substr(0, at);
}

/// Codes, numbers and how files are laid out: what figures are found by, and no words about anybody, whoever is called the same.
bool isCode(const Field& field)
{
    static constexpr std::array<std::string_view, 9> codes{"number", "code", "mix", "unit", "plant", "comp_class", "ticket_number", "account_number", "statement_columns"};
    return std::find(codes.begin(), codes.end(), field.name) != codes.end();
}

/// Rows of these are a supplier's papers, whatever they refer to.
bool isSuppliers(RecordKind kind) { return kind == RecordKind::statement || kind == RecordKind::statementLine || kind == RecordKind::claim; }

void gather(const Book& book, Person person, PersonRow row, std::set<PersonRow>& rows)
{
    // A lead may have become a job of somebody else, which is theirs with all that stands under it.
    const auto* job = row.kind == RecordKind::job ? book.find(Id<Job>{row.id}) : nullptr;
    if (job && person.kind == RecordKind::customer && job->customer.value() != person.id) return;
    if (!rows.insert(row).second) return;
    for (const auto& kind : allKinds()) {
        if (isSuppliers(kind.kind)) continue;
        for (const auto i : referenceFields(kind)) {
            if (kind.fields[i].refersTo != row.kind) continue;
            for (const auto id : book.referring(kind.kind, i, row.id)) gather(book, person, {kind.kind, id}, rows);
        }
    }
}

}

std::vector<PersonRow> rowsAbout(const Book& book, Person person, const std::vector<std::string>& formerNames)
{
    std::set<PersonRow> rows;
    if (!book.find(person.kind, person.id)) return {};
    gather(book, person, {person.kind, person.id}, rows);
    if (person.kind == RecordKind::customer) {
        std::set<std::string> names{lowered(book.get(Id<Customer>{person.id}).name)};
        for (const auto& name : formerNames) names.insert(lowered(name));
        for (const auto& job : book.all<Job>())
            if (job.lead && job.customer.value() == person.id) gather(book, person, {RecordKind::lead, job.lead->value()}, rows);
        for (const auto& lead : book.all<Lead>())
            if (!lead.customer && names.contains(lowered(lead.name))) rows.insert({RecordKind::lead, lead.id.value()});
    }
    return {rows.begin(), rows.end()};
}

bool tellsOf(Person person, RecordKind kind)
{
    if (person.kind != RecordKind::customer) return true;
    switch (kind) {
    case RecordKind::hours:
    case RecordKind::receipt:
    case RecordKind::ticket:
    case RecordKind::takeoffSection: return false;
    default: return true;
    }
}

Blotting blottingOf(RecordKind kind, const Field& field)
{
    using enum Blotting;
    static const std::map<RecordKind, std::map<std::string_view, Blotting>> rules{
        {RecordKind::customer, {{"name", named}, {"phone", taken}, {"email", taken}, {"address", taken}, {"town", taken}, {"note", taken}}},
        {RecordKind::site, {{"name", named}, {"address", taken}, {"town", taken}, {"latitude", taken}, {"longitude", taken}, {"note", taken}}},
        {RecordKind::lead, {{"name", marked}, {"phone", taken}, {"email", taken}, {"town", taken}, {"wish", taken}, {"lost_reason", taken}, {"note", taken}}},
        {RecordKind::job, {{"title", marked}, {"dropped_reason", taken}, {"note", taken}}},
        {RecordKind::takeoffSection, {{"note", taken}}},
        {RecordKind::quote, {{"declined_reason", taken}, {"scope", taken}, {"exclusions", taken}}},
        {RecordKind::changeOrder, {{"note", taken}}},
        {RecordKind::pour, {{"note", taken}}},
        {RecordKind::ticket, {{"signed_by", taken}, {"note", taken}}},
        {RecordKind::hours, {{"note", taken}}},
        {RecordKind::receipt, {{"note", taken}}},
        {RecordKind::visit, {{"waived_reason", marked}, {"put_off_reason", marked}, {"note", taken}, {"photos", taken}}},
        {RecordKind::invoice, {{"note", taken}}},
        {RecordKind::payment, {{"reference", taken}, {"note", taken}}},
        {RecordKind::crewMember, {{"name", named}, {"role", taken}, {"phone", taken}, {"note", taken}}},
        {RecordKind::payRate, {{"note", taken}}},
        {RecordKind::bonus, {{"note", taken}}},
    };
    if (const auto found = rules.find(kind); found != rules.end())
        if (const auto rule = found->second.find(field.name); rule != found->second.end()) return rule->second;
    const bool isFree = (field.type == FieldType::text || field.type == FieldType::note) && !isCode(field);
    return isFree ? swept : kept;
}

bool PersonWords::takesFrom(RecordKind kind) { return kind == RecordKind::customer || kind == RecordKind::lead || kind == RecordKind::crewMember || kind == RecordKind::site; }

void PersonWords::take(RecordKind kind, std::string_view field, std::string_view text)
{
    if (!takesFrom(kind)) return;
    const bool isPerson = kind != RecordKind::site;
    const bool isName = field == "name";
    const bool isPlace = field == "address" && (kind == RecordKind::customer || kind == RecordKind::site);
    const bool isCall = (field == "phone" || field == "email") && isPerson;
    if (!isName && !isPlace && !isCall) return;
    const auto words = bared(text);
    if (words.starts_with("Blotted out")) return;  // blotted out before
    const auto longest = [](const std::string& a, const std::string& b) { return a.size() != b.size() ? a.size() > b.size() : a < b; };
    const auto put = [&](std::vector<std::string>& list, std::string_view word) {
        std::string low = lowered(word);
        if (std::find(list.begin(), list.end(), low) != list.end()) return;
        list.insert(std::upper_bound(list.begin(), list.end(), low, longest), std::move(low));
    };
    if (words.size() >= 3) put(whole_, words);
    if (isCall) return;
    static constexpr std::array<std::string_view, 12> common{"and", "the", "for", "our", "llc", "inc", "north", "south", "east", "west", "new", "old"};
    for (std::size_t at = 0; at < words.size();) {
        if (!isLetter(words[at])) {
            ++at;
            continue;
        }
        auto end = at;
        while (end < words.size() && isLetter(words[end])) ++end;
        const auto word = words.substr(at, end - at);
        const bool isNumber = std::all_of(word.begin(), word.end(), isDigit);
        if (word.size() >= 3 && !isNumber && std::find(common.begin(), common.end(), lowered(word)) == common.end()) put(parts_, word);
        at = end;
    }
}

std::string PersonWords::sweep(std::string_view text, const std::vector<std::string>& words)
{
    if (words.empty() || text.empty()) return std::string{text};
    const auto low = lowered(text);
    std::string out;
    bool changed = false;
    for (std::size_t at = 0; at < text.size();) {
        // What stands there already is left alone, so that sweeping twice changes nothing.
        if (text.substr(at).starts_with(gone)) {
            out += gone;
            at += gone.size();
            continue;
        }
        const bool mayBegin = !letterBefore(text, at) || !letterAt(text, at);
        std::size_t length = 0;
        for (const auto& word : words) {
            if (!mayBegin || low.compare(at, word.size(), word) != 0) continue;
            const auto end = at + word.size();
            if (letterAt(text, end) && letterBefore(text, end)) continue;
            length = word.size();
            break;
        }
        if (length == 0) {
            out += text[at++];
            continue;
        }
        changed = true;
        at += length;
        if (!out.ends_with(std::string{gone} + ' ')) out += gone;
        else out.pop_back();
    }
    return changed ? out : std::string{text};
}

std::string PersonWords::sweptTitle(std::string_view title, bool isOwn) const
{
    auto words = whole_;
    // Titles are cut to 39 or 40 characters of a name, see editTitle.
    for (const auto& word : whole_)
        for (const std::size_t most : {40U, 39U}) {
            auto cut = firstCharacters(word, most);
            while (!cut.empty() && cut.back() == ' ') cut.remove_suffix(1);
            if (cut.size() < word.size()) words.emplace_back(cut);
        }
    auto swept = sweep(title, words);
    return isOwn ? sweep(swept, parts_) : swept;
}

std::string blottedName(std::int64_t id) { return "Blotted out " + std::to_string(id); }

namespace {

Value sweptText(const Field& field, std::string text)
{
    // The mark may be longer than what it stands for.
    if (static_cast<std::int64_t>(text.size()) > field.most) {
        auto end = static_cast<std::size_t>(field.most);
        while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
        text.resize(end);
    }
    return text;
}

}

Value blotted(const PersonWords& words, RecordKind kind, std::int64_t id, const Field& field, const Value& value)
{
    if (!isRecorded(value)) return value;
    switch (blottingOf(kind, field)) {
    case Blotting::kept: return value;
    case Blotting::taken: return {};
    case Blotting::marked: return std::string{"Blotted out"};
    case Blotting::named: return blottedName(id);
    case Blotting::swept:
        if (const auto* text = std::get_if<std::string>(&value)) return sweptText(field, words.sweptOfOwn(*text));
        return value;
    }
    return value;
}

Value sweptElsewhere(const PersonWords& words, RecordKind kind, const Field& field, const Value& value)
{
    const auto* text = std::get_if<std::string>(&value);
    if (!text || (field.type != FieldType::text && field.type != FieldType::note) || isCode(field)) return value;
    static constexpr std::array<std::string_view, 5> ofOthers{"name", "phone", "email", "address", "town"};
    if (kind == RecordKind::settings || std::find(ofOthers.begin(), ofOthers.end(), field.name) != ofOthers.end()) return value;
    const auto& description = describe(kind);
    if (std::find(description.key.begin(), description.key.end(), field.name) != description.key.end()) return value;
    return sweptText(field, words.swept(*text));
}

}
