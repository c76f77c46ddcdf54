// Mean, standard deviation and median.
//
// Model     a sample of finite numbers, order of no account
// Source    common practice; two passes with a correction: T. F. Chan, G. H. Golub, R. J. LeVeque, Algorithms for
//           computing the sample variance, The American Statistician 37 (1983), 242-247
// Method    mean, then deviations from it; what their sum leaves corrects both
// Spread    the standard deviation has the divisor n - 1
// Assumes   finite numbers
// Checked   tests/core/statistics/summary_test.cpp: NIST StRD univariate sets, certified values
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace docket {

/// Of a sample; in the unit of the sample.
struct Summary {
  std::int64_t n = 0;
  double mean = 0; ///< NaN without a number.
  double sd = 0;   ///< Divisor n - 1; NaN with fewer than two numbers.
};

Summary summarise(std::span<const double> values);

/// The middle number, or the mean of the two middle ones; NaN without a number. Reorders its own copy.
double median(std::vector<double> values);

} // namespace docket
