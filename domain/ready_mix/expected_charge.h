#pragma once

#include "record/book.h"

#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace strikeoff {

/// What a charge is called on a sheet: its code, or, where it has none, that of its kind.
std::string_view nameOf(const SheetCharge& charge);

/// The charges of one supplier's sheet in force on a day.
struct PriceSheet {
    Id<Supplier> supplier;
    Date effectiveOn;
    std::vector<const SheetCharge*> charges;  ///< mixes first, then by kind; they point into the book
};

/// The sheet with the latest effective date not after the day; nothing before the first one.
std::optional<PriceSheet> sheetInForce(const Book& book, Id<Supplier> supplier, Date day);

/// All sheets of a book, grouped once: for pricing many tickets. Good for as long as the book is not changed.
class PriceSheets {
public:
    explicit PriceSheets(const Book& book);

    /// As sheetInForce; nullptr before the first one.
    const PriceSheet* inForce(Id<Supplier> supplier, Date day) const;

private:
    std::unordered_map<std::int64_t, std::vector<PriceSheet>> sheets_;  ///< by supplier, the earliest first
};

struct ChargeLine {
    ChargeKind kind{};
    std::string code;
    std::string description;  ///< "Mix 4000AE"
    Quantity quantity;
    std::string unit;         ///< "yd³", "load", "min"
    UnitPrice unitPrice;      ///< of an option with an amount, that amount's price; of a percentage, the amount itself
    Money amount;             ///< rounded once, half up
    bool taxable = false;
    std::string rule;         ///< the rule that made it, in a sentence
};

/// What a ticket should cost by a sheet, line by line.
struct ExpectedCharge {
    std::vector<ChargeLine> lines;
    Money net;
    Money tax;            ///< once, on the sum of the taxable lines
    Money total;
    Money earlyDiscount;  ///< shown, not deducted
    std::string taxRule;  ///< "6.25% on $1,234.00", or blank without a tax
    std::vector<std::string> unknown;  ///< codes on the ticket that the sheet has not, and what is not recorded; a sentence each
};

/// Whether lines get their description and rule. The words cost more time than the figures: price many tickets without, and those shown with.
enum class Words { written, leftOut };

/// Pure function of ticket and sheet: mix, options (amount times the ticketed amount; without one, once), charges per load, short load (ranges
/// hold from and exclude to; per_yard_under is amount × (to − yards)), waiting (arrival to empty, less the free minutes, up to the step, never
/// negative), Saturday (by the date), after hours and holiday (when the ticket's options name the charge's code), winter (every load of the
/// season, or only when the options name its code), returned concrete, fuel, tax.
///
/// A size range, a season and "only when ordered" hold for a charge of any kind; a season wraps the year's end. A charge that has no code is
/// named by its kind ("after_hours"), and what is charged because the ticket names it counts as often as the ticketed amount says. Codes are
/// compared without regard to upper and lower case. A percentage is of the mix; of a discount, of the net. Several taxes are added up
/// and reckoned once. A blank `returned_yards` adds no line and no word: most loads bring nothing back.
ExpectedCharge expectedCharge(const Ticket& ticket, const PriceSheet& sheet, Words words = Words::written);

/// The expected charge of a ticket by the sheet in force on its day; nothing when there is no sheet.
std::optional<ExpectedCharge> expectedCharge(const Book& book, const Ticket& ticket);
std::optional<ExpectedCharge> expectedCharge(const PriceSheets& sheets, const Ticket& ticket, Words words = Words::written);

/// What the times of a ticket say about one waiting charge.
struct Waiting {
    std::optional<Minutes> onSite;  ///< arrival to empty, over midnight too; nothing when the times do not tell
    Quantity freeMinutes;
    Minutes charged;                ///< over the free time, up to the step; none when nothing is due
    std::string rule;               ///< "on site 7:41 am, empty 8:26 am = 45 min; 9.5 yd³ at 5 min free each = 47.5 min: nothing due"
};

/// An arrival or an empty time that is not recorded proves nothing, nor does a stay over midnight of more than 12 hours (times that were
/// swapped): then `onSite` is nothing and the rule says which.
Waiting waitingOf(const Ticket& ticket, const SheetCharge& charge, Words words = Words::written);

/// A ticket number as it is compared: no prefix letters, separators or leading zeros; letters behind the first digit are capitals. A number
/// without any digit but zero keeps its letters and zeros, and one of nothing but separators stays as it is.
std::string comparableNumber(std::string_view number);

}
