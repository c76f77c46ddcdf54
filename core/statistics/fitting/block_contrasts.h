// How treatments (variants) differ within blocks (worked days) of unequal size, some without some treatment.
//
// Model     y = block_b + effect_t + error, sum of weight_t effect_t = 0
// Source    least squares of an incomplete two-way table: F. Yates, The analysis of multiple classifications with unequal
//           numbers in the different classes, Journal of the American Statistical Association 29 (1934), 51-66
// Method    block means taken out; the normal equations N e = b of the effects, singular by one, solved with the weights
//           w as (N + w w') e = b, which holds w'e = 0; covariance sd^2 M N M, M the inverse of N + w w'
// Spread    sd with n - blocks - treatments + 1 degrees of freedom
// Assumes   independent errors of one variance; no interaction. Whatever is the same for a whole block drops out: a fall
//           from day to day is not taken for a difference between variants
// Checked   tests/core/statistics/fitting/block_contrasts_test.cpp: R's lm; a table that falls apart
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace docket {

struct BlockedValue {
  std::size_t block = 0, treatment = 0;
  double y = 0;
};

struct BlockContrasts {
  std::vector<double> effect, se; ///< by treatment; unit of y
  std::vector<double> residuals;  ///< in the order of the values
  double sd = 0, df = 0;
  /// False: no degree of freedom is left, or blocks and treatments fall into parts that nothing joins; then no effects.
  bool possible = false;
};

/// `weights`: one a treatment, 0 or more, sum 1. Blocks are numbered from 0; a number may have no value.
BlockContrasts fit_block_contrasts(std::span<const BlockedValue> values, std::span<const double> weights);

} // namespace docket
