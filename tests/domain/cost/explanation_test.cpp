#include "domain/cost/story.h"

#include <random>

using namespace strikeoff;

TEST_CASE("concrete is told apart into yards, price, options, fees and tax by the lines a statement bills", "[explanation]")
{
    Story story;
    story.charge(ChargeKind::mix, "4000AE", "160", ChargeUnit::perYard, "4000 psi, air entrained");
    story.charge(ChargeKind::option, "FIBER", "5", ChargeUnit::perYard);
    story.charge(ChargeKind::shortLoad, "SHORT", "95", ChargeUnit::perLoad);
    story.charge(ChargeKind::waiting, "WAIT", "2", ChargeUnit::perMinute);
    story.carried(CostClass::concrete, "Concrete, 4000 psi", "10", "yd", "150", {}, "4000AE");
    story.carried(CostClass::concrete, "Fiber in the mix", "10", "yd", "6", {}, "FIBER");
    story.ticket("501", "10.5");
    story.billed("501", "1680", "4000AE", "10.5");
    story.billed("501", "52.50", "FIBER", "10.5");
    story.billed("501", "95", "SHORT");
    story.billed("501", "24", "WAIT", "12");
    story.billed("501", "100.80", "TAX");
    story.finished();
    const auto why = story.why();
    CHECK(why.bid == usd("1560"));
    CHECK(why.actual == usd("1952.30"));
    const auto of = [&](std::string_view name) { return reason(why, CostClass::concrete, name); };
    CHECK(of("yards") == usd("75"));     // half a yard at the bid's 150
    CHECK(of("price") == usd("105"));    // 10.5 × (160 − 150)
    CHECK(of("options") == usd("-7.50"));
    CHECK(of("short load") == usd("95"));
    CHECK(of("waiting") == usd("24"));
    CHECK(of("tax") == usd("100.80"));
    CHECK(sumOf(why.classes.front()) == usd("392.30"));
    CHECK(detailOf(why, CostClass::concrete, "price") == "the mix came to $160.00 per yd\u00b3 against $150.00 carried, on 10.5 yd\u00b3: cost $105.00 more");
    CHECK(detailOf(why, CostClass::concrete, "options") == "$52.50 on one load against $60.00 carried: cost $7.50 less");
    CHECK(why.answer == "Job 1001 cost $1,952.30 against $1,560.00 bid, $392.30 more: concrete (price and tax) cost $205.80 more and concrete (short load) cost $95.00 more; "
                        "concrete (options) cost $7.50 less.");
}

TEST_CASE("a load no statement bills yet is told apart by the sheet in force", "[explanation]")
{
    Story story;
    story.charge(ChargeKind::mix, "4000AE", "160", ChargeUnit::perYard);
    story.charge(ChargeKind::load, "ENV", "12", ChargeUnit::perLoad);
    story.carried(CostClass::concrete, "Concrete", "6", "yd", "155");
    story.ticket("501", "6");
    story.finished();
    const auto why = story.why();
    CHECK(reason(why, CostClass::concrete, "price") == usd("30"));
    CHECK(reason(why, CostClass::concrete, "delivery") == usd("12"));
    CHECK(why.difference() == usd("42"));
}

