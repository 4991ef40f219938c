#include "cost/explanation.h"

#include "app/demo_book.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdio>
#include <set>

using namespace strikeoff;

TEST_CASE("the gap of every finished job of the demonstration is explained to the cent", "[explanation]")
{
    Book book;
    REQUIRE(applyEdit(book, withIds(demonstrationEdit())).problems.empty());
    CostReckoner reckoner{book};
    int finished = 0;
    int reasons = 0;
    Money unexplained;  // the largest of any class or job
    Money difference;
    std::set<std::string> names;
    std::vector<JobExplanation> jobs;
    const auto note = [&](Money left) { unexplained = std::max(unexplained, left < Money{} ? -left : left); };
    for (const auto& job : book.all<Job>()) {
        const auto cost = reckoner.of(job);
        if (cost.open || !cost.bidPrice || cost.stage == Stage::declined || cost.stage == Stage::dropped) continue;
        ++finished;
        auto why = explain(reckoner, job);
        REQUIRE(why.classes.size() == cost.classes.size());
        Money ofJob;
        for (std::size_t i = 0; i < why.classes.size(); ++i) {
            Money ofClass;
            for (const auto& reason : why.classes[i].because) {
                ofClass += reason.amount;
                names.insert(reason.name);
                CHECK(reason.detail.size() > 20);
                ++reasons;
            }
            note(ofClass - (cost.classes[i].actual - cost.classes[i].bid));
            ofJob += ofClass;
        }
        note(ofJob - (cost.actualCost - cost.bidCost));
        CHECK(why.answer.find(job.number) != std::string::npos);
        difference += cost.actualCost - cost.bidCost;
        jobs.push_back(std::move(why));
    }
    Money together;
    for (const auto& each : addedUp(jobs))
        for (const auto& reason : each.because) together += reason.amount;
    note(together - difference);
    std::printf("%d finished jobs explained by %d reasons; the largest amount left unexplained is $%s\n", finished, reasons, unexplained.text().c_str());
    CHECK(finished > 150);
    CHECK(unexplained == Money{});
    // A season's worth of jobs shows what the trade knows to go wrong.
    for (const auto* wanted : {"price", "over-order", "measured area or thickness", "options", "short load", "waiting", "winter service", "delivery", "tax", "credits", "open claims", "rate",
                               "overtime premium", "burden", "pace: place", "rework", "quantity", "receipts against the bid"}) {
        INFO(wanted);
        CHECK(names.contains(wanted));
    }
    CHECK_FALSE(names.contains("other"));
}
