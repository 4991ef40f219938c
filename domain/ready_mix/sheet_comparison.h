#pragma once

#include "ready_mix/expected_charge.h"

namespace strikeoff {

enum class SheetMove { up, down, otherTerms, isNew, gone, same };
inline constexpr std::array sheetMoveChoices{Choice{"up", "Up"}, Choice{"down", "Down"}, Choice{"terms", "Other terms"}, Choice{"new", "New"}, Choice{"gone", "Gone"}, Choice{"same", "As before"}};
template <> inline constexpr std::span<const Choice> choicesOf<SheetMove> = sheetMoveChoices;

/// One charge on two sheets.
struct ChargeMove {
    const SheetCharge* before = nullptr;  ///< nothing when it is new
    const SheetCharge* after = nullptr;   ///< nothing when it is gone
    SheetMove move = SheetMove::same;
    std::optional<UnitPrice> change;      ///< of the amount, when both have it per the same unit
    std::optional<Rate> percent;          ///< of the amount before; nothing when that was zero
    std::string terms;                    ///< what else moved, "Free 5 min, was 7 min"; blank when nothing
    std::optional<Money> cost;            ///< what it costs more on the tickets reckoned; on the first of the charges that share a code
    const SheetCharge& charge() const { return after ? *after : *before; }
};

/// What a supplier's later sheet moved against an earlier one, and what that costs on the tickets of a span of days priced by both.
struct SheetComparison {
    Date before, after;          ///< days in force from
    Date from, to;               ///< of the tickets reckoned, both included
    std::vector<ChargeMove> moves;  ///< what moved first, each part by kind and code
    int loads = 0;
    Yards yards;
    int leftOut = 0;             ///< tickets with a mix or an option that one of the sheets has not
    Money costBefore;            ///< with tax
    Money costAfter;
    std::string answer;          ///< in one sentence with numbers
};

/// The days in force of a supplier's sheets, the earliest first.
std::vector<Date> sheetDates(const Book& book, Id<Supplier> supplier);

/// Compares two sheets of a supplier on the supplier's tickets of a span of days. Charges are the same when kind, code and smallest load are.
SheetComparison compareSheets(const Book& book, const PriceSheet& before, const PriceSheet& after, Date from, Date to);

/// The same on last season's yards: the tickets of the twelve months before the later sheet took effect.
SheetComparison compareSheets(const Book& book, const PriceSheet& before, const PriceSheet& after);

}
