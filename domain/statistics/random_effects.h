#pragma once

#include <span>
#include <vector>

namespace strikeoff {

/// What one group showed: a value and its sampling variance.
struct GroupValue {
    double value = 0;
    double variance = 0;  ///< above zero
    /// Degrees of freedom behind `variance`; infinity where it is known.
    double freedom = 1e300;
};

/// Groups taken together: their common mean and how far they truly lie apart.
struct RandomEffects {
    std::size_t groups = 0;
    double fixedMean = 0;        ///< weighted by 1/variance
    double fixedError = 0;
    double q = 0;                ///< weighted squares about fixedMean, groups − 1 degrees of freedom
    double spread = 0;           ///< variance between groups (tau²), never below zero
    double mean = 0;             ///< weighted by 1/(variance + spread)
    double error = 0;            ///< standard error of the mean
    double inconsistency() const;  ///< I²: of the scatter, the share that is not chance; 0 … 1
};

/// Random-effects mean by the moment estimate of the spread, set to zero when it comes out below. DerSimonian and Laird, "Meta-analysis in clinical
/// trials", Controlled Clinical Trials 7 (1986) 177–188. DomainError without groups, for a variance that is not above zero, and for figures that are none.
RandomEffects randomEffects(std::span<const GroupValue> groups);

/// A group's value drawn toward the common mean, with the interval that holds the truth eight times in ten.
struct ShrunkValue {
    double estimate = 0;
    double low = 0;
    double high = 0;
    double error = 0;   ///< standard deviation of what is left to know
    double weight = 1;  ///< how much its own value counts in the estimate; the rest is the common mean
};

struct Pooled {
    RandomEffects common;
    bool pooled = false;             ///< fewer than three groups are left as they are
    std::vector<ShrunkValue> values; ///< in the order given
};
inline constexpr std::size_t leastGroupsToPool = 3;

/// Every group's estimate (spread × value + variance × mean) / (variance + spread), and its 80 % interval.
///
/// The interval does not take the spread for known: it runs over all spreads, each weighted by how well it explains the groups (flat prior on the
/// standard deviation between groups; Gelman, Carlin, Stern and Rubin, Bayesian Data Analysis, section 5.4), with the uncertainty of the common mean in
/// it, so that groups that happen to agree are not said to be equal for sure. Below three groups nothing can be said about the spread: the value stays as it
/// is, with its own t interval.
Pooled pool(std::span<const GroupValue> groups);

/// A group's scatter, from which its own variance follows.
struct GroupScatter {
    double squares = 0;  ///< sum of squares about the group's value
    double freedom = 0;  ///< degrees of freedom; 0 for a group of one
};

/// Variances within groups when each is known from few figures: drawn toward a common one. Smyth, "Linear models and empirical Bayes methods for assessing
/// differential expression", Statistical Applications in Genetics and Molecular Biology 3 (2004) no. 3, section 6.2 (moments of the log variances).
struct SharedVariance {
    double variance = 0;   ///< the common one
    double freedom = 0;    ///< figures' worth the common one counts for; infinity when nothing says that groups differ
    /// Variance of a group and the degrees of freedom behind it.
    double of(const GroupScatter& group) const;
    double freedomOf(const GroupScatter& group) const;
};
/// Nothing scatters (variance 0) when no group has two figures.
SharedVariance shareVariance(std::span<const GroupScatter> groups);

/// Shrinks values of one known variance toward their mean: mean + c × (value − mean), c = 1 − (k − 3) × variance / Σ(value − mean)², not below zero.
/// Efron and Morris, "Data analysis using Stein's estimator", JASA 70 (1975) 311–319. DomainError below four values.
struct SteinShrinkage {
    double factor = 0;
    double mean = 0;
    std::vector<double> values;
};
SteinShrinkage shrinkTowardMean(std::span<const double> values, double variance);

/// Chance that the next figure of a group is below a limit: its value is known with `shrunk`, and figures scatter about it with `variance`.
double chanceBelow(double limit, const ShrunkValue& shrunk, double variance, double freedom);

/// Limits between which a share lies with the confidence given. Wilson, JASA 22 (1927) 209–212. DomainError when more are counted than there are.
struct ShareLimits {
    double low = 0;
    double high = 0;
};
ShareLimits shareLimits(int counted, int of, double confidence);

}
