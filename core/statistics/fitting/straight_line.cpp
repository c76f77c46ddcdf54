#include "core/statistics/fitting/straight_line.h"

#include "core/statistics/distributions.h"
#include "core/statistics/summary.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>

namespace docket {
namespace {

/// Below this a sum of squares is what rounding leaves of equal values.
double rounding_ss(std::span<const double> values) {
  double size = 0;
  for (const double value : values) size = std::max(size, std::abs(value));
  const double rounding = 4 * std::numeric_limits<double>::epsilon() * size;
  return static_cast<double>(values.size()) * rounding * rounding;
}

} // namespace

StraightLine fit_straight_line(std::span<const double> x, std::span<const double> y) {
  assert(x.size() == y.size());
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  const StraightLine impossible{.intercept = none,
                                .intercept_se = none,
                                .slope = none,
                                .slope_se = none,
                                .residual_sd = none,
                                .r = none,
                                .df = none,
                                .p = none};
  if (x.size() < 3) return impossible;
  const auto n = static_cast<double>(x.size());
  const double mean_x = summarise(x).mean;
  const double mean_y = summarise(y).mean;
  double xx = 0, xy = 0, yy = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += (x[i] - mean_x) * (x[i] - mean_x);
    xy += (x[i] - mean_x) * (y[i] - mean_y);
    yy += (y[i] - mean_y) * (y[i] - mean_y);
  }
  const double rounding = rounding_ss(y);
  if (xx <= rounding_ss(x)) return impossible;

  StraightLine line{.df = n - 2, .possible = true};
  line.slope = yy <= rounding ? 0 : xy / xx;
  line.intercept = mean_y - line.slope * mean_x;
  line.r = yy <= rounding ? 0 : std::clamp(xy / std::sqrt(xx * yy), -1.0, 1.0);
  double residual_ss = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double residual = y[i] - mean_y - line.slope * (x[i] - mean_x);
    residual_ss += residual * residual;
  }
  if (residual_ss <= rounding) {
    line.p = line.slope == 0 ? 1 : 0;
    return line;
  }
  line.residual_sd = std::sqrt(residual_ss / line.df);
  line.slope_se = line.residual_sd / std::sqrt(xx);
  line.intercept_se = line.residual_sd * std::sqrt(1 / n + mean_x * mean_x / xx);
  line.p = 2 * student_t_cdf(-std::abs(line.slope / line.slope_se), line.df);
  return line;
}

} // namespace docket
