#include "billing/billing.h"
#include "cost/job_cost.h"
#include "job/stage.h"
#include "takeoff/takeoff.h"

#include "domain/book_maker.h"

using namespace strikeoff;

TEST_CASE("one small job from the tape to the bank", "[reference][job]")
{
    // Common practice, no source: a slab 40 ft by 10 ft at 4 in is 400 sq ft and 4.94 yd³ before allowance, ordered as 5¼ yd³ at 5 %; joints every 10 ft
    // make four square panels, within 24 to 36 times the thickness. Prices are our own.
    BookMaker maker;
    const auto job = maker.job("Alder Court driveway");
    const auto slab = maker.add(TakeoffSection{.job = job,
                                               .name = "slab",
                                               .length = TapeLength::ofFeet(40),
                                               .width = TapeLength::ofFeet(10),
                                               .thickness = TapeLength::ofInches(4),
                                               .jointSpacing = TapeLength::ofFeet(10)});
    const auto takeoff = takeoffOf(maker.book, job);
    CHECK(takeoff.areaSqft == Approx(400));
    CHECK(takeoff.volumeYards == Approx(4.94).margin(0.005));
    CHECK(takeoff.ordered == Yards::ofUnits(5'250));
    const auto joints = planJoints(maker.book.get(slab));
    REQUIRE(joints);
    CHECK(joints->panelsLong * joints->panelsWide == 4);
    CHECK(joints->panelLengthFt == Approx(joints->panelWidthFt));
    CHECK(joints->panelLengthFt >= joints->leastSpacingFt);
    CHECK(joints->panelLengthFt <= joints->mostSpacingFt);
    CHECK(jobFolders(maker.book)[0].nextThing == "write the quote");

    // 5.25 yd³ at $160.00 is $840.00; 16 h at $38.00 is $608.00; together $1,448.00, with 30 % mark-up $1,882.40.
    const auto quote = maker.add(Quote{.number = "Q1001",
                                       .job = job,
                                       .draftedOn = on("2026-03-03"),
                                       .sentOn = on("2026-03-04"),
                                       .acceptedOn = on("2026-03-10"),
                                       .markup = percent("30"),
                                       .deposit = percent("25")});
    maker.add(QuoteLine{.quote = quote,
                        .position = 1,
                        .costClass = CostClass::concrete,
                        .description = "Concrete",
                        .quantity = Quantity::ofUnits(takeoff.ordered.units()),
                        .unitCost = each("160")});
    maker.add(QuoteLine{.quote = quote,
                        .position = 2,
                        .costClass = CostClass::labor,
                        .description = "Labor",
                        .quantity = Quantity::ofWhole(16),
                        .unitCost = each("38")});
    CHECK(totalOf(maker.book, maker.book.get(quote)).net == usd("1882.40"));

    const auto bill = [&](InvoiceKind kind, const std::string& number, std::string_view day) {
        auto draft = draftInvoice(maker.book, maker.book.get(job), kind, on(day));
        REQUIRE(draft);
        draft->invoice.number = number;
        draft->invoice.issuedOn = on(day);
        const auto id = maker.add(draft->invoice);
        for (auto line : draft->lines) {
            line.invoice = id;
            maker.add(line);
        }
        return id;
    };
    const auto deposit = bill(InvoiceKind::deposit, "I1001", "2026-03-11");
    maker.paid(deposit, "2026-03-12", "470.60");

    const auto supplier = maker.add(Supplier{.name = "Northgate"});
    const auto pour = maker.add(Pour{.job = job, .pouredOn = on("2026-03-26")});
    maker.add(Ticket{
        .supplier = supplier, .number = "4411", .date = on("2026-03-26"), .yards = takeoff.ordered, .job = job, .pour = pour});
    const auto statement = maker.add(Statement{.supplier = supplier, .number = "S3", .date = on("2026-03-31")});
    maker.add(StatementLine{
        .statement = statement, .line = 1, .ticketNumber = "4411", .date = on("2026-03-26"), .amount = usd("861.00")});
    const auto person = maker.add(CrewMember{.name = "Ada"});
    maker.add(PayRate{.person = person, .fromDate = on("2026-01-01"), .hourlyRate = each("36.50")});
    maker.add(Hours{.person = person,
                    .date = on("2026-03-26"),
                    .job = job,
                    .pour = pour,
                    .phase = Phase::place,
                    .minutes = Minutes::of(9 * 60)});
    maker.add(Hours{.person = person,
                    .date = on("2026-03-27"),
                    .job = job,
                    .pour = pour,
                    .phase = Phase::stripCut,
                    .minutes = Minutes::of(8 * 60)});

    const auto final = bill(InvoiceKind::final, "I1002", "2026-03-30");
    CHECK(owedOn(maker.book, on("2026-03-30")).total == usd("1411.80"));
    maker.paid(final, "2026-04-10", "1411.80");

    const auto cost = jobCost(maker.book, maker.book.get(job));
    CHECK(cost.stage == Stage::paid);
    CHECK(cost.bidCost == usd("1448.00"));
    CHECK(cost.actualCost == usd("1481.50"));  // 861.00 and 17 h at $36.50
    CHECK(cost.billed == usd("1882.40"));
    CHECK(cost.paid == usd("1882.40"));
    CHECK(cost.grossProfit == usd("400.90"));
    CHECK(cost.crewMinutes == Minutes::of(17 * 60));
    CHECK(costReport(maker.book, job).answer ==
          "Job 1001 cost $1,481.50 against $1,448.00 bid, $33.50 more than bid; it made $400.90.");
}
