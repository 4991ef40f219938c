#include "review/what_pays.h"

#include "domain/review/made_jobs.h"
#include "review/pay_words.h"

#include <iomanip>
#include <iostream>
#include <random>

using namespace strikeoff;

TEST_CASE("a group's figures are the sums of its jobs, and the best paid stands first", "[review]")
{
    MadeJobs made{{"Walk", "Patio"}};
    made.earned(0, 10, 20);
    made.earned(0, 30, 40);
    made.earned(1, 20, 60).overhead = usd("200");
    made.earned(1, 20, 62);
    const auto review = whatPays(made.jobs, Grouping::jobType);
    REQUIRE(review.groups.size() == 2);
    const auto& patio = review.groups[0];
    const auto& walk = review.groups[1];
    CHECK(patio.name == "Patio");
    CHECK(patio.type == Id<JobType>{2});
    CHECK(walk.jobs == 2);
    CHECK(walk.areaSqft == 800);
    CHECK(walk.grossProfit == usd("1400"));           // 10 h × $20 + 30 h × $40
    CHECK(walk.perCrewHour.raw == Approx(35));        // $1,400 over 40 h
    CHECK(patio.perCrewHour.raw == Approx(61));
    CHECK(patio.afterOverhead.raw == Approx(56));     // less $200 over 40 h
    CHECK(walk.margin() == percent("41.1765"));       // 1,400 of 3,400
}

TEST_CASE("two types are not pooled, three are, and intervals that overlap are said to be undecided", "[review]")
{
    MadeJobs made{{"Walk", "Patio", "Steps"}};
    for (const double off : {-6.0, -2.0, 2.0, 6.0}) {
        made.earned(0, 20, 30 + off);
        made.earned(1, 20, 61 + off);
    }
    const auto two = whatPays(made.jobs, Grouping::jobType);
    CHECK_FALSE(two.pooled);
    CHECK(two.undecided.empty());
    CHECK(two.undecidedSentence.empty());
    CHECK(two.groups[0].sentence.starts_with("pays $61 per crew-hour, surely above all others"));
    CHECK(two.answer.starts_with("Patio pays best, $61 per crew-hour ("));

    made.earned(2, 20, 55);
    made.earned(2, 20, 67);
    const auto three = whatPays(made.jobs, Grouping::jobType);
    CHECK(three.pooled);
    REQUIRE(three.undecided.size() == 1);
    CHECK(three.groups[three.undecided[0].first].name != "Walk");
    CHECK(three.groups[three.undecided[0].second].name != "Walk");
    CHECK(three.undecidedSentence.find("One of three pairs") == 0);
    CHECK(three.groups[2].sentence.find("surely below all others") != std::string::npos);
    for (const auto& group : three.groups)
        if (group.name != "Walk") CHECK(group.sentence.find("surely above Walk, undecided against") != std::string::npos);
}

TEST_CASE("the class that goes most over its bids is named with its largest part", "[review]")
{
    MadeJobs made{{"Walk", "Patio"}};
    auto& one = made.earned(0, 10, 20);
    made.missed(one, CostClass::concrete, "over-order", usd("40"));
    made.missed(one, CostClass::concrete, "price", usd("120"));
    made.missed(one, CostClass::labor, "pace: place", usd("150"));
    made.missed(one, CostClass::forms, "receipts", usd("-80"));
    made.earned(1, 10, 20);
    const auto review = whatPays(made.jobs, Grouping::jobType);
    const auto& walk = review.groups[0].name == "Walk" ? review.groups[0] : review.groups[1];
    const auto& patio = review.groups[0].name == "Walk" ? review.groups[1] : review.groups[0];
    REQUIRE(walk.driver);
    CHECK(walk.driver->costClass == CostClass::concrete);
    CHECK(walk.driver->reason == "price and tax");
    CHECK(walk.driver->over == usd("160"));
    CHECK(walk.sentence.find("concrete price and tax is what hurts it") != std::string::npos);
    CHECK_FALSE(patio.driver);
    CHECK(driverWords({CostClass::labor, "pace: place", {}}) == "labor pace (place)");
    CHECK(driverWords({CostClass::forms, "not in the bid", {}}) == "forms (not in the bid)");
}

