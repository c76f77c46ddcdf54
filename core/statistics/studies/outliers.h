// Which values of a sample lie too far out for a normal one, when there may be several of them.
//
// Model     normal values, of which up to `most` come from elsewhere
// Source    B. Rosner, Percentage points for a generalized ESD many-outlier procedure, Technometrics 25 (1983),
//           165-172; NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.3
// Method    R_i = max |x - mean|/sd of what is left after the i - 1 furthest are gone;
//           lambda_i = (n - i) t / sqrt((n - i - 1 + t^2)(n - i + 1)), t with n - i - 1 degrees of freedom at the lower
//           tail 1 - alpha/(2 (n - i + 1)); the outliers are as many as the largest i with R_i > lambda_i, even where
//           smaller i fail: so two wild values can't hide one another
// Spread    alpha is about the chance of any outlier found in a clean normal sample
// Assumes   normal but for the outliers, independent; lambda holds well from 25 values, tolerably from 15. Times that
//           are skewed to the right give too many
// Checked   tests/core/statistics/studies/outliers_test.cpp: Rosner's 54 values as printed in the e-Handbook
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace docket {

struct OutlierStep {
  std::size_t index = 0; ///< In the values, of the one taken out at this step; of two as far the earlier.
  double r = 0;          ///< [1]
  double lambda = 0;     ///< [1]
};

struct OutlierTest {
  std::vector<OutlierStep> steps; ///< At most `most`; fewer where the values run out or what is left has no spread.
  std::size_t count = 0;          ///< The first so many steps name the outliers.
};

/// 0 < alpha < 1. Fewer than three values have no step. The test finds them; whether one is struck out is another
/// question.
OutlierTest find_outliers(std::span<const double> values, std::size_t most, double alpha);

} // namespace docket
