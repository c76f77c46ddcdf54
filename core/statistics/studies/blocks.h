// Do treatments (variants) differ, when every block (operator) has had each of them once?
//
// Model     y_bt = mean + block_b + treatment_t + error
// Source    R. A. Fisher, The Design of Experiments (1935), randomised blocks; G. E. P. Box, J. S. Hunter, W. G.
//           Hunter, Statistics for Experimenters, 2nd ed. (2005), section 4.2
// Method    F = mean square of treatments / mean square of error, of a complete table
// Spread    none
// Assumes   normal errors of equal variance; no interaction of block and treatment other than error
// Checked   tests/core/statistics/studies/blocks_test.cpp: Box, Hunter & Hunter penicillin example; two treatments: F is the
//           square of the paired t (Cushny & Peebles sleep data)
#pragma once

#include <vector>

namespace docket {

struct BlockTest {
  double f = 0;
  double df1 = 0;
  double df2 = 0;
  double p = 0;          ///< P(F > f) if treatments don't differ.
  bool possible = false; ///< False: fewer than two blocks or treatments, rows of unequal length, or no error spread;
                         ///< then f and p are NaN.
};

/// `rows`: a row a block, a column a treatment.
BlockTest test_treatments_in_blocks(const std::vector<std::vector<double>>& rows);

} // namespace docket
