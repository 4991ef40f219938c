#include "quantity/percent.h"

#include <catch2/catch.hpp>

#include <utility>

using namespace strikeoff;

namespace {

Money dollars(std::string_view text) { return Money::parse(text).value(); }
Rate percent(std::string_view text) { return Rate::parse(text).value(); }

}

TEST_CASE("MK-01 price from cost and mark-up", "[reference][percent]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2, and Prealgebra (the last two).
    CHECK(withPercent(dollars("62"), percent("15")) == dollars("71.30"));
    CHECK(withPercent(dollars("750"), percent("45")) == dollars("1087.50"));
    CHECK(withPercent(dollars("250"), percent("40")) == dollars("350.00"));
    CHECK(withPercent(dollars("1.30"), percent("60")) == dollars("2.08"));
}

TEST_CASE("MK-02 mark-up from cost and price", "[reference][percent]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2.
    CHECK(percentPutOn(dollars("90"), dollars("103.50")) == percent("15"));
    CHECK(percentPutOn(dollars("5.20"), dollars("9.90")).value().shown(2) == "90.38");
    CHECK(percentPutOn(dollars("480"), dollars("840")) == percent("75"));
}

TEST_CASE("MK-03 cost from price and mark-up", "[reference][percent]")
{
    // Source: OpenStax, Contemporary Mathematics, chapter 6.2 (its 125 % row divides by a misprinted 3.25; 2.25 gives the answer it prints).
    CHECK(beforePercent(dollars("10.62"), percent("20")) == dollars("8.85"));
    CHECK(beforePercent(dollars("26.55"), percent("125")) == dollars("11.80"));
    CHECK(beforePercent(dollars("29.50"), percent("18")) == dollars("25.00"));
}

TEST_CASE("MK-04 and MK-05 margin and mark-up into each other", "[reference][percent]")
{
    // Source: algebra, m / (1 − m) and u / (1 + u); no published table was found.
    const std::pair<std::string_view, std::string_view> markups[] = {{"10", "11.11"}, {"15", "17.65"}, {"20", "25.00"}, {"25", "33.33"},
                                                                     {"30", "42.86"}, {"35", "53.85"}, {"40", "66.67"}, {"50", "100.00"}};
    for (const auto& [margin, markup] : markups) CHECK(markupForMargin(percent(margin)).value().shown(2) == markup);
    const std::pair<std::string_view, std::string_view> margins[] = {{"10", "9.09"}, {"15", "13.04"}, {"20", "16.67"}, {"25", "20.00"},
                                                                     {"30", "23.08"}, {"35", "25.93"}, {"40", "28.57"}, {"50", "33.33"}};
    for (const auto& [markup, margin] : margins) CHECK(marginForMarkup(percent(markup)).value().shown(2) == margin);
}

TEST_CASE("TD-01, TD-04 and TD-05 discounts for paying early", "[reference][percent]")
{
    // Source: OpenStax, Principles of Finance, chapter 19.2 (the first); Financial Accounting, chapter 6.3.
    const auto paid = [](Money sum, std::string_view discount) { return sum - percentOf(sum, percent(discount)); };
    CHECK(paid(dollars("10500"), "2") == dollars("10290.00"));
    const auto owed = dollars("8000") - dollars("1500") - dollars("120");
    CHECK(percentOf(owed, percent("5")) == dollars("319.00"));
    CHECK(paid(owed, "5") == dollars("6061.00"));
    CHECK(paid(dollars("4020"), "5") == dollars("3819.00"));
    CHECK(paid(dollars("500") - dollars("150"), "2") == dollars("343.00"));
    CHECK(paid(dollars("650"), "3") == dollars("630.50"));
}

TEST_CASE("AR-01 to AR-03 an allowance by age of the receivable", "[reference][percent]")
{
    // Source: OpenStax, Financial Accounting, chapters 9.2 and 9.7.
    CHECK(percentOf(dollars("145740"), percent("10")) == dollars("14574"));
    CHECK(percentOf(dollars("102100"), percent("20")) == dollars("20420"));
    CHECK(percentOf(dollars("77010"), percent("30")) == dollars("23103"));
    CHECK(percentOf(dollars("22480"), percent("6")) + percentOf(dollars("36540"), percent("17")) + percentOf(dollars("15330"), percent("25"))
          == dollars("11393.10"));
    CHECK(percentOf(dollars("1350000"), percent("5")) == dollars("67500"));
    CHECK(percentOf(dollars("745000"), percent("8")) == dollars("59600"));
    CHECK(percentOf(dollars("485000"), percent("5")) + percentOf(dollars("180000"), percent("10")) + percentOf(dollars("80000"), percent("20"))
          == dollars("58250"));
}

TEST_CASE("RT-02 retainage held from each draw is what is released at the end", "[reference][percent]")
{
    // Source: FAR 52.232-5(e) allows at most 10 % of a payment; the draws are our own.
    const auto first = percentOf(dollars("50000"), percent("10")), second = percentOf(dollars("30000"), percent("10"));
    CHECK(dollars("50000") - first == dollars("45000"));
    CHECK(dollars("30000") - second == dollars("27000"));
    CHECK(first + second == dollars("8000"));
}
