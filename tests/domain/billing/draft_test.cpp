#include "billing/billing.h"
#include "job/stage.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

/// Puts a draft on the books as an issued invoice.
Id<Invoice> issue(BookMaker& maker, InvoiceDraft draft, const std::string& number)
{
    draft.invoice.number = number;
    draft.invoice.issuedOn = draft.invoice.draftedOn;
    const auto id = maker.add(draft.invoice);
    for (auto line : draft.lines) {
        line.invoice = id;
        maker.add(line);
    }
    return id;
}

Money totalOfDraft(const InvoiceDraft& draft)
{
    Money sum;
    for (const auto& line : draft.lines) sum += line.amount();
    return sum;
}

struct Won {
    BookMaker maker;
    Id<Job> job = maker.job("Alder Court driveway");
    Id<Quote> quote = maker.add(Quote{.number = "Q1012",
                                      .job = job,
                                      .draftedOn = on("2026-03-03"),
                                      .sentOn = on("2026-03-04"),
                                      .acceptedOn = on("2026-03-10"),
                                      .taxRate = percent("6"),
                                      .deposit = percent("30")});
    Won()
    {
        maker.quoteLine(quote, CostClass::concrete, "700", "1000");
        maker.quoteLine(quote, CostClass::labor, "900", "1501.01", false);
    }
    const Job& row() const { return maker.book.get(job); }
};

}

TEST_CASE("the deposit invoice comes to the deposit the quote names, tax included", "[billing]")
{
    Won won;
    const auto draft = draftInvoice(won.maker.book, won.row(), InvoiceKind::deposit, on("2026-03-11"));
    REQUIRE(draft);
    CHECK(draft->invoice.heading == "Deposit: Alder Court driveway");
    CHECK(draft->invoice.dueOn == on("2026-03-25"));  // 14 days by the settings' default
    REQUIRE(draft->lines.size() == 2);
    CHECK(draft->lines[0].description == "Deposit of 30 % on quote Q1012, due on acceptance, with sales tax");
    CHECK(draft->lines[0].amount() == usd("300"));
    CHECK(draft->lines[1].description == "Deposit of 30 % on quote Q1012, due on acceptance, without sales tax");
    CHECK(draft->lines[1].amount() == usd("450.30"));  // 30 % of 2501.01 = 750.303, less 300
    const auto id = issue(won.maker, *draft, "I1001");
    CHECK(totalOf(won.maker.book, won.maker.book.get(id)).total == totalOf(won.maker.book, won.maker.book.get(won.quote)).deposit);
    CHECK_FALSE(draftInvoice(won.maker.book, won.row(), InvoiceKind::deposit, on("2026-03-12")));  // once
}

TEST_CASE("the final invoice bills what was bid and changed, less what was billed", "[billing]")
{
    Won won;
    const auto deposit =
        issue(won.maker, *draftInvoice(won.maker.book, won.row(), InvoiceKind::deposit, on("2026-03-11")), "I1001");
    won.maker.add(ChangeOrder{.job = won.job,
                              .number = 1,
                              .askedOn = on("2026-03-20"),
                              .description = "Apron 2 ft wider",
                              .cost = usd("150"),
                              .price = usd("240"),
                              .acceptedOn = on("2026-03-20")});
    won.maker.add(ChangeOrder{.job = won.job,
                              .number = 2,
                              .askedOn = on("2026-03-21"),
                              .description = "Colour",
                              .cost = usd("90"),
                              .price = usd("160")}); // never signed

    const auto draft = draftInvoice(won.maker.book, won.row(), InvoiceKind::final, on("2026-04-02"));
    REQUIRE(draft);
    REQUIRE(draft->lines.size() == 5);
    CHECK(draft->lines[0].description == "Alder Court driveway as quoted, quote Q1012 of Mar 4, 2026, with sales tax");
    CHECK(draft->lines[2].description == "Change order 1: Apron 2 ft wider");
    CHECK(draft->lines[3].description == "Less deposit billed on invoice I1001, Mar 11, 2026, with sales tax");
    CHECK(draft->lines[3].amount() == usd("-300"));
    CHECK(totalOfDraft(*draft) == usd("1990.71"));  // 2501.01 + 240 − 750.30

    const auto final = issue(won.maker, *draft, "I1002");
    CHECK(billingOf(won.maker.book, won.job).net == usd("2741.01"));
    CHECK(billingOf(won.maker.book, won.job).inFull);
    CHECK(totalOf(won.maker.book, won.maker.book.get(final)).tax + totalOf(won.maker.book, won.maker.book.get(deposit)).tax ==
          usd("74.40")); // 6 % of 1240
    CHECK_FALSE(draftInvoice(won.maker.book, won.row(), InvoiceKind::final, on("2026-04-03")));

    // An extra signed after the final invoice is billed alone, and a credit on the final one is a reduction that stays.
    won.maker.add(
        Credit{.number = "C1001", .invoice = final, .issuedOn = on("2026-04-10"), .amount = usd("100"), .reason = "goodwill"});
    won.maker.add(ChangeOrder{.job = won.job,
                              .number = 3,
                              .askedOn = on("2026-04-12"),
                              .description = "Stoop",
                              .cost = usd("90"),
                              .price = usd("175"),
                              .acceptedOn = on("2026-04-12")});
    CHECK_FALSE(billingOf(won.maker.book, won.job).inFull);
    const auto extra = draftInvoice(won.maker.book, won.row(), InvoiceKind::final, on("2026-04-15"));
    REQUIRE(extra);
    CHECK(extra->lines.size() == 1);
    CHECK(totalOfDraft(*extra) == usd("175"));
}

