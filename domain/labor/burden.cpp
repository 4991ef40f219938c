#include "labor/burden.h"

#include <algorithm>

namespace strikeoff {

namespace {

constexpr const char* bases = "SSA, Contribution and Benefit Bases, Determined by Automatic Adjustment";

BurdenRate percentOfPay(BurdenItem item, int year, const char* rate, const char* source)
{
    BurdenRate row;
    row.item = item;
    row.fromDate = Date::of(year, 1, 1).value();
    row.rate = UnitPrice::parse(rate).value();
    row.source = source;
    return row;
}

BurdenRate toSet(BurdenItem item, BurdenBasis basis, bool onPremium, const char* note)
{
    BurdenRate row;
    row.item = item;
    row.fromDate = Date::of(2023, 1, 1).value();
    row.basis = basis;
    row.onPremium = onPremium;
    row.note = note;
    return row;
}

}

std::vector<BurdenRate> startingBurden()
{
    std::vector<BurdenRate> rows;
    // Employer's share 6.2 % up to the yearly base: 26 U.S.C. 3111(a); bases by SSA, that of 2026 announced in October 2025.
    struct Base {
        int year;
        int dollars;
    };
    for (const auto [year, dollars] : {Base{2023, 160'200}, Base{2024, 168'600}, Base{2025, 176'100}, Base{2026, 184'500}}) {
        auto row = percentOfPay(BurdenItem::socialSecurity, year, "6.2", bases);
        row.wageBase = Money::ofWhole(dollars);
        rows.push_back(row);
    }
    rows.push_back(percentOfPay(BurdenItem::medicare, 2023, "1.45", "26 U.S.C. 3111(b); no wage base"));
    auto federal = percentOfPay(BurdenItem::federalUnemployment, 2023, "0.6", "IRS Publication 15: 6.0 % less the full credit of 5.4 % for state tax");
    federal.wageBase = Money::ofWhole(7'000);
    federal.note = "more in a state that owes the federal fund";
    rows.push_back(federal);
    rows.push_back(toSet(BurdenItem::stateUnemployment, BurdenBasis::percent, true, "yours to set: your state's notice has your rate and the wage base"));
    rows.push_back(toSet(BurdenItem::workersComp, BurdenBasis::perHundred, false, "yours to set: your policy has the rate of each class; most states leave overtime premium out"));
    rows.push_back(toSet(BurdenItem::liability, BurdenBasis::perHundred, false, "yours to set: your policy says what it counts"));
    rows.push_back(toSet(BurdenItem::paidLeave, BurdenBasis::perHour, false, "yours to set: holidays and leave paid in a year over the hours worked"));
    rows.push_back(toSet(BurdenItem::smallTools, BurdenBasis::perHour, false, "yours to set: trowels, blades and the like in a year over the hours worked"));
    return rows;
}

std::vector<BurdenRate> burdenOnOffer(const Book& book)
{
    auto rows = startingBurden();
    std::erase_if(rows, [&](const BurdenRate& offered) {
        return std::any_of(book.all<BurdenRate>().begin(), book.all<BurdenRate>().end(), [&](const BurdenRate& own) {
            return own.item == offered.item && (own.fromDate == offered.fromDate || !offered.rate);
        });
    });
    return rows;
}

const BurdenRate* burdenInForce(const Book& book, BurdenItem item, Date day, std::string_view compClass)
{
    const BurdenRate* best = nullptr;
    for (const auto& row : book.all<BurdenRate>()) {
        if (row.item != item || row.fromDate > day || (!row.compClass.empty() && row.compClass != compClass)) continue;
        const bool closer = !best || (row.compClass.empty() == best->compClass.empty() ? row.fromDate > best->fromDate : !row.compClass.empty());
        if (closer) best = &row;
    }
    return best;
}

std::vector<BurdenItem> burdenNotSet(const Book& book, Date day)
{
    std::vector<BurdenItem> items;
    for (std::size_t i = 0; i < burdenItemCount; ++i) {
        const auto item = static_cast<BurdenItem>(i);
        const auto hasRate = [&](std::string_view compClass) {
            const auto* row = burdenInForce(book, item, day, compClass);
            return row && row->rate;
        };
        bool missing = book.all<CrewMember>().empty() && !hasRate({});
        for (const auto& person : book.all<CrewMember>())
            if ((!person.leftOn || *person.leftOn >= day) && !hasRate(person.compClass)) missing = true;
        if (missing) items.push_back(item);
    }
    return items;
}

}
