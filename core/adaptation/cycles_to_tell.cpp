#include "core/adaptation/cycles_to_tell.h"

#include "core/adaptation/late_slope.h"
#include "core/rules.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace docket {

namespace {

constexpr int blocks_added = 40;                             ///< fine enough for a curve that is as good as straight
constexpr std::array tried_shares{0.25, 0.5, 1.0, 2.0, 3.0}; ///< [1] of the cycles seen
constexpr int halvings = 3;

/// The averaged curves after so many more plain cycles, and where they are then read.
struct Longer {
  PracticeMixture mixture;
  double horizon = 0;
};

Longer with_more(const PracticeMixture& mixture, const TellBasis& basis, double added) {
  CurveData data = mixture.data;
  const double own = added / static_cast<double>(basis.plain_cycles) * basis.observed;
  for (int i = 0; i < blocks_added; ++i) {
    const double n = mixture.last + own * (i + 0.5) / blocks_added;
    double level = 0;
    for (std::size_t m = 0; m < mixture.weights.size(); ++m) level += mixture.weights[m] * mixture.fit(m).at(n);
    data.n.push_back(n);
    data.ln_y.push_back(std::log(level));
    data.weight.push_back(added / blocks_added);
  }
  data.within_ss += mixture.middle_variance() * added;
  data.count += added;
  const auto horizon = static_cast<double>(settled_horizon(basis.observed + own, basis.cycles_per_shift));
  return {fit_mixture(data, mixture.last + own, mixture.lag1), horizon};
}

/// Would the cycles seen and `share` times as many tell?
bool would_tell(const PracticeMixture& mixture, const TellBasis& basis, double share) {
  const Longer longer = with_more(mixture, basis, share * static_cast<double>(basis.plain_cycles));
  const double within =
      probability_improvement_within(longer.mixture, longer.mixture.last + longer.horizon, basis.improvement_left);
  const double half_alpha = (1 - basis.confidence) / 2;
  if (within <= half_alpha) return true;
  return within >= 1 - half_alpha &&
         !find_late_slope(longer.mixture, longer.horizon, basis.improvement_left, basis.confidence).could_fall;
}

} // namespace

std::int64_t settled_horizon(double observed, std::int64_t cycles_per_shift) {
  const double shifts = rules::horizon_shifts * static_cast<double>(cycles_per_shift);
  return std::llround(std::min(std::max(observed, shifts), rules::horizon_times_observed * observed));
}

std::optional<std::int64_t> find_cycles_to_tell(const PracticeMixture& mixture, const TellBasis& basis) {
  double too_few = 0;
  for (const double share : tried_shares) {
    if (!would_tell(mixture, basis, share)) {
      too_few = share;
      continue;
    }
    double enough = share;
    for (int i = 0; i < halvings; ++i) {
      const double middle = (too_few + enough) / 2;
      (would_tell(mixture, basis, middle) ? enough : too_few) = middle;
    }
    return std::llround(std::ceil(enough * static_cast<double>(basis.plain_cycles)));
  }
  return std::nullopt;
}

TimeEstimate expected_settled_level(const PracticeMixture& mixture, const TellBasis& basis, double cycles) {
  const Longer longer = with_more(mixture, basis, cycles);
  return estimate_level(longer.mixture, longer.mixture.last + longer.horizon, basis.confidence);
}

} // namespace docket
