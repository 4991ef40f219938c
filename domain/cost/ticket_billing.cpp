#include "cost/ticket_billing.h"

#include "ready_mix/expected_charge.h"

#include <algorithm>
#include <cctype>
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

constexpr int daysOff = 5;
constexpr int daysBeforeStatement = 120;

std::string numberKey(Id<Supplier> supplier, std::string_view number)
{
    const auto comparable = comparableNumber(number);
    return comparable.empty() ? std::string{} : std::to_string(supplier.value()) + ':' + comparable;
}

using TicketsByNumber = std::unordered_map<std::string, std::vector<const Ticket*>>;

TicketsByNumber ticketsByNumber(const Book& book)
{
    TicketsByNumber found;
    found.reserve(book.all<Ticket>().size());
    for (const auto& ticket : book.all<Ticket>())
        if (auto key = numberKey(ticket.supplier, ticket.number); !key.empty()) found[std::move(key)].push_back(&ticket);
    return found;
}

const Ticket* nearest(const std::vector<const Ticket*>& tickets, const Statement& statement, std::optional<Date> date)
{
    const Ticket* best = nullptr;
    int bestAway = 0;
    bool tied = false;
    for (const auto* ticket : tickets) {
        const int after = ticket->date - date.value_or(statement.date);
        if (after > daysOff || after < -(date ? daysOff : daysBeforeStatement)) continue;
        const int away = std::abs(after);
        if (best && away == bestAway) tied = true;
        if (best && away >= bestAway) continue;
        best = ticket;
        bestAway = away;
        tied = false;
    }
    return tied ? nullptr : best;
}

const Ticket* ticketOf(const Book& book, const TicketsByNumber& byNumber, const Statement& statement, const StatementLine& line)
{
    if (const auto* paired = book.find(line.ticket)) return paired;
    if (line.ticketNumber.empty()) return nullptr;
    const auto found = byNumber.find(numberKey(statement.supplier, line.ticketNumber));
    return found == byNumber.end() ? nullptr : nearest(found->second, statement, line.date);
}

std::string lowered(std::string_view text)
{
    std::string out{text};
    std::transform(out.begin(), out.end(), out.begin(), [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return out;
}

bool hasWord(std::string_view text, std::string_view word)
{
    const auto plain = lowered(text);
    const auto isLetter = [&](std::size_t at) { return at < plain.size() && std::isalpha(static_cast<unsigned char>(plain[at])); };
    for (auto at = plain.find(word); at != std::string::npos; at = plain.find(word, at + 1))
        if ((at == 0 || !isLetter(at - 1)) && !isLetter(at + word.size())) return true;
    return false;
}

using ClaimsByCredit = std::unordered_map<std::int64_t, std::vector<const Claim*>>;

ClaimsByCredit claimsByCredit(const Book& book)
{
    ClaimsByCredit found;
    for (const auto& claim : book.all<Claim>())
        if (claim.creditLine) found[claim.creditLine->value()].push_back(&claim);
    return found;
}

const Ticket* ticketOf(const Book& book, const TicketsByNumber& byNumber, const Claim& claim)
{
    if (const auto* ticket = book.find(claim.ticket)) return ticket;
    const auto* line = book.find(claim.line);
    const auto* statement = line ? book.find(line->statement) : nullptr;
    return statement ? ticketOf(book, byNumber, *statement, *line) : nullptr;
}

/// Splits a credit over the claims it closes; a claim about no ticket on file keeps its share to itself.
void splitCredit(const Book& book, const TicketsByNumber& byNumber, const std::vector<const Claim*>& claims, Money credit,
                 std::unordered_map<std::int64_t, Money>& billed)
{
    std::vector<std::int64_t> weights;
    std::int64_t sum = 0;
    for (const auto* claim : claims) {
        weights.push_back(std::max<std::int64_t>(claim->amount.cents(), 0));
        sum = checkedAdd(sum, weights.back());
    }
    if (sum == 0) std::fill(weights.begin(), weights.end(), 1);
    const auto shares = split(credit, weights);
    for (std::size_t i = 0; i < claims.size(); ++i)
        if (const auto* ticket = ticketOf(book, byNumber, *claims[i])) billed[ticket->id.value()] += shares[i];
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
void splitTax(const Book& book, const TicketsByNumber& byNumber, const Statement& statement, Money tax,
              std::unordered_map<std::int64_t, Money>& billed)
{
    std::map<std::string, std::pair<const Ticket*, Money>> named;
    for (const auto* line : book.referring<&StatementLine::statement>(statement.id)) {
        const auto* ticket = ticketOf(book, byNumber, statement, *line);
        if (!ticket && line->ticketNumber.empty()) continue;
        auto& entry = named[ticket ? "#" + std::to_string(ticket->id.value()) : numberKey(statement.supplier, line->ticketNumber)];
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
        if (entry.first) billed[entry.first->id.value()] += shares[at];
        ++at;
    }
}

}

std::unordered_map<std::int64_t, Money> billedByTicket(const Book& book)
{
    std::unordered_map<std::int64_t, Money> billed;
    if (book.all<StatementLine>().empty()) return billed;
    const auto byNumber = ticketsByNumber(book);
    const auto codes = taxCodes(book);
    const auto claims = claimsByCredit(book);
    billed.reserve(book.all<Ticket>().size());
    std::map<std::int64_t, Money> taxes;
    for (const auto& line : book.all<StatementLine>()) {
        const auto* statement = book.find(line.statement);
        if (!statement) continue;
        if (const auto* ticket = ticketOf(book, byNumber, *statement, line)) billed[ticket->id.value()] += line.amount;
        else if (const auto closed = claims.find(line.id.value()); closed != claims.end())
            splitCredit(book, byNumber, closed->second, line.amount, billed);
        else if (line.ticketNumber.empty() && (codes.contains({statement->supplier.value(), lowered(line.code)}) ||
                                               hasWord(line.code, "tax") || hasWord(line.description, "tax")))
            taxes[statement->id.value()] += line.amount;
    }
    for (const auto& [id, tax] : taxes) splitTax(book, byNumber, *book.find(Id<Statement>{id}), tax, billed);
    return billed;
}

}
