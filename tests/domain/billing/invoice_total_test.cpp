#include "billing/billing.h"

#include "domain/book_maker.h"

using namespace strikeoff;

TEST_CASE("an invoice adds up its lines, taxes what is taxable and holds back retainage", "[billing]")
{
    BookMaker maker;
    const auto id = maker.add(Invoice{.number = "I1001",
                                      .job = maker.job("Driveway"),
                                      .draftedOn = on("2026-04-01"),
                                      .issuedOn = on("2026-04-02"),
                                      .dueOn = on("2026-04-16"),
                                      .taxRate = percent("8"),
                                      .retainage = percent("10")});
    maker.add(InvoiceLine{.invoice = id,
                          .position = 1,
                          .description = "Concrete",
                          .quantity = Quantity::ofUnits(5'250),
                          .unit = "yd",
                          .unitPrice = each("180.3333")});
    maker.invoiceLine(id, "1000", false);
    const auto total = totalOf(maker.book, maker.book.get(id));
    CHECK(total.net == usd("1946.75"));       // 5.25 × 180.3333 = 946.749825, once rounded, and 1000.00
    CHECK(total.tax == usd("75.74"));         // 8 % of 946.75
    CHECK(total.total == usd("2022.49"));
    CHECK(total.retained == usd("194.68"));   // 10 % of 1946.75 = 194.675, half up
    CHECK(total.payable == usd("1827.81"));
    CHECK(total.balance == usd("1827.81"));
    CHECK(invoiceAnswer(total) == "$1,827.81 to pay: lines $1,946.75 and sales tax $75.74, less $194.68 held back");
}

TEST_CASE("tax is rounded line by line or once for the paper, as the settings say", "[billing]")
{
    BookMaker maker;
    const auto settings = maker.add(Settings{});
    const auto id =
        maker.add(Invoice{.number = "I1001", .job = maker.job("Walk"), .draftedOn = on("2026-04-01"), .taxRate = percent("7")});
    for (int i = 0; i < 3; ++i) maker.invoiceLine(id, "0.50");
    CHECK(totalOf(maker.book, maker.book.get(id)).tax == usd("0.11"));
    maker.change(settings, [](Settings& row) { row.taxBasis = TaxBasis::line; });
    CHECK(totalOf(maker.book, maker.book.get(id)).tax == usd("0.12"));
}

TEST_CASE("a tax-exempt customer pays no sales tax", "[billing]")
{
    BookMaker maker;
    const auto customer = maker.add(Customer{.name = "Town of Orrin", .taxExempt = true});
    const auto id = maker.add(
        Invoice{.number = "I1001", .job = maker.job("Ramp", customer), .draftedOn = on("2026-04-01"), .taxRate = percent("7")});
    maker.invoiceLine(id, "100");
    CHECK(totalOf(maker.book, maker.book.get(id)).total == usd("100"));
}

TEST_CASE("a balance counts what came in by the day asked, and a draft owes nothing", "[billing]")
{
    BookMaker maker;
    const auto job = maker.job("Patio");
    const auto id = maker.invoice(job, "I1001", InvoiceKind::final, "2026-04-02", "2026-04-16");
    maker.invoiceLine(id, "900");
    maker.paid(id, "2026-04-10", "300");
    maker.add(
        Credit{.number = "C1001", .invoice = id, .issuedOn = on("2026-04-20"), .amount = usd("50"), .reason = "chipped corner"});
    const auto balance = [&](std::optional<Date> day) { return totalOf(maker.book, maker.book.get(id), day).balance; };
    CHECK(balance(on("2026-04-01")) == Money{});  // not issued yet
    CHECK(balance(on("2026-04-09")) == usd("900"));
    CHECK(balance(on("2026-04-10")) == usd("600"));
    CHECK(balance(std::nullopt) == usd("550"));

    const auto draft = maker.add(Invoice{.number = "I1002", .job = job, .draftedOn = on("2026-04-02")});
    maker.invoiceLine(draft, "100");
    const auto total = totalOf(maker.book, maker.book.get(draft));
    CHECK(total.payable == usd("100"));
    CHECK(total.balance == Money{});
}

TEST_CASE("a job's billing counts retainage once and a credit without its tax", "[billing]")
{
    BookMaker maker;
    const auto job = maker.job("Slab");
    const auto draw = maker.add(Invoice{.number = "I1001",
                                        .job = job,
                                        .kind = InvoiceKind::progress,
                                        .draftedOn = on("2026-04-01"),
                                        .issuedOn = on("2026-04-01"),
                                        .dueOn = on("2026-04-15"),
                                        .taxRate = percent("10"),
                                        .retainage = percent("10")});
    maker.invoiceLine(draw, "5000");
    maker.add(
        Credit{.number = "C1001", .invoice = draw, .issuedOn = on("2026-04-05"), .amount = usd("110"), .reason = "less area"});
    auto billing = billingOf(maker.book, job);
    CHECK(billing.net == usd("4900"));  // 110.00 with 10 % tax is 100.00 without
    CHECK(billing.retainageHeld == usd("500"));
    CHECK(billing.balance == usd("4890"));  // 5500 − 500 − 110
    CHECK_FALSE(billing.inFull);

    const auto release = maker.invoice(job, "I1002", InvoiceKind::retainage, "2026-06-01", "2026-06-15");
    maker.invoiceLine(release, "500", false);
    billing = billingOf(maker.book, job);
    CHECK(billing.net == usd("4900"));
    CHECK(billing.retainageHeld == Money{});
    CHECK(billing.balance == usd("5390"));
}

TEST_CASE("an invoice that a credit took back in full counts as never billed", "[billing]")
{
    BookMaker maker;
    const auto job = maker.job("Steps");
    const auto id = maker.invoice(job, "I1001", InvoiceKind::final, "2026-04-02", "2026-04-16");
    maker.invoiceLine(id, "900");
    maker.add(ChangeOrder{.job = job,
                          .number = 1,
                          .askedOn = on("2026-04-02"),
                          .description = "on the final invoice",
                          .cost = usd("50"),
                          .price = usd("80"),
                          .acceptedOn = on("2026-04-02")});
    CHECK(billingOf(maker.book, job).inFull);
    maker.add(
        Credit{.number = "C1001", .invoice = id, .issuedOn = on("2026-04-03"), .amount = usd("900"), .reason = "wrong customer"});
    const auto billing = billingOf(maker.book, job);
    CHECK(billing.net == Money{});
    CHECK_FALSE(billing.inFull);
    CHECK_FALSE(billing.anyIssued);
}
