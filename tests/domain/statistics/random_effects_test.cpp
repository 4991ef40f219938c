#include "statistics/random_effects.h"

#include "quantity/rounding.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <iomanip>
#include <iostream>
#include <random>

using namespace strikeoff;

namespace {

struct Coverage {
    double held = 0;        ///< share of intervals with the truth inside
    double rawSquares = 0;
    double pooledSquares = 0;
};

/// Groups with known truths about 40, jobs scattered about them, figured over many seeds: shared variance, pooling and intervals as the page goes.
Coverage coverage(double apart, std::vector<int> counts, double scatter, bool unlikeScatter)
{
    Coverage total;
    int held = 0, all = 0;
    for (unsigned seed = 1; seed <= 500; ++seed) {
        std::mt19937_64 engine{seed};
        std::normal_distribution<double> normal;
        std::vector<double> truths, raws;
        std::vector<GroupScatter> scatters;
        for (const int count : counts) {
            const double own = unlikeScatter ? scatter * std::exp(0.4 * normal(engine)) : scatter;
            truths.push_back(40 + apart * normal(engine));
            std::vector<double> jobs;
            double sum = 0, squares = 0;
            for (int i = 0; i < count; ++i) sum += jobs.emplace_back(truths.back() + own * normal(engine));
            for (const double job : jobs) squares += (job - sum / count) * (job - sum / count);
            raws.push_back(sum / count);
            scatters.push_back({squares, static_cast<double>(count - 1)});
        }
        const auto shared = shareVariance(scatters);
        std::vector<GroupValue> groups;
        for (std::size_t i = 0; i < counts.size(); ++i) groups.push_back({raws[i], shared.of(scatters[i]) / counts[i], shared.freedomOf(scatters[i])});
        const auto pooled = pool(groups);
        for (std::size_t i = 0; i < counts.size(); ++i) {
            const auto& value = pooled.values[i];
            held += value.low <= truths[i] && truths[i] <= value.high;
            ++all;
            total.rawSquares += std::pow(raws[i] - truths[i], 2);
            total.pooledSquares += std::pow(value.estimate - truths[i], 2);
        }
    }
    total.held = static_cast<double>(held) / all;
    return total;
}

}

TEST_CASE("pooled intervals hold the truth eight times in ten, and pooling errs less than raw values", "[statistics][simulation]")
{
    struct Kind {
        const char* name;
        double apart;
        std::vector<int> counts;
        double scatter;
        bool unlikeScatter;
    };
    const Kind kinds[] = {
        {"eight types, 2 to 40 jobs, $12 apart", 12, {2, 3, 5, 8, 12, 18, 25, 40}, 25, false},
        {"eight types, the jobs of each scattering otherwise", 12, {2, 3, 5, 8, 12, 18, 25, 40}, 25, true},
        {"five types of few jobs", 10, {1, 2, 3, 4, 6}, 25, false},
        {"six types, hardly apart", 4, {2, 4, 6, 8, 10, 12}, 25, false},
        {"six types, far apart", 40, {2, 4, 6, 8, 10, 12}, 25, false},
        {"twenty towns", 8, {1, 1, 1, 2, 2, 2, 3, 3, 4, 4, 5, 6, 7, 8, 9, 10, 12, 15, 20, 30}, 25, true},
    };
    std::cout << "80 % intervals over 500 seeds:\n";
    for (const auto& kind : kinds) {
        const auto found = coverage(kind.apart, kind.counts, kind.scatter, kind.unlikeScatter);
        std::cout << "  " << kind.name << ": truth held " << std::fixed << std::setprecision(1) << found.held * 100 << " %, squared error pooled " << std::setprecision(0)
                  << found.pooledSquares << " against raw " << found.rawSquares << '\n';
        INFO(kind.name);
        CHECK(found.held >= 0.75);
        CHECK(found.held <= 0.85);
        CHECK(found.pooledSquares < found.rawSquares);
    }
}

TEST_CASE("groups that are truly alike are not said to differ for sure", "[statistics][simulation]")
{
    // With no spread at all every interval may hold the truth more often than said, but never less.
    const auto found = coverage(0, {2, 4, 6, 8, 10, 12}, 25, false);
    std::cout << "80 % intervals, no spread between groups: truth held " << found.held * 100 << " %, squared error pooled " << found.pooledSquares << " against raw " << found.rawSquares << '\n';
    CHECK(found.held >= 0.75);
    CHECK(found.pooledSquares < found.rawSquares / 2);
}

TEST_CASE("a group of few jobs is drawn to the mean more than one of many", "[statistics]")
{
    const std::vector<GroupValue> groups{{80, 400}, {80, 20}, {30, 25}, {40, 25}};
    const auto pooled = pool(groups);
    REQUIRE(pooled.pooled);
    CHECK(pooled.common.spread > 0);
    CHECK(pooled.values[0].estimate < pooled.values[1].estimate);
    CHECK(pooled.values[0].estimate > pooled.common.mean);
    CHECK(pooled.values[0].high - pooled.values[0].low > pooled.values[1].high - pooled.values[1].low);
    for (const auto& value : pooled.values) {
        CHECK(value.low < value.estimate);
        CHECK(value.estimate < value.high);
    }
}

TEST_CASE("two groups are left as they are", "[statistics]")
{
    const std::vector<GroupValue> groups{{80, 100, 9}, {30, 25, 9}};
    const auto pooled = pool(groups);
    CHECK_FALSE(pooled.pooled);
    CHECK(pooled.values[0].estimate == 80);
    // t(9) at 0.9 is 1.383 (NIST e-Handbook, table of Student's t).
    CHECK(pooled.values[0].high == Approx(80 + 1.383 * 10).margin(0.005));
}

TEST_CASE("what cannot be pooled is refused", "[statistics]")
{
    CHECK_THROWS_AS(pool({}), DomainError);
    CHECK_THROWS_AS(pool(std::vector<GroupValue>{{1, 0}, {2, 1}, {3, 1}}), DomainError);
    CHECK_THROWS_AS(pool(std::vector<GroupValue>{{1, 1}, {std::nan(""), 1}, {3, 1}}), DomainError);
    CHECK_THROWS_AS(shrinkTowardMean(std::vector<double>{1, 2, 3}, 1), DomainError);
}

TEST_CASE("scatter of groups of one says nothing, and like scatters are taken for one", "[statistics]")
{
    CHECK(shareVariance(std::vector<GroupScatter>{{0, 0}, {0, 0}}).freedom == 0);
    const std::vector<GroupScatter> alike{{100, 10}, {50, 5}, {30, 3}};
    const auto shared = shareVariance(alike);
    CHECK(shared.variance == Approx(10));
    CHECK(std::isinf(shared.freedom));
    const std::vector<GroupScatter> unlike{{1, 20}, {2000, 20}, {50, 20}, {9000, 20}};
    const auto apart = shareVariance(unlike);
    CHECK(apart.freedom < 5);
    CHECK(apart.of(unlike[3]) > 20 * apart.of(unlike[0]));
}
