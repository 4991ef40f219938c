#include "cost/job_cost.h"

#include "domain/book_maker.h"

#include <algorithm>

using namespace strikeoff;

namespace {

const ClassCost* classOf(const JobCost& cost, CostClass wanted)
{
    const auto found =
        std::find_if(cost.classes.begin(), cost.classes.end(), [&](const ClassCost& one) { return one.costClass == wanted; });
    return found == cost.classes.end() ? nullptr : &*found;
}

struct Work {
    BookMaker maker;
    Id<Job> job = maker.job("Alder Court driveway");
    Id<Supplier> supplier = maker.add(Supplier{.name = "Northgate"});
    Id<CrewMember> ada = maker.add(CrewMember{.name = "Ada"});

    JobCost cost() { return jobCost(maker.book, maker.book.get(job)); }
    void hours(Id<CrewMember> person, std::string_view day, int minutes)
    {
        maker.add(Hours{.person = person, .date = on(day), .job = job, .phase = Phase::place, .minutes = Minutes::of(minutes)});
    }
    Id<Ticket> ticket(const std::string& number, std::string_view day, std::string_view yards)
    {
        return maker.add(Ticket{.supplier = supplier,
                                .number = number,
                                .date = on(day),
                                .mix = "4000AE",
                                .yards = Yards::parse(yards).value(),
                                .job = job});
    }
    void sheet(std::string_view from, std::string_view price)
    {
        maker.add(SheetCharge{.supplier = supplier,
                              .effectiveOn = on(from),
                              .charge = ChargeKind::mix,
                              .code = "4000AE",
                              .amount = each(price),
                              .taxable = true});
        maker.add(SheetCharge{.supplier = supplier,
                              .effectiveOn = on(from),
                              .charge = ChargeKind::tax,
                              .code = "TAX",
                              .amount = each("8"),
                              .unit = ChargeUnit::percent});
    }
    Id<Statement> statement(const std::string& number, std::string_view day)
    {
        return maker.add(Statement{.supplier = supplier, .number = number, .date = on(day)});
    }
    Id<StatementLine> line(Id<Statement> statement, const std::string& ticketNumber, std::string_view amount,
                           std::optional<Date> day = {}, const std::string& description = "")
    {
        const auto number = static_cast<std::int32_t>(maker.book.referring<&StatementLine::statement>(statement).size()) + 1;
        return maker.add(StatementLine{.statement = statement,
                                       .line = number,
                                       .ticketNumber = ticketNumber,
                                       .date = day,
                                       .description = description,
                                       .amount = usd(amount)});
    }
};

}

TEST_CASE("hours cost the pay of the day they were worked, with what comes on top of it, each week rounded once", "[cost]")
{
    Work work;
    auto& maker = work.maker;
    maker.add(PayRate{.person = work.ada, .fromDate = on("2026-03-20"), .hourlyRate = each("31.25")});
    maker.add(ChangeOrder{.job = work.job,
                          .number = 2,
                          .askedOn = on("2026-03-20"),
                          .description = "never signed",
                          .costClass = CostClass::pump,
                          .cost = usd("50"),
                          .price = usd("80")});
    maker.add(PayRate{.person = work.ada, .fromDate = on("2026-01-01"), .hourlyRate = each("30")});

    work.hours(work.ada, "2026-03-19", 90);
    work.hours(work.ada, "2026-03-20", 7);
    work.hours(work.ada, "2026-03-21", 7);
    work.hours(maker.add(CrewMember{.name = "New hand"}), "2026-03-21", 480);
    const auto cost = work.cost();
    CHECK(cost.crewMinutes == Minutes::of(584));
    CHECK(cost.minutesWithoutRate == Minutes::of(480));
    CHECK(cost.actualCost == usd("52.29"));  // 45.00 and 14 minutes at 31.25, 7.2917
    REQUIRE(classOf(cost, CostClass::labor));
    CHECK(classOf(cost, CostClass::labor)->actual == usd("52.29"));
    maker.add(BurdenRate{.item = BurdenItem::medicare, .fromDate = on("2026-03-20"), .rate = each("1.45")});
    CHECK(work.cost().actualCost == usd("52.40"));  // 1.45 % of 7.29 is 0.1057
}

