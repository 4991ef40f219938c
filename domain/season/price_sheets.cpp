#include "season/price_sheets.h"

#include "cost/explanation_parts.h"
#include "ready_mix/codes.h"
#include "ready_mix/sheet_comparison.h"

#include <algorithm>
#include <map>

namespace strikeoff {

namespace {

/// The mix on a sheet that is the same as one of a ticket's own supplier.
const SheetCharge* sameMix(const PriceSheet& sheet, std::string_view code, std::string_view words)
{
    const SheetCharge* ofStrength = nullptr;
    int count = 0;
    const auto strength = strengthIn(words);
    for (const auto* charge : sheet.charges) {
        if (charge->charge != ChargeKind::mix) continue;
        if (sameCode(charge->code, code)) return charge;
        if (strength && strengthIn(charge->meaning) == strength) {
            ofStrength = charge;
            ++count;
        }
    }
    return count == 1 ? ofStrength : nullptr;
}

/// A load as another supplier would have brought it, without its times; nothing when that supplier's sheet lacks the mix or an option.
std::optional<Money> costFrom(const PriceSheet& sheet, const Ticket& ticket, std::string_view words)
{
    const auto* mix = sameMix(sheet, ticket.mix.str(), words);
    if (!mix) return std::nullopt;
    Ticket other;
    other.supplier = sheet.supplier;
    other.date = ticket.date;
    other.mix = mix->code;
    other.yards = ticket.yards;
    other.options = ticket.options;
    if (const auto options = parseOptions(ticket.options.str()))
        for (const auto& option : *options)
            if (std::none_of(sheet.charges.begin(), sheet.charges.end(),
                             [&](const auto* charge) { return sameCode(charge->code.empty() ? codeOf(charge->charge) : std::string_view{charge->code}, option.code); }))
                return std::nullopt;
    return expectedCharge(other, sheet, Words::leftOut).total;
}

}

std::vector<SheetChange> sheetChanges(const Book& book, const SeasonScope& scope)
{
    std::vector<SheetChange> changes;
    for (const auto& supplier : book.all<Supplier>()) {
        std::optional<PriceSheet> before;
        for (const auto day : sheetDates(book, supplier.id)) {
            auto sheet = sheetInForce(book, supplier.id, day);
            if (!sheet) continue;
            SheetChange change{day, &supplier, {}, 0};
            double sum = 0;
            if (before)
                for (const auto* now : sheet->charges)
                    for (const auto* then : before->charges)
                        if (now->charge == ChargeKind::mix && then->charge == ChargeKind::mix && now->unit == then->unit && sameCode(now->code, then->code) && then->amount > UnitPrice{}) {
                            sum += 100 * (now->amount.toDouble() / then->amount.toDouble() - 1);
                            ++change.mixes;
                        }
            if (change.mixes > 0) change.mixPercent = sum / change.mixes;
            if (scope.holds(day)) changes.push_back(change);
            before = std::move(sheet);
        }
    }
    std::stable_sort(changes.begin(), changes.end(), [](const auto& a, const auto& b) { return a.on < b.on; });
    return changes;
}

std::vector<SupplierBasket> sameBasket(const Book& book, Date day)
{
    std::vector<PriceSheet> sheets;
    std::vector<SupplierBasket> baskets;
    for (const auto& supplier : book.all<Supplier>())
        if (auto sheet = sheetInForce(book, supplier.id, day)) {
            sheets.push_back(std::move(*sheet));
            baskets.push_back({&supplier, {}, 0, {}});
        }
    if (sheets.size() < 2) return {};
    const PriceSheets all{book};
    const auto from = monthsOn(day, -12);
    std::vector<Money> sums(sheets.size());
    for (const auto& ticket : book.all<Ticket>()) {
        if (ticket.date <= from || ticket.date > day || ticket.yards <= Yards{}) continue;
        std::string_view words;
        if (const auto* own = all.inForce(ticket.supplier, ticket.date))
            for (const auto* charge : own->charges)
                if (charge->charge == ChargeKind::mix && sameCode(charge->code, ticket.mix.str())) words = charge->meaning;
        std::vector<Money> costs;
        for (const auto& sheet : sheets) {
            const auto cost = costFrom(sheet, ticket, words);
            if (!cost) break;
            costs.push_back(*cost);
        }
        if (costs.size() != sheets.size()) continue;
        for (std::size_t i = 0; i < sheets.size(); ++i) {
            sums[i] += costs[i];
            ++baskets[i].loads;
            baskets[i].yards += ticket.yards;
        }
    }
    if (baskets.front().loads == 0) return {};
    for (std::size_t i = 0; i < baskets.size(); ++i) baskets[i].perYard = Money::ofCents(divideHalfUp(static_cast<Int128>(sums[i].cents()) * Yards::one, baskets[i].yards.units()));
    std::stable_sort(baskets.begin(), baskets.end(), [](const auto& a, const auto& b) { return a.perYard < b.perYard; });
    return baskets;
}

std::optional<CarriedYard> carriedYard(const Book& book, const SheetCodes& codes, const Job& job, const Quote& quote)
{
    Money cost;
    std::int64_t thousandths = 0;
    const auto carried = carriedBy(book, job, &quote);
    for (const auto& line : carried[static_cast<std::size_t>(CostClass::concrete)]) {
        if (line.isChange) continue;
        cost += line.cost;
        if (line.quantity && plainUnit(line.unit) == "yd" && chargeOf(codes, line) == ConcreteCharge::mix) thousandths = checkedAdd(thousandths, line.quantity->units());
    }
    if (thousandths <= 0) return std::nullopt;
    return CarriedYard{Money::ofCents(divideHalfUp(static_cast<Int128>(cost.cents()) * 1000, thousandths)), Yards::ofUnits(thousandths)};
}

std::vector<QuoteCarry> quotesAgainst(const Book& book, const SheetCodes& codes, const PriceSeasons& prices)
{
    std::vector<QuoteCarry> quotes;
    if (prices.carry.empty()) return quotes;
    for (const auto& quote : book.all<Quote>()) {
        if (quote.acceptedOn || quote.declinedOn) continue;
        const auto* job = book.find(quote.job);
        if (!job || job->closedOn || job->droppedOn || currentQuote(book, job->id) != &quote) continue;
        const auto stage = stageOf(book, *job);
        if (stage != Stage::drafted && stage != Stage::quoted) continue;
        auto month = quote.pourMonth;
        for (const auto* pour : book.referring<&Pour::job>(job->id))
            if (!month && pour->plannedOn && !pour->pouredOn) month = pour->plannedOn;
        if (!month) continue;
        const auto* carry = carryFor(prices, *month);
        const auto carried = carry ? carriedYard(book, codes, *job, quote) : std::nullopt;
        if (carried) quotes.push_back({&quote, carry->month, carried->perYard, carry->delivered, carried->yards});
    }
    std::stable_sort(quotes.begin(), quotes.end(), [](const QuoteCarry& a, const QuoteCarry& b) {
        return a.carried.toDouble() - a.expected.value < b.carried.toDouble() - b.expected.value;
    });
    return quotes;
}

}
