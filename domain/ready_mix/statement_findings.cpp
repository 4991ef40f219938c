#include "ready_mix/statement_findings.h"

#include "quantity/words.h"
#include "ready_mix/ticket_check.h"

#include <algorithm>
#include <map>
#include <set>

namespace strikeoff {

namespace {

class StatementChecker {
public:
    StatementChecker(const Book& book, const PriceSheets& sheets, const StatementMatches& matches, const Statement& statement)
        : book_{book}, sheets_{sheets}, matches_{matches}, statement_{statement}, lines_{matches.of(statement)}
    {
        check_.statement = &statement;
    }

    StatementCheck run()
    {
        check_.lines.resize(lines_.size());
        for (std::size_t i = 0; i < lines_.size(); ++i) begin(i);
        for (const auto& [ticket, places] : byTicket_) checkTicketLines(*book_.find(Id<Ticket>{ticket}), places);
        checkStatementTax();
        checkTotal();
        for (auto& finding : check_.lines) apply(finding);
        listUnbilled();
        addUp();
        return std::move(check_);
    }

private:
    const StatementLine& line(std::size_t i) const { return *lines_[i]->line; }

    void begin(std::size_t i)
    {
        const auto& match = *lines_[i];
        auto& finding = check_.lines[i];
        finding.line = match.line;
        finding.ticket = match.ticket;
        finding.how = match.how;
        finding.billed = match.line->amount;
        finding.candidates = match.candidates;
        if (match.line->amount < Money{}) return credit(finding);
        if (match.doubtful) return doubtful(finding);
        if (match.ticket) return byTicket_[match.ticket->id.value()].push_back(i);
        withoutTicket(i);
    }

    void doubtful(LineFinding& finding)
    {
        auto why = openingOf(*finding.line, nullptr);
        if (finding.candidates.empty()) why += "no ticket is sure to be meant.";
        else if (finding.candidates.size() == 1) why += "ticket " + finding.candidates[0].ticket->number + " may be meant (" + finding.candidates[0].fits + "), and may not.";
        else {
            std::vector<std::string> could;
            for (const auto& candidate : finding.candidates) could.push_back(candidate.ticket->number + " of " + candidate.ticket->date.shown() + " (" + candidate.fits + ")");
            why += "more than one ticket could be meant: " + listed(could) + '.';
        }
        leaveToOwner(finding, why);
    }

    void withoutTicket(std::size_t i)
    {
        auto& finding = check_.lines[i];
        const auto& row = line(i);
        if (!row.ticketNumber.empty()) {
            const auto amount = dollars(row.amount);
            return settle(finding, Finding::noTicket, Money{},
                          openingOf(row, nullptr) + amount + (row.leaveUnpaired ? " billed; you parted this line from every ticket." : " billed; there is no such ticket on file, and none near it."));
        }
        const auto* sheet = sheets_.inForce(statement_.supplier, row.date.value_or(statement_.date));
        const auto named = chargeOf(row, sheet);
        if (named.isTax()) return statementTax_.push_back(i);
        const auto what = openingOf(row, nullptr) + chargeName(row, named) + ", " + dollars(row.amount);
        if (!sheet) return leaveToOwner(finding, what + ", names no ticket, and there is no price sheet in force on that day to hold it against.");
        if (!named.charge) return settle(finding, Finding::chargeNotOnSheet, Money{}, what + ", stands on no line of the sheet of " + sheet->effectiveOn.shown() + ", and names no ticket.");
        settle(finding, Finding::noTicket, Money{}, what + ", names no ticket that it could be for.");
    }

    void checkTicketLines(const Ticket& ticket, const std::vector<std::size_t>& places)
    {
        TicketToCheck check{book_, sheets_, ticket, statement_, {}, before(ticket)};
        for (const auto i : places) check.lines.push_back(lines_[i]);
        auto checked = checkTicket(check);
        for (std::size_t k = 0; k < places.size(); ++k) {
            auto& finding = check_.lines[places[k]];
            auto candidates = std::move(finding.candidates);
            finding = std::move(checked.findings[k]);
            finding.candidates = std::move(candidates);
            if (finding.how == PairedHow::near)
                finding.why += " The statement prints " + (finding.line->ticketNumber.empty() ? std::string{"no number"} : "the number " + finding.line->ticketNumber) + ".";
        }
        discount_ += checked.earlyDiscount;
        if (!checked.taxBilled) untaxed_.push_back(std::move(checked));
        for (const auto& remark : ticketRemarks(book_, ticket)) check_.remarks.push_back({&ticket, ticket.date.shown() + ", ticket " + ticket.number + ": " + remark});
    }

