#include "core/statistics/summary.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace docket {

Summary summarise(std::span<const double> values) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  Summary summary{.n = static_cast<std::int64_t>(values.size()), .mean = none, .sd = none};
  if (values.empty()) return summary;
  const auto n = static_cast<double>(values.size());
  double sum = 0;
  for (const double value : values) sum += value;
  const double first_mean = sum / n;
  double deviations = 0;
  double squares = 0;
  for (const double value : values) {
    const double deviation = value - first_mean;
    deviations += deviation;
    squares += deviation * deviation;
  }
  summary.mean = first_mean + deviations / n;
  if (values.size() > 1) summary.sd = std::sqrt(std::max(0.0, squares - deviations * deviations / n) / (n - 1));
  return summary;
}

double median(std::vector<double> values) {
  if (values.empty()) return std::numeric_limits<double>::quiet_NaN();
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  if (values.size() % 2 == 1) return *middle;
  const double below = *std::max_element(values.begin(), middle);
  return below + (*middle - below) / 2;
}

} // namespace docket
