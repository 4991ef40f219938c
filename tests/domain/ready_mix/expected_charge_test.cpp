#include "domain/ready_mix/sheets.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <random>

using namespace strikeoff;

using Unknown = std::vector<std::string>;

TEST_CASE("the mix is its price times the yards", "[ready_mix][charge]")
{
    const auto charge = MadeSheet{}.price(ticketOf("9.5"));
    REQUIRE(charge.lines.size() == 1);
    const auto& line = charge.lines[0];
    CHECK(line.kind == ChargeKind::mix);
    CHECK(line.code == "3000");
    CHECK(line.description == "Mix 3000");
    CHECK(line.quantity == Quantity::parse("9.5"));
    CHECK(line.unit == "yd\u00b3");
    CHECK(line.unitPrice == UnitPrice::ofWhole(100));
    CHECK(line.amount == dollars("950.00"));
    CHECK(line.rule == "Mix of the ticket: $100.00 \u00d7 9.5 yd\u00b3");
    CHECK(charge.net == dollars("950.00"));
    CHECK(charge.total == dollars("950.00"));
    CHECK(charge.unknown.empty());
    CHECK(charge.taxRule.empty());
}

TEST_CASE("a mix that is not recorded or not on the sheet has no line and is named", "[ready_mix][charge]")
{
    auto ticket = ticketOf("9.5");
    ticket.mix.clear();
    CHECK(MadeSheet{}.price(ticket).lines.empty());
    CHECK(MadeSheet{}.price(ticket).unknown == Unknown{"the mix is not recorded"});
    ticket.mix = "4000AE";
    CHECK(MadeSheet{}.price(ticket).unknown == Unknown{"mix 4000AE is not on the sheet"});
    CHECK(amounts(MadeSheet{chargeOf(ChargeKind::mix, "4000ae", "140", ChargeUnit::perYard)}.price(ticket), ChargeKind::mix) == "1330.00");
}

TEST_CASE("a mix with prices by size takes the one of its size", "[ready_mix][charge]")
{
    MadeSheet sheet{sized(chargeOf(ChargeKind::mix, "4000", "150", ChargeUnit::perYard), "", "5"),
                    sized(chargeOf(ChargeKind::mix, "4000", "140", ChargeUnit::perYard), "5", "10")};
    auto ticket = ticketOf("4.75");
    ticket.mix = "4000";
    CHECK(sheet.price(ticket).net == dollars("712.50"));
    ticket.yards = yards("5");
    CHECK(sheet.price(ticket).net == dollars("700.00"));
    ticket.yards = yards("10");
    CHECK(sheet.price(ticket).unknown == Unknown{"mix 4000 is on the sheet, but not for this load"});
}

TEST_CASE("an option costs its price for each unit of the ticketed amount, and once without one", "[ready_mix][charge]")
{
    MadeSheet sheet{chargeOf(ChargeKind::option, "ACC", "6.00", ChargeUnit::perYard),
                    chargeOf(ChargeKind::option, "COLOR", "45", ChargeUnit::perLoad)};
    const auto option = [&](std::string_view options) { return amounts(sheet.price(ticketOf("9.5", options)), ChargeKind::option); };
    CHECK(option("") == "");
    CHECK(option("ACC") == "57.00");
    CHECK(option("ACC=1") == "57.00");
    CHECK(option("ACC=2") == "114.00");
    CHECK(option("acc=1.5") == "85.50");
    CHECK(option("ACC=0") == "0.00");
    CHECK(option("COLOR") == "45.00");
    CHECK(option("COLOR=3") == "135.00");
    CHECK(option("COLOR;ACC=2") == "114.00 45.00");
    CHECK(option("ACC=1;ACC=2") == "57.00 114.00");
    const auto charge = sheet.price(ticketOf("9.5", "ACC=2"));
    const auto& line = lineOf(charge, ChargeKind::option);
    CHECK(line.quantity == Quantity::parse("9.5"));
    CHECK(line.unitPrice == UnitPrice::ofWhole(12));
    CHECK(line.rule == "ACC on the ticket: 2 \u00d7 $6.00 \u00d7 9.5 yd\u00b3");
    CHECK(line.description == "Option ACC");
}

