#include "storage/any_book.h"
#include "storage/loading.h"

using namespace strikeoff;
using namespace strikeoff::test;

TEST_CASE("text that looks like SQL, HTML or a formula is the text it is, there and back", "[load]")
{
    Folder folder;
    const auto store = folder.fresh();
    const std::vector<std::string> names{"'); DROP TABLE customer;--",
                                         "<script>alert(1)</script>",
                                         "=HYPERLINK(\"http://example.com\",\"pay\")",
                                         "@SUM(A1)",
                                         "+1",
                                         "-2+3",
                                         "'=quoted",
                                         "Fir \"Tree\" Bros, Ltd",
                                         "&amp;",
                                         "\\/",
                                         " a space before",
                                         "a space behind "};
    Edit edit{"Names"};
    for (const auto& name : names) {
        Customer customer;
        customer.name = name;
        customer.note = name + "\nand so on";
        const auto id = edit.add(customer);
        Job job;
        job.title = name;
        job.customer = id;
        job.openedOn = *Date::of(2026, 5, 4);
        edit.add(job);
    }
    REQUIRE(store->commit(std::move(edit)).done());
    // What a spreadsheet would run is led by an apostrophe, also where the name stands as a reference.
    CHECK_THAT(dumpCsv(store->book(), RecordKind::job), Catch::Contains("\"'=HYPERLINK(\"\"http"));
    const auto other = folder.fresh("other.strikeoff");
    for (const auto kind : {RecordKind::customer, RecordKind::job}) loaded(*other, kind, dumpCsv(store->book(), kind));
    for (std::size_t i = 0; i < names.size(); ++i) {
        const auto& job = other->book().all<Job>()[i];
        CHECK(job.title == names[i]);
        CHECK(other->book().get(job.customer).name == names[i]);
    }
    CHECK(dumpOf(other->book()) == dumpOf(store->book()));
}

TEST_CASE("any book dumps and loads to itself", "[load][property]")
{
    std::map<RecordKind, std::size_t> rows;
    for (unsigned seed = 1; seed <= 6; ++seed) {
        Folder folder;
        const auto store = folder.fresh();
        AnyBook{*store, seed}.fill(60);
        const auto dump = dumpOf(store->book());
        const auto other = folder.fresh("other.strikeoff");
        for (const auto& kind : allKinds()) {
            const auto result = loadCsv(*other, kind.kind, "rows.csv", dump.at(kind.kind));
            INFO("seed " << seed << ", " << kind.name << '\n'
                         << result.faultText("rows.csv", 5) << dump.at(kind.kind).substr(0, 2000));
            REQUIRE(result.done());
            REQUIRE(dumpCsv(other->book(), kind.kind) == dump.at(kind.kind));
            rows[kind.kind] += store->book().count(kind.kind);
        }
        CHECK(dumpOf(other->book()) == dump);
        // Loaded once more, nothing differs.
        for (const auto& kind : allKinds()) {
            const auto again = loadCsv(*other, kind.kind, "rows.csv", dump.at(kind.kind));
            INFO(kind.name << '\n' << again.faultText("rows.csv", 5));
            CHECK(again.done());
            CHECK(again.added + again.changed == 0);
        }
    }
    for (const auto& kind : allKinds()) {
        INFO(kind.name);
        CHECK(rows[kind.kind] > 0);
    }
}
