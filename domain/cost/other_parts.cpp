#include "cost/explanation_parts.h"
#include "quantity/words.h"
#include "ready_mix/codes.h"

#include <algorithm>
#include <array>
#include <map>

namespace strikeoff {

namespace {

/// One unit's side of the bid and of the receipts.
struct UnitSums {
    Money carried, paid;
    std::int64_t carriedThousandths = 0, boughtThousandths = 0;
    std::string unit;  ///< as first written
};

/// "Pellin Grove crushed base $412.50", the dearest first, at most four of them.
std::string listOf(std::vector<const Receipt*> receipts)
{
    std::stable_sort(receipts.begin(), receipts.end(), [](const Receipt* a, const Receipt* b) { return b->amount < a->amount; });
    std::vector<std::string> words;
    constexpr std::size_t most = 4;
    for (const auto* receipt : receipts) {
        if (words.size() == most && receipts.size() > most + 1) {
            Money rest;
            for (std::size_t i = most; i < receipts.size(); ++i) rest += receipts[i]->amount;
            words.push_back(counted(static_cast<std::int64_t>(receipts.size() - most), "more", "more") + " of " + dollars(rest));
            break;
        }
        std::string what = receipt->description.empty() ? receipt->vendor : receipt->description;
        if (what.empty()) what = receipt->number;
        words.push_back(what + ' ' + dollars(receipt->amount));
    }
    return listed(words);
}

std::string thousandthsText(std::int64_t thousandths) { return Quantity::ofUnits(thousandths).text(); }

/// Bid and receipts by unit; nothing where a line or a receipt gives its sum alone.
std::optional<std::map<std::string, UnitSums>> byUnit(const ClassFacts& facts)
{
    std::map<std::string, UnitSums> units;
    for (const auto& line : facts.carried) {
        if (!line.quantity || line.unit.empty()) return std::nullopt;
        auto& sums = units[plainUnit(line.unit)];
        if (sums.unit.empty()) sums.unit = line.unit;
        sums.carried += line.cost;
        sums.carriedThousandths = checkedAdd(sums.carriedThousandths, line.quantity->units());
    }
    for (const auto* receipt : facts.receipts) {
        if (!receipt->quantity || receipt->quantity->isZero() || receipt->unit.empty()) return std::nullopt;
        auto& sums = units[plainUnit(receipt->unit)];
        if (sums.unit.empty()) sums.unit = receipt->unit;
        sums.paid += receipt->amount;
        sums.boughtThousandths = checkedAdd(sums.boughtThousandths, receipt->quantity->units());
    }
    // A unit that stands on one side alone was bought in another measure than it was bid in: nothing to hold against each other.
    for (const auto& [name, sums] : units)
        if (sums.carriedThousandths <= 0 || sums.boughtThousandths <= 0) return std::nullopt;
    return units;
}

}

Money ClassFacts::carriedCost() const
{
    Money sum;
    for (const auto& line : carried) sum += line.cost;
    return sum;
}

Money ClassFacts::receiptsPaid() const
{
    Money sum;
    for (const auto* receipt : receipts) sum += receipt->amount;
    return sum;
}

std::string plainUnit(std::string_view unit)
{
    std::string plain;
    for (const char c : unit)
        if (c != '.' && c != ' ') plain += lowered(c);
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 28> same{{
        {"yard", "yd"}, {"yards", "yd"}, {"yds", "yd"}, {"yd3", "yd"}, {"yd\u00b3", "yd"}, {"cy", "yd"}, {"cuyd", "yd"}, {"cubicyard", "yd"}, {"cubicyards", "yd"},
        {"sf", "sqft"}, {"ft2", "sqft"}, {"ft\u00b2", "sqft"}, {"squarefeet", "sqft"}, {"lf", "ft"}, {"feet", "ft"}, {"foot", "ft"}, {"linft", "ft"},
        {"hr", "h"}, {"hrs", "h"}, {"hour", "h"}, {"hours", "h"}, {"tons", "ton"}, {"gallon", "gal"}, {"gallons", "gal"}, {"each", "ea"}, {"loads", "load"},
        {"days", "day"}, {"lbs", "lb"}}};
    for (const auto& [written, meant] : same)
        if (plain == written) return std::string{meant};
    return plain;
}

Money atRate(Money money, std::int64_t perThousandths, std::int64_t ofThousandths)
{
    return Money::ofCents(divideHalfUp(static_cast<Int128>(money.cents()) * ofThousandths, perThousandths));
}

std::string eachText(Money money, std::int64_t thousandths)
{
    return dollars(Money::ofCents(divideHalfUp(static_cast<Int128>(money.cents()) * 1000, thousandths)));
}

void explainReceipts(Reasons& reasons, const ClassFacts& facts)
{
    if (facts.receipts.empty()) return;
    reasons.add("receipts", facts.receiptsPaid(), [&] { return listOf(facts.receipts) + ", which no line of the bid carries by itself"; });
}

void explainBought(Reasons& reasons, const ClassFacts& facts)
{
    const auto carried = facts.carriedCost();
    const auto paid = facts.receiptsPaid();
    if (facts.carried.empty()) {
        reasons.add("not in the bid", paid, [&] { return listOf(facts.receipts) + " bought, and the bid carries none of this class"; });
        return;
    }
    if (facts.receipts.empty()) {
        reasons.add(facts.open ? "not bought yet" : "not bought", -carried,
                    [&] { return dollars(carried) + " carried and no receipt " + (facts.open ? "yet" : "written to the job"); });
        return;
    }
    const auto units = byUnit(facts);
    if (!units) {
        reasons.add("receipts against the bid", paid - carried, [&] {
            return listOf(facts.receipts) + " against " + dollars(carried) + " carried, without one unit for both that would tell price from quantity";
        });
        return;
    }
    for (const auto& unit : *units) {
        const auto& sums = unit.second;
        const auto atBid = atRate(sums.carried, sums.carriedThousandths, sums.boughtThousandths);
        const auto suffix = units->size() > 1 ? " (" + sums.unit + ")" : std::string{};
        reasons.add("price" + suffix, sums.paid - atBid, [&] {
            return "paid " + eachText(sums.paid, sums.boughtThousandths) + " a " + sums.unit + " against " + eachText(sums.carried, sums.carriedThousandths) + " carried, on " +
                   thousandthsText(sums.boughtThousandths) + ' ' + sums.unit;
        });
        reasons.add("quantity" + suffix, atBid - sums.carried, [&] {
            return thousandthsText(sums.boughtThousandths) + ' ' + sums.unit + " bought" + (facts.open ? " so far" : "") + " against " + thousandthsText(sums.carriedThousandths) +
                   " carried, at " + eachText(sums.carried, sums.carriedThousandths) + " each";
        });
    }
}

}
