#include "domain/book_maker.h"

#include "review/leads_to_paid.h"

using namespace strikeoff;

namespace {

struct Leads : BookMaker {
    int leads = 0;

    Id<Lead> lead(std::string_view received)
    {
        return add(Lead{.number = "L" + std::to_string(101 + leads++), .receivedOn = on(received), .name = "Somebody"});
    }
    Id<Job> jobOf(Id<Lead> lead)
    {
        const auto made = job("Patio " + std::to_string(leads));
        change(made, [&](Job& job) { job.lead = lead; });
        return made;
    }
    /// From asking to paid: 2 days to the quote, 6 to yes, 15 to the pour, 3 to the bill, 20 to the money.
    Id<Job> paidJob()
    {
        const auto job = jobOf(lead("2026-03-02"));
        acceptedQuote(job, "Q" + std::to_string(1000 + leads));  // sent on the 4th, accepted on the 10th
        add(Pour{.job = job, .pouredOn = on("2026-03-25")});
        const auto bill = invoice(job, "I" + std::to_string(1000 + leads), InvoiceKind::final, "2026-03-28", "2026-04-27");
        invoiceLine(bill, "1000", false);
        paid(bill, "2026-04-17", "1000");
        return job;
    }
    LeadsToPaid at(std::string_view today) const { return leadsToPaid(book, SeasonScope{on(today), {}, {}, {}}); }
};

const LeadStepSum& step(const LeadsToPaid& leads, LeadStep step) { return leads.steps[static_cast<std::size_t>(step)]; }

}

TEST_CASE("a lead is followed from asking to the last payment, with the days each step took", "[review]")
{
    Leads made;
    made.paidJob();
    const auto leads = made.at("2026-06-01");
    for (const auto& each : leads.steps) CHECK(each.reached == 1);
    CHECK(step(leads, LeadStep::quoted).days == 2.0);
    CHECK(step(leads, LeadStep::won).days == 6.0);
    CHECK(step(leads, LeadStep::poured).days == 15.0);
    CHECK(step(leads, LeadStep::billed).days == 3.0);
    CHECK(step(leads, LeadStep::paid).days == 20.0);
    CHECK(leads.days == 46.0);
    CHECK(leads.answer == "Of one lead, one was quoted, one won and one paid; from asking to the last payment it takes 46 days.");
}

TEST_CASE("what is lost is told apart from what may still come", "[review]")
{
    Leads made;
    made.paidJob();
    const auto gone = made.lead("2026-03-05");
    made.change(gone, [](Lead& lead) {
        lead.lostOn = on("2026-03-09");
        lead.lostReason = "too far";
    });
    made.lead("2026-03-06");
    const auto waiting = made.jobOf(made.lead("2026-03-07"));
    made.add(Quote{.number = "Q900", .job = waiting, .draftedOn = on("2026-03-08"), .sentOn = on("2026-03-11")});
    const auto declined = made.jobOf(made.lead("2026-03-07"));
    made.add(Quote{.number = "Q901", .job = declined, .draftedOn = on("2026-03-08"), .sentOn = on("2026-03-09"), .declinedOn = on("2026-03-20"), .declinedReason = "price"});
    const auto leads = made.at("2026-06-01");
    CHECK(step(leads, LeadStep::asked).reached == 5);
    CHECK(step(leads, LeadStep::asked).lost == 1);
    CHECK(step(leads, LeadStep::asked).open == 1);
    CHECK(step(leads, LeadStep::quoted).reached == 3);
    CHECK(step(leads, LeadStep::quoted).lost == 1);
    CHECK(step(leads, LeadStep::quoted).open == 1);
    CHECK(step(leads, LeadStep::won).reached == 1);
    // Every lead is somewhere: reached = gone on + open + lost.
    for (std::size_t i = 0; i + 1 < leadStepCount; ++i) CHECK(leads.steps[i].reached == leads.steps[i + 1].reached + leads.steps[i].open + leads.steps[i].lost);
    CHECK(step(leads, LeadStep::quoted).days == 2.0);  // of 2, 4 and 2 days
}

TEST_CASE("a bill that is not paid in full is not paid, and what comes after today has not happened", "[review]")
{
    Leads made;
    const auto job = made.paidJob();
    CHECK(step(made.at("2026-04-01"), LeadStep::billed).reached == 1);
    CHECK(step(made.at("2026-04-01"), LeadStep::paid).reached == 0);
    CHECK(step(made.at("2026-03-12"), LeadStep::won).reached == 1);
    CHECK(step(made.at("2026-03-12"), LeadStep::poured).reached == 0);
    CHECK(made.at("2026-03-01").answer == "No lead came in within these days.");
    const auto more = made.invoice(job, "I2000", InvoiceKind::final, "2026-04-20", "2026-05-20");
    made.invoiceLine(more, "50", false);
    CHECK(step(made.at("2026-06-01"), LeadStep::paid).reached == 0);
}

TEST_CASE("leads are counted by the days and the job type asked for", "[review]")
{
    Leads made;
    const auto job = made.paidJob();
    const auto type = made.add(JobType{.name = "Patio"});
    made.change(job, [&](Job& is) { is.jobType = type; });
    made.lead("2025-06-01");
    CHECK(made.at("2026-06-01").steps[0].reached == 2);
    CHECK(leadsToPaid(made.book, {on("2026-06-01"), on("2026-01-01"), {}, {}}).steps[0].reached == 1);
    CHECK(leadsToPaid(made.book, {on("2026-06-01"), {}, on("2025-12-31"), {}}).steps[0].reached == 1);
    CHECK(leadsToPaid(made.book, {on("2026-06-01"), {}, {}, type}).steps[5].reached == 1);
    CHECK(leadsToPaid(made.book, {on("2026-06-01"), {}, {}, type}).steps[0].reached == 1);
}
