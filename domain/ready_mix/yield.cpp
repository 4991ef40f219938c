#include "ready_mix/yield.h"

#include "quantity/words.h"
#include "ready_mix/expected_charge.h"
#include "takeoff/takeoff.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace strikeoff {

namespace {

constexpr double mostYards = 100'000;
constexpr std::int64_t halfPercent = Rate::one / 2;

std::vector<const Ticket*> ticketsOfPour(const Book& book, const Pour& pour)
{
    auto tickets = book.referring<&Ticket::pour>(pour.id);
    // A ticket that names the job alone can only be for its one pour.
    if (book.referring<&Pour::job>(pour.job).size() == 1)
        for (const auto* ticket : book.referring<&Ticket::job>(pour.job))
            if (!ticket->pour) tickets.push_back(ticket);
    return tickets;
}

/// The pour's part of its job by area poured; the whole where it is the only one, nothing where that is not known.
std::optional<double> shareOf(const Book& book, const Pour& pour)
{
    const auto pours = book.referring<&Pour::job>(pour.job);
    if (pours.size() == 1) return 1;
    double all = 0;
    for (const auto* other : pours) {
        if (!other->area || *other->area <= Area{}) return std::nullopt;
        all += other->area->toDouble();
    }
    return pour.area->toDouble() / all;
}

Rate ratio(Yards part, Yards whole) { return Rate::ofUnits(divideHalfUp(static_cast<Int128>(part.units()) * 1'000'000, whole.units())); }

/// Inches that a volume is thick over an area: yd³ × 324 / ft².
Quantity thickness(Yards volume, Area area) { return Quantity::ofUnits(divideHalfUp(static_cast<Int128>(volume.units()) * 324 * 100, area.units())); }

std::string answerOf(const PourYield& yield)
{
    auto text = capitalized(counted(yield.loads, "load", "loads")) + ", " + yield.delivered.shown(2) + " yd\u00b3 delivered";
    if (yield.returned > Yards{}) text += ", " + yield.returned.shown(2) + " sent back";
    if (!yield.measured) return text + "; the takeoff says nothing to hold it against.";
    text += "; the takeoff measures " + yield.measured->shown(2);
    if (yield.over) text += yield.over->units() >= 0 ? ": " + yield.over->shown(1) + "% over" : ": " + (-*yield.over).shown(1) + "% under";
    if (yield.overCost && *yield.overCost > Money{}) text += ", " + dollars(*yield.overCost) + " of concrete";
    if (yield.impliedThickness && yield.plannedThickness) text += "; " + yield.impliedThickness->shown(2) + " in thick where " + yield.plannedThickness->shown(2) + " was meant";
    return text + '.';
}

}

std::optional<PourYield> yieldOf(const Book& book, const Pour& pour)
{
    const auto tickets = ticketsOfPour(book, pour);
    if (tickets.empty()) return std::nullopt;
    PourYield yield;
    yield.pour = &pour;
    yield.job = book.find(pour.job);
    Money mix, back;
    Yards priced;
    for (const auto* ticket : tickets) {
        ++yield.loads;
        yield.delivered += ticket->yards;
        if (ticket->returnedYards) yield.returned += *ticket->returnedYards;
        const auto expected = expectedCharge(book, *ticket);
        if (!expected) continue;
        for (const auto& line : expected->lines) {
            if (line.kind == ChargeKind::mix) {
                mix += line.amount;
                priced += ticket->yards;
            } else if (line.kind == ChargeKind::returned) back += line.amount;
        }
    }
    yield.placed = yield.delivered - yield.returned;
    const bool isPriced = priced > Yards{};
    const auto price = isPriced ? UnitPrice::ofUnits(divideHalfUp(static_cast<Int128>(mix.cents()) * 100 * Yards::one, priced.units())) : UnitPrice{};
    if (isPriced && yield.returned > Yards{}) yield.returnedCost = lineAmount(price, yield.returned) + back;
    const auto takeoff = takeoffOf(book, pour.job);
    const auto share = shareOf(book, pour);
    if (share && takeoff.faults.empty() && takeoff.volumeYards > 0 && takeoff.volumeYards < mostYards) {
        yield.measured = Yards::ofUnits(std::llround(takeoff.volumeYards * *share * Yards::one));
        yield.area = Area::ofUnits(std::llround(takeoff.areaSqft * *share * Area::one));
        if (*yield.measured > Yards{}) {
            yield.over = ratio(yield.placed - *yield.measured, *yield.measured);
            if (isPriced) yield.overCost = lineAmount(price, yield.placed - *yield.measured);
        }
        if (*yield.area > Area{}) {
            yield.plannedThickness = thickness(*yield.measured, *yield.area);
            yield.impliedThickness = thickness(yield.placed, *yield.area);
        }
    }
    yield.answer = answerOf(yield);
    return yield;
}

std::vector<TypeYield> yieldByType(const Book& book)
{
    std::map<std::int64_t, TypeYield> types;
    for (const auto& pour : book.all<Pour>()) {
        const auto* job = book.find(pour.job);
        if (!pour.pouredOn || !job || !job->jobType) continue;
        const auto yield = yieldOf(book, pour);
        if (!yield || !yield->over) continue;
        auto& type = types[job->jobType->value()];
        type.type = *job->jobType;
        ++type.pours;
        type.measured += *yield->measured;
        type.placed += yield->placed;
    }
    std::vector<TypeYield> found;
    for (auto& [id, type] : types) {
        const auto& record = book.get(type.type);
        type.over = ratio(type.placed - type.measured, type.measured);
        type.allowance = record.allowance;
        const auto steps = (std::max<std::int64_t>(type.over.units(), 0) + halfPercent - 1) / halfPercent;
        type.suggested = Rate::ofUnits(steps * halfPercent);
        type.answer = record.name + ": " + counted(type.pours, "pour", "pours") + " took " + type.placed.shown(2) + " yd\u00b3 where " + type.measured.shown(2) + " were measured, "
                      + (type.over < Rate{} ? (-type.over).shown(1) + "% under" : type.over.shown(1) + "% over") + "; quotes carry " + type.allowance.text() + "%.";
        found.push_back(std::move(type));
    }
    std::stable_sort(found.begin(), found.end(), [&](const auto& a, const auto& b) { return book.get(a.type).name < book.get(b.type).name; });
    return found;
}

std::optional<TypeYield> suggestedAllowance(const Book& book, Id<JobType> type, int pours)
{
    for (auto& yield : yieldByType(book))
        if (yield.type == type && yield.pours >= pours) return std::move(yield);
    return std::nullopt;
}

}
