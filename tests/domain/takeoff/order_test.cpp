#include "domain/takeoff/sections.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <numeric>
#include <random>

using namespace strikeoff;

namespace {

constexpr auto quarter = Yards::ofUnits(250);
constexpr auto tenYards = Yards::ofWhole(10);
const Rate fivePercent = Rate::ofWhole(5);

Yards yards(std::string_view text) { return Yards::parse(text).value(); }

std::vector<Yards> loads(std::string_view order, std::string_view truck, std::string_view step = "0.25")
{
    return loadsFor(yards(order), yards(truck), yards(step));
}

std::vector<Yards> list(std::initializer_list<const char*> texts)
{
    std::vector<Yards> made;
    for (const auto* text : texts) made.push_back(yards(text));
    return made;
}

}

TEST_CASE("an order is the volume with its allowance, up to the next quarter yard", "[takeoff][order]")
{
    CHECK(orderFor(400.0 / 81, fivePercent, quarter) == yards("5.25"));
    CHECK(orderFor(5, Rate{}, quarter) == yards("5"));
    CHECK(orderFor(5.01, Rate{}, quarter) == yards("5.25"));
    CHECK(orderFor(5.01, Rate{}, Yards::ofUnits(500)) == yards("5.5"));
    CHECK(orderFor(0.01, fivePercent, quarter) == yards("0.25"));
    CHECK(orderFor(0, fivePercent, quarter) == Yards{});
    CHECK(orderFor(-3, fivePercent, quarter) == Yards{});
}

TEST_CASE("noise of the arithmetic does not cost a step", "[takeoff][order]")
{
    CHECK(orderFor(5.0 + 1e-9, Rate{}, quarter) == yards("5"));
    CHECK(orderFor(5.0 + 2e-6, Rate{}, quarter) == yards("5.25"));
    CHECK(orderFor(0.1 * 3 * 10, Rate{}, quarter) == yards("3"));        // 3.0000000000000004
    CHECK(orderFor(27.0 / 27 * 5, Rate::ofWhole(10), quarter) == yards("5.5"));
    CHECK(orderFor(1e-7, Rate{}, quarter) == Yards{});
}

TEST_CASE("what no truck can bring is refused and not wrapped round", "[takeoff][order]")
{
    CHECK_THROWS_AS(orderFor(1e18, fivePercent, quarter), DomainError);
    CHECK_THROWS_AS(orderFor(std::nan(""), fivePercent, quarter), DomainError);
    CHECK_THROWS_AS(orderFor(std::numeric_limits<double>::infinity(), fivePercent, quarter), DomainError);
    CHECK_THROWS_AS(orderFor(5, fivePercent, Yards{}), DomainError);
    CHECK_THROWS_AS(loadsFor(tenYards, Yards{}, quarter), DomainError);
    CHECK_THROWS_AS(loadsFor(tenYards, tenYards, Yards{}), DomainError);
    CHECK_THROWS_AS(loadsFor(Yards::ofUnits(std::numeric_limits<std::int64_t>::max()), Yards::ofUnits(1), Yards::ofUnits(1)), DomainError);
}

TEST_CASE("loads are as equal as the step allows, and the last is the smallest", "[takeoff][order]")
{
    CHECK(loads("8", "10") == list({"8"}));
    CHECK(loads("10", "10") == list({"10"}));
    CHECK(loads("10.25", "10") == list({"5.25", "5"}));
    CHECK(loads("21.5", "9") == list({"7.25", "7.25", "7"}));
    CHECK(loads("20", "10") == list({"10", "10"}));
    CHECK(loads("5.1", "3") == list({"2.75", "2.35"}));       // an order that is no whole number of steps
    CHECK(loads("5", "9.9") == list({"5"}));
    CHECK(loads("19.8", "9.9") == list({"6.75", "6.75", "6.3"}));  // 9.9 holds no more than 9.75 in quarters
    CHECK(loads("3", "0.1").size() == 30);                    // a step larger than the truck
    CHECK(loads("0", "10").empty());
    CHECK(loadsFor(yards("-1"), tenYards, quarter).empty());
}

