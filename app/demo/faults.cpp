#include "demo/planter.h"

#include <algorithm>

namespace strikeoff::demo {

namespace {

struct Order {
    Plant what;
    int from;  ///< the first statement, in a hundred of all, in which to look for a load that fits
};
/// About every fourth statement stays clean. The last two are not checked yet and hold some of each.
constexpr std::array<Order, 45> orders{{
    {Plant::heatNotOrdered, 0}, {Plant::oldPrice, 2}, {Plant::dearPrice, 8}, {Plant::swapped, 10}, {Plant::waiting, 14},
    {Plant::notOnSheet, 16}, {Plant::twice, 20}, {Plant::moreYards, 24}, {Plant::noTicket, 25}, {Plant::tax, 28},
    {Plant::missingDigit, 30}, {Plant::shortOnFull, 33}, {Plant::leftOut, 35}, {Plant::twiceLater, 36},
    {Plant::optionNotSent, 5}, {Plant::arrivedCold, 30}, {Plant::lineSum, 42}, {Plant::saturday, 45},
    {Plant::oldPrice, 45}, {Plant::total, 96}, {Plant::swapped, 50}, {Plant::optionPrice, 52}, {Plant::waiting, 55},
    {Plant::notOnSheet, 58}, {Plant::dearPrice, 60}, {Plant::noTicket, 62}, {Plant::moreYards, 65},
    {Plant::lateDischarge, 66}, {Plant::slump, 40}, {Plant::twice, 70}, {Plant::leftOut, 70}, {Plant::missingDigit, 74},
    {Plant::tax, 76}, {Plant::shortOnFull, 78}, {Plant::twiceLater, 80}, {Plant::lineSum, 84}, {Plant::swapped, 84},
    {Plant::leftOut, 88}, {Plant::optionNotSent, 30}, {Plant::dearPrice, 94}, {Plant::waiting, 94},
    {Plant::missingDigit, 94}, {Plant::notOnSheet, 97}, {Plant::moreYards, 97}, {Plant::noTicket, 97},
}};

}

std::vector<FaultEvent> Planter::all()
{
    for (const auto& order : orders) {
        const auto first = static_cast<std::size_t>(order.from) * drafts_.size() / 100;
        bool done = false;
        for (std::size_t tried = 0; tried < drafts_.size() && !done; ++tried) {
            const auto index = (first + tried) % drafts_.size();
            // Clean ones, and no more than a few faults in any.
            const bool last = drafts_[index].month >= day(2026, 10, 1);
            if ((index % 4 == 1 && !last) || drafts_[index].faults >= (last ? 4 : 3)) continue;
            done = plant(order.what, index);
            if (done) ++drafts_[index].faults;
        }
        if (!done)
            throw DomainError{
                "a fault of the demonstration that fits no load: " + std::to_string(static_cast<int>(order.what))};
    }
    cutOff();
    return std::move(events_);
}

DraftLine* Planter::lineOf(DraftLoad& load, ChargeKind kind)
{
    for (auto& line : load.lines)
        if (line.kind == kind) return &line;
    return nullptr;
}

int Planter::open(std::size_t statement, const DraftLoad& load, std::string reason)
{
    events_.push_back({statement, {}, std::move(reason), load.ticket});
    return static_cast<int>(events_.size()) - 1;
}

void Planter::mark(DraftLine& line, const DraftLoad& load, int event, const char* finding, Money overSheet, Money comesBack,
    std::string what, bool follows)
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

void Planter::retax(DraftLoad& load, int event)
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

std::string Planter::opening(const DraftLoad& load) const
{
    return load.date.shown() + ", ticket " + load.ticket->number + ": ";
}

bool Planter::plant(Plant what, std::size_t index)
{
    auto& draft = drafts_[index];
    switch (what) {
    case Plant::noTicket: return noTicket(index);
    case Plant::total:
        // On one that is not checked yet: an owner does not approve what does not add up.
        if (draft.month < day(2026, 10, 1)) return false;
        draft.totalOff = Money::ofCents(90'00);
        wholeFault(draft, "sum_off", draft.totalOff, "the printed total is $90.00 more than its lines");
        events_.push_back({index, draft.totalOff,
            "Statement " + draft.number + ": the printed total is $90.00 more than the lines add up to.", nullptr});
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

bool Planter::spoil(Plant what, std::size_t index, std::size_t place)
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

void Planter::wholeFault(DraftStatement& draft, const char* finding, Money off, std::string what)
{
    PlantedFault fault;
    fault.finding = finding;
    fault.overSheet = off;
    fault.comesBack = off;
    fault.what = std::move(what);
    draft.whole.push_back(fault);
}

std::vector<FaultEvent> plantFaults(World& world, std::vector<DraftStatement>& drafts) { return Planter{world, drafts}.all(); }

}
