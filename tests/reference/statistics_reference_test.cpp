#include "statistics/distributions.h"
#include "statistics/price_index.h"
#include "statistics/quantiles.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using namespace strikeoff;

TEST_CASE("Quantiles of type 7 fall where Hyndman and Fan put them", "[quantiles]")
{
    // Source: Hyndman and Fan, "Sample quantiles in statistical packages", The American Statistician 50 (1996), type 7; figures by R 4.2.2.
    const std::array sample{1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 100.0};
    const std::array shares{0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95};
    const std::array expected{1.45, 1.9, 3.25, 5.5, 7.75, 18.1, 59.05};
    const auto found = quantiles(sample, shares);
    for (std::size_t i = 0; i < shares.size(); ++i) CHECK(found[i] == Approx(expected[i]).epsilon(1e-12));
    CHECK(quantile(std::array{15.0, 20.0, 35.0, 40.0, 50.0}, 0.4) == 29.0);
    // NIST/SEMATECH e-Handbook 7.2.6.2, the sample; the figure of type 7 by R 4.2.2.
    const std::array wafers{95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682};
    CHECK(*quantile(wafers, 0.9) == Approx(95.19568).epsilon(1e-9));
    // NIST/SEMATECH e-Handbook 7.1.6, the sample; the quartiles of type 7 by R 4.2.2.
    const std::array box{30.0,  171.0, 184.0, 201.0, 212.0, 250.0, 265.0, 270.0, 272.0, 289.0, 305.0, 306.0, 322.0, 322.0, 336.0, 346.0, 351.0, 370.0,
                         390.0, 404.0, 409.0, 411.0, 436.0, 437.0, 439.0, 441.0, 444.0, 448.0, 451.0, 453.0, 470.0, 480.0, 482.0, 487.0, 494.0, 495.0,
                         499.0, 503.0, 514.0, 521.0, 522.0, 527.0, 548.0, 550.0, 559.0, 560.0, 570.0, 572.0, 574.0, 578.0, 585.0, 592.0, 592.0, 607.0,
                         616.0, 618.0, 621.0, 629.0, 637.0, 638.0, 640.0, 656.0, 668.0, 707.0, 709.0, 719.0, 737.0, 739.0, 752.0, 758.0, 766.0, 792.0,
                         792.0, 794.0, 802.0, 818.0, 830.0, 832.0, 843.0, 858.0, 860.0, 869.0, 918.0, 925.0, 953.0, 991.0, 1000.0, 1005.0, 1068.0, 1441.0};
    CHECK(*quantile(box, 0.25) == Approx(436.25));
    CHECK(*median(box) == Approx(559.5));
    CHECK(*quantile(box, 0.75) == Approx(738.5));
    CHECK(quantile(std::array{4.0}, 0.9) == 4.0);
    CHECK_FALSE(quantile({}, 0.5));
    CHECK_THROWS(quantile(std::array{1.0, std::nan("")}, 0.5));
}

TEST_CASE("Odd values are those Iglewicz and Hoaglin's rule marks", "[quantiles]")
{
    // Source: Iglewicz and Hoaglin, How to Detect and Handle Outliers (1993): 0.6745 (x - median) / MAD, odd beyond 3.5. Data: NIST/SEMATECH e-Handbook 1.3.5.17.1.
    const std::array sample{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57};
    const auto odd = oddness(sample);
    CHECK(odd.back() == Approx(29.962714).epsilon(1e-4));
    CHECK(odd.front() == Approx(-1.396452).epsilon(1e-4));
    for (std::size_t i = 0; i + 1 < odd.size(); ++i) CHECK(std::abs(odd[i]) < oddFrom);
    // A sample without spread must not divide by zero.
    for (const auto value : oddness(std::array{5.0, 5.0, 5.0, 5.0, 5.0, 5.0, 9.0})) CHECK(value == 0);
}

TEST_CASE("A running median looks as far to each side as there are values", "[quantiles]")
{
    // By hand: windows {1 9 2}, {1 9 2 8}, {1 9 2 8 3}, {9 2 8 3}, {2 8 3} … of the definition.
    CHECK(runningMedian(std::array{1.0, 9.0, 2.0, 8.0, 3.0}, 1) == std::vector{5.0, 2.0, 8.0, 3.0, 5.5});
    CHECK(runningMedian({}, 2).empty());
}

