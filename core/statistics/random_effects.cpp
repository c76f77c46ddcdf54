#include "core/statistics/random_effects.h"

#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>
#include <utility>
#include <vector>

namespace docket {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

struct Group {
  double n = 0;
  double mean = 0; ///< Less the centre, for digits.
};

/// The restricted likelihood with everything but ratio = variance_between / variance_within taken at its best.
struct Profile {
  std::vector<Group> groups;
  double n = 0;
  double within_ss = 0;

  struct Point {
    double log_likelihood = 0; ///< Up to a constant.
    double slope = 0;          ///< Its derivative by the ratio.
    double mean = 0;           ///< Less the centre.
    double weight = 0;         ///< mean has the variance variance_within / weight.
    double variance_within = 0;
  };

  Point at(double ratio) const {
    double weight = 0, weight_squared = 0, weighted_mean = 0, log_determinant = 0;
    for (const Group& group : groups) {
      const double w = group.n / (1 + group.n * ratio);
      weight += w;
      weight_squared += w * w;
      weighted_mean += w * group.mean;
      log_determinant += std::log1p(group.n * ratio);
    }
    Point point{.mean = weighted_mean / weight, .weight = weight};
    double quadratic = within_ss, quadratic_slope = 0; // The derivative of w is -w^2.
    for (const Group& group : groups) {
      const double w = group.n / (1 + group.n * ratio);
      const double residual = group.mean - point.mean;
      quadratic += w * residual * residual;
      quadratic_slope += w * w * residual * residual;
    }
    point.variance_within = quadratic / (n - 1);
    point.log_likelihood = -0.5 * ((n - 1) * std::log(quadratic) + log_determinant + std::log(weight));
    point.slope = 0.5 * ((n - 1) * quadratic_slope / quadratic - (weight - weight_squared / weight));
    return point;
  }

  /// Where the slope turns from plus to minus between two ratios.
  double top_between(double low, double high) const {
    for (;;) {
      const double middle = low + (high - low) / 2;
      if (middle <= low || middle >= high) return low;
      (at(middle).slope > 0 ? low : high) = middle;
    }
  }

  /// The best ratio; absent where the likelihood still grows at the end of the search.
  std::optional<double> best_ratio() const {
    constexpr double lowest = 1e-12, highest = 1e15, step = 1.25;
    const double n_max = std::ranges::max_element(groups, {}, [](const Group& group) { return group.n; })->n;
    std::optional<double> best;
    double best_log_likelihood = -std::numeric_limits<double>::infinity();
    const auto offer = [&](double ratio) {
      const double log_likelihood = at(ratio).log_likelihood;
      if (log_likelihood > best_log_likelihood) {
        best = ratio;
        best_log_likelihood = log_likelihood;
      }
    };
    double low = 0;
    double low_slope = at(0).slope;
    if (low_slope <= 0) offer(0);
    for (double high = lowest / n_max; high < highest; high *= step) {
      const double high_slope = at(high).slope;
      if (low_slope > 0 && high_slope <= 0) offer(top_between(low, high));
      low = high;
      low_slope = high_slope;
    }
    return low_slope > 0 ? std::nullopt : best;
  }
};

/// Mean and variance of the group means, each counted once.
RandomEffects from_means(const std::vector<double>& means, RandomEffectsOutcome outcome, std::string reason) {
  const Summary summary = summarise(means);
  return {.mean = summary.mean,
          .mean_se = summary.sd / std::sqrt(static_cast<double>(summary.n)),
          .variance_between = summary.sd * summary.sd,
          .variance_within = 0,
          .outcome = outcome,
          .reason = std::move(reason)};
}

} // namespace

GroupSummary summarise_group(std::span<const double> values) {
  if (values.empty()) return {};
  const Summary summary = summarise(values);
  const double within_ss = summary.n > 1 ? summary.sd * summary.sd * static_cast<double>(summary.n - 1) : 0;
  return {.n = summary.n, .mean = summary.mean, .within_ss = within_ss};
}

RandomEffects fit_random_effects(std::span<const GroupSummary> groups) {
  Profile profile;
  std::vector<double> means;
  double size = 0;
  for (const GroupSummary& group : groups) {
    if (group.n < 1) continue;
    profile.groups.push_back({.n = static_cast<double>(group.n), .mean = group.mean});
    profile.n += static_cast<double>(group.n);
    profile.within_ss += group.within_ss;
    means.push_back(group.mean);
    size = std::max(size, std::abs(group.mean));
  }
  const auto group_count = static_cast<double>(means.size());

  if (means.size() < 2) {
    const double spare = profile.n - group_count;
    return {.mean = means.empty() ? none : means.front(),
            .mean_se = none,
            .variance_between = none,
            .variance_within = spare > 0 ? profile.within_ss / spare : none,
            .outcome = RandomEffectsOutcome::one_group,
            .reason = "Fewer than two groups: the spread between groups is not known."};
  }
  if (profile.n == group_count) {
    RandomEffects effects = from_means(means, RandomEffectsOutcome::no_replication,
                                       "Every group has one value: spread between and within can't be told apart.");
    effects.variance_between = none;
    effects.variance_within = none;
    return effects;
  }
  const std::string no_spread = "There is no spread within the groups.";
  // Below this a sum of squares is what rounding leaves of equal values.
  const double rounding = 4 * std::numeric_limits<double>::epsilon() * size;
  if (profile.within_ss <= profile.n * rounding * rounding) {
    return from_means(means, RandomEffectsOutcome::no_spread, no_spread);
  }

  double centre = 0;
  for (const Group& group : profile.groups) centre += group.n / profile.n * group.mean;
  for (Group& group : profile.groups) group.mean -= centre;
  const std::optional<double> ratio = profile.best_ratio();
  if (!ratio) return from_means(means, RandomEffectsOutcome::no_spread, no_spread);
  const Profile::Point best = profile.at(*ratio);
  return {.mean = centre + best.mean,
          .mean_se = std::sqrt(best.variance_within / best.weight),
          .variance_between = *ratio * best.variance_within,
          .variance_within = best.variance_within,
          .outcome = RandomEffectsOutcome::fitted,
          .reason = {}};
}

} // namespace docket
