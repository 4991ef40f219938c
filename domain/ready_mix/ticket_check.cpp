#include "ready_mix/ticket_check.h"

#include "quantity/words.h"
#include "ready_mix/billed_loads.h"
#include "ready_mix/codes.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

const auto firstSheetDay = *Date::of(1900, 1, 1);  // before it there are no days

std::string yardsText(Yards yards) { return yards.text() + " yd\u00b3"; }

/// How far off a product may be because the price it was printed with had two decimals only.
Money priceSlack(Quantity quantity)
{
    const auto units = quantity.units() < 0 ? -quantity.units() : quantity.units();
    return Money::ofCents(divideHalfUp(units, 2 * Quantity::one) + 1);
}

Money size(Money amount) { return amount < Money{} ? -amount : amount; }

class Check {
public:
    explicit Check(const TicketToCheck& from) : from_{from}, sheet_{from.sheets.inForce(from.ticket.supplier, from.ticket.date)}
    {
        if (sheet_) expected_ = expectedCharge(from.ticket, *sheet_);
    }

    CheckedTicket run()
    {
        name();
        for (std::size_t i = 0; i < named_.size(); ++i)
            if (!named_[i].isTax() && !done_[i]) checkCharge(i);
        allow();
        for (std::size_t i = 0; i < named_.size(); ++i)
            if (named_[i].isTax() && !done_[i]) checkTax(i);
        return std::move(result_);
    }

private:
    const StatementLine& line(std::size_t i) const { return *from_.lines[i]->line; }
    LineFinding& finding(std::size_t i) { return result_.findings[i]; }
    std::string opening(std::size_t i) const { return openingOf(line(i), &from_.ticket); }
    std::string name(std::size_t i) const { return chargeName(line(i), named_[i]); }
    std::string sheetDay() const { return "the sheet of " + sheet_->effectiveOn.shown(); }

    void name()
    {
        for (const auto* match : from_.lines) {
            named_.push_back(chargeOf(*match->line, sheet_));
            LineFinding finding;
            finding.line = match->line;
            finding.ticket = match->ticket;
            finding.how = match->how;
            finding.billed = match->line->amount;
            result_.findings.push_back(std::move(finding));
        }
        done_.assign(named_.size(), false);
        if (!sheet_) return;
        for (const auto* charge : sheet_->charges)
            if (charge->charge == ChargeKind::tax && charge->unit == ChargeUnit::percent) result_.taxRate += Rate::ofUnits(charge->amount.units());
    }

    const ChargeLine* due(const NamedCharge& named) const
    {
        for (const auto& made : expected_.lines) {
            if (made.kind != named.kind) continue;
            const bool once = named.kind != ChargeKind::option && named.kind != ChargeKind::load;
            if (once || sameCode(made.code, named.code)) return &made;
        }
        return nullptr;
    }

    std::string keyOf(std::size_t i) const { return chargeKey(line(i), named_[i]); }

    const BilledBefore* billedBefore(const std::string& key) const
    {
        for (const auto& before : from_.before)
            if (before.key == key) return &before;
        return nullptr;
    }

    /// The first line of a charge is held against the sheet, what comes after it was billed twice; unless the lines together are the one charge.
    void checkCharge(std::size_t i)
    {
        const auto key = keyOf(i);
        std::vector<std::size_t> same;
        for (std::size_t k = i; k < named_.size(); ++k)
            if (!done_[k] && keyOf(k) == key) same.push_back(k);
        for (const auto k : same) done_[k] = true;
        if (const auto* before = billedBefore(key)) {
            for (const auto k : same) billedTwice(k, "billed before on statement " + before->statement->number + ", line " + std::to_string(before->line->line));
            return;
        }
        if (same.size() > 1 && isOneInParts(same)) return;
        holdAgainstSheet(same.front());
        for (std::size_t k = 1; k < same.size(); ++k) billedTwice(same[k], "line " + std::to_string(line(same.front()).line) + " of this statement bills it already");
    }

    void billedTwice(std::size_t i, const std::string& where)
    {
        settle(finding(i), Finding::billedTwice, Money{}, opening(i) + name(i) + ", " + dollars(line(i).amount) + ", is " + where + '.');
    }

