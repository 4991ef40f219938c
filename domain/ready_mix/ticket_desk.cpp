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

void addMonths(const Book& book, Date today, TicketDesk& desk)
{
    const auto first = monthsOn(firstOfMonth(today), -11);
    for (int i = 0; i < 12; ++i) desk.months.push_back({monthsOn(first, i), 0, {}, {}, {}, 0});
    const auto billed = billedByTicket(book);
    CostReckoner reckoner{book};
    for (const auto& ticket : book.all<Ticket>()) {
        const int place = (ticket.date.year() - first.year()) * 12 + ticket.date.month() - first.month();
        if (place < 0 || place >= 12) continue;
        auto& month = desk.months[static_cast<std::size_t>(place)];
        ++month.loads;
        month.yards += ticket.yards;
        if (const auto found = billed.find(ticket.id.value()); found != billed.end()) {
            month.billed += found->second;
        } else {
            ++month.notBilled;
            if (const auto cost = reckoner.of(ticket); cost.amount) month.expected += *cost.amount;
        }
    }
}

void addStatements(const Book& book, TicketDesk& desk)
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
        desk.statements.push_back(summary);
    }
    std::stable_sort(desk.statements.begin(), desk.statements.end(), [](const auto& a, const auto& b) { return a.statement->date > b.statement->date; });
}

std::string answerOf(const Book& book, const TicketDesk& desk)
{
    if (book.all<Ticket>().empty() && book.all<Statement>().empty()) return "No tickets and no statements yet.";
    const auto& month = desk.months.back();
    auto text = counted(month.loads, "load", "loads") + " in " + shownMonth(month.month);
    if (month.loads > 0) text += " (" + month.yards.shown(2) + " yd\u00b3)";
    text += "; " + (desk.statementsOpen == 0 ? std::string{"every statement is approved"} : counted(desk.statementsOpen, "statement waits", "statements wait") + " to be checked");
    if (desk.claimsOpen > 0) text += "; " + dollars(desk.claimed) + " claimed in " + counted(desk.claimsOpen, "open claim", "open claims");
    return capitalized(text + ".");
}

}

TicketDesk ticketDesk(const Book& book, Date today)
{
    TicketDesk desk;
    addMonths(book, today, desk);
    addStatements(book, desk);
    for (const auto& claim : book.all<Claim>()) {
        if (claim.creditedOn || claim.droppedOn) continue;
        ++desk.claimsOpen;
        desk.claimed += claim.amount;
    }
    desk.answer = answerOf(book, desk);
    return desk;
}

}