TEST_CASE("Price indices of the manual's six goods in five periods", "[price_index]")
{
    // Data: IMF and others, Producer Price Index Manual: Theory and Practice (2004), tables 19.1 and 19.2 (W. E. Diewert). Indices to four decimals as the manual's
    // tables 19.4 and 19.5 and the examples of the gpindex package print them, six decimals recomputed with numpy.
    const std::vector<PricedPeriod> periods{{{1, 1, 1, 1, 1, 1}, {1, 1, 2, 1, 4.5, 0.5}},
                                            {{1.2, 3, 1.3, 0.7, 1.4, 0.8}, {0.8, 0.9, 1.9, 1.3, 4.7, 0.6}},
                                            {{1, 1, 1.5, 0.5, 1.7, 0.6}, {1, 1.1, 1.8, 3, 5, 0.8}},
                                            {{0.8, 0.5, 1.6, 0.3, 1.9, 0.4}, {1.2, 1.2, 1.9, 6, 5.6, 1.3}},
                                            {{1, 1, 1.6, 0.1, 2, 0.2}, {0.9, 1.2, 2, 12, 6.5, 2.5}}};
    const std::array laspeyres{1.0, 1.42, 1.345, 1.355, 1.44}, paasche{1.0, 1.382353, 1.203150, 1.020930, 0.796813}, fisher{1.0, 1.401050, 1.272099, 1.176163, 1.071172};
    const std::array chainedLaspeyres{1.0, 1.42, 1.364610, 1.335139, 1.330577}, chainedPaasche{1.0, 1.382353, 1.273966, 1.205975, 1.123405},
        chainedFisher{1.0, 1.401050, 1.318509, 1.268915, 1.222610};
    const auto fixed = fixedBase(periods);
    const auto linked = chained(periods);
    for (std::size_t i = 0; i < periods.size(); ++i) {
        CHECK(fixed[i].laspeyres == Approx(laspeyres[i]).margin(5e-7).epsilon(0));
        CHECK(fixed[i].paasche == Approx(paasche[i]).margin(5e-7).epsilon(0));
        CHECK(fixed[i].fisher == Approx(fisher[i]).margin(5e-7).epsilon(0));
        CHECK(linked[i].laspeyres == Approx(chainedLaspeyres[i]).margin(5e-7).epsilon(0));
        CHECK(linked[i].paasche == Approx(chainedPaasche[i]).margin(5e-7).epsilon(0));
        CHECK(linked[i].fisher == Approx(chainedFisher[i]).margin(5e-7).epsilon(0));
    }
    // The worked example of four goods at atozmath.com, IndexNumber: 110.61, 110.16, 110.39.
    const auto four = priceIndex(std::array{GoodInTwoPeriods{39, 1, 40, 1.5}, GoodInTwoPeriods{40, 12, 44, 10}, GoodInTwoPeriods{45, 2, 50, 1.5}, GoodInTwoPeriods{30, 2, 36, 1.5}});
    REQUIRE(four);
    CHECK(four->laspeyres == Approx(740.0 / 669));
    CHECK(four->paasche == Approx(629.0 / 571));
    CHECK(four->fisher == Approx(1.10385002).margin(1e-8));
    // A Fisher price index times the Fisher quantity index (prices and quantities change places) is the ratio of the values spent: 1, 1.41, 1.528, 1.756, 2.
    const std::array spent{10.0, 14.1, 15.28, 17.56, 20.0};
    for (std::size_t i = 0; i < periods.size(); ++i) {
        const auto amounts = priceIndex(std::vector{GoodInTwoPeriods{periods[0].quantities[0], periods[0].prices[0], periods[i].quantities[0], periods[i].prices[0]},
                                                    GoodInTwoPeriods{periods[0].quantities[1], periods[0].prices[1], periods[i].quantities[1], periods[i].prices[1]},
                                                    GoodInTwoPeriods{periods[0].quantities[2], periods[0].prices[2], periods[i].quantities[2], periods[i].prices[2]},
                                                    GoodInTwoPeriods{periods[0].quantities[3], periods[0].prices[3], periods[i].quantities[3], periods[i].prices[3]},
                                                    GoodInTwoPeriods{periods[0].quantities[4], periods[0].prices[4], periods[i].quantities[4], periods[i].prices[4]},
                                                    GoodInTwoPeriods{periods[0].quantities[5], periods[0].prices[5], periods[i].quantities[5], periods[i].prices[5]}});
        CHECK(fixed[i].fisher * amounts->fisher == Approx(spent[i] / 10).epsilon(1e-12));
    }
}

TEST_CASE("Distributions give the tables' figures", "[distributions]")
{
    // R 4.2.2: qt(.975, 34), pt(2.228, 10), pt(-1, 1); pf(330.285339234588, 6, 9, lower.tail = FALSE) is the F of NIST's Longley set.
    CHECK(studentQuantile(0.975, 34) == Approx(2.03224450931772).epsilon(1e-12));
    CHECK(studentShareBelow(2.228, 10) == Approx(0.974994114091444).epsilon(1e-12));
    CHECK(studentShareBelow(-1, 1) == Approx(0.25).epsilon(1e-12));
    CHECK(fisherShareAbove(330.285339234588, 6, 9) == Approx(4.98403052872e-10).epsilon(1e-9));
    CHECK(studentReach(0.80, 34) == Approx(studentQuantile(0.9, 34)));
    // The normal distribution's 90 % point, in every table: 1.2815515655.
    CHECK(normalQuantile(0.9) == Approx(1.2815515655446).epsilon(1e-10));
    CHECK_THROWS(studentQuantile(1.5, 3));
    CHECK_THROWS(studentQuantile(0.5, 0));
}
