#pragma once

#include "ready_mix/expected_charge.h"

namespace strikeoff {

/// What a statement line charges for, by the sheet's words for it.
struct NamedCharge {
    ChargeKind kind = ChargeKind::mix;
    std::string code;                      ///< as the sheet names it; blank when the sheet has it not
    const SheetCharge* charge = nullptr;   ///< one of that name; nothing when the sheet has none
    bool isTax() const { return kind == ChargeKind::tax; }
    /// What a load can be charged for once: the mix, each option, each charge of a load, waiting, … Blank when the sheet has it not.
    std::string key() const;
};

/// Finds out what a line charges for: by its code, a code or the sheet's own words in its description, words of the trade ("standby", "hot water"), and
/// a line in cubic yards that says nothing of this is the mix. Without a sheet only tax and words of the trade are known.
NamedCharge chargeOf(const StatementLine& line, const PriceSheet* sheet);

/// NamedCharge::key, and for what the sheet has not the line's own code or words: the same charge again is known by it.
std::string chargeKey(const StatementLine& line, const NamedCharge& charge);

/// "Mix 4000AE", "Waiting", the line's own words when the sheet has none.
std::string chargeName(const StatementLine& line, const NamedCharge& charge);

}
