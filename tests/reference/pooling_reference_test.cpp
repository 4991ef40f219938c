#include "statistics/logistic.h"
#include "statistics/random_effects.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numeric>

using namespace strikeoff;

namespace {

std::vector<GroupValue> groupsOf(const std::vector<double>& values, const std::vector<double>& variances)
{
    std::vector<GroupValue> groups;
    for (std::size_t i = 0; i < values.size(); ++i) groups.push_back({values[i], variances[i]});
    return groups;
}

std::vector<GroupValue> schools(bool rounded)
{
    const auto values = rounded ? std::vector<double>{28, 8, -3, 7, -1, 1, 18, 12} : std::vector<double>{28.39, 7.94, -2.75, 6.82, -0.64, 0.63, 18.01, 12.16};
    const auto errors = rounded ? std::vector<double>{15, 10, 16, 11, 9, 11, 10, 18} : std::vector<double>{14.9, 10.2, 16.3, 11, 9.4, 11.4, 10.4, 17.6};
    std::vector<GroupValue> groups;
    for (std::size_t i = 0; i < values.size(); ++i) groups.push_back({values[i], errors[i] * errors[i]});
    return groups;
}

}

TEST_CASE("thirteen trials of a vaccine pool to the published mean, spread and shrunken values", "[reference][pooling]")
{
    // Data: Colditz et al., JAMA 271 (1994) 698–702, log risk ratios. Figures by DerSimonian and Laird's estimator as the published test suite of the R
    // package metafor has them (spread 0.3088, mean −0.7141, error 0.1787, I² 92.12 %), with more digits recomputed there.
    const std::vector<double> values{-0.8893113339, -1.5853886572, -1.3480731483, -1.44155119, -0.2175473222, -0.7861155858, -1.6208982236,
                                     0.0119523335, -0.4694176487, -1.3713448035, -0.3393588283, 0.4459134006, -0.0173139482};
    const std::vector<double> variances{0.325584765, 0.1945811214, 0.4153679654, 0.0200100319, 0.0512101722, 0.0069056185, 0.2230172476,
                                        0.0039615793, 0.0564342105, 0.0730247936, 0.012412214, 0.5325058452, 0.0714046597};
    const std::vector<double> shrunk{-0.7993909732, -1.2485735687, -0.9844290133, -1.3972771874, -0.2881904295, -0.7845405242, -1.2406117332,
                                     0.0027544403, -0.5072315485, -1.2456355656, -0.3538419541, -0.2883647309, -0.1481913587};
    const auto pooled = pool(groupsOf(values, variances));
    CHECK(pooled.common.fixedMean == Approx(-0.4302851637).epsilon(1e-7));
    CHECK(pooled.common.fixedError == Approx(0.0404987517).epsilon(1e-7));
    CHECK(pooled.common.q == Approx(152.2330081).epsilon(1e-7));
    CHECK(pooled.common.spread == Approx(0.3087602629).epsilon(1e-7));
    CHECK(pooled.common.mean == Approx(-0.7141172221).epsilon(1e-7));
    CHECK(pooled.common.error == Approx(0.1787420895).epsilon(1e-7));
    CHECK(pooled.common.inconsistency() == Approx(0.921173469).epsilon(1e-7));
    for (std::size_t i = 0; i < shrunk.size(); ++i) CHECK(pooled.values[i].estimate == Approx(shrunk[i]).epsilon(1e-6));
}

TEST_CASE("two more published sets have their spread between studies", "[reference][pooling]")
{
    // Viechtbauer, Journal of Educational and Behavioral Statistics 30 (2005) 261–293, pages 271 and 272: DL spread 0.2768 with I² 80.44 %, and 0.0126 with 27.53 %.
    const auto first = randomEffects(groupsOf({-0.581, 0.530, 0.771, 1.031, 0.553, 0.295, 0.078, 0.573, -0.176, -0.232},
                                              {0.023, 0.052, 0.060, 0.115, 0.095, 0.203, 0.200, 0.211, 0.051, 0.040}));
    CHECK(first.spread == Approx(0.2767778291).epsilon(1e-4));
    CHECK(first.inconsistency() == Approx(0.804447).epsilon(1e-4));
    CHECK(first.mean == Approx(0.2503356761).epsilon(1e-4));
    CHECK(first.error == Approx(0.1923489844).epsilon(1e-4));
    const auto second = randomEffects(groupsOf({0.100, -0.162, -0.090, -0.049, -0.046, -0.010, -0.431, -0.261, 0.134, 0.019, 0.175, 0.056, 0.045, 0.103, 0.121, -0.482, 0.290, 0.342},
                                               {0.016, 0.015, 0.050, 0.050, 0.032, 0.052, 0.036, 0.024, 0.034, 0.033, 0.031, 0.034, 0.039, 0.167, 0.134, 0.096, 0.016, 0.035}));
    CHECK(second.spread == Approx(0.0126453548).epsilon(1e-4));
    CHECK(second.inconsistency() == Approx(0.275275).epsilon(1e-4));
}

