#include "core/statistics/studies/sample_size.h"

#include "core/statistics/summary.h"

#include <cassert>
#include <cmath>
#include <limits>

namespace docket {

double needed_readings(std::span<const double> preliminary, double relative_precision, double z) {
  assert(relative_precision > 0 && z > 0);
  const Summary summary = summarise(preliminary);
  if (summary.n < 2 || !(summary.mean > 0)) return std::numeric_limits<double>::quiet_NaN();
  const auto n = static_cast<double>(summary.n);
  // sqrt(n' sum x^2 - (sum x)^2) / sum x is the standard deviation with the divisor n', over the mean.
  const double variance = summary.sd * summary.sd * (n - 1) / n;
  const double root = z / relative_precision / summary.mean;
  return root * root * variance;
}

} // namespace docket
