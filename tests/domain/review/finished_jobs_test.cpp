#include "review/what_pays.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

/// A job from lead to last payment: 400 ft², one pour of five yards, ten hours, $2,000 billed.
struct Yard {
    BookMaker maker;
    Id<JobType> patio = maker.add(JobType{.name = "Patio"});
    Id<CrewMember> ada = maker.add(CrewMember{.name = "Ada"});
    Id<Supplier> supplier = maker.add(Supplier{.name = "Northgate"});

    Yard()
    {
        maker.add(PayRate{.person = ada, .fromDate = on("2026-01-01"), .hourlyRate = each("30")});
        maker.add(SheetCharge{.supplier = supplier, .effectiveOn = on("2026-01-01"), .charge = ChargeKind::mix, .code = "4000", .amount = each("160")});
    }
    Id<Job> quoted(const std::string& title)
    {
        const auto customer = maker.add(Customer{.name = "Customer of " + title, .town = "Millbrook"});
        const auto lead = maker.add(Lead{.number = "L" + std::to_string(maker.book.all<Lead>().size() + 1), .receivedOn = on("2026-03-01"), .name = title, .source = LeadSource::yardSign, .customer = customer});
        const auto job = maker.job(title, customer);
        maker.change(job, [&](Job& one) {
            one.jobType = patio;
            one.lead = lead;
        });
        return job;
    }
    void won(Id<Job> job, const std::string& number)
    {
        const auto quote = maker.acceptedQuote(job, number);
        maker.quoteLine(quote, CostClass::labor, "600", "900");
        maker.quoteLine(quote, CostClass::concrete, "700", "1100");
    }
    void worked(Id<Job> job, bool withHours = true)
    {
        maker.add(Pour{.job = job, .plannedOn = on("2026-04-10"), .pouredOn = on("2026-04-10"), .area = Area::ofWhole(400), .crewSize = 3});
        maker.add(Ticket{.supplier = supplier, .number = "T" + std::to_string(maker.book.all<Ticket>().size() + 1), .date = on("2026-04-10"), .mix = "4000", .yards = Yards::ofWhole(5), .job = job});
        if (withHours) maker.add(Hours{.person = ada, .date = on("2026-04-10"), .job = job, .phase = Phase::place, .minutes = Minutes::of(600)});
    }
    void billed(Id<Job> job, const std::string& number)
    {
        const auto invoice = maker.invoice(job, number, InvoiceKind::final, "2026-04-15", "2026-04-29");
        maker.invoiceLine(invoice, "2000", false);
        maker.paid(invoice, "2026-05-01", "2000");
    }
    FinishedJobs gathered()
    {
        CostReckoner reckoner{maker.book};
        return finishedJobs(reckoner, on("2026-11-25"));
    }
};

std::string whyOf(const FinishedJobs& jobs, Id<Job> job)
{
    for (const auto& left : jobs.leftOut)
        if (left.job->id == job) return left.why;
    return {};
}

}

TEST_CASE("a finished job carries its figures and what it can be grouped by", "[review]")
{
    Yard yard;
    const auto job = yard.quoted("Birch patio");
    yard.won(job, "Q1");
    yard.worked(job);
    yard.billed(job, "I1");
    yard.maker.add(Hours{.person = yard.ada, .date = on("2026-06-10"), .job = job, .phase = Phase::rework, .minutes = Minutes::of(120)});
    const auto jobs = yard.gathered();
    REQUIRE(jobs.jobs.size() == 1);
    const auto& found = jobs.jobs[0];
    CHECK(found.revenue == usd("2000"));
    CHECK(found.cost == usd("1160"));  // 12 h × $30 and 5 yd³ × $160
    CHECK(found.grossProfit() == usd("840"));
    CHECK(found.areaSqft == 400);
    CHECK(found.crewMinutes == Minutes::of(720));
    CHECK(found.day == on("2026-04-10"));
    CHECK(found.daysToPaid == 61);  // 1 March to 1 May
    CHECK(found.calledBack);
    const auto name = [&](Grouping by) { return jobs.names[static_cast<std::size_t>(by)][found.keys[static_cast<std::size_t>(by)]]; };
    CHECK(name(Grouping::jobType) == "Patio");
    CHECK(name(Grouping::leadSource) == "Yard sign");
    CHECK(name(Grouping::sizeBand) == "200\u2013500 ft\u00b2");
    CHECK(name(Grouping::season) == "Spring");
    CHECK(name(Grouping::supplier) == "Northgate");
    CHECK(name(Grouping::crewSize) == "three people");
    CHECK(name(Grouping::town) == "Millbrook");
    Money missed;
    for (const auto& part : jobs.missed) missed += part.amount;
    CHECK(missed == found.cost - found.bidCost);
    CHECK(jobs.quotes.size() == 1);
}

TEST_CASE("jobs left out are told with why", "[review]")
{
    Yard yard;
    const auto open = yard.quoted("Open");
    yard.won(open, "Q1");
    const auto idle = yard.quoted("No hours");
    yard.won(idle, "Q2");
    yard.worked(idle, false);
    yard.billed(idle, "I2");
    const auto handshake = yard.quoted("No bid");
    yard.worked(handshake);
    yard.billed(handshake, "I3");
    const auto unpaid = yard.quoted("Closed without a bill");
    yard.won(unpaid, "Q4");
    yard.worked(unpaid);
    yard.maker.change(unpaid, [](Job& one) { one.closedOn = on("2026-06-01"); });
    const auto jobs = yard.gathered();
    CHECK(jobs.jobs.empty());
    CHECK(jobs.leftOut.size() == 4);
    CHECK(whyOf(jobs, open) == "still open: awarded");
    CHECK(whyOf(jobs, idle) == "no hours");
    CHECK(whyOf(jobs, handshake) == "no bid");
    CHECK(whyOf(jobs, unpaid) == "nothing billed");
    CHECK(jobs.others.size() == 2);
    CHECK(whatPays(jobs, Grouping::jobType).answer == "No finished job has hours, a bid and a bill yet; four jobs are left out.");
}

TEST_CASE("a lost quote counts against the win rate of its type", "[review]")
{
    Yard yard;
    const auto job = yard.quoted("Won");
    yard.won(job, "Q1");
    yard.worked(job);
    yard.billed(job, "I1");
    const auto lost = yard.quoted("Lost");
    const auto quote = yard.maker.add(Quote{.number = "Q2", .job = lost, .draftedOn = on("2026-03-03"), .sentOn = on("2026-03-04"), .declinedOn = on("2026-03-20")});
    yard.maker.quoteLine(quote, CostClass::labor, "600", "900");
    const auto review = whatPays(yard.gathered(), Grouping::jobType);
    REQUIRE(review.groups.size() == 1);
    CHECK(review.groups[0].quotesWon == 1);
    CHECK(review.groups[0].quotesLost == 1);
    CHECK(review.groups[0].winRate() == Rate::ofWhole(50));
}