TEST_CASE("a line is rounded once, half up", "[ready_mix][charge]")
{
    MadeSheet sheet{chargeOf(ChargeKind::option, "A", "0.0335", ChargeUnit::perYard),
                    chargeOf(ChargeKind::option, "B", "0.3333", ChargeUnit::perYard),
                    chargeOf(ChargeKind::option, "C", "-0.5", ChargeUnit::perYard)};
    CHECK(amounts(sheet.price(ticketOf("2", "A=1.5")), ChargeKind::option) == "0.10");      // 0.1005
    CHECK(amounts(sheet.price(ticketOf("9.7", "A=0.15")), ChargeKind::option) == "0.05");   // 0.04874…
    CHECK(amounts(sheet.price(ticketOf("100", "A=0.001")), ChargeKind::option) == "0.00");  // 0.00335
    CHECK(amounts(sheet.price(ticketOf("300", "A=0.001")), ChargeKind::option) == "0.01");  // 0.01005: with the price rounded first, 0.0000 × 300
    CHECK(amounts(sheet.price(ticketOf("4.5", "B=1.001")), ChargeKind::option) == "1.50");  // 1.50135
    CHECK(amounts(sheet.price(ticketOf("4.5", "B=1.004")), ChargeKind::option) == "1.51");  // 1.50585
    CHECK(amounts(sheet.price(ticketOf("0.25", "C")), ChargeKind::option) == "-0.13");        // −0.125, away from zero
}

TEST_CASE("codes that the sheet has not are named, and so are options nobody can read", "[ready_mix][charge]")
{
    MadeSheet sheet{chargeOf(ChargeKind::option, "ACC", "6", ChargeUnit::perYard),
                    sized(chargeOf(ChargeKind::option, "ICE", "6", ChargeUnit::perYard), "5", ""),
                    chargeOf(ChargeKind::load, "ENV", "9", ChargeUnit::perLoad)};
    CHECK(sheet.price(ticketOf("4", "ACC=1;HEAT")).unknown == Unknown{"HEAT is not on the sheet"});
    CHECK(sheet.price(ticketOf("4", "ICE")).unknown == Unknown{"ICE is on the sheet, but not for this load"});
    CHECK(sheet.price(ticketOf("5", "ICE")).unknown.empty());
    CHECK(sheet.price(ticketOf("5", "ENV")).unknown.empty());  // comes with every load anyway
    CHECK(amounts(sheet.price(ticketOf("5", "ENV=2")), ChargeKind::load) == "9.00");
    CHECK(sheet.price(ticketOf("4", "3000")).unknown == Unknown{"3000 is not on the sheet"});  // a mix is no option
    CHECK(sheet.price(ticketOf("4", "ACC==")).unknown.size() == 1);
    CHECK(sheet.price(ticketOf("4", "ACC==")).net == dollars("409.00"));
}

