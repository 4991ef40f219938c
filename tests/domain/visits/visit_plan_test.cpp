#include "domain/book_maker.h"
#include "visits/planner/visit_plan.h"

#include <algorithm>

using namespace strikeoff;

namespace {

const auto monday = on("2026-11-30");

/// Two slabs in one town, twenty minutes from the shop, and the owner alone.
struct Week {
    BookMaker maker;
    Id<FinishingProduct> guard = maker.add(FinishingProduct{.name = "Guard", .kind = ProductKind::penetrating, .waitLeastHours = 24, .waitMostHours = 672, .lowestAirF = 40, .dryHours = 4});
    Id<Job> drive = jobAt("Alder Court drive", "Alder Court");
    Id<Job> walk = jobAt("Mill Lane walk", "Mill Lane");

    Id<Job> jobAt(const std::string& title, const std::string& place)
    {
        const auto customer = maker.customer("Customer of " + title);
        const auto site = maker.add(Site{.name = place, .customer = customer, .town = "Orchard", .driveMinutes = Minutes::of(20)});
        const auto job = maker.job(title, customer);
        maker.change(job, [&](Job& row) { row.site = site; });
        return job;
    }
    Id<Visit> visit(Id<Job> job, VisitKind kind, Date from, Date due, Date tooLate)
    {
        return maker.add(Visit{.job = job, .kind = kind, .notBefore = from, .due = due, .tooLate = tooLate, .minutes = Minutes::of(60)});
    }
    void forecast(Date day, int low, int high) { maker.add(DayForecast{.date = day, .lowF = low, .highF = high, .rainChance = 0}); }
    VisitPlan plan(int days = 14) const { return planVisits(maker.book, monday, days); }
};

const PlanRow& rowOf(const VisitPlan& plan, Id<Visit> visit)
{
    return *std::ranges::find_if(plan.rows, [&](const PlanRow& row) { return row.visit->id == visit; });
}

}

TEST_CASE("visits of one town go into one run inside their windows, and the answer says what it costs", "[visits][plan]")
{
    Week week;
    const auto strip = week.visit(week.drive, VisitKind::strip, monday + 1, monday + 2, monday + 5);
    const auto walk = week.visit(week.walk, VisitKind::walkThrough, monday, monday + 9, monday + 20);
    const auto plan = week.plan();
    // Out, five minutes within the town, and back.
    CHECK(plan.score == PlanScore{0, 0, 0, 0, 45});
    CHECK(plan.proven);
    CHECK(plan.answer == "Two visits in one run over the next 14 days, 45 min of driving; none late, and no plan does better.");
    CHECK(rowOf(plan, strip).on == rowOf(plan, walk).on);
    CHECK(rowOf(plan, strip).on == monday + 1);  // the earliest day on which both can be
    const auto& day = plan.days[1];
    REQUIRE(day.runs.size() == 1);
    CHECK(day.siteMinutes == 120);
    CHECK(day.driveMinutes == 45);
    CHECK(day.driveMiles == Approx(22.5));  // 45 minutes at the settings' 30 mph
    CHECK(rowOf(plan, strip).blocked.front().date == monday);
    CHECK_THAT(rowOf(plan, strip).blocked.front().why, Catch::Contains("not before"));
}

TEST_CASE("a sealer goes only on a day whose weather is known and warm enough, unless it is pinned, and then it says so", "[visits][plan]")
{
    Week week;
    for (int day = -1; day < 14; ++day)
        if (day != 2) week.forecast(monday + day, day >= 5 && day <= 7 ? 45 : 20, day >= 5 && day <= 7 ? 60 : 33);
    auto seal = week.visit(week.drive, VisitKind::seal, monday, monday + 10, monday + 13);
    week.maker.change(seal, [&](Visit& row) { row.product = week.guard; });
    auto plan = week.plan();
    REQUIRE(rowOf(plan, seal).on);
    CHECK(*rowOf(plan, seal).on >= monday + 5);
    CHECK(*rowOf(plan, seal).on <= monday + 7);
    CHECK_FALSE(rowOf(plan, seal).outsideHours);
    CHECK(rowOf(plan, seal).hours[2].isUnknown());

    week.maker.change(seal, [&](Visit& row) {
        row.plannedOn = monday + 2;
        row.pinned = true;
    });
    plan = week.plan();
    CHECK(rowOf(plan, seal).on == monday + 2);
    CHECK(rowOf(plan, seal).outsideHours);
    CHECK_THAT(rowOf(plan, seal).why, Catch::StartsWith("pinned against its hours"));
}

TEST_CASE("without any forecast a sealer finds no day, and the answer says why", "[visits][plan]")
{
    Week week;
    const auto seal = week.visit(week.drive, VisitKind::seal, monday, monday + 10, monday + 30);
    week.maker.change(seal, [&](Visit& row) { row.product = week.guard; });
    const auto plan = week.plan();
    CHECK_FALSE(rowOf(plan, seal).on);
    CHECK(plan.score.leftOut == 1);
    CHECK_THAT(plan.answer, Catch::Contains("nobody knows the weather"));
    CHECK(rowOf(plan, seal).blocked.size() == 14);
}

