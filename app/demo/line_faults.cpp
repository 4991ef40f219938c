#include "demo/planter.h"

namespace strikeoff::demo {

bool Planter::price(std::size_t index, DraftLoad& load, bool old)
{
    auto* mix = lineOf(load, ChargeKind::mix);
    if (!mix || !mix->unitPrice || !mix->quantity) return false;
    auto billed = *mix->unitPrice;
    std::string from;
    if (old) {
        const auto now = sheetOf(world_, drafts_[index].supplier, load.date);
        const auto before = sheetOf(world_, drafts_[index].supplier, now.front()->effectiveOn - 1);
        if (before.empty() || load.date - now.front()->effectiveOn > 130) return false;
        for (const auto* charge : before)
            if (charge->charge == ChargeKind::mix && charge->code == mix->code) billed = charge->amount;
        from = "by the sheet before";
    } else {
        billed = billed + UnitPrice::ofUnits(random_.pick(9, 19) * 5000);
        from = "by no sheet of theirs";
    }
    if (billed == *mix->unitPrice) return false;
    const auto amount = lineAmount(billed, *mix->quantity);
    const auto off = amount - mix->amount;
    const auto what = opening(load) + mix->code + " billed at " + dollars(billed) + ", " + from
        + "; the sheet of the day says " + dollars(*mix->unitPrice) + '.';
    mix->unitPrice = billed;
    mix->amount = amount;
    const int event = open(index, load, what);
    mark(*mix, load, event, "price_off", off, off, what);
    retax(load, event);
    return true;
}

bool Planter::optionPrice(std::size_t index, DraftLoad& load)
{
    auto* option = lineOf(load, ChargeKind::option);
    if (!option || !option->unitPrice || !option->quantity) return false;
    const auto billed = *option->unitPrice + UnitPrice::ofUnits(1'2500);
    const auto amount = lineAmount(billed, *option->quantity);
    const auto off = amount - option->amount;
    const auto what = opening(load) + option->code + " billed at " + dollars(billed) + "; the sheet says "
        + dollars(*option->unitPrice) + '.';
    option->unitPrice = billed;
    option->amount = amount;
    const int event = open(index, load, what);
    mark(*option, load, event, "price_off", off, off, what);
    retax(load, event);
    return true;
}

bool Planter::moreYards(std::size_t index, DraftLoad& load)
{
    auto* mix = lineOf(load, ChargeKind::mix);
    if (!mix || !mix->unitPrice || load.ticket->yards < Yards::ofWhole(5) || load.ticket->yards > Yards::ofUnits(9'250))
        return false;
    const auto billed = load.ticket->yards + Yards::ofUnits(random_.chance(500) ? 500 : 750);
    mix->quantity = Quantity::ofUnits(billed.units());
    const auto amount = lineAmount(*mix->unitPrice, *mix->quantity);
    const auto off = amount - mix->amount;
    const auto what = opening(load) + shownYards(billed) + " billed, " + shownYards(load.ticket->yards) + " on the ticket.";
    mix->amount = amount;
    const int event = open(index, load, what);
    mark(*mix, load, event, "yards_off", off, off, what);
    retax(load, event);
    return true;
}

DraftLine& Planter::insert(DraftLoad& load, DraftLine line)
{
    auto place = load.lines.end();
    if (!load.lines.empty() && load.lines.back().kind == ChargeKind::tax) --place;
    return *load.lines.insert(place, std::move(line));
}

DraftLine Planter::charge(ChargeKind kind, std::string code, std::string words, Quantity quantity, const char* unit, UnitPrice price,
    bool taxable) const
{
    DraftLine line;
    line.kind = kind;
    line.code = std::move(code);
    line.description = std::move(words);
    line.quantity = quantity;
    line.unit = unit;
    line.unitPrice = price;
    line.amount = lineAmount(price, quantity);
    line.taxable = taxable;
    return line;
}

bool Planter::addFault(std::size_t index, DraftLoad& load, DraftLine line, const char* finding, const std::string& what)
{
    const auto amount = line.amount;
    const bool taxable = line.taxable;
    auto& added = insert(load, std::move(line));
    const int event = open(index, load, what);
    mark(added, load, event, finding, amount, amount, what);
    if (taxable) retax(load, event);
    return true;
}

bool Planter::notOnSheet(std::size_t index, DraftLoad& load)
{
    struct Fee {
        const char* code;
        const char* words;
        int cents;
    };
    constexpr std::array<Fee, 3> fees{{{"PLANT", "Plant opening fee", 35'00}, {"DOC", "Ticket copy and document fee", 12'50},
        {"SEAS", "Seasonal surcharge", 28'00}}};
    const auto& fee = fees[static_cast<std::size_t>(fee_++) % fees.size()];
    return addFault(index, load,
        charge(ChargeKind::load, fee.code, fee.words, Quantity::ofWhole(1), "load", priceOfCents(fee.cents), false),
        "charge_not_on_sheet",
        opening(load) + fee.words + " of " + dollars(Money::ofCents(fee.cents)) + " stands on no sheet.");
}

const SheetCharge* Planter::onSheet(std::size_t supplier, Date date, ChargeKind kind, std::string_view code) const
{
    for (const auto* found : sheetOf(world_, supplier, date))
        if (found->charge == kind && (code.empty() || found->code == code)) return found;
    return nullptr;
}

bool Planter::shortOnFull(std::size_t index, DraftLoad& load)
{
    if (load.ticket->yards < Yards::ofUnits(6'500) || drafts_[index].supplier != 0) return false;
    const auto* ladder = onSheet(0, load.date, ChargeKind::shortLoad, "SHORT6");
    return addFault(index, load,
        charge(ChargeKind::shortLoad, ladder->code, ladder->meaning, Quantity::ofWhole(1), "load", ladder->amount, false),
        "not_earned",
        opening(load) + "short-load charge of " + dollars(ladder->amount) + " on a load of " + shownYards(load.ticket->yards)
            + "; the ladder ends at 6 yd\u00b3.");
}

bool Planter::waiting(std::size_t index, DraftLoad& load)
{
    const auto& ticket = *load.ticket;
    const auto supplier = drafts_[index].supplier;
    if (!ticket.arrivedAt || !ticket.dischargeEndedAt || lineOf(load, ChargeKind::waiting)) return false;
    const auto* rule = onSheet(supplier, load.date, ChargeKind::waiting);
    const int there = ticket.dischargeEndedAt->minutes() - ticket.arrivedAt->minutes();
    const int minutes = supplier == 0 ? random_.pick(12, 27) : 15;
    return addFault(index, load,
        charge(ChargeKind::waiting, rule->code, rule->meaning, Quantity::ofWhole(minutes), "min", rule->amount, false),
        "not_earned",
        opening(load) + "waiting " + std::to_string(minutes) + " min billed; on site " + ticket.arrivedAt->shown()
            + ", empty " + ticket.dischargeEndedAt->shown() + " = " + std::to_string(there) + " min, all of it free for "
            + shownYards(ticket.yards) + '.');
}

bool Planter::optionNotSent(std::size_t index, DraftLoad& load)
{
    const auto supplier = drafts_[index].supplier;
    const std::string code = supplier == 0 ? "ACC" : "NCA";
    if (load.ticket->options.find(code) != std::string::npos || world_.weather.at(load.date).averageF() > 62) return false;
    const auto* option = onSheet(supplier, load.date, ChargeKind::option, code);
    return addFault(index, load,
        charge(ChargeKind::option, code, option->meaning, Quantity::ofUnits(load.ticket->yards.units()), "yd\u00b3",
            option->amount, true),
        "not_earned", opening(load) + "accelerator billed, none on the ticket.");
}

bool Planter::heatNotOrdered(std::size_t index, DraftLoad& load)
{
    if (drafts_[index].supplier != 1 || load.ticket->options.find("HEAT") != std::string::npos) return false;
    const auto* heat = onSheet(1, load.date, ChargeKind::winter);
    if (!isWithin(load.date, *heat->seasonFrom, *heat->seasonTo)) return false;
    return addFault(index, load,
        charge(ChargeKind::winter, heat->code, heat->meaning, Quantity::ofUnits(load.ticket->yards.units()), "yd\u00b3",
            heat->amount, true),
        "not_earned", opening(load) + "hot water billed, which is sent only when ordered; the ticket shows none.");
}

bool Planter::saturday(std::size_t index, DraftLoad& load)
{
    const auto* rule = onSheet(drafts_[index].supplier, load.date, ChargeKind::saturday);
    if (load.date.weekday() == 6 || rule->unit != ChargeUnit::perLoad) return false;
    return addFault(index, load,
        charge(ChargeKind::saturday, rule->code, rule->meaning, Quantity::ofWhole(1), "load", rule->amount, false),
        "not_earned",
        opening(load) + "Saturday delivery billed; the load came on a "
            + std::string{labelOf(static_cast<Weekday>(load.date.weekday()))} + '.');
}

bool Planter::arrivedCold(std::size_t index, DraftLoad& load)
{
    auto* winter = lineOf(load, ChargeKind::winter);
    auto* tax = lineOf(load, ChargeKind::tax);
    if (!winter || !tax || !load.ticket->arrivedAt) return false;
    world_.records.get(load.ticket->id).concreteTempF = 48;
    const auto what =
        opening(load) + "winter service paid, and the load came at 48 \u00b0F; 55 \u00b0F is the least for a slab.";
    const int event = open(index, load, what);
    mark(*winter, load, event, "not_earned", {}, winter->amount, what);
    Money base;
    for (const auto& line : load.lines)
        if (line.taxable) base += line.amount;
    mark(*tax, load, event, "tax_off", {}, tax->amount - percentOf(base - winter->amount, Rate::ofUnits(6'2500)),
        "tax on the winter service", true);
    return true;
}

bool Planter::lineSum(std::size_t index, DraftLoad& load)
{
    auto* mix = lineOf(load, ChargeKind::mix);
    if (!mix || !mix->quantity || !mix->unitPrice) return false;
    const auto off = Money::ofCents(random_.chance(500) ? 100'00 : 27'00);
    const auto what = opening(load) + mix->quantity->text() + " \u00d7 " + dollars(*mix->unitPrice) + " is "
        + dollars(mix->amount) + ", not " + dollars(mix->amount + off) + '.';
    mix->amount += off;
    const int event = open(index, load, what);
    mark(*mix, load, event, "sum_off", off, off, what);
    retax(load, event);
    return true;
}

bool Planter::taxRate(std::size_t index, DraftLoad& load)
{
    auto* tax = lineOf(load, ChargeKind::tax);
    if (!tax) return false;
    Money base, all;
    for (const auto& line : load.lines) {
        if (line.taxable) base += line.amount;
        if (line.kind != ChargeKind::tax) all += line.amount;
    }
    const bool onAll = all != base && random_.chance(500);
    const auto billed = onAll ? percentOf(all, Rate::ofUnits(6'2500)) : percentOf(base, Rate::ofUnits(7'2500));
    const auto off = billed - tax->amount;
    if (off < Money::ofCents(2'00)) return false;
    const auto what = opening(load) + "tax " + dollars(billed)
        + (onAll ? ", reckoned on the fees too" : ", reckoned at 7.25 %") + "; 6.25 % on the taxable lines is "
        + dollars(tax->amount) + '.';
    tax->amount = billed;
    const int event = open(index, load, what);
    mark(*tax, load, event, "tax_off", off, off, what);
    return true;
}

bool Planter::lateDischarge(std::size_t index, DraftLoad& load)
{
    auto& ticket = world_.records.get(load.ticket->id);
    if (!ticket.batchedAt || !ticket.arrivedAt || !ticket.dischargeBeganAt || !ticket.dischargeEndedAt
        || lineOf(load, ChargeKind::waiting) || ticket.date.month() < 6 || ticket.date.month() > 8)
        return false;
    // The truck was long on the road; what it took on site stays as it is.
    ticket.batchedAt = clock(ticket.dischargeEndedAt->minutes() - 112);
    return remark(index, load, opening(load) + "empty 112 min after batching; the limit is 90.");
}

bool Planter::slump(std::size_t index, DraftLoad& load)
{
    auto& ticket = world_.records.get(load.ticket->id);
    if (!ticket.slumpOrdered || !ticket.slump) return false;
    ticket.slump = *ticket.slumpOrdered + Quantity::ofUnits(2'500);
    return remark(index, load,
        opening(load) + "slump " + ticket.slump->shown(1) + " in where " + ticket.slumpOrdered->shown(0)
            + " in was ordered.");
}

bool Planter::remark(std::size_t index, DraftLoad& load, const std::string& what)
{
    auto* mix = lineOf(load, ChargeKind::mix);
    if (!mix) return false;
    const int event = open(index, load, what);
    mark(*mix, load, event, "remark", {}, {}, what);
    return true;
}

}
