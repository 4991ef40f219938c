#include "ready_mix/yield.h"

#include "domain/book_maker.h"
#include "job/steps.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace strikeoff;

namespace {

struct Yard {
    BookMaker maker;
    Id<JobType> type = maker.add(JobType{.name = "Patio", .allowance = percent("5")});
    Id<Supplier> supplier = maker.add(Supplier{.name = "Lindmoor Ready Mix"});

    Yard()
    {
        maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .charge = ChargeKind::mix, .code = "4000AE", .amount = each("170"), .unit = ChargeUnit::perYard});
        maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .charge = ChargeKind::returned, .code = "RETURN", .amount = each("38"), .unit = ChargeUnit::perYard});
    }
    /// 27 ft × 12 ft × 4 in = 4.000 yd³.
    Id<Job> patio()
    {
        const auto job = maker.job("Patio " + std::to_string(maker.book.all<Job>().size()));
        maker.change(job, [&](Job& row) { row.jobType = type; });
        maker.add(TakeoffSection{.job = job, .position = 1, .name = "Patio", .shape = SectionShape::rectangle, .length = TapeLength::ofSixteenths(27 * 12 * 16),
                                 .width = TapeLength::ofSixteenths(12 * 12 * 16), .thickness = TapeLength::ofSixteenths(4 * 16)});
        return job;
    }
    Id<Pour> pour(Id<Job> job, std::optional<Area> area = {})
    {
        const auto sequence = static_cast<std::int32_t>(maker.book.referring<&Pour::job>(job).size()) + 1;
        return maker.add(Pour{.job = job, .sequence = sequence, .pouredOn = on("2026-06-12"), .area = area});
    }
    void ticket(Id<Job> job, std::optional<Id<Pour>> pour, const char* yards, std::optional<Yards> returned = {})
    {
        maker.add(Ticket{.supplier = supplier, .number = std::to_string(48'000 + maker.book.all<Ticket>().size()), .date = on("2026-06-12"), .mix = "4000AE", .yards = Yards::parse(yards).value(), .job = job, .pour = pour, .returnedYards = returned});
    }
};

}

TEST_CASE("what a pour took over its measure, in yards, inches and dollars", "[yield]")
{
    Yard yard;
    const auto job = yard.patio();
    const auto pour = yard.pour(job);
    yard.ticket(job, pour, "3");
    yard.ticket(job, std::nullopt, "1.75", Yards::ofUnits(500));  // names the job alone
    const auto yield = yieldOf(yard.maker.book, yard.maker.book.get(pour));
    REQUIRE(yield);
    CHECK(yield->loads == 2);
    CHECK(yield->placed == Yards::ofUnits(4'250));
    CHECK(yield->measured == Yards::ofWhole(4));
    CHECK(yield->over == percent("6.25"));
    // 4 in is 1 yd³ on 81 ft² (exact), so 4.25 yd³ on 324 ft² is 4.25 in.
    CHECK(yield->plannedThickness == Quantity::ofWhole(4));
    CHECK(yield->impliedThickness == Quantity::ofUnits(4'250));
    CHECK(yield->overCost == usd("42.50"));
    CHECK(yield->returnedCost == usd("104.00"));  // half a yard of mix, and 38.00 a yard for taking it back
    CHECK(yield->answer == "Two loads, 4.75 yd\u00b3 delivered, 0.50 sent back; the takeoff measures 4.00: 6.3% over, $42.50 of concrete; 4.25 in thick where 4.00 was meant.");
}

TEST_CASE("eight yards ticketed and 210 cubic feet found is 2.8 % short", "[yield]")
{
    // Concrete Construction, "What yield can do for you": 210/216 = 0.972.
    Yard yard;
    const auto job = yard.maker.job("Footing");
    yard.maker.add(TakeoffSection{.job = job, .position = 1, .name = "Slab", .shape = SectionShape::rectangle, .length = TapeLength::ofSixteenths(30 * 12 * 16),
                                  .width = TapeLength::ofSixteenths(14 * 12 * 16), .thickness = TapeLength::ofSixteenths(6 * 16)});  // 210 ft³
    const auto pour = yard.pour(job);
    yard.ticket(job, pour, "8");
    const auto yield = yieldOf(yard.maker.book, yard.maker.book.get(pour));
    REQUIRE(yield);
    CHECK(yield->measured == Yards::ofUnits(7'778));
    CHECK(static_cast<double>(yield->measured->units()) / static_cast<double>(yield->placed.units()) == Approx(0.972).margin(0.0005));
}

TEST_CASE("a job of several pours is shared out by the area of each, or not at all", "[yield]")
{
    Yard yard;
    const auto job = yard.patio();
    const auto first = yard.pour(job, Area::ofWhole(243)), second = yard.pour(job, Area::ofWhole(81));
    yard.ticket(job, first, "3.25");
    const auto yield = yieldOf(yard.maker.book, yard.maker.book.get(first));
    REQUIRE(yield);
    CHECK(yield->measured == Yards::ofWhole(3));
    CHECK_FALSE(yieldOf(yard.maker.book, yard.maker.book.get(second)).has_value());
    yard.maker.change(second, [](Pour& pour) { pour.area.reset(); });
    CHECK_FALSE(yieldOf(yard.maker.book, yard.maker.book.get(first))->measured.has_value());
}

TEST_CASE("the running over-order of a job type is suggested to its next quote", "[yield]")
{
    Yard yard;
    for (int i = 0; i < 5; ++i) {
        const auto job = yard.patio();
        yard.ticket(job, yard.pour(job), i < 4 ? "4.25" : "4.5");
    }
    CHECK_FALSE(suggestedAllowance(yard.maker.book, yard.type, 6).has_value());
    const auto known = suggestedAllowance(yard.maker.book, yard.type);
    REQUIRE(known);
    CHECK(known->over == percent("7.5"));  // 21.5 yd³ where 20 were measured
    CHECK(known->suggested == percent("7.5"));
    const auto step = draftQuote(yard.maker.book, yard.maker.book.get(yard.patio()), on("2026-07-01"));
    REQUIRE(step.possible());
    const auto said = std::find_if(step.remarks.begin(), step.remarks.end(), [](const auto& remark) { return remark.find("7.5% would cover") != std::string::npos; });
    CHECK(said != step.remarks.end());
}
