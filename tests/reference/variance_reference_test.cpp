#include "domain/cost/story.h"

#include "labor/overhead.h"

// Standard-cost variances and job cost sheets. Source: the worked examples of OpenStax, Principles of Accounting, Volume 2: Managerial Accounting,
// chapters 4 and 8. What the book calls the standard is what the bid carries; unfavorable is above zero. Quantities and prices are driven through
// quotes, receipts, people and hours. Left out: a predetermined rate per labor dollar by itself (4.4) and over- or under-applied overhead (4.6), as
// overhead here is what was truly spent, spread over the hours worked, so that nothing is over- or under-applied.

using namespace strikeoff;

namespace {

struct Found {
    std::optional<Money> price, quantity;
    Money total;
};

/// One class bought by a unit: what was carried, what was bought and what it cost.
Found bought(std::string_view carried, const std::string& unit, std::string_view carriedPrice, std::string_view used, std::string_view cost)
{
    Story story;
    story.carried(CostClass::base, "Standard", carried, unit, carriedPrice);
    story.receipt(CostClass::base, cost, used, unit);
    story.finished();
    const auto why = story.why();
    return {reason(why, CostClass::base, "price"), reason(why, CostClass::base, "quantity"), why.difference()};
}

struct Labor {
    std::optional<Money> rate, time;
    Money total;
};

/// One person's minutes at an hourly rate against hours carried at another.
Labor worked(std::string_view hours, std::string_view carriedRate, int minutes, std::string_view rate)
{
    Story story;
    story.rate(rate);
    story.carried(CostClass::labor, "Standard", hours, "h", carriedRate, Phase::place);
    story.hours("2026-03-23", Phase::place, minutes);
    story.finished();
    const auto why = story.why();
    return {reason(why, CostClass::labor, "rate"), reason(why, CostClass::labor, "pace: place"), why.difference()};
}

}

namespace {

/// $2.50 on each labor dollar, as three burdens: none of them may be more than the pay itself.
void onLabor(BookMaker& maker)
{
    for (const auto& [item, rate] : {std::pair{BurdenItem::liability, "100"}, {BurdenItem::workersComp, "100"}, {BurdenItem::stateUnemployment, "50"}})
        maker.add(BurdenRate{.item = item, .fromDate = on("2026-01-01"), .basis = BurdenBasis::perHundred, .rate = each(rate)});
}

}

TEST_CASE("material price and quantity variances", "[reference][explanation]")
{
    // 8.2: standard 8 oz at $0.85 for each of 11,000 units; 89,000 oz bought for $74,760 and all used: price 890 F, quantity 850 U, total 40 F.
    auto found = bought("88000", "oz", "0.85", "89000", "74760");
    CHECK(found.price == usd("-890"));
    CHECK(found.quantity == usd("850"));
    CHECK(found.total == usd("-40"));

    // 8.2: standard 0.25 lb at $7, actual 0.50 lb at $9: price 1.00 U, quantity 1.75 U, total 2.75 U.
    found = bought("0.25", "lb", "7", "0.5", "4.50");
    CHECK(found.price == usd("1"));
    CHECK(found.quantity == usd("1.75"));
    CHECK(found.total == usd("2.75"));

    // 8.2, price alone: 20 lb, standard $7, actual $6: 20.00 F; actual $9: 40.00 U.
    found = bought("20", "lb", "7", "20", "120");
    CHECK(found.price == usd("-20"));
    CHECK(found.quantity == std::nullopt);
    CHECK(bought("20", "lb", "7", "20", "180").price == usd("40"));

    // 8.2, quantity alone: standard 0.25 lb at $7; actual 0.20 lb: 0.35 F; 0.50 lb: 1.75 U.
    found = bought("0.25", "lb", "7", "0.2", "1.40");
    CHECK(found.price == std::nullopt);
    CHECK(found.quantity == usd("-0.35"));
    CHECK(bought("0.25", "lb", "7", "0.5", "3.50").quantity == usd("1.75"));
}

