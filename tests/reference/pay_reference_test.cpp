#include "domain/labor/yard.h"

#include "labor/clock.h"

// Pay against published examples. Rows of a week are hours in the book; pieces and production bonuses are bonuses earned in the week; a weekly salary
// is five day rates, since the arithmetic of both is: all pay over all hours, then half as much again for the hours past 40.

using namespace strikeoff;

namespace {

const Date monday = on("2026-05-11");

/// Hours over the working days of one week: the whole of it from Monday on, at most 600 minutes a day and the rest on Saturday.
void week(Yard& yard, Id<CrewMember> who, int minutes, Date start = monday, std::optional<Id<Job>> where = {}, Phase phase = Phase::place)
{
    for (int day = 0; minutes > 0; ++day) {
        const int today = day == 5 ? minutes : std::min(minutes, 600);
        yard.worked(who, start + day, today, where, phase);
        minutes -= today;
    }
}

WeekPay paid(const Yard& yard, Id<CrewMember> who, Date day = monday)
{
    const LaborCost labor{yard.book};
    REQUIRE(labor.weekOf(who, day));
    return *labor.weekOf(who, day);
}

void bonus(Yard& yard, Id<CrewMember> who, std::string_view amount, Date from = monday, Date to = monday + 6)
{
    yard.add(Bonus{.person = who, .amount = usd(amount), .earnedFrom = from, .earnedTo = to});
}

Id<CrewMember> byTheDay(Yard& yard, std::string_view dayRate)
{
    const auto who = yard.person("By the day", "");
    yard.add(PayRate{.person = who, .fromDate = on("2020-01-01"), .dayRate = usd(dayRate)});
    return who;
}

}

TEST_CASE("overtime on one hourly rate, with and without a bonus of the week", "[reference][pay]")
{
    Yard yard;
    // 29 CFR 778.110(a), as amended at 76 FR 18857, 2011: $12 an hour, 46 hours: $588.
    const auto first = yard.person("First", "12.00");
    week(yard, first, 46 * 60);
    CHECK(paid(yard, first).gross() == usd("588.00"));
    CHECK(paid(yard, first).overtime == Minutes::of(6 * 60));
    // 29 CFR 778.110(b): with a production bonus of $46 the regular rate is $13 and the week $637.
    const auto second = yard.person("Second", "12.00");
    week(yard, second, 46 * 60);
    bonus(yard, second, "46.00");
    CHECK(paid(yard, second).regularRate == each("13.00"));
    CHECK(paid(yard, second).gross() == usd("637.00"));
    // 29 CFR 778.110, 46 FR 7309, 1981: $6 an hour, 46 hours: $294; with $9.20 the rate is $6.20 and the week $303.80.
    const auto third = yard.person("Third", "6.00");
    week(yard, third, 46 * 60);
    CHECK(paid(yard, third).gross() == usd("294.00"));
    bonus(yard, third, "9.20");
    CHECK(paid(yard, third).regularRate == each("6.20"));
    CHECK(paid(yard, third).gross() == usd("303.80"));
    // DOL, Handy Reference Guide to the FLSA (WH-1282): $8 an hour, 44 hours: $368.
    const auto fourth = yard.person("Fourth", "8.00");
    week(yard, fourth, 44 * 60);
    CHECK(paid(yard, fourth).gross() == usd("368.00"));
}