TEST_CASE("measured area and over-order are told apart by takeoff and pours", "[explanation]")
{
    Story story;
    story.charge(ChargeKind::mix, "4000AE", "160", ChargeUnit::perYard);
    // 27 × 12 ft at 4 in are 4 yd³; 5 % over is 4.2, ordered 4.25.
    story.maker.add(TakeoffSection{.job = story.job,
                                   .name = "Slab",
                                   .length = TapeLength::ofFeet(27),
                                   .width = TapeLength::ofFeet(12),
                                   .thickness = TapeLength::ofInches(4)});
    story.carried(CostClass::concrete, "Concrete", "4", "yd", "160");
    story.ticket("501", "5");
    story.finished();
    auto why = story.why();
    CHECK(reason(why, CostClass::concrete, "measured area or thickness") == usd("40"));  // 0.25 yd³
    CHECK(reason(why, CostClass::concrete, "over-order") == usd("120"));                 // 0.75 yd³

    SECTION("the area poured goes before the one measured")
    {
        // Twice the area: 8 yd³, ordered 8.5.
        story.maker.add(Pour{.job = story.job, .sequence = 1, .pouredOn = on("2026-03-26"), .area = Area::parse("648")});
        why = story.why();
        CHECK(reason(why, CostClass::concrete, "measured area or thickness") == usd("720"));  // 4.5 yd³
        CHECK(reason(why, CostClass::concrete, "over-order") == usd("-560"));                 // 3.5 yd³ under
    }
    SECTION("a bid that gives its area tells area from thickness")
    {
        story.carried(CostClass::base, "Base, graded", "300", "sf", "1");
        why = story.why();
        CHECK(reason(why, CostClass::concrete, "measured area") == usd("51.20"));   // 4 yd³ × 324 ∕ 300 = 4.32
        CHECK(reason(why, CostClass::concrete, "thickness") == usd("-11.20"));      // 4.25 against 4.32
    }
}

TEST_CASE("another mix than carried is its own part, and the same strength from another supplier is not another mix", "[explanation]")
{
    Story story;
    story.charge(ChargeKind::mix, "4000AE", "160", ChargeUnit::perYard, "4000 psi, air entrained");
    story.charge(ChargeKind::mix, "4500AE", "170", ChargeUnit::perYard, "4500 psi, air entrained");
    story.charge(ChargeKind::mix, "40-A", "158", ChargeUnit::perYard, "4000 psi exterior");
    story.carried(CostClass::concrete, "Concrete", "12", "yd", "155", {}, "4000AE");
    story.ticket("501", "6", "4500AE");
    story.ticket("502", "6", "40-A");
    story.finished();
    const auto why = story.why();
    CHECK(reason(why, CostClass::concrete, "mix change") == usd("60"));  // 6 × (170 − 160)
    CHECK(reason(why, CostClass::concrete, "price") == usd("48"));       // 6 × (160 − 155) + 6 × (158 − 155)
    CHECK(reason(why, CostClass::concrete, "yards") == std::nullopt);
    CHECK(detailOf(why, CostClass::concrete, "mix change") == "4500AE in place of 4000AE, by what lies between them on the sheet: cost $60.00 more");
}

TEST_CASE("yards billed beyond the ticket, credits and open claims are parts of their own", "[explanation]")
{
    Story story;
    story.charge(ChargeKind::mix, "4000AE", "150", ChargeUnit::perYard);
    story.carried(CostClass::concrete, "Concrete", "10", "yd", "150", {}, "4000AE");
    const auto ticket = story.ticket("501", "10");
    const auto line = story.billed("501", "1650", "4000AE", "11");
    story.finished();
    auto why = story.why();
    CHECK(reason(why, CostClass::concrete, "yards billed") == usd("150"));
    CHECK(reason(why, CostClass::concrete, "price") == std::nullopt);
    CHECK(detailOf(why, CostClass::concrete, "yards billed") == "ticket 501 billed 11 yd\u00b3 for 10 yd\u00b3: cost $150.00 more");

    const auto claim = story.maker.add(Claim{.number = "C1", .supplier = story.supplier, .line = line, .ticket = ticket, .openedOn = on("2026-04-02"), .reason = "yards", .amount = usd("150")});
    why = story.why();
    CHECK(reason(why, CostClass::concrete, "open claims") == usd("150"));
    CHECK(reason(why, CostClass::concrete, "yards billed") == std::nullopt);
    CHECK(why.difference() == usd("150"));

    const auto credit = story.billed("501", "-150", "CREDIT");
    story.maker.change(claim, [&](Claim& one) {
        one.creditLine = credit;
        one.creditedOn = on("2026-04-20");
    });
    why = story.why();
    CHECK(reason(why, CostClass::concrete, "yards billed") == usd("150"));
    CHECK(reason(why, CostClass::concrete, "credits") == usd("-150"));
    CHECK(reason(why, CostClass::concrete, "open claims") == std::nullopt);
    CHECK(why.difference() == Money{});
}

