#include "verbs/verb.h"

#include "csv.h"
#include "file.h"
#include "json_writer.h"
#include "quantity/words.h"
#include "ready_mix/codes.h"
#include "ready_mix/printed_figures.h"
#include "ready_mix/statement_findings.h"
#include "ready_mix/statement_reader.h"
#include "ready_mix/ticket_desk.h"
#include "record/check.h"
#include "text_rows.h"
#include "text_table.h"

#include <algorithm>
#include <filesystem>
#include <ostream>

namespace strikeoff {

namespace {

std::string printedOrDash(const std::string& text) { return text.empty() ? "\u2013" : text; }

std::string asJson(const Book& book, const StatementCheck& check)
{
    JsonWriter json;
    const auto& statement = *check.statement;
    const auto* supplier = book.find(statement.supplier);
    json.beginObject().text("supplier", supplier ? supplier->name : "").text("statement", statement.number);
    json.money("billed", check.billed).money("agreed", check.agreed).money("disputed", check.disputed).money("needs_eye", check.needsEye).money("expected", check.expected);
    json.key("lines").beginArray();
    for (const auto& finding : check.lines) {
        json.beginObject();
        if (finding.line) json.whole("line", finding.line->line).textOrNull("ticket", finding.line->ticketNumber);
        else json.key("line").null().key("ticket").null();
        json.textOrNull("matched_ticket", finding.ticket ? finding.ticket->number : "");
        json.text("how", codeOf(finding.how)).text("finding", codeOf(finding.finding));
        json.money("billed", finding.billed).money("expected", finding.expected).money("difference", finding.difference).text("why", finding.why).end();
    }
    json.end().key("unbilled").beginArray();
    for (const auto& ticket : check.unbilled)
        json.beginObject().text("ticket", ticket.ticket->number).date("date", ticket.ticket->date).text("yards", ticket.ticket->yards.text()).money("expected", ticket.expected).end();
    json.end().key("claims_open").beginArray();
    for (const auto* claim : check.claimsOpen) {
        const auto* ticket = book.find(claim->ticket);
        json.beginObject().text("claim", claim->number).textOrNull("ticket", ticket ? ticket->number : "").date("opened", claim->openedOn);
        json.money("amount", claim->amount).text("reason", claim->reason).end();
    }
    return json.end().end().finished();
}

std::string asText(const Book& book, const StatementCheck& check)
{
    auto text = check.answer + '\n' + check.pay.sentence + '\n';
    TextTable open;
    open.figures("Line").words("Ticket", 16).words("Matched", 16).words("How", 8).words("Finding").figures("Billed $").figures("Expected $").figures("Off $").words("Why", 120);
    TextTable settled = open;
    std::size_t agreed = 0;
    for (const auto& finding : check.lines) {
        const bool waits = finding.state == FindingState::open || finding.state == FindingState::claimed;
        if (finding.finding == Finding::agrees && !waits && finding.how != PairedHow::near) {
            ++agreed;
            continue;
        }
        (waits ? open : settled)
            .row({finding.line ? std::to_string(finding.line->line) : "", finding.line ? printedOrDash(finding.line->ticketNumber) : "\u2013", finding.ticket ? finding.ticket->number : "\u2013",
                  std::string{codeOf(finding.how)}, std::string{labelOf(finding.finding)}, finding.billed.shown(), shownOrDash(finding.expected), finding.difference.isZero() ? "" : finding.difference.shown(),
                  finding.why + (finding.claim && finding.line && finding.line->amount >= Money{} ? " Claim " + finding.claim->number + "." : "")});
    }
    if (!open.empty()) text += "\nOpen\n" + open.text();
    if (!settled.empty()) text += "\nSettled, and near matches\n" + settled.text();
    text += '\n' + capitalized(counted(static_cast<std::int64_t>(agreed), "other line agrees", "other lines agree")) + ".\n";
    if (!check.unbilled.empty()) {
        TextTable unbilled;
        unbilled.words("Ticket").words("Date").figures("Yards").figures("Expected $");
        for (const auto& ticket : check.unbilled) unbilled.row({ticket.ticket->number, ticket.ticket->date.shown(), ticket.ticket->yards.shown(2), shownOrDash(ticket.expected)});
        text += "\nOn no statement\n" + unbilled.text();
    }
    if (!check.claimsOpen.empty()) {
        TextTable claims;
        claims.words("Claim").words("Ticket").words("Opened").figures("Amount $").words("Reason", 100);
        for (const auto* claim : check.claimsOpen) {
            const auto* ticket = book.find(claim->ticket);
            claims.row({claim->number, ticket ? ticket->number : "\u2013", claim->openedOn.shown(), claim->amount.shown(), claim->reason});
        }
        text += "\nOpen claims with this supplier\n" + claims.text();
    }
    if (!check.remarks.empty()) {
        text += "\nWhat the tickets hold against the loads\n";
        for (const auto& remark : check.remarks) text += "  " + remark.text + '\n';
    }
    return text;
}

const Supplier& supplierNamed(const Book& book, const std::string& name)
{
    std::vector<std::string> names;
    for (const auto& supplier : book.all<Supplier>()) {
        if (sameCode(supplier.name, name)) return supplier;
        names.push_back(supplier.name);
    }
    throw UsageError{"there is no supplier " + inQuotes(name) + (names.empty() ? " in this book; add one first" : "; the book has " + listed(names))};
}

const Statement& statementNumbered(const Book& book, const std::string& number, const std::optional<std::string>& supplier)
{
    const Statement* found = nullptr;
    for (const auto& statement : book.all<Statement>()) {
        if (!sameCode(statement.number, number) || (supplier && statement.supplier != supplierNamed(book, *supplier).id)) continue;
        if (found) throw UsageError{"two suppliers have a statement " + inQuotes(number) + "; say which with --supplier"};
        found = &statement;
    }
    if (!found) throw UsageError{"there is no statement " + inQuotes(number) + " in the book"};
    return *found;
}

/// "ticket=Delivery No, date=Del. Date": each a meaning and a heading of the file, or a column's number.
void correct(StatementGuess& guess, const std::string& corrections)
{
    std::string_view rest = corrections;
    while (!rest.empty()) {
        const auto end = rest.find(',');
        const auto part = trimmedCell(rest.substr(0, end));
        rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
        const auto equals = part.find('=');
        const auto name = trimmedCell(part.substr(0, equals));
        const auto choices = choicesOf<StatementColumn>;
        const auto meaning = std::find_if(choices.begin(), choices.end(), [&](const auto& choice) { return choice.code == name; });
        if (equals == std::string_view::npos || meaning == choices.end()) {
            std::string all;
            for (const auto& choice : choices) all += (all.empty() ? "" : ", ") + std::string{choice.code};
            throw UsageError{"--column " + inQuotes(part) + " is not understood; write MEANING=HEADER, where the meaning is one of " + all};
        }
        const auto wanted = trimmedCell(part.substr(equals + 1));
        std::size_t column = guess.columns.size();
        for (std::size_t i = 0; i < guess.headings.size(); ++i)
            if (sameCode(guess.headings[i], wanted)) column = std::min(column, i);
        if (const auto place = parseDecimal(wanted, 0); column == guess.columns.size() && place && *place >= 1) column = static_cast<std::size_t>(*place) - 1;
        if (column >= guess.columns.size()) {
            std::string all;
            for (const auto& heading : guess.headings)
                if (!heading.empty()) all += (all.empty() ? "" : ", ") + heading;
            throw UsageError{"the file has no column " + inQuotes(wanted) + (all.empty() ? "; name it by its number" : "; its headings are " + all)};
        }
        guess.set(static_cast<StatementColumn>(meaning - choices.begin()), column);
    }
}

std::string layoutText(const StatementGuess& guess)
{
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < guess.columns.size(); ++i)
        if (guess.columns[i] != StatementColumn::other)
            parts.push_back(std::string{codeOf(guess.columns[i])} + " from " + (guess.headings[i].empty() ? "column " + std::to_string(i + 1) : inQuotes(guess.headings[i])));
    return "Read " + listed(parts) + ".\n";
}

/// A statement read from a file, as an edit that would keep it.
struct FromFile {
    Statement statement;
    std::vector<StatementLine> lines;
    std::string layout;
    std::vector<std::string> remarks;
};

std::optional<FromFile> readFile(const Arguments& arguments, const Surroundings& surroundings, const Supplier& supplier)
{
    const auto path = *arguments.value("csv");
    std::string fault;
    const auto bytes = readWholeFile(path, fault);
    if (!bytes) {
        surroundings.err << "strikeoff: " << fault << '\n';
        return std::nullopt;
    }
    const auto split = splitText(*bytes);
    if (split.fault) {
        surroundings.err << path << ": " << split.fault->message << "\nstrikeoff: nothing was read\n";
        return std::nullopt;
    }
    auto guess = guessStatement(split.rows, supplier.statementColumns);
    if (const auto corrections = arguments.value("column")) correct(guess, *corrections);
    const auto read = readStatement(split.rows, guess);
    if (!read.fine()) {
        for (const auto& problem : read.problems) surroundings.err << path << ": " << problem << '\n';
        surroundings.err << "strikeoff: " << path << " could not be read whole, so nothing of it was taken; --column MEANING=HEADER says what a column holds\n";
        return std::nullopt;
    }
    FromFile made;
    auto number = arguments.value("statement").value_or(std::filesystem::path{path}.stem().string());
    std::optional<Date> last;
    for (const auto& line : read.lines)
        if (line.date) last = last ? std::max(*last, *line.date) : *line.date;
    made.statement = statementFor(read, supplier.id, std::move(number), arguments.has("date") ? arguments.date(surroundings.today) : last.value_or(surroundings.today));
    made.lines = read.lines;
    made.layout = guess.text();
    made.remarks = guess.remarks;
    made.remarks.insert(made.remarks.end(), read.remarks.begin(), read.remarks.end());
    if (!arguments.has("json")) surroundings.out << layoutText(guess);
    return made;
}

int show(const Book& book, const Statement& statement, const Arguments& arguments, const Surroundings& surroundings)
{
    const auto check = checkStatement(book, statement);
    surroundings.out << (arguments.has("json") ? asJson(book, check) : asText(book, check));
    return check.isOpen() ? needsOwner : done;
}

int runFile(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto name = arguments.value("supplier");
    if (!name) throw UsageError{"--csv needs --supplier: whose statement is it?"};
    const bool keeps = arguments.has("keep");
    const auto store = keeps ? openToWrite(arguments.words[0], surroundings) : openToRead(arguments.words[0]);
    const auto& supplier = supplierNamed(store->book(), *name);
    for (const auto& statement : store->book().all<Statement>())
        if (const auto number = arguments.value("statement").value_or(std::filesystem::path{*arguments.value("csv")}.stem().string()); statement.supplier == supplier.id && sameCode(statement.number, number)) {
            surroundings.err << "strikeoff: statement " << inQuotes(number) << " is in the book already; check it with --statement alone, or give this file another number with --statement\n";
            return faulty;
        }
    auto file = readFile(arguments, surroundings, supplier);
    if (!file) return faulty;
    for (const auto& remark : file->remarks) surroundings.err << "strikeoff: " << remark << '\n';
    Edit edit{"Take in statement " + file->statement.number};
    const auto id = edit.add(file->statement);
    for (auto& line : file->lines) {
        line.statement = id;
        edit.add(line);
    }
    if (keeps) {
        if (auto kept = supplier; kept.statementColumns != file->layout) {
            kept.statementColumns = file->layout;
            edit.change(kept);
        }
        const auto supplierId = supplier.id;
        const auto result = store->commit(std::move(edit));
        if (!result.done()) {
            surroundings.err << result.text() << "\nstrikeoff: nothing was kept\n";
            return faulty;
        }
        for (const auto& statement : store->book().all<Statement>())
            if (statement.supplier == supplierId && statement.number == file->statement.number) return show(store->book(), statement, arguments, surroundings);
        return faulty;
    }
    // The same rows in a copy of the book that nobody keeps.
    Book book = store->book();
    auto& changes = edit.changes();
    const auto statementId = book.lastId(RecordKind::statement) + 1;
    auto lineId = book.lastId(RecordKind::statementLine);
    for (auto& change : changes) {
        if (change.row.kind == RecordKind::statement) change.row.id = statementId;
        else {
            change.row.id = ++lineId;
            change.row.set("statement", statementId);
        }
    }
    const auto outcome = applyEdit(book, edit);
    if (!outcome.problems.empty()) {
        for (const auto& problem : outcome.problems) surroundings.err << "strikeoff: " << problem.message << '\n';
        return faulty;
    }
    return show(book, *book.find(Id<Statement>{statementId}), arguments, surroundings);
}

/// The whole desk: every statement checked, in a row each.
int showDesk(const Arguments& arguments, const Surroundings& surroundings)
{
    const auto store = openToRead(arguments.words[0]);
    const auto& book = store->book();
    const auto desk = ticketDesk(book, surroundings.today);
    const auto supplierOf = [&](const StatementSummary& summary) {
        const auto* supplier = book.find(summary.statement->supplier);
        return supplier ? supplier->name : std::string{};
    };
    bool open = desk.claimsOpen > 0;
    for (const auto& summary : desk.statements) open = open || summary.open > 0;
    if (arguments.has("json")) {
        JsonWriter json;
        json.beginObject().key("statements").beginArray();
        for (const auto& summary : desk.statements)
            json.beginObject().text("statement", summary.statement->number).textOrNull("supplier", supplierOf(summary)).date("date", summary.statement->date).money("billed", summary.lines)
                .whole("tickets_named", summary.ticketsNamed).whole("tickets_found", summary.ticketsFound).whole("open", summary.open).money("in_question", summary.inQuestion).end();
        json.end().whole("claims_open", desk.claimsOpen).money("claimed", desk.claimed).end();
        surroundings.out << json.finished();
        return open ? needsOwner : done;
    }
    surroundings.out << desk.answer << '\n';
    TextTable table;
    table.words("Statement").words("Supplier", 28).words("Date").figures("Lines $").figures("Tickets named").figures("On file").figures("Open").figures("In question $");
    for (const auto& summary : desk.statements)
        table.row({summary.statement->number, supplierOf(summary), summary.statement->date.shown(), summary.lines.shown(), std::to_string(summary.ticketsNamed), std::to_string(summary.ticketsFound),
                   summary.open == 0 ? "" : std::to_string(summary.open), summary.inQuestion.isZero() ? "" : summary.inQuestion.shown()});
    if (!table.empty()) surroundings.out << '\n' << table.text();
    return open ? needsOwner : done;
}

int run(const Arguments& arguments, const Surroundings& surroundings)
{
    if (arguments.has("csv")) return runFile(arguments, surroundings);
    for (const auto* only : {"column", "keep", "date"})
        if (arguments.has(only)) throw UsageError{std::string{"--"} + only + " goes with --csv"};
    const auto number = arguments.value("statement");
    if (!number && arguments.has("supplier")) throw UsageError{"--supplier goes with --statement NUMBER or --csv FILE"};
    if (!number) return showDesk(arguments, surroundings);
    const auto store = openToRead(arguments.words[0]);
    return show(store->book(), statementNumbered(store->book(), *number, arguments.value("supplier")), arguments, surroundings);
}

}

const Verb matchVerb{
    "match",
    "BOOK",
    "the ticket check: a supplier's statement against tickets and price sheets",
    {{"statement", "N", "a statement of the book by its number; with --csv, the number the file gets; every statement in a row when left out"},
     {"csv", "FILE", "a supplier's file instead, in any layout"},
     {"supplier", "S", "whose statement it is"},
     {"column", "WHAT=HEADER", "what a column of the file holds, where the guess is wrong; several parted by commas"},
     {"keep", "", "take the file into the book and remember its layout for the supplier"},
     {"date", "D", "with --csv: the day of the statement; the last day billed when left out"},
     jsonOption},
    "A file is checked without being kept, unless --keep is given. Its columns are known by their headings and by\n"
    "what is in them; WHAT is one of ticket, date, code, description, quantity, unit, price, amount, credit, tax and\n"
    "other, and HEADER is a heading of the file or a column's number. A file that cannot be read whole is not taken.\n"
    "The exit status is 3 while a line waits for you or a claim on one is open.\n",
    run};

}