    /// What was billed for a ticket before this statement, but for what was given back whole.
    std::vector<BilledBefore> before(const Ticket& ticket) const
    {
        std::vector<BilledBefore> found;
        const auto* sheet = sheets_.inForce(ticket.supplier, ticket.date);
        for (const auto* match : matches_.of(ticket)) {
            if (match->line->statement == statement_.id) break;
            const auto key = chargeKey(*match->line, chargeOf(*match->line, sheet));
            if (match->line->amount < Money{}) {
                const auto reversed = std::find_if(found.begin(), found.end(), [&](const auto& other) { return other.key == key && other.line->amount == -match->line->amount; });
                if (reversed != found.end()) found.erase(reversed);
                continue;
            }
            const auto* claim = creditedClaim(*match->line);
            if (claim && claim->amount >= match->line->amount) continue;
            found.push_back({key, match->line, book_.find(match->line->statement)});
        }
        return found;
    }

    const Claim* creditedClaim(const StatementLine& row) const
    {
        for (const auto* claim : book_.referring<&Claim::line>(row.id))
            if (claim->creditedOn || claim->creditLine) return claim;
        return nullptr;
    }

    /// A tax on no ticket is on all that carry none of their own. It may be reckoned on the whole, on each ticket or on each line: sellers may choose
    /// (Streamlined Sales and Use Tax Agreement, section 324).
    void checkStatementTax()
    {
        if (statementTax_.empty()) return;
        Money onTickets, onLines;
        std::map<Rate, Money> bases;
        for (const auto& checked : untaxed_) {
            onTickets += percentOf(checked.taxable, checked.taxRate);
            bases[checked.taxRate] += checked.taxable;
            for (const auto& amount : checked.taxableLines) onLines += percentOf(amount, checked.taxRate);
        }
        Money onWhole, base;
        for (const auto& [rate, sum] : bases) {
            onWhole += percentOf(sum, rate);
            base += sum;
        }
        Money billed;
        for (const auto i : statementTax_) billed += line(i).amount;
        const bool fine = billed == onWhole || billed == onTickets || billed == onLines;
        auto left = fine ? billed : onTickets;
        for (const auto i : statementTax_) {
            const auto expected = std::min(left, line(i).amount);
            const bool last = i == statementTax_.back();
            const auto due = last ? left : expected;
            left -= due;
            const bool agrees = due == line(i).amount;
            settle(check_.lines[i], agrees ? Finding::agrees : Finding::taxOff, due,
                   openingOf(line(i), nullptr) + "sales tax " + dollars(line(i).amount) + " billed; on " + dollars(base) + " of taxable lines it is " + dollars(fine ? billed : onTickets) + '.');
        }
    }

    void checkTotal()
    {
        Money sum;
        for (const auto* match : lines_) sum += match->line->amount;
        const auto printed = statement_.total.value_or(sum);
        if (printed == sum) return;
        LineFinding finding;
        finding.billed = printed - sum;
        if (lines_.empty()) leaveToOwner(finding, "The statement's total is " + dollars(printed) + ", and none of its lines is in the book yet.");
        else
            settle(finding, Finding::sumOff, Money{},
                   "The statement's total is printed as " + dollars(printed) + "; its lines add up to " + dollars(sum) + ".");
        check_.lines.push_back(std::move(finding));
    }

    /// Credits of this statement: the claim one answers, or looks like it does.
    void credit(LineFinding& finding)
    {
        finding.finding = Finding::credit;
        finding.agreed = finding.billed;
        const auto& row = *finding.line;
        const auto closed = book_.referring<&Claim::creditLine>(row.id);
        auto why = openingOf(row, finding.ticket) + "credit of " + dollars(-row.amount);
        if (!closed.empty()) {
            finding.claim = closed.front();
            finding.expected = row.amount;
            std::vector<std::string> numbers;
            for (const auto* claim : closed) numbers.push_back(claim->number);
            finding.why = why + " for claim " + listed(numbers) + '.';
            return;
        }
        finding.suggested = looksLike(finding);
        finding.why = why + (finding.suggested ? "; it looks like the answer to claim " + finding.suggested->number + " of " + dollars(finding.suggested->amount) + "." : "; no open claim looks like it.");
    }

