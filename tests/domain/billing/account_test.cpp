#include "billing/billing.h"
#include "job/steps.h"

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

TEST_CASE("a payment's split is proposed oldest due first, and shown as it was changed", "[billing]")
{
    BookMaker maker;
    const auto customer = maker.customer("Hollis Farm");
    const auto job = maker.job("Barn apron", customer);
    const auto late = maker.invoice(job, "I1001", InvoiceKind::progress, "2026-04-10", "2026-05-30");
    maker.invoiceLine(late, "300");
    const auto early = maker.invoice(job, "I1002", InvoiceKind::progress, "2026-04-12", "2026-04-20");
    maker.invoiceLine(early, "200");

    Payment fresh;
    fresh.customer = customer;
    fresh.receivedOn = on("2026-05-01");
    fresh.amount = usd("250");
    auto lines = splitOf(maker.book, fresh);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].number == "I1002");
    CHECK(lines[0].share == usd("200"));
    CHECK(lines[1].share == usd("50"));
    CHECK(lines[1].open == usd("300"));
    CHECK(addUp(fresh.amount, lines).sentence == "$250.00 goes to two invoices; nothing is left over.");
    lines[1].share = Money{};
    CHECK(addUp(fresh.amount, lines).left == usd("50"));
    CHECK(addUp(fresh.amount, lines).sentence == "$200.00 goes to one invoice; $50.00 stays unassigned.");
    lines[0].share = usd("260");
    const auto over = addUp(fresh.amount, lines);
    CHECK_FALSE(over.addsUp);
    CHECK(over.sentence == "$260.00 is split but only $250.00 came in; take $10.00 off a share.");
    lines[0].share = usd("210");
    CHECK(addUp(fresh.amount, lines).sentence == "$210.00 goes to one invoice; $40.00 stays unassigned. Invoice I1002 has only $200.00 open.");

    // Once it is in the book, what it pays is open to it again.
    const auto paid = maker.payment(customer, "2026-05-01", "250");
    maker.share(paid, early, "200");
    const auto kept = splitOf(maker.book, maker.book.get(paid));
    REQUIRE(kept.size() == 2);
    CHECK(kept[0].open == usd("200"));
    CHECK(kept[0].share == usd("200"));
    CHECK(kept[1].share == Money{});
}

TEST_CASE("a customer's account says what is owed, how late, and what is not assigned", "[billing]")
{
    BookMaker maker;
    const auto customer = maker.customer("Hollis Farm");
    const auto job = maker.job("Barn apron", customer);
    const auto first = maker.invoice(job, "I1001", InvoiceKind::progress, "2026-04-10", "2026-04-20");
    maker.invoiceLine(first, "300");
    const auto second = maker.invoice(job, "I1002", InvoiceKind::progress, "2026-04-12", "2026-05-30");
    maker.invoiceLine(second, "200");
    maker.paid(first, "2026-04-15", "50");
    maker.payment(customer, "2026-04-30", "25");
    const auto account = accountOf(maker.book, customer, on("2026-05-02"));
    CHECK(account.owed == usd("450"));
    CHECK(account.late == usd("250"));
    CHECK(accountAnswer(account) ==
          "Hollis Farm owes $450.00 on two invoices; $250.00 of it is past due, the oldest by twelve days; $25.00 received is not assigned to an invoice yet.");
    CHECK(account.balance() == statementOfAccount(maker.book, customer, on("2026-05-02")).back().balance);
    maker.customer("Nobody yet");
    CHECK(accountsOn(maker.book, on("2026-05-02")).size() == 1);
    CHECK(accountsOn(maker.book, on("2026-04-01")).empty());
    CHECK(accountAnswer(accountOf(maker.book, maker.customer("Ivo Lark"), on("2026-05-02"))) == "Ivo Lark owes nothing.");
}

