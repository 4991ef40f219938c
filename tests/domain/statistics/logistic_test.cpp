#include "statistics/logistic.h"

#include <catch2/catch.hpp>

#include <iomanip>
#include <iostream>
#include <random>

using namespace strikeoff;

TEST_CASE("quotes that price alone decided give no slope but a refusal", "[statistics][logistic]")
{
    Predictors x{2};
    std::vector<bool> won;
    for (int i = 0; i < 30; ++i) {
        x.add({1, i / 10.0});
        won.push_back(i < 15);
    }
    const auto result = fitLogistic(x, won);
    CHECK_FALSE(result.fit);
    CHECK(result.refusal.find("without a single miss") != std::string::npos);
    // One tie at the border parts them all but that figure: still no top.
    Predictors tied{2};
    std::vector<bool> outcome;
    for (int i = 0; i < 30; ++i) {
        tied.add({1, static_cast<double>(i < 15 ? 0 : i == 15 ? 0 : 1)});
        outcome.push_back(i < 15);
    }
    CHECK_FALSE(fitLogistic(tied, outcome).fit);
}

TEST_CASE("too few of one outcome, and predictors that say the same, are refused", "[statistics][logistic]")
{
    Predictors x{2};
    std::vector<bool> won;
    for (int i = 0; i < 10; ++i) {
        x.add({1, static_cast<double>(i)});
        won.push_back(i == 4);
    }
    CHECK(fitLogistic(x, won).refusal.find("too few") != std::string::npos);
    Predictors same{3};
    std::vector<bool> mixed;
    for (int i = 0; i < 20; ++i) {
        same.add({1, static_cast<double>(i), 2.0 * i + 1});
        mixed.push_back(i % 3 == 0);
    }
    CHECK(fitLogistic(same, mixed).refusal.find("follows from the others") != std::string::npos);
}

TEST_CASE("a chance of winning holds the truth eight times in ten", "[statistics][simulation]")
{
    int held = 0, fitted = 0;
    for (unsigned seed = 1; seed <= 500; ++seed) {
        std::mt19937_64 engine{seed};
        std::normal_distribution<double> dear{0, 0.15};
        std::uniform_real_distribution<double> even;
        const auto truth = [](double x) { return 1 / (1 + std::exp(-(0.4 - 6 * x))); };
        Predictors x{2};
        std::vector<bool> won;
        for (int i = 0; i < 80; ++i) {
            const double price = dear(engine);
            x.add({1, price});
            won.push_back(even(engine) < truth(price));
        }
        const auto result = fitLogistic(x, won);
        if (!result.fit) continue;
        ++fitted;
        const double row[] = {1, 0.1};
        const auto chance = result.fit->chanceAt(row);
        held += chance.low <= truth(0.1) && truth(0.1) <= chance.high;
    }
    std::cout << "80 % intervals of the chance of winning, 500 seeds: truth held " << std::fixed << std::setprecision(1) << 100.0 * held / fitted << " %\n";
    CHECK(fitted > 490);
    CHECK(held >= 0.75 * fitted);
    CHECK(held <= 0.85 * fitted);
}
