#include "domain/ready_mix/sheets.h"

#include <catch2/catch.hpp>

#include <random>

using namespace strikeoff;

namespace {

Ticket stay(std::string_view size, std::string_view arrived, std::string_view empty)
{
    auto ticket = ticketOf(size);
    ticket.arrivedAt = clock(arrived);
    ticket.dischargeEndedAt = clock(empty);
    return ticket;
}

const auto fiveFreeAYard = waitingCharge("2.50", "5", FreeBasis::perYard, 1);

std::int64_t charged(const SheetCharge& charge, const Ticket& ticket) { return waitingOf(ticket, charge).charged.count(); }

}

TEST_CASE("waiting is from arrival to empty, less the free minutes", "[ready_mix][waiting]")
{
    // 45 minutes against 9.5 yd³ at 5 min: nothing due.
    const auto none = waitingOf(stay("9.5", "07:41", "08:26"), fiveFreeAYard);
    CHECK(none.onSite == Minutes::of(45));
    CHECK(none.freeMinutes == Quantity::parse("47.5"));
    CHECK(none.charged == Minutes{});
    CHECK(none.rule == "on site 7:41 am, empty 8:26 am = 45 min; 9.5 yd\u00b3 at 5 min free each = 47.5 min: nothing due");

    CHECK(charged(fiveFreeAYard, stay("9.5", "07:41", "08:28")) == 0);   // 47 min of 47.5
    CHECK(charged(fiveFreeAYard, stay("9.5", "07:41", "08:29")) == 1);   // 48 min: half a minute, up to a whole one
    CHECK(charged(fiveFreeAYard, stay("9", "07:41", "08:26")) == 0);     // to the minute
    CHECK(charged(fiveFreeAYard, stay("9", "07:41", "08:27")) == 1);
    CHECK(charged(waitingCharge("2", "30", FreeBasis::perLoad, 1), stay("9", "07:00", "07:42")) == 12);
    auto noneFree = chargeOf(ChargeKind::waiting, "WAIT", "2", ChargeUnit::perMinute);
    CHECK(charged(noneFree, stay("9", "07:00", "07:42")) == 42);
}

TEST_CASE("waiting is counted up to whole steps", "[ready_mix][waiting]")
{
    const auto quarterHours = waitingCharge("2.50", "5", FreeBasis::perYard, 15);
    CHECK(charged(quarterHours, stay("8", "07:00", "07:40")) == 0);
    CHECK(charged(quarterHours, stay("8", "07:00", "07:41")) == 15);
    CHECK(charged(quarterHours, stay("8", "07:00", "07:55")) == 15);
    CHECK(charged(quarterHours, stay("8", "07:00", "07:56")) == 30);
    CHECK(waitingOf(stay("8", "07:00", "07:56"), quarterHours).rule ==
          "on site 7:00 am, empty 7:56 am = 56 min; 8 yd\u00b3 at 5 min free each = 40 min; 16 min over, in steps of 15 = 30 min");
}

TEST_CASE("a stay over midnight counts through it", "[ready_mix][waiting]")
{
    CHECK(charged(fiveFreeAYard, stay("8", "23:30", "00:45")) == 75 - 40);
    CHECK(waitingOf(stay("8", "23:59", "00:00"), fiveFreeAYard).onSite == Minutes::of(1));
    CHECK(waitingOf(stay("8", "09:00", "09:00"), fiveFreeAYard).onSite == Minutes{});
    // Ten minutes backwards are two times in the wrong order and not a day's wait.
    const auto swapped = waitingOf(stay("8", "10:00", "09:50"), fiveFreeAYard);
    CHECK_FALSE(swapped.onSite);
    CHECK(swapped.charged == Minutes{});
    CHECK(swapped.rule.find("out of order") != std::string::npos);
}

TEST_CASE("a time that is not recorded proves nothing, and the charge says so", "[ready_mix][waiting]")
{
    MadeSheet sheet{fiveFreeAYard};
    const auto check = [&](std::string_view arrived, std::string_view empty, std::string_view says) {
        const auto charge = sheet.price(stay("8", arrived, empty));
        CHECK(amounts(charge, ChargeKind::waiting).empty());
        CHECK(charge.unknown == std::vector<std::string>{"waiting: " + std::string{says}});
    };
    check("", "", "neither arrival nor empty time is recorded");
    check("07:00", "", "the time the truck was empty is not recorded");
    check("", "09:00", "the time of arrival is not recorded");
    check("09:00", "08:00", "on site 9:00 am, empty 8:00 am: the times are out of order");
    CHECK(MadeSheet{}.price(stay("8", "", "")).unknown.empty());  // a sheet without a waiting charge needs no times
    CHECK(MadeSheet{whenOrdered(fiveFreeAYard)}.price(stay("8", "", "")).unknown.empty());
}

TEST_CASE("waiting due becomes a line by the minute", "[ready_mix][waiting]")
{
    MadeSheet sheet{waitingCharge("2.75", "5", FreeBasis::perYard, 5)};
    const auto charge = sheet.price(stay("8", "07:00", "07:57"));
    const auto& line = lineOf(charge, ChargeKind::waiting);
    CHECK(line.quantity == Quantity::ofWhole(20));
    CHECK(line.unit == "min");
    CHECK(line.unitPrice == UnitPrice::parse("2.75"));
    CHECK(line.amount == dollars("55.00"));
    CHECK(line.rule.find("17 min over, in steps of 5 = 20 min: $2.75 \u00d7 20 min") != std::string::npos);
    CHECK(amounts(sheet.price(stay("8", "07:00", "07:40")), ChargeKind::waiting).empty());
    CHECK(sheet.price(stay("8", "07:00", "07:40")).unknown.empty());
}

TEST_CASE("waiting charged is never less than what is over, nor a step more, nor negative", "[ready_mix][waiting][property]")
{
    std::mt19937 random{64};
    const auto upTo = [&](int most) { return static_cast<int>(random() % static_cast<unsigned>(most)); };
    for (int i = 0; i < 5000; ++i) {
        auto charge = fiveFreeAYard;
        charge.freeMinutes = Quantity::ofUnits(upTo(9'000));
        charge.freeBasis = upTo(2) ? FreeBasis::perYard : FreeBasis::perLoad;
        charge.stepMinutes = 1 + upTo(30);
        auto ticket = ticketOf("1");
        ticket.yards = Yards::ofUnits(1 + upTo(12'000));
        const int arrived = upTo(1440);
        const int minutes = upTo(300);
        ticket.arrivedAt = ClockTime::ofMinutes(arrived);
        ticket.dischargeEndedAt = ClockTime::ofMinutes((arrived + minutes) % 1440);
        const auto waiting = waitingOf(ticket, charge);
        REQUIRE(waiting.onSite == Minutes::of(minutes));
        const double freeTime = charge.freeMinutes->toDouble() * (charge.freeBasis == FreeBasis::perYard ? ticket.yards.toDouble() : 1);
        const double over = std::max(0.0, minutes - freeTime);
        INFO(waiting.rule);
        const auto count = static_cast<double>(waiting.charged.count());
        CHECK(count >= over - 1e-6);
        CHECK(count < over + *charge.stepMinutes + 1e-6);
        CHECK(waiting.charged.count() % *charge.stepMinutes == 0);
        if (over <= 0) CHECK(waiting.charged == Minutes{});
        const auto unworded = waitingOf(ticket, charge, Words::leftOut);
        CHECK(unworded.rule.empty());
        CHECK(unworded.charged == waiting.charged);
    }
}
