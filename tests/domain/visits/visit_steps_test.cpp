#include "domain/take_step.h"

#include "cost/job_cost.h"
#include "day/day_sheet.h"
#include "visits/load_out.h"
#include "visits/visit_steps.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace strikeoff;

namespace {

const Date today = on("2026-11-25");

struct Crew : BookMaker {
    Id<FinishingProduct> product;
    Id<Job> work;
    Id<Pour> pour;
    Id<Visit> seal, cut, call;
    Id<CrewMember> ana, ben;

    Crew()
    {
        product = add(FinishingProduct{.name = "Slab Guard",
                                       .coverageBroom = Quantity::ofWhole(200),
                                       .pricePerGallon = UnitPrice::ofWhole(20),
                                       .onHandGallons = Quantity::ofWhole(10),
                                       .countedOn = today - 5});
        const auto owner = add(Customer{.name = "Hollis Farm", .phone = "555-0142", .email = "hollis@example.com", .town = "Otter Bend"});
        work = job("Driveway", owner);
        pour = add(Pour{.job = work, .pouredOn = on("2026-11-20"), .area = Area::ofWhole(640), .sawJoint = Quantity::ofWhole(80), .product = product});
        seal = add(Visit{.job = work, .pour = pour, .kind = VisitKind::seal, .due = today, .tooLate = today + 2, .plannedOn = today, .plannedAt = at("13:00"), .pinned = true});
        cut = add(Visit{.job = work, .pour = pour, .kind = VisitKind::cut, .due = today});
        call = add(Visit{.job = work, .pour = pour, .kind = VisitKind::resealCall, .due = today});
        ana = add(CrewMember{.name = "Ana Ruiz"});
        ben = add(CrewMember{.name = "Ben Oday", .doesVisits = false});
        for (const auto person : {ana, ben}) add(PayRate{.person = person, .fromDate = on("2026-01-01"), .hourlyRate = UnitPrice::ofWhole(30)});
    }
    const Visit& visit(Id<Visit> id) const { return book.get(id); }
};

}

TEST_CASE("a visit done makes hours and material on the job in the same edit", "[visits][steps]")
{
    Crew crew;
    auto done = proposedDone(crew.book, crew.visit(crew.seal), today);
    CHECK(done.gallons == Quantity::parse("3.2"));
    CHECK(done.people == std::vector{crew.ana});  // the one who makes visits
    CHECK(done.writeMaterial);
    done.minutes = Minutes::of(75);
    done.drive = Minutes::of(40);
    done.people = {crew.ana, crew.ben};
    done.gallons = Quantity::parse("3.5");
    done.photos = "slab-1.jpg, slab-2.jpg";
    done.note = "gate was open";
    const auto step = finishVisit(crew.book, crew.visit(crew.seal), done);
    CHECK(step.remarks.empty());
    take(crew.book, step);

    const auto& visit = crew.visit(crew.seal);
    CHECK(visit.doneOn == today);
    CHECK(visit.minutes == Minutes::of(75));
    CHECK(visit.people == 2);
    CHECK(visit.gallons == Quantity::parse("3.5"));
    CHECK(visit.photos == "slab-1.jpg, slab-2.jpg");
    CHECK(visit.note == "gate was open");

    REQUIRE(crew.book.all<Hours>().size() == 4);
    std::int64_t sealing = 0, travel = 0;
    for (const auto& row : crew.book.all<Hours>()) {
        CHECK(row.job == crew.work);
        CHECK(row.pour == crew.pour);
        CHECK(row.date == today);
        (row.phase == Phase::seal ? sealing : travel) += row.minutes->count();
    }
    CHECK(sealing == 150);
    CHECK(travel == 80);

    REQUIRE(crew.book.all<Receipt>().size() == 1);
    const auto& receipt = crew.book.all<Receipt>()[0];
    CHECK(receipt.amount == usd("70.00"));
    CHECK(receipt.costClass == CostClass::sealer);
    CHECK(receipt.paidOn == today);  // nobody is owed anything for it
    CHECK(stockOf(crew.book, crew.book.get(crew.product)).left() == Quantity::parse("6.5"));

    CHECK(finishVisit(crew.book, visit, done).obstacle == "This visit was done on Nov 25, 2026");
}

