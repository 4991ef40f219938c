#include "cost/ticket_billing.h"

#include "ready_mix/codes.h"
#include "ready_mix/expected_charge.h"
#include "ready_mix/statement_match.h"

#include <algorithm>
#include <map>
#include <set>

namespace strikeoff {

std::vector<const Ticket*> ticketsOf(const Book& book, Id<Job> job)
{
    auto tickets = book.referring<&Ticket::job>(job);
    for (const auto* pour : book.referring<&Pour::job>(job))
        for (const auto* ticket : book.referring<&Ticket::pour>(pour->id))
            if (!ticket->job) tickets.push_back(ticket);
    std::sort(tickets.begin(), tickets.end(), [](const Ticket* a, const Ticket* b) { return a->id < b->id; });
    return tickets;
}

namespace {

using BilledParts = std::unordered_map<std::int64_t, std::vector<BilledPart>>;

using ClaimsByCredit = std::unordered_map<std::int64_t, std::vector<const Claim*>>;

ClaimsByCredit claimsByCredit(const Book& book)
{
    ClaimsByCredit found;
    for (const auto& claim : book.all<Claim>())
        if (claim.creditLine) found[claim.creditLine->value()].push_back(&claim);
    return found;
}

const Ticket* ticketOf(const Book& book, const StatementMatches& matches, const Claim& claim)
{
    if (const auto* ticket = book.find(claim.ticket)) return ticket;
    const auto* line = book.find(claim.line);
    return line ? matches.of(line->id).ticket : nullptr;
}

/// Splits a credit over the claims it closes; a claim about no ticket on file keeps its share to itself.
void splitCredit(const Book& book, const StatementMatches& matches, const std::vector<const Claim*>& claims, const StatementLine& credit,
                 BilledParts& billed)
{
    std::vector<std::int64_t> weights;
    std::int64_t sum = 0;
    for (const auto* claim : claims) {
        weights.push_back(std::max<std::int64_t>(claim->amount.cents(), 0));
        sum = checkedAdd(sum, weights.back());
    }
    if (sum == 0) std::fill(weights.begin(), weights.end(), 1);
    const auto shares = split(credit.amount, weights);
    for (std::size_t i = 0; i < claims.size(); ++i)
        if (const auto* ticket = ticketOf(book, matches, *claims[i])) billed[ticket->id.value()].push_back({BilledFrom::credit, &credit, shares[i]});
}

/// Supplier and code of every sheet's sales tax.
std::set<std::pair<std::int64_t, std::string>> taxCodes(const Book& book)
{
    std::set<std::pair<std::int64_t, std::string>> codes;
    for (const auto& charge : book.all<SheetCharge>())
        if (charge.charge == ChargeKind::tax && !charge.code.empty()) codes.emplace(charge.supplier.value(), lowered(charge.code));
    return codes;
}

/// Splits a statement's tax over the tickets its lines name; a ticket that is not on file keeps its share to itself.
void splitTax(const Book& book, const StatementMatches& matches, const Statement& statement, Money tax,
              BilledParts& billed)
{
    std::map<std::string, std::pair<const Ticket*, Money>> named;
    for (const auto* line : book.referring<&StatementLine::statement>(statement.id)) {
        const auto* ticket = matches.of(line->id).ticket;
        if (!ticket && line->ticketNumber.empty()) continue;
        auto& entry = named[ticket ? "#" + std::to_string(ticket->id.value()) : comparableNumber(line->ticketNumber)];
        entry.first = ticket;
        entry.second += line->amount;
    }
    std::vector<std::int64_t> weights;
    std::int64_t sum = 0;
    for (const auto& [key, entry] : named) {
        weights.push_back(std::max<std::int64_t>(entry.second.cents(), 0));
        sum = checkedAdd(sum, weights.back());
    }
    if (sum == 0) return;
    const auto shares = split(tax, weights);
    std::size_t at = 0;
    for (const auto& [key, entry] : named) {
        if (entry.first) billed[entry.first->id.value()].push_back({BilledFrom::tax, nullptr, shares[at]});
        ++at;
    }
}

}

std::unordered_map<std::int64_t, Money> billedByTicket(const Book& book)
{
    std::unordered_map<std::int64_t, Money> billed;
    for (const auto& [ticket, parts] : billedParts(book)) {
        auto& sum = billed[ticket];
        for (const auto& part : parts) sum += part.amount;
    }
    return billed;
}

std::unordered_map<std::int64_t, std::vector<BilledPart>> billedParts(const Book& book)
{
    BilledParts billed;
    if (book.all<StatementLine>().empty()) return billed;
    const StatementMatches matches{book};
    const auto codes = taxCodes(book);
    const auto claims = claimsByCredit(book);
    billed.reserve(book.all<Ticket>().size());
    std::map<std::int64_t, Money> taxes;
    for (const auto& match : matches.all()) {
        const auto& line = *match.line;
        const auto* statement = book.find(line.statement);
        if (!statement) continue;
        if (match.ticket) billed[match.ticket->id.value()].push_back({BilledFrom::line, &line, line.amount});
        else if (const auto closed = claims.find(line.id.value()); closed != claims.end())
            splitCredit(book, matches, closed->second, line, billed);
        else if (line.ticketNumber.empty() && (codes.contains({statement->supplier.value(), lowered(line.code)}) ||
                                               hasWord(line.code, "tax") || hasWord(line.description, "tax")))
            taxes[statement->id.value()] += line.amount;
    }
    for (const auto& [id, tax] : taxes) splitTax(book, matches, *book.find(Id<Statement>{id}), tax, billed);
    return billed;
}

}
