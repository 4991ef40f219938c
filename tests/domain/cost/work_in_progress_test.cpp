#include "cost/work_in_progress.h"

#include "billing/billing.h"
#include "domain/cost/story.h"

using namespace strikeoff;

TEST_CASE("what a credit took back of an invoice is no longer billed, from its day on", "[work in progress]")
{
    Story story;
    story.carried(CostClass::concrete, "4000 psi", "10", "yd\u00b3", "100");
    story.receipt(CostClass::base, "250");
    auto& maker = story.maker;
    const auto invoice = maker.add(Invoice{.number = "I1", .job = story.job, .kind = InvoiceKind::progress, .draftedOn = on("2026-03-21"), .issuedOn = on("2026-03-21"), .dueOn = on("2026-04-20")});
    maker.add(InvoiceLine{.invoice = invoice, .description = "work", .unitPrice = UnitPrice::ofWhole(600), .taxable = false});
    maker.add(Credit{.number = "C1", .invoice = invoice, .issuedOn = on("2026-03-25"), .amount = usd("150"), .reason = "short of the walk"});

    const auto billedOn = [&](std::string_view day) {
        CostReckoner reckoner{maker.book};
        const auto work = workInProgress(reckoner, on(day));
        return work.jobs.empty() ? std::optional<Money>{} : std::optional{work.jobs.front().part.billed};
    };
    CHECK(billedOn("2026-03-24") == usd("600"));
    CHECK(billedOn("2026-03-25") == usd("450"));
    // The same figure that the job's folder has.
    CHECK(billingOf(maker.book, story.job).net == usd("450"));
}

TEST_CASE("a credit on a final invoice came off the price, and leaves nothing to bill", "[work in progress]")
{
    Story story;
    story.carried(CostClass::concrete, "4000 psi", "10", "yd\u00b3", "100");
    story.receipt(CostClass::base, "250");
    auto& maker = story.maker;
    const auto invoice = maker.add(Invoice{.number = "I1", .job = story.job, .kind = InvoiceKind::final, .draftedOn = on("2026-03-21"), .issuedOn = on("2026-03-21"), .dueOn = on("2026-04-20")});
    maker.add(InvoiceLine{.invoice = invoice, .description = "work", .unitPrice = UnitPrice::ofWhole(1000), .taxable = false});
    maker.add(Credit{.number = "C1", .invoice = invoice, .issuedOn = on("2026-03-25"), .amount = usd("150"), .reason = "a chipped edge"});
    maker.change(story.job, [](Job& job) { job.closedOn = on("2026-03-30"); });
    CostReckoner reckoner{maker.book};
    CHECK(workInProgress(reckoner, on("2026-12-31")).jobs.empty());

    // An extra agreed on afterwards and not billed is the owner's to bill.
    maker.add(ChangeOrder{.job = story.job, .number = 1, .askedOn = on("2026-04-02"), .description = "a step", .cost = usd("80"), .price = usd("120"), .acceptedOn = on("2026-04-02")});
    CostReckoner after{maker.book};
    CHECK(workInProgress(after, on("2026-04-01")).jobs.empty());
    CHECK_FALSE(workInProgress(after, on("2026-12-31")).jobs.empty());
}
