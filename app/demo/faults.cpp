#include "demo/statement_draft.h"

#include <algorithm>
#include <functional>
#include <set>

namespace strikeoff::demo {

namespace {

enum class Plant {
    oldPrice, dearPrice, optionPrice, moreYards, notOnSheet, shortOnFull, waiting, optionNotSent, heatNotOrdered, saturday, arrivedCold,
    twice, twiceLater, noTicket, leftOut, lineSum, total, tax, swapped, missingDigit, lateDischarge, slump
};

struct Order {
    Plant what;
    int from;  ///< the first statement, in a hundred of all, in which to look for a load that fits
};
/// About every third statement stays clean. The last two are not checked yet and hold some of each.
constexpr std::array<Order, 45> orders{{
    {Plant::oldPrice, 2},       {Plant::dearPrice, 8},     {Plant::swapped, 10},       {Plant::waiting, 14},       {Plant::notOnSheet, 16},   {Plant::twice, 20},
    {Plant::moreYards, 24},     {Plant::noTicket, 25},     {Plant::tax, 28},           {Plant::missingDigit, 30},  {Plant::shortOnFull, 33},  {Plant::leftOut, 35},
    {Plant::twiceLater, 36},    {Plant::optionNotSent, 5}, {Plant::heatNotOrdered, 0}, {Plant::arrivedCold, 30},   {Plant::lineSum, 42},      {Plant::saturday, 45},
    {Plant::oldPrice, 45},      {Plant::total, 47},        {Plant::swapped, 50},       {Plant::optionPrice, 52},   {Plant::waiting, 55},      {Plant::notOnSheet, 58},
    {Plant::dearPrice, 60},     {Plant::noTicket, 62},     {Plant::moreYards, 65},     {Plant::lateDischarge, 66}, {Plant::slump, 40},        {Plant::twice, 70},
    {Plant::leftOut, 70},       {Plant::missingDigit, 74}, {Plant::tax, 76},           {Plant::shortOnFull, 78},   {Plant::twiceLater, 80},   {Plant::lineSum, 84},
    {Plant::swapped, 84},       {Plant::leftOut, 88},      {Plant::optionNotSent, 30}, {Plant::dearPrice, 94},     {Plant::waiting, 94},      {Plant::missingDigit, 94},
    {Plant::notOnSheet, 97},    {Plant::moreYards, 97},    {Plant::noTicket, 97},
}};

std::string shownYards(Yards yards) { return yards.shown() + " yd\u00b3"; }
std::string dollars(Money money) { return "$" + money.shown(); }
std::string dollars(UnitPrice price) { return "$" + price.shown(); }

/// Edits between two texts, two neighboring characters swapped counted as one.
int editsBetween(const std::string& a, const std::string& b)
{
    std::vector<std::vector<int>> edits(a.size() + 1, std::vector<int>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i)
        for (std::size_t j = 0; j <= b.size(); ++j) {
            auto& cell = edits[i][j];
            if (i == 0 || j == 0) {
                cell = static_cast<int>(i + j);
                continue;
            }
            cell = std::min({edits[i - 1][j] + 1, edits[i][j - 1] + 1, edits[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) cell = std::min(cell, edits[i - 2][j - 2] + 1);
        }
    return edits.back().back();
}

class Planter {
public:
    Planter(World& world, std::vector<DraftStatement>& drafts) : world_{world}, drafts_{drafts} {}

    std::vector<FaultEvent> all()
    {
        for (const auto& order : orders) {
            const auto first = static_cast<std::size_t>(order.from) * drafts_.size() / 100;
            bool done = false;
            for (std::size_t tried = 0; tried < drafts_.size() && !done; ++tried) {
                const auto index = (first + tried) % drafts_.size();
                // Clean ones, and no more than a few faults in any.
                const bool last = drafts_[index].month >= day(2026, 10, 1);
                if ((index % 3 == 1 && !last) || drafts_[index].faults >= (last ? 4 : 3)) continue;
                done = plant(order.what, index);
                if (done) ++drafts_[index].faults;
            }
            if (!done) throw DomainError{"a fault of the demonstration that fits no load: " + std::to_string(static_cast<int>(order.what))};
        }
        return std::move(events_);
    }

private:
    static DraftLine* lineOf(DraftLoad& load, ChargeKind kind)
    {
        for (auto& line : load.lines)
            if (line.kind == kind) return &line;
        return nullptr;
    }

    int open(std::size_t statement, const DraftLoad& load, std::string reason)
    {
        events_.push_back({statement, {}, std::move(reason), load.ticket});
        return static_cast<int>(events_.size()) - 1;
    }

    void mark(DraftLine& line, const DraftLoad& load, int event, const char* finding, Money overSheet, Money comesBack, std::string what, bool follows = false)
    {
        PlantedFault fault;
        if (load.ticket) fault.ticketNumber = load.ticket->number;
        fault.finding = finding;
        fault.overSheet = overSheet;
        fault.comesBack = std::max(comesBack, Money{});
        fault.follows = follows;
        fault.what = std::move(what);
        line.event = event;
        line.fault = std::move(fault);
        events_[static_cast<std::size_t>(event)].comesBack += line.fault->comesBack;
    }

    /// The tax of a load follows what was billed.
    void retax(DraftLoad& load, int event)
    {
        auto* tax = lineOf(load, ChargeKind::tax);
        if (!tax || tax->fault) return;
        Money base;
        for (const auto& line : load.lines)
            if (line.taxable) base += line.amount;
        const auto billed = percentOf(base, Rate::ofUnits(6'2500));
        const auto off = billed - tax->amount;
        if (off.isZero()) return;
        tax->amount = billed;
        mark(*tax, load, event, "tax_off", off, off, "tax on the line that is off", true);
    }

    std::string opening(const DraftLoad& load) const { return load.date.shown() + ", ticket " + load.ticket->number + ": "; }

    bool plant(Plant what, std::size_t index)
    {
        auto& draft = drafts_[index];
        switch (what) {
        case Plant::noTicket: return noTicket(index);
        case Plant::total:
            if (!draft.totalOff.isZero()) return false;
            draft.totalOff = Money::ofCents(90'00);
            wholeFault(draft, "sum_off", draft.totalOff, "the printed total is $90.00 more than its lines");
            events_.push_back({index, draft.totalOff, "Statement " + draft.number + ": the printed total is $90.00 more than the lines add up to.", nullptr});
            return true;
        default: break;
        }
        const auto start = static_cast<std::size_t>(random_.between(0, static_cast<std::int64_t>(draft.loads.size()) - 1));
        for (std::size_t i = 0; i < draft.loads.size(); ++i) {
            const auto place = (start + i) % draft.loads.size();
            auto& load = draft.loads[place];
            if (!load.ticket || load.faulty || load.date.month() != draft.month.month()) continue;
            const auto size = draft.loads.size();
            if (!spoil(what, index, place)) continue;
            // Adding or leaving out a load moves the others.
            if (what != Plant::leftOut && drafts_[index].loads.size() == size) drafts_[index].loads[place].faulty = true;
            return true;
        }
        return false;
    }

    bool spoil(Plant what, std::size_t index, std::size_t place)
    {
        auto& draft = drafts_[index];
        auto& load = draft.loads[place];
        switch (what) {
        case Plant::oldPrice: return price(index, load, true);
        case Plant::dearPrice: return price(index, load, false);
        case Plant::optionPrice: return optionPrice(index, load);
        case Plant::moreYards: return moreYards(index, load);
        case Plant::notOnSheet: return notOnSheet(index, load);
        case Plant::shortOnFull: return shortOnFull(index, load);
        case Plant::waiting: return waiting(index, load);
        case Plant::optionNotSent: return optionNotSent(index, load);
        case Plant::heatNotOrdered: return heatNotOrdered(index, load);
        case Plant::saturday: return saturday(index, load);
        case Plant::arrivedCold: return arrivedCold(index, load);
        case Plant::twice: return twice(index, place);
        case Plant::twiceLater: return twiceLater(index, load);
        case Plant::leftOut: return leftOut(index, place);
        case Plant::lineSum: return lineSum(index, load);
        case Plant::tax: return taxRate(index, load);
        case Plant::swapped: return mistype(index, load, true);
        case Plant::missingDigit: return mistype(index, load, false);
        case Plant::lateDischarge: return lateDischarge(index, load);
        case Plant::slump: return slump(index, load);
        case Plant::noTicket:
        case Plant::total: break;
        }
        return false;
    }

    bool price(std::size_t index, DraftLoad& load, bool old)
    {
        auto* mix = lineOf(load, ChargeKind::mix);
        if (!mix || !mix->unitPrice || !mix->quantity) return false;
        auto billed = *mix->unitPrice;
        std::string from;
        if (old) {
            const auto now = sheetOf(world_, drafts_[index].supplier, load.date);
            const auto before = sheetOf(world_, drafts_[index].supplier, now.front()->effectiveOn - 1);
            if (before.empty() || load.date - now.front()->effectiveOn > 75) return false;
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
        const auto what = opening(load) + mix->code + " billed at " + dollars(billed) + ", " + from + "; the sheet of the day says " + dollars(*mix->unitPrice) + '.';
        mix->unitPrice = billed;
        mix->amount = amount;
        const int event = open(index, load, what);
        mark(*mix, load, event, "price_off", off, off, what);
        retax(load, event);
        return true;
    }

    bool optionPrice(std::size_t index, DraftLoad& load)
    {
        auto* option = lineOf(load, ChargeKind::option);
        if (!option || !option->unitPrice || !option->quantity) return false;
        const auto billed = *option->unitPrice + UnitPrice::ofUnits(1'2500);
        const auto amount = lineAmount(billed, *option->quantity);
        const auto off = amount - option->amount;
        const auto what = opening(load) + option->code + " billed at " + dollars(billed) + "; the sheet says " + dollars(*option->unitPrice) + '.';
        option->unitPrice = billed;
        option->amount = amount;
        const int event = open(index, load, what);
        mark(*option, load, event, "price_off", off, off, what);
        retax(load, event);
        return true;
    }

    bool moreYards(std::size_t index, DraftLoad& load)
    {
        auto* mix = lineOf(load, ChargeKind::mix);
        if (!mix || !mix->unitPrice || load.ticket->yards < Yards::ofWhole(5) || load.ticket->yards > Yards::ofUnits(9'250)) return false;
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

    /// Adds a line before the tax of a load.
    DraftLine& insert(DraftLoad& load, DraftLine line)
    {
        auto place = load.lines.end();
        if (!load.lines.empty() && load.lines.back().kind == ChargeKind::tax) --place;
        return *load.lines.insert(place, std::move(line));
    }

    DraftLine charge(ChargeKind kind, std::string code, std::string words, Quantity quantity, const char* unit, UnitPrice price, bool taxable) const
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

    bool addFault(std::size_t index, DraftLoad& load, DraftLine line, const char* finding, const std::string& what)
    {
        const auto amount = line.amount;
        const bool taxable = line.taxable;
        auto& added = insert(load, std::move(line));
        const int event = open(index, load, what);
        mark(added, load, event, finding, amount, amount, what);
        if (taxable) retax(load, event);
        return true;
    }

    bool notOnSheet(std::size_t index, DraftLoad& load)
    {
        struct Fee {
            const char* code;
            const char* words;
            int cents;
        };
        constexpr std::array<Fee, 3> fees{{{"PLANT", "Plant opening fee", 35'00}, {"DOC", "Ticket copy and document fee", 12'50}, {"SEAS", "Seasonal surcharge", 28'00}}};
        const auto& fee = fees[static_cast<std::size_t>(fee_++) % fees.size()];
        return addFault(index, load, charge(ChargeKind::load, fee.code, fee.words, Quantity::ofWhole(1), "load", priceOfCents(fee.cents), false), "charge_not_on_sheet",
                        opening(load) + fee.words + " of " + dollars(Money::ofCents(fee.cents)) + " stands on no sheet.");
    }

    const SheetCharge* onSheet(std::size_t supplier, Date date, ChargeKind kind, std::string_view code = {}) const
    {
        for (const auto* found : sheetOf(world_, supplier, date))
            if (found->charge == kind && (code.empty() || found->code == code)) return found;
        return nullptr;
    }

    bool shortOnFull(std::size_t index, DraftLoad& load)
    {
        if (load.ticket->yards < Yards::ofUnits(6'500) || drafts_[index].supplier != 0) return false;
        const auto* ladder = onSheet(0, load.date, ChargeKind::shortLoad, "SHORT6");
        return addFault(index, load, charge(ChargeKind::shortLoad, ladder->code, ladder->meaning, Quantity::ofWhole(1), "load", ladder->amount, false), "not_earned",
                        opening(load) + "short-load charge of " + dollars(ladder->amount) + " on a load of " + shownYards(load.ticket->yards) + "; the ladder ends at 6 yd\u00b3.");
    }

    bool waiting(std::size_t index, DraftLoad& load)
    {
        const auto& ticket = *load.ticket;
        const auto supplier = drafts_[index].supplier;
        if (!ticket.arrivedAt || !ticket.dischargeEndedAt || lineOf(load, ChargeKind::waiting)) return false;
        const auto* rule = onSheet(supplier, load.date, ChargeKind::waiting);
        const int there = ticket.dischargeEndedAt->minutes() - ticket.arrivedAt->minutes();
        const int minutes = supplier == 0 ? random_.pick(12, 27) : 15;
        return addFault(index, load, charge(ChargeKind::waiting, rule->code, rule->meaning, Quantity::ofWhole(minutes), "min", rule->amount, false), "not_earned",
                        opening(load) + "waiting " + std::to_string(minutes) + " min billed; on site " + ticket.arrivedAt->shown() + ", empty " + ticket.dischargeEndedAt->shown() + " = " + std::to_string(there)
                            + " min, all of it free for " + shownYards(ticket.yards) + '.');
    }

    bool optionNotSent(std::size_t index, DraftLoad& load)
    {
        const auto supplier = drafts_[index].supplier;
        const std::string code = supplier == 0 ? "ACC" : "NCA";
        if (load.ticket->options.find(code) != std::string::npos || world_.weather.at(load.date).averageF() > 62) return false;
        const auto* option = onSheet(supplier, load.date, ChargeKind::option, code);
        return addFault(index, load, charge(ChargeKind::option, code, option->meaning, Quantity::ofUnits(load.ticket->yards.units()), "yd\u00b3", option->amount, true), "not_earned",
                        opening(load) + "accelerator billed, none on the ticket.");
    }

    bool heatNotOrdered(std::size_t index, DraftLoad& load)
    {
        if (drafts_[index].supplier != 1 || load.ticket->options.find("HEAT") != std::string::npos) return false;
        const auto* heat = onSheet(1, load.date, ChargeKind::winter);
        if (!isWithin(load.date, *heat->seasonFrom, *heat->seasonTo)) return false;
        return addFault(index, load, charge(ChargeKind::winter, heat->code, heat->meaning, Quantity::ofUnits(load.ticket->yards.units()), "yd\u00b3", heat->amount, true), "not_earned",
                        opening(load) + "hot water billed, which is sent only when ordered; the ticket shows none.");
    }

    bool saturday(std::size_t index, DraftLoad& load)
    {
        const auto* rule = onSheet(drafts_[index].supplier, load.date, ChargeKind::saturday);
        if (load.date.weekday() == 6 || rule->unit != ChargeUnit::perLoad) return false;
        return addFault(index, load, charge(ChargeKind::saturday, rule->code, rule->meaning, Quantity::ofWhole(1), "load", rule->amount, false), "not_earned",
                        opening(load) + "Saturday delivery billed; the load came on a " + std::string{labelOf(static_cast<Weekday>(load.date.weekday()))} + '.');
    }

    bool arrivedCold(std::size_t index, DraftLoad& load)
    {
        auto* winter = lineOf(load, ChargeKind::winter);
        auto* tax = lineOf(load, ChargeKind::tax);
        if (!winter || !tax || !load.ticket->arrivedAt) return false;
        world_.records.get(load.ticket->id).concreteTempF = 48;
        const auto what = opening(load) + "winter service paid, and the load came at 48 \u00b0F; 55 \u00b0F is the least for a slab.";
        const int event = open(index, load, what);
        mark(*winter, load, event, "not_earned", {}, winter->amount, what);
        Money base;
        for (const auto& line : load.lines)
            if (line.taxable) base += line.amount;
        mark(*tax, load, event, "tax_off", {}, tax->amount - percentOf(base - winter->amount, Rate::ofUnits(6'2500)), "tax on the winter service", true);
        return true;
    }

    void repeat(std::size_t statement, std::size_t into, std::size_t at, DraftLoad copy, const std::string& what)
    {
        copy.faulty = true;
        const int event = open(statement, copy, what);
        for (auto& line : copy.lines) mark(line, copy, event, "billed_twice", line.amount, line.amount, what);
        auto& loads = drafts_[into].loads;
        loads.insert(loads.begin() + static_cast<std::ptrdiff_t>(at), std::move(copy));
    }

    bool twice(std::size_t index, std::size_t place)
    {
        const auto copy = drafts_[index].loads[place];
        drafts_[index].loads[place].faulty = true;
        repeat(index, index, drafts_[index].loads.size(), copy, opening(copy) + "billed twice on statement " + drafts_[index].number + '.');
        return true;
    }

    bool twiceLater(std::size_t index, DraftLoad& load)
    {
        for (auto next = index + 1; next < drafts_.size() && next <= index + 3; ++next) {
            if (drafts_[next].supplier != drafts_[index].supplier) continue;
            if (drafts_[next].faults >= 3 || next % 3 == 1) return false;
            load.faulty = true;
            ++drafts_[next].faults;
            repeat(next, next, 0, load, opening(load) + "billed on statement " + drafts_[index].number + " and again on " + drafts_[next].number + '.');
            return true;
        }
        return false;
    }

    bool leftOut(std::size_t index, std::size_t place)
    {
        auto& draft = drafts_[index];
        if (draft.numbersFaulty || draft.loads.size() < 3) return false;
        draft.numbersFaulty = true;
        auto& load = draft.loads[place];
        Money expected;
        for (const auto& line : load.lines) expected += line.amount;
        PlantedFault fault;
        fault.ticketNumber = load.ticket->number;
        fault.finding = "unbilled";
        fault.overSheet = -expected;
        fault.what = opening(load) + shownYards(load.ticket->yards) + " on no statement.";
        draft.whole.push_back(fault);
        draft.loads.erase(draft.loads.begin() + static_cast<std::ptrdiff_t>(place));
        return true;
    }

    void wholeFault(DraftStatement& draft, const char* finding, Money off, std::string what)
    {
        PlantedFault fault;
        fault.finding = finding;
        fault.overSheet = off;
        fault.comesBack = off;
        fault.what = std::move(what);
        draft.whole.push_back(fault);
    }

    bool lineSum(std::size_t index, DraftLoad& load)
    {
        auto* mix = lineOf(load, ChargeKind::mix);
        if (!mix || !mix->quantity || !mix->unitPrice) return false;
        const auto off = Money::ofCents(random_.chance(500) ? 100'00 : 27'00);
        const auto what = opening(load) + mix->quantity->shown() + " \u00d7 " + dollars(*mix->unitPrice) + " is " + dollars(mix->amount) + ", not " + dollars(mix->amount + off) + '.';
        mix->amount += off;
        const int event = open(index, load, what);
        mark(*mix, load, event, "sum_off", off, off, what);
        retax(load, event);
        return true;
    }

    bool taxRate(std::size_t index, DraftLoad& load)
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
        const auto what = opening(load) + "tax " + dollars(billed) + (onAll ? ", reckoned on the fees too" : ", reckoned at 7.25 %") + "; 6.25 % on the taxable lines is " + dollars(tax->amount) + '.';
        tax->amount = billed;
        const int event = open(index, load, what);
        mark(*tax, load, event, "tax_off", off, off, what);
        return true;
    }

    /// Whether a number is at least two edits away from every ticket of the supplier but one.
    bool isFarFromOthers(std::size_t supplier, const std::string& number, const Ticket* own) const
    {
        for (const auto& ticket : world_.records.all<Ticket>())
            if (&ticket != own && ticket.supplier == world_.suppliers[supplier] && editsBetween(comparableNumber(ticket.number), comparableNumber(number)) < 2) return false;
        return true;
    }

    bool mistype(std::size_t index, DraftLoad& load, bool swap)
    {
        auto& draft = drafts_[index];
        if (draft.numbersFaulty) return false;
        for (std::size_t i = load.printedNumber.size() - 1; i >= load.printedNumber.size() - 3; --i) {
            auto number = load.printedNumber;
            if (swap) std::swap(number[i], number[i - 1]);
            else number.erase(i, 1);
            if (number == load.printedNumber || !isFarFromOthers(draft.supplier, number, load.ticket)) continue;
            const auto what = opening(load) + "printed as " + number + '.';
            load.printedNumber = number;
            draft.numbersFaulty = true;
            const int event = open(index, load, what);
            for (auto& line : load.lines) mark(line, load, event, "agrees", {}, {}, what);
            return true;
        }
        return false;
    }

    bool lateDischarge(std::size_t index, DraftLoad& load)
    {
        auto& ticket = world_.records.get(load.ticket->id);
        if (!ticket.batchedAt || !ticket.arrivedAt || !ticket.dischargeBeganAt || !ticket.dischargeEndedAt || lineOf(load, ChargeKind::waiting) || ticket.date.month() < 6 || ticket.date.month() > 8) return false;
        // The truck was long on the road; what it took on site stays as it is.
        ticket.batchedAt = clock(ticket.dischargeEndedAt->minutes() - 112);
        return remark(index, load, opening(load) + "empty 112 min after batching; the limit is 90.");
    }

    bool slump(std::size_t index, DraftLoad& load)
    {
        auto& ticket = world_.records.get(load.ticket->id);
        if (!ticket.slumpOrdered || !ticket.slump) return false;
        ticket.slump = *ticket.slumpOrdered + Quantity::ofUnits(2'500);
        return remark(index, load, opening(load) + "slump " + ticket.slump->shown(1) + " in where " + ticket.slumpOrdered->shown(0) + " in was ordered.");
    }

    bool remark(std::size_t index, DraftLoad& load, const std::string& what)
    {
        auto* mix = lineOf(load, ChargeKind::mix);
        if (!mix) return false;
        const int event = open(index, load, what);
        mark(*mix, load, event, "remark", {}, {}, what);
        return true;
    }

    /// Another outfit's load, on a day without one of ours.
    bool noTicket(std::size_t index)
    {
        auto& draft = drafts_[index];
        if (draft.numbersFaulty || draft.loads.size() < 2) return false;
        std::set<Date> taken;
        for (const auto& load : draft.loads) taken.insert(load.date);
        for (int tries = 0; tries < 40; ++tries) {
            const auto date = nextWorkday(draft.month + random_.pick(1, 24));
            if (taken.contains(date) || date.month() != draft.month.month()) continue;
            Ticket stranger;
            stranger.supplier = world_.suppliers[draft.supplier];
            const int counted = (draft.supplier == 0 ? 38'000 + (date - firstDay()) * 47 : 104'500 + (date - firstDay()) * 44) + random_.pick(3, 40);
            stranger.number = (draft.supplier == 0 ? "" : "T-") + std::to_string(counted);
            if (!isFarFromOthers(draft.supplier, stranger.number, nullptr)) continue;
            stranger.date = date;
            stranger.yards = Yards::ofUnits(random_.pick(26, 39) * 250);
            stranger.mix = mixCode(draft.supplier, 4000);
            PriceSheet sheet{stranger.supplier, {}, sheetOf(world_, draft.supplier, date)};
            sheet.effectiveOn = sheet.charges.front()->effectiveOn;
            const auto expected = expectedCharge(stranger, sheet);
            DraftLoad load;
            load.printedNumber = stranger.number;
            load.date = date;
            load.faulty = true;
            const auto what = date.shown() + ", ticket " + stranger.number + ": no such ticket on file, and none of their trucks came that day.";
            for (const auto& line : expected.lines) {
                const auto* charge = onSheet(draft.supplier, date, line.kind, line.code);
                load.lines.push_back(draftLine(line, charge ? charge->meaning : line.description));
            }
            DraftLine tax;
            tax.kind = ChargeKind::tax;
            tax.code = "TAX";
            tax.description = "Sales tax 6.25 %";
            tax.amount = expected.tax;
            load.lines.push_back(tax);
            const int event = open(index, load, what);
            for (auto& line : load.lines) mark(line, load, event, "no_ticket", line.amount, line.amount, what);
            auto place = draft.loads.begin();
            while (place != draft.loads.end() && place->date <= date) ++place;
            draft.loads.insert(place, std::move(load));
            draft.numbersFaulty = true;
            return true;
        }
        return false;
    }

    World& world_;
    std::vector<DraftStatement>& drafts_;
    Random random_{12};
    std::vector<FaultEvent> events_;
    int fee_ = 0;
};

}

std::vector<FaultEvent> plantFaults(World& world, std::vector<DraftStatement>& drafts) { return Planter{world, drafts}.all(); }

}