TEST_CASE("single jobs are shown without claiming how sure they are", "[review]")
{
    MadeJobs made{{"Walk", "Patio"}};
    made.earned(0, 10, -4);
    made.earned(1, 10, 30);
    const auto review = whatPays(made.jobs, Grouping::jobType);
    CHECK_FALSE(review.groups[0].perCrewHour.low);
    CHECK_FALSE(review.groups[0].chanceOfLoss);
    CHECK(review.groups[0].sentence.find("too few jobs") != std::string::npos);
    CHECK(review.groups[1].sentence.starts_with("loses $4 per crew-hour"));
    CHECK(review.method.find("once a group has two jobs") != std::string::npos);
    CHECK(whatPays(MadeJobs{{"Walk"}}.jobs, Grouping::jobType).answer == "No finished job has hours, a bid and a bill yet.");
}

TEST_CASE("days and type narrow what counts, quotes included", "[review]")
{
    MadeJobs made{{"Walk", "Patio"}};
    made.earned(0, 10, 20).day = on("2025-05-04");
    made.earned(0, 10, 30);
    made.earned(1, 10, 40);
    AnsweredQuote quote;
    quote.day = on("2026-04-01");
    quote.won = true;
    made.jobs.quotes.push_back(quote);
    quote.won = false;
    made.jobs.quotes.push_back(quote);
    quote.day = on("2025-04-01");
    made.jobs.quotes.push_back(quote);
    const auto review = whatPays(made.jobs, Grouping::jobType, {.from = on("2026-01-01"), .to = {}, .type = Id<JobType>{1}});
    REQUIRE(review.groups.size() == 1);
    CHECK(review.groups[0].perCrewHour.raw == Approx(30));
    CHECK(review.groups[0].winRate() == Rate::ofWhole(50));
}

TEST_CASE("what pays holds the truth eight times in ten, and errs less than raw figures", "[review][simulation]")
{
    // Eight types of known profit per crew-hour, 3 to 30 jobs each, hours from 8 to 80, profit scattering by $28 an hour.
    const std::vector<int> counts{3, 4, 6, 8, 12, 16, 22, 30};
    int held = 0, all = 0, lost = 0, next = 0;
    double said = 0, raw = 0, pooled = 0;
    for (unsigned seed = 1; seed <= 500; ++seed) {
        std::mt19937_64 engine{seed};
        std::normal_distribution<double> normal;
        std::uniform_real_distribution<double> length{std::log(8), std::log(80)};
        std::vector<double> truths;
        MadeJobs made{{"A", "B", "C", "D", "E", "F", "G", "H"}};
        std::vector<double> nextJobs;
        for (std::size_t type = 0; type < counts.size(); ++type) {
            truths.push_back(42 + 13 * normal(engine));
            for (int i = 0; i < counts[type]; ++i) made.earned(type, std::exp(length(engine)), truths.back() + 28 * normal(engine));
            nextJobs.push_back(truths.back() + 28 * normal(engine));
        }
        for (const auto& group : whatPays(made.jobs, Grouping::jobType).groups) {
            const double truth = truths[group.key];
            held += *group.perCrewHour.low <= truth && truth <= *group.perCrewHour.high;
            ++all;
            raw += std::pow(group.perCrewHour.raw - truth, 2);
            pooled += std::pow(group.perCrewHour.estimate - truth, 2);
            said += *group.chanceOfLoss;
            lost += nextJobs[group.key] < 0;
            ++next;
        }
    }
    std::cout << "What pays, 500 seeds: truth held " << std::fixed << std::setprecision(1) << 100.0 * held / all << " %, squared error pooled " << std::setprecision(0) << pooled << " against raw "
              << raw << "; the next job lost money " << std::setprecision(1) << 100.0 * lost / next << " % of the time, said " << 100 * said / next << " %\n";
    CHECK(held >= 0.75 * all);
    CHECK(held <= 0.85 * all);
    CHECK(pooled < raw);
    CHECK(std::abs(said - lost) / next < 0.03);
}

TEST_CASE("a chance is said as people say it", "[review]")
{
    CHECK(chanceWords(0.5) == "one in two");
    CHECK(chanceWords(0.126) == "one in eight");
    CHECK(chanceWords(0.8) == "eight in ten");
    CHECK(chanceWords(0.001) == "less than one in a hundred");
    CHECK(wholeDollars(-4.4) == "\u2212$4");
    CHECK(wholeDollars(1234.5) == "$1,235");
}