TEST_CASE("a ticket costs what statements bill for it, credits included, else the sheet's price with tax", "[cost]")
{
    Work work;
    work.sheet("2026-01-01", "150");
    work.sheet("2026-05-01", "160");
    work.ticket("004411", "2026-03-26", "5.25");
    auto cost = work.cost();
    CHECK(cost.actualCost == usd("850.50"));  // 787.50 and 8 %
    CHECK(cost.expectedPart == usd("850.50"));

    const auto march = work.statement("S3", "2026-03-31");
    work.line(march, "4411", "780", on("2026-03-27"));
    work.line(march, "NG-4411", "35");  // a fee without its date
    work.line(march, "4411", "62.40", on("2026-03-26"));
    work.line(march, "9999", "500", on("2026-03-26"));  // somebody else's load
    cost = work.cost();
    CHECK(cost.actualCost == usd("877.40"));
    CHECK(cost.expectedPart == Money{});
    work.line(work.statement("S4", "2026-04-30"), "4411", "-35", on("2026-03-26"));  // credited a month later
    CHECK(work.cost().actualCost == usd("842.40"));

    work.ticket("4500", "2026-05-02", "2");
    cost = work.cost();
    CHECK(cost.expectedPart == usd("345.60"));  // the sheet in force on its day: 320 and 8 %
    CHECK(cost.actualCost == usd("1188.00"));
    REQUIRE(classOf(cost, CostClass::concrete));
    CHECK(classOf(cost, CostClass::concrete)->actual == usd("1188.00"));
}

TEST_CASE("a number used again years later is not billed to the old ticket", "[cost]")
{
    Work work;
    work.sheet("2020-01-01", "100");
    work.ticket("4411", "2024-03-26", "1");
    const auto statement = work.statement("S3", "2026-03-31");
    work.line(statement, "4411", "780", on("2026-03-26"));
    work.line(statement, "4411", "20");
    CHECK(work.cost().actualCost == usd("108"));
    CHECK(work.cost().expectedPart == usd("108"));
    const auto fresh = work.ticket("4411", "2026-03-21", "5");
    CHECK(work.cost().actualCost == usd("908"));  // 5 days off: the new ticket takes both lines
    work.maker.change(fresh, [](Ticket& row) { row.date = on("2026-03-20"); });
    CHECK(work.cost().actualCost == usd("128"));  // 6 days off: only the line without a date is this ticket's
}

TEST_CASE("two tickets that a line fits equally well get nothing, unless it was paired by hand", "[cost]")
{
    Work work;
    work.sheet("2026-01-01", "100");
    const auto north = work.ticket("4411", "2026-03-26", "1");
    work.maker.add(Ticket{.supplier = work.supplier,
                          .number = "4411",
                          .plant = "South",
                          .date = on("2026-03-26"),
                          .mix = "4000AE",
                          .yards = Yards::ofWhole(1),
                          .job = work.maker.job("Other job")});
    const auto statement = work.statement("S3", "2026-03-31");
    const auto line = work.line(statement, "4411", "140", on("2026-03-26"));
    CHECK(work.cost().actualCost == usd("108"));
    work.maker.change(line, [&](StatementLine& row) { row.ticket = north; });
    CHECK(work.cost().actualCost == usd("140"));
}

TEST_CASE("sales tax on a line of its own is carried by the tickets it taxes", "[cost]")
{
    Work work;
    work.ticket("4411", "2026-03-26", "5");
    const auto statement = work.statement("S3", "2026-03-31");
    work.line(statement, "4411", "600", on("2026-03-26"));
    work.line(statement, "7000", "300", on("2026-03-28"));  // a ticket that is not on file takes its share
    work.line(statement, "", "72", std::nullopt, "State sales tax");
    work.line(statement, "", "15", std::nullopt, "Taxi for the dispatcher");
    CHECK(work.cost().actualCost == usd("648"));
}

