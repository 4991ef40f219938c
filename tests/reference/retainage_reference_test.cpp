#include "billing/billing.h"
#include "job/stage.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

Id<Invoice> draw(BookMaker& maker, Id<Job> job, const std::string& number, InvoiceKind kind, std::string_view amount)
{
    const auto id = maker.add(Invoice{.number = number,
                                      .job = job,
                                      .kind = kind,
                                      .draftedOn = on("2026-05-01"),
                                      .issuedOn = on("2026-05-01"),
                                      .dueOn = on("2026-05-31"),
                                      .retainage = percent("10")});
    maker.invoiceLine(id, amount);
    return id;
}

}

TEST_CASE("RT-01 and RT-02 retainage held from two draws and released at the end", "[reference][retainage]")
{
    // Source: FAR 52.232-5(e) allows at most 10 % of a payment to be held; the draws of $50,000 and $30,000 are our own.
    BookMaker maker;
    const auto job = maker.job("Warehouse slab");
    const auto first = draw(maker, job, "I1001", InvoiceKind::progress, "50000");
    const auto second = draw(maker, job, "I1002", InvoiceKind::final, "30000");
    CHECK(totalOf(maker.book, maker.book.get(first)).retained == usd("5000"));
    CHECK(totalOf(maker.book, maker.book.get(first)).payable == usd("45000"));
    CHECK(totalOf(maker.book, maker.book.get(second)).payable == usd("27000"));
    CHECK(billingOf(maker.book, job).retainageHeld == usd("8000"));

    auto release = draftInvoice(maker.book, maker.book.get(job), InvoiceKind::retainage, on("2026-07-01"));
    REQUIRE(release);
    release->invoice.number = "I1003";
    release->invoice.issuedOn = on("2026-07-01");
    const auto last = maker.add(release->invoice);
    for (auto line : release->lines) {
        line.invoice = last;
        maker.add(line);
    }
    const auto payable = [&](Id<Invoice> id) { return totalOf(maker.book, maker.book.get(id)).payable; };
    CHECK(payable(last) == usd("8000"));
    CHECK(payable(first) + payable(second) + payable(last) == usd("80000"));
    CHECK(billingOf(maker.book, job).net == usd("80000"));
    CHECK(billingOf(maker.book, job).retainageHeld == Money{});
    CHECK_FALSE(draftInvoice(maker.book, maker.book.get(job), InvoiceKind::retainage, on("2026-07-02")));
}

TEST_CASE("retainage is on the work, not on the sales tax", "[reference][retainage]")
{
    // Common practice, no source: the tax on a draw is owed to the state when it is billed, so none of it is held, and a release is not taxed again.
    BookMaker maker;
    const auto job = maker.job("Warehouse slab");
    const auto id = draw(maker, job, "I1001", InvoiceKind::progress, "10000");
    maker.change(id, [](Invoice& row) { row.taxRate = percent("6"); });
    const auto total = totalOf(maker.book, maker.book.get(id));
    CHECK(total.tax == usd("600"));
    CHECK(total.retained == usd("1000"));
    CHECK(total.payable == usd("9600"));
    const auto release = draftInvoice(maker.book, maker.book.get(job), InvoiceKind::retainage, on("2026-07-01"));
    REQUIRE(release);
    REQUIRE(release->lines.size() == 1);
    CHECK(release->lines[0].amount() == usd("1000"));
    CHECK_FALSE(release->lines[0].taxable);
    CHECK(release->invoice.taxRate == Rate{});
}
