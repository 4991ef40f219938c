#pragma once

#include "statistics/estimate.h"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace strikeoff {

/// The right-hand side of a regression: a row of predictors an observation, all equally long. A constant is a predictor like others (a column of ones).
class Predictors {
public:
    explicit Predictors(std::size_t columns) : columns_{columns} {}
    /// DomainError for a row of another length.
    void add(std::span<const double> row);
    void add(std::initializer_list<double> row) { add(std::span{row.begin(), row.size()}); }

    std::size_t rows() const { return columns_ == 0 ? 0 : values_.size() / columns_; }
    std::size_t columns() const { return columns_; }
    std::span<const double> row(std::size_t index) const { return std::span{values_}.subspan(index * columns_, columns_); }
    /// Row after row.
    std::span<const double> values() const { return values_; }

private:
    std::size_t columns_;
    std::vector<double> values_;
};

/// A regression that was fitted.
struct LinearFit {
    std::vector<double> coefficients;
    std::vector<double> standardErrors;
    std::vector<double> covariance;      ///< of the coefficients, row after row
    std::vector<double> residuals;       ///< observed less fitted, by observation
    std::vector<double> weights;         ///< by observation: as given, times what a robust fit left of it
    double residualSd = 0;
    double degrees = 0;                  ///< of freedom of the residuals
    double rSquared = 0;                 ///< about the mean where a column is constant, else about zero
    double residualSquares = 0;          ///< weighted sum

    /// A coefficient with its interval by Student's t.
    Estimate coefficient(std::size_t index, double confidence = usualConfidence) const;
    /// The mean response at a row of predictors; also any sum of coefficients times figures, such as a difference of two.
    Estimate meanAt(std::span<const double> row, double confidence = usualConfidence) const;
    /// Where one more observation at the row falls.
    Estimate nextAt(std::span<const double> row, double confidence = usualConfidence) const;
    double standardErrorAt(std::span<const double> row) const;
};

/// A fit, or why there is none.
struct FitResult {
    std::optional<LinearFit> fit;
    std::string refusal;  ///< a sentence; blank where there is a fit
};

/// Least squares by Householder QR with column pivoting on columns scaled to length 1. Refused: fewer observations than predictors and one more, figures that
/// are no numbers, and predictors of which one follows from the others to about 12 digits, where the answer would be noise. Weights are
/// those of the squares, one an observation and above zero; none given is all one.
FitResult fitLinear(const Predictors& predictors, std::span<const double> observed, std::span<const double> weights = {});

/// Least squares that odd observations do not pull: M-estimation, Huber's weights (k 1.345) to a start and Tukey's bisquare (c 4.685) to the end, the scale
/// being the median deviation of the residuals (both constants give 95 % of least squares' efficiency on normal noise). Standard errors are the asymptotic
/// ones with Huber's correction for few observations (Huber 1981, section 7.6). Where more than half the residuals are nothing, the rest are odd.
FitResult fitRobustly(const Predictors& predictors, std::span<const double> observed);

}
