#include "ready_mix/sheet_comparison.h"

#include "quantity/letters.h"
#include "quantity/words.h"
#include "record/field_text.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace strikeoff {

namespace {

using CodeKey = std::pair<ChargeKind, std::string>;
using ChargeKey = std::tuple<ChargeKind, std::string, std::int64_t>;

CodeKey codeKey(ChargeKind kind, std::string_view code) { return {kind, raised(code.empty() ? codeOf(kind) : code)}; }

ChargeKey keyOf(const SheetCharge& charge)
{
    const auto code = codeKey(charge.charge, charge.code);
    return {code.first, code.second, charge.fromYards ? charge.fromYards->units() : -1};
}

/// What moved beside the amount, in the words of the fields.
std::string termsMoved(const SheetCharge& before, const SheetCharge& after)
{
    std::string text;
    for (const auto& field : describe(RecordKind::priceSheet).fields) {
        if (field.name == "supplier" || field.name == "effective_on" || field.name == "amount" || field.name == "meaning") continue;
        const auto was = field.get(&before);
        const auto now = field.get(&after);
        if (was == now || field.name == "code") continue;
        const auto words = [&](const Value& value) {
            if (!isRecorded(value)) return std::string{"none"};
            auto shown = shownValue(field, value);
            return field.unit.empty() ? shown : shown + ' ' + std::string{field.unit};
        };
        text += (text.empty() ? "" : "; ") + std::string{field.label} + ' ' + words(now) + ", was " + words(was);
    }
    return text;
}

ChargeMove moveOf(const SheetCharge* before, const SheetCharge* after)
{
    ChargeMove move;
    move.before = before;
    move.after = after;
    if (!before || !after) {
        move.move = before ? SheetMove::gone : SheetMove::isNew;
        return move;
    }
    move.terms = termsMoved(*before, *after);
    if (before->unit == after->unit) {
        move.change = after->amount - before->amount;
        if (!before->amount.isZero()) move.percent = Rate::ofUnits(divideHalfUp(static_cast<Int128>(move.change->units()) * 1'000'000, before->amount.units()));
    }
    if (move.change && *move.change > UnitPrice{}) move.move = SheetMove::up;
    else if (move.change && *move.change < UnitPrice{}) move.move = SheetMove::down;
    else if (!move.terms.empty()) move.move = SheetMove::otherTerms;
    return move;
}

std::vector<ChargeMove> movesOf(const PriceSheet& before, const PriceSheet& after)
{
    std::map<ChargeKey, std::pair<const SheetCharge*, const SheetCharge*>> pairs;
    for (const auto* charge : before.charges) pairs[keyOf(*charge)].first = charge;
    for (const auto* charge : after.charges) pairs[keyOf(*charge)].second = charge;
    std::vector<ChargeMove> moves;
    for (const auto& [key, pair] : pairs) moves.push_back(moveOf(pair.first, pair.second));
    std::stable_partition(moves.begin(), moves.end(), [](const auto& move) { return move.move != SheetMove::same; });
    return moves;
}

/// Mixes and options priced: a ticket is comparable when both sheets price the same.
std::vector<CodeKey> goods(const ExpectedCharge& charge)
{
    std::vector<CodeKey> keys;
    for (const auto& line : charge.lines)
        if (line.kind == ChargeKind::mix || line.kind == ChargeKind::option) keys.push_back(codeKey(line.kind, line.code));
    std::sort(keys.begin(), keys.end());
    return keys;
}

std::string answerOf(const SheetComparison& result)
{
    std::map<SheetMove, int> counts;
    for (const auto& move : result.moves) ++counts[move.move];
    std::vector<std::string> parts;
    const auto add = [&](SheetMove move, const char* words) {
        if (counts[move] > 0) parts.push_back(inWords(counts[move]) + ' ' + words);
    };
    add(SheetMove::up, "up");
    add(SheetMove::down, "down");
    add(SheetMove::otherTerms, "on other terms");
    add(SheetMove::isNew, "new");
    add(SheetMove::gone, "gone");
    auto text = "The sheet of " + result.after.shown() + " against that of " + result.before.shown() + ": " + (parts.empty() ? std::string{"nothing moved"} : listed(parts)) + "; ";
    if (result.loads == 0) return text + "no tickets of the twelve months before to reckon it on.";
    const auto more = result.costAfter - result.costBefore;
    text += "the " + result.yards.shown(2) + " yd\u00b3 in " + counted(result.loads, "load", "loads") + " from " + result.from.shown() + " to " + result.to.shown();
    if (more.isZero()) text += " would have cost the same";
    else text += " would have cost " + dollars(more > Money{} ? more : -more) + (more > Money{} ? " more" : " less");
    if (!more.isZero() && result.costBefore > Money{}) {
        const auto percent = Rate::ofUnits(divideHalfUp(static_cast<Int128>(more.cents()) * 1'000'000, result.costBefore.cents()));
        text += " (" + percent.shown(1) + " %)";
    }
    if (result.leftOut > 0) text += ", " + counted(result.leftOut, "load", "loads") + " left out whose mix or option only one of the sheets has";
    return text + ".";
}

}

std::vector<Date> sheetDates(const Book& book, Id<Supplier> supplier)
{
    std::vector<Date> dates;
    for (const auto* charge : book.referring<&SheetCharge::supplier>(supplier)) dates.push_back(charge->effectiveOn);
    std::sort(dates.begin(), dates.end());
    dates.erase(std::unique(dates.begin(), dates.end()), dates.end());
    return dates;
}

SheetComparison compareSheets(const Book& book, const PriceSheet& before, const PriceSheet& after, Date from, Date to)
{
    SheetComparison result;
    result.before = before.effectiveOn;
    result.after = after.effectiveOn;
    result.from = from;
    result.to = to;
    result.moves = movesOf(before, after);
    std::map<CodeKey, Money> costs;
    for (const auto* ticket : book.referring<&Ticket::supplier>(after.supplier)) {
        if (ticket->date < from || ticket->date > to) continue;
        const auto was = expectedCharge(*ticket, before, Words::leftOut);
        const auto now = expectedCharge(*ticket, after, Words::leftOut);
        const auto priced = goods(was);
        if (priced.empty() || priced != goods(now)) {
            ++result.leftOut;
            continue;
        }
        ++result.loads;
        result.yards += ticket->yards;
        result.costBefore += was.total;
        result.costAfter += now.total;
        for (const auto& line : was.lines) costs[codeKey(line.kind, line.code)] -= line.amount;
        for (const auto& line : now.lines) costs[codeKey(line.kind, line.code)] += line.amount;
        costs[{ChargeKind::tax, {}}] += now.tax - was.tax;
    }
    for (auto& move : result.moves) {
        const auto& charge = move.charge();
        const auto key = charge.charge == ChargeKind::tax ? CodeKey{ChargeKind::tax, {}} : codeKey(charge.charge, charge.code);
        const auto cost = costs.find(key);
        if (cost == costs.end()) continue;
        move.cost = cost->second;
        costs.erase(cost);
    }
    result.answer = answerOf(result);
    return result;
}

SheetComparison compareSheets(const Book& book, const PriceSheet& before, const PriceSheet& after)
{
    return compareSheets(book, before, after, monthsOn(after.effectiveOn, -12), after.effectiveOn - 1);
}

}