TEST_CASE("overtime on pieces, with paid waiting time, and under an hourly guarantee", "[reference][pay]")
{
    Yard yard;
    const auto job = yard.job("Pieces");
    // 29 CFR 778.111(a): $491 of pieces in 46 hours and 4 hours of waiting at $8: $523 over 50 hours is $10.46; ten hours at $5.23 more: $575.30.
    const auto pieces = yard.person("Pieces", "0.00");
    yard.add(PayRate{.person = pieces, .fromDate = on("2020-01-01"), .phase = Phase::travel, .hourlyRate = each("8.00")});
    week(yard, pieces, 46 * 60, monday, job);
    yard.worked(pieces, monday + 5, 4 * 60, job, Phase::travel);
    bonus(yard, pieces, "491.00");
    const auto mixed = paid(yard, pieces);
    CHECK(mixed.straight == usd("523.00"));
    CHECK(mixed.regularRate == each("10.46"));
    CHECK(mixed.premium == usd("52.30"));
    CHECK(mixed.gross() == usd("575.30"));
    // 29 CFR 778.111(b): with $11 an hour guaranteed, 46 hours are $506 and six at $5.50 more: $539.
    const auto sure = yard.person("Sure", "11.00");
    week(yard, sure, 46 * 60);
    CHECK(paid(yard, sure).straight == usd("506.00"));
    CHECK(paid(yard, sure).gross() == usd("539.00"));
    // WH-1282: $405 of pieces in 45 hours: $9.00, premium $22.50, week $427.50.
    const auto last = yard.person("Last", "0.00");
    week(yard, last, 45 * 60);
    bonus(yard, last, "405.00");
    CHECK(paid(yard, last).regularRate == each("9.00"));
    CHECK(paid(yard, last).premium == usd("22.50"));
    CHECK(paid(yard, last).gross() == usd("427.50"));
}

TEST_CASE("overtime on day rates and on a salary for all hours worked", "[reference][pay]")
{
    Yard yard;
    // Rule of 29 CFR 778.112, figures of ours: five days at $200, 50 hours: $20 an hour, ten half hours more: $1,100.
    const auto daily = byTheDay(yard, "200.00");
    for (int day = 0; day < 5; ++day) yard.worked(daily, monday + day, 600);
    CHECK(paid(yard, daily).regularRate == each("20.00"));
    CHECK(paid(yard, daily).gross() == usd("1100.00"));
    // WH-1282, earlier printing: $420 a week for all hours: 50 h at $8.40, $462; 60 h at $7.00, $490. As five days at $84.
    Yard other;
    const auto salaried = byTheDay(other, "84.00");
    for (int day = 0; day < 5; ++day) {
        other.worked(salaried, monday + day, 600);
        other.worked(salaried, monday + 7 + day, 720);
    }
    CHECK(paid(other, salaried).regularRate == each("8.40"));
    CHECK(paid(other, salaried).gross() == usd("462.00"));
    CHECK(paid(other, salaried, monday + 7).regularRate == each("7.00"));
    CHECK(paid(other, salaried, monday + 7).gross() == usd("490.00"));
    // 29 CFR 778.325: $275 for 55 hours is $5 an hour, $2.50 more for each of 15 hours ($312.50 computed from it). As five days of 11 h at $55.
    Yard third;
    const auto fixed = byTheDay(third, "55.00");
    for (int day = 0; day < 5; ++day) third.worked(fixed, monday + day, 660);
    CHECK(paid(third, fixed).regularRate == each("5.00"));
    CHECK(paid(third, fixed).premium == usd("37.50"));
    CHECK(paid(third, fixed).gross() == usd("312.50"));
}

TEST_CASE("a salary of 35 hours worked 42, and current figures of the section", "[reference][pay]")
{
    Yard yard;
    // 29 CFR 778.113(a), 1981: $182.70 for 35 h is $5.22, $7.83 past 40; 42 h are 40 × 5.22 + 2 × 7.83 = $224.46 (computed from it).
    const auto who = yard.person("Salary", "5.22");
    week(yard, who, 42 * 60);
    CHECK(paid(yard, who).gross() == usd("224.46"));
    const auto full = yard.person("Full", "5.22");
    week(yard, full, 35 * 60);
    CHECK(paid(yard, full).gross() == usd("182.70"));
    // 29 CFR 778.113, 2011 text, from memory: $350 for 35 h is $10, overtime at $15: 41 h are $415.
    const auto now = yard.person("Now", "10.00");
    week(yard, now, 41 * 60);
    CHECK(paid(yard, now).gross() == usd("415.00"));
}

