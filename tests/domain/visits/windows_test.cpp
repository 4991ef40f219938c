#include "domain/book_maker.h"
#include "visits/visit_list.h"

using namespace strikeoff;

namespace {

const auto poured = on("2026-10-14");

struct Slab {
    BookMaker maker;
    Id<FinishingProduct> cure = maker.add(FinishingProduct{.name = "Quick Cure", .kind = ProductKind::cureAndSeal, .waitLeastHours = 2, .waitMostHours = 36});
    Id<FinishingProduct> guard = maker.add(
        FinishingProduct{.name = "Guard", .kind = ProductKind::penetrating, .waitLeastHours = 672, .waitMostHours = 1440, .coats = 2, .coatWaitHours = 6});
    Id<JobType> type = maker.add(JobType{.name = "Drive", .product = guard, .resealMonths = 30});
    Id<Job> job;
    Id<Pour> pour;

    explicit Slab(bool weather = true)
    {
        job = maker.job("Alder Court drive");
        maker.change(job, [&](Job& row) { row.jobType = type; });
        pour = maker.add(Pour{.job = job, .pouredOn = poured, .placedAt = at("08:00"), .broomedAt = at("12:30"), .finishedAt = at("14:00")});
        if (weather)
            for (int i = -1; i < 60; ++i) maker.add(DayForecast{.date = poured + i, .lowF = 60, .highF = 76, .rainChance = 10});
    }
    Id<Visit> visit(VisitKind kind, std::optional<Id<FinishingProduct>> product = {}, std::int32_t coat = 1)
    {
        return maker.add(Visit{.job = job, .pour = pour, .kind = kind, .coat = coat, .product = product});
    }
    VisitWindow window(Id<Visit> id) const { return VisitWindows{maker.book}.windowOf(maker.book.get(id)); }
    DayHours hours(Id<Visit> id, Date date) const { return VisitWindows{maker.book}.hoursOn(maker.book.get(id), date); }
    VisitState state(Id<Visit> id, Date day) const { return VisitWindows{maker.book}.stateOn(maker.book.get(id), day); }
};

Moment finish() { return {poured, at("14:00")}; }

}

TEST_CASE("a sealer waits in hours from the finish and goes on until its wait is over", "[visits][windows]")
{
    Slab slab;
    const auto seal = slab.visit(VisitKind::seal, slab.guard);
    const auto guard = slab.window(seal);
    CHECK(guard.notBefore == finish() + Minutes::of(672 * 60));
    CHECK(guard.due == finish() + Minutes::of((672 + 14 * 24) * 60));
    CHECK(guard.tooLate == finish() + Minutes::of(1440 * 60 + 1));
    CHECK_FALSE(guard.estimated);
    CHECK(guard.why == "Guard waits 28 days after finishing, Wed Oct 14, 2:00 pm, and goes on within 60 days");

    slab.maker.change(seal, [&](Visit& row) { row.product = slab.cure; });
    const auto cure = slab.window(seal);
    CHECK(cure.notBefore == finish() + Minutes::of(120));
    CHECK(cure.due == finish() + Minutes::of(26 * 60));
    CHECK(cure.tooLate == finish() + Minutes::of(36 * 60 + 1));
}

TEST_CASE("a card without waits falls back to the usual ones and says so", "[visits][windows]")
{
    Slab slab;
    const auto film = slab.maker.add(FinishingProduct{.name = "Gloss", .kind = ProductKind::filmForming});
    const auto window = slab.window(slab.visit(VisitKind::seal, film));
    CHECK(window.notBefore == finish() + Minutes::of(28 * 1440));
    CHECK_FALSE(window.tooLate);
    CHECK(window.why.find("its card gives no wait, so this is the usual one") != std::string::npos);
}

TEST_CASE("the second coat follows the first", "[visits][windows]")
{
    Slab slab;
    const auto first = slab.visit(VisitKind::seal, slab.guard);
    const auto second = slab.visit(VisitKind::seal, slab.guard, 2);
    const auto open = slab.window(second);
    CHECK(open.notBefore == *slab.window(first).notBefore + Minutes::of(360));
    CHECK(open.estimated);

    const auto day = poured + 30;
    slab.maker.change(first, [&](Visit& row) { row.plannedOn = day; row.plannedAt = at("10:00"); });
    CHECK(slab.window(second).notBefore == Moment{day, at("16:00")});
    slab.maker.change(first, [&](Visit& row) { row.doneOn = day; row.minutes = Minutes::of(90); });
    const auto after = slab.window(second);
    CHECK(after.notBefore == Moment{day, at("17:30")});
    CHECK(after.due >= after.notBefore);
    CHECK(after.tooLate == slab.window(slab.visit(VisitKind::seal, slab.guard, 3)).tooLate);  // the can's last day stays
    CHECK_FALSE(after.estimated);
    CHECK(after.why.find("Coat 2 follows coat 1, done Fri Nov 13, 11:30 am, by six hours; Guard waits 28 days") == 0);

    slab.maker.change(first, [&](Visit& row) { row.doneOn.reset(); row.plannedOn.reset(); row.waivedOn = day; row.waivedReason = "one is enough"; });
    CHECK(slab.window(second).notBefore == finish() + Minutes::of(672 * 60));
}

