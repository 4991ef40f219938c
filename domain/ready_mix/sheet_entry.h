#pragma once

#include "job/steps.h"
#include "ready_mix/expected_charge.h"
#include "ready_mix/typed_row.h"

#include <span>

namespace strikeoff {

/// A charge of a sheet that is being typed, as it is understood so far.
struct ChargeReading {
    SheetCharge charge;
    bool begun = false;
    std::vector<TypedFault> faults;
    std::vector<std::string> missing;   ///< labels of what the charge needs and has not yet
    std::vector<std::string> warnings;  ///< for the owner to mend or overrule
    bool canBeSaved() const { return begun && faults.empty() && missing.empty(); }
    std::string says() const;
};

/// The charges of a sheet as typed rows, to begin the next sheet with.
std::vector<TypedRow> typedSheet(const PriceSheet& sheet);

/// Reads the rows of a sheet that is to be in force from a day. A charge that stands there twice is a fault of the later row.
std::vector<ChargeReading> readSheet(std::span<const TypedRow> rows, Id<Supplier> supplier, Date effectiveOn);

/// Puts a text into a field, written in full where it can be read: charge and unit by first letters, "y" for yes. A charge without a unit gets the usual one of
/// its kind.
void typeInto(TypedRow& typed, std::string_view field, std::string_view text);

/// Where a sheet being typed stands, in a sentence.
std::string sheetAnswer(std::span<const ChargeReading> readings);

/// Enters a sheet, all its charges as one edit.
Step enterSheet(const Book& book, std::span<const ChargeReading> readings, Id<Supplier> supplier, Date effectiveOn);

}