TEST_CASE("short loads: a range holds its first size and not its last", "[ready_mix][charge]")
{
    MadeSheet ladder{sized(chargeOf(ChargeKind::shortLoad, "SL1", "200", ChargeUnit::perLoad), "0", "3"),
                     sized(chargeOf(ChargeKind::shortLoad, "SL2", "120", ChargeUnit::perLoad), "3", "5")};
    const auto ladderOn = [&](std::string_view size) { return amounts(ladder.price(ticketOf(size)), ChargeKind::shortLoad); };
    CHECK(ladderOn("0.5") == "200.00");
    CHECK(ladderOn("2.999") == "200.00");
    CHECK(ladderOn("3") == "120.00");
    CHECK(ladderOn("4.75") == "120.00");
    CHECK(ladderOn("5") == "");
    CHECK(ladderOn("10") == "");
    const auto charge = ladder.price(ticketOf("3.5"));
    CHECK(lineOf(charge, ChargeKind::shortLoad).rule == "Load of 3.5 yd\u00b3, from 3 to under 5: $120.00");

    MadeSheet under{sized(chargeOf(ChargeKind::shortLoad, "SL", "35.50", ChargeUnit::perYardUnder), "", "6")};
    const auto underOn = [&](std::string_view size) { return amounts(under.price(ticketOf(size)), ChargeKind::shortLoad); };
    CHECK(underOn("4.5") == "53.25");
    CHECK(underOn("5.999") == "0.04");
    CHECK(underOn("6") == "");
    CHECK(underOn("9") == "");
    const auto four = under.price(ticketOf("4.5"));
    CHECK(lineOf(four, ChargeKind::shortLoad).quantity == Quantity::parse("1.5"));
    CHECK(lineOf(four, ChargeKind::shortLoad).rule == "Load of 4.5 yd\u00b3 under 6: $35.50 \u00d7 1.5 yd\u00b3 under 6");

    MadeSheet sizeless{chargeOf(ChargeKind::shortLoad, "SL", "100", ChargeUnit::perLoad)};
    CHECK(amounts(sizeless.price(ticketOf("4")), ChargeKind::shortLoad) == "");
    CHECK(sizeless.price(ticketOf("4")).unknown == Unknown{"the sheet's short-load charge names no size"});
}

TEST_CASE("charges per load, and fuel by the load, the yard or the hundred, come with every load", "[ready_mix][charge]")
{
    CHECK(amounts(MadeSheet{chargeOf(ChargeKind::load, "ENV", "12.50", ChargeUnit::perLoad)}.price(ticketOf("9")), ChargeKind::load) == "12.50");
    CHECK(amounts(MadeSheet{chargeOf(ChargeKind::fuel, "", "18", ChargeUnit::perLoad)}.price(ticketOf("9")), ChargeKind::fuel) == "18.00");
    CHECK(amounts(MadeSheet{chargeOf(ChargeKind::fuel, "", "1.25", ChargeUnit::perYard)}.price(ticketOf("9.5")), ChargeKind::fuel) == "11.88");
    MadeSheet percent{chargeOf(ChargeKind::option, "ACC", "6", ChargeUnit::perYard),
                      chargeOf(ChargeKind::fuel, "", "2.5", ChargeUnit::percent)};
    const auto charge = percent.price(ticketOf("9.5", "ACC"));
    const auto& line = lineOf(charge, ChargeKind::fuel);
    CHECK(line.amount == dollars("23.75"));  // of the mix's 950.00
    CHECK(line.rule == "Fuel surcharge: 2.50% of the mix");
    CHECK(lineAmount(line.unitPrice, line.quantity) == line.amount);
    auto ticket = ticketOf("9.5");
    ticket.mix = "?";
    CHECK(percent.price(ticket).unknown == Unknown{"mix ? is not on the sheet", "fuel is a percentage of the mix, which has no price here"});
}

TEST_CASE("Saturday goes by the date; after hours and holiday by the ticket", "[ready_mix][charge]")
{
    MadeSheet sheet{chargeOf(ChargeKind::saturday, "SAT", "4", ChargeUnit::perYard),
                    chargeOf(ChargeKind::afterHours, "AH", "250", ChargeUnit::perLoad),
                    chargeOf(ChargeKind::holiday, "", "400", ChargeUnit::perLoad)};
    CHECK(sheet.price(ticketOf("9")).lines.size() == 1);
    CHECK(amounts(sheet.price(onDay(ticketOf("9"), "2026-06-13")), ChargeKind::saturday) == "36.00");
    CHECK(amounts(sheet.price(onDay(ticketOf("9"), "2026-06-14")), ChargeKind::saturday) == "");
    CHECK(sheet.price(ticketOf("9", "SAT")).unknown == Unknown{"SAT is on the sheet, but not for this load"});
    CHECK(amounts(sheet.price(ticketOf("9", "AH")), ChargeKind::afterHours) == "250.00");
    CHECK(amounts(sheet.price(ticketOf("9", "AH=2")), ChargeKind::afterHours) == "500.00");
    CHECK(amounts(sheet.price(ticketOf("9", "holiday")), ChargeKind::holiday) == "400.00");  // a charge without a code goes by its kind
}

