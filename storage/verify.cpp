#include "interruption.h"
#include "schema.h"
#include "shelf_io.h"
#include "sql_store.h"
#include "trail_check.h"

#include "billing/billing.h"
#include "record/field_text.h"
#include "record/rules.h"

#include <map>
#include <set>

namespace strikeoff {

namespace {

constexpr auto goBack = "go back to the last good copy (File, or the folder of copies beside the book)";

/// The counted part of the number that a change's values name, or nothing.
std::optional<std::int64_t> numberIn(std::string_view values, std::string_view prefix)
{
    constexpr std::string_view name = "\"number\":\"";
    const auto begin = values.find(name);
    if (begin == std::string_view::npos) return std::nullopt;
    values.remove_prefix(begin + name.size());
    return countedPart(prefix, values.substr(0, values.find('"')));
}

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
    // The numbers that changes of the trail name, on the row before or after.
    std::set<std::int64_t> named;
    FastStatement trail{database, "SELECT coalesce(before, after) FROM edit_change WHERE kind = ?"};
    trail.bind(1, kind.name);
    while (trail.step())
        if (const auto number = numberIn(trail.text(0), *kind.numberPrefix); number && missing.contains(*number)) named.insert(*number);
    for (const auto number : missing) {
        if (!named.contains(number) || !issued.contains(number))
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
    // Claims that a credit answered are no more than it brought.
    std::map<Id<StatementLine>, Money> answered;
    for (const auto& claim : book.all<Claim>())
        if (claim.creditLine && claim.creditedOn) answered[*claim.creditLine] += claim.amount;
    for (const auto& [id, sum] : answered) {
        const auto* line = book.find(id);
        if (line && sum > -line->amount)
            findings.push_back({"statement_line " + keyText(book, id), "it credits $" + (-line->amount).shown() + ", and claims for $" + sum.shown() + " are said to be answered by it",
                                "open the claims and set each to what the credit brought for it"});
    }
    // What a customer owes is the same added up by paper and by day.
    const auto end = *Date::of(2199, 12, 31);
    for (const auto& customer : book.all<Customer>()) {
        const auto lines = statementOfAccount(book, customer.id, end);
        const auto byDay = lines.empty() ? Money{} : lines.back().balance;
        const auto byPaper = accountOf(book, customer.id, end).balance();
        if (byDay != byPaper)
            findings.push_back({"customer " + keyText(book, customer.id), "the statement of account comes to $" + byDay.shown() + " and the invoices less what is not assigned to $" + byPaper.shown(),
                                "look at the shares of the customer's payments: one goes to a paper that is not theirs"});
    }
}

}

std::vector<VerifyFinding> SqlStore::verify(const std::function<bool(int)>& progress) const
{
    std::vector<VerifyFinding> findings;
    const auto goOn = [&](int percent) { return !progress || progress(percent); };
    const auto& dialect = database_.dialect();
    if (!goOn(0)) return findings;
    if (const auto integrity = dialect.integrity(); !integrity.empty()) {
        Interruption interruption{database_, [&] { return goOn(10); }};
        const bool ran = interruption.ran([&] {
            for (const auto& line : database_.column(integrity))
                if (line != "ok") findings.push_back({"the file", line, goBack});
        });
        if (!ran) return findings;
    }
    if (!goOn(30)) return findings;
    // One state of the book, whoever writes meanwhile.
    Transaction snapshot{database_, Transaction::For::reading};
    if (const auto broken = dialect.brokenReferences(); !broken.empty())
        for (const auto& table : database_.column(broken)) findings.push_back({"the table " + table, "a record points at one that is not there", goBack});
    for (const auto& difference : schemaDifferences(database_)) findings.push_back({"the schema", difference, goBack});
    if (!goOn(40)) return findings;

    Book kept;
    try {
        readShelves(database_, kept);
    } catch (const StorageError& error) {
        findings.push_back({"the book", error.what(), goBack});
        return findings;
    }
    const bool sameState = newestEdit() == lastEdit_;
    int step = 0;
    for (const auto& kind : allKinds()) {
        for (std::size_t i = 0; i < kept.count(kind.kind); ++i) {
            const auto id = kept.idAt(kind.kind, i);
            const auto row = *kept.row(kind.kind, id);
            const auto where = std::string{kind.name} + " " + keyText(kept, kind.kind, id);
            for (const auto& problem : checkFields(row)) findings.push_back({where, problem.message, "open it and correct the field"});
            checkRow(kept, row, [&](std::string_view, std::string message) { findings.push_back({where, std::move(message), "open it and correct the field"}); });
            if (!kind.key.empty() && kept.isKeyShared(kind.kind, id)) findings.push_back({where, "another row goes by the same name", "give one of them another"});
            if (!sameState) continue;
            const auto open = book_.row(kind.kind, id);
            if (!open || open->values != row.values) findings.push_back({where, "the file and the open book differ", "close the book and open it again"});
        }
        if (sameState && kept.count(kind.kind) != book_.count(kind.kind))
            findings.push_back({std::string{kind.plural}, "the file has " + std::to_string(kept.count(kind.kind)) + " and the open book " + std::to_string(book_.count(kind.kind)), "close the book and open it again"});
        checkNumbers(database_, kept, kind, findings);
        if (!goOn(40 + ++step * 55 / static_cast<int>(kindCount))) return findings;
    }
    checkSums(kept, findings);
    checkTrail(database_, kept, findings);
    goOn(100);
    return findings;
}

}
