#include "statistics/seasonal_fit.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace strikeoff;

namespace {

/// A history with known truth: groups of their own level, a trend, four seasons, months that scatter and remember, single records that scatter, a few far off.
struct MadeHistory {
    double trend = 0.03;
    std::array<double, 4> seasons{0.04, -0.01, -0.03, 0.00};
    double monthSd = 0.015;
    double memory = 0;
    double spread = 0.05;
    double odd = 0.02;
    double perSize = 0;
    int months = 48;
    int ahead = 9;
    double meanPerMonth = 8;
    int groups = 5;

    std::vector<SeasonalObservation> observations;
    std::vector<double> levels;  ///< of every month, those ahead too

    void make(std::mt19937& random)
    {
        std::normal_distribution<double> noise;
        std::uniform_real_distribution<double> chance;
        const SeasonalQuestion question;
        double lives = monthSd * noise(random);
        for (int month = 0; month < months + ahead; ++month) {
            if (month > 0) lives = memory * lives + monthSd * std::sqrt(1 - memory * memory) * noise(random);
            const auto quarter = static_cast<std::size_t>(question.quarterOf[static_cast<std::size_t>(month % 12)]);
            levels.push_back(5 + trend * month / 12 + seasons[quarter] + lives);
            if (month >= months) continue;
            // Few in winter, and then of other groups than in summer: what a plain mean would mistake for the season.
            const int count = std::poisson_distribution<int>{quarter == 0 ? meanPerMonth / 4 : meanPerMonth}(random);
            for (int i = 0; i < count; ++i) {
                const auto tilt = quarter == 0 ? chance(random) * chance(random) : chance(random);
                const int group = chance(random) < 0.35 ? 0 : std::min(groups - 1, static_cast<int>(tilt * groups));
                const double size = noise(random);
                double value = levels.back() + 0.08 * group + perSize * size + spread * noise(random);
                if (chance(random) < odd) value += chance(random) < 0.5 ? 1.1 : -2.3;
                observations.push_back({month, group, size, value});
            }
        }
    }
};

struct Held {
    int trend = 0, seasons = 0, seasonsAsked = 0, ahead = 0, aheadAsked = 0, shown = 0, size = 0, refused = 0;
};

Held simulate(const MadeHistory& kind, int rounds, unsigned seed)
{
    Held held;
    double mean = 0;
    for (const auto season : kind.seasons) mean += season / 4;
    for (int round = 0; round < rounds; ++round) {
        std::mt19937 random{seed + static_cast<unsigned>(round)};
        auto history = kind;
        history.make(random);
        SeasonalQuestion question;
        question.allowsForSize = true;
        for (int i = 0; i < kind.ahead; ++i) question.ahead.push_back(kind.months + i);
        const auto result = fitSeasons(history.observations, question);
        if (!result.fit) {
            ++held.refused;
            continue;
        }
        const auto& fit = *result.fit;
        const auto holds = [](const Estimate& estimate, double truth) { return estimate.low <= truth && truth <= estimate.high ? 1 : 0; };
        held.trend += holds(*fit.trendPerYear, kind.trend);
        for (std::size_t quarter = 0; quarter < 4; ++quarter) {
            held.seasons += holds(*fit.quarters[quarter], kind.seasons[quarter] - mean);
            ++held.seasonsAsked;
        }
        for (std::size_t i = 0; i < fit.ahead.size(); ++i) {
            held.ahead += holds(fit.ahead[i], history.levels[static_cast<std::size_t>(kind.months) + i]);
            ++held.aheadAsked;
        }
        held.size += holds(*fit.perSize, kind.perSize);
        held.shown += fit.showsSeason() ? 1 : 0;
    }
    return held;
}

double percentOf(int part, int whole) { return std::round(1000.0 * part / whole) / 10; }

}

TEST_CASE("Trend, season and the months ahead hold the truth four times in five", "[statistics][seasonal][coverage]")
{
    constexpr int rounds = 500;
    const auto check = [&](const char* name, const MadeHistory& kind) {
        const auto held = simulate(kind, rounds, 4000);
        WARN(name << ", " << rounds << " histories, 80 % intervals hold: trend " << percentOf(held.trend, rounds) << " %, seasons " << percentOf(held.seasons, held.seasonsAsked)
                  << " %, months ahead " << percentOf(held.ahead, held.aheadAsked) << " %, size " << percentOf(held.size, rounds) << " %; a season shows in "
                  << percentOf(held.shown, rounds) << " %");
        CHECK(held.refused == 0);
        for (const auto share : {percentOf(held.trend, rounds), percentOf(held.seasons, held.seasonsAsked), percentOf(held.ahead, held.aheadAsked), percentOf(held.size, rounds)}) {
            CHECK(share >= 75);
            CHECK(share <= 85);
        }
    };
    MadeHistory prices;
    check("prices", prices);
    MadeHistory remembering;
    remembering.memory = 0.5;
    remembering.months = 72;
    check("months that remember", remembering);
    MadeHistory paces;
    paces.spread = 0.25;
    paces.monthSd = 0.05;
    paces.seasons = {-0.15, 0.02, 0.08, 0.05};
    paces.perSize = 0.1;
    paces.trend = 0.02;
    paces.odd = 0.01;
    check("paces", paces);
}

TEST_CASE("Where the seasons do nothing, none shows more than one time in five", "[statistics][seasonal][coverage]")
{
    for (const auto memory : {0.0, 0.5}) {
        MadeHistory even;
        even.seasons = {};
        even.memory = memory;
        constexpr int rounds = 500;
        const auto held = simulate(even, rounds, 9000);
        WARN("without a season, memory " << memory << ": one shows in " << percentOf(held.shown, rounds) << " % of " << rounds << " histories");
        CHECK(percentOf(held.shown, rounds) <= 20);
        CHECK(held.shown > 0);
    }
}
