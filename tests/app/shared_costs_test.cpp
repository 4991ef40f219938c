#include "app/application.h"

#include "cost/job_cost.h"

#include <catch2/catch.hpp>

using namespace strikeoff;
using strikeoff::test::day;
using strikeoff::test::Office;

// Records name the members that matter.
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"

TEST_CASE("what an hour changes is in the shared costs at once, as if all were reckoned anew", "[costs]")
{
    Office office;
    const auto customer = office.addCustomer("Nora Bell");
    const auto patio = office.addJob(customer, "Patio by the creek");
    const auto walk = office.addJob(customer, "Front walk");
    Edit crew{"Crew"};
    const auto added = crew.add(CrewMember{.name = "Ada"});
    crew.add(PayRate{.person = added, .fromDate = day("2026-01-01"), .hourlyRate = UnitPrice::ofWhole(20)});
    for (const auto& rate : office.book().all<BurdenRate>()) crew.remove(rate);  // pay alone
    office.commit(crew);
    const auto person = office.book().all<CrewMember>()[0].id;

    auto& desk = *office.desk;
    const auto costOf = [&](Id<Job> job) { return desk.costs().of(office.book().get(job)).actualCost; };
    const auto anew = [&](Id<Job> job) {
        CostReckoner reckoner{office.book()};
        return reckoner.of(office.book().get(job)).actualCost;
    };
    CHECK(costOf(patio) == Money{});
    const auto* shared = &desk.costs();
    const auto write = [&](Id<Job> job, const char* on, int minutes) {
        Edit edit{"Hours"};
        edit.add(Hours{.person = person, .date = day(on), .job = job, .phase = Phase::place, .minutes = Minutes::of(minutes)});
        REQUIRE(desk.commit(edit).done());
    };
    for (const auto* on : {"2026-06-01", "2026-06-02", "2026-06-03", "2026-06-04"}) write(patio, on, 600);
    // 40 hours at $20.
    CHECK(costOf(patio) == Money::ofWhole(800));
    // Ten more in the same week are overtime, and its premium of $100 is borne by all hours of the week (the default): 40 of 50 on the patio.
    write(walk, "2026-06-05", 600);
    CHECK(costOf(patio) == Money::ofWhole(880));
    CHECK(costOf(walk) == Money::ofWhole(220));
    CHECK(costOf(patio) == anew(patio));
    CHECK(&desk.costs() == shared);

    Edit moved{"Move"};
    auto hours = office.book().all<Hours>()[0];
    hours.job = walk;
    moved.change(hours);
    moved.remove(office.book().all<Hours>()[1]);
    REQUIRE(desk.commit(moved).done());
    CHECK(costOf(patio) == anew(patio));
    CHECK(costOf(walk) == anew(walk));

    Edit raise{"Raise"};
    raise.add(PayRate{.person = person, .fromDate = day("2026-06-01"), .hourlyRate = UnitPrice::ofWhole(25)});
    REQUIRE(desk.commit(raise).done());
    CHECK(costOf(patio) == anew(patio));
    CHECK(costOf(walk) == anew(walk));
}