TEST_CASE("winter service is on every load of its season, both ends included, over the year's end", "[ready_mix][charge]")
{
    const auto winter = inSeason(chargeOf(ChargeKind::winter, "WIN", "5", ChargeUnit::perYard), "11-15", "03-31");
    MadeSheet always{winter};
    const auto on = [&](std::string_view iso) { return amounts(always.price(onDay(ticketOf("8"), iso)), ChargeKind::winter); };
    CHECK(on("2026-11-14") == "");
    CHECK(on("2026-11-15") == "40.00");
    CHECK(on("2026-12-31") == "40.00");
    CHECK(on("2027-01-01") == "40.00");
    CHECK(on("2027-03-31") == "40.00");
    CHECK(on("2027-04-01") == "");
    const auto charge = always.price(onDay(ticketOf("8"), "2027-01-05"));
    CHECK(lineOf(charge, ChargeKind::winter).rule == "Winter service, 11-15 to 03-31: $5.00 \u00d7 8 yd\u00b3");
    CHECK(amounts(always.price(onDay(ticketOf("8", "WIN"), "2027-01-05")), ChargeKind::winter) == "40.00");  // named or not, once

    MadeSheet ordered{whenOrdered(winter)};
    CHECK(amounts(ordered.price(onDay(ticketOf("8"), "2027-01-05")), ChargeKind::winter) == "");
    CHECK(amounts(ordered.price(onDay(ticketOf("8", "WIN"), "2027-01-05")), ChargeKind::winter) == "40.00");
    CHECK(ordered.price(onDay(ticketOf("8", "WIN"), "2027-06-05")).unknown == Unknown{"WIN is on the sheet, but not for this load"});
    MadeSheet yearRound{whenOrdered(chargeOf(ChargeKind::winter, "WIN", "5", ChargeUnit::perYard))};
    CHECK(amounts(yearRound.price(ticketOf("8", "WIN")), ChargeKind::winter) == "40.00");
}

TEST_CASE("concrete sent back is charged by the yards that went back", "[ready_mix][charge]")
{
    MadeSheet sheet{chargeOf(ChargeKind::returned, "RET", "30", ChargeUnit::perYard)};
    auto ticket = ticketOf("9");
    CHECK(amounts(sheet.price(ticket), ChargeKind::returned) == "");
    CHECK(sheet.price(ticket).unknown.empty());
    ticket.returnedYards = Yards{};
    CHECK(amounts(sheet.price(ticket), ChargeKind::returned) == "");
    ticket.returnedYards = yards("1.25");
    CHECK(amounts(sheet.price(ticket), ChargeKind::returned) == "37.50");
    MadeSheet overOne{sized(chargeOf(ChargeKind::returned, "RET", "30", ChargeUnit::perYard), "1.5", "")};
    CHECK(amounts(overOne.price(ticket), ChargeKind::returned) == "");
}

