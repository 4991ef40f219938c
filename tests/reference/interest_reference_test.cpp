#include "billing/billing.h"

#include "domain/book_maker.h"

using namespace strikeoff;

TEST_CASE("IN-01 simple interest on a late federal payment", "[reference][interest]")
{
    // Source: 5 CFR 1315.17(b): $1,500.00 at 6.5 %, due April 1, paid April 11, on a year of 360 days: ten days, $2.71.
    const int days = on("2026-04-11") - on("2026-04-01");
    CHECK(days == 10);
    CHECK(simpleInterest(usd("1500"), percent("6.5"), days, 360) == usd("2.71"));
}

TEST_CASE("IN-04 simple interest by actual days over 365", "[reference][interest]")
{
    // Source: 8 CFR 293.3: $500 at 3 % for 93 days is $3.82.
    CHECK(simpleInterest(usd("500"), percent("3"), 93, 365) == usd("3.82"));
}

TEST_CASE("IN-05 interest by months over twelve", "[reference][interest]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.3 (the first); Financial Accounting, chapter 12.4.
    CHECK(simpleInterest(usd("20000"), percent("6.75"), 4, 12) == usd("450.00"));
    CHECK(simpleInterest(usd("12000"), percent("10"), 2, 12) == usd("200.00"));
    CHECK(simpleInterest(usd("150000"), percent("12"), 3, 12) == usd("4500.00"));
    CHECK(simpleInterest(usd("130000"), percent("6"), 4, 12) == usd("2600.00"));
    CHECK(simpleInterest(usd("250000"), percent("4"), 3, 12) == usd("2500.00"));
}

TEST_CASE("IN-06 interest is rounded half up, not always up", "[reference][interest]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.3, which always rounds up and prints $81.13. The exact figure is 81.123…,
    // so our one rule gives $81.12.
    CHECK(simpleInterest(usd("5600"), percent("11.75"), 45, 365) == usd("81.12"));
}

TEST_CASE("IN-10 a late charge of 1.5 % a month on an open invoice", "[reference][interest]")
{
    // Source: arithmetic, common practice; the contract and the state set the rate. 1.5 % a month is 18 % a year: $45.00 on $1,000 for three months,
    // $22.19 for 45 days over 365.
    CHECK(simpleInterest(usd("1000"), percent("1.5") * 12, 3, 12) == usd("45.00"));
    BookMaker maker;
    maker.add(Settings{.lateChargeMonthly = percent("1.5")});
    maker.invoiceLine(maker.invoice(maker.job("Driveway"), "I1001", InvoiceKind::final, "2026-03-01", "2026-03-15"), "1000");
    const auto owed = owedOn(maker.book, on("2026-03-15") + 45);
    REQUIRE(owed.invoices.size() == 1);
    CHECK(owed.invoices[0].daysLate == 45);
    CHECK(owed.invoices[0].lateCharge == usd("22.19"));
}
