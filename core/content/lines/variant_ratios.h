// How the times of the variants lie to one another as people do them, against what the standard says.
//
// Model     ln(m_ov / S_v) = a_o + c_v + error, over the persons o with an own mean of variant v;
//           factor_v = e^c_v, on a scale on which the measured variants together keep the standard's mean
// Source    additive two-way table with empty cells by least squares: H. Scheffe, The Analysis of Variance (1959),
//           section 4.4 (from memory, to be confirmed)
// Method    least squares over the largest set of persons and variants that hang together; a variant outside it is not
//           measured
// Spread    residual variance of the table, with what is left of degrees of freedom; none where nothing is left
// Assumes   who does which variant has nothing to do with how hard that variant is for them
// Checked   tests/core/content/lines/variant_ratios_test.cpp: R, lm on an unbalanced table
#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace docket {

/// One person's mean of one variant over the standard, as a logarithm.
struct VariantCell {
  std::size_t person = 0, variant = 0;
  double ln_ratio = 0;
  double weight = 1; ///< > 0; inverse variance but for a constant
};

struct VariantRatios {
  std::vector<double> factor;     ///< by variant [1]; 1 where not measured
  std::vector<int> persons;       ///< by variant: with a cell that counts; 0 where not measured
  std::vector<double> covariance; ///< of ln factor, row by row; empty where df is 0
  double df = 0;

  /// Others can stand in for a person who does not do this variant: somebody does it, and how much people differ in
  /// their ratios is known.
  bool can_bridge(std::size_t variant) const { return !covariance.empty() && persons[variant] > 0; }
  /// Variance of the sum of weights_v ln factor_v; 0 where df is 0.
  double variance_of(std::span<const double> weights) const;
};

/// `content`: share times standard time of each variant, the scale the factors keep.
VariantRatios find_variant_ratios(const std::vector<VariantCell>& cells, std::span<const double> content);

} // namespace docket