    bool isOneInParts(const std::vector<std::size_t>& parts)
    {
        const auto* made = due(named_[parts.front()]);
        if (!made) return false;
        Money sum;
        for (const auto k : parts) sum += line(k).amount;
        if (size(sum - made->amount) > Money::ofCents(static_cast<std::int64_t>(parts.size()) - 1)) return false;
        for (const auto k : parts)
            settle(finding(k), Finding::agrees, line(k).amount,
                   opening(k) + name(k) + " on " + counted(static_cast<std::int64_t>(parts.size()), "line", "lines") + ", " + dollars(made->amount) + " together, as " + sheetDay() + " has it.");
        return true;
    }

    void holdAgainstSheet(std::size_t i)
    {
        if (!sheet_) return leaveToOwner(finding(i), opening(i) + "there is no price sheet in force on that day to hold " + name(i) + ", " + dollars(line(i).amount) + ", against; enter the sheet.");
        if (const auto* made = due(named_[i])) return compare(i, *made);
        if (!named_[i].charge) return notOnSheet(i);
        notDue(i);
    }

    void compare(std::size_t i, const ChargeLine& made)
    {
        const auto& row = line(i);
        if (row.amount == made.amount) return agree(i, made);
        const bool other = named_[i].kind == ChargeKind::mix && !row.code.empty() && !sameCode(named_[i].code, made.code);
        const auto product = row.quantity && row.unitPrice ? lineAmount(*row.unitPrice, *row.quantity) : row.amount;
        const auto billedText = opening(i) + name(i);
        const bool inYards = made.unit == "yd\u00b3" && (row.unit.empty() || isYardUnit(row.unit));
        const bool quantityOff = row.quantity && (inYards || made.unit == "min") && *row.quantity != made.quantity;
        const bool priceOff = row.unitPrice && *row.unitPrice != made.unitPrice;
        if (product != row.amount && size(product - row.amount) > (priceOff || quantityOff ? priceSlack(*row.quantity) : Money{}))
            return settle(finding(i), Finding::sumOff, made.amount,
                          billedText + ": " + row.quantity->text() + " \u00d7 " + dollars(*row.unitPrice) + " is " + dollars(product) + ", billed " + dollars(row.amount)
                              + (product == made.amount ? "." : "; " + sheetDay() + " makes it " + dollars(made.amount) + "."));
        if (other)
            return settle(finding(i), Finding::priceOff, made.amount,
                          billedText + " billed, " + dollars(row.amount) + "; the ticket shows mix " + made.code + ", " + dollars(made.amount) + " by " + sheetDay() + '.');
        if (made.kind == ChargeKind::waiting) return waitingOff(i, made);
        if (quantityOff && (!priceOff || weighsMore(row, made))) {
            auto why = billedText + ", " + yardsText(Yards::ofUnits(row.quantity->units())) + " billed, " + yardsText(from_.ticket.yards) + " on the ticket";
            if (made.unitPrice != row.unitPrice.value_or(made.unitPrice)) why += "; billed at " + dollars(*row.unitPrice) + ", by the sheet " + dollars(made.unitPrice);
            return settle(finding(i), Finding::yardsOff, made.amount, why + ": " + dollars(row.amount) + " billed, " + dollars(made.amount) + " due.");
        }
        auto why = billedText + " billed at ";
        if (priceOff) why += dollars(*row.unitPrice) + oldSheet(i, *row.unitPrice) + "; " + sheetDay() + " says " + dollars(made.unitPrice) + ": ";
        else why += dollars(row.amount) + "; " + sheetDay() + " makes it " + dollars(made.amount) + ": " + made.rule + ": ";
        settle(finding(i), Finding::priceOff, made.amount, why + dollars(row.amount) + " billed, " + dollars(made.amount) + " due.");
    }

    static bool weighsMore(const StatementLine& row, const ChargeLine& made)
    {
        return size(lineAmount(made.unitPrice, *row.quantity - made.quantity)) > size(lineAmount(*row.unitPrice - made.unitPrice, made.quantity));
    }