TEST_CASE("trials given as counts pool to the published log odds", "[reference][pooling]")
{
    // DerSimonian and Kacker, Contemporary Clinical Trials 28 (2007) 105–114, tables 3 and 4: low-dose aspirin, spread 0.2323 (a standard deviation), mean −0.3240, error 0.1540.
    const std::vector<double> treated{156, 303, 565, 1570, 103, 4659}, treatedEvents{5, 5, 12, 69, 9, 313};
    const std::vector<double> control{74, 303, 477, 1565, 105, 4650}, controlEvents{8, 17, 9, 94, 11, 352};
    std::vector<GroupValue> groups;
    for (std::size_t i = 0; i < treated.size(); ++i) {
        const double a = treatedEvents[i], b = treated[i] - a, c = controlEvents[i], d = control[i] - c;
        groups.push_back({std::log(a * d / (b * c)), 1 / a + 1 / b + 1 / c + 1 / d});
    }
    const auto found = randomEffects(groups);
    CHECK(std::sqrt(found.spread) == Approx(0.2323).margin(1e-4));
    CHECK(found.mean == Approx(-0.3240).margin(1e-4));
    CHECK(found.error == Approx(0.1540).margin(1e-4));
}

TEST_CASE("eight schools that scatter no more than chance have no spread, and every estimate is the common mean", "[reference][pooling]")
{
    // Data: Rubin, Journal of Educational Statistics 6 (1981) 377–401. The moment estimate comes out below zero and is set to zero exactly.
    const auto exact = pool(schools(false));
    CHECK(exact.common.spread == 0);
    CHECK(exact.common.q == Approx(4.563261183).epsilon(1e-8));
    CHECK(exact.common.mean == Approx(7.870545565).epsilon(1e-8));
    CHECK(exact.common.error == Approx(4.16557774).epsilon(1e-8));
    for (const auto& value : exact.values) {
        CHECK(value.estimate == Approx(7.870545565).epsilon(1e-8));
        CHECK(value.weight == 0);
    }
    const auto rounded = pool(schools(true));
    CHECK(rounded.common.spread == 0);
    CHECK(rounded.common.mean == Approx(7.685616725).epsilon(1e-8));
    CHECK(rounded.common.error == Approx(4.071919158).epsilon(1e-8));
    CHECK(rounded.common.q == Approx(4.707078864).epsilon(1e-8));
}

TEST_CASE("intervals of the eight schools are as wide as when the spread is not taken for known", "[reference][pooling]")
{
    // Gelman, Carlin, Stern and Rubin, Bayesian Data Analysis, table 5.3 (from memory): with a flat prior on the spread, standard deviations of the schools' effects
    // lie between 5.6 (E) and 8.4 (A), by simulation; the program's 80 % interval of a bell curve of that width is 2 × 1.2816 of them long. A spread taken
    // for the zero it was estimated as would give all of them 2 × 1.2816 × 4.07.
    const auto pooled = pool(schools(true));
    const double known = 2 * 1.2816 * 4.0719;
    for (const auto& value : pooled.values) {
        CHECK(value.high - value.low > 1.2 * known);
        CHECK(value.high - value.low < 2 * 1.2816 * 9.5);
    }
    CHECK(pooled.values[0].error == Approx(8.4).margin(0.8));  // school A
    CHECK(pooled.values[4].error == Approx(6.3).margin(0.8));  // school E
    // The same table's quartiles of school A, 7 and 16: half its probability lies between them, so its 80 % interval reaches past both.
    CHECK(pooled.values[0].low < 7);
    CHECK(pooled.values[0].high > 16);
}

