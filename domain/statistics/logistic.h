#pragma once

#include "statistics/regression.h"

namespace strikeoff {

/// Chance of an outcome by predictors: log(p / (1 − p)) is a sum of coefficients times figures.
struct LogisticFit {
    std::vector<double> coefficients;
    std::vector<double> covariance;  ///< of the coefficients, row after row
    double deviance = 0;             ///< −2 log likelihood
    std::size_t count = 0;
    std::size_t happened = 0;

    double standardError(std::size_t index) const;
    /// Chance at a row of predictors, with its interval (by the normal interval of the log odds).
    Estimate chanceAt(std::span<const double> row, double confidence = usualConfidence) const;
};

struct LogisticResult {
    std::optional<LogisticFit> fit;
    std::string refusal;  ///< a sentence; blank where there is a fit
};

/// Maximum likelihood by Newton's steps (iteratively reweighted least squares; McCullagh and Nelder, Generalized Linear Models, 2nd ed. 1989, section 2.5), each halved
/// until it helps. Refused, with the reason: not as many of either outcome as there are predictors, figures that are no numbers, predictors of which one follows from
/// the others, and predictors that part the outcomes without a miss (separation), where the likelihood has no top and any slope would be as good.
LogisticResult fitLogistic(const Predictors& predictors, const std::vector<bool>& outcomes);

}
