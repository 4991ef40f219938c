#include "ready_mix/sheet_entry.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

TypedRow typed(std::initializer_list<std::pair<const char*, const char*>> cells)
{
    TypedRow row;
    for (const auto& [field, text] : cells) typeInto(row, field, text);
    return row;
}

}

TEST_CASE("a sheet is typed short: kinds by first letters, the usual unit, yes and no", "[ready_mix][sheets]")
{
    const auto mix = typed({{"charge", "m"}, {"code", "4000AE"}, {"amount", "$165"}, {"taxable", "y"}});
    CHECK(typedText(mix, "charge") == "Mix");
    CHECK(typedText(mix, "unit") == "per yd\u00b3");
    CHECK(typedText(mix, "amount") == "165.00");
    CHECK(typedText(mix, "taxable") == "yes");
    CHECK(typedText(typed({{"charge", "short"}, {"unit", "per yd\u00b3 under"}}), "unit") == "per yd\u00b3 under");
    CHECK(typedText(typed({{"charge", "wait"}}), "unit") == "per minute");
    const std::vector rows{mix, typed({{"charge", "wait"}, {"amount", "2.40"}, {"free_minutes", "6"}, {"free_basis", "per y"}, {"step_minutes", "5"}}),
                           typed({{"charge", "win"}, {"code", "HEAT"}, {"amount", "7"}, {"season_from", "11-15"}, {"season_to", "03-31"}})};
    const auto readings = readSheet(rows, Id<Supplier>{1}, on("2027-03-01"));
    for (const auto& reading : readings) {
        CHECK(reading.says().empty());
        CHECK(reading.canBeSaved());
    }
    CHECK(readings[0].charge.amount == each("165"));
    CHECK(readings[0].charge.taxable);
    CHECK(readings[1].charge.freeMinutes == Quantity::ofWhole(6));
    CHECK(readings[1].charge.freeBasis == FreeBasis::perYard);
    CHECK(readings[2].charge.seasonFrom == MonthDay::of(11, 15));
    CHECK(sheetAnswer(readings) == "Three charges on the sheet; all ready to save.");
}

TEST_CASE("a row of a sheet says what is wrong or missing", "[ready_mix][sheets]")
{
    const std::vector rows{typed({{"charge", "mix"}, {"amount", "a lot"}}), typed({{"charge", "load"}, {"code", "ENV"}, {"amount", "12"}}), typed({{"charge", "load"}, {"code", "ENV"}, {"amount", "13"}}), TypedRow{}};
    const auto readings = readSheet(rows, Id<Supplier>{1}, on("2027-03-01"));
    CHECK(readings[0].says() == "Amount: \u201ca lot\u201d is not understood; write it like 1,250 or 12.50.  Still needed: Code.");
    CHECK(readings[1].canBeSaved());
    CHECK(readings[2].says() == "Code: row 2 is the same charge; give this one another code or another smallest load.");
    CHECK_FALSE(readings[3].begun);
    CHECK(sheetAnswer(readings) == "Three charges on the sheet; two not ready to save.");
}

TEST_CASE("the next sheet begins with the last and is entered as one edit", "[ready_mix][sheets]")
{
    BookMaker maker;
    const auto supplier = maker.add(Supplier{.name = "Tamarack Ready Mix"});
    maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-03-01"), .charge = ChargeKind::mix, .code = "4000AE", .meaning = "4000 psi", .amount = each("1165.25"), .taxable = true});
    maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-03-01"), .charge = ChargeKind::shortLoad, .code = "SHORT", .amount = each("90"), .unit = ChargeUnit::perLoad, .fromYards = Yards::ofWhole(3), .toYards = Yards::ofUnits(5500)});
    maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-03-01"), .charge = ChargeKind::winter, .code = "HEAT", .amount = each("7"), .seasonFrom = MonthDay::of(11, 1), .seasonTo = MonthDay::of(3, 31), .onlyWhenOrdered = true});
    const auto last = *sheetInForce(maker.book, supplier, on("2026-12-31"));
    const auto rows = typedSheet(last);
    const auto readings = readSheet(rows, supplier, on("2027-03-01"));
    REQUIRE(readings.size() == last.charges.size());
    for (std::size_t i = 0; i < readings.size(); ++i) {
        INFO(readings[i].says());
        CHECK(readings[i].canBeSaved());
        auto wanted = *last.charges[i];
        wanted.id = {};
        wanted.revision = 0;
        wanted.effectiveOn = on("2027-03-01");
        CHECK(rowOf(readings[i].charge).values == rowOf(wanted).values);
    }
    const auto step = enterSheet(maker.book, readings, supplier, on("2027-03-01"));
    REQUIRE(step.possible());
    CHECK(step.edit->title() == "Enter the sheet of Tamarack Ready Mix from Mar 1, 2027");
    CHECK(step.edit->changes().size() == 3);
    CHECK(enterSheet(maker.book, readings, supplier, on("2026-03-01")).obstacle.starts_with("There is a sheet of Tamarack Ready Mix from Mar 1, 2026 already"));
    CHECK(enterSheet(maker.book, {}, supplier, on("2027-03-01")).obstacle == "There is no charge to save yet.");
}
