#include "ready_mix/claims.h"

#include "quantity/words.h"
#include "ready_mix/ticket_check.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

constexpr std::size_t longestReason = 400;

Step cannot(std::string why) { return {std::nullopt, capitalized(std::move(why)), {}}; }

std::string statementName(const Statement& statement) { return "statement " + statement.number; }

std::string cut(std::string text, std::size_t most)
{
    if (text.size() <= most) return text;
    constexpr std::string_view dots = "\u2026";
    auto size = most - dots.size();
    while (size > 0 && (static_cast<unsigned char>(text[size]) & 0xc0) == 0x80) --size;
    return text.substr(0, size) + std::string{dots};
}

std::string withoutBlanks(std::string_view text)
{
    const auto first = text.find_first_not_of(" \t\n");
    return first == std::string_view::npos ? std::string{} : std::string{text.substr(first, text.find_last_not_of(" \t\n") - first + 1)};
}

template <class Change>
Step changeLines(const Book& book, std::span<const StatementLine* const> lines, const char* title, Change change)
{
    Edit edit{title};
    for (const auto* line : lines) {
        auto changed = book.get(line->id);
        const auto before = rowOf(changed).values;
        change(changed);
        if (rowOf(changed).values != before) edit.change(changed);
    }
    if (edit.empty()) return cannot("nothing would change");
    return {std::move(edit), {}, {}};
}

/// The findings that one claim is about: those of one load; what is about no load is by itself.
std::string claimKey(const LineFinding& finding)
{
    if (!finding.line) return "total";
    if (finding.ticket) return "ticket " + std::to_string(finding.ticket->id.value());
    if (!finding.line->ticketNumber.empty()) return "number " + comparableNumber(finding.line->ticketNumber);
    return "line " + std::to_string(finding.line->id.value());
}

std::string reasonOf(const std::vector<const LineFinding*>& findings)
{
    std::string reason;
    std::size_t more = 0;
    bool tax = false;
    Finding first = findings.front()->finding;
    for (const auto* finding : findings) {
        if (finding->follows) tax = true;
        else if (reason.empty()) reason = finding->why;
        else if (finding->finding == first && first == Finding::billedTwice) ++more;
        else if (reason.size() < longestReason / 2) reason += ' ' + sentenceWithoutOpening(*finding);
        else ++more;
    }
    if (reason.empty()) reason = findings.front()->why;
    if (more > 0) reason = cut(reason, longestReason - 60) + " So are " + counted(static_cast<std::int64_t>(more), "more line", "more lines") + " of this load.";
    if (tax) reason = cut(reason, longestReason - 30) + " With the tax on it.";
    return cut(reason, longestReason);
}

}

std::vector<const StatementLine*> linesOfLoad(const Book& book, const StatementLine& line)
{
    if (line.ticketNumber.empty()) return {book.find(line.id)};
    std::vector<const StatementLine*> lines;
    const auto number = comparableNumber(line.ticketNumber);
    for (const auto* other : book.referring<&StatementLine::statement>(line.statement))
        if (other->date == line.date && comparableNumber(other->ticketNumber) == number) lines.push_back(other);
    return lines;
}

Step pairByHand(const Book& book, std::span<const StatementLine* const> lines, const Ticket& ticket)
{
    for (const auto* line : lines)
        if (const auto* statement = book.find(line->statement); statement && statement->supplier != ticket.supplier) return cannot("ticket " + ticket.number + " is another supplier's; choose one of this supplier's");
    return changeLines(book, lines, "Pair statement lines with a ticket", [&](StatementLine& line) {
        line.ticket = ticket.id;
        line.leaveUnpaired = false;
    });
}

Step partByHand(const Book& book, std::span<const StatementLine* const> lines)
{
    return changeLines(book, lines, "Part statement lines from their ticket", [](StatementLine& line) {
        line.ticket.reset();
        line.leaveUnpaired = true;
    });
}

Step forgetPairing(const Book& book, std::span<const StatementLine* const> lines)
{
    return changeLines(book, lines, "Leave statement lines to the match", [](StatementLine& line) {
        line.ticket.reset();
        line.leaveUnpaired = false;
    });
}

Step letStand(const Book& book, const StatementLine& line, const std::string& reason)
{
    for (const auto* claim : book.referring<&Claim::line>(line.id))
        if (claim->isOpen()) return cannot("claim " + claim->number + " is open for this line; let the claim go instead");
    const StatementLine* lines[] = {&line};
    const auto why = withoutBlanks(reason);
    return changeLines(book, lines, why.empty() ? "No longer let a line stand" : "Let a statement line stand", [&](StatementLine& changed) { changed.standsBecause = why; });
}

Step letTotalStand(const Book& book, const Statement& statement, const std::string& reason)
{
    auto changed = book.get(statement.id);
    const auto why = withoutBlanks(reason);
    if (changed.standsBecause == why) return cannot("nothing would change");
    changed.standsBecause = why;
    Edit edit{why.empty() ? "No longer let a total stand" : "Let a statement's total stand"};
    edit.change(changed);
    return {std::move(edit), {}, {}};
}

