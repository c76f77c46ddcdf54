// The settled rule: has a person, over their last worked days, any improvement left to see?
//
// Model     fall = -7 x Theil-Sen slope of 8 block medians / median; bound = fall + 1.645 SD of the fall over resamples
//           of whole days put in random order
// Source    Theil-Sen slope: Helsel & Hirsch, Statistical Methods in Water Resources (USGS), ch. 10; resampling of whole
//           days: block bootstrap (Kuensch, Annals of Statistics 17 (1989) 1217-1241); the rule is ours
// Assumes   days are exchangeable once nothing is left to learn: day effects do not count as a trend
// Checked   tests/core/content/lines/settled_rule_test.cpp
#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace docket {

/// Relative improvement over the record, positive where times fall. `scaled` is in time order, 8 values or more.
double fall_over_blocks(std::span<const double> scaled);

struct FallWithBound {
  double fall = 0, bound = 0; ///< [1]
};

/// `days` holds the scaled times of each worked day in order. `stream` keeps the draws of two people apart.
FallWithBound find_fall(const std::vector<std::vector<double>>& days, std::uint64_t seed, std::uint64_t stream);

} // namespace docket
