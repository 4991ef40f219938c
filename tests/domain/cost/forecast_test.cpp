#include "cost/causes.h"
#include "cost/forecast.h"
#include "day/day_sheet.h"

#include "domain/cost/story.h"

using namespace strikeoff;

namespace {

Forecast forecastOf(Story& story)
{
    CostReckoner reckoner{story.maker.book};
    return forecastOf(reckoner, story.maker.book.get(story.job));
}

const ClassForecast& of(const Forecast& forecast, CostClass wanted)
{
    const auto found = std::find_if(forecast.classes.begin(), forecast.classes.end(), [&](const auto& one) { return one.costClass == wanted; });
    REQUIRE(found != forecast.classes.end());
    return *found;
}

}

TEST_CASE("of a job that was not begun all that the bid carries is to come", "[forecast]")
{
    Story story;
    story.carried(CostClass::base, "crushed base", "10", "ton", "20");
    story.carried(CostClass::labor, "placing", "6", "h", "40", Phase::place);
    const auto forecast = forecastOf(story);
    CHECK(forecast.open);
    CHECK(forecast.spent == Money{});
    CHECK(forecast.expected() == usd("440"));
    CHECK(forecast.expected() == forecast.bid);
}

TEST_CASE("yards on order are committed at the sheet's price, load by load", "[forecast]")
{
    Story story;
    story.carried(CostClass::concrete, "4000AE", "12", "yd", "150", {}, "4000AE");
    story.charge(ChargeKind::mix, "4000AE", "160", ChargeUnit::perYard);
    story.charge(ChargeKind::load, "ENV", "9", ChargeUnit::perLoad);
    story.maker.add(Pour{.job = story.job, .plannedOn = on("2026-04-02"), .supplier = story.supplier, .mix = "4000AE", .orderedYards = Yards::ofWhole(12)});
    const auto concrete = of(forecastOf(story), CostClass::concrete);
    // 12 yd³ at $160 in two loads of a 10 yd³ truck, $9 each.
    CHECK(concrete.committed == usd("1938"));
    CHECK(concrete.toCome == usd("1938"));
    CHECK(concrete.difference() == usd("138"));
}

TEST_CASE("the rest of the yards cost what the first ones did", "[forecast]")
{
    Story story;
    story.carried(CostClass::concrete, "4000AE", "10", "yd", "150", {}, "4000AE");
    story.charge(ChargeKind::mix, "4000AE", "170", ChargeUnit::perYard);
    story.maker.add(Pour{.job = story.job, .sequence = 1, .pouredOn = on("2026-03-26")});
    story.maker.add(Pour{.job = story.job, .sequence = 2});
    story.ticket("401", "4");
    const auto concrete = of(forecastOf(story), CostClass::concrete);
    CHECK(concrete.spent == usd("680"));
    CHECK(concrete.toCome == usd("1020"));  // six yards at $170
}

TEST_CASE("the pace of the first half is the pace of the second", "[forecast]")
{
    Story story;
    story.rate("30");
    story.carried(CostClass::labor, "placing", "10", "h", "30", Phase::place);
    story.maker.add(Pour{.job = story.job, .sequence = 1, .pouredOn = on("2026-03-26"), .area = Area::ofWhole(200)});
    story.maker.add(Pour{.job = story.job, .sequence = 2, .area = Area::ofWhole(200)});
    story.hours("2026-03-26", Phase::place, 480);
    const auto labor = of(forecastOf(story), CostClass::labor);
    CHECK(labor.spent == usd("240"));
    CHECK(labor.toCome == usd("240"));  // eight hours more at $30, where the bid has two left
}

TEST_CASE("a job heading for a loss names what drives it, and one that is done is no forecast", "[forecast]")
{
    Story story;
    story.carried(CostClass::base, "crushed base", "10", "ton", "20");
    story.carried(CostClass::forms, "forms", "1", "job", "100");
    story.maker.change(story.quote, [](Quote& quote) { quote.markup = Rate::ofWhole(10); });
    story.receipt(CostClass::base, "390");
    auto forecast = forecastOf(story);
    REQUIRE(forecast.isHeadingForALoss());  // $490 expected against a price of $330
    CHECK(forecast.profit() == usd("-160"));
    REQUIRE(forecast.driver());
    CHECK(forecast.driver()->costClass == CostClass::base);
    CHECK(forecast.answer.find("heading for a loss of $160.00, driven by base, $190.00 over its bid") != std::string::npos);
    CostReckoner reckoner{story.maker.book};
    CHECK(headingForALoss(reckoner).size() == 1);
    const auto warns = [&] {
        for (const auto& item : daySheet(story.maker.book, on("2026-03-25")).items)
            if (item.what == "Alder Court driveway is heading for a loss of $160.00") return item.section == DaySection::money && item.why.find("base drives it, $190.00 over its bid") != std::string::npos;
        return false;
    };
    CHECK(warns());

    story.maker.change(story.job, [](Job& job) { job.closedOn = on("2026-05-01"); });
    forecast = forecastOf(story);
    CHECK_FALSE(forecast.open);
    CHECK(forecast.toCome == Money{});
    CHECK(forecast.expected() == usd("390"));
    CHECK_FALSE(warns());
}

TEST_CASE("a job that grew is told apart from a bid that missed", "[causes]")
{
    Story story;
    story.rate("30");
    story.carried(CostClass::labor, "placing", "4", "h", "30", Phase::place);
    story.carried(CostClass::base, "crushed base", "10", "ton", "20");
    story.hours("2026-03-26", Phase::place, 360);
    story.receipt(CostClass::base, "330", "15", "ton");
    story.maker.change(story.job, [](Job& job) { job.closedOn = on("2026-05-01"); });
    CostReckoner reckoner{story.maker.book};
    const auto explained = explain(reckoner, story.maker.book.get(story.job));
    const auto causes = causesOf(explained);
    Money sum;
    const auto amount = [&](Cause wanted) {
        for (const auto& cause : causes)
            if (cause.cause == wanted) return cause.amount;
        return Money{};
    };
    for (const auto& cause : causes) sum += cause.amount;
    CHECK(sum == explained.difference());
    CHECK(amount(Cause::job) == usd("100"));    // five tons more at the $20 carried
    CHECK(amount(Cause::prices) == usd("30"));  // fifteen tons at $2 more
    CHECK(amount(Cause::work) == usd("60"));    // two hours more at $30
    CHECK(causesInWords(explained) == "Of $190.00 more, the job itself cost $100.00 more, the work cost $60.00 more and prices and rates cost $30.00 more.");
}