TEST_CASE("tax is reckoned once, on the sum of the taxable lines", "[ready_mix][charge]")
{
    MadeSheet sheet{taxed(chargeOf(ChargeKind::load, "ENV", "0.50", ChargeUnit::perLoad)),
                    taxed(chargeOf(ChargeKind::load, "FEE", "0.50", ChargeUnit::perLoad)),
                    taxed(chargeOf(ChargeKind::fuel, "", "0.50", ChargeUnit::perLoad)),
                    chargeOf(ChargeKind::tax, "", "7", ChargeUnit::percent)};
    const auto charge = sheet.price(ticketOf("9"));
    CHECK(charge.net == dollars("901.50"));
    CHECK(charge.tax == dollars("0.11"));  // not three times 0.04
    CHECK(charge.total == dollars("901.61"));
    CHECK(charge.taxRule == "7% on $1.50");
    CHECK(amounts(charge, ChargeKind::tax) == "");

    MadeSheet twoTaxes{taxed(chargeOf(ChargeKind::fuel, "", "10.30", ChargeUnit::perLoad)),
                       chargeOf(ChargeKind::tax, "STATE", "6.25", ChargeUnit::percent),
                       chargeOf(ChargeKind::tax, "COUNTY", "1.5", ChargeUnit::percent)};
    CHECK(twoTaxes.price(ticketOf("9")).tax == dollars("0.80"));  // 7.75 % of 10.30 = 0.79825; apart they would be 0.64 + 0.15
    CHECK(MadeSheet{}.price(ticketOf("9")).tax == Money{});
}

TEST_CASE("the discount for paying early is shown and not taken off", "[ready_mix][charge]")
{
    MadeSheet percent{chargeOf(ChargeKind::discount, "", "2", ChargeUnit::percent)};
    CHECK(percent.price(ticketOf("9.5")).earlyDiscount == dollars("19.00"));
    CHECK(percent.price(ticketOf("9.5")).total == dollars("950.00"));
    MadeSheet perYard{chargeOf(ChargeKind::discount, "", "3.00", ChargeUnit::perYard)};
    CHECK(perYard.price(ticketOf("9.5")).earlyDiscount == dollars("28.50"));
    CHECK(perYard.price(ticketOf("9.5")).lines.size() == 1);
}

TEST_CASE("an amount that no bill can hold is named, and the rest still counts", "[ready_mix][charge]")
{
    MadeSheet sheet{chargeOf(ChargeKind::option, "ACC", "10000000", ChargeUnit::perYard),
                    chargeOf(ChargeKind::load, "PERMIN", "2", ChargeUnit::perMinute),
                    chargeOf(ChargeKind::load, "UNDER", "2", ChargeUnit::perYardUnder)};
    for (const auto* options : {"ACC=999999999999", "ACC=100000"}) {
        const auto charge = sheet.price(ticketOf("9", options));
        CHECK(charge.net == dollars("900.00"));
        REQUIRE(charge.unknown.size() == 3);
        CHECK(charge.unknown[0] == "ACC comes to an amount that no bill can hold; check the ticket");
        CHECK(charge.unknown[1] == "PERMIN is per minute, and the ticket has no minutes for it");
        CHECK(charge.unknown[2] == "UNDER is per yd\u00b3 under a size that the sheet does not give");
    }
}

TEST_CASE("a load that no truck can hold is not priced", "[ready_mix][charge]")
{
    MadeSheet sheet{waitingCharge("2.50", "5", FreeBasis::perYard, 1),
                    chargeOf(ChargeKind::option, "ACC", "9999999", ChargeUnit::perYard),
                    chargeOf(ChargeKind::discount, "", "3", ChargeUnit::perYard)};
    for (const auto* size : {"999999999999", "1000000.001", "0", "-1"}) {
        const auto charge = sheet.price(ticketOf(size, "ACC=999999999"));
        CHECK(charge.lines.empty());
        CHECK(charge.unknown == Unknown{"the yards are none that a truck can hold; check the ticket"});
    }
}

