#include "cost/job_cost.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

/// A job bid at a cost of 1,000 and a price of 1,500, with what it really cost.
Id<Job> bidJob(BookMaker& maker, const std::string& title, std::string_view spent)
{
    const auto job = maker.job(title);
    const auto quote = maker.acceptedQuote(job, "Q" + maker.book.get(job).number);
    maker.quoteLine(quote, CostClass::concrete, "1000", "1500");
    maker.add(Receipt{.number = "R" + maker.book.get(job).number,
                      .date = on("2026-03-25"),
                      .job = job,
                      .costClass = CostClass::concrete,
                      .amount = usd(spent)});
    return job;
}

void bill(BookMaker& maker, Id<Job> job)
{
    maker.add(Pour{.job = job, .pouredOn = on("2026-03-26")});
    maker.invoiceLine(maker.invoice(job, "I" + maker.book.get(job).number, InvoiceKind::final, "2026-04-01", "2026-04-15"), "1500");
}

}

TEST_CASE("the report of all jobs leaves out empty folders and says how the finished ones came out", "[cost]")
{
    BookMaker maker;
    CHECK(costReport(maker.book).answer == "No job has a bid or a cost yet: write a quote, or enter tickets, hours or receipts.");
    maker.job("Only asked");
    bidJob(maker, "Running", "250");
    CHECK(costReport(maker.book).answer ==
          "No job with a bid is finished yet; one won job is open, $250.00 spent so far of $1,000.00 bid.");
    bill(maker, bidJob(maker, "Good", "900"));
    CHECK(costReport(maker.book).answer == "The one finished job cost $100.00 less than bid and made $600.00; one won job is open, "
                                           "$250.00 spent so far of $1,000.00 bid.");
    bill(maker, bidJob(maker, "Bad", "1730.50"));

    const auto report = costReport(maker.book);
    REQUIRE(report.jobs.size() == 3);
    CHECK(report.jobs[0].job->title == "Running");
    CHECK(report.answer == "One of two finished jobs cost no more than was bid; together they cost $630.50 more than bid and made "
                           "$369.50; one won job is open, "
                           "$250.00 spent so far of $1,000.00 bid.");
}

TEST_CASE("the report of one job", "[cost]")
{
    BookMaker maker;
    const auto job = bidJob(maker, "Good", "900");
    CHECK(costReport(maker.book, job).answer == "Job 1001 cost $900.00 so far against $1,000.00 bid; $100.00 is left.");
    bill(maker, job);
    CHECK(costReport(maker.book, job).answer ==
          "Job 1001 cost $900.00 against $1,000.00 bid, $100.00 less than bid; it made $600.00.");
    CHECK(costReport(maker.book, job).jobs.size() == 1);

    const auto unbid = maker.job("Handshake");
    maker.add(Ticket{.supplier = maker.add(Supplier{.name = "Northgate"}),
                     .number = "7",
                     .date = on("2026-03-26"),
                     .yards = Yards::ofWhole(5),
                     .job = unbid});
    const auto person = maker.add(CrewMember{.name = "Ada"});
    maker.add(Hours{.person = person, .date = on("2026-03-26"), .job = unbid, .minutes = Minutes::of(390)});
    CHECK(costReport(maker.book, unbid).answer ==
          "Job 1002 cost $0.00 so far and has no bid; one ticket without a price and 6:30 h without a pay rate are not counted.");
    CHECK(costReport(maker.book, Id<Job>{99}).jobs.empty());
}
