#pragma once

#include "labor/week_pay.h"
#include "record/book.h"

#include <array>
#include <map>
#include <string>
#include <vector>

namespace strikeoff {

/// A burden rate as it is reckoned with, without its record.
struct BurdenStep {
    Date from;
    BurdenBasis basis{};
    std::optional<std::int64_t> rate;  ///< four decimals
    std::int64_t base = 0;             ///< cents; the largest number for none
    bool onPremium = true;
    bool operator==(const BurdenStep&) const = default;
};

/// For each item, the rates that hold for people of one class, from day to day.
using BurdenTables = std::array<std::vector<BurdenStep>, burdenItemCount>;
BurdenTables burdenTablesFor(const Book& book, std::string_view compClass);

/// How far a person's calendar year has come: what has counted toward each item's wage base, and the burden so far, exact.
struct BurdenYear {
    int year = 0;
    std::array<std::int64_t, burdenItemCount> counted{};  ///< cents of pay
    std::array<std::int64_t, burdenItemCount> exact{};    ///< three-millionths of a cent
    bool operator==(const BurdenYear&) const = default;
};

/// Adds a week's burden to the year it falls in (to both years when it lies over the new year, each row by its day). A row's burden comes out
/// in `burden`, one entry a row; the premium counts on the days whose hours earned it, however it is spread over jobs.
/// The year's burden is rounded once, half up, so what a week adds is the difference of two rounded sums.
void addBurden(std::span<const PaidRow> rows, std::int64_t premiumCents, const BurdenTables& tables, BurdenYear& year,
               std::span<std::array<std::int64_t, burdenItemCount>> burden);

}
