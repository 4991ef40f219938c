#include "ready_mix/sheet_comparison.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

/// A supplier whose sheet of 2027 follows that of 2026.
struct TwoSheets {
    BookMaker maker;
    Id<Supplier> supplier = maker.add(Supplier{.name = "Tamarack Ready Mix"});

    void charge(const char* day, ChargeKind kind, const char* code, const char* amount, ChargeUnit unit = ChargeUnit::perYard)
    {
        maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on(day), .charge = kind, .code = code, .amount = each(amount), .unit = unit, .taxable = kind == ChargeKind::mix});
    }
    void load(const char* number, const char* day, const char* mix, int yards, const char* options = "")
    {
        maker.add(Ticket{.supplier = supplier, .number = number, .date = on(day), .mix = mix, .yards = Yards::ofWhole(yards), .options = options});
    }
    SheetComparison compare()
    {
        return compareSheets(maker.book, *sheetInForce(maker.book, supplier, on("2026-06-01")), *sheetInForce(maker.book, supplier, on("2027-06-01")));
    }
    static const ChargeMove& of(const SheetComparison& result, std::string_view code)
    {
        for (const auto& move : result.moves)
            if (move.charge().code == code) return move;
        throw DomainError{"a charge that was not compared"};
    }
};

TwoSheets plain()
{
    TwoSheets two;
    two.charge("2026-03-01", ChargeKind::mix, "4000AE", "165");
    two.charge("2026-03-01", ChargeKind::mix, "3000", "150");
    two.charge("2026-03-01", ChargeKind::option, "FIBER", "8");
    two.charge("2026-03-01", ChargeKind::load, "ENV", "20", ChargeUnit::perLoad);
    two.charge("2026-03-01", ChargeKind::tax, "", "6.25", ChargeUnit::percent);
    two.charge("2027-03-01", ChargeKind::mix, "4000AE", "171");
    two.charge("2027-03-01", ChargeKind::mix, "3500", "158");
    two.charge("2027-03-01", ChargeKind::option, "FIBER", "7.50");
    two.charge("2027-03-01", ChargeKind::load, "ENV", "20", ChargeUnit::perLoad);
    two.charge("2027-03-01", ChargeKind::tax, "", "6.25", ChargeUnit::percent);
    return two;
}

}

TEST_CASE("two sheets say what moved, in amount and per cent", "[ready_mix][sheets]")
{
    auto two = plain();
    const auto result = two.compare();
    CHECK(result.moves.size() == 6);
    const auto& mix = TwoSheets::of(result, "4000AE");
    CHECK(mix.move == SheetMove::up);
    CHECK(mix.change == each("6"));
    CHECK(mix.percent == percent("3.6364"));  // 6 / 165
    CHECK(TwoSheets::of(result, "FIBER").move == SheetMove::down);
    CHECK(TwoSheets::of(result, "FIBER").percent == percent("-6.25"));
    CHECK(TwoSheets::of(result, "3000").move == SheetMove::gone);
    CHECK_FALSE(TwoSheets::of(result, "3000").change.has_value());
    CHECK(TwoSheets::of(result, "3500").move == SheetMove::isNew);
    CHECK(TwoSheets::of(result, "ENV").move == SheetMove::same);
    CHECK(result.moves[4].move == SheetMove::same);  // what moved stands first
    CHECK(result.moves[5].move == SheetMove::same);
}

TEST_CASE("what a new sheet costs is reckoned on the tickets of the twelve months before it", "[ready_mix][sheets]")
{
    auto two = plain();
    two.load("1", "2026-06-12", "4000AE", 10, "FIBER");
    two.load("2", "2026-07-01", "4000AE", 8);
    two.load("3", "2026-07-02", "3000", 9);      // a mix the new sheet has not
    two.load("4", "2027-03-01", "4000AE", 10);   // on the day of the new sheet
    two.load("5", "2026-02-28", "4000AE", 10);   // before the twelve months
    const auto result = two.compare();
    CHECK(result.from == on("2026-03-01"));
    CHECK(result.to == on("2027-02-28"));
    CHECK(result.loads == 2);
    CHECK(result.leftOut == 1);
    CHECK(result.yards == Yards::ofWhole(18));
    // By hand: 18 yd³ × $6 = $108.00 more and 6.25 % tax on it; 10 yd³ of fiber 50 cents less.
    CHECK(TwoSheets::of(result, "4000AE").cost == usd("108.00"));
    CHECK(TwoSheets::of(result, "FIBER").cost == usd("-5.00"));
    CHECK(TwoSheets::of(result, "ENV").cost == Money{});
    CHECK(result.costAfter - result.costBefore == usd("109.75"));
    Money sum;
    for (const auto& move : result.moves)
        if (move.cost) sum += *move.cost;
    CHECK(sum == result.costAfter - result.costBefore);
    // Before: 18 × 165 + 80 + 40, and 6.25 % of 2970: 3,275.63; 109.75 of it is 3.35 %.
    CHECK(result.costBefore == usd("3275.63"));
    CHECK(result.answer == "The sheet of Mar 1, 2027 against that of Mar 1, 2026: one up, one down, one new and one gone; the 18.00 yd\u00b3 in two loads from Mar 1, 2026 to "
                           "Feb 28, 2027 would have cost $109.75 more (3.4 %), one load left out whose mix or option only one of the sheets has.");
}

TEST_CASE("terms that moved are told in the words of the sheet, and the two ways are one another's mirror", "[ready_mix][sheets]")
{
    TwoSheets two;
    const auto waiting = [&](const char* day, int free) {
        two.maker.add(SheetCharge{.supplier = two.supplier, .effectiveOn = on(day), .charge = ChargeKind::waiting, .code = "WAIT", .amount = each("2"), .unit = ChargeUnit::perMinute,
                                  .freeMinutes = Quantity::ofWhole(free), .freeBasis = FreeBasis::perYard, .stepMinutes = 5});
    };
    two.charge("2026-03-01", ChargeKind::mix, "3000", "150");
    two.charge("2027-03-01", ChargeKind::mix, "3000", "150");
    waiting("2026-03-01", 7);
    waiting("2027-03-01", 5);
    const auto result = two.compare();
    const auto& move = TwoSheets::of(result, "WAIT");
    CHECK(move.move == SheetMove::otherTerms);
    CHECK(move.terms == "Free 5 min, was 7 min");
    CHECK(result.answer == "The sheet of Mar 1, 2027 against that of Mar 1, 2026: one on other terms; no tickets of the twelve months before to reckon it on.");

    two.load("1", "2026-06-12", "3000", 10);
    const auto before = *sheetInForce(two.maker.book, two.supplier, on("2026-06-01"));
    const auto after = *sheetInForce(two.maker.book, two.supplier, on("2027-06-01"));
    const auto there = compareSheets(two.maker.book, before, after, on("2026-01-01"), on("2026-12-31"));
    const auto back = compareSheets(two.maker.book, after, before, on("2026-01-01"), on("2026-12-31"));
    CHECK(there.costAfter - there.costBefore == back.costBefore - back.costAfter);
    CHECK(sheetDates(two.maker.book, two.supplier) == std::vector{on("2026-03-01"), on("2027-03-01")});
}
