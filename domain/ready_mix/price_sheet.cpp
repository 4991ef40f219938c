#include "ready_mix/expected_charge.h"

#include <algorithm>

namespace strikeoff {

namespace {

void sortByKind(PriceSheet& sheet)
{
    std::stable_sort(sheet.charges.begin(), sheet.charges.end(), [](const auto* a, const auto* b) { return a->charge < b->charge; });
}

}

std::optional<PriceSheet> sheetInForce(const Book& book, Id<Supplier> supplier, Date day)
{
    std::optional<PriceSheet> sheet;
    for (const auto* charge : book.referring<&SheetCharge::supplier>(supplier)) {
        if (charge->effectiveOn > day || (sheet && charge->effectiveOn < sheet->effectiveOn)) continue;
        if (!sheet || charge->effectiveOn > sheet->effectiveOn) sheet = PriceSheet{supplier, charge->effectiveOn, {}};
        sheet->charges.push_back(charge);
    }
    if (sheet) sortByKind(*sheet);
    return sheet;
}

PriceSheets::PriceSheets(const Book& book)
{
    const auto earlier = [](const PriceSheet& sheet, Date day) { return sheet.effectiveOn < day; };
    for (const auto& charge : book.all<SheetCharge>()) {
        auto& sheets = sheets_[charge.supplier.value()];
        auto sheet = std::lower_bound(sheets.begin(), sheets.end(), charge.effectiveOn, earlier);
        if (sheet == sheets.end() || sheet->effectiveOn != charge.effectiveOn)
            sheet = sheets.insert(sheet, PriceSheet{charge.supplier, charge.effectiveOn, {}});
        sheet->charges.push_back(&charge);
    }
    for (auto& [supplier, sheets] : sheets_)
        for (auto& sheet : sheets) sortByKind(sheet);
}

const PriceSheet* PriceSheets::inForce(Id<Supplier> supplier, Date day) const
{
    const auto found = sheets_.find(supplier.value());
    if (found == sheets_.end()) return nullptr;
    const auto& sheets = found->second;
    const auto later = [](Date wanted, const PriceSheet& sheet) { return wanted < sheet.effectiveOn; };
    const auto next = std::upper_bound(sheets.begin(), sheets.end(), day, later);
    return next == sheets.begin() ? nullptr : &*std::prev(next);
}

}