TEST_CASE("a credit that names no ticket goes where the claims it closes came from", "[cost]")
{
    Work work;
    auto& maker = work.maker;
    work.ticket("4411", "2026-03-26", "5");
    const auto other = maker.job("Other job");
    const auto theirs = maker.add(Ticket{.supplier = work.supplier, .number = "4600", .date = on("2026-03-27"), .yards = Yards::ofWhole(4), .job = other});
    const auto march = work.statement("S3", "2026-03-31");
    const auto twice = work.line(march, "4411", "600", on("2026-03-26"));
    work.line(march, "4411", "600", on("2026-03-26"));
    work.line(march, "4600", "400", on("2026-03-27"));
    const auto credit = work.line(work.statement("S4", "2026-04-30"), "", "-630", std::nullopt, "Credit on statement S3");
    CHECK(work.cost().actualCost == usd("1200"));  // until a claim says what the credit is for
    maker.add(Claim{.number = "D1", .supplier = work.supplier, .line = twice, .openedOn = on("2026-04-01"), .reason = "billed twice", .amount = usd("600"),
                    .creditedOn = on("2026-04-30"), .creditLine = credit});
    maker.add(Claim{.number = "D2", .supplier = work.supplier, .ticket = theirs, .openedOn = on("2026-04-01"), .reason = "price off", .amount = usd("30"),
                    .creditedOn = on("2026-04-30"), .creditLine = credit});
    CHECK(work.cost().actualCost == usd("600"));
    CHECK(jobCost(maker.book, maker.book.get(other)).actualCost == usd("370"));
}

TEST_CASE("a ticket that nothing prices is counted, not guessed", "[cost]")
{
    Work work;
    work.ticket("1", "2026-03-26", "5");
    CHECK(work.cost().ticketsWithoutPrice == 1);
    work.sheet("2026-01-01", "100");
    CHECK(work.cost().ticketsWithoutPrice == 0);
    work.maker.change(Id<Ticket>{1}, [](Ticket& row) { row.mix = "UNKNOWN"; });
    const auto cost = work.cost();
    CHECK(cost.ticketsWithoutPrice == 1);
    CHECK(cost.actualCost == Money{});
}

TEST_CASE("a ticket without a job belongs to its pour's job", "[cost]")
{
    Work work;
    work.sheet("2026-01-01", "100");
    const auto pour = work.maker.add(Pour{.job = work.job, .pouredOn = on("2026-03-26")});
    work.maker.change(work.ticket("1", "2026-03-26", "5"), [&](Ticket& row) {
        row.job.reset();
        row.pour = pour;
    });
    CHECK(work.cost().actualCost == usd("540"));
}

