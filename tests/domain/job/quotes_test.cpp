#include "job/stage.h"

#include "domain/book_maker.h"

using namespace strikeoff;

TEST_CASE("the quote that counts is the accepted one, else the newest revision of the newest number", "[job]")
{
    BookMaker maker;
    const auto job = maker.job("Patio");
    CHECK(currentQuote(maker.book, job) == nullptr);
    const auto sent = maker.add(Quote{.number = "Q1000", .job = job, .draftedOn = on("2026-03-03"), .sentOn = on("2026-03-04")});
    const auto older = maker.quote(job, "Q999");
    CHECK(currentQuote(maker.book, job)->id == sent);  // 1000 is newer than 999, whatever the letters say
    const auto revised = maker.add(Quote{.number = "Q1000", .issue = 2, .job = job, .draftedOn = on("2026-03-06")});
    CHECK(currentQuote(maker.book, job)->id == revised);
    CHECK(unansweredQuote(maker.book, job) == nullptr);  // the revision that is out was taken up again
    CHECK(acceptedQuote(maker.book, job) == nullptr);

    maker.change(older, [](Quote& quote) { quote.sentOn = on("2026-03-04"); });
    CHECK(unansweredQuote(maker.book, job)->id == older);
    maker.change(older, [](Quote& quote) { quote.acceptedOn = on("2026-03-08"); });
    CHECK(currentQuote(maker.book, job)->id == older);
    CHECK(acceptedQuote(maker.book, job)->id == older);
    CHECK(unansweredQuote(maker.book, job) == nullptr);
}

TEST_CASE("a quote's total takes a line's own price or its cost with the mark-up", "[job]")
{
    BookMaker maker;
    const auto quote = maker.add(Quote{.number = "Q1001",
                                       .job = maker.job("Patio"),
                                       .draftedOn = on("2026-03-03"),
                                       .markup = percent("30"),
                                       .taxRate = percent("6"),
                                       .deposit = percent("50")});
    maker.add(QuoteLine{.quote = quote,
                        .position = 1,
                        .costClass = CostClass::concrete,
                        .description = "Concrete",
                        .quantity = Quantity::ofUnits(5'250),
                        .unit = "yd",
                        .unitCost = each("165")});
    maker.add(QuoteLine{.quote = quote,
                        .position = 2,
                        .costClass = CostClass::labor,
                        .description = "Placing",
                        .quantity = Quantity::ofWhole(24),
                        .unit = "h",
                        .unitCost = each("38"),
                        .unitPrice = each("60"),
                        .taxable = false});
    const auto total = totalOf(maker.book, maker.book.get(quote));
    CHECK(total.cost == usd("1778.25"));     // 5.25 × 165 = 866.25 and 24 × 38 = 912
    CHECK(total.net == usd("2566.13"));      // 866.25 + 259.88 (259.875, half up) and 1440
    CHECK(total.tax == usd("67.57"));        // 6 % of 1126.13
    CHECK(total.total == usd("2633.70"));
    CHECK(total.deposit == usd("1316.85"));  // half of the net, 1283.07 (half up), and 6 % of 563.07
    // 2,566.13 less 1,778.25 is 787.88, and that is 30.7 % of 2,566.13.
    CHECK(quoteAnswer(total)
          == "Price $2,566.13 before tax, $2,633.70 with $67.57 sales tax; reckoned to cost $1,778.25, which leaves $787.88 (30.7% of the price) for overhead and profit");
}

TEST_CASE("a quote below its cost says so in words", "[job]")
{
    CHECK(quoteAnswer({usd("900"), usd("850"), {}, usd("850"), {}}) == "Price $850.00; reckoned to cost $900.00, so it falls short by $50.00");
}

TEST_CASE("lines that are not in the book yet add up as they would in it", "[job]")
{
    BookMaker maker;
    const auto quote = maker.add(Quote{.number = "Q1001", .job = maker.job("Patio"), .draftedOn = on("2026-03-03"), .markup = percent("30")});
    QuoteLine typed;
    typed.quote = quote;
    typed.unitCost = each("100");
    const QuoteLine* lines[] = {&typed, &typed};
    CHECK(totalOf(maker.book, maker.book.get(quote), lines).net == usd("260"));
    CHECK(totalOf(maker.book, maker.book.get(quote)).net == Money{});
}

TEST_CASE("a bid is the current quote and the change orders the customer accepted", "[job]")
{
    BookMaker maker;
    const auto job = maker.job("Patio");
    CHECK_FALSE(bidOf(maker.book, job));
    const auto quote = maker.acceptedQuote(job, "Q1001");
    maker.quoteLine(quote, CostClass::concrete, "700", "1000");
    maker.add(ChangeOrder{.job = job,
                          .number = 1,
                          .askedOn = on("2026-03-20"),
                          .description = "wider",
                          .cost = usd("150"),
                          .price = usd("240"),
                          .acceptedOn = on("2026-03-20")});
    maker.add(ChangeOrder{.job = job,
                          .number = 2,
                          .askedOn = on("2026-03-20"),
                          .description = "colour",
                          .cost = usd("90"),
                          .price = usd("160"),
                          .declinedOn = on("2026-03-20")});
    const auto bid = bidOf(maker.book, job);
    REQUIRE(bid);
    CHECK(bid->cost == usd("850"));
    CHECK(bid->price == usd("1240"));
}