TEST_CASE("labor is told apart into pace by phase, rework, unplanned hours, rate, premium and burden", "[explanation]")
{
    Story story;
    story.rate("30");
    story.maker.add(BurdenRate{.item = BurdenItem::medicare, .fromDate = on("2026-01-01"), .basis = BurdenBasis::percent, .rate = each("10")});
    story.carried(CostClass::labor, "Place", "20", "h", "38", Phase::place);
    story.carried(CostClass::labor, "Seal", "2", "h", "40", Phase::seal);
    // Monday to Friday, ten hours each: ten of them over forty.
    story.hours("2026-03-23", Phase::place, 600);
    story.hours("2026-03-24", Phase::place, 600);
    story.hours("2026-03-25", Phase::place, 600);
    story.hours("2026-03-26", Phase::rework, 600);
    story.hours("2026-03-27", Phase::travel, 600);
    story.finished();
    const auto why = story.why();
    const auto of = [&](std::string_view name) { return reason(why, CostClass::labor, name); };
    CHECK(why.bid == usd("840"));
    CHECK(why.actual == usd("1815"));  // 50 × 30 + 10 × 15, and a tenth of it
    CHECK(of("pace: place") == usd("380"));   // 10 h at 38
    CHECK(of("pace: seal") == usd("-80"));
    CHECK(of("rework") == usd("381.82"));     // 10 h at 840 ∕ 22
    CHECK(of("unplanned: travel") == usd("381.82"));
    CHECK(of("rate") == usd("-403.64"));      // 1500 − (30 × 38 + 2 × 381.82)
    CHECK(of("overtime premium") == usd("150"));
    CHECK(of("burden") == usd("165"));
    CHECK(sumOf(why.classes.front()) == usd("975"));
    CHECK(detailOf(why, CostClass::labor, "pace: place") == "30:00 h worked against 20:00 h carried, at the bid's $38.00 an hour: cost $380.00 more");
}

TEST_CASE("labor the bid carries without hours, without phases or not at all is explained as far as it can be", "[explanation]")
{
    Story story;
    story.rate("30");
    story.hours("2026-03-23", Phase::place, 600);
    story.hours("2026-03-24", Phase::rework, 60);
    story.finished();
    SECTION("not at all")
    {
        story.carried(CostClass::base, "Base", "1", "ea", "100");
        const auto why = story.why();
        CHECK(reason(why, CostClass::labor, "unplanned: place") == usd("300"));
        CHECK(reason(why, CostClass::labor, "rework") == usd("30"));
        CHECK(reason(why, CostClass::base, "not bought") == usd("-100"));
    }
    SECTION("as a sum")
    {
        story.carried(CostClass::labor, "Two men for a day", "1", "job", "400");
        const auto why = story.why();
        CHECK(reason(why, CostClass::labor, "pay against the sum carried") == usd("-70"));
    }
    SECTION("hours without a phase stand against all phases but rework")
    {
        story.carried(CostClass::labor, "Crew", "8", "h", "35");
        const auto why = story.why();
        CHECK(reason(why, CostClass::labor, "pace") == usd("70"));
        CHECK(reason(why, CostClass::labor, "rework") == usd("35"));
        CHECK(reason(why, CostClass::labor, "rate") == usd("-55"));  // 330 − 11 × 35
    }
}