TEST_CASE("loads add up to the order, none is over the truck, and they are a step apart at most", "[takeoff][order][property]")
{
    std::mt19937 random{2718};
    for (int i = 0; i < 5000; ++i) {
        const auto step = Yards::ofUnits(std::array{1, 250, 500, 1000}[static_cast<std::size_t>(i) % 4]);
        const auto truck = Yards::ofUnits(std::uniform_int_distribution<std::int64_t>{1000, 12'000}(random));
        const auto order = Yards::ofUnits(std::uniform_int_distribution<std::int64_t>{1, 150'000}(random));
        const auto made = loadsFor(order, truck, step);
        INFO(order.text() << " by " << truck.text() << " in " << step.text());
        CHECK(std::accumulate(made.begin(), made.end(), Yards{}) == order);
        for (const auto load : made) {
            CHECK(load > Yards{});
            CHECK(load <= truck);
            CHECK(load >= made.back());
        }
        if (order.units() % step.units() == 0) {
            CHECK(made.front() - made.back() <= step);
            for (const auto load : made) CHECK(load.units() % step.units() == 0);
        }
    }
}

TEST_CASE("a takeoff adds its sections up and takes openings off", "[takeoff]")
{
    MeasuredJob job;
    CHECK(job.takeoff().ordered == Yards{});
    CHECK(job.takeoff().faults.empty());
    job.add(sectionOf(SectionShape::rectangle, "40'", "10'", "4\""));
    CHECK(job.takeoff().areaSqft == 400);
    CHECK(job.takeoff().volumeYards == Approx(4.94).margin(0.005));
    CHECK(job.takeoff().allowance == fivePercent);
    CHECK(job.takeoff().ordered == yards("5.25"));

    auto opening = sectionOf(SectionShape::rectangle, "9'", "9'", "4\"");
    opening.deduct = true;
    job.add(opening);
    job.add(sectionOf(SectionShape::footing, "27'", "1'", "1'"));
    CHECK(job.takeoff().areaSqft == Approx(319));
    CHECK(job.takeoff().volumeYards == Approx(400.0 / 81 - 1 + 1));
    CHECK(job.takeoff().faults.empty());
}

TEST_CASE("the allowance is the job type's, else the settings'", "[takeoff]")
{
    MeasuredJob job;
    job.add(sectionOf(SectionShape::rectangle, "27'", "12'", "4\""));  // four yards
    Settings settings;
    settings.id = Id<Settings>{1};
    settings.allowance = Rate::ofWhole(10);
    settings.orderStep = Yards::ofUnits(500);
    job.book.put(rowOf(settings));
    CHECK(job.takeoff().allowance == Rate::ofWhole(10));
    CHECK(job.takeoff().ordered == yards("4.5"));

    JobType walk;
    walk.id = Id<JobType>{1};
    walk.name = "Walk";
    walk.allowance = Rate::ofWhole(0);
    job.book.put(rowOf(walk));
    job.job.jobType = walk.id;
    job.book.put(rowOf(job.job));
    CHECK(job.takeoff().allowance == Rate{});
    CHECK(job.takeoff().ordered == yards("4"));
}

TEST_CASE("a section with a fault is named and left out; the rest still counts", "[takeoff]")
{
    MeasuredJob job;
    job.add(sectionOf(SectionShape::rectangle, "40'", "10'", "4\""));
    auto unmeasured = sectionOf(SectionShape::rectangle, "40'", "10'", "");
    unmeasured.name = "Walk";
    job.add(unmeasured);
    CHECK(job.takeoff().areaSqft == 400);
    CHECK(job.takeoff().faults == std::vector<std::string>{"Walk: Thickness is missing; fill it in"});
}

TEST_CASE("absurd takeoffs are faults and order nothing", "[takeoff]")
{
    MeasuredJob hole;
    auto opening = sectionOf(SectionShape::rectangle, "9'", "9'", "4\"");
    opening.deduct = true;
    hole.add(opening);
    CHECK(hole.takeoff().ordered == Yards{});
    CHECK(hole.takeoff().faults.size() == 1);

    MeasuredJob runway;
    auto slab = sectionOf(SectionShape::rectangle, "20000'", "20000'", "30'");
    slab.count = 10'000;
    for (int i = 0; i < 5; ++i) runway.add(slab);
    CHECK(runway.takeoff().ordered == Yards{});
    CHECK(runway.takeoff().faults.size() == 1);
    CHECK(takeoffOf(runway.book, Id<Job>{99}).ordered == Yards{});  // no such job
}
