#include "billing/billing.h"

#include "domain/book_maker.h"

using namespace strikeoff;

namespace {

Id<Invoice> owing(BookMaker& maker, const std::string& who, const std::string& number, std::string_view due,
                  std::string_view amount)
{
    const auto customer = maker.customer(who);
    const auto id = maker.invoice(maker.job("Work for " + who, customer), number, InvoiceKind::final, "2026-01-05", due);
    maker.invoiceLine(id, amount);
    return id;
}

}

TEST_CASE("days late fall into buckets whose ends belong to the earlier one", "[billing]")
{
    CHECK(bucketOf(-3) == AgingBucket::notDue);
    CHECK(bucketOf(0) == AgingBucket::notDue);
    CHECK(bucketOf(1) == AgingBucket::days1to30);
    CHECK(bucketOf(30) == AgingBucket::days1to30);
    CHECK(bucketOf(31) == AgingBucket::days31to60);
    CHECK(bucketOf(60) == AgingBucket::days31to60);
    CHECK(bucketOf(61) == AgingBucket::days61to90);
    CHECK(bucketOf(90) == AgingBucket::days61to90);
    CHECK(bucketOf(91) == AgingBucket::over90);
}

TEST_CASE("who owes is listed the latest first, with buckets that add up to the total", "[billing]")
{
    BookMaker maker;
    owing(maker, "Ada Brandt", "I1001", "2026-06-20", "400");    // due in ten days
    owing(maker, "Hollis Farm", "I1002", "2026-03-28", "1200");  // 74 days late on June 10
    owing(maker, "Ines Cole", "I1003", "2026-06-01", "650.50");  // 9 days late
    maker.paid(owing(maker, "Jon Weir", "I1004", "2026-02-01", "99"), "2026-02-01", "99");
    const auto owed = owedOn(maker.book, on("2026-06-10"));
    REQUIRE(owed.invoices.size() == 3);
    CHECK(owed.invoices[0].customer->name == "Hollis Farm");
    CHECK(owed.invoices[0].daysLate == 74);
    CHECK(owed.invoices[2].daysLate == -10);
    CHECK(owed.total == usd("2250.50"));
    CHECK(owed.buckets == std::array{usd("400"), usd("650.50"), Money{}, usd("1200"), Money{}});
    CHECK(owed.answer ==
          "Three invoices are open for $2,250.50; two are past due, $1,850.50, the oldest by 74 days (Hollis Farm).");
}

TEST_CASE("the answer says when nobody owes, when one does, and what is left lying", "[billing]")
{
    BookMaker maker;
    CHECK(owedOn(maker.book, on("2026-06-10")).answer == "Nobody owes you anything.");
    const auto id = owing(maker, "Ada Brandt", "I1001", "2026-06-20", "400");
    CHECK(owedOn(maker.book, on("2026-06-10")).answer == "One invoice is open for $400.00; none is past due.");
    CHECK(owedOn(maker.book, on("2026-06-21")).answer ==
          "One invoice is open for $400.00; it is past due by one day (Ada Brandt).");
    CHECK(owedOn(maker.book, on("2026-01-04")).answer == "Nobody owes you anything.");  // before it was issued

    const auto payment = maker.payment(maker.book.get(maker.book.get(id).job).customer, "2026-06-05", "500");
    maker.share(payment, id, "450");
    const auto owed = owedOn(maker.book, on("2026-06-30"));
    CHECK(owed.answer == "Nobody owes you anything; $50.00 received is not assigned to an invoice yet; $50.00 was paid too much.");
    REQUIRE(owed.invoices.size() == 1);
    CHECK(owed.invoices[0].balance == usd("-50"));
    CHECK(owed.invoices[0].bucket == AgingBucket::notDue);
    CHECK(owed.total == usd("-50"));
}

TEST_CASE("a late charge needs a rate and a day past due", "[billing]")
{
    BookMaker maker;
    owing(maker, "Ada Brandt", "I1001", "2026-06-20", "400");
    CHECK(owedOn(maker.book, on("2026-08-20")).invoices[0].lateCharge == Money{});
    maker.add(Settings{.lateChargeMonthly = percent("1.5")});
    CHECK(owedOn(maker.book, on("2026-06-20")).invoices[0].lateCharge == Money{});
    CHECK(owedOn(maker.book, on("2026-07-20")).invoices[0].lateCharge == usd("5.92"));  // 400 × 18 % × 30 / 365 = 5.9178
}