TEST_CASE("what is left blank stays not recorded, and what is there already is not written twice", "[visits][steps]")
{
    Crew crew;
    take(crew.book, finishVisit(crew.book, crew.visit(crew.seal), VisitDone{.day = today}));
    CHECK_FALSE(crew.visit(crew.seal).minutes);
    CHECK_FALSE(crew.visit(crew.seal).gallons);
    CHECK(crew.book.all<Hours>().empty());
    CHECK(crew.book.all<Receipt>().empty());

    crew.add(Hours{.person = crew.ana, .date = today, .job = crew.work, .phase = Phase::stripCut, .startedAt = at("07:00"), .endedAt = at("09:00")});
    const auto step = finishVisit(crew.book, crew.visit(crew.cut), VisitDone{.day = today, .minutes = Minutes::of(60), .people = {crew.ana, crew.ben}});
    REQUIRE(step.remarks.size() == 1);
    CHECK(step.remarks[0] == "Ana Ruiz has hours on this job and day already; look at the day's hours, as nothing was added there");
    take(crew.book, step);
    CHECK(crew.book.all<Hours>().size() == 2);

    // Sealer bought for the job by a receipt of its own is not charged again.
    Crew bought;
    bought.add(Receipt{.number = "R1", .date = today - 1, .job = bought.work, .costClass = CostClass::sealer, .description = "Slab Guard", .amount = usd("88.00")});
    const auto proposed = proposedDone(bought.book, bought.visit(bought.seal), today);
    CHECK_FALSE(proposed.writeMaterial);
    take(bought.book, finishVisit(bought.book, bought.visit(bought.seal), proposed));
    CHECK(bought.book.all<Receipt>().size() == 1);

    Crew unpriced;
    unpriced.change(unpriced.product, [](FinishingProduct& row) { row.pricePerGallon.reset(); });
    const auto without = finishVisit(unpriced.book, unpriced.visit(unpriced.seal), VisitDone{.day = today, .gallons = Quantity::ofWhole(3)});
    REQUIRE(without.remarks.size() == 1);
    CHECK(without.remarks[0] == "Slab Guard has no price per gallon, so its cost is not on the job; fill the price in on its card");

    CHECK(finishVisit(crew.book, bought.visit(bought.cut), VisitDone{.day = today, .minutes = Minutes::of(2000)}).obstacle ==
          "The minutes on site do not fit a day; write them as 45, 1:30 or 1.5h");
}

TEST_CASE("cutting takes its feet off the blade", "[visits][steps]")
{
    Crew crew;
    const auto settings = crew.add(Settings{.bladeFeetLeft = Quantity::ofWhole(200)});
    take(crew.book, finishVisit(crew.book, crew.visit(crew.cut), VisitDone{.day = today}));
    CHECK(crew.book.get(settings).bladeFeetLeft == Quantity::ofWhole(120));
}

TEST_CASE("a visit not made rolls forward with its reason and never leaves the list by itself", "[visits][steps]")
{
    Crew crew;
    CHECK(putOffVisit(crew.book, crew.visit(crew.seal), "", today).obstacle == "Say in a few words why it is put off");
    take(crew.book, putOffVisit(crew.book, crew.visit(crew.seal), "gate was locked", today));
    const auto& visit = crew.visit(crew.seal);
    CHECK(visit.isOpen());
    CHECK_FALSE(visit.plannedOn);
    CHECK_FALSE(visit.plannedAt);
    CHECK_FALSE(visit.pinned);
    CHECK(visit.due == today);
    const auto whyOn = [&](Date day) {
        for (const auto& item : daySheet(crew.book, day).items)
            if (item.kind == RecordKind::visit && item.id == crew.seal.value() && item.section == DaySection::visits) return item.why;
        return std::string{};
    };
    CHECK(whyOn(today + 1) == "due yesterday, one day late; too late from tomorrow; put off yesterday: gate was locked");
    CHECK(whyOn(today + 40) == "too late since Fri Nov 27: do it all the same, or leave it out and say why; due Wed Nov 25, 40 days late; put off Wed Nov 25: gate was locked");
    CHECK(visitReasons(crew.book) == std::vector<std::string>{"gate was locked"});

    const auto beyond = putOffVisit(crew.book, visit, "rain", today, today + 2);
    REQUIRE(beyond.remarks.size() == 1);
    CHECK(beyond.remarks[0] == "It is too late from Fri Nov 27; do it all the same or leave it out with a reason");
    take(crew.book, beyond);
    CHECK(crew.visit(crew.seal).plannedOn == today + 2);
    CHECK_FALSE(putOffVisit(crew.book, crew.visit(crew.seal), "rain", today, today).possible());

    CHECK(waiveVisit(crew.book, crew.visit(crew.seal), "", today).obstacle == "Say in a few words why it is left out");
    take(crew.book, waiveVisit(crew.book, crew.visit(crew.seal), "customer seals himself", today));
    CHECK(crew.visit(crew.seal).waivedReason == "customer seals himself");
    CHECK(whyOn(today + 40).empty());
    CHECK_FALSE(putOffVisit(crew.book, crew.visit(crew.seal), "late", today).possible());
}

TEST_CASE("a reseal call comes back as a lead that knows the old job", "[visits][steps]")
{
    Crew crew;
    const auto quote = crew.acceptedQuote(crew.work, "Q1");
    crew.quoteLine(quote, CostClass::sealer, "200.00", "412.00");
    crew.quoteLine(quote, CostClass::concrete, "3000.00", "4000.00");
    CHECK_FALSE(resealLead(crew.book, crew.visit(crew.seal), today).possible());
    take(crew.book, resealLead(crew.book, crew.visit(crew.call), today));
    REQUIRE(crew.book.all<Lead>().size() == 1);
    const auto& lead = crew.book.all<Lead>()[0];
    CHECK(lead.source == LeadSource::reseal);
    CHECK(lead.customer == crew.book.get(crew.work).customer);
    CHECK(lead.phone == "555-0142");
    CHECK(lead.area == Area::ofWhole(640));
    CHECK(lead.nextCallOn == today + 7);
    CHECK(lead.wish == "Reseal of Driveway (job 1001), poured Nov 20, 2026; sealed with Slab Guard; sealing was priced at $412.00 then; the whole job at $4,412.00.");
    CHECK(crew.visit(crew.call).doneOn == today);
    CHECK_FALSE(resealLead(crew.book, crew.visit(crew.call), today).possible());
}
