#include "domain/ready_mix/sheets.h"

#include <catch2/catch.hpp>

#include <utility>

using namespace strikeoff;

namespace {

SheetCharge tax(std::string_view percent) { return chargeOf(ChargeKind::tax, "", percent, ChargeUnit::percent); }
SheetCharge fee(std::string_view amount) { return taxed(chargeOf(ChargeKind::load, "", amount, ChargeUnit::perLoad)); }

}

TEST_CASE("RD-01 and RD-02 sales tax of a ticket", "[reference][charge]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2; half up by the Streamlined Sales and Use Tax Agreement, section 324.
    struct Row {
        const char* price;
        const char* rate;
        const char* tax;
    };
    for (const auto& row : {Row{"428.99", "8.25", "35.39"}, Row{"34.88", "8.25", "2.88"}, Row{"499.00", "8.81", "43.96"}}) {
        INFO(row.price);
        MadeSheet sheet{fee(row.price), tax(row.rate)};
        CHECK(sheet.price(ticketOf("9")).tax == dollars(row.tax));
    }
    // Section 324 lets the rule run on the combined state and local rate.
    MadeSheet combined{fee("428.99"), tax("6.25"), tax("2")};
    CHECK(combined.price(ticketOf("9")).tax == dollars("35.39"));
}

TEST_CASE("RD-04 three lines of fifty cents are taxed as one sum", "[reference][charge]")
{
    // Source: section 324 of the same agreement lets the seller choose the item or the invoice; the figures are our own. On the item it would be 0.12.
    MadeSheet sheet{fee("0.50"), fee("0.50"), fee("0.50"), tax("7")};
    CHECK(sheet.price(ticketOf("9")).tax == dollars("0.11"));
}

TEST_CASE("RD-05 a line is rounded half up, away from zero", "[reference][charge]")
{
    // Source: the definition of half up; half to even would give 2.14, 2.16, 0.00, 0.02, 1.00 and −2.14.
    const std::pair<const char*, const char*> rows[] = {{"0.2145", "2.15"}, {"0.2155", "2.16"}, {"0.0005", "0.01"},
                                                       {"0.0015", "0.02"}, {"0.1005", "1.01"}, {"-0.2145", "-2.15"}};
    for (const auto& [price, amount] : rows) {
        INFO(price);
        MadeSheet sheet{chargeOf(ChargeKind::fuel, "", price, ChargeUnit::perYard)};
        CHECK(amounts(sheet.price(ticketOf("10")), ChargeKind::fuel) == amount);
    }
}

TEST_CASE("V11 yards in three decimals at $78.50", "[reference][charge]")
{
    // Source: construction textbook exercise P3.7: 22.145 yd³ at $78.50 are $1,738.38.
    MadeSheet sheet{chargeOf(ChargeKind::mix, "3500", "78.50", ChargeUnit::perYard)};
    auto ticket = ticketOf("22.145");
    ticket.mix = "3500";
    CHECK(sheet.price(ticket).net == dollars("1738.38"));
}

TEST_CASE("D4 and D5 free unloading time is a setting of the sheet", "[reference][charge]")
{
    // Common practice, no source: 5 to 7 min a yard, then by the minute. 9 yd³ at 6 min are 54 min.
    auto ticket = ticketOf("9");
    ticket.arrivedAt = clock("07:25");
    ticket.dischargeEndedAt = clock("08:19");
    const std::pair<const char*, int> rows[] = {{"5", 9}, {"6", 0}, {"7", 0}};
    for (const auto& [freeMinutes, charged] : rows) {
        INFO(freeMinutes);
        CHECK(waitingOf(ticket, waitingCharge("2", freeMinutes, FreeBasis::perYard, 1)).charged == Minutes::of(charged));
    }
    ticket.dischargeEndedAt = clock("08:20");
    CHECK(waitingOf(ticket, waitingCharge("2", "6", FreeBasis::perYard, 1)).charged == Minutes::of(1));
}
