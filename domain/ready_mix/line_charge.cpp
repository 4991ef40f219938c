#include "ready_mix/line_charge.h"

#include "quantity/letters.h"
#include "ready_mix/billed_loads.h"
#include "ready_mix/codes.h"

#include <algorithm>
#include <array>

namespace strikeoff {

namespace {

struct TradeWord {
    ChargeKind kind;
    std::string_view word;
};
constexpr std::array<TradeWord, 27> tradeWords{{
    {ChargeKind::tax, "tax"}, {ChargeKind::fuel, "fuel"}, {ChargeKind::waiting, "wait"}, {ChargeKind::waiting, "waiting"}, {ChargeKind::waiting, "standby"},
    {ChargeKind::waiting, "stand-by"}, {ChargeKind::waiting, "demurrage"}, {ChargeKind::waiting, "detention"}, {ChargeKind::waiting, "truck time"},
    {ChargeKind::waiting, "unloading time"}, {ChargeKind::shortLoad, "short load"}, {ChargeKind::shortLoad, "short-load"},
    {ChargeKind::shortLoad, "small load"}, {ChargeKind::shortLoad, "minimum load"}, {ChargeKind::shortLoad, "under minimum"},
    {ChargeKind::winter, "winter"}, {ChargeKind::winter, "heat"}, {ChargeKind::winter, "heated"}, {ChargeKind::winter, "hot water"},
    {ChargeKind::winter, "hot"}, {ChargeKind::saturday, "saturday"}, {ChargeKind::afterHours, "after hours"}, {ChargeKind::afterHours, "after-hours"},
    {ChargeKind::holiday, "holiday"}, {ChargeKind::returned, "returned"}, {ChargeKind::returned, "return"}, {ChargeKind::returned, "brought back"},
}};

/// The words of a text that tell one charge from another, in small letters and sorted.
std::vector<std::string> tellingWords(std::string_view text)
{
    constexpr std::array<std::string_view, 18> common{"per",  "yd", "yds", "yard", "yards", "cy",    "the",   "and",       "for",
                                                      "load", "lb", "lbs", "fee",  "of",    "charge", "loads", "surcharge", "service"};
    std::vector<std::string> words;
    std::string word;
    const auto finish = [&] {
        if (word.size() >= 2 && std::find(common.begin(), common.end(), word) == common.end()) words.push_back(word);
        word.clear();
    };
    for (const char c : text) {
        const char low = lowered(c);
        if ((low >= 'a' && low <= 'z') || isDigit(low)) word += low;
        else finish();
    }
    finish();
    std::sort(words.begin(), words.end());
    words.erase(std::unique(words.begin(), words.end()), words.end());
    return words;
}

NamedCharge named(const SheetCharge& charge) { return {charge.charge, std::string{nameOf(charge)}, &charge}; }

const SheetCharge* byCode(const PriceSheet& sheet, std::string_view code)
{
    if (code.empty()) return nullptr;
    for (const auto* charge : sheet.charges)
        if (sameCode(nameOf(*charge), code)) return charge;
    return nullptr;
}

/// The one charge whose words hold all of the description's, or the other way round.
const SheetCharge* byWords(const PriceSheet& sheet, std::string_view description)
{
    const auto words = tellingWords(description);
    if (words.empty()) return nullptr;
    const SheetCharge* found = nullptr;
    for (const auto* charge : sheet.charges) {
        const auto own = tellingWords(charge->meaning);
        if (own.empty() || !(std::includes(own.begin(), own.end(), words.begin(), words.end()) || std::includes(words.begin(), words.end(), own.begin(), own.end()))) continue;
        if (found && !sameCode(nameOf(*found), nameOf(*charge))) return nullptr;
        if (!found) found = charge;
    }
    return found;
}

std::optional<ChargeKind> byTradeWord(std::string_view text)
{
    for (const auto& [kind, word] : tradeWords)
        if (hasWord(text, word)) return kind;
    return std::nullopt;
}

}

std::string NamedCharge::key() const
{
    switch (kind) {
    case ChargeKind::option:
    case ChargeKind::load: return charge ? std::string{codeOf(kind)} + ':' + lowered(code) : std::string{};
    default: return charge || isTax() ? std::string{codeOf(kind)} : std::string{};
    }
}

NamedCharge chargeOf(const StatementLine& line, const PriceSheet* sheet)
{
    if (sheet) {
        if (const auto* charge = byCode(*sheet, line.code)) return named(*charge);
        for (const auto* charge : sheet->charges)
            if (!charge->meaning.empty() && sameCode(charge->meaning, line.description)) return named(*charge);
        for (const auto* charge : sheet->charges)
            if (const auto name = nameOf(*charge); name.size() >= 3 && hasWord(line.description, lowered(name))) return named(*charge);
        if (const auto* charge = byWords(*sheet, line.description)) return named(*charge);
    }
    const auto kind = byTradeWord(line.code.empty() ? line.description : line.code + ' ' + line.description);
    if (kind) {
        if (sheet)
            for (const auto* charge : sheet->charges)
                if (charge->charge == *kind) return named(*charge);
        return {*kind, {}, nullptr};
    }
    if (isYardUnit(line.unit) && line.code.empty() && line.description.empty() && sheet)
        for (const auto* charge : sheet->charges)
            if (charge->charge == ChargeKind::mix) return {ChargeKind::mix, {}, charge};
    return {ChargeKind::load, {}, nullptr};
}

std::string chargeKey(const StatementLine& line, const NamedCharge& charge)
{
    auto key = charge.key();
    return key.empty() ? '?' + lowered(line.code.empty() ? line.description : line.code) : key;
}

std::string chargeName(const StatementLine& line, const NamedCharge& charge)
{
    if (charge.charge) {
        if (charge.kind == ChargeKind::mix) return "mix " + (line.code.empty() ? charge.code : line.code);
        if (charge.kind == ChargeKind::option) return charge.charge->meaning.empty() ? charge.code : charge.code + " (" + charge.charge->meaning + ')';
        if (charge.kind == ChargeKind::load || charge.kind == ChargeKind::winter) return charge.charge->meaning.empty() ? charge.code : charge.charge->meaning;
        return lowered(labelOf(charge.kind));
    }
    if (charge.isTax()) return "sales tax";
    if (!line.description.empty()) return line.description;
    return line.code.empty() ? "a charge without a name" : line.code;
}

}