namespace {

/// A sheet of every kind of charge with figures drawn at random.
void drawSheet(MadeSheet& sheet, std::mt19937& random)
{
    const auto upTo = [&](unsigned most) { return static_cast<std::int64_t>(random() % most); };
    for (int i = 0; i < 12; ++i) {
        SheetCharge charge;
        charge.charge = static_cast<ChargeKind>(upTo(13));
        charge.code = std::array{"3000", "ACC", "HEAT", "SAT", ""}[static_cast<std::size_t>(upTo(5))];
        charge.amount = UnitPrice::ofUnits(upTo(2'000'000));
        charge.unit = charge.charge == ChargeKind::tax ? ChargeUnit::percent : static_cast<ChargeUnit>(upTo(5));
        if (charge.unit == ChargeUnit::percent) charge.amount = UnitPrice::ofUnits(upTo(100'000));
        if (upTo(3) == 0) charge.fromYards = Yards::ofUnits(upTo(6'000));
        if (upTo(3) == 0) charge.toYards = Yards::ofUnits(6'000 + upTo(6'000));
        if (upTo(2) == 0) charge.freeMinutes = Quantity::ofUnits(upTo(8'000));
        charge.freeBasis = FreeBasis::perYard;
        charge.stepMinutes = static_cast<std::int32_t>(1 + upTo(15));
        charge.onlyWhenOrdered = upTo(4) == 0;
        charge.taxable = upTo(2) == 0;
        sheet.add(charge);
    }
}

}

TEST_CASE("a charge's lines add up, whatever the sheet and the ticket", "[ready_mix][charge][property]")
{
    std::mt19937 random{1234};
    const auto upTo = [&](unsigned most) { return static_cast<std::int64_t>(random() % most); };
    std::size_t linesSeen = 0;
    for (int i = 0; i < 3000; ++i) {
        MadeSheet sheet;
        drawSheet(sheet, random);
        auto ticket = ticketOf("1", std::array{"", "ACC=2", "ACC=1.25;HEAT", "SAT;ICE"}[static_cast<std::size_t>(upTo(4))]);
        ticket.yards = Yards::ofUnits(1 + upTo(11'000));
        ticket.date = ticket.date + static_cast<int>(upTo(365));
        if (upTo(4)) ticket.arrivedAt = ClockTime::ofMinutes(upTo(700));
        if (upTo(4)) ticket.dischargeEndedAt = ClockTime::ofMinutes(700 + upTo(300));
        if (upTo(3) == 0) ticket.returnedYards = Yards::ofUnits(upTo(static_cast<unsigned>(ticket.yards.units())));
        const auto charge = sheet.price(ticket);

        Money net;
        Money taxable;
        Rate tax;
        for (const auto& line : charge.lines) {
            net += line.amount;
            if (line.taxable) taxable += line.amount;
            // Half a cent for the line, and half a ten-thousandth a yard where 1.25 times a price does not end within four decimals.
            INFO(line.rule);
            CHECK(std::abs(line.amount.toDouble() - line.quantity.toDouble() * line.unitPrice.toDouble()) <= 0.005 + 0.00005 * line.quantity.toDouble() + 1e-9);
            CHECK_FALSE(line.description.empty());
            CHECK_FALSE(line.rule.empty());
        }
        linesSeen += charge.lines.size();
        for (const auto* row : sheet.sheet().charges) {
            const bool ofThisSize = (!row->fromYards || ticket.yards >= *row->fromYards) && (!row->toYards || ticket.yards < *row->toYards);
            if (row->charge == ChargeKind::tax && ofThisSize) tax += Rate::ofUnits(row->amount.units());
        }
        CHECK(charge.net == net);
        CHECK(charge.tax == percentOf(taxable, tax));
        CHECK(charge.total == charge.net + charge.tax);

        const auto unworded = expectedCharge(ticket, sheet.sheet(), Words::leftOut);
        REQUIRE(unworded.lines.size() == charge.lines.size());
        for (std::size_t n = 0; n < charge.lines.size(); ++n) {
            CHECK(unworded.lines[n].amount == charge.lines[n].amount);
            CHECK(unworded.lines[n].code == charge.lines[n].code);
            CHECK(unworded.lines[n].rule.empty());
        }
        CHECK(unworded.total == charge.total);
        CHECK(unworded.unknown == charge.unknown);
    }
    CHECK(linesSeen > 6000);
}