TEST_CASE("an invoice stands as draft, owed, late, paid or taken back", "[billing]")
{
    BookMaker maker;
    maker.add(Settings{.lateChargeMonthly = percent("1.5")});
    const auto job = maker.job("Barn apron");
    const auto id = maker.invoice(job, "I1001", InvoiceKind::final, "2026-04-10", "2026-04-20");
    maker.invoiceLine(id, "1000");
    const auto state = [&](std::string_view day) { return standingOf(maker.book, maker.book.get(id), on(day)).state; };
    CHECK(state("2026-04-09") == InvoiceState::draft);
    CHECK(state("2026-04-20") == InvoiceState::owed);
    CHECK(state("2026-04-21") == InvoiceState::late);
    // 1000 × 18 % × 12 / 365, our rule: simple, twelve times the monthly rate over 365 days.
    CHECK(standingOf(maker.book, maker.book.get(id), on("2026-05-02")).lateCharge == usd("5.92"));
    CHECK(proposedCredit(maker.book, maker.book.get(id), on("2026-05-02")).amount == usd("1000"));
    maker.add(Credit{.number = "C1001", .invoice = id, .issuedOn = on("2026-05-03"), .amount = usd("1000"), .reason = "never poured"});
    CHECK(state("2026-05-02") == InvoiceState::late);
    CHECK(state("2026-05-03") == InvoiceState::takenBack);
    const auto other = maker.invoice(job, "I1002", InvoiceKind::final, "2026-04-10", "2026-04-20");
    maker.invoiceLine(other, "10");
    maker.paid(other, "2026-04-12", "10");
    CHECK(standingOf(maker.book, maker.book.get(other), on("2026-06-01")).state == InvoiceState::paid);
    CHECK(standingOf(maker.book, maker.book.get(other), on("2026-06-01")).daysLate == 0);
}

TEST_CASE("an invoice without lines is not issued, whichever way it is tried", "[billing]")
{
    BookMaker maker;
    const auto job = maker.job("Barn apron");
    const auto id = maker.add(Invoice{.number = "I1001", .job = job, .draftedOn = on("2026-04-10")});
    const auto step = issueInvoice(maker.book, maker.book.get(id), on("2026-04-11"));
    CHECK_FALSE(step.possible());
    CHECK(step.obstacle == "Invoice I1001 has no lines yet; write them first");

    auto issued = maker.book.get(id);
    issued.issuedOn = on("2026-04-11");
    issued.dueOn = on("2026-05-11");
    Edit edit{"Issue by hand"};
    edit.change(issued);
    const auto refused = applyEdit(maker.book, edit);
    REQUIRE(refused.problems.size() == 1);
    CHECK(refused.problems[0].field == "issued_on");
    CHECK(refused.problems[0].message == "an invoice without lines cannot be issued; write what it bills first");
    CHECK_FALSE(maker.book.get(id).issuedOn);
    maker.invoiceLine(id, "100");
    CHECK(issueInvoice(maker.book, maker.book.get(id), on("2026-04-11")).possible());
    CHECK(applyEdit(maker.book, edit).problems.empty());
}

TEST_CASE("retainage held counts what was held back and not billed", "[billing]")
{
    BookMaker maker;
    const auto job = maker.job("Barn apron");
    CHECK(retainageHeld(maker.book) == Money{});
    const auto id = maker.add(Invoice{.number = "I1001", .job = job, .kind = InvoiceKind::progress, .draftedOn = on("2026-04-01"), .issuedOn = on("2026-04-01"), .dueOn = on("2026-04-15"),
                                      .retainage = percent("10")});
    maker.invoiceLine(id, "5000");
    CHECK(retainageHeld(maker.book) == usd("500"));
    const auto release = maker.invoice(job, "I1002", InvoiceKind::retainage, "2026-06-01", "2026-06-15");
    maker.invoiceLine(release, "500");
    CHECK(retainageHeld(maker.book) == Money{});
}

TEST_CASE("a split in the book is changed share by share, and too much is refused", "[billing]")
{
    BookMaker maker;
    const auto customer = maker.customer("Hollis Farm");
    const auto job = maker.job("Barn apron", customer);
    const auto a = maker.invoice(job, "I1001", InvoiceKind::progress, "2026-04-10", "2026-04-20");
    maker.invoiceLine(a, "300");
    const auto b = maker.invoice(job, "I1002", InvoiceKind::progress, "2026-04-12", "2026-05-30");
    maker.invoiceLine(b, "200");
    const auto payment = maker.payment(customer, "2026-05-01", "300");
    maker.share(payment, a, "300");
    auto lines = splitOf(maker.book, maker.book.get(payment));
    CHECK_FALSE(changeSplit(maker.book, maker.book.get(payment), lines).possible());  // already like that
    lines[0].share = usd("100");
    lines[1].share = usd("200");
    auto step = changeSplit(maker.book, maker.book.get(payment), lines);
    REQUIRE(step.possible());
    REQUIRE(step.edit->changes().size() == 2);
    CHECK(step.edit->changes()[0].what == ChangeType::change);
    CHECK(step.edit->changes()[1].what == ChangeType::add);
    lines[0].share = Money{};
    step = changeSplit(maker.book, maker.book.get(payment), lines);
    REQUIRE(step.possible());
    CHECK(step.edit->changes()[0].what == ChangeType::remove);
    lines[0].share = usd("200");
    CHECK(changeSplit(maker.book, maker.book.get(payment), lines).obstacle == "$400.00 is split but only $300.00 came in; take $100.00 off a share.");
}
