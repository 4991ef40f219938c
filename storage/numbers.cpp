#include "numbers.h"

#include <algorithm>
#include <array>
#include <limits>

namespace strikeoff {

std::optional<std::int64_t> countedPart(std::string_view prefix, std::string_view number)
{
    if (!number.starts_with(prefix)) return std::nullopt;
    number.remove_prefix(prefix.size());
    if (number.empty() || number.size() > 9 || number.front() == '0') return std::nullopt;
    std::int64_t value = 0;
    for (const char c : number) {
        if (c < '0' || c > '9') return std::nullopt;
        value = value * 10 + (c - '0');
    }
    return value;
}

void Numbers::read(Database& database)
{
    next_.clear();
    changed_.clear();
    given_.clear();
    FastStatement select{database, "SELECT name, next FROM counter"};
    while (select.step()) next_[std::string{select.text(0)}] = select.number(1);
}

std::int64_t Numbers::take(const std::string& counter)
{
    const auto number = next_.try_emplace(counter, counter.starts_with("number:") ? firstNumber : 1).first->second++;
    changed_[counter] = number + 1;
    return number;
}

void Numbers::passOver(const std::string& series, std::int64_t number)
{
    const auto counter = "number:" + series;
    auto& next = next_.try_emplace(counter, firstNumber).first->second;
    if (number < next) return;
    if (number > next) given_.push_back({series, next, number - 1, "passed over"});
    given_.push_back({series, number, number, "given by the owner"});
    next = number + 1;
    changed_[counter] = next;
}

void Numbers::resolve(Edit& edit, const Book& book)
{
    auto& changes = edit.changes();
    const auto isWhole = [](const Change& change) {
        return change.what != ChangeType::remove && change.row.values.size() == describe(change.row.kind).fields.size();
    };

    const auto isBlank = [](const Value& value) { return !isRecorded(value) || value == Value{std::string{}}; };

    // The owner's own numbers first, so that none of them is given to another row of the edit.
    for (const auto& change : changes) {
        const auto& kind = describe(change.row.kind);
        const auto place = numberField(kind);
        if (!place || !isWhole(change)) continue;
        const auto* text = std::get_if<std::string>(&change.row.values[*place]);
        if (!text) continue;
        if (const auto counted = countedPart(*kind.numberPrefix, *text)) passOver(std::string{kind.name}, *counted);
    }

    std::array<std::int64_t, kindCount> firstIds{};  // of the added rows of each kind, whose ids then count up
    std::array<std::int64_t, kindCount> added{};
    using Place = std::pair<RecordKind, std::int64_t>;
    std::vector<std::pair<Place, std::int64_t>> real;
    real.reserve(changes.size());
    for (auto& change : changes) {
        auto& row = change.row;
        if (change.what != ChangeType::add) continue;
        const auto& kind = describe(row.kind);
        const auto index = static_cast<std::size_t>(row.kind);
        if (row.id < 0) {
            if (added[index]++ == 0) {
                // A counter behind the rows would repeat an id; a book mended by hand could hold such a row.
                firstIds[index] =
                    std::max(next_.try_emplace("id:" + std::string{kind.name}, 1).first->second, book.lastId(row.kind) + 1);
            }
            const auto id = firstIds[index] + added[index] - 1;
            real.push_back({{row.kind, row.id}, id});
            row.id = id;
        }
        if (const auto place = numberField(kind); place && isWhole(change) && isBlank(row.values[*place])) {
            const std::string name{kind.name};
            const auto number = take("number:" + name);
            given_.push_back({name, number, number, "given by the book"});
            row.values[*place] = std::string{*kind.numberPrefix} + std::to_string(number);
        }
    }
    for (std::size_t i = 0; i < kindCount; ++i)
        if (added[i] > 0)
            changed_["id:" + std::string{allKinds()[i].name}] = next_["id:" + std::string{allKinds()[i].name}] =
                firstIds[i] + added[i];

    std::sort(real.begin(), real.end());
    for (auto& change : changes) {
        if (!isWhole(change)) continue;
        const auto& kind = describe(change.row.kind);
        for (const auto i : referenceFields(kind)) {
            auto* target = std::get_if<std::int64_t>(&change.row.values[i]);
            if (!target || *target >= 0) continue;
            const Place wanted{kind.fields[i].refersTo, *target};
            const auto found = std::lower_bound(real.begin(), real.end(), std::pair{wanted, std::numeric_limits<std::int64_t>::min()});
            if (found != real.end() && found->first == wanted) *target = found->second;
        }
    }
}

void Numbers::write(Database& database, std::int64_t edit)
{
    FastStatement counter{database, "INSERT INTO counter (name, next) VALUES (?, ?) ON CONFLICT (name) DO UPDATE SET next = excluded.next"};
    for (const auto& [name, next] : changed_) {
        counter.bind(1, std::string_view{name});
        counter.bind(2, next);
        counter.run();
    }
    FastStatement given{database, "INSERT INTO number_given (series, first, last, edit, how) VALUES (?, ?, ?, ?, ?)"};
    // Runs of one kind are kept as one row: a load gives thousands at once.
    for (std::size_t i = 0; i < given_.size();) {
        auto run = given_[i++];
        while (i < given_.size() && given_[i].series == run.series && given_[i].how == run.how && given_[i].first == run.last + 1) run.last = given_[i++].last;
        given.bind(1, std::string_view{run.series});
        given.bind(2, run.first);
        given.bind(3, run.last);
        given.bind(4, edit);
        given.bind(5, std::string_view{run.how});
        given.run();
    }
    changed_.clear();
    given_.clear();
}

}
