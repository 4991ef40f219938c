#include "review/year_bridge.h"

#include "domain/review/made_jobs.h"

#include <random>

using namespace strikeoff;

namespace {

YearBridge bridgeOf(const MadeJobs& made, const Book& book = {}, const char* asOf = "2026-12-31")
{
    CostReckoner reckoner{book};
    return yearBridge(made.jobs, reckoner, 2025, 2026, on(asOf));
}

std::string stepsOf(const YearBridge& bridge)
{
    std::string text;
    for (const auto& step : bridge.steps) text += step.name + ' ' + step.amount.text() + "; ";
    return text;
}

}

TEST_CASE("each step of the year bridge is what one thing alone changed", "[review][bridge]")
{
    // 1,000 ft² in 2025: $8,000 billed, $3,000 of concrete, 100 h at $30.
    const auto before = [](MadeJobs& made) { made.add(0, "2025-06-01", 1000, usd("8000"), usd("3000"), usd("3000"), 6000); };
    SECTION("twice as much of the same is volume")
    {
        MadeJobs made{{"Patio"}};
        before(made);
        made.add(0, "2026-06-01", 2000, usd("16000"), usd("6000"), usd("6000"), 12000);
        CHECK(stepsOf(bridgeOf(made)) == "Volume 2000.00; ");
    }
    SECTION("the same work billed higher is price")
    {
        MadeJobs made{{"Patio"}};
        before(made);
        made.add(0, "2026-06-01", 1000, usd("8500"), usd("3000"), usd("3000"), 6000);
        CHECK(stepsOf(bridgeOf(made)) == "Price 500.00; ");
    }
    SECTION("dearer concrete")
    {
        MadeJobs made{{"Patio"}};
        before(made);
        made.add(0, "2026-06-01", 1000, usd("8000"), usd("3300"), usd("3000"), 6000);
        CHECK(stepsOf(bridgeOf(made)) == "Concrete cost -300.00; ");
    }
    SECTION("slower at the same cost of an hour is pace, the same hours at a dearer one is rate")
    {
        MadeJobs made{{"Patio"}};
        before(made);
        made.add(0, "2026-06-01", 1000, usd("8000"), usd("3000"), usd("3520"), 6600);  // 110 h at $32
        CHECK(stepsOf(bridgeOf(made)) == "Pace -300.00; Labor rate -220.00; ");
    }
    SECTION("a type that only one year has is volume")
    {
        MadeJobs made{{"Patio", "Steps"}};
        before(made);
        made.add(0, "2026-06-01", 1000, usd("8000"), usd("3000"), usd("3000"), 6000);
        made.add(1, "2026-07-01", 100, usd("4000"), usd("500"), usd("1500"), 3000);
        CHECK(stepsOf(bridgeOf(made)) == "Volume 2000.00; ");
    }
    SECTION("a class bought by receipts has a name of its own, and overhead is the last")
    {
        MadeJobs made{{"Patio"}};
        before(made);
        auto& job = made.add(0, "2026-06-01", 1000, usd("8000"), usd("3000"), usd("3000"), 6000);
        job.byClass[static_cast<std::size_t>(CostClass::pump)] = usd("450");
        BookMaker maker;
        maker.add(Overhead{.year = 2025, .item = "Truck", .amount = usd("1000")});
        maker.add(Overhead{.year = 2026, .item = "Truck", .amount = usd("1200")});
        const auto bridge = bridgeOf(made, maker.book);
        CHECK(stepsOf(bridge) == "Pump -450.00; Overhead -200.00; ");
        CHECK(bridge.answer == "The jobs of 2026 made $350.00 after overhead, $650.00 less than 2025: pump took $450.00.");
    }
}

TEST_CASE("the steps of any two years add up to the cent", "[review][bridge]")
{
    for (unsigned seed = 1; seed <= 300; ++seed) {
        std::mt19937_64 engine{seed};
        const auto pick = [&](int low, int high) { return std::uniform_int_distribution<int>{low, high}(engine); };
        MadeJobs made{{"Patio", "Steps", "Walk"}};
        for (int i = pick(0, 12); i >= 0; --i) {
            auto& job = made.add(static_cast<std::size_t>(pick(0, 2)), pick(0, 1) ? "2025-06-01" : "2026-06-01", pick(0, 4) ? pick(1, 99'999) / 7.0 : 0, Money::ofCents(pick(1, 9'999'999)), Money::ofCents(pick(0, 999'999)),
                                 Money::ofCents(pick(0, 999'999)), pick(0, 9'999));
            job.byClass[static_cast<std::size_t>(pick(2, 12))] += Money::ofCents(pick(0, 99'999));
        }
        const auto bridge = bridgeOf(made);  // throws when they do not
        Money sum = bridge.before.profit();
        for (const auto& step : bridge.steps) sum += step.amount;
        CHECK(sum == bridge.after.profit());
    }
}

TEST_CASE("a year that still runs is held against the same days of the year before", "[review][bridge]")
{
    MadeJobs made{{"Patio"}};
    made.add(0, "2025-06-01", 1000, usd("8000"), usd("3000"), usd("3000"), 6000);
    made.add(0, "2025-11-01", 1000, usd("8000"), usd("3000"), usd("3000"), 6000);
    made.add(0, "2026-05-20", 1000, usd("8000"), usd("3000"), usd("3000"), 6000);
    const auto bridge = bridgeOf(made, {}, "2026-08-31");
    CHECK(bridge.upTo == on("2026-08-31"));
    CHECK(bridge.before.jobs == 1);
    CHECK(bridge.steps.empty());
    CHECK(bridge.answer == "The jobs of 2026 up to Aug 31, 2026 made $2,000.00 after overhead, as those of 2025.");
}