Step approveStatement(const Book& book, const Statement& statement, Date day)
{
    if (statement.approvedOn) return cannot(statementName(statement) + " was approved on " + statement.approvedOn->shown());
    const auto check = checkStatement(book, statement);
    const auto unsure = std::count_if(check.lines.begin(), check.lines.end(), [](const auto& finding) { return finding.finding == Finding::needsYourEye && finding.state == FindingState::open; });
    if (unsure > 0) return cannot(counted(unsure, "line needs", "lines need") + " your eye first: pair each with its ticket, part it from any, or let it stand");
    Edit edit{"Approve " + statementName(statement)};
    auto approved = book.get(statement.id);
    approved.approvedOn = day;
    edit.change(approved);
    std::vector<std::string> order;
    std::map<std::string, std::vector<const LineFinding*>> causes;
    for (const auto& finding : check.lines) {
        if (finding.state != FindingState::open || finding.disputed.isZero()) continue;
        auto& cause = causes[claimKey(finding)];
        if (cause.empty()) order.push_back(claimKey(finding));
        cause.push_back(&finding);
    }
    Money sum;
    for (const auto& key : order) {
        const auto& findings = causes[key];
        Claim claim;
        claim.supplier = statement.supplier;
        claim.statement = statement.id;
        if (findings.front()->line) claim.line = findings.front()->line->id;
        if (findings.front()->ticket) claim.ticket = findings.front()->ticket->id;
        claim.openedOn = day;
        claim.reason = reasonOf(findings);
        for (const auto* finding : findings) claim.amount += finding->disputed;
        sum += claim.amount;
        edit.add(claim);
    }
    Step step{std::move(edit), {}, {}};
    if (!order.empty()) step.remarks.push_back(capitalized(counted(static_cast<std::int64_t>(order.size()), "claim", "claims")) + " over " + dollars(sum) + " stay open until a credit comes; send the letter.");
    for (const auto& unbilled : check.unbilled) step.remarks.push_back("Ticket " + unbilled.ticket->number + " of " + unbilled.ticket->date.shown() + " is on no statement yet.");
    return step;
}

Step reopenStatement(const Book& book, const Statement& statement)
{
    if (!statement.approvedOn) return cannot(statementName(statement) + " is not approved");
    if (statement.paidOn) return cannot(statementName(statement) + " was paid on " + statement.paidOn->shown() + "; clear that day first");
    Edit edit{"Reopen " + statementName(statement)};
    auto reopened = book.get(statement.id);
    reopened.approvedOn.reset();
    edit.change(reopened);
    Step step{std::nullopt, {}, {}};
    for (const auto* claim : book.referring<&Claim::statement>(statement.id)) {
        if (claim->isOpen()) edit.remove(*claim);
        else step.remarks.push_back("Claim " + claim->number + " was settled and stays.");
    }
    step.edit = std::move(edit);
    return step;
}

Step payStatement(const Book& book, const Statement& statement, Date day)
{
    if (!statement.approvedOn) return cannot("approve " + statementName(statement) + " before it is paid");
    if (statement.paidOn) return cannot(statementName(statement) + " was paid on " + statement.paidOn->shown());
    Edit edit{"Pay " + statementName(statement)};
    auto paid = book.get(statement.id);
    paid.paidOn = day;
    edit.change(paid);
    return {std::move(edit), {}, {}};
}

Step creditClaim(const Book& book, const Claim& claim, const StatementLine& credit)
{
    if (!claim.isOpen()) return cannot("claim " + claim.number + " is not open any more");
    const auto* statement = book.find(credit.statement);
    if (!statement || statement->supplier != claim.supplier) return cannot("the credit is another supplier's");
    if (credit.amount >= Money{}) return cannot("the line is no credit: its amount is " + dollars(credit.amount));
    auto left = -credit.amount;
    for (const auto* other : book.referring<&Claim::creditLine>(credit.id)) left -= other->amount;
    if (left <= Money{}) return cannot("this credit of " + dollars(-credit.amount) + " has answered other claims already");
    Edit edit{"Credit claim " + claim.number};
    Step step{std::nullopt, {}, {}};
    auto answered = book.get(claim.id);
    answered.creditLine = credit.id;
    answered.creditedOn = statement->date;
    if (left < claim.amount) {
        Claim rest = answered;
        rest.id = {};
        rest.number.clear();
        rest.amount = claim.amount - left;
        rest.creditLine.reset();
        rest.creditedOn.reset();
        rest.reason = cut("Rest of claim " + claim.number + ": " + claim.reason, longestReason);
        answered.amount = left;
        edit.add(rest);
        step.remarks.push_back("The credit is " + dollars(rest.amount) + " short; the rest stays open as a claim of its own.");
    } else if (left > claim.amount) step.remarks.push_back("The credit is " + dollars(left - claim.amount) + " more than the claim.");
    edit.change(answered);
    step.edit = std::move(edit);
    return step;
}

Step letClaimGo(const Book& book, const Claim& claim, const std::string& reason, Date day)
{
    if (!claim.isOpen()) return cannot("claim " + claim.number + " is not open any more");
    const auto why = withoutBlanks(reason);
    if (why.empty()) return cannot("say why the claim is let go");
    auto changed = book.get(claim.id);
    changed.droppedOn = day;
    changed.droppedReason = why;
    Edit edit{"Let claim " + claim.number + " go"};
    edit.change(changed);
    return {std::move(edit), {}, {}};
}

}
