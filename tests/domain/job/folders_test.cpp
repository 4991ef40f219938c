#include "job/stage.h"

#include "domain/book_maker.h"

#include <algorithm>

using namespace strikeoff;

namespace {

std::vector<std::string> titlesUnder(const Book& book, std::string_view sentence)
{
    const auto filters = folderFilters();
    const auto filter =
        std::find_if(filters.begin(), filters.end(), [&](const FolderFilter& one) { return one.sentence == sentence; });
    REQUIRE(filter != filters.end());
    std::vector<std::string> titles;
    for (const auto& folder : jobFolders(book))
        if (filter->meets(book, folder)) titles.push_back(folder.title);
    return titles;
}

using Titles = std::vector<std::string>;

}

TEST_CASE("a folder carries what the list shows", "[job]")
{
    BookMaker maker;
    const auto customer = maker.add(Customer{.name = "Hollis Farm", .town = "Orrin"});
    const auto job = maker.job("Barn apron", customer);
    maker.change(job, [&](Job& row) {
        row.jobType = maker.add(JobType{.name = "apron"});
        row.site = maker.add(Site{.name = "Low barn", .customer = customer, .town = "Tallis"});
    });
    const auto quote = maker.acceptedQuote(job, "Q1001");
    maker.quoteLine(quote, CostClass::concrete, "700", "1000");
    maker.add(TakeoffSection{.job = job,
                             .name = "slab",
                             .length = TapeLength::ofFeet(40),
                             .width = TapeLength::ofFeet(10),
                             .thickness = TapeLength::ofInches(4)});

    auto folders = jobFolders(maker.book);
    REQUIRE(folders.size() == 1);
    CHECK(folders[0].number == "1001");
    CHECK(folders[0].customer == "Hollis Farm");
    CHECK(folders[0].town == "Tallis");
    CHECK(folders[0].type == "apron");
    CHECK(folders[0].stage == Stage::awarded);
    CHECK(folders[0].areaSqft == Approx(400));
    CHECK(folders[0].bid == usd("1000"));
    CHECK(folders[0].result == std::nullopt);  // nothing spent yet
    CHECK(folders[0].nextThing == "set a pour date");

    maker.add(Receipt{.number = "R1", .date = on("2026-03-20"), .job = job, .costClass = CostClass::forms, .amount = usd("120")});
    folders = jobFolders(maker.book);
    CHECK(folders[0].result == usd("880"));
}

TEST_CASE("a job nobody measured takes its area from what was poured", "[job]")
{
    BookMaker maker;
    const auto job = maker.job("Walk");
    CHECK(jobFolders(maker.book)[0].areaSqft == 0);
    maker.add(Pour{.job = job, .sequence = 1, .pouredOn = on("2026-03-26"), .area = Area::ofWhole(120)});
    maker.add(Pour{.job = job, .sequence = 2, .pouredOn = on("2026-03-27"), .area = Area::ofWhole(80)});
    CHECK(jobFolders(maker.book)[0].areaSqft == Approx(200));
}

TEST_CASE("sentences narrow the list", "[job]")
{
    BookMaker maker;
    maker.job("Asked");
    const auto won = maker.job("Won");
    maker.acceptedQuote(won, "Q1001");
    const auto poured = maker.job("Poured");
    maker.add(Pour{.job = poured, .pouredOn = on("2026-03-26")});
    const auto billed = maker.job("Billed");
    const auto pour = maker.add(Pour{.job = billed, .pouredOn = on("2026-03-26")});
    maker.add(Ticket{.supplier = maker.add(Supplier{.name = "Northgate"}),
                     .number = "7",
                     .date = on("2026-03-26"),
                     .yards = Yards::ofWhole(5),
                     .pour = pour});
    const auto invoice = maker.invoice(billed, "I1001", InvoiceKind::final, "2026-04-01", "2026-04-15");
    maker.invoiceLine(invoice, "100");
    maker.add(Receipt{.number = "R1", .date = on("2026-03-20"), .job = billed, .amount = usd("120")});
    const auto lost = maker.job("Lost");
    maker.change(lost, [](Job& row) { row.droppedOn = on("2026-03-20"); });

    CHECK(titlesUnder(maker.book, "open") == Titles{"Asked", "Won", "Poured", "Billed"});
    CHECK(titlesUnder(maker.book, "asked, not quoted yet") == Titles{"Asked"});
    CHECK(titlesUnder(maker.book, "won, no pour date") == Titles{"Won"});
    CHECK(titlesUnder(maker.book, "poured, not billed") == Titles{"Poured"});
    CHECK(titlesUnder(maker.book, "poured, no tickets") == Titles{"Poured"});
    CHECK(titlesUnder(maker.book, "billed, not paid") == Titles{"Billed"});
    CHECK(titlesUnder(maker.book, "losing money") == Titles{"Billed"});
    CHECK(titlesUnder(maker.book, "declined or dropped") == Titles{"Lost"});
    CHECK(titlesUnder(maker.book, "quoted, no answer").empty());
    CHECK(jobFoldersAnswer(maker.book) == "Four jobs are open: one not quoted yet, one won without a pour date, one poured and not "
                                          "billed and one billed and not paid.");
}

TEST_CASE("the answer of the job folders when nothing is open", "[job]")
{
    BookMaker maker;
    CHECK(jobFoldersAnswer(maker.book) == "No job folder yet: open one for the next call that comes in.");
    maker.change(maker.job("Done"), [](Job& row) { row.closedOn = on("2026-05-01"); });
    CHECK(jobFoldersAnswer(maker.book) == "No job is open; one job is done or lost.");
}
