// A straight line through points, and whether it slopes.
//
// Model     y = intercept + slope x + error
// Source    simple linear regression by least squares, common practice: N. R. Draper, H. Smith, Applied Regression
//           Analysis, 3rd ed. (1998), chapter 1
// Method    deviations from both means first, which loses no digits
// Spread    residual standard deviation with the divisor n - 2; Student's t with n - 2 degrees of freedom
// Assumes   x known without error; errors independent, normal, of one variance. One wild point can turn the line: the
//           median of pairwise slopes (trend.h) beside it says whether one did
// Checked   tests/core/statistics/fitting/straight_line_test.cpp: NIST StRD Norris, certified values; Anscombe's first set by
//           R's lm
#pragma once

#include <span>

namespace docket {

struct StraightLine {
  double intercept = 0; ///< Unit of y.
  double intercept_se = 0;
  double slope = 0; ///< Unit of y per unit of x.
  double slope_se = 0;
  double residual_sd = 0;
  double r = 0; ///< [1], correlation of x and y; 0 where y has no spread.
  double df = 0;
  double p = 0;          ///< Two-sided, of a slope at least so far from 0 if there is none; 0 or 1 without residuals.
  bool possible = false; ///< False: fewer than three points, or no two x differ; then the numbers are NaN.
};

/// x and y have the same length.
StraightLine fit_straight_line(std::span<const double> x, std::span<const double> y);

} // namespace docket
