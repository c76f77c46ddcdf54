#include "core/statistics/autocorrelation.h"

#include "core/statistics/summary.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>

namespace docket {

Lag1 lag1_autocorrelation(std::span<const std::vector<double>> stretches) {
  std::vector<double> all;
  for (const auto& stretch : stretches) all.insert(all.end(), stretch.begin(), stretch.end());
  const Summary summary = summarise(all);

  double squares = 0;
  double products = 0;
  double pairs = 0;
  for (const auto& stretch : stretches) {
    for (std::size_t i = 0; i < stretch.size(); ++i) {
      const double deviation = stretch[i] - summary.mean;
      squares += deviation * deviation;
      if (i == 0) continue;
      products += deviation * (stretch[i - 1] - summary.mean);
      pairs += 1;
    }
  }
  if (pairs == 0 || squares == 0) return {};
  const auto n = static_cast<double>(summary.n);
  // A few pairs far from the mean, among many values near it, could pass 1.
  const double raw = std::clamp(products / pairs * (n - 1) / squares, -1.0, 1.0);
  return {.raw = raw, .corrected = std::clamp(raw + (1 + 3 * raw) / n, -0.99, 0.99)};
}

double effective_count(double n, double rho) {
  assert(n >= 1);
  assert(rho > -1 && rho < 1);
  return std::clamp(n * (1 - rho) / (1 + rho), 1.0, n);
}

} // namespace docket
