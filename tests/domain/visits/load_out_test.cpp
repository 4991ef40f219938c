#include "domain/book_maker.h"

#include "visits/load_out.h"

#include <catch2/catch.hpp>

using namespace strikeoff;

namespace {

const Date today = on("2026-11-25");

Quantity gal(std::string_view text) { return Quantity::parse(text).value(); }

/// Two slabs to seal with a product that comes in pails.
struct Sealing : BookMaker {
    Id<FinishingProduct> product;
    Id<JobType> broom, smooth;
    Id<Job> first, second;
    Id<Pour> firstPour, secondPour;
    Id<Visit> firstSeal, secondSeal;

    Sealing()
    {
        product = add(FinishingProduct{.name = "Slab Guard",
                                       .kind = ProductKind::filmForming,
                                       .coverageBroom = Quantity::ofWhole(200),
                                       .coverageSmooth = Quantity::ofWhole(400),
                                       .coats = 2,
                                       .canGallons = Quantity::ofWhole(5),
                                       .cleaning = "Pressure wash, let dry a day. No acid.",
                                       .cautions = "Flammable."});
        broom = add(JobType{.name = "Driveway", .finish = SurfaceFinish::broom, .product = product});
        smooth = add(JobType{.name = "Garage", .finish = SurfaceFinish::smooth, .product = product});
        first = job("Driveway");
        second = job("Garage");
        change(first, [&](Job& row) { row.jobType = broom; });
        change(second, [&](Job& row) { row.jobType = smooth; });
        firstPour = add(Pour{.job = first, .pouredOn = on("2026-10-20"), .area = Area::ofWhole(640)});
        secondPour = add(Pour{.job = second, .pouredOn = on("2026-10-21"), .area = Area::ofWhole(620), .sawJoint = Quantity::ofWhole(64)});
        firstSeal = add(Visit{.job = first, .pour = firstPour, .kind = VisitKind::seal, .plannedOn = today + 3});
        secondSeal = add(Visit{.job = second, .pour = secondPour, .kind = VisitKind::seal, .plannedOn = today + 5});
    }
    const Visit& visit(Id<Visit> id) const { return book.get(id); }
};

const LoadItem& named(const LoadOut& out, const std::string& item)
{
    for (const auto& one : out.items)
        if (one.item == item) return one;
    FAIL("nothing called " << item);
    return out.items.front();
}

}

TEST_CASE("a run takes what its stops need of a product, with spare, in whole cans", "[visits][load]")
{
    Sealing book;
    CHECK(gallonsOnSlab(book.book, book.visit(book.firstSeal)) == gal("3.2"));    // 640 / 200
    CHECK(gallonsOnSlab(book.book, book.visit(book.secondSeal)) == gal("1.55"));  // 620 / 400, smooth

    const auto alone = loadOut(book.book, book.visit(book.firstSeal));
    CHECK(named(alone, "Slab Guard").needed == gal("3.36"));
    CHECK(named(alone, "Slab Guard").amount == gal("5"));

    // 4.75 gallons are one pail, with 5 % spare they are 4.9875: still one. Each stop for itself would take two.
    const Visit* const both[] = {&book.visit(book.firstSeal), &book.visit(book.secondSeal)};
    const auto run = loadOut(book.book, {}, both);
    CHECK(named(run, "Slab Guard").needed == gal("4.988"));
    CHECK(named(run, "Slab Guard").text() == "5 gal of Slab Guard (one can of 5 gal; 5 gal needed with 5 % spare)");
    CHECK(named(run, "Cleaner").why == "Slab Guard: Pressure wash, let dry a day");
    CHECK(named(run, "Sprayer").text() == "Sprayer (with a spare tip)");
    REQUIRE(run.cautions.size() == 1);
    CHECK(run.cautions[0] == "Slab Guard: the label governs. Flammable.");

    // A second coat is another visit, and the run carries both coats.
    auto second = book.visit(book.firstSeal);
    second.coat = 2;
    second.plannedOn = today + 3;
    const auto coat = book.add(second);
    const Visit* const coats[] = {&book.visit(book.firstSeal), &book.visit(coat)};
    CHECK(named(loadOut(book.book, {}, coats), "Slab Guard").needed == gal("6.72"));
    CHECK(named(loadOut(book.book, {}, coats), "Slab Guard").amount == gal("10"));

    // Exactly full cans do not ask for another one.
    book.change(book.firstPour, [](Pour& row) { row.area = Area::ofWhole(1000); });
    book.add(Settings{.sealerSpare = Rate{}});
    CHECK(named(loadOut(book.book, book.visit(book.firstSeal)), "Slab Guard").amount == gal("5"));
}

