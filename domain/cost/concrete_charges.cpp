#include "cost/concrete_charges.h"

#include "cost/explanation_parts.h"
#include "ready_mix/codes.h"

#include <initializer_list>

namespace strikeoff {

namespace {

constexpr std::array<std::string_view, concreteChargeCount> names{"mix",     "options",     "delivery",         "short load", "waiting", "winter service", "Saturday delivery",
                                                                  "after hours", "holiday delivery", "returned concrete", "early-payment discount", "tax", "credits",
                                                                  "charges not on the sheet"};

std::string key(std::int64_t supplier, std::string_view code) { return std::to_string(supplier) + ':' + lowered(code); }

bool hasOne(std::string_view text, std::initializer_list<std::string_view> words)
{
    for (const auto word : words)
        if (hasWord(text, word)) return true;
    return false;
}

std::optional<ConcreteCharge> byWords(std::string_view words)
{
    if (hasOne(words, {"tax"})) return ConcreteCharge::tax;
    if (hasOne(words, {"short"})) return ConcreteCharge::shortLoad;
    if (hasOne(words, {"waiting", "wait", "standby", "demurrage"})) return ConcreteCharge::waiting;
    if (hasOne(words, {"winter", "heat", "heated", "hot"})) return ConcreteCharge::winter;
    if (hasOne(words, {"saturday"})) return ConcreteCharge::saturday;
    if (hasOne(words, {"holiday"})) return ConcreteCharge::holiday;
    if (hasOne(words, {"returned", "return"})) return ConcreteCharge::returned;
    if (hasOne(words, {"delivery", "delivered", "fuel", "washout", "environment", "environmental", "haul"})) return ConcreteCharge::delivery;
    if (hasOne(words, {"fiber", "fibers", "accelerator", "retarder", "color", "admixture", "plasticizer"})) return ConcreteCharge::option;
    return std::nullopt;
}

}

std::string_view nameOf(ConcreteCharge charge) { return names[static_cast<std::size_t>(charge)]; }

ConcreteCharge concreteCharge(ChargeKind kind)
{
    switch (kind) {
    case ChargeKind::mix: return ConcreteCharge::mix;
    case ChargeKind::option: return ConcreteCharge::option;
    case ChargeKind::load:
    case ChargeKind::fuel: return ConcreteCharge::delivery;
    case ChargeKind::shortLoad: return ConcreteCharge::shortLoad;
    case ChargeKind::waiting: return ConcreteCharge::waiting;
    case ChargeKind::saturday: return ConcreteCharge::saturday;
    case ChargeKind::afterHours: return ConcreteCharge::afterHours;
    case ChargeKind::holiday: return ConcreteCharge::holiday;
    case ChargeKind::winter: return ConcreteCharge::winter;
    case ChargeKind::returned: return ConcreteCharge::returned;
    case ChargeKind::tax: return ConcreteCharge::tax;
    case ChargeKind::discount: return ConcreteCharge::discount;
    }
    throw DomainError{"a charge of no kind"};
}

SheetCodes::SheetCodes(const Book& book)
{
    for (const auto& charge : book.all<SheetCharge>()) {
        const auto code = charge.code.empty() ? codeOf(charge.charge) : std::string_view{charge.code};
        meanings_.insert_or_assign(key(charge.supplier.value(), code), Meaning{charge.charge, charge.meaning});
        meanings_.try_emplace(key(0, code), Meaning{charge.charge, charge.meaning});
    }
}

const SheetCodes::Meaning* SheetCodes::of(Id<Supplier> supplier, std::string_view code) const
{
    if (code.empty()) return nullptr;
    const auto found = meanings_.find(key(supplier.value(), code));
    return found == meanings_.end() ? nullptr : &found->second;
}

const SheetCodes::Meaning* SheetCodes::ofAny(std::string_view code) const { return of(Id<Supplier>{0}, code); }

ConcreteCharge chargeOf(const SheetCodes& codes, const Ticket& ticket, const StatementLine& line)
{
    if (const auto* meaning = codes.of(ticket.supplier, line.code)) return concreteCharge(meaning->kind);
    if (!line.code.empty() && sameCode(line.code, ticket.mix)) return ConcreteCharge::mix;
    if (line.amount < Money{} || hasWord(line.code, "credit") || hasWord(line.description, "credit")) return ConcreteCharge::credit;
    if (const auto charge = byWords(line.code.empty() ? std::string_view{line.description} : std::string_view{line.code})) return *charge;
    if (const auto charge = byWords(line.description)) return *charge;
    const bool isMix = strengthIn(line.description) || hasOne(line.description, {"mix", "concrete"});
    // A line that gives nothing but a number and a sum bills the load.
    if (isMix || (line.code.empty() && line.description.empty())) return ConcreteCharge::mix;
    return ConcreteCharge::notOnSheet;
}

std::optional<ConcreteCharge> chargeOf(const SheetCodes& codes, const Carried& line)
{
    if (const auto* meaning = codes.ofAny(line.code)) return concreteCharge(meaning->kind);
    const bool byTheYard = plainUnit(line.unit) == "yd";
    if (byTheYard && strengthIn(line.description)) return ConcreteCharge::mix;
    if (const auto charge = byWords(line.description)) return charge;
    if (byTheYard) return ConcreteCharge::mix;
    return std::nullopt;
}

std::optional<int> strengthIn(std::string_view words)
{
    const auto text = lowered(words);
    auto end = text.find("psi");
    if (end == std::string::npos) return std::nullopt;
    while (end > 0 && (text[end - 1] == ' ' || text[end - 1] == '-')) --end;
    int strength = 0;
    int digits = 0;
    int place = 1;
    for (; end > 0 && digits < 5; --end) {
        const char c = text[end - 1];
        if (c == ',') continue;
        if (c < '0' || c > '9') break;
        strength += (c - '0') * place;
        place *= 10;
        ++digits;
    }
    return digits >= 3 ? std::optional{strength} : std::nullopt;
}

}
