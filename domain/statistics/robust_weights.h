#pragma once

#include <span>
#include <vector>

namespace strikeoff {

/// What a robust fit leaves of an observation whose residual is so many scales long: Huber's weights (k 1.345) and Tukey's bisquare (c 4.685); both constants
/// give 95 % of least squares' efficiency on normal noise.
double huberWeight(double scaled);
double bisquareWeight(double scaled);

/// The scale of the residuals a fit with so many unknowns left, from their distances to it: the median of those free to have one, over 0.6745.
double robustScale(std::vector<double> distances, double unknowns);

/// The spread of a bisquare fit in units of its scale: the mean square of psi over the square of its mean slope, with Huber's correction for few
/// observations (Huber 1981, section 7.6). Nothing when more observations are odd than agree, so that the slope says nothing. Source: Huber, Robust Statistics, 1981.
struct BisquareSpread {
    double spread = 0;
    bool agrees = false;
};
BisquareSpread bisquareSpread(std::span<const double> scaled, double unknowns);

}