TEST_CASE("eighteen batting averages shrink as published and come closer to the season", "[reference][pooling]")
{
    // Efron and Morris, "Stein's paradox in statistics", Scientific American 236 (1977) no. 5, 119–127: c 0.212. The squared errors follow from the data (the
    // article's printed totals do not).
    const std::vector<double> hits{18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7};
    const std::vector<double> season{0.346, 0.298, 0.276, 0.222, 0.273, 0.270, 0.263, 0.210, 0.269, 0.230, 0.264, 0.256, 0.303, 0.264, 0.226, 0.285, 0.316, 0.200};
    std::vector<double> averages;
    for (const double each : hits) averages.push_back(each / 45);
    const double mean = std::accumulate(averages.begin(), averages.end(), 0.0) / 18;
    const auto shrunk = shrinkTowardMean(averages, mean * (1 - mean) / 45);
    CHECK(shrunk.mean == Approx(0.2654321).margin(1e-6));
    CHECK(shrunk.factor == Approx(0.21165342).margin(1e-6));
    CHECK(shrunk.values.front() == Approx(0.29391385).margin(1e-6));
    CHECK(shrunk.values.back() == Approx(0.24217635).margin(1e-6));
    double raw = 0, drawn = 0;
    for (std::size_t i = 0; i < averages.size(); ++i) {
        raw += std::pow(averages[i] - season[i], 2);
        drawn += std::pow(shrunk.values[i] - season[i], 2);
    }
    CHECK(raw == Approx(0.0753170).margin(1e-6));
    CHECK(drawn == Approx(0.0213069).margin(1e-6));
    // With the averages as the article prints them, to three digits: c 0.2123905.
    std::vector<double> printed;
    for (const double each : averages) printed.push_back(std::round(each * 1000) / 1000);
    const double printedMean = std::accumulate(printed.begin(), printed.end(), 0.0) / 18;
    CHECK(shrinkTowardMean(printed, printedMean * (1 - printedMean) / 45).factor == Approx(0.2123905).margin(1e-6));
}

TEST_CASE("limits of a share are Wilson's", "[reference][pooling]")
{
    // Newcombe, Statistics in Medicine 17 (1998) 857–872, table I, method 3, 95 %.
    struct Row {
        int counted, of;
        double low, high;
    };
    for (const auto& row : {Row{81, 263, 0.2553, 0.3662}, Row{15, 148, 0.0624, 0.1605}, Row{0, 20, 0, 0.1611}, Row{1, 29, 0.0061, 0.1718}}) {
        const auto limits = shareLimits(row.counted, row.of, 0.95);
        CHECK(limits.low == Approx(row.low).margin(1e-4));
        CHECK(limits.high == Approx(row.high).margin(1e-4));
    }
}

TEST_CASE("the chance of a failed seal by temperature is the published one", "[reference][logistic]")
{
    // Dalal, Fowlkes and Hoadley, "Risk analysis of the space shuttle", JASA 84 (1989) 945–957: 23 flights, primary O-ring distress by joint temperature in °F. Coefficients
    // 15.0429 (7.3786) and −0.2322 (0.1082), residual deviance 20.315, as textbooks give them for the distress of any ring (from memory).
    const double temperature[] = {66, 70, 69, 68, 67, 72, 73, 70, 57, 63, 70, 78, 67, 53, 67, 75, 70, 81, 76, 79, 75, 76, 58};
    const bool distress[] = {false, true, false, false, false, false, false, false, true, true, true, false, false, true, false, false, false, false, false, false, true, false, true};
    Predictors x{2};
    std::vector<bool> outcomes;
    for (std::size_t i = 0; i < 23; ++i) {
        x.add({1, temperature[i]});
        outcomes.push_back(distress[i]);
    }
    const auto result = fitLogistic(x, outcomes);
    REQUIRE(result.fit);
    CHECK(result.fit->coefficients[0] == Approx(15.0429).margin(1e-3));
    CHECK(result.fit->coefficients[1] == Approx(-0.2322).margin(1e-4));
    CHECK(result.fit->standardError(0) == Approx(7.3786).margin(2e-3));
    CHECK(result.fit->standardError(1) == Approx(0.1082).margin(1e-4));
    CHECK(result.fit->deviance == Approx(20.315).margin(1e-3));
}