TEST_CASE("strip waits for the slab, longer in the cold", "[visits][windows]")
{
    Slab warm;
    const auto window = warm.window(warm.visit(VisitKind::strip));
    CHECK(window.notBefore->date() == poured + 1);
    CHECK_FALSE(window.tooLate);
    CHECK(window.why.find("Forms stay 16 hours at 70 \u00b0F after finishing; at the ") == 0);

    Slab cold{false};
    for (int i = -1; i < 12; ++i) cold.maker.add(DayForecast{.date = poured + i, .lowF = 30, .highF = 42, .rainChance = 0});
    CHECK(*cold.window(cold.visit(VisitKind::strip)).notBefore > *window.notBefore + Minutes::of(600));
}

TEST_CASE("of unknown weather a cut is promised no more time than a warm day gives", "[visits][windows]")
{
    Slab known{false};
    for (int i = -1; i < 6; ++i) known.maker.add(DayForecast{.date = poured + i, .lowF = 40, .highF = 52, .rainChance = 0});
    const auto cold = known.window(known.visit(VisitKind::cut));
    Slab slab{false};
    const auto cut = slab.visit(VisitKind::cut);
    const auto window = slab.window(cut);
    CHECK(window.estimated);
    CHECK_FALSE(cold.estimated);
    CHECK(*window.due < *cold.due);
    CHECK(*window.tooLate < *cold.tooLate);
    CHECK(window.notBefore >= finish());  // never before the surface is done
    CHECK(window.why.find("the weather is not entered") != std::string::npos);
}

TEST_CASE("a pour that is not finished gives windows by its estimated finish, marked so", "[visits][windows]")
{
    Slab slab;
    const auto cut = slab.visit(VisitKind::cut);
    const auto seal = slab.visit(VisitKind::seal, slab.cure);
    slab.maker.change(slab.pour, [](Pour& row) {
        row = Pour{.id = row.id, .revision = row.revision, .job = row.job, .plannedOn = poured + 5, .plannedAt = at("07:30")};
    });
    const auto window = slab.window(cut);
    REQUIRE(window.notBefore);
    CHECK(window.estimated);
    CHECK(window.notBefore->date() >= poured + 5);
    CHECK(window.why.find("the pour is not finished, so this goes by its estimated finish") != std::string::npos);
    CHECK(slab.window(seal).estimated);

    slab.maker.change(slab.pour, [](Pour& row) { row.plannedOn.reset(); });
    const auto none = slab.window(cut);
    CHECK_FALSE(none.notBefore);
    CHECK_FALSE(none.due);
    CHECK(none.why == "Waits for its pour, which has no day yet");
    CHECK(slab.state(cut, poured + 300) == VisitState::waiting);
    CHECK(slab.hours(cut, poured).isUnknown());
}

TEST_CASE("days typed on a visit go over what is reckoned, and the ends stay in order", "[visits][windows]")
{
    Slab slab;
    const auto seal = slab.visit(VisitKind::seal, slab.guard);
    slab.maker.change(seal, [](Visit& row) { row.due = poured + 20; });
    auto window = slab.window(seal);
    CHECK(window.due == Moment{poured + 20, at("23:59")});
    CHECK(window.notBefore <= window.due);
    CHECK(window.tooLate == finish() + Minutes::of(1440 * 60 + 1));
    CHECK(window.why.find("; typed on the visit: due") != std::string::npos);

    slab.maker.change(seal, [](Visit& row) { row.notBefore = poured + 1; row.due = poured + 2; row.tooLate = poured + 3; });
    window = slab.window(seal);
    CHECK(window.notBefore == Moment::startOf(poured + 1));
    CHECK(window.tooLate == Moment::startOf(poured + 3));
    CHECK(window.why == "As typed on the visit: not before, due and too late");
    CHECK(slab.state(seal, poured) == VisitState::waiting);
    CHECK(slab.state(seal, poured + 1) == VisitState::due);
    CHECK(slab.state(seal, poured + 2) == VisitState::due);
    CHECK(slab.state(seal, poured + 3) == VisitState::tooLate);

    std::uint32_t seed = 11;
    const auto pick = [&](int below) { seed = seed * 1664525 + 1013904223; return static_cast<int>((seed >> 8) % static_cast<std::uint32_t>(below)); };
    for (int round = 0; round < 300; ++round) {
        Visit visit{.job = slab.job, .pour = slab.pour, .kind = static_cast<VisitKind>(pick(5)), .coat = 1 + pick(2), .product = slab.guard};
        int day = pick(80) - 5;
        if (pick(2)) visit.notBefore = poured + day;
        if (pick(2)) visit.due = poured + (day += pick(30));
        if (pick(2)) visit.tooLate = poured + (day + 1 + pick(30));
        const auto typed = VisitWindows{slab.maker.book}.windowOf(visit);
        if (typed.notBefore && typed.due) CHECK(*typed.notBefore <= *typed.due);
        if (typed.due && typed.tooLate) CHECK(*typed.due < *typed.tooLate);
        if (typed.notBefore && typed.tooLate) CHECK(*typed.notBefore < *typed.tooLate);
        CHECK_FALSE(typed.why.empty());
    }
}

