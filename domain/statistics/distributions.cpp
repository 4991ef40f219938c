#include "statistics/distributions.h"

#include "quantity/rounding.h"

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <cmath>

namespace strikeoff {

namespace {

void requireShare(double p)
{
    if (!(p > 0 && p < 1)) throw DomainError{"a probability must lie between 0 and 1"};
}

void requireDegrees(double degrees)
{
    if (!(degrees > 0) || !std::isfinite(degrees)) throw DomainError{"degrees of freedom must be above 0"};
}

}

double studentQuantile(double p, double degrees)
{
    requireShare(p);
    requireDegrees(degrees);
    return boost::math::quantile(boost::math::students_t{degrees}, p);
}

double studentShareBelow(double t, double degrees)
{
    requireDegrees(degrees);
    return boost::math::cdf(boost::math::students_t{degrees}, t);
}

double normalQuantile(double p)
{
    requireShare(p);
    return boost::math::quantile(boost::math::normal{}, p);
}

double normalShareBelow(double z) { return boost::math::cdf(boost::math::normal{}, z); }

double fisherShareAbove(double f, double degreesAbove, double degreesBelow)
{
    requireDegrees(degreesAbove);
    requireDegrees(degreesBelow);
    return boost::math::cdf(boost::math::complement(boost::math::fisher_f{degreesAbove, degreesBelow}, f));
}

double studentReach(double confidence, double degrees)
{
    requireShare(confidence);
    return studentQuantile(0.5 + confidence / 2, degrees);
}

}
