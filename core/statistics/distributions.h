// The distributions every interval and every decision is read from.
//
// Model     standard normal, Student's t central and not, F, chi-square, and the exact binomial interval for a share
// Source    normal quantile: M. J. Wichura, Algorithm AS 241: the percentage points of the normal distribution, Applied
//           Statistics 37 (1988), 477-484, routine PPND16; share: C. J. Clopper, E. S. Pearson, The use of confidence
//           or fiducial limits illustrated in the case of the binomial, Biometrika 26 (1934), 404-413
// Method    normal: erfc and AS 241 as own code, for simulation calls it often; the others: Boost.Math
// Spread    none: these are functions of their arguments; AS 241 is right to about 1 part in 10^16
// Assumes   arguments in the stated range; the range is a promise of the caller, not of the input
// Checked   tests/core/statistics/distributions_test.cpp: printed normal and t tables, exact t and F in closed form,
//           Newcombe 1998 for the share, R for the non-central t
#pragma once

#include <cstdint>

namespace docket {

/// P(Z <= z). Takes minus and plus infinity.
double normal_cdf(double z);

/// The z with P(Z <= z) = p, 0 <= p <= 1; p = 0 and p = 1 give minus and plus infinity.
double normal_quantile(double p);

/// P(T <= t) with df > 0 degrees of freedom, not necessarily whole. df may be +infinity, then normal.
double student_t_cdf(double t, double df);

/// The t with P(T <= t) = p, 0 <= p <= 1; df as above. p = 0 and p = 1 give minus and plus infinity.
double student_t_quantile(double p, double df);

/// P(F > value) with finite df1 > 0 and df2 > 0 degrees of freedom; 1 for value <= 0, 0 for +infinity.
double f_upper_tail(double value, double df1, double df2);

/// The f with P(F <= f) = p, 0 <= p < 1; degrees of freedom as above.
double f_quantile(double p, double df1, double df2);

/// P(X > value) of chi-square with finite df > 0 degrees of freedom; 1 for value <= 0, 0 for +infinity.
double chi_square_upper_tail(double value, double df);

/// P(T <= t) of non-central t: T = (Z + shift)/sqrt(X/df), Z standard normal, X chi-square with df degrees of freedom.
/// Finite df > 0, finite shift.
double noncentral_t_cdf(double t, double df, double shift);

/// The t with P(T <= t) = p, 0 < p < 1; df and shift as above.
double noncentral_t_quantile(double p, double df, double shift);

/// Two ends of an interval.
struct Bounds {
  double low = 0;
  double high = 0;
};

/// Exact two-sided interval of a share seen as k of n, with (1 - confidence)/2 on each side. 0 <= k <= n,
/// 0 < confidence < 1. None seen has the low end 0, all seen the high end 1; n = 0 says nothing: 0 to 1.
/// The low end for one of one at 0.95 is 0.025.
Bounds clopper_pearson(std::int64_t k, std::int64_t n, double confidence);

} // namespace docket