    /// ", the price until Jan 31, 2026" when it is the one of the sheet before.
    std::string oldSheet(std::size_t i, UnitPrice billed) const
    {
        if (sheet_->effectiveOn <= firstSheetDay) return {};
        const auto* before = from_.sheets.inForce(from_.ticket.supplier, sheet_->effectiveOn - 1);
        if (!before) return {};
        for (const auto* charge : before->charges)
            if (charge->charge == named_[i].kind && sameCode(charge->code, named_[i].code) && charge->amount == billed) return ", the price of the sheet of " + before->effectiveOn.shown();
        return {};
    }

    void waitingOff(std::size_t i, const ChargeLine& made)
    {
        const auto& row = line(i);
        auto why = opening(i) + "waiting ";
        why += row.quantity ? row.quantity->text() + " min billed" : dollars(row.amount) + " billed";
        why += "; " + waitingOf(from_.ticket, *named_[i].charge).rule + ": " + dollars(made.amount) + " due.";
        const bool longer = row.quantity && *row.quantity != made.quantity;
        settle(finding(i), longer || !row.unitPrice ? Finding::notEarned : Finding::priceOff, made.amount, why);
    }

    void agree(std::size_t i, const ChargeLine& made)
    {
        if (isHeat(i) && arrivedCold(i)) return;
        auto why = opening(i) + name(i) + ", " + dollars(line(i).amount) + ", as " + sheetDay() + " has it: " + made.rule + '.';
        if (isHeat(i) && !from_.ticket.concreteTempF) why += " The temperature at arrival is not recorded, which proves nothing.";
        settle(finding(i), Finding::agrees, made.amount, why);
    }

    bool isHeat(std::size_t i) const
    {
        if (named_[i].kind == ChargeKind::winter) return true;
        const auto codes = parseOptions(from_.book.settings().heatCodes);
        return codes && !named_[i].code.empty() && std::any_of(codes->begin(), codes->end(), [&](const auto& option) { return sameCode(option.code, named_[i].code); });
    }

    bool arrivedCold(std::size_t i)
    {
        if (!from_.ticket.concreteTempF) return false;
        const int least = leastConcreteTempF(from_.book.settings(), thickestSection());
        if (*from_.ticket.concreteTempF >= least) return false;
        settle(finding(i), Finding::notEarned, Money{},
               opening(i) + name(i) + " paid, " + dollars(line(i).amount) + ", and the load arrived at " + std::to_string(*from_.ticket.concreteTempF) + " \u00b0F; "
                   + std::to_string(least) + " \u00b0F is the least for this section.");
        return true;
    }

    std::optional<TapeLength> thickestSection() const
    {
        auto job = from_.ticket.job;
        if (const auto* pour = from_.book.find(from_.ticket.pour); !job && pour) job = pour->job;
        std::optional<TapeLength> thickest;
        if (!job) return thickest;
        for (const auto* section : from_.book.referring<&TakeoffSection::job>(*job))
            if (section->thickness && (!thickest || *section->thickness > *thickest)) thickest = section->thickness;
        return thickest;
    }

    void notOnSheet(std::size_t i)
    {
        settle(finding(i), Finding::chargeNotOnSheet, Money{}, opening(i) + name(i) + ", " + dollars(line(i).amount) + ", stands on no line of " + sheetDay() + '.');
    }

    /// A ticket of which only number, day and yards could be read shows nothing either way.
    bool isBare() const
    {
        const auto& t = from_.ticket;
        return t.mix.empty() && t.options.empty() && !t.batchedAt && !t.arrivedAt && !t.dischargeBeganAt && !t.dischargeEndedAt;
    }

    void unproven(std::size_t i, const std::string& what)
    {
        settle(finding(i), Finding::agrees, line(i).amount, opening(i) + name(i) + ", " + dollars(line(i).amount) + ": " + what + ", which proves nothing; taken as billed.");
        finding(i).expected.reset();
    }

    void notEarned(std::size_t i, const std::string& what)
    {
        settle(finding(i), Finding::notEarned, Money{}, opening(i) + name(i) + ", " + dollars(line(i).amount) + " billed; " + what + '.');
    }

