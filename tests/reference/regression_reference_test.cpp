#include "statistics/regression.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <functional>

using namespace strikeoff;

// Source of data and certified values: NIST/ITL, Statistical Reference Datasets, linear regression and "One-Way" sets (public domain of the US government): Norris, Longley,
// Pontius, Filip, Wampler1, 2, 4 and 5, NoInt1, NoInt2. Intervals of Norris: Student's t with 34 degrees of freedom, computed by R 4.2.2 (lm).

namespace {

struct Point {
    double y;
    double x;
};

constexpr std::array<Point, 36> norris{{
    {0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6},
    {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
    {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3}, {0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1},
    {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}
}};

constexpr std::array<Point, 40> pontius{{
    {0.11019, 150000}, {0.21956, 300000}, {0.32949, 450000}, {0.43899, 600000}, {0.54803, 750000}, {0.65694, 900000}, {0.76562, 1050000}, {0.87487, 1200000},
    {0.98292, 1350000}, {1.09146, 1500000}, {1.20001, 1650000}, {1.30822, 1800000}, {1.41599, 1950000}, {1.52399, 2100000}, {1.63194, 2250000}, {1.73947, 2400000},
    {1.84646, 2550000}, {1.95392, 2700000}, {2.06128, 2850000}, {2.16844, 3000000}, {0.11052, 150000}, {0.22018, 300000}, {0.32939, 450000}, {0.43886, 600000},
    {0.54798, 750000}, {0.65739, 900000}, {0.76596, 1050000}, {0.87474, 1200000}, {0.98300, 1350000}, {1.09150, 1500000}, {1.20004, 1650000}, {1.30818, 1800000},
    {1.41613, 1950000}, {1.52408, 2100000}, {1.63159, 2250000}, {1.73965, 2400000}, {1.84696, 2550000}, {1.95445, 2700000}, {2.06177, 2850000}, {2.16829, 3000000}
}};

constexpr std::array<Point, 82> filip{{
    {0.8116, -6.860120914}, {0.9072, -4.324130045}, {0.9052, -4.358625055}, {0.9039, -4.358426747}, {0.8053, -6.955852379}, {0.8377, -6.661145254},
    {0.8667, -6.355462942}, {0.8809, -6.118102026}, {0.7975, -7.115148017}, {0.8162, -6.815308569}, {0.8515, -6.519993057}, {0.8766, -6.204119983},
    {0.8885, -5.853871964}, {0.8859, -6.109523091}, {0.8959, -5.79832982}, {0.8913, -5.482672118}, {0.8959, -5.171791386}, {0.8971, -4.851705903},
    {0.9021, -4.517126416}, {0.909, -4.143573228}, {0.9139, -3.709075441}, {0.9199, -3.499489089}, {0.8692, -6.300769497}, {0.8872, -5.953504836},
    {0.89, -5.642065153}, {0.891, -5.031376979}, {0.8977, -4.680685696}, {0.9035, -4.329846955}, {0.9078, -3.928486195}, {0.7675, -8.56735134},
    {0.7705, -8.363211311}, {0.7713, -8.107682739}, {0.7736, -7.823908741}, {0.7775, -7.522878745}, {0.7841, -7.218819279}, {0.7971, -6.920818754},
    {0.8329, -6.628932138}, {0.8641, -6.323946875}, {0.8804, -5.991399828}, {0.7668, -8.781464495}, {0.7633, -8.663140179}, {0.7678, -8.473531488},
    {0.7697, -8.247337057}, {0.77, -7.971428747}, {0.7749, -7.676129393}, {0.7796, -7.352812702}, {0.7897, -7.072065318}, {0.8131, -6.774174009},
    {0.8498, -6.478861916}, {0.8741, -6.159517513}, {0.8061, -6.835647144}, {0.846, -6.53165267}, {0.8751, -6.224098421}, {0.8856, -5.910094889},
    {0.8919, -5.598599459}, {0.8934, -5.290645224}, {0.894, -4.974284616}, {0.8957, -4.64454848}, {0.9047, -4.290560426}, {0.9129, -3.885055584},
    {0.9209, -3.408378962}, {0.9219, -3.13200249}, {0.7739, -8.726767166}, {0.7681, -8.66695597}, {0.7665, -8.511026475}, {0.7703, -8.165388579},
    {0.7702, -7.886056648}, {0.7761, -7.588043762}, {0.7809, -7.283412422}, {0.7961, -6.995678626}, {0.8253, -6.691862621}, {0.8602, -6.392544977},
    {0.8809, -6.067374056}, {0.8301, -6.684029655}, {0.8664, -6.378719832}, {0.8834, -6.065855188}, {0.8898, -5.752272167}, {0.8964, -5.132414673},
    {0.8963, -4.811352704}, {0.9074, -4.098269308}, {0.9119, -3.66174277}, {0.9228, -3.2644011}
}};

constexpr std::array<std::array<double, 7>, 16> longley{{
    {60323, 83.0, 234289, 2356, 1590, 107608, 1947}, {61122, 88.5, 259426, 2325, 1456, 108632, 1948},
    {60171, 88.2, 258054, 3682, 1616, 109773, 1949}, {61187, 89.5, 284599, 3351, 1650, 110929, 1950},
    {63221, 96.2, 328975, 2099, 3099, 112075, 1951}, {63639, 98.1, 346999, 1932, 3594, 113270, 1952},
    {64989, 99.0, 365385, 1870, 3547, 115094, 1953}, {63761, 100.0, 363112, 3578, 3350, 116219, 1954},
    {66019, 101.2, 397469, 2904, 3048, 117388, 1955}, {67857, 104.6, 419180, 2822, 2857, 118734, 1956},
    {68169, 108.4, 442769, 2936, 2798, 120445, 1957}, {66513, 110.8, 444546, 4681, 2637, 121950, 1958},
    {68655, 112.6, 482704, 3813, 2552, 123366, 1959}, {69564, 114.2, 502601, 3931, 2514, 125368, 1960},
    {69331, 115.7, 518173, 4806, 2572, 127852, 1961}, {70551, 116.9, 554894, 4007, 2827, 130081, 1962}
}};

constexpr std::array<Point, 21> wampler4{{
    {75901, 0}, {-204794, 1}, {204863, 2}, {-204436, 3}, {253665, 4}, {-200894, 5}, {214131, 6},
    {-185192, 7}, {221249, 8}, {-138370, 9}, {315911, 10}, {-27644, 11}, {455253, 12}, {197434, 13},
    {783995, 14}, {608816, 15}, {1370781, 16}, {1303798, 17}, {2205519, 18}, {2408860, 19}, {3444321, 20}
}};

constexpr std::array<Point, 21> wampler5{{
    {7590001, 0}, {-20479994, 1}, {20480063, 2}, {-20479636, 3}, {25231365, 4}, {-20476094, 5}, {20489331, 6},
    {-20460392, 7}, {18417449, 8}, {-20413570, 9}, {20591111, 10}, {-20302844, 11}, {18651453, 12}, {-20077766, 13},
    {21059195, 14}, {-19666384, 15}, {26348481, 16}, {-18971402, 17}, {22480719, 18}, {-17866340, 19}, {10958421, 20}
}};

template <std::size_t count>
LinearFit polynomial(const std::array<Point, count>& points, int degree)
{
    Predictors predictors{static_cast<std::size_t>(degree) + 1};
    std::vector<double> observed;
    for (const auto& point : points) {
        std::vector<double> row{1};
        for (int i = 0; i < degree; ++i) row.push_back(row.back() * point.x);
        predictors.add(row);
        observed.push_back(point.y);
    }
    const auto result = fitLinear(predictors, observed);
    INFO(result.refusal);
    REQUIRE(result.fit);
    return *result.fit;
}

std::array<Point, 21> wampler(const std::function<double(double)>& y)
{
    std::array<Point, 21> points{};
    for (std::size_t i = 0; i < points.size(); ++i) points[i] = {y(static_cast<double>(i)), static_cast<double>(i)};
    return points;
}

Approx near(double value, double relative) { return Approx(value).epsilon(relative).margin(0); }

}

TEST_CASE("Norris: a line as NIST certifies it", "[regression]")
{
    const auto fit = polynomial(norris, 1);
    CHECK(fit.coefficients[0] == near(-0.262323073774029, 1e-9));
    CHECK(fit.coefficients[1] == near(1.00211681802045, 1e-9));
    CHECK(fit.standardErrors[0] == near(0.232818234301152, 1e-9));
    CHECK(fit.standardErrors[1] == near(0.429796848199937e-03, 1e-9));
    CHECK(fit.residualSd == near(0.884796396144373, 1e-9));
    CHECK(fit.rSquared == near(0.999993745883712, 1e-12));
    CHECK(fit.residualSquares == near(26.6173985294224, 1e-9));
    CHECK(fit.degrees == 34);

    const auto first = fit.coefficient(0, 0.95);
    CHECK(first.low == near(-0.735466652102, 1e-9));
    CHECK(first.high == near(0.210820504553, 1e-9));
    const auto slope = fit.coefficient(1, 0.90);
    CHECK(slope.low == near(1.001390064105, 1e-9));
    CHECK(slope.high == near(1.002843571936, 1e-9));
    const auto mean = fit.meanAt(std::array{1.0, 500.0}, 0.95);
    CHECK(mean.value == near(500.796085936453, 1e-9));
    CHECK(mean.low == near(500.488196471533, 1e-9));
    CHECK(mean.high == near(501.103975401373, 1e-9));
    CHECK(fit.standardErrorAt(std::array{1.0, 1000.0}) == near(0.2899381894, 1e-9));
    const auto next = fit.nextAt(std::array{1.0, 1000.0}, 0.80);
    CHECK(next.low == near(1000.637605233254, 1e-9));
    CHECK(next.high == near(2 * 1001.854494946680 - 1000.637605233254, 1e-9));  // as far above the line as the other end is below
}

TEST_CASE("Longley: six predictors that nearly follow from each other, as NIST certifies them", "[regression]")
{
    Predictors predictors{7};
    std::vector<double> observed;
    for (const auto& row : longley) {
        predictors.add({1, row[1], row[2], row[3], row[4], row[5], row[6]});
        observed.push_back(row[0]);
    }
    const auto result = fitLinear(predictors, observed);
    REQUIRE(result.fit);
    const auto& fit = *result.fit;
    const std::array expected{-3482258.63459582, 15.0618722713733, -0.0358191792925910, -2.02022980381683, -1.03322686717359, -0.0511041056535807, 1829.15146461355};
    const std::array errors{890420.383607373, 84.9149257747669, 0.0334910077722432, 0.488399681651699, 0.214274163161675, 0.226073200069370, 455.478499142212};
    for (std::size_t i = 0; i < expected.size(); ++i) {
        CHECK(fit.coefficients[i] == near(expected[i], 1e-7));
        CHECK(fit.standardErrors[i] == near(errors[i], 1e-7));
    }
    CHECK(fit.residualSd == near(304.854073561965, 1e-7));
    CHECK(fit.rSquared == near(0.995479004577296, 1e-7));
    CHECK(fit.residualSquares == near(836424.055505915, 1e-7));
}

TEST_CASE("Pontius: a parabola as NIST certifies it", "[regression]")
{
    const auto fit = polynomial(pontius, 2);
    CHECK(fit.coefficients[0] == near(6.73565789473684e-04, 1e-7));
    CHECK(fit.coefficients[1] == near(7.32059160401003e-07, 1e-7));
    CHECK(fit.coefficients[2] == near(-3.16081871345029e-15, 1e-7));
    CHECK(fit.standardErrors[0] == near(1.07938612033077e-04, 1e-7));
    CHECK(fit.standardErrors[2] == near(4.86652849992036e-17, 1e-7));
    CHECK(fit.residualSd == near(2.05177424076185e-04, 1e-7));
    CHECK(fit.rSquared == near(0.999999900178537, 1e-9));
}

TEST_CASE("Filip: degree ten is fitted to the certified values or refused, never silently wrong", "[regression]")
{
    Predictors predictors{11};
    std::vector<double> observed;
    for (const auto& point : filip) {
        std::vector<double> row{1};
        for (int i = 0; i < 10; ++i) row.push_back(row.back() * point.x);
        predictors.add(row);
        observed.push_back(point.y);
    }
    const auto result = fitLinear(predictors, observed);
    if (!result.fit) {
        CHECK_FALSE(result.refusal.empty());
        return;
    }
    const std::array expected{-1467.48961422980, -2772.17959193342, -2316.37108160893, -1127.97394098372, -354.478233703349, -75.1242017393757,
                              -10.8753180355343, -1.06221498588947, -0.0670191154593408, -0.00246781078275479, -4.02962525080404e-05};
    for (std::size_t i = 0; i < expected.size(); ++i) CHECK(result.fit->coefficients[i] == near(expected[i], 1e-5));
    CHECK(result.fit->standardErrors[0] == near(298.084530995537, 1e-5));
    CHECK(result.fit->standardErrors[10] == near(8.96632837373868e-06, 1e-5));
    CHECK(result.fit->residualSd == near(3.34801051324544e-03, 1e-5));
    CHECK(result.fit->rSquared == near(0.996727416185620, 1e-7));
}

TEST_CASE("Wampler: degree five, without noise and with much, as NIST certifies it", "[regression]")
{
    const auto first = polynomial(wampler([](double x) { return 1 + x * (1 + x * (1 + x * (1 + x * (1 + x)))); }), 5);
    for (const auto coefficient : first.coefficients) CHECK(coefficient == Approx(1).margin(1e-6).epsilon(0));
    CHECK(first.residualSd < 1e-6);
    CHECK(first.rSquared == near(1, 1e-12));

    const auto second = polynomial(wampler([](double x) { return 1 + x * (0.1 + x * (0.01 + x * (0.001 + x * (0.0001 + x * 0.00001)))); }), 5);
    for (std::size_t i = 0; i < 6; ++i) CHECK(second.coefficients[i] == Approx(std::pow(10.0, -static_cast<double>(i))).margin(1e-6).epsilon(0));

    const auto fourth = polynomial(wampler4, 5);
    for (const auto coefficient : fourth.coefficients) CHECK(coefficient == Approx(1).margin(1e-6).epsilon(0));
    CHECK(fourth.residualSd == near(236014.502379268, 1e-6));
    CHECK(fourth.rSquared == near(0.957478440825662, 1e-6));
    CHECK(fourth.standardErrors[0] == near(215232.624678170, 1e-6));
    CHECK(fourth.standardErrors[5] == near(11.2324854679312, 1e-6));

    const auto fifth = polynomial(wampler5, 5);
    for (const auto coefficient : fifth.coefficients) CHECK(coefficient == Approx(1).margin(1e-4).epsilon(0));
    CHECK(fifth.residualSd == near(23601450.2379268, 1e-6));
    CHECK(fifth.rSquared == near(0.00224668921574940, 1e-6));
}

TEST_CASE("NoInt1 and NoInt2: lines through zero as NIST certifies them", "[regression]")
{
    const auto through = [](std::initializer_list<Point> points) {
        Predictors predictors{1};
        std::vector<double> observed;
        for (const auto& point : points) {
            predictors.add({point.x});
            observed.push_back(point.y);
        }
        return *fitLinear(predictors, observed).fit;
    };
    const auto first = through({{130, 60}, {131, 61}, {132, 62}, {133, 63}, {134, 64}, {135, 65}, {136, 66}, {137, 67}, {138, 68}, {139, 69}, {140, 70}});
    CHECK(first.coefficients[0] == near(2.07438016528926, 1e-10));
    CHECK(first.standardErrors[0] == near(0.0165289256198347, 1e-10));
    CHECK(first.residualSd == near(3.56753034006338, 1e-10));
    CHECK(first.rSquared == near(0.999365492298663, 1e-10));
    const auto second = through({{3, 4}, {4, 5}, {4, 6}});
    CHECK(second.coefficients[0] == near(0.727272727272727, 1e-10));
    CHECK(second.standardErrors[0] == near(0.0420827318078432, 1e-10));
    CHECK(second.residualSd == near(0.369274472937998, 1e-10));
    CHECK(second.rSquared == near(0.993348115299335, 1e-10));
}

TEST_CASE("A regression that has no answer is refused", "[regression]")
{
    Predictors same{2};
    for (int i = 0; i < 5; ++i) same.add({1, 7});
    CHECK_FALSE(fitLinear(same, std::array{1.0, 2.0, 3.0, 4.0, 5.0}).fit);
    CHECK_FALSE(fitRobustly(same, std::array{1.0, 2.0, 3.0, 4.0, 5.0}).fit);
    Predictors one{2};
    one.add({1, 7});
    CHECK_FALSE(fitLinear(one, std::array{1.0}).fit);
    one.add({1, 8});
    const auto two = fitLinear(one, std::array{1.0, 2.0});
    CHECK_FALSE(two.fit);
    CHECK(two.refusal == "There are too few observations: 2 for 2 unknowns.");
    Predictors sums{3};
    for (int i = 0; i < 9; ++i) sums.add({1.0 * i, 0.3 * i * i, 1.0 * i + 0.3 * i * i});
    CHECK_FALSE(fitLinear(sums, std::vector<double>(9, 1.0)).fit);
    Predictors holes{1};
    holes.add({1});
    holes.add({1});
    CHECK_FALSE(fitLinear(holes, std::array{1.0, std::nan("")}).fit);
}