TEST_CASE("other classes give price and quantity where bid and receipts do, else one amount with its receipts", "[explanation]")
{
    Story story;
    story.carried(CostClass::base, "Base", "20", "ton", "20");
    story.carried(CostClass::pump, "Pump", "1", "ea", "500");
    story.receipt(CostClass::base, "242", "11", "tons");
    story.receipt(CostClass::base, "230", "10", "ton");
    story.receipt(CostClass::pump, "560", {}, {}, "line pump, long day");
    story.receipt(CostClass::other, "30", {}, {}, "mailbox post");
    story.finished();
    auto why = story.why();
    CHECK(reason(why, CostClass::base, "price") == usd("52"));     // 472 − 21 × 20
    CHECK(reason(why, CostClass::base, "quantity") == usd("20"));
    CHECK(reason(why, CostClass::pump, "receipts against the bid") == usd("60"));
    CHECK(reason(why, CostClass::other, "not in the bid") == usd("30"));
    CHECK(detailOf(why, CostClass::other, "not in the bid") == "mailbox post $30.00 bought, and the bid carries none of this class: cost $30.00 more");
    CHECK(detailOf(why, CostClass::base, "price") == "paid $22.48 a ton against $20.00 carried, on 21 ton: cost $52.00 more");

    story.receipt(CostClass::base, "45", {}, {}, "part load");
    why = story.why();
    CHECK(reason(why, CostClass::base, "price") == std::nullopt);
    CHECK(reason(why, CostClass::base, "receipts against the bid") == usd("117"));
}

TEST_CASE("what is not spent yet on an open job is no saving", "[explanation]")
{
    Story story;
    story.rate("30");
    story.carried(CostClass::concrete, "Concrete", "10", "yd", "150");
    story.carried(CostClass::labor, "Place", "8", "h", "35", Phase::place);
    story.carried(CostClass::pump, "Pump", "1", "ea", "500");
    const auto why = story.why();
    CHECK(why.open);
    CHECK(reason(why, CostClass::concrete, "not delivered yet") == usd("-1500"));
    CHECK(reason(why, CostClass::labor, "not worked yet: place") == usd("-280"));
    CHECK(reason(why, CostClass::pump, "not bought yet") == usd("-500"));
}