TEST_CASE("a deposit that was credited in part is billed again with the final invoice", "[billing]")
{
    Won won;
    const auto deposit =
        issue(won.maker, *draftInvoice(won.maker.book, won.row(), InvoiceKind::deposit, on("2026-03-11")), "I1001");
    const auto whole = totalOf(won.maker.book, won.maker.book.get(deposit));
    CHECK(whole.total == usd("768.30"));  // 750.30 and 6 % of 300
    won.maker.add(Credit{
        .number = "C1001", .invoice = deposit, .issuedOn = on("2026-03-12"), .amount = usd("384.15"), .reason = "half was agreed"});
    CHECK(totalOfDraft(*draftInvoice(won.maker.book, won.row(), InvoiceKind::final, on("2026-04-02"))) ==
          usd("2125.86")); // 2501.01 − 150.00 − 225.15
}

TEST_CASE("nothing is drafted without an accepted quote", "[billing]")
{
    BookMaker maker;
    const auto job = maker.job("Stoop");
    maker.quoteLine(maker.quote(job, "Q1001"), CostClass::concrete, "10", "20");
    for (const auto kind : {InvoiceKind::deposit, InvoiceKind::progress, InvoiceKind::final, InvoiceKind::retainage})
        CHECK_FALSE(draftInvoice(maker.book, maker.book.get(job), kind, on("2026-04-02")));
}

TEST_CASE("a progress invoice bills the share of the pours that are poured", "[billing]")
{
    Won won;
    won.maker.add(Pour{.job = won.job, .sequence = 1, .pouredOn = on("2026-04-01")});
    won.maker.add(Pour{.job = won.job, .sequence = 2, .plannedOn = on("2026-04-09")});
    won.maker.add(Pour{.job = won.job, .sequence = 3});
    const auto draft = draftInvoice(won.maker.book, won.row(), InvoiceKind::progress, on("2026-04-02"));
    REQUIRE(draft);
    CHECK(draft->lines[0].description == "Alder Court driveway, one of three pours placed, quote Q1012, with sales tax");
    CHECK(totalOfDraft(*draft) == usd("833.67"));  // 1000 / 3 = 333.33 and 1501.01 / 3 = 500.34
}

TEST_CASE("a draft goes on holding back what the last draw held back", "[billing]")
{
    Won won;
    auto first = draftInvoice(won.maker.book, won.row(), InvoiceKind::final, on("2026-04-02"));
    REQUIRE(first);
    CHECK(first->invoice.retainage == Rate{});
    first->invoice.kind = InvoiceKind::progress;
    first->invoice.retainage = percent("10");
    first->lines.pop_back();  // the line with sales tax alone
    issue(won.maker, *first, "I1001");
    const auto next = draftInvoice(won.maker.book, won.row(), InvoiceKind::final, on("2026-04-20"));
    REQUIRE(next);
    CHECK(next->invoice.retainage == percent("10"));
    CHECK(totalOfDraft(*next) == usd("1501.01"));
}

TEST_CASE("terms and exemption of the customer go on the draft", "[billing]")
{
    Won won;
    won.maker.change(won.row().customer, [](Customer& row) {
        row.termsDays = 30;
        row.taxExempt = true;
    });
    const auto draft = draftInvoice(won.maker.book, won.row(), InvoiceKind::final, on("2026-04-02"));
    REQUIRE(draft);
    CHECK(draft->invoice.dueOn == on("2026-05-02"));
    CHECK(draft->invoice.taxRate == Rate{});
}
