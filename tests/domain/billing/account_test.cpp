#include "billing/billing.h"

#include "domain/book_maker.h"

using namespace strikeoff;

TEST_CASE("a statement of account runs its balance over invoices, credits and payments", "[billing]")
{
    BookMaker maker;
    const auto customer = maker.customer("Hollis Farm");
    const auto barn = maker.job("Barn apron", customer);
    const auto walk = maker.job("Walk", customer);
    const auto first = maker.add(Invoice{.number = "I1004",
                                         .job = barn,
                                         .kind = InvoiceKind::progress,
                                         .draftedOn = on("2026-04-01"),
                                         .issuedOn = on("2026-04-01"),
                                         .dueOn = on("2026-04-15"),
                                         .retainage = percent("10")});
    maker.invoiceLine(first, "5000");
    const auto second = maker.invoice(walk, "I1009", InvoiceKind::final, "2026-04-20", "2026-05-04");
    maker.invoiceLine(second, "800");
    const auto payment = maker.payment(customer, "2026-04-20", "4000");
    maker.change(payment, [](Payment& row) { row.reference = "2210"; });
    maker.share(payment, first, "4000");
    maker.add(
        Credit{.number = "C1001", .invoice = second, .issuedOn = on("2026-04-22"), .amount = usd("25"), .reason = "swept late"});
    maker.change(maker.payment(customer, "2026-06-30", "525"), [](Payment& row) { row.method = PaymentMethod::transfer; });

    const auto lines = statementOfAccount(maker.book, customer, on("2026-05-31"));
    REQUIRE(lines.size() == 4);
    CHECK(lines[0].what == "Invoice I1004 ($500.00 retainage held)");
    CHECK(lines[0].charge == usd("4500"));
    CHECK(lines[1].what == "Invoice I1009");
    CHECK(lines[2].what == "Payment, check 2210");  // same day: the invoice stands first
    CHECK(lines[2].received == usd("4000"));
    CHECK(lines[2].balance == usd("1300"));
    CHECK(lines[3].what == "Credit C1001, swept late");
    CHECK(lines[3].balance == usd("1275"));
    // What the account owes is what its open invoices owe.
    CHECK(lines.back().balance == owedOn(maker.book, on("2026-05-31")).total);

    const auto later = statementOfAccount(maker.book, customer, on("2026-06-30"));
    CHECK(later.back().what == "Payment, bank transfer");
    CHECK(later.back().balance == usd("750"));
    CHECK(statementOfAccount(maker.book, maker.customer("Nobody yet"), on("2026-06-30")).empty());
}

TEST_CASE("a payment goes to the oldest due first and the rest is left over", "[billing]")
{
    BookMaker maker;
    const auto customer = maker.customer("Hollis Farm");
    const auto job = maker.job("Barn apron", customer);
    const auto late = maker.invoice(job, "I1001", InvoiceKind::progress, "2026-04-10", "2026-05-30");
    maker.invoiceLine(late, "300");
    const auto early = maker.invoice(job, "I1002", InvoiceKind::progress, "2026-04-12", "2026-04-20");
    maker.invoiceLine(early, "200");
    maker.paid(early, "2026-04-15", "50");
    const auto future = maker.invoice(job, "I1003", InvoiceKind::final, "2026-07-01", "2026-07-02");
    maker.invoiceLine(future, "1000");

    using Shares = std::vector<std::pair<Id<Invoice>, Money>>;
    CHECK(spreadPayment(maker.book, customer, usd("400"), on("2026-05-01")) == Shares{{early, usd("150")}, {late, usd("250")}});
    CHECK(spreadPayment(maker.book, customer, usd("100"), on("2026-05-01")) == Shares{{early, usd("100")}});
    CHECK(spreadPayment(maker.book, customer, usd("900"), on("2026-05-01")) ==
          Shares{{early, usd("150")}, {late, usd("300")}}); // 450 left over
    CHECK(spreadPayment(maker.book, customer, Money{}, on("2026-05-01")).empty());
}
