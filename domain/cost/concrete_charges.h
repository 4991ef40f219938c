#pragma once

#include "record/book.h"

#include <array>
#include <optional>
#include <unordered_map>

namespace strikeoff {

struct Carried;

/// What a line of a bid, a sheet or a statement charges for, as far as the explanation tells it apart.
enum class ConcreteCharge { mix, option, delivery, shortLoad, waiting, winter, saturday, afterHours, holiday, returned, discount, tax, credit, notOnSheet };
inline constexpr std::size_t concreteChargeCount = 14;

/// "options", "short load", …
std::string_view nameOf(ConcreteCharge charge);
ConcreteCharge concreteCharge(ChargeKind kind);

/// Codes of all sheets of a book, by supplier and for all of them together: what a code charges for.
class SheetCodes {
public:
    explicit SheetCodes(const Book& book);

    struct Meaning {
        ChargeKind kind{};
        std::string_view words;
    };
    const Meaning* of(Id<Supplier> supplier, std::string_view code) const;
    const Meaning* ofAny(std::string_view code) const;

private:
    std::unordered_map<std::string, Meaning> meanings_;
};

/// What a statement's line for a ticket charges for: by its code on the supplier's sheets, else by the ticket's mix, its sign and its words.
ConcreteCharge chargeOf(const SheetCodes& codes, const Ticket& ticket, const StatementLine& line);

/// What a line of a bid charges for: by its code on any sheet, else by its words; one by the yard that is nothing else carries the mix. Nothing for
/// one that cannot be told.
std::optional<ConcreteCharge> chargeOf(const SheetCodes& codes, const Carried& line);

/// Pounds per square inch that words like "4000 psi, air entrained" name; nothing when they name none.
std::optional<int> strengthIn(std::string_view words);

}
