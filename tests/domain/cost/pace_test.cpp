#include "cost/pace.h"

#include "domain/cost/story.h"

using namespace strikeoff;

TEST_CASE("pace is square feet over crew-hours, by pour and phase", "[pace]")
{
    Story story;
    const auto pour = story.maker.add(Pour{.job = story.job, .pouredOn = on("2026-03-26"), .area = Area::ofWhole(400), .airTempF = 55});
    const auto second = story.maker.add(CrewMember{.name = "Ben"});
    // Two people four hours placing: 400 ft² over 8 crew-hours are 50; one hour of finishing alone is 400 an hour.
    story.hours("2026-03-26", Phase::place, 240);
    story.maker.add(Hours{.person = second, .date = on("2026-03-26"), .job = story.job, .pour = pour, .phase = Phase::place, .minutes = Minutes::of(240)});
    story.hours("2026-03-26", Phase::finish, 60);
    const auto pace = paceOf(story.maker.book, story.maker.book.get(story.job));
    REQUIRE(pace.pours.size() == 1);
    const auto& one = pace.pours.front();
    CHECK(one.minutes == Minutes::of(540));
    CHECK(one.sqftPerCrewHour.value() == Approx(400.0 / 9));
    REQUIRE(one.phases.size() == 2);
    CHECK(one.phases[0].sqftPerCrewHour.value() == Approx(50));
    CHECK(one.phases[1].sqftPerCrewHour.value() == Approx(400));
    CHECK(one.crewSize == 2);
    CHECK(one.airTempF == 55);
    CHECK(pace.sqftPerCrewHour == one.sqftPerCrewHour);
    CHECK(paceInWords(pace) == "Pace 44.4 ft\u00b2 per crew-hour over all 9:00 hours: place 50.0 and finish 400.0; poured with two people and 55 \u00b0F.");
}

TEST_CASE("rework slows the job and has no pace of its own", "[pace]")
{
    Story story;
    story.maker.add(Pour{.job = story.job, .pouredOn = on("2026-03-26"), .area = Area::ofWhole(300)});
    story.hours("2026-03-26", Phase::place, 300);
    story.hours("2026-04-10", Phase::rework, 60);
    const auto pace = paceOf(story.maker.book, story.maker.book.get(story.job));
    CHECK(pace.sqftPerCrewHour.value() == Approx(50));  // 300 ft² over six hours, not over the five of the pour
    REQUIRE(pace.phases.size() == 2);
    CHECK(pace.phases[1].phase == Phase::rework);
    CHECK_FALSE(pace.phases[1].sqftPerCrewHour);
    CHECK(paceInWords(pace) == "Pace 50.0 ft\u00b2 per crew-hour over all 6:00 hours: place 60.0; rework took 1:00; poured with one person.");
}

TEST_CASE("without hours, or before anything is poured, there is no pace", "[pace]")
{
    Story story;
    story.maker.add(Pour{.job = story.job, .plannedOn = on("2026-03-26"), .area = Area::ofWhole(300)});
    story.hours("2026-03-20", Phase::prepForm, 300);
    const auto pace = paceOf(story.maker.book, story.maker.book.get(story.job));
    CHECK(pace.pours.empty());
    CHECK_FALSE(pace.sqftPerCrewHour);
    CHECK(pace.minutes == Minutes::of(300));
    CHECK(paceInWords(pace) == "Pace is not known: 5:00 hours so far and no poured area.");
    CHECK(paceInWords(JobPace{}).empty());
}