    /// On the sheet, and not due on this load: says why.
    void notDue(std::size_t i)
    {
        const auto& charge = *named_[i].charge;
        const auto& ticket = from_.ticket;
        switch (named_[i].kind) {
        case ChargeKind::mix: return otherMix(i);
        case ChargeKind::shortLoad: {
            std::optional<Yards> ends;
            for (const auto* other : sheet_->charges)
                if (other->charge == ChargeKind::shortLoad && other->toYards && (!ends || *other->toYards > *ends)) ends = other->toYards;
            return notEarned(i, "the load is " + yardsText(ticket.yards) + (ends ? ", and the short-load charge ends at " + yardsText(*ends) : ""));
        }
        case ChargeKind::waiting: {
            const auto waiting = waitingOf(ticket, charge);
            if (!waiting.onSite) return unproven(i, waiting.rule);
            const auto minutes = line(i).quantity ? line(i).quantity->text() + " min" : dollars(line(i).amount);
            return settle(finding(i), Finding::notEarned, Money{}, opening(i) + "waiting " + minutes + " billed; " + waiting.rule + '.');
        }
        case ChargeKind::saturday:
            return notEarned(i, "the load came on a " + std::string{labelOf(static_cast<Weekday>(ticket.date.weekday()))});
        case ChargeKind::returned:
            if (!ticket.returnedYards) return leaveToOwner(finding(i), opening(i) + name(i) + ", " + dollars(line(i).amount) + " billed; the ticket records nothing sent back, which proves nothing. Was any?");
            return notEarned(i, "nothing was sent back by the ticket");
        case ChargeKind::winter:
            if (charge.seasonFrom && charge.seasonTo && !isWithin(ticket.date, *charge.seasonFrom, *charge.seasonTo))
                return notEarned(i, "its season is " + charge.seasonFrom->text() + " to " + charge.seasonTo->text());
            [[fallthrough]];
        case ChargeKind::option:
        case ChargeKind::afterHours:
        case ChargeKind::holiday:
            if (isBare()) return unproven(i, "what was batched is not recorded on the ticket");
            return notEarned(i, "the ticket shows none");
        default: return notEarned(i, "the sheet has it, but not for a load of " + yardsText(ticket.yards) + (charge.onlyWhenOrdered ? " that did not order it" : ""));
        }
    }

    void otherMix(std::size_t i)
    {
        const auto& row = line(i);
        const auto& ticket = from_.ticket;
        if (!ticket.mix.empty()) return leaveToOwner(finding(i), opening(i) + name(i) + ", " + dollars(row.amount) + "; the ticket's mix " + ticket.mix + " is not on " + sheetDay() + ". Is it the same?");
        // The ticket does not say which mix it was: the billed one by the sheet, for the ticket's yards.
        auto asBilled = ticket;
        asBilled.mix = named_[i].charge->code;
        for (const auto& made : expectedCharge(asBilled, *sheet_).lines)
            if (made.kind == ChargeKind::mix) {
                compare(i, made);
                finding(i).why += " The ticket's mix is not recorded, which proves nothing.";
                return;
            }
        notOnSheet(i);
    }

    /// What tax is due on: of every line what it should be.
    void allow()
    {
        Money net;
        bool mixHere = false;
        for (std::size_t i = 0; i < named_.size(); ++i) {
            const auto& found = finding(i);
            if (named_[i].isTax()) {
                result_.taxBilled = true;
                continue;
            }
            net += found.agreed;
            mixHere = mixHere || (named_[i].kind == ChargeKind::mix && found.finding != Finding::billedTwice);
            if (!named_[i].charge || !named_[i].charge->taxable) continue;
            billedTaxable_ += found.billed;
            const bool asBilled = !line(i).standsBecause.empty() || !found.needsEye.isZero() || !found.expected;
            result_.taxableLines.push_back(asBilled ? found.billed : *found.expected);
            result_.taxable += result_.taxableLines.back();
        }
        if (mixHere) result_.earlyDiscount = discountOn(net);
    }

    /// A percentage is of what is paid before tax; else it is the sheet's for the ticket.
    Money discountOn(Money net) const
    {
        Rate rate;
        for (const auto* charge : sheet_ ? sheet_->charges : std::vector<const SheetCharge*>{})
            if (charge->charge == ChargeKind::discount && charge->unit == ChargeUnit::percent) rate += Rate::ofUnits(charge->amount.units());
        return rate.isZero() ? expected_.earlyDiscount : percentOf(net, rate);
    }

