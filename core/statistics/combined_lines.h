// One value from a few estimates of the same thing that share part of their errors.
//
// Model     z_i = mean + error_i, errors with a known covariance V
// Source    A. C. Aitken, On least squares and linear combination of observations, Proc. Roy. Soc. Edinburgh 55 (1935),
//           42-48; negative weights: L. Lyons, D. Gibaut, P. Clifford, How to combine correlated estimates of a single
//           physical quantity, Nucl. Instr. Meth. A 270 (1988), 110-117
// Method    weights V^-1 1 / (1' V^-1 1). A line with a negative weight is left out, the most negative first, and the
//           rest solved again; so is the line with the largest variance while V is ill-conditioned
// Spread    u^2 = weights' V weights
// Assumes   V as stated; weights outside 0 to 1 would carry the value beyond all the lines, on the strength of a
//           correlation that is only a guess: so they are not used
// Checked   tests/core/statistics/combined_lines_test.cpp: inverse variances, two correlated lines in closed form, the
//           sign change at correlation = ratio of the uncertainties
#pragma once

#include <span>
#include <vector>

namespace docket {

struct CombinedLines {
  std::vector<double> weights; ///< [1], in the order of the lines, sum 1; 0 for one left out.
  double mean = 0;             ///< NaN without a line.
  double u = 0;                ///< Standard uncertainty of mean; NaN without a line.
  std::vector<bool> left_out;  ///< In the order of the lines.
};

/// `covariance` is symmetric, as many rows and columns as z has values, variances >= 0. Of two lines alike in
/// everything the later one is left out.
CombinedLines combine_lines(std::span<const double> z, const std::vector<std::vector<double>>& covariance);

} // namespace docket
