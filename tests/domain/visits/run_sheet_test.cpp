#include "domain/book_maker.h"

#include "visits/run_sheet.h"

using namespace strikeoff;

namespace {

const Date monday = on("2026-06-15");

/// A walk-through to make on Monday, from a shop without coordinates.
struct Run {
    BookMaker maker;
    Id<Site> site;
    Id<Job> job;
    Id<Visit> walk;

    Run()
    {
        Settings settings;
        settings.outfitName = "Hollis Flatwork";
        maker.add(settings);
        const auto owner = maker.add(Customer{.name = "Nora Bell", .phone = "555-0142", .town = "Otter Bend"});
        site = maker.add(Site{.name = "Alder Court", .customer = owner, .address = "12 Alder Court", .town = "Otter Bend"});
        job = maker.job("Driveway", owner);
        maker.change(job, [&](Job& row) { row.site = site; });
        walk = maker.add(Visit{.job = job, .kind = VisitKind::walkThrough, .notBefore = on("2026-06-10"), .due = monday, .plannedOn = monday, .plannedAt = at("08:00"), .minutes = Minutes::of(30)});
    }
    RunSheet sheet() { return runSheet(maker.book, monday); }
};

}

TEST_CASE("the run sheet says how far it is, and a way that is not recorded says so", "[visits][run]")
{
    Run run;
    const auto unknown = run.sheet();
    REQUIRE(unknown.stops.size() == 1);
    CHECK_FALSE(unknown.stops[0].drive);
    CHECK_FALSE(unknown.driveBack);
    REQUIRE(unknown.missingWays.size() == 1);
    CHECK_THAT(unknown.missingWays[0], Catch::StartsWith("The way to Alder Court is not recorded"));
    CHECK(unknown.answer == "One stop from 8:00 am, 0:30 h at visits.");

    run.maker.change(run.site, [](Site& row) { row.driveMinutes = Minutes::of(25); });
    const auto known = run.sheet();
    CHECK(known.stops[0].drive == Minutes::of(25));
    CHECK(known.driveBack == Minutes::of(25));
    CHECK(known.missingWays.empty());
    CHECK(known.answer == "One stop from 8:00 am, 0:30 h at visits, 0:50 h of driving.");
}

TEST_CASE("the run sheet says why a stop is not left for the next day", "[visits][run]")
{
    Run run;
    CHECK(run.sheet().stops[0].notLater == "Not Tue Jun 16: it would be late");
    run.maker.change(run.walk, [](Visit& row) { row.tooLate = on("2026-06-16"); });
    CHECK(run.sheet().stops[0].notLater == "Not Tue Jun 16: too late by then");
    run.maker.change(run.walk, [](Visit& row) {
        row.tooLate.reset();
        row.due = on("2026-06-20");
    });
    CHECK(run.sheet().stops[0].notLater.empty());

    // A sealer that needs a forecast: a day nobody knows the weather of is no day to leave it for.
    const auto guard = run.maker.add(FinishingProduct{.name = "Guard", .lowestAirF = 50});
    const auto seal = run.maker.add(Visit{.job = run.job, .kind = VisitKind::seal, .notBefore = on("2026-06-10"), .due = on("2026-06-20"), .plannedOn = monday, .plannedAt = at("10:00"), .product = guard});
    CHECK_THAT(run.sheet().stops[1].notLater, Catch::StartsWith("Not Tue Jun 16: "));
    run.maker.add(DayForecast{.date = on("2026-06-16"), .lowF = 30, .highF = 45, .rainChance = 0});
    CHECK_THAT(run.sheet().stops[1].notLater, Catch::StartsWith("Not Tue Jun 16: the air is under the 50 \u00b0F it needs"));
    static_cast<void>(seal);
}
