// The guard against a slow late fall.
#include "core/adaptation/late_slope.h"
#include "core/statistics/distributions.h"
#include "tests/core/adaptation/simulated_learner.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

std::vector<PracticePoint> points_of(const std::vector<double>& times) {
  std::vector<PracticePoint> points;
  for (std::size_t i = 0; i < times.size(); ++i)
    points.push_back({static_cast<double>(i) + 1, times[i], made::day(static_cast<int>(i) / 50)});
  return points;
}

TEST(LateSlope, TheLastHalfByCount) {
  const PracticeMixture m = fit_mixture(points_of(made::simulated_times(400, 0, 0.05, 1, [](double) { return 50.0; })));
  const CurveData half = last_half(m.data);
  EXPECT_NEAR(half.count, 200, m.data.weight.back());
  EXPECT_EQ(half.n.back(), m.data.n.back());
  EXPECT_GT(half.n.front(), 195 - m.data.weight.back());
  // The same spread within blocks, cycle for cycle.
  const auto df = [](const CurveData& d) { return d.count - static_cast<double>(d.n.size()); };
  EXPECT_NEAR(half.within_ss / df(half), m.data.within_ss / df(m.data), 1e-12);
}

// ln y = a + b ln n exactly, with a ripple whose spread is known: the bound is that of a straight line (NIST/SEMATECH
// e-Handbook, 4.4.3): slope less t s / sqrt(Sxx), here computed from the points one by one.
TEST(LateSlope, TheBoundOfAStraightLine) {
  std::vector<double> times;
  for (int i = 1; i <= 120; ++i) times.push_back(60 * std::pow(i, -0.05) * (1 + 0.03 * ((i * 7) % 5 - 2)));
  const std::vector<PracticePoint> points = points_of(times);
  CurveData each; // a block a cycle
  for (const PracticePoint& p : points) {
    each.n.push_back(p.n);
    each.ln_y.push_back(std::log(p.seconds));
    each.weight.push_back(1);
  }
  each.count = 120;
  const PracticeMixture m = fit_mixture(each, 120, 0);
  double sx = 0, sy = 0, xx = 0, xy = 0, rss = 0;
  for (int i = 61; i <= 120; ++i) sx += std::log(i) / 60, sy += std::log(times[static_cast<std::size_t>(i) - 1]) / 60;
  for (int i = 61; i <= 120; ++i) {
    const double x = std::log(i) - sx, y = std::log(times[static_cast<std::size_t>(i) - 1]) - sy;
    xx += x * x;
    xy += x * y;
  }
  const double b = xy / xx;
  for (int i = 61; i <= 120; ++i)
    rss += std::pow(std::log(times[static_cast<std::size_t>(i) - 1]) - sy - b * (std::log(i) - sx), 2);
  const double t58 = 2.0017; // 97.5 % of Student's t with 58 degrees of freedom, NIST/SEMATECH e-Handbook 1.3.6.7.2
  const double lower = b - t58 * std::sqrt(rss / 58 / xx);
  EXPECT_NEAR(find_late_slope(m, 120, 0.03, 0.95).improvement_bound, 1 - std::pow(2, lower), 1e-5);
}

TEST(LateSlope, ALongFlatRecordPassesAndAFallingOneDoesNot) {
  const PracticeMixture flat =
      fit_mixture(points_of(made::simulated_times(1500, 0, 0.06, 2, [](double) { return 50.0; })));
  EXPECT_FALSE(find_late_slope(flat, 1500, 0.03, 0.95).could_fall);
  const PracticeMixture falling =
      fit_mixture(points_of(made::simulated_times(1500, 0, 0.06, 2, [](double n) { return 80 * std::pow(n, -0.07); })));
  const LateSlope late = find_late_slope(falling, 1500, 0.03, 0.95);
  EXPECT_TRUE(late.could_fall);
  EXPECT_GT(late.improvement_bound, 0.03);
}

} // namespace
} // namespace docket