TEST_CASE("the hours of a day are those of window and gates together", "[visits][windows]")
{
    Slab slab;
    const auto seal = slab.visit(VisitKind::seal, slab.guard);
    CHECK(slab.hours(seal, poured + 27).isShut());
    CHECK(slab.hours(seal, poured + 27).why == "not before Wed Nov 11, 2:00 pm");
    const auto first = slab.hours(seal, poured + 28);
    REQUIRE(first.open.size() == 1);
    CHECK(first.open.front() == ClockSpan{14 * 60, 1440});
    CHECK(first.why == "not before 2:00 pm");
    slab.maker.change(slab.guard, [](FinishingProduct& row) { row.lowestAirF = 68; });
    const auto warm = slab.hours(seal, poured + 28);
    REQUIRE(warm.open.size() == 1);
    CHECK(warm.open.front().from == 14 * 60);
    CHECK(warm.open.front().to < 1440);
    CHECK(slab.hours(seal, poured + 75).isUnknown());  // past the forecast

    // Other visits have no gates: rain stops no saw.
    const auto strip = slab.visit(VisitKind::strip);
    CHECK(slab.hours(strip, poured + 75).open == std::vector<ClockSpan>{{0, 1440}});
    // A sealer that nobody named has gates nobody knows.
    slab.maker.change(slab.type, [](JobType& row) { row.product.reset(); });
    const auto unnamed = slab.visit(VisitKind::seal, {}, 4);
    CHECK(slab.hours(unnamed, poured + 40).isUnknown());
}

TEST_CASE("walk-through and reseal call count from the last pour", "[visits][windows]")
{
    Slab slab;
    const auto walk = slab.maker.add(Visit{.job = slab.job, .kind = VisitKind::walkThrough});
    const auto call = slab.maker.add(Visit{.job = slab.job, .kind = VisitKind::resealCall});
    slab.maker.add(Pour{.job = slab.job, .sequence = 2, .pouredOn = poured + 7, .placedAt = at("08:00"), .finishedAt = at("13:00")});
    CHECK(slab.window(walk).notBefore == Moment::startOf(poured + 10));
    CHECK(slab.window(call).notBefore == Moment::startOf(on("2029-04-21")));
    CHECK(slab.window(call).why == "The sealer of Oct 21, 2026 has lasted 30 months by Apr 21, 2029");
    CHECK_FALSE(slab.window(call).tooLate);
}

TEST_CASE("the list says how many visits are open, due and late by their windows", "[visits]")
{
    Slab slab;
    slab.visit(VisitKind::strip);
    slab.visit(VisitKind::cut);
    const auto walk = slab.visit(VisitKind::walkThrough);
    slab.visit(VisitKind::seal, slab.guard);
    slab.visit(VisitKind::seal, slab.guard, 2);
    slab.visit(VisitKind::resealCall);
    const auto list = visitList(slab.maker.book, poured + 5);
    CHECK(list.open == 3);
    CHECK(list.later == 2);       // the coats of a sealer that waits four weeks
    CHECK(list.callsLater == 1);  // in two years and a half, so nothing the owner goes back to
    CHECK(list.late == 2);  // strip and cut
    CHECK(list.due == 1);   // the walk-through
    CHECK(list.visits.front().visit->kind == VisitKind::cut);  // too late goes first
    CHECK(list.answer == "Three visits open in the next 14 days, one due today, two late; two come later.");
    CHECK(list.missing.empty());

    slab.maker.change(walk, [](Visit& row) { row.doneOn = poured + 5; });
    slab.maker.book.erase(RecordKind::visit, list.visits.front().visit->id.value());
    CHECK(visitList(slab.maker.book, poured + 5).answer == "One visit open in the next 14 days, one late; two come later. One visit that a pour needs is not on the list yet: cut.");
}
