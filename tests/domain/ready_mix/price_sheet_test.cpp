#include "domain/ready_mix/sheets.h"

#include <catch2/catch.hpp>

#include <random>

using namespace strikeoff;

namespace {

struct SheetBook {
    Book book;

    void add(SheetCharge charge, int supplier, std::string_view effectiveOn)
    {
        charge.id = Id<SheetCharge>{book.lastId(RecordKind::priceSheet) + 1};
        charge.supplier = Id<Supplier>{supplier};
        charge.effectiveOn = day(effectiveOn);
        book.put(rowOf(charge));
    }
    void addMix(std::string_view price, int supplier, std::string_view effectiveOn)
    {
        add(chargeOf(ChargeKind::mix, "3000", price, ChargeUnit::perYard), supplier, effectiveOn);
    }
};

SheetBook threeSheets()
{
    SheetBook made;
    made.addMix("150", 1, "2026-03-01");
    made.addMix("140", 1, "2025-03-01");
    made.add(chargeOf(ChargeKind::fuel, "FUEL", "12", ChargeUnit::perLoad), 1, "2026-03-01");
    made.addMix("130", 2, "2025-06-01");
    return made;
}

}

TEST_CASE("a ticket is priced by the latest sheet that had taken effect on its day", "[ready_mix][sheet]")
{
    const auto made = threeSheets();
    const auto priceOn = [&](int supplier, std::string_view iso) -> std::string {
        auto ticket = onDay(ticketOf("10"), iso);
        ticket.supplier = Id<Supplier>{supplier};
        const auto charge = expectedCharge(made.book, ticket);
        return charge ? amounts(*charge, ChargeKind::mix) : "no sheet";
    };
    CHECK(priceOn(1, "2025-02-28") == "no sheet");
    CHECK(priceOn(1, "2025-03-01") == "1400.00");
    CHECK(priceOn(1, "2026-02-28") == "1400.00");
    CHECK(priceOn(1, "2026-03-01") == "1500.00");
    CHECK(priceOn(1, "2030-01-01") == "1500.00");
    CHECK(priceOn(2, "2026-03-01") == "1300.00");
    CHECK(priceOn(3, "2026-03-01") == "no sheet");
}

TEST_CASE("a sheet is all charges of its day and none of another", "[ready_mix][sheet]")
{
    const auto made = threeSheets();
    const auto sheet = sheetInForce(made.book, Id<Supplier>{1}, day("2026-06-12"));
    REQUIRE(sheet);
    CHECK(sheet->effectiveOn == day("2026-03-01"));
    REQUIRE(sheet->charges.size() == 2);
    CHECK(sheet->charges[0]->charge == ChargeKind::mix);
    CHECK(sheet->charges[1]->charge == ChargeKind::fuel);
    CHECK(sheetInForce(made.book, Id<Supplier>{1}, day("2025-06-12"))->charges.size() == 1);
    CHECK_FALSE(sheetInForce(Book{}, Id<Supplier>{1}, day("2026-06-12")));
}

TEST_CASE("sheets grouped once are the sheets looked up one by one", "[ready_mix][sheet][property]")
{
    std::mt19937 random{8};
    SheetBook made;
    for (int i = 0; i < 200; ++i) {
        auto charge = chargeOf(static_cast<ChargeKind>(random() % 13), "C" + std::to_string(i), "10", ChargeUnit::perLoad);
        made.add(charge, static_cast<int>(random() % 3) + 1, Date::ofDays(20'000 + static_cast<int>(random() % 12) * 90).text());
    }
    const PriceSheets sheets{made.book};
    int found = 0;
    for (int supplier = 0; supplier < 5; ++supplier)
        for (int i = -30; i < 1200; i += 15) {
            const auto one = sheetInForce(made.book, Id<Supplier>{supplier}, Date::ofDays(20'000 + i));
            const auto* grouped = sheets.inForce(Id<Supplier>{supplier}, Date::ofDays(20'000 + i));
            REQUIRE(one.has_value() == (grouped != nullptr));
            if (!one) continue;
            ++found;
            CHECK(grouped->effectiveOn == one->effectiveOn);
            CHECK(grouped->supplier == one->supplier);
            CHECK(grouped->charges == one->charges);
        }
    CHECK(found > 100);
}

TEST_CASE("ticket numbers compare without prefix, separators and leading zeros", "[ready_mix][sheet]")
{
    for (const auto* number : {"48213", "048213", "A-48213", "T048213", "#48213", "tkt no. 0048213", " 48-213 ", "48 213", "A0048213", "\u2116 48213"}) {
        INFO(number);
        CHECK(comparableNumber(number) == "48213");
    }
    CHECK(comparableNumber("48213a") == "48213A");
    CHECK(comparableNumber("48213") != comparableNumber("48231"));
    CHECK(comparableNumber("480213") == "480213");
    CHECK(comparableNumber("4821300") == "4821300");
    CHECK(comparableNumber("cash") == "CASH");
    CHECK(comparableNumber("000") == "000");
    CHECK(comparableNumber("") == "");
    CHECK(comparableNumber("--") == "--");
    for (const auto* number : {"T048213b", "cash", "000", "--", "0A12", "\u2116"}) CHECK(comparableNumber(comparableNumber(number)) == comparableNumber(number));
}