TEST_CASE("labor rate and time variances", "[reference][explanation]")
{
    // 8.3: standard 1.5 h at $35 for each of 11,000 units (16,500 h); 16,000 h cost $565,600: rate 5,600 U, time 17,500 F. The total is 11,900 F; the
    // book prints it as unfavorable.
    Story story;
    story.carried(CostClass::labor, "Standard", "16500", "h", "35", Phase::place);
    for (int i = 0; i < 50; ++i) {
        const auto who = story.maker.add(CrewMember{.name = "Hand " + std::to_string(i)});
        story.maker.add(PayRate{.person = who, .fromDate = on("2026-01-01"), .hourlyRate = each("35.35")});
        for (int week = 0; week < 8; ++week)
            for (int day = 0; day < 5; ++day)
                story.maker.add(Hours{.person = who, .date = on("2026-02-02") + week * 7 + day, .job = story.job, .phase = Phase::place, .minutes = Minutes::of(480)});
    }
    story.finished();
    const auto why = story.why();
    CHECK(why.actual == usd("565600"));
    CHECK(reason(why, CostClass::labor, "rate") == usd("5600"));
    CHECK(reason(why, CostClass::labor, "pace: place") == usd("-17500"));
    CHECK(why.difference() == usd("-11900"));

    // 8.3: standard 0.10 h at $8, actual 0.20 h at $9.50: rate 0.30 U, time 0.80 U, total 1.10 U.
    const auto both = worked("0.1", "8", 12, "9.50");
    CHECK(both.rate == usd("0.30"));
    CHECK(both.time == usd("0.80"));
    CHECK(both.total == usd("1.10"));

    // 8.3, one at a time: 0.10 h at $7.50 and $9.50 against $8: 0.05 F and 0.15 U; 0.05 h against 0.10 h at $8: 0.40 F.
    CHECK(worked("0.1", "8", 6, "7.50").rate == usd("-0.05"));
    CHECK(worked("0.1", "8", 6, "9.50").rate == usd("0.15"));
    CHECK(worked("0.1", "8", 6, "9.50").time == std::nullopt);
    CHECK(worked("0.1", "8", 3, "8").time == usd("-0.40"));
    CHECK(worked("0.1", "8", 3, "8").rate == std::nullopt);
}

TEST_CASE("variances of overhead that goes by the hour", "[reference][explanation]")
{
    // 8.4: standard $2.00 an hour for 2,000 h; $7,000 over 2,500 h: rate 2,000 U, efficiency 1,000 U (their sum, 3,000 U, is computed).
    auto found = bought("2000", "h", "2", "2500", "7000");
    CHECK(found.price == usd("2000"));
    CHECK(found.quantity == usd("1000"));
    CHECK(found.total == usd("3000"));

    // 8.4: $3,500 over 2,000 h: rate 500 F; over 1,800 h: efficiency 400 F.
    CHECK(bought("2000", "h", "2", "2000", "3500").price == usd("-500"));
    found = bought("2000", "h", "2", "1800", "3500");
    CHECK(found.quantity == usd("-400"));
    // The same over 1,800 h without rounding the rate to $1.94 midway, as the book does to print 108 F and 508 F: 100 F and 500 F.
    CHECK(found.price == usd("-100"));
    CHECK(found.total == usd("-500"));
}

TEST_CASE("overhead by the hour worked", "[reference][overhead]")
{
    // 8.4: $10,000 over 2,000 h, $9,600 over 1,800 h, $10,400 over 2,200 h: $5.00, $5.33 and $4.73.
    struct Year {
        const char* overhead;
        int hours;
        const char* perHour;
    };
    for (const auto& [overhead, hours, perHour] : {Year{"10000", 2000, "5.00"}, Year{"9600", 1800, "5.33"}, Year{"10400", 2200, "4.73"}}) {
        Story story;
        story.rate("20");
        story.maker.add(Overhead{.year = 2025, .item = "all of it", .amount = usd(overhead)});
        story.maker.change(story.job, [](Job& one) { one.openedOn = on("2025-01-02"); });
        for (int day = 0; day < hours / 10; ++day)
            story.maker.add(Hours{.person = story.ada, .date = on("2025-01-02") + day, .job = story.job, .phase = Phase::place, .minutes = Minutes::of(600)});
        const LaborCost labor{story.maker.book};
        const auto year = overheadOf(story.maker.book, labor, 2025, on("2025-12-31"));
        CHECK(year.billable == Minutes::of(hours * 60));
        REQUIRE(year.perHour);
        CHECK(year.perHour->shown(2) == perHour);
        CHECK(overheadByJob(story.maker.book, labor, on("2025-12-31")).at(story.job.value()) == usd(overhead));
    }
}

TEST_CASE("a standard cost card adds up line by line", "[reference][explanation]")
{
    // 8.1: 4 lb at $5.25, 2.75 h at $11, 4 h at $15, variable overhead 6.75 h at $5, fixed 6.75 h at $3: 21.00 + 30.25 + 60.00 + 33.75 + 20.25 = $165.25.
    Story story;
    story.carried(CostClass::base, "Material", "4", "lb", "5.25");
    story.carried(CostClass::labor, "First trade", "2.75", "h", "11", Phase::prepForm);
    story.carried(CostClass::labor, "Second trade", "4", "h", "15", Phase::place);
    story.carried(CostClass::equipment, "Variable overhead", "6.75", "h", "5");
    story.carried(CostClass::permitsDump, "Fixed overhead", "6.75", "h", "3");
    const auto why = story.why();
    CHECK(why.bid == usd("165.25"));
    CHECK(reason(why, CostClass::base, "not bought yet") == usd("-21"));
    CHECK(reason(why, CostClass::labor, "not worked yet: prep & form") == usd("-30.25"));
    CHECK(reason(why, CostClass::labor, "not worked yet: place") == usd("-60"));
    CHECK(reason(why, CostClass::equipment, "not bought yet") == usd("-33.75"));
    CHECK(reason(why, CostClass::permitsDump, "not bought yet") == usd("-20.25"));
}