TEST_CASE("the regular rate rounded to the cent first and kept exact give the two weeks in print", "[reference][pay]")
{
    // 29 CFR 778.322: $200 for a week cut to 35 hours, 41 worked: $200 + 5 × $5.71 + 1 × $8.57 = $237.12 with rates in cents. Exact it is $237.14.
    // The salary stands as five days of 7 h at $40, the six hours past it on Saturday by the hour.
    const auto saturdayRate = [](std::string_view hourly, RateRounding rounding) {
        Yard yard;
        yard.set([&](Settings& settings) { settings.rateRounding = rounding; });
        const auto who = byTheDay(yard, "40.00");
        yard.add(PayRate{.person = who, .fromDate = monday + 5, .hourlyRate = each(hourly)});
        for (int day = 0; day < 5; ++day) yard.worked(who, monday + day, 420);
        yard.worked(who, monday + 5, 360);
        return paid(yard, who).gross();
    };
    CHECK(saturdayRate("5.71", RateRounding::cent) == usd("237.12"));
    CHECK(saturdayRate("5.7143", RateRounding::exact) == usd("237.14"));
}

TEST_CASE("several rates in a week are averaged by their hours", "[reference][pay]")
{
    const auto twoRates = [](std::string_view first, int firstHours, std::string_view second, int secondHours) {
        Yard yard;
        const auto who = yard.person("Both", first);
        yard.add(PayRate{.person = who, .fromDate = on("2020-01-01"), .phase = Phase::finish, .hourlyRate = each(second)});
        const auto job = yard.job("Walk");
        week(yard, who, firstHours * 60, monday, job, Phase::place);
        week(yard, who, secondHours * 60, monday, job, Phase::finish);
        return paid(yard, who);
    };
    // DOL WHD Fact Sheet 54, rev. July 2009: 24 h at $8 and 24 h at $9: $408 over 48 h is $8.50; the eight hours past 40 come to $102 at 1.5;
    // the week $442 (computed from it).
    const auto sheet = twoRates("8.00", 24, "9.00", 24);
    CHECK(sheet.straight == usd("408.00"));
    CHECK(sheet.regularRate == each("8.50"));
    CHECK(sheet.premium == usd("34.00"));  // 8 × 4.25
    CHECK(sheet.gross() == usd("442.00"));
    // Rule of 29 CFR 778.115, figures of a business council's article: 30 h at $10 and 15 h at $12: $480 over 45 h; week $506.67.
    CHECK(twoRates("10.00", 30, "12.00", 15).gross() == usd("506.67"));
    // California DIR, overtime FAQ, from memory: 32 h at $11 and 10 h at $9: $442 over 42 h is $10.52.
    const auto california = twoRates("11.00", 32, "9.00", 10);
    CHECK(california.straight == usd("442.00"));
    CHECK(california.regularRate->shown(2) == "10.52");
}

TEST_CASE("a bonus belongs to the weeks it was earned in, and weeks are never averaged", "[reference][pay]")
{
    Yard yard;
    // DOL WHD Fact Sheet 54: $100 for two weeks adds $50 to the pay of the week with overtime before it is divided by its hours.
    const auto who = yard.person("Two weeks", "10.00");
    week(yard, who, 50 * 60);
    week(yard, who, 40 * 60, monday + 7);
    bonus(yard, who, "100.00", monday, monday + 13);
    const auto first = paid(yard, who), second = paid(yard, who, monday + 7);
    CHECK(first.bonus == usd("50.00"));
    CHECK(second.bonus == usd("50.00"));
    // 29 CFR 778.209(b), figures of ours: half of $550 over 50 h, ten times: $55 on top of $550.
    CHECK(first.gross() == usd("605.00"));
    CHECK(second.gross() == usd("450.00"));
    // 29 CFR 778.209(a): known late, it moves the pay of the past week and of no other.
    const auto late = yard.person("Late", "10.00");
    week(yard, late, 48 * 60, monday + 14);
    CHECK(paid(yard, late, monday + 14).premium == usd("40.00"));
    bonus(yard, late, "96.00", monday + 14, monday + 20);
    CHECK(paid(yard, late, monday + 14).premium == usd("48.00"));  // half of 96 ÷ 48 more, eight times
    // 29 CFR 778.104: 30 h and 50 h are ten hours of overtime, not none.
    const auto uneven = yard.person("Uneven", "10.00");
    week(yard, uneven, 30 * 60);
    week(yard, uneven, 50 * 60, monday + 7);
    CHECK(paid(yard, uneven).overtime == Minutes{});
    CHECK(paid(yard, uneven, monday + 7).overtime == Minutes::of(600));
    CHECK(paid(yard, uneven, monday + 7).gross() == usd("550.00"));
}

