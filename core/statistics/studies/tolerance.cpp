#include "core/statistics/studies/tolerance.h"

#include <cassert>
#include <cmath>

namespace docket {
namespace {

/// The shift, over sqrt n, at which t has the stated probability at or below it. Falls as p rises.
double standard_distance(double p, double t, double n) {
  double low = -10, high = 10; // Beyond these the share is 0 or 1 in a double, or as good as.
  const double root = std::sqrt(n);
  for (int halvings = 0; halvings < 60; ++halvings) {
    const double middle = low + (high - low) / 2;
    (noncentral_t_cdf(t, n - 1, middle * root) > p ? low : high) = middle;
  }
  return low;
}

} // namespace

double tolerance_factor(std::int64_t n, double coverage, double confidence) {
  assert(n >= 2);
  assert(coverage > 0 && coverage < 1);
  const auto count = static_cast<double>(n);
  const double root = std::sqrt(count);
  return noncentral_t_quantile(confidence, count - 1, normal_quantile(coverage) * root) / root;
}

Bounds share_below(double mean, double sd, std::int64_t n, double limit, double confidence) {
  assert(confidence > 0 && confidence < 1);
  if (n < 2 || !(sd > 0)) return {.low = 0, .high = 1};
  const auto count = static_cast<double>(n);
  const double t = std::sqrt(count) * (limit - mean) / sd;
  const double tail = (1 - confidence) / 2;
  return {.low = normal_cdf(standard_distance(1 - tail, t, count)),
          .high = normal_cdf(standard_distance(tail, t, count))};
}

} // namespace docket
