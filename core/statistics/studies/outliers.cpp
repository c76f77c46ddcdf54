#include "core/statistics/studies/outliers.h"

#include "core/statistics/distributions.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numeric>

namespace docket {

OutlierTest find_outliers(std::span<const double> values, std::size_t most, double alpha) {
  assert(alpha > 0 && alpha < 1);
  OutlierTest test;
  std::vector<double> left(values.begin(), values.end());
  std::vector<std::size_t> indices(values.size());
  std::iota(indices.begin(), indices.end(), std::size_t{0});
  double size = 0;
  for (const double value : values) size = std::max(size, std::abs(value));
  // Below this a standard deviation is what rounding leaves of equal values.
  const double rounding = 4 * std::numeric_limits<double>::epsilon() * size;

  while (test.steps.size() < most && left.size() >= 3) {
    const Summary summary = summarise(left);
    if (summary.sd <= rounding) break;
    const auto distance = [&](double value) { return std::abs(value - summary.mean); };
    const auto furthest = std::ranges::max_element(left, {}, distance);
    const auto here = furthest - left.begin();
    const auto m = static_cast<double>(left.size()); // n - i + 1
    const double t = -student_t_quantile(alpha / (2 * m), m - 2);
    test.steps.push_back({.index = indices[static_cast<std::size_t>(here)],
                          .r = distance(*furthest) / summary.sd,
                          .lambda = (m - 1) * t / std::sqrt((m - 2 + t * t) * m)});
    if (test.steps.back().r > test.steps.back().lambda) test.count = test.steps.size();
    left.erase(furthest);
    indices.erase(indices.begin() + here);
  }
  return test;
}

} // namespace docket