TEST_CASE("parts add up to the class and classes to the job to the cent, whatever was bid and spent", "[explanation]")
{
    std::mt19937 random{20261125};
    const auto pick = [&](int least, int most) { return std::uniform_int_distribution<int>{least, most}(random); };
    const auto decimal = [&](int most) { return std::to_string(pick(0, most)) + '.' + std::to_string(pick(100, 999)); };
    int reasons = 0;
    for (int round = 0; round < 150; ++round) {
        Story story;
        story.rate(decimal(60));
        for (const auto* mix : {"3000", "4000AE", "4500AE"}) story.charge(ChargeKind::mix, mix, decimal(200), ChargeUnit::perYard, std::string{mix} + " psi");
        story.charge(ChargeKind::option, "FIBER", decimal(9), ChargeUnit::perYard);
        story.charge(ChargeKind::load, "ENV", decimal(20), ChargeUnit::perLoad);
        story.charge(ChargeKind::tax, "TAX", "6.25", ChargeUnit::percent);
        if (pick(0, 1)) story.maker.add(BurdenRate{.item = BurdenItem::medicare, .fromDate = on("2026-01-01"), .basis = BurdenBasis::percent, .rate = each("7.65")});
        static constexpr std::array units{"yd", "h", "ton", "", "job", "ea", "sf"};
        static constexpr std::array codes{"", "4000AE", "4500AE", "FIBER", "ENV", "TAX", "what"};
        for (int i = pick(0, 9); i > 0; --i) {
            const auto costClass = pick(0, 2) == 0 ? CostClass::concrete : pick(0, 2) == 0 ? CostClass::labor : static_cast<CostClass>(pick(0, static_cast<int>(costClassCount) - 1));
            const auto phase = pick(0, 1) ? std::optional{static_cast<Phase>(pick(0, 7))} : std::nullopt;
            story.carried(costClass, pick(0, 3) ? "Line" : "Delivery of the concrete", decimal(30), units[static_cast<std::size_t>(pick(0, 6))], decimal(300), phase,
                          codes[static_cast<std::size_t>(pick(0, 6))]);
        }
        for (int i = pick(0, 2); i > 0; --i)
            story.maker.add(ChangeOrder{.job = story.job,
                                        .number = i,
                                        .askedOn = on("2026-03-12"),
                                        .description = "more",
                                        .costClass = pick(0, 1) ? CostClass::concrete : CostClass::labor,
                                        .quantity = pick(0, 1) ? Quantity::parse(decimal(5)) : std::nullopt,
                                        .unit = pick(0, 1) ? "yd" : "h",
                                        .cost = usd(std::to_string(pick(0, 900)) + ".37"),
                                        .price = usd("900"),
                                        .acceptedOn = pick(0, 2) ? std::optional{on("2026-03-13")} : std::nullopt});
        if (pick(0, 1))
            story.maker.add(TakeoffSection{.job = story.job, .name = "Slab", .length = TapeLength::ofFeet(pick(5, 60)), .width = TapeLength::ofFeet(pick(5, 40)), .thickness = TapeLength::ofInches(4)});
        for (int i = pick(0, 4); i > 0; --i) {
            const auto number = std::to_string(500 + i * 7);
            static constexpr std::array mixes{"4000AE", "4500AE", "3000", "", "unknown"};
            const auto ticket = story.ticket(number, decimal(9), mixes[static_cast<std::size_t>(pick(0, 4))]);
            for (int j = pick(0, 4); j > 0; --j) {
                const auto line = story.billed(number, std::to_string(pick(-50, 1500)) + ".13", codes[static_cast<std::size_t>(pick(0, 6))], pick(0, 1) ? decimal(12) : std::string{});
                if (pick(0, 4) == 0)
                    story.maker.add(Claim{.number = "C" + std::to_string(line.value()),
                                          .supplier = story.supplier,
                                          .line = line,
                                          .ticket = ticket,
                                          .openedOn = on("2026-04-02"),
                                          .reason = "price",
                                          .amount = usd(std::to_string(pick(1, 400)) + ".05")});
            }
        }
        for (int i = pick(0, 12); i > 0; --i) story.hours("2026-03-" + std::to_string(10 + i), static_cast<Phase>(pick(0, 7)), pick(1, 400));
        for (int i = pick(0, 6); i > 0; --i)
            story.receipt(static_cast<CostClass>(pick(0, static_cast<int>(costClassCount) - 1)), std::to_string(pick(1, 400)) + ".71", pick(0, 2) ? decimal(30) : std::string{},
                          units[static_cast<std::size_t>(pick(0, 6))]);
        if (pick(0, 1)) story.finished();

        CostReckoner reckoner{story.maker.book};
        const auto& job = story.maker.book.get(story.job);
        const auto cost = reckoner.of(job);
        const auto why = explain(reckoner, job);
        Money difference;
        REQUIRE(why.classes.size() == cost.classes.size());
        for (std::size_t i = 0; i < why.classes.size(); ++i) {
            const auto& each = why.classes[i];
            CHECK(each.actual == cost.classes[i].actual);
            CHECK(each.bid == cost.classes[i].bid);
            CHECK(sumOf(each) == each.difference());
            difference += each.difference();
            for (const auto& one : each.because) {
                CHECK_FALSE(one.amount.isZero());
                CHECK_FALSE(one.name.empty());
                CHECK(one.name != "other");
                CHECK(one.detail.ends_with(": " + costMoreOrLess(one.amount)));
                ++reasons;
            }
        }
        CHECK(difference == cost.actualCost - cost.bidCost);
        CHECK(why.difference() == difference);
    }
    CHECK(reasons > 500);
}

TEST_CASE("jobs add up by class and reason, and their words can be left out", "[explanation]")
{
    Story story;
    story.carried(CostClass::base, "Base", "20", "ton", "20");
    story.receipt(CostClass::base, "441", "21", "ton");
    story.finished();
    CostReckoner reckoner{story.maker.book};
    const auto plain = explain(reckoner, story.maker.book.get(story.job), Words::leftOut);
    CHECK(plain.answer.empty());
    CHECK(plain.classes.front().because.front().detail.empty());
    const std::vector twice{plain, plain};
    const auto all = addedUp(twice);
    REQUIRE(all.size() == 1);
    CHECK(all.front().difference() == usd("82"));
    REQUIRE(all.front().because.size() == 2);
    CHECK(all.front().because[0].name == "price");
    CHECK(all.front().because[0].amount == usd("42"));
    CHECK(all.front().because[1].amount == usd("40"));
}
