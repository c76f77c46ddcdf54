// The slope of a trend that a few wild points can't turn.
//
// Model     y = intercept + slope x + error
// Source    H. Theil, A rank-invariant method of linear and polynomial regression analysis, Proc. Kon. Ned. Akad. v.
//           Wetensch. A 53 (1950), 386-392; P. K. Sen, Estimates of the regression coefficient based on Kendall's tau,
//           J. Am. Stat. Assoc. 63 (1968), 1379-1389
// Method    median of the slopes of all pairs with different x; every pair is formed, so n is a few hundred at most
// Spread    none here; whoever calls it resamples
// Assumes   errors of any one distribution, independent
// Checked   tests/core/statistics/fitting/trend_test.cpp: Helsel & Hirsch, chapter 10
#pragma once

#include <span>

namespace docket {

/// Median of pairwise slopes, in units of y per unit of x. x and y have the same length. NaN where no two x differ.
double theil_sen_slope(std::span<const double> x, std::span<const double> y);

} // namespace docket
