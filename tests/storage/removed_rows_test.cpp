#include "storage/loading.h"

#include "removed_rows.h"

using namespace strikeoff;
using namespace strikeoff::test;

namespace {

struct Shop {
    Folder folder;
    std::unique_ptr<Store> store = folder.fresh();

    std::vector<std::int64_t> commit(Edit edit)
    {
        const auto result = store->commit(std::move(edit));
        INFO(result.text());
        REQUIRE(result.done());
        return result.ids;
    }
};

}

TEST_CASE("a removed record comes back with what it refers to, in one step, by names and never by numbers", "[store][removed]")
{
    Shop shop;
    Edit edit{"Open"};
    Customer merle;
    merle.name = "Merle Ostrander";
    Job job;
    job.title = "Patio";
    job.customer = edit.add(merle);
    job.openedOn = *Date::parse("2026-05-04");
    Pour pour;
    pour.job = edit.add(job);
    pour.orderedYards = Yards::ofUnits(7'500);
    edit.add(pour);
    const auto ids = shop.commit(std::move(edit));
    Edit away{"Remove a job with its pour"};
    away.remove(shop.store->book().get(Id<Pour>{ids[2]}));
    away.remove(shop.store->book().get(Id<Job>{ids[1]}));
    shop.commit(std::move(away));
    Edit last{"Remove customer Merle Ostrander"};
    last.remove(shop.store->book().get(Id<Customer>{ids[0]}));
    shop.commit(std::move(last));

    const RemovedRows removed{*shop.store};
    REQUIRE(removed.rows().size() == 3);
    CHECK(removed.answer() == "Three records were removed and can be brought back; the last was Customer Merle Ostrander.");
    std::size_t pourPlace = 3;
    for (std::size_t i = 0; i < 3; ++i)
        if (removed.rows()[i].kind == RecordKind::pour) pourPlace = i;
    REQUIRE(pourPlace < 3);
    CHECK(removed.name(pourPlace) == "Pour 1001, 1");
    const auto needed = removed.needed(pourPlace);
    REQUIRE(needed.size() == 2);
    CHECK(removed.name(needed[0]) == "Customer Merle Ostrander");
    CHECK(removed.name(needed[1]) == "Job 1001");
    CHECK(removed.ofSameStep(pourPlace).size() == 1);
    CHECK(removed.hindrance(pourPlace).empty());
    const auto& kind = describe(RecordKind::pour);
    const auto& row = *removed.rows()[pourPlace].before;
    CHECK(removed.words(kind.fields[fieldIndex(kind, "ordered_yards")], row.value("ordered_yards")) == "7.5 yd\u00b3");
    CHECK(removed.words(kind.fields[fieldIndex(kind, "job")], row.value("job")) == "1001");

    CHECK_FALSE(shop.store->bringBack(removed.rows()[pourPlace]).done());  // alone it cannot
    REQUIRE(shop.store->bringBack(removed.withNeeded({pourPlace})).done());
    CHECK(shop.store->book().get(Id<Pour>{ids[2]}).orderedYards == Yards::ofUnits(7'500));
    CHECK(shop.store->book().get(Id<Job>{ids[1]}).title == "Patio");
    CHECK(RemovedRows{*shop.store}.answer() == "Nothing was removed from this book.");
    REQUIRE(shop.store->undo().done());
    CHECK(shop.store->book().count(RecordKind::customer) == 0);
    CHECK(shop.store->book().count(RecordKind::pour) == 0);
    CHECK(shop.store->verify().empty());
}

TEST_CASE("a removed record whose name another one took says what to do first", "[store][removed]")
{
    Shop shop;
    for (int i = 0; i < 2; ++i) {
        Edit edit{"Add"};
        Customer merle;
        merle.name = "Merle Ostrander";
        edit.add(merle);
        const auto id = shop.commit(std::move(edit)).front();
        if (i == 1) break;
        Edit away{"Remove"};
        away.remove(shop.store->book().get(Id<Customer>{id}));
        shop.commit(std::move(away));
    }
    const RemovedRows removed{*shop.store};
    REQUIRE(removed.rows().size() == 1);
    CHECK(removed.hindrance(0) == "another Customer goes by the name Merle Ostrander now; give that one another name first, then this one can come back");
}