TEST_CASE("on the day of a pour the crew goes on from there in the afternoon", "[visits][plan]")
{
    Week week;
    week.maker.add(Pour{.job = week.walk, .pouredOn = monday, .placedAt = at("08:00"), .broomedAt = at("12:00"), .finishedAt = at("13:00")});
    const auto strip = week.visit(week.drive, VisitKind::strip, monday, monday, monday + 1);
    const auto plan = week.plan();
    REQUIRE(plan.days[0].runs.size() == 1);
    CHECK(plan.days[0].crewWhy == "the crew pours Mill Lane walk until about 1:00 pm");
    CHECK(rowOf(plan, strip).on == monday);
    CHECK(*rowOf(plan, strip).at >= at("13:30"));
    // From the pour five minutes to the site and twenty home, of which twenty are driven anyway.
    CHECK(plan.days[0].driveMinutes == 25);
    CHECK(plan.score.drive == 5);
}

TEST_CASE("Sundays are days off, but for cuts and pins", "[visits][plan]")
{
    Week week;
    const auto sunday = monday + 6;
    const auto strip = week.visit(week.drive, VisitKind::strip, sunday, sunday, sunday + 3);
    const auto cut = week.visit(week.walk, VisitKind::cut, sunday, sunday, sunday + 1);
    auto plan = week.plan();
    CHECK(rowOf(plan, strip).on == sunday + 1);
    CHECK(rowOf(plan, strip).lateDays == 1);
    CHECK(rowOf(plan, cut).on == sunday);
    CHECK(plan.score.lateDays == 1);
    week.maker.change(strip, [&](Visit& row) {
        row.plannedOn = sunday;
        row.pinned = true;
    });
    plan = week.plan();
    CHECK(rowOf(plan, strip).on == sunday);
    CHECK(plan.score.lateDays == 0);
}

TEST_CASE("a plan put into the book is the plan one finds there again, and pins are left alone", "[visits][plan]")
{
    Week week;
    const auto strip = week.visit(week.drive, VisitKind::strip, monday + 1, monday + 2, monday + 5);
    const auto pinned = week.visit(week.walk, VisitKind::walkThrough, monday, monday + 9, monday + 20);
    week.maker.change(pinned, [&](Visit& row) {
        row.plannedOn = monday + 4;
        row.pinned = true;
    });
    const auto plan = week.plan();
    const auto edit = writePlan(plan);
    REQUIRE(edit);
    const auto& row = rowOf(plan, strip);
    week.maker.change(strip, [&](Visit& visit) {
        visit.plannedOn = row.on;
        visit.plannedAt = row.at;
    });
    CHECK(week.maker.book.get(pinned).plannedOn == monday + 4);
    CHECK_FALSE(writePlan(week.plan()));
}

TEST_CASE("a plan sets out from the one before, whatever has come or gone since", "[visits][plan]")
{
    Week week;
    const auto strip = week.visit(week.drive, VisitKind::strip, monday + 1, monday + 2, monday + 5);
    const auto walk = week.visit(week.walk, VisitKind::walkThrough, monday, monday + 9, monday + 20);
    const auto before = week.plan();
    const auto cut = week.visit(week.walk, VisitKind::cut, monday + 1, monday + 1, monday + 2);
    week.maker.change(strip, [&](Visit& row) { row.doneOn = monday; });
    week.maker.change(walk, [&](Visit& row) {
        row.plannedOn = monday + 3;
        row.pinned = true;
    });
    // The same days, and those of a plan that begins a day later.
    for (const auto from : {monday, monday + 1}) {
        const auto anew = planVisits(week.maker.book, from, 14, SearchEffort::quick(), &before), fresh = planVisits(week.maker.book, from);
        CHECK(anew.score == fresh.score);
        CHECK(rowOf(anew, walk).on == monday + 3);
        CHECK(rowOf(anew, cut).on == monday + 1);
        CHECK(anew.rows.size() == 2);
    }
}

TEST_CASE("an empty book has nothing to go back to, and a way that is missing is said", "[visits][plan]")
{
    const Book empty;
    const auto none = planVisits(empty, monday);
    CHECK(none.answer == "No visit is open: nothing to go back to.");
    CHECK(none.proven);

    BookMaker maker;
    const auto job = maker.job("Somewhere");
    maker.add(Visit{.job = job, .kind = VisitKind::walkThrough, .notBefore = monday, .due = monday + 3, .tooLate = monday + 9});
    const auto plan = planVisits(maker.book, monday);
    CHECK(plan.score.drive == 60);
    CHECK_THAT(plan.answer, Catch::EndsWith("One place without a way on record."));
}