    const Claim* looksLike(const LineFinding& finding) const
    {
        const Claim* best = nullptr;
        int bestScore = 0;
        for (const auto* claim : book_.referring<&Claim::supplier>(statement_.supplier)) {
            if (!claim->isOpen() || claim->openedOn.days() > statement_.date.days() + MatchLimits::daysOff) continue;
            const auto* about = book_.find(claim->line);
            const bool sameTicket = (finding.ticket && claim->ticket == finding.ticket->id)
                                    || (about && !about->ticketNumber.empty() && finding.line->description.find(about->ticketNumber) != std::string::npos);
            const int score = (sameTicket ? 2 : 0) + (claim->amount == -finding.line->amount ? 3 : 0);
            if (score <= bestScore || score < 2) continue;
            best = claim;
            bestScore = score;
        }
        return best;
    }

    /// What the owner decided about a line, and the claim raised for it.
    void apply(LineFinding& finding)
    {
        const auto& stands = finding.line ? finding.line->standsBecause : statement_.standsBecause;
        if (finding.state != FindingState::open) return;
        if (!stands.empty()) return let(finding, "You let it stand: " + stands + ".");
        if (finding.disputed.isZero()) return;
        const auto* claim = claimFor(finding);
        if (!claim) return;
        finding.claim = claim;
        if (claim->droppedOn) return let(finding, "You let claim " + claim->number + " go: " + claim->droppedReason + ".");
        finding.state = claim->isOpen() ? FindingState::claimed : FindingState::credited;
    }

    static void let(LineFinding& finding, const std::string& why)
    {
        finding.agreed = finding.billed;
        finding.disputed = finding.needsEye = Money{};
        finding.state = FindingState::letStand;
        finding.why += ' ' + why;
    }

    const Claim* claimFor(const LineFinding& finding)
    {
        if (!claimsRead_) readClaims();
        const auto found = claims_.find(finding.line ? loadKey(finding) : std::string{});
        return found == claims_.end() ? nullptr : found->second;
    }

    static std::string loadKey(const LineFinding& finding)
    {
        if (finding.ticket) return "#" + std::to_string(finding.ticket->id.value());
        if (finding.line->ticketNumber.empty()) return "=" + std::to_string(finding.line->id.value());
        return comparableNumber(finding.line->ticketNumber);
    }

    void readClaims()
    {
        claimsRead_ = true;
        for (const auto& finding : check_.lines) {
            if (!finding.line) {
                for (const auto* claim : book_.referring<&Claim::statement>(statement_.id))
                    if (!claim->line) claims_.emplace(std::string{}, claim);
                continue;
            }
            if (finding.disputed.isZero()) continue;
            for (const auto* claim : book_.referring<&Claim::line>(finding.line->id)) {
                const auto [known, fresh] = claims_.emplace(loadKey(finding), claim);
                if (!fresh && claim->isOpen()) known->second = claim;  // the rest of one that was credited in part
            }
        }
    }

    void listUnbilled()
    {
        auto from = statement_.periodFrom, to = statement_.periodTo;
        if (!from || !to) {
            std::optional<Date> first, last;
            for (const auto* match : lines_)
                if (const auto date = match->line->date ? match->line->date : match->ticket ? std::optional{match->ticket->date} : std::nullopt; date && match->line->amount > Money{}) {
                    first = first ? std::min(*first, *date) : *date;
                    last = last ? std::max(*last, *date) : *date;
                }
            if (!from) from = first;
            if (!to) to = last;
        }
        if (!from || !to) return;
        std::set<std::int64_t> candidates;
        for (const auto* match : lines_)
            for (const auto& candidate : match->candidates) candidates.insert(candidate.ticket->id.value());
        for (const auto& ticket : book_.all<Ticket>()) {
            if (ticket.supplier != statement_.supplier || ticket.date < *from || ticket.date > *to || candidates.contains(ticket.id.value())) continue;
            const auto billed = matches_.of(ticket);
            if (std::any_of(billed.begin(), billed.end(), [](const auto* match) { return match->line->amount >= Money{}; })) continue;
            const auto expected = expectedCharge(sheets_, ticket, Words::leftOut);
            check_.unbilled.push_back({&ticket, expected ? std::optional{expected->total} : std::nullopt});
        }
        std::stable_sort(check_.unbilled.begin(), check_.unbilled.end(), [](const auto& a, const auto& b) {
            return std::tie(a.ticket->date, a.ticket->number) < std::tie(b.ticket->date, b.ticket->number);
        });
    }

