#include "schema.h"
#include "shelf_io.h"
#include "sql_store.h"

#include "record/field_text.h"
#include "record/rules.h"

#include <set>

namespace strikeoff {

namespace {

constexpr auto goBack = "go back to the last good copy (File, or the folder of copies beside the book)";

/// Every number between a series' first and last is on a row, or the trail says where it went.
void checkNumbers(Database& database, const Book& book, const KindDescription& kind, std::vector<VerifyFinding>& findings)
{
    const auto place = numberField(kind);
    if (!place) return;
    const std::string name{kind.name};
    std::set<std::int64_t> present;
    for (std::size_t i = 0; i < book.count(kind.kind); ++i) {
        const auto value = kind.fields[*place].get(book.at(kind.kind, i));
        if (const auto* text = std::get_if<std::string>(&value))
            if (const auto counted = countedPart(*kind.numberPrefix, *text)) present.insert(*counted);
    }
    std::int64_t next = 1001;
    {
        FastStatement counter{database, "SELECT next FROM counter WHERE name = ?"};
        counter.bind(1, std::string_view{"number:" + name});
        while (counter.step()) next = counter.number(0);
    }
    for (const auto number : present)
        if (number >= next)
            findings.push_back({name + " " + std::string{*kind.numberPrefix} + std::to_string(number), "the number was never given out by this book", "ask whoever last changed the file by other means"});
    std::set<std::int64_t> missing;
    for (auto number = std::int64_t{1001}; number < next; ++number)
        if (!present.contains(number)) missing.insert(number);
    if (missing.empty()) return;
    // Passed over, or once on a row that the trail saw added.
    FastStatement given{database, "SELECT first, last, how FROM number_given WHERE series = ?"};
    given.bind(1, std::string_view{name});
    std::set<std::int64_t> issued;
    while (given.step())
        for (auto number = std::max(given.number(0), *missing.begin()); number <= std::min(given.number(1), *missing.rbegin()); ++number) {
            if (!missing.contains(number)) continue;
            if (given.text(2) == "passed over") missing.erase(number);
            else issued.insert(number);
            if (missing.empty()) return;
        }
    FastStatement trail{database, "SELECT count(*) FROM edit_change WHERE kind = ? AND instr(coalesce(before, after), ?) > 0"};
    for (const auto number : missing) {
        const auto text = "\"number\":\"" + std::string{*kind.numberPrefix} + std::to_string(number) + "\"";
        trail.bind(1, kind.name);
        trail.bind(2, std::string_view{text});
        std::int64_t mentions = 0;
        while (trail.step()) mentions = trail.number(0);
        if (mentions == 0 || !issued.contains(number))
            findings.push_back({name + " " + std::string{*kind.numberPrefix} + std::to_string(number), "the number is missing and the trail does not say where it went", goBack});
    }
}

void checkSums(const Book& book, std::vector<VerifyFinding>& findings)
{
    for (const auto& statement : book.all<Statement>()) {
        if (!statement.total) continue;
        const auto lines = book.referring<&StatementLine::statement>(statement.id);
        if (lines.empty()) continue;
        Money sum;
        for (const auto* line : lines) sum += line->amount;
        // A statement that does not add up is the supplier's fault and belongs to the check of it; only one approved in spite of it is said here.
        if (sum != *statement.total && statement.approvedOn)
            findings.push_back({"statement " + keyText(book, statement.id), "its lines add up to $" + sum.shown() + ", its total is $" + statement.total->shown(),
                                "open the statement and correct the line or the total, or dispute it"});
    }
}

}

std::vector<VerifyFinding> SqlStore::verify(const std::function<bool(int)>& progress) const
{
    std::vector<VerifyFinding> findings;
    const auto goOn = [&](int percent) { return !progress || progress(percent); };
    if (!goOn(0)) return findings;
    for (const auto& line : database_.column("PRAGMA integrity_check(20)"))
        if (line != "ok") findings.push_back({"the file", line, goBack});
    if (!goOn(30)) return findings;
    for (const auto& table : database_.column("SELECT DISTINCT \"table\" FROM pragma_foreign_key_check"))
        findings.push_back({"the table " + table, "a record points at one that is not there", goBack});
    for (const auto& difference : schemaDifferences(database_)) findings.push_back({"the schema", difference, goBack});
    if (!goOn(40)) return findings;

    int step = 0;
    for (const auto& kind : allKinds()) {
        for (std::size_t i = 0; i < book_.count(kind.kind); ++i) {
            const auto id = book_.idAt(kind.kind, i);
            const auto row = *book_.row(kind.kind, id);
            const auto where = std::string{kind.name} + " " + keyText(book_, kind.kind, id);
            for (const auto& problem : checkFields(row)) findings.push_back({where, problem.message, "open it and correct the field"});
            checkRow(book_, row, [&](std::string_view, std::string message) { findings.push_back({where, std::move(message), "open it and correct the field"}); });
            if (!kind.key.empty() && book_.isKeyShared(kind.kind, id)) findings.push_back({where, "another row goes by the same name", "give one of them another"});
            const auto kept = readRow(database_, kind.kind, id);
            if (!kept || kept->values != row.values) findings.push_back({where, "the file and the open book differ", "close the book and open it again"});
        }
        checkNumbers(database_, book_, kind, findings);
        if (!goOn(40 + ++step * 55 / static_cast<int>(kindCount))) return findings;
    }
    checkSums(book_, findings);
    goOn(100);
    return findings;
}

}
