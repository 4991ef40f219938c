#include "ready_mix/ticket_desk.h"

#include "cost/job_cost.h"
#include "cost/ticket_billing.h"
#include "quantity/words.h"
#include "ready_mix/expected_charge.h"

#include <algorithm>
#include <set>
#include <unordered_map>
#include <unordered_set>

namespace strikeoff {

namespace {

/// Place of a day among the twelve months, or nothing.
std::optional<std::size_t> placeOf(const TicketDesk& desk, Date day)
{
    const auto first = desk.months.front().month;
    const int place = (day.year() - first.year()) * 12 + day.month() - first.month();
    return place < 0 || place >= 12 ? std::nullopt : std::optional{static_cast<std::size_t>(place)};
}

void addMonths(CostReckoner& reckoner, Date today, const StatementMatches& matches, TicketDesk& desk)
{
    const auto first = monthsOn(firstOfMonth(today), -11);
    for (int i = 0; i < 12; ++i) {
        desk.months.emplace_back();
        desk.months.back().month = monthsOn(first, i);
    }
    const auto& book = reckoner.book();
    const auto billed = billedByTicket(book);
    for (const auto& ticket : book.all<Ticket>()) {
        const auto place = placeOf(desk, ticket.date);
        if (!place) continue;
        auto& month = desk.months[*place];
        ++month.loads;
        month.yards += ticket.yards;
        if (const auto found = billed.find(ticket.id.value()); found != billed.end()) {
            month.billed += found->second;
            continue;
        }
        const auto cost = reckoner.of(ticket);
        if (cost.amount) month.expected += *cost.amount;
        if (!matches.of(ticket).empty()) continue;  // a statement names it, if without an amount
        ++month.notBilled;
        desk.unbilled.push_back({&ticket, cost.amount});
    }
    std::stable_sort(desk.unbilled.begin(), desk.unbilled.end(), [](const auto& a, const auto& b) { return a.ticket->date < b.ticket->date; });
}

/// What the check of a statement leaves open, by month of the load.
void addOpen(const StatementCheck& check, StatementSummary& summary, TicketDesk& desk)
{
    summary.open = check.linesOpen;
    for (const auto& finding : check.lines) {
        if (finding.state == FindingState::open || finding.state == FindingState::claimed) summary.inQuestion += finding.disputed + finding.needsEye;
        if (finding.state != FindingState::open) continue;
        auto day = check.statement->date;
        if (finding.ticket) day = finding.ticket->date;
        else if (finding.line && finding.line->date) day = *finding.line->date;
        if (const auto place = placeOf(desk, day)) ++desk.months[*place].open;
    }
}

void addStatements(const Book& book, const CheckOf& checkOf, TicketDesk& desk)
{
    std::unordered_map<std::int64_t, std::unordered_set<std::string>> numbers;  // of each supplier's tickets
    for (const auto& ticket : book.all<Ticket>()) numbers[ticket.supplier.value()].insert(comparableNumber(ticket.number));
    for (const auto& statement : book.all<Statement>()) {
        StatementSummary summary;
        summary.statement = &statement;
        std::set<std::string> named;
        for (const auto* line : book.referring<&StatementLine::statement>(statement.id)) {
            summary.lines += line->amount;
            ++summary.lineCount;
            if (!line->ticketNumber.empty()) named.insert(comparableNumber(line->ticketNumber));
        }
        summary.ticketsNamed = static_cast<int>(named.size());
        const auto& known = numbers[statement.supplier.value()];
        summary.ticketsFound = static_cast<int>(std::count_if(named.begin(), named.end(), [&](const auto& number) { return known.contains(number); }));
        summary.addsUp = !statement.total || summary.lineCount == 0 || *statement.total == summary.lines;
        if (!statement.approvedOn) ++desk.statementsOpen;
        if (!statement.approvedOn || placeOf(desk, statement.date)) addOpen(checkOf(statement), summary, desk);
        desk.statements.push_back(summary);
    }
    std::stable_sort(desk.statements.begin(), desk.statements.end(), [](const auto& a, const auto& b) { return a.statement->date > b.statement->date; });
}

std::string answerOf(const Book& book, const TicketDesk& desk)
{
    if (book.all<Ticket>().empty() && book.all<Statement>().empty()) return "No tickets and no statements yet.";
    if (desk.statements.empty()) {
        const auto& month = desk.months.back();
        auto text = counted(month.loads, "load", "loads") + " in " + shownMonth(month.month);
        if (month.loads > 0) text += " (" + month.yards.shown(2) + " yd\u00b3)";
        return capitalized(text + "; no statement has come yet.");
    }
    int seen = 0, agree = 0, openFindings = 0;
    Money inQuestion;
    std::set<std::int64_t> suppliers;
    for (const auto& summary : desk.statements) {
        if (summary.statement->approvedOn && !placeOf(desk, summary.statement->date)) continue;
        ++seen;
        openFindings += summary.open;
        inQuestion += summary.inQuestion;
        if (summary.open == 0 && summary.inQuestion.isZero()) ++agree;
        else suppliers.insert(summary.statement->supplier.value());
    }
    if (seen == 0) return "No statement of the last twelve months.";
    std::string text;
    if (agree == seen) text = seen == 1 ? "the one statement of the last twelve months agrees" : "all " + inWords(seen) + " statements of the last twelve months agree";
    else text = inWords(agree) + " of " + counted(seen, "statement", "statements") + (agree == 1 ? " agrees; " : " agree; ") + dollars(inQuestion) + " is in question with "
                + counted(static_cast<std::int64_t>(suppliers.size()), "supplier", "suppliers");
    if (openFindings > 0) text += ", " + counted(openFindings, "finding waits", "findings wait") + " for you";
    if (desk.claimsOpen > 0) text += "; " + dollars(desk.claimed) + " claimed in " + counted(desk.claimsOpen, "open claim", "open claims");
    if (!desk.unbilled.empty()) text += "; " + counted(static_cast<std::int64_t>(desk.unbilled.size()), "load is", "loads are") + " not billed yet";
    return capitalized(text + ".");
}

}

TicketDesk ticketDesk(CostReckoner& reckoner, Date today, const StatementMatches& matches, const CheckOf& checkOf)
{
    const auto& book = reckoner.book();
    TicketDesk desk;
    addMonths(reckoner, today, matches, desk);
    addStatements(book, checkOf, desk);
    for (const auto& claim : book.all<Claim>()) {
        if (claim.creditedOn || claim.droppedOn) continue;
        ++desk.claimsOpen;
        desk.claimed += claim.amount;
    }
    desk.answer = answerOf(book, desk);
    return desk;
}

TicketDesk ticketDesk(const Book& book, Date today)
{
    const StatementDesk checks{book};
    std::unordered_map<std::int64_t, StatementCheck> made;
    CostReckoner reckoner{book};
    return ticketDesk(reckoner, today, checks.matches(), [&](const Statement& statement) -> const StatementCheck& {
        return made.try_emplace(statement.id.value(), checks.check(statement)).first->second;
    });
}

}