    void addUp()
    {
        auto& pay = check_.pay;
        for (const auto& finding : check_.lines) {
            check_.billed += finding.billed;
            check_.agreed += finding.agreed;
            check_.disputed += finding.disputed;
            check_.needsEye += finding.needsEye;
            if (finding.expected) check_.expected += *finding.expected;
            else if (finding.needsEye.isZero()) check_.expected += finding.agreed;
            if (finding.state == FindingState::open) ++check_.linesOpen;
            if (finding.finding == Finding::credit && finding.claim) pay.settled -= finding.billed;
        }
        for (const auto* claim : book_.referring<&Claim::supplier>(statement_.supplier))
            if (claim->isOpen()) check_.claimsOpen.push_back(claim);
        std::stable_sort(check_.claimsOpen.begin(), check_.claimsOpen.end(), [](const auto* a, const auto* b) { return a->openedOn < b->openedOn; });
        pay.billed = check_.billed;
        pay.heldBack = check_.disputed + check_.needsEye;
        pay.pay = pay.billed - pay.heldBack + pay.settled;
        pay.discount = discount_;
        pay.payEarly = pay.pay - pay.discount;
        const auto* supplier = book_.find(statement_.supplier);
        const auto lastDay = Date::of(2199, 12, 31)->days();  // no book goes beyond it
        const auto after = [&](std::optional<Date> given, std::optional<std::int32_t> days) {
            return given || !days || statement_.date.days() + *days > lastDay ? given : std::optional{statement_.date + *days};
        };
        pay.earlyUntil = after(statement_.discountUntil, supplier ? supplier->discountDays : std::nullopt);
        pay.dueOn = after(statement_.dueOn, supplier ? supplier->termsDays : std::nullopt);
        pay.sentence = payText(pay);
        check_.answer = answer();
    }

    static std::string payText(const PayThis& pay)
    {
        auto text = "Pay " + dollars(pay.pay);
        if (pay.dueOn) text += " by " + pay.dueOn->shown();
        if (!pay.discount.isZero() && pay.earlyUntil) text += ", or " + dollars(pay.payEarly) + " by " + pay.earlyUntil->shown() + " (" + dollars(pay.discount) + " for paying early)";
        text += '.';
        if (!pay.heldBack.isZero()) text += " " + dollars(pay.heldBack) + " of the " + dollars(pay.billed) + " billed is held back.";
        if (!pay.settled.isZero()) text += " The credits of " + dollars(pay.settled) + " answer what was held back before, so they are not taken off again.";
        return text;
    }

    std::string answer() const
    {
        auto text = "Statement " + statement_.number + ": " + dollars(check_.billed) + " billed, " + dollars(check_.agreed) + " agrees";
        if (!check_.disputed.isZero()) text += ", " + dollars(check_.disputed) + " is in dispute";
        if (!check_.needsEye.isZero()) text += ", " + dollars(check_.needsEye) + " needs your eye";
        text += check_.linesOpen > 0 ? "; " + counted(check_.linesOpen, "line waits", "lines wait") + " for you" : "; nothing waits for you";
        if (!check_.unbilled.empty()) text += "; " + counted(static_cast<std::int64_t>(check_.unbilled.size()), "ticket is", "tickets are") + " on no statement";
        return text + '.';
    }

    const Book& book_;
    const PriceSheets& sheets_;
    const StatementMatches& matches_;
    const Statement& statement_;
    std::vector<const LineMatch*> lines_;
    std::map<std::int64_t, std::vector<std::size_t>> byTicket_;
    std::vector<std::size_t> statementTax_;
    std::vector<CheckedTicket> untaxed_;
    std::map<std::string, const Claim*> claims_;  ///< by load; of the statement as a whole under nothing
    bool claimsRead_ = false;
    Money discount_;
    StatementCheck check_;
};

}

bool StatementCheck::isOpen() const
{
    return std::any_of(lines.begin(), lines.end(), [](const auto& finding) { return finding.state == FindingState::open || finding.state == FindingState::claimed; });
}

StatementDesk::StatementDesk(const Book& book) : book_{book}, sheets_{book}, matches_{book} {}

StatementCheck StatementDesk::check(const Statement& statement) const { return StatementChecker{book_, sheets_, matches_, statement}.run(); }

StatementCheck checkStatement(const Book& book, const Statement& statement) { return StatementDesk{book}.check(statement); }

}