TEST_CASE("the daily rule: past 8 and 12 hours, the seventh day, and no hour earning two premiums", "[reference][pay]")
{
    const auto daily = [](std::string_view hourly, std::vector<int> minutes) {
        Yard yard;
        yard.set([](Settings& settings) { settings.overtimeRule = OvertimeRule::daily; });
        const auto who = yard.person("Daily", hourly);
        for (std::size_t day = 0; day < minutes.size(); ++day)
            if (minutes[day] > 0) yard.worked(who, monday + static_cast<int>(day), minutes[day]);
        return paid(yard, who);
    };
    // A textbook publisher's example (secondary copy): $30, a day of 12 h: 8 × 30 + 4 × 45 = $420.
    CHECK(daily("30.00", {720}).gross() == usd("420.00"));
    // California Labor Code 510(a), figures of ours: $20, 14 h: 8 × 20 + 4 × 30 + 2 × 40 = $360.
    CHECK(daily("20.00", {840}).gross() == usd("360.00"));
    CHECK(daily("20.00", {840}).doubled == Minutes::of(120));
    // The seventh day, 10 h, at $20: 8 × 30 + 2 × 40 = $320 beside six days of 6 h 40 at straight pay ($800).
    CHECK(daily("20.00", {400, 400, 400, 400, 400, 400, 600}).gross() == usd("1120.00"));
    // Five days of 9 h at $20: 40 × 20 + 5 × 30 = $950; no second premium for the week.
    const auto nine = daily("20.00", {540, 540, 540, 540, 540});
    CHECK(nine.gross() == usd("950.00"));
    CHECK(nine.overtime == Minutes::of(300));
    // Six days of 8 h: none past 8 in a day, eight past 40 in the week.
    CHECK(daily("20.00", {480, 480, 480, 480, 480, 480}).overtime == Minutes::of(480));
}

TEST_CASE("clock times are rounded to the nearest 5, 6 or 15 minutes and kept as written", "[reference][pay]")
{
    const auto hoursOf = [](std::string_view start, std::string_view stop, ClockRounding rounding) {
        Yard yard;
        yard.set([&](Settings& settings) { settings.clockRounding = rounding; });
        const auto who = yard.person("Clock");
        const auto row = yard.add(Hours{.person = who, .date = monday, .phase = Phase::shop, .startedAt = at(start), .endedAt = at(stop), .unpaidMinutes = Minutes::of(60)});
        const LaborCost labor{yard.book};
        CHECK(yard.book.get(row).startedAt == at(start));
        CHECK(yard.book.get(row).endedAt == at(stop));
        return labor.of(row)->minutes.count();
    };
    // University of Arizona FSO, Rounding Reported Hours: quarter hours, 1 to 7 down and 8 to 14 up, one hour of unpaid lunch.
    CHECK(hoursOf("07:55", "17:00", ClockRounding::fifteen) == 480);
    CHECK(hoursOf("07:50", "17:00", ClockRounding::fifteen) == 495);
    CHECK(hoursOf("08:04", "17:00", ClockRounding::fifteen) == 480);
    CHECK(hoursOf("08:08", "17:00", ClockRounding::fifteen) == 465);
    CHECK(hoursOf("08:00", "16:55", ClockRounding::fifteen) == 480);
    CHECK(hoursOf("08:00", "16:47", ClockRounding::fifteen) == 465);
    CHECK(hoursOf("08:00", "17:05", ClockRounding::fifteen) == 480);
    CHECK(hoursOf("08:00", "17:09", ClockRounding::fifteen) == 495);
    // 29 CFR 785.48(b): the nearest 5 minutes, tenth or quarter of an hour; 8:08 is 8:10, 8:06 and 8:15 (computed from the rule).
    CHECK(roundedClock(at("08:08"), ClockRounding::five) == 8 * 60 + 10);
    CHECK(roundedClock(at("08:08"), ClockRounding::six) == 8 * 60 + 6);
    CHECK(roundedClock(at("08:08"), ClockRounding::fifteen) == 8 * 60 + 15);
    CHECK(roundedClock(at("08:08"), ClockRounding::none) == 8 * 60 + 8);
}