TEST_CASE("classes stand in the trade's order with bid, actual and their difference", "[cost]")
{
    Work work;
    auto& maker = work.maker;
    const auto quote = maker.acceptedQuote(work.job, "Q1001");
    maker.quoteLine(quote, CostClass::labor, "900", "1500");
    maker.quoteLine(quote, CostClass::concrete, "800", "1100");
    maker.add(ChangeOrder{.job = work.job,
                          .number = 1,
                          .askedOn = on("2026-03-20"),
                          .description = "apron",
                          .costClass = CostClass::concrete,
                          .cost = usd("100"),
                          .price = usd("180"),
                          .acceptedOn = on("2026-03-20")});
    maker.add(ChangeOrder{.job = work.job,
                          .number = 2,
                          .askedOn = on("2026-03-20"),
                          .description = "never signed",
                          .costClass = CostClass::pump,
                          .cost = usd("50"),
                          .price = usd("80")});
    maker.add(PayRate{.person = work.ada, .fromDate = on("2026-01-01"), .hourlyRate = each("30")});
    work.hours(work.ada, "2026-03-25", 1440);
    work.hours(work.ada, "2026-03-26", 300);
    maker.add(
        Receipt{.number = "R1", .date = on("2026-03-25"), .job = work.job, .costClass = CostClass::base, .amount = usd("210.40")});
    maker.add(Receipt{.number = "R2", .date = on("2026-03-25"), .costClass = CostClass::base, .amount = usd("99")});  // the shop's

    const auto cost = work.cost();
    CHECK(cost.bidPrice == usd("2780"));
    CHECK(cost.bidCost == usd("1800"));
    CHECK(cost.actualCost == usd("1080.40"));
    REQUIRE(cost.classes.size() == 3);
    CHECK(cost.classes[0].costClass == CostClass::concrete);
    CHECK(cost.classes[0].bid == usd("900"));
    CHECK(cost.classes[0].difference() == usd("-900"));
    CHECK(cost.classes[1].costClass == CostClass::base);
    CHECK(cost.classes[1].difference() == usd("210.40"));
    CHECK(cost.classes[2].costClass == CostClass::labor);
    CHECK(cost.classes[2].actual == usd("870"));
    Money bid;
    Money actual;
    for (const auto& one : cost.classes) {
        bid += one.bid;
        actual += one.actual;
    }
    CHECK(bid == cost.bidCost);
    CHECK(actual == cost.actualCost);
    CHECK(cost.open);
    CHECK(cost.grossProfit == usd("1699.60"));  // open: the bid price less what was spent
    maker.invoiceLine(maker.invoice(work.job, "I1001", InvoiceKind::deposit, "2026-03-11", "2026-03-11"), "500");
    CHECK(work.cost().billed == usd("500"));
    CHECK(work.cost().grossProfit == usd("1699.60"));  // a deposit says nothing about the profit
}

TEST_CASE("gross profit is billed less cost once the job is billed, and a lost job has none", "[cost]")
{
    Work work;
    auto& maker = work.maker;
    CHECK(work.cost().grossProfit == std::nullopt);
    const auto quote = maker.acceptedQuote(work.job, "Q1001");
    maker.quoteLine(quote, CostClass::concrete, "800", "1100");
    maker.add(Receipt{.number = "R1", .date = on("2026-03-25"), .job = work.job, .amount = usd("700")});
    maker.add(Pour{.job = work.job, .pouredOn = on("2026-03-26")});
    CHECK(work.cost().grossProfit == usd("400"));
    const auto final = maker.add(Invoice{.number = "I1001",
                                         .job = work.job,
                                         .draftedOn = on("2026-04-01"),
                                         .issuedOn = on("2026-04-01"),
                                         .dueOn = on("2026-04-15"),
                                         .taxRate = percent("10")});
    maker.invoiceLine(final, "1050");
    maker.paid(final, "2026-04-10", "1155");
    const auto cost = work.cost();
    CHECK(cost.stage == Stage::paid);
    CHECK_FALSE(cost.open);
    CHECK(cost.billed == usd("1050"));
    CHECK(cost.paid == usd("1155"));
    CHECK(cost.grossProfit == usd("350"));

    Work lost;
    const auto declined = lost.maker.add(Quote{.number = "Q1",
                                               .job = lost.job,
                                               .draftedOn = on("2026-03-03"),
                                               .sentOn = on("2026-03-04"),
                                               .declinedOn = on("2026-03-05")});
    lost.maker.quoteLine(declined, CostClass::concrete, "800", "1100");
    CHECK(lost.cost().bidPrice == usd("1100"));
    CHECK(lost.cost().grossProfit == std::nullopt);
    lost.maker.add(Receipt{.number = "R1", .date = on("2026-03-04"), .job = lost.job, .amount = usd("40")});
    CHECK(lost.cost().grossProfit == usd("-40"));
}
