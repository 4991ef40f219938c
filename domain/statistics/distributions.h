#pragma once

namespace strikeoff {

// Probabilities are between 0 and 1, degrees of freedom above 0; DomainError otherwise. From Boost.Math.

/// The figure that a share p of Student's t lies below.
double studentQuantile(double p, double degrees);
/// The share of Student's t below a figure.
double studentShareBelow(double t, double degrees);
double normalQuantile(double p);
double normalShareBelow(double z);
/// The share of Fisher's F above a figure.
double fisherShareAbove(double f, double degreesAbove, double degreesBelow);

/// How many standard errors an interval of this confidence reaches to each side, by Student's t.
double studentReach(double confidence, double degrees);

}
