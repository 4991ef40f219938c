#include "billing/billing.h"
#include "job/stage.h"

#include "domain/book_maker.h"

#include <array>

using namespace strikeoff;

namespace {

Id<Invoice> taxed(BookMaker& maker, std::string_view rate, std::initializer_list<std::string_view> amounts)
{
    const auto number = "I" + std::to_string(1001 + maker.book.all<Invoice>().size());
    const auto id = maker.add(
        Invoice{.number = number, .job = maker.job("Work of " + number), .draftedOn = on("2026-05-01"), .taxRate = percent(rate)});
    for (const auto amount : amounts) maker.invoiceLine(id, amount);
    return id;
}

/// One invoice of an amount, so many days past due on June 30.
void aged(BookMaker& maker, int daysLate, std::string_view amount)
{
    const auto number = "I" + std::to_string(1001 + maker.book.all<Invoice>().size());
    const auto due = on("2026-06-30") - daysLate;
    const auto issued = due - 30;
    maker.invoiceLine(maker.invoice(maker.job("Work of " + number), number, InvoiceKind::final, issued.text(), due.text()), amount);
}

}

TEST_CASE("RD-02 sales tax on an invoice", "[reference][billing]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2.
    BookMaker maker;
    CHECK(totalOf(maker.book, maker.book.get(taxed(maker, "8.25", {"428.99"}))).tax == usd("35.39"));
    const auto second = totalOf(maker.book, maker.book.get(taxed(maker, "8.25", {"34.88"})));
    CHECK(second.tax == usd("2.88"));
    CHECK(second.total == usd("37.76"));
    const auto third = totalOf(maker.book, maker.book.get(taxed(maker, "8.81", {"499.00"})));
    CHECK(third.tax == usd("43.96"));
    CHECK(third.total == usd("542.96"));
}

TEST_CASE("RD-04 tax by the line and by the paper differ by a cent", "[reference][billing]")
{
    // Source: Streamlined Sales and Use Tax Agreement, section 324 lets the seller choose either; the figures are our own.
    BookMaker maker;
    const auto settings = maker.add(Settings{.taxBasis = TaxBasis::line});
    const auto id = taxed(maker, "7", {"0.50", "0.50", "0.50"});
    CHECK(totalOf(maker.book, maker.book.get(id)).tax == usd("0.12"));
    maker.change(settings, [](Settings& row) { row.taxBasis = TaxBasis::document; });
    CHECK(totalOf(maker.book, maker.book.get(id)).tax == usd("0.11"));
}

TEST_CASE("MK-01 the price of a quote line from its cost and the quote's mark-up", "[reference][billing]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2, and Prealgebra (the last two).
    const std::array<std::array<std::string_view, 3>, 4> rows{
        {{"62", "15", "71.30"}, {"750", "45", "1087.50"}, {"250", "40", "350.00"}, {"1.30", "60", "2.08"}}};
    BookMaker maker;
    const auto job = maker.job("Patio");
    for (const auto& [cost, markup, price] : rows) {
        const auto quote = maker.add(
            Quote{.number = "Q" + std::string{cost}, .job = job, .draftedOn = on("2026-03-03"), .markup = percent(markup)});
        maker.add(QuoteLine{.quote = quote, .position = 1, .description = "line", .unitCost = each(cost)});
        const auto total = totalOf(maker.book, maker.book.get(quote));
        CHECK(total.cost == usd(cost));
        CHECK(total.net == usd(price));
    }
}

TEST_CASE("AR-01 and AR-03 receivables by age, with an allowance on each age", "[reference][billing]")
{
    // Source: OpenStax, Financial Accounting, chapter 9.2: 145,740, 102,100 and 77,010 dollars at 0–30, 31–90 and over 90 days, of which 10, 20
    // and 30 % are $58,097. How the sums are spread inside an age is our own.
    BookMaker maker;
    aged(maker, 0, "100000");
    aged(maker, 1, "40000");
    aged(maker, 30, "5740");
    aged(maker, 31, "100000");
    aged(maker, 61, "100");
    aged(maker, 90, "2000");
    aged(maker, 91, "77000");
    aged(maker, 400, "10");
    const auto owed = owedOn(maker.book, on("2026-06-30"));
    const auto bucket = [&](AgingBucket one) { return owed.buckets[static_cast<std::size_t>(one)]; };
    const auto young = bucket(AgingBucket::notDue) + bucket(AgingBucket::days1to30);
    const auto middle = bucket(AgingBucket::days31to60) + bucket(AgingBucket::days61to90);
    const auto old = bucket(AgingBucket::over90);
    CHECK(young == usd("145740"));
    CHECK(middle == usd("102100"));
    CHECK(old == usd("77010"));
    CHECK(percentOf(young, percent("10")) + percentOf(middle, percent("20")) + percentOf(old, percent("30")) == usd("58097"));
    CHECK(owed.total == usd("324850"));
}
