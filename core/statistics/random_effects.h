// Spread between groups (operators) and within them, from groups of unequal size.
//
// Model     y_ij = mean + a_i + e_ij,  a_i variance_between >= 0,  e_ij variance_within > 0
// Source    REML: H. D. Patterson, R. Thompson, Recovery of inter-block information when block sizes are unequal,
//           Biometrika 58 (1971), 545-554; one way: S. R. Searle, G. Casella, C. E. McCulloch, Variance Components
//           (1992), chapter 3
// Method    the restricted likelihood as a function of the ratio between / within alone, every other parameter in
//           closed form; each maximum by bisection of its derivative, the boundary 0 among them, the highest taken
// Spread    mean_se takes the two variances as known; with few groups use t with groups - 1 degrees of freedom
// Assumes   normal effects and errors, the same variance within every group, independent groups
// Checked   tests/core/statistics/random_effects_test.cpp: Dyestuff (Davies & Goldsmith 1972), NIST StRD analysis of
//           variance, two unequal groups in closed form, the REML equations in full matrix form, boundary
#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace docket {

/// All that REML needs of a group.
struct GroupSummary {
  std::int64_t n = 0;   ///< 1 or more; a group with 0 is passed over.
  double mean = 0;      ///< Unit of the values.
  double within_ss = 0; ///< Sum of squared deviations from the group's own mean.
};

/// n = 0 and zeros without a value.
GroupSummary summarise_group(std::span<const double> values);

enum class RandomEffectsOutcome {
  fitted,         ///< All four numbers hold. variance_between may be 0: the boundary.
  one_group,      ///< Fewer than two groups. mean and variance_within hold where there are values; the rest is NaN.
  no_replication, ///< No group has two values: the variances can't be told apart and are NaN; mean and mean_se hold.
  no_spread,      ///< No spread within groups: variance_within is 0, the other three are those of the group means.
};

struct RandomEffects {
  double mean = 0;
  double mean_se = 0;
  double variance_between = 0;
  double variance_within = 0;
  RandomEffectsOutcome outcome = RandomEffectsOutcome::one_group;
  std::string reason; ///< A sentence where the outcome is not fitted; else empty.
};

RandomEffects fit_random_effects(std::span<const GroupSummary> groups);

} // namespace docket