    void checkTax(std::size_t i)
    {
        std::vector<std::size_t> same;
        for (std::size_t k = i; k < named_.size(); ++k)
            if (named_[k].isTax()) same.push_back(k);
        for (const auto k : same) done_[k] = true;
        if (const auto* before = billedBefore(named_[i].key())) {
            for (const auto k : same) billedTwice(k, "billed before on statement " + before->statement->number + ", line " + std::to_string(before->line->line));
            return;
        }
        if (!sheet_) return holdAgainstSheet(i);
        const auto expected = percentOf(result_.taxable, result_.taxRate);
        Money sum;
        for (const auto k : same) sum += line(k).amount;
        Money byLine;  // a seller may also tax each line (Streamlined Sales and Use Tax Agreement, section 324)
        for (const auto& amount : result_.taxableLines) byLine += percentOf(amount, result_.taxRate);
        if (same.size() > 1 && (sum == expected || sum == byLine)) {
            for (const auto k : same) settle(finding(k), Finding::agrees, line(k).amount, opening(k) + "its part of the tax on this load.");
            return;
        }
        for (std::size_t k = 1; k < same.size(); ++k) billedTwice(same[k], "line " + std::to_string(line(i).line) + " of this statement bills it already");
        taxOff(i, expected);
    }

    void taxOff(std::size_t i, Money expected)
    {
        const auto& row = line(i);
        if (result_.taxRate.isZero()) return notOnSheet(i);
        const auto rule = result_.taxRate.text() + "% on " + dollars(result_.taxable) + " is " + dollars(expected);
        if (row.amount == expected) return settle(finding(i), Finding::agrees, expected, opening(i) + "sales tax, " + rule + '.');
        const bool follows = row.amount == percentOf(billedTaxable_, result_.taxRate);
        settle(finding(i), Finding::taxOff, expected,
               opening(i) + "sales tax " + dollars(row.amount) + (follows ? " on lines that are off" : " billed") + "; " + rule + '.');
        finding(i).follows = follows;
    }

    const TicketToCheck& from_;
    const PriceSheet* sheet_;
    ExpectedCharge expected_;
    std::vector<NamedCharge> named_;
    std::vector<bool> done_;
    Money billedTaxable_;
    CheckedTicket result_;
};

}

CheckedTicket checkTicket(const TicketToCheck& check) { return Check{check}.run(); }

void settle(LineFinding& finding, Finding what, std::optional<Money> expected, std::string why)
{
    finding.finding = what;
    finding.expected = expected;
    finding.difference = expected ? finding.billed - *expected : Money{};
    finding.disputed = std::max(finding.difference, Money{});
    finding.agreed = finding.billed - finding.disputed;
    finding.needsEye = Money{};
    finding.state = finding.disputed.isZero() ? FindingState::settled : FindingState::open;
    finding.why = std::move(why);
}

void leaveToOwner(LineFinding& finding, std::string why)
{
    finding.finding = Finding::needsYourEye;
    finding.expected.reset();
    finding.difference = finding.agreed = finding.disputed = Money{};
    finding.needsEye = finding.billed;
    finding.state = FindingState::open;
    finding.why = std::move(why);
}

std::string openingOf(const StatementLine& line, const Ticket* ticket)
{
    const auto date = line.date ? line.date : ticket ? std::optional{ticket->date} : std::nullopt;
    std::string text = date ? date->shown() : std::string{};
    const auto& number = ticket ? ticket->number : line.ticketNumber;
    if (!number.empty()) text += (text.empty() ? "Ticket " : ", ticket ") + number;
    if (text.empty()) text = "Line " + std::to_string(line.line);
    return text + ": ";
}

std::string sentenceWithoutOpening(const LineFinding& finding)
{
    if (!finding.line) return finding.why;
    for (const auto* ticket : {finding.ticket, static_cast<const Ticket*>(nullptr)})
        if (const auto opening = openingOf(*finding.line, ticket); finding.why.starts_with(opening)) return capitalized(finding.why.substr(opening.size()));
    return finding.why;
}

std::string dollars(UnitPrice price)
{
    // As many decimals as the price has, two at least.
    auto text = price.text();
    const auto point = text.find('.');
    return (price < UnitPrice{} ? "\u2212$" : "$") + (price < UnitPrice{} ? -price : price).shown(static_cast<int>(text.size() - point - 1));
}

}