TEST_CASE("a job cost sheet of materials, labor and overhead on labor", "[reference][cost]")
{
    // 4.5: materials 1 × 300, 2 × 50, 1 × 60, 1 × 60, 12 × 10, 40 × 1.50; labor $15, $15 and 2 × $18; overhead $2.50 on each labor dollar:
    // 700 + 66 + 165 = $931.00. Sold at $2,000, the margin is $1,069.00 (computed).
    Story story;
    onLabor(story.maker);
    story.maker.quoteLine(story.quote, CostClass::base, "931", "2000");
    for (const auto& [quantity, amount] : {std::pair{"1", "300"}, {"2", "100"}, {"1", "60"}, {"1", "60"}, {"12", "120"}, {"40", "60"}}) story.receipt(CostClass::base, amount, quantity, "ea");
    const auto hand = [&](const char* name, const char* rate, int hours) {
        const auto who = story.maker.add(CrewMember{.name = name});
        story.maker.add(PayRate{.person = who, .fromDate = on("2026-01-01"), .hourlyRate = each(rate)});
        story.maker.add(Hours{.person = who, .date = on("2026-03-23"), .job = story.job, .phase = Phase::place, .minutes = Minutes::of(hours * 60)});
    };
    hand("First", "15", 1);
    hand("Second", "15", 1);
    hand("Third", "18", 2);
    story.finished();
    const auto cost = jobCost(story.maker.book, story.maker.book.get(story.job));
    CHECK(cost.actualCost == usd("931"));
    CHECK(cost.grossProfit == usd("1069"));
    const auto why = story.why();
    CHECK(classOf(why, CostClass::base)->actual == usd("700"));
    CHECK(reason(why, CostClass::labor, "unplanned: place") == usd("66"));
    CHECK(reason(why, CostClass::labor, "burden") == usd("165"));
}

TEST_CASE("three jobs of a month add up to what is finished and what is still in work", "[reference][cost]")
{
    // 4.5: opening work in process 1,000 on the first job; materials 200, 700, 500; labor 150, 66, 150; overhead 375, 165, 375: 1,725, 931 and 1,025,
    // 3,681 together; the third is not finished, so that 1,025 stays in process and 2,656 is finished.
    BookMaker maker;
    onLabor(maker);
    struct Month {
        const char *opening, *materials, *labor, *total;
        bool finished;
    };
    Money all, inWork;
    int n = 0;
    for (const auto& month : {Month{"1000", "200", "150", "1725", true}, Month{"", "700", "66", "931", true}, Month{"", "500", "150", "1025", false}}) {
        const auto job = maker.job("Job " + std::to_string(++n));
        const auto buy = [&](const char* amount) {
            maker.add(Receipt{.number = "R" + std::to_string(maker.book.all<Receipt>().size() + 1), .date = on("2026-04-02"), .job = job, .costClass = CostClass::base, .amount = usd(amount)});
        };
        if (*month.opening) buy(month.opening);
        buy(month.materials);
        const auto who = maker.add(CrewMember{.name = "Hand " + std::to_string(n)});
        maker.add(PayRate{.person = who, .fromDate = on("2026-01-01"), .hourlyRate = each(month.labor)});
        maker.add(Hours{.person = who, .date = on("2026-04-06"), .job = job, .phase = Phase::place, .minutes = Minutes::of(60)});
        if (month.finished) maker.change(job, [](Job& one) { one.closedOn = on("2026-04-30"); });
        const auto cost = jobCost(maker.book, maker.book.get(job));
        CHECK(cost.actualCost == usd(month.total));
        CHECK(cost.open == !month.finished);
        all += cost.actualCost;
        if (cost.open) inWork += cost.actualCost;
    }
    CHECK(all == usd("3681"));
    CHECK(inWork == usd("1025"));
    CHECK(all - inWork == usd("2656"));
}

TEST_CASE("a service job of a part and hours, billed at their own rates", "[reference][cost]")
{
    // 4.8: a part that cost 42 billed at 70; three hours that cost $25 each billed at $80; overhead as much as labor: cost $192.00, billed $310.00.
    Story story;
    story.maker.add(BurdenRate{.item = BurdenItem::liability, .fromDate = on("2026-01-01"), .basis = BurdenBasis::perHundred, .rate = each("100")});
    story.rate("25");
    story.hours("2026-03-23", Phase::place, 180);
    story.receipt(CostClass::jointFinish, "42", "1", "ea");
    const auto invoice = story.maker.invoice(story.job, "I1", InvoiceKind::final, "2026-03-30", "2026-04-14");
    story.maker.invoiceLine(invoice, "70", false);
    story.maker.invoiceLine(invoice, "240", false);
    story.finished();
    const auto cost = jobCost(story.maker.book, story.maker.book.get(story.job));
    CHECK(cost.actualCost == usd("192"));
    CHECK(cost.billed == usd("310"));
    CHECK(cost.grossProfit == usd("118"));
}
