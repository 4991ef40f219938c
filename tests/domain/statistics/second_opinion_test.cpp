#include "statistics/quantiles.h"
#include "statistics/regression.h"

#include <catch2/catch.hpp>

#include <gsl/gsl_multifit.h>
#include <gsl/gsl_statistics_double.h>

#include <algorithm>
#include <random>

using namespace strikeoff;

// The same sums asked of the GNU Scientific Library, which this program does not use itself.

TEST_CASE("Another library fits the same regression", "[statistics][gsl]")
{
    std::mt19937 random{20'261'125};
    std::normal_distribution<double> noise;
    for (int round = 0; round < 20; ++round) {
        constexpr std::size_t rows = 60, columns = 5;
        Predictors predictors{columns};
        std::vector<double> observed, weights;
        auto* design = gsl_matrix_alloc(rows, columns);
        auto* y = gsl_vector_alloc(rows);
        auto* w = gsl_vector_alloc(rows);
        for (std::size_t i = 0; i < rows; ++i) {
            const std::array row{1.0, static_cast<double>(i) / 12, i % 12 < 3 ? 1.0 : 0.0, 10 * noise(random), 1e4 + noise(random)};
            predictors.add(row);
            observed.push_back(3 + 0.2 * row[1] - row[2] + 0.1 * row[3] + noise(random));
            weights.push_back(0.5 + static_cast<double>(i % 7));
            for (std::size_t j = 0; j < columns; ++j) gsl_matrix_set(design, i, j, row[j]);
            gsl_vector_set(y, i, observed.back());
            gsl_vector_set(w, i, weights.back());
        }
        auto* work = gsl_multifit_linear_alloc(rows, columns);
        auto* theirs = gsl_vector_alloc(columns);
        auto* covariance = gsl_matrix_alloc(columns, columns);
        double squares = 0;
        const auto compare = [&](const LinearFit& ours, double scale) {
            CHECK(ours.residualSquares == Approx(squares).epsilon(1e-9));
            for (std::size_t j = 0; j < columns; ++j) {
                CHECK(ours.coefficients[j] == Approx(gsl_vector_get(theirs, j)).epsilon(1e-7));
                CHECK(ours.standardErrors[j] == Approx(std::sqrt(gsl_matrix_get(covariance, j, j)) * scale).epsilon(1e-7));
            }
        };
        gsl_multifit_linear(design, y, theirs, covariance, &squares, work);
        const auto plain = fitLinear(predictors, observed);
        REQUIRE(plain.fit);
        compare(*plain.fit, 1);
        gsl_multifit_wlinear(design, w, y, theirs, covariance, &squares, work);
        const auto weighted = fitLinear(predictors, observed, weights);
        REQUIRE(weighted.fit);
        compare(*weighted.fit, weighted.fit->residualSd);  // its weights are inverse variances, ours are relative
        gsl_multifit_linear_free(work);
        gsl_vector_free(theirs);
        gsl_matrix_free(covariance);
        gsl_matrix_free(design);
        gsl_vector_free(y);
        gsl_vector_free(w);
    }
}

TEST_CASE("Another library's bisquare fit agrees with ours where observations are odd", "[statistics][gsl]")
{
    std::mt19937 random{7};
    std::normal_distribution<double> noise;
    Predictors predictors{2};
    std::vector<double> observed;
    constexpr std::size_t rows = 80;
    auto* design = gsl_matrix_alloc(rows, 2);
    auto* y = gsl_vector_alloc(rows);
    for (std::size_t i = 0; i < rows; ++i) {
        const auto x = static_cast<double>(i) / 10;
        predictors.add({1, x});
        observed.push_back(5 + 2 * x + noise(random) + (i % 9 == 0 ? 60 : 0));
        gsl_matrix_set(design, i, 0, 1);
        gsl_matrix_set(design, i, 1, x);
        gsl_vector_set(y, i, observed.back());
    }
    auto* work = gsl_multifit_robust_alloc(gsl_multifit_robust_bisquare, rows, 2);
    auto* theirs = gsl_vector_alloc(2);
    auto* covariance = gsl_matrix_alloc(2, 2);
    gsl_multifit_robust(design, y, theirs, covariance, work);
    const auto ours = fitRobustly(predictors, observed);
    REQUIRE(ours.fit);
    // They scale residuals by leverage and ours do not, so that both agree within a part of their standard error.
    for (std::size_t j = 0; j < 2; ++j) {
        CHECK(std::abs(ours.fit->coefficients[j] - gsl_vector_get(theirs, j)) < 0.15 * ours.fit->standardErrors[j]);
    }
    // Their standard errors mix in the spread of least squares; the spread without the odd ones is the figure to hold ours against.
    CHECK(ours.fit->residualSd == Approx(gsl_multifit_robust_statistics(work).sigma_rob).epsilon(0.1));
    CHECK(ours.fit->coefficients[1] == Approx(2).margin(0.2));
    const auto plain = fitLinear(predictors, observed);
    CHECK(plain.fit->coefficients[0] > 9);  // what the odd ones do to least squares
    gsl_multifit_robust_free(work);
    gsl_vector_free(theirs);
    gsl_matrix_free(covariance);
    gsl_matrix_free(design);
    gsl_vector_free(y);
}

TEST_CASE("Another library finds the same quantiles", "[statistics][gsl]")
{
    std::mt19937 random{99};
    std::lognormal_distribution<double> draw;
    for (const std::size_t count : {1, 2, 3, 10, 57, 400}) {
        std::vector<double> sample(count);
        for (auto& value : sample) value = draw(random);
        auto sorted = sample;
        std::sort(sorted.begin(), sorted.end());
        for (const double p : {0.0, 0.1, 0.25, 0.5, 0.8, 0.9, 1.0}) CHECK(*quantile(sample, p) == Approx(gsl_stats_quantile_from_sorted_data(sorted.data(), 1, count, p)).epsilon(1e-12));
        CHECK(*median(sample) == Approx(gsl_stats_median_from_sorted_data(sorted.data(), 1, count)).epsilon(1e-12));
    }
}

TEST_CASE("Robust intervals hold the truth as often as they say, with odd observations in the sample", "[statistics][coverage]")
{
    std::mt19937 random{5};
    std::normal_distribution<double> noise;
    std::uniform_real_distribution<double> chance;
    int held = 0;
    constexpr int rounds = 500;
    for (int round = 0; round < rounds; ++round) {
        Predictors predictors{2};
        std::vector<double> observed;
        for (int i = 0; i < 40; ++i) {
            const auto x = i / 10.0;
            predictors.add({1, x});
            observed.push_back(1 + 0.5 * x + noise(random) + (chance(random) < 0.05 ? 25 : 0));
        }
        const auto slope = fitRobustly(predictors, observed).fit->coefficient(1);
        held += slope.low <= 0.5 && slope.high >= 0.5 ? 1 : 0;
    }
    const auto share = 100.0 * held / rounds;
    WARN("slope of a robust fit, 80 % intervals: " << share << " % of " << rounds << " hold the truth");
    CHECK(share > 75);
    CHECK(share < 85);
}
