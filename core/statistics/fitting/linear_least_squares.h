// Linear least squares: parameters, their standard errors, and how many of them the data determine.
//
// Model     y = X b + error
// Source    Householder QR: G. H. Golub, Numerische Mathematik 7 (1965), 206-216; refinement of parameters and residuals
//           together: A. Bjorck, BIT 7 (1967), 257-278 (page numbers from memory)
// Method    columns scaled to length 1, QR with column pivoting; then refinement with residuals in extended precision.
//           Refined, X counts as exact as given: what is lost is what was lost in writing X (powers of x, say)
// Spread    residual SD with the divisor n - rank; covariance from the triangle of the QR
// Assumes   X known without error; errors independent and of one variance; rows weighted by the caller, root of weight
// Checked   tests/core/statistics/fitting/linear_least_squares_test.cpp: NIST StRD, all 11 sets
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace docket {

struct LinearFit {
  std::vector<double> parameters;      ///< 0 for a column left out
  std::vector<double> standard_errors; ///< NaN for a column left out, and for all where df is 0
  std::vector<double> covariance;      ///< row by row; NaN as above
  std::vector<double> residuals;       ///< y - X b
  double rss = 0;
  double df = 0;          ///< n - rank
  double residual_sd = 0; ///< NaN where df is 0
  std::size_t rank = 0;   ///< below the number of columns: some columns say the same, and the parameters are one choice
  std::vector<std::size_t> left_out; ///< columns that the others already say, rising
};

/// `design` row by row, as many rows as `y` has values and at least `columns`; all numbers finite.
LinearFit fit_linear_least_squares(std::span<const double> design, std::size_t columns, std::span<const double> y);

} // namespace docket
