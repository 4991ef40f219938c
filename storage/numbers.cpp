#include "numbers.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr std::int64_t firstNumber = 1001;

}

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
    std::map<std::pair<RecordKind, std::int64_t>, std::int64_t> real;
    for (auto& change : edit.changes()) {
        auto& row = change.row;
        const auto& kind = describe(row.kind);
        const std::string name{kind.name};
        if (change.what == ChangeType::add && row.id < 0) {
            // A counter behind the rows would repeat an id; a book mended by hand could hold such a row.
            auto& next = next_.try_emplace("id:" + name, 1).first->second;
            next = std::max(next, book.lastId(row.kind) + 1);
            const auto id = take("id:" + name);
            real[{row.kind, row.id}] = id;
            row.id = id;
        }
        if (change.what == ChangeType::remove || row.values.size() != kind.fields.size()) continue;
        if (const auto place = numberField(kind)) {
            auto& value = row.values[*place];
            const auto* text = std::get_if<std::string>(&value);
            if (text && !text->empty()) {
                if (const auto counted = countedPart(*kind.numberPrefix, *text)) passOver(name, *counted);
            } else if (change.what == ChangeType::add) {
                const auto number = take("number:" + name);
                given_.push_back({name, number, number, "given by the book"});
                value = std::string{*kind.numberPrefix} + std::to_string(number);
            }
        }
    }
    for (auto& change : edit.changes()) {
        if (change.what == ChangeType::remove) continue;
        const auto fields = describe(change.row.kind).fields;
        if (change.row.values.size() != fields.size()) continue;
        for (std::size_t i = 0; i < fields.size(); ++i) {
            if (fields[i].type != FieldType::reference) continue;
            auto* target = std::get_if<std::int64_t>(&change.row.values[i]);
            if (!target || *target >= 0) continue;
            if (const auto found = real.find({fields[i].refersTo, *target}); found != real.end()) *target = found->second;
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