TEST_CASE("what is not recorded is said, not guessed", "[visits][load]")
{
    Sealing book;
    book.change(book.firstPour, [](Pour& row) { row.area.reset(); });
    const auto out = loadOut(book.book, book.visit(book.firstSeal));
    CHECK_FALSE(named(out, "Slab Guard").amount);
    CHECK(out.brief() == "Slab Guard (gallons unknown: area or coverage is not recorded), sprayer, plastic, cones and cleaner");

    book.change(book.broom, [](JobType& row) { row.product.reset(); });
    CHECK(named(loadOut(book.book, book.visit(book.firstSeal)), "Sealer").why == "no product is named; name one on the visit");

    // A pour without an area of its own takes its part of the takeoff.
    book.add(TakeoffSection{.job = book.first,
                            .name = "Slab",
                            .length = TapeLength::ofFeet(40),
                            .width = TapeLength::ofFeet(20),
                            .thickness = TapeLength::ofInches(4)});
    book.change(book.broom, [&](JobType& row) { row.product = book.product; });
    CHECK(gallonsOnSlab(book.book, book.visit(book.firstSeal)) == gal("4"));
    book.add(Pour{.job = book.first, .sequence = 2, .area = Area::ofWhole(300)});
    CHECK(gallonsOnSlab(book.book, book.visit(book.firstSeal)) == gal("2.5"));
}

TEST_CASE("the saw goes with water, and the blade says what is left in it", "[visits][load]")
{
    Sealing book;
    const auto cut = book.add(Visit{.job = book.second, .pour = book.secondPour, .kind = VisitKind::cut, .due = today});
    CHECK(loadOut(book.book, book.visit(cut)).brief() == "saw and blade for 64 ft of joint and water");
    const auto settings = book.add(Settings{.bladeFeetLeft = Quantity::ofWhole(300)});
    CHECK(named(loadOut(book.book, book.visit(cut)), "Saw and blade").why == "300 ft left in the blade");
    book.change(settings, [](Settings& row) { row.bladeFeetLeft = Quantity::ofWhole(50); });
    CHECK(named(loadOut(book.book, book.visit(cut)), "Saw and blade").why == "only 50 ft left in the blade, take another one");
}

TEST_CASE("the shop's cans are counted down by visits done since the count", "[visits][load]")
{
    Sealing book;
    const auto stock = [&] { return stockOf(book.book, book.book.get(book.product)); };
    CHECK_FALSE(stock().left());
    book.change(book.product, [](FinishingProduct& row) { row.onHandGallons = gal("10"); });
    CHECK(stock().left() == gal("10"));
    book.change(book.product, [](FinishingProduct& row) { row.countedOn = on("2026-11-10"); });
    const auto done = [&](Id<Visit> id, Date day, std::optional<Quantity> gallons) {
        book.change(id, [&](Visit& row) {
            row.doneOn = day;
            row.gallons = gallons;
        });
    };
    done(book.firstSeal, on("2026-11-10"), gal("4"));  // the count was made that evening
    CHECK(stock().left() == gal("10"));
    done(book.firstSeal, on("2026-11-11"), gal("4"));
    CHECK(stock().left() == gal("6"));
    done(book.secondSeal, on("2026-11-12"), {});
    CHECK(stock().left() == gal("4.45"));
    CHECK(stock().usedByGuess == 1);
    done(book.firstSeal, on("2026-11-11"), gal("40"));
    CHECK(stock().left() == Quantity{});
}

TEST_CASE("what runs short is said while there is time to buy it", "[visits][load]")
{
    Sealing book;
    const auto found = [&] { return shortages(book.book, sealingAhead(book.book, today, 14), today); };
    CHECK(found().empty());  // never counted: nobody knows
    book.change(book.product, [](FinishingProduct& row) {
        row.onHandGallons = gal("3.5");
        row.countedOn = on("2026-11-20");
    });
    REQUIRE(found().size() == 1);
    CHECK(found()[0].day == today + 5);  // 3.36 on Saturday are there, 4.99 by Monday are not
    CHECK(found()[0].toBuy == gal("5"));
    CHECK(found()[0].text == "Slab Guard runs short on Mon Nov 30: 5 gal needed by then and 3.5 gal in the shop; buy one can of 5 gal by Sun Nov 29");
    book.change(book.secondSeal, [](Visit& row) { row.plannedOn = today + 30; });
    CHECK(found().empty());
    book.change(book.firstSeal, [](Visit& row) {
        row.plannedOn.reset();
        row.due = today - 4;
    });
    book.change(book.product, [](FinishingProduct& row) { row.onHandGallons = gal("1"); });
    REQUIRE(found().size() == 1);
    CHECK(found()[0].text == "Slab Guard runs short today: 3.4 gal needed by then and 1 gal in the shop; buy one can of 5 gal today");
}
