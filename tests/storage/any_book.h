#pragma once

#include "record/field_text.h"
#include "store.h"

#include <random>
#include <set>

namespace strikeoff::test {

/// Rows of every kind with values from all over their bounds; those that break a rule are left out.
class AnyBook {
public:
    AnyBook(Store& store, unsigned seed) : store_{store}, random_{seed} {}

    void fill(int rows)
    {
        for (const auto& kind : allKinds()) {
            Edit edit{"Any"};
            if (kind.key.empty()) {
                auto row = *store_.book().row(kind.kind, store_.book().idAt(kind.kind, 0));
                fillRow(kind, row);
                edit.change(std::move(row));
            } else {
                // Few payments meet an issued invoice of the customer who paid by chance.
                for (int i = 0; i < (kind.kind == RecordKind::paymentShare ? rows * 20 : rows); ++i) {
                    auto row = blankRow(kind.kind);
                    fillRow(kind, row);
                    edit.add(std::move(row));
                }
            }
            commitWhatMay(std::move(edit));
        }
    }

private:
    /// Commits the rows that break no rule.
    void commitWhatMay(Edit edit)
    {
        for (int round = 0; round < 8 && !edit.empty(); ++round) {
            const auto result = store_.commit(edit);
            if (result.done()) return;
            std::set<std::size_t> bad;
            for (const auto& problem : result.problems) bad.insert(problem.change);
            auto& changes = edit.changes();
            for (auto place = bad.rbegin(); place != bad.rend(); ++place)
                changes.erase(changes.begin() + static_cast<std::ptrdiff_t>(*place));
        }
    }

    std::int64_t below(std::int64_t count) { return static_cast<std::int64_t>(random_() % static_cast<std::uint64_t>(count)); }

    void fillRow(const KindDescription& kind, Row& row)
    {
        for (std::size_t i = 0; i < kind.fields.size(); ++i) {
            const auto& field = kind.fields[i];
            if (field.nullable && !field.required && below(3) == 0) row.values[i] = std::monostate{};
            else row.values[i] = anyValue(kind, field, row);
        }
        // Small shares, so that they do not come to more than was paid.
        if (kind.kind == RecordKind::paymentShare) row.set("amount", 1 + below(3));
    }

    Value anyValue(const KindDescription& kind, const Field& field, const Row& row)
    {
        static const std::vector<std::string> lines{"plain",
                                                    "=1+1",
                                                    "'=1",
                                                    "-5",
                                                    "@x",
                                                    "+1 555-0100",
                                                    "<b>bold</b>",
                                                    "'; DROP TABLE job;--",
                                                    "a,b",
                                                    "say \"hi\"",
                                                    " led",
                                                    "trailed ",
                                                    "na\u00efve \u2713",
                                                    "a/b\\c",
                                                    "/",
                                                    "\\",
                                                    "x;y",
                                                    "  ",
                                                    "yes",
                                                    "0",
                                                    "''",
                                                    "'"};
        static const std::vector<std::string> notes{"one\ntwo", "\r\n", "\ttab", "lone\rreturn", "\n=2", "\xEF\xBB\xBFmark"};
        switch (field.type) {
        case FieldType::text:
            return lines[static_cast<std::size_t>(below(std::ssize(lines)))] + (below(2) == 0 ? std::to_string(below(1000)) : "");
        case FieldType::note:
            return below(2) == 0 ? notes[static_cast<std::size_t>(below(std::ssize(notes)))]
                                 : lines[static_cast<std::size_t>(below(std::ssize(lines)))];
        case FieldType::options: return std::string{below(2) == 0 ? "ACC=1;FIBER=1.5" : "-X"};
        case FieldType::points: return std::string{below(2) == 0 ? "0 0; 12 0; 12 8.5" : "-1 -2;3 4;5 0"};
        case FieldType::choice: return below(std::ssize(field.choices));
        case FieldType::boolean: return below(2);
        case FieldType::date: return Date::of(2025, 1, 1)->days() + below(400);
        case FieldType::clockTime: return below(1440);
        case FieldType::monthDay: return MonthDay::of(static_cast<int>(1 + below(12)), static_cast<int>(1 + below(28)))->number();
        case FieldType::reference: return anyReference(kind, field, row);
        default: {
            const auto least = std::max<std::int64_t>(field.least, -1'000'000);
            const auto most = std::min<std::int64_t>(field.most, 1'000'000);
            return least + below(below(3) == 0 ? std::min<std::int64_t>(most - least + 1, 5) : most - least + 1);
        }
        }
    }

    Value anyReference(const KindDescription& kind, const Field& field, const Row& row)
    {
        const auto& book = store_.book();
        const auto count = static_cast<std::int64_t>(book.count(field.refersTo));
        if (count == 0) return std::monostate{};
        for (int tries = 0; tries < 20; ++tries) {
            const auto id = book.idAt(field.refersTo, static_cast<std::size_t>(below(count)));
            if (field.scope.empty()) return id;
            const auto& target = describe(field.refersTo);
            const auto& owner = row.values[fieldIndex(kind, field.scope)];
            if (isRecorded(owner)
                && target.fields[fieldIndex(target, target.key.front())].get(book.find(field.refersTo, id)) == owner)
                return id;
        }
        return std::monostate{};
    }

    Store& store_;
    std::mt19937_64 random_;
};

}
