// Checks of the residuals: against R, and on learners whose truth is known. Simulated, nobody's data.
#include "core/adaptation/residual_checks.h"
#include "tests/core/adaptation/simulated_learner.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <fstream>
#include <string>

namespace docket {
namespace {

std::vector<PracticePoint> points_of(const std::vector<double>& times, int per_day) {
  std::vector<PracticePoint> points;
  for (std::size_t i = 0; i < times.size(); ++i)
    points.push_back({static_cast<double>(i + 1), times[i], made::day(static_cast<int>(i) / per_day)});
  return points;
}

/// The times of tests/reference/r_robust, all on one day.
std::vector<PracticePoint> read_points() {
  std::vector<double> times;
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/r_robust/cycles.csv");
  std::string line;
  for (std::getline(file, line); std::getline(file, line);) times.push_back(std::stod(line.substr(line.find(',') + 1)));
  return points_of(times, 1000);
}

std::vector<double> falling_times(int cycles, double sigma, std::uint64_t seed) {
  return made::simulated_times(cycles, 0, sigma, seed, [](double n) { return 50 + 25 * std::exp(-n / 80); });
}

CurveFit constant_of(const std::vector<PracticePoint>& points) {
  std::vector<double> n, seconds;
  for (const PracticePoint& point : points) {
    n.push_back(point.n);
    seconds.push_back(point.seconds);
  }
  return fit_curve(group_cycles(n, seconds), CurveModel::constant);
}

ResidualChecks check(const std::vector<PracticePoint>& points, double at = 600) {
  return check_residuals(points, fit_mixture(points), at, 0.95);
}

// R's MASS::rlm on ln y. Ours stops within ten rounds, and 1.4826 is 1/0.6745 to five digits.
TEST(RobustCurve, ConstantAgreesWithR) {
  const auto r = testing::read_reference_values("r_robust");
  const std::array models{CurveModel::constant};
  const auto curve = fit_robust_curve(read_points(), models);
  ASSERT_TRUE(curve);
  EXPECT_NEAR(std::log(curve->fit.c), r.at("constant.ln_c"), 1e-5);
  EXPECT_NEAR(curve->scale, r.at("constant.scale"), 1e-5);
}

// The power curve is a straight line of ln y on ln n. The least squares slope, 0.1191, is further off.
TEST(RobustCurve, PowerAgreesWithR) {
  const auto r = testing::read_reference_values("r_robust");
  const std::array models{CurveModel::power};
  const auto curve = fit_robust_curve(read_points(), models);
  ASSERT_TRUE(curve);
  EXPECT_TRUE(curve->converged);
  EXPECT_NEAR(curve->fit.shape, r.at("power.b"), 2e-5);
  EXPECT_NEAR(std::log(curve->fit.at(1)), r.at("power.ln_a"), 5e-5);
  EXPECT_NEAR(curve->scale, r.at("power.scale"), 2e-5);
  EXPECT_GT(std::abs(r.at("power.least_squares_b") - r.at("power.b")), 1e-3);
}

// All times 2 % above or below: nothing is far, so the fit is the mean of the logarithms (least squares), s 1.4826 x 0.02.
TEST(RobustCurve, WithNothingFarItIsLeastSquares) {
  const std::array models{CurveModel::constant};
  std::vector<double> times;
  for (int i = 0; i < 40; ++i) times.push_back(50 * std::exp(i % 2 == 0 ? 0.02 : -0.02));
  const auto curve = fit_robust_curve(points_of(times, 1000), models);
  ASSERT_TRUE(curve);
  EXPECT_NEAR(curve->fit.c, 50, 1e-9);
  EXPECT_EQ(curve->clipped, 0);
  EXPECT_NEAR(curve->scale, 1.4826 * 0.02, 1e-12);
}

TEST(RobustCurve, HalfTheSameTimeHasNoScale) {
  const std::array models{CurveModel::constant};
  std::vector<double> times(40, 50.0);
  EXPECT_FALSE(fit_robust_curve(points_of(times, 1000), models));
}

// One cycle in ten is half as long again. The settled level of the clean times comes back; least squares is pulled up.
TEST(ResidualChecks, KnownContaminationIsTakenBack) {
  const std::vector<double> clean = falling_times(400, 0.04, 7);
  std::vector<double> spoilt = clean;
  for (std::size_t i = 5; i < spoilt.size(); i += 10) spoilt[i] *= 1.5;
  const double truth = 50 + 25 * std::exp(-600.0 / 80);
  const ResidualChecks checks = check(points_of(spoilt, 50));
  ASSERT_TRUE(checks.robust);
  EXPECT_TRUE(checks.robust->converged);
  const TimeEstimate plain = estimate_level(fit_mixture(points_of(spoilt, 50)), 600, 0.95);
  EXPECT_NEAR(checks.robust->settled.time.count(), truth, 0.015 * truth);
  EXPECT_GT(plain.time.count(), 1.03 * truth);
  EXPECT_GE(checks.robust->clipped, 40);
  ASSERT_TRUE(checks.robust->settled.low && checks.robust->settled.high);
  EXPECT_LT(*checks.robust->settled.low, checks.robust->settled.time);
  EXPECT_GT(*checks.robust->settled.high, checks.robust->settled.time);
}

// Psi with k = 1.345 is 95 % as sharp as least squares on normal residuals (Huber 1964): intervals of nearly one width.
TEST(ResidualChecks, CleanTimesGiveNearlyTheSameLevel) {
  double width = 0, width_plain = 0;
  for (std::uint64_t seed = 1; seed <= 2; ++seed) {
    const auto points = points_of(falling_times(400, 0.04, seed), 50);
    const ResidualChecks checks = check(points);
    const TimeEstimate plain = estimate_level(fit_mixture(points), 600, 0.95);
    ASSERT_TRUE(checks.robust && checks.robust->settled.low && checks.robust->settled.high && plain.low && plain.high);
    EXPECT_NEAR(checks.robust->settled.time / plain.time, 1, 0.01);
    width += (*checks.robust->settled.high - *checks.robust->settled.low).count();
    width_plain += (*plain.high - *plain.low).count();
  }
  EXPECT_NEAR(width / width_plain, 1 / std::sqrt(0.95), 0.15);
}

// R's Box.test, Ljung-Box: one stretch, constant.
TEST(ResidualChecks, DependenceAgreesWithR) {
  const auto r = testing::read_reference_values("r_robust");
  const std::vector<PracticePoint> points = read_points();
  const DependenceTest test = test_dependence(points, constant_of(points));
  EXPECT_EQ(test.pairs, 48);
  EXPECT_NEAR(test.lag1, r.at("dependence.lag1"), 1e-9);
  EXPECT_NEAR(test.p, r.at("dependence.p"), 1e-9);
}

// Without dependence p is uniform: below 0.05 in 5 of 100; 15 of 100 are beyond all but 1 in 10,000 (binomial).
TEST(ResidualChecks, IndependentCyclesSeldomLookDependent) {
  int found = 0;
  for (std::uint64_t seed = 1; seed <= 100; ++seed) {
    const auto points = points_of(made::simulated_times(120, 0, 0.05, seed, [](double) { return 50; }), 30);
    found += test_dependence(points, constant_of(points)).p < 0.05 ? 1 : 0;
  }
  EXPECT_LE(found, 15);
}

/// Six days of 25 cycles around 50 s whose first five take the day's ln difference longer.
std::vector<PracticePoint> with_warm_up(const std::vector<double>& differences) {
  std::vector<double> times;
  for (const double difference : differences)
    for (int i = 0; i < 25; ++i) times.push_back(50 * std::exp(i < 5 ? difference : 0));
  return points_of(times, 25);
}

// R's t.test of the six differences. Around a constant the differences of residuals are those of ln y.
TEST(ResidualChecks, WarmUpAgreesWithR) {
  const auto r = testing::read_reference_values("r_robust");
  const auto points = with_warm_up({0.041, 0.032, 0.055, 0.048, 0.029, 0.037});
  const auto warm_up = find_warm_up(points, constant_of(points), 0.95);
  ASSERT_TRUE(warm_up);
  EXPECT_EQ(warm_up->days, 6);
  EXPECT_NEAR(warm_up->ratio, r.at("warm_up.ratio"), 1e-9);
  EXPECT_NEAR(warm_up->low, r.at("warm_up.low"), 1e-9);
  EXPECT_NEAR(warm_up->high, r.at("warm_up.high"), 1e-9);
  EXPECT_TRUE(warm_up->named);
}

TEST(ResidualChecks, WarmUpWithinOnePercentIsNotNamed) {
  const auto points = with_warm_up({0.011, 0.006, 0.004, 0.012, 0.009, 0.008});
  const auto warm_up = find_warm_up(points, constant_of(points), 0.95);
  ASSERT_TRUE(warm_up);
  EXPECT_FALSE(warm_up->named);
}

TEST(ResidualChecks, FourDaysAreTooFewForWarmUp) {
  const auto points = with_warm_up({0.041, 0.032, 0.055, 0.048});
  EXPECT_FALSE(find_warm_up(points, constant_of(points), 0.95));
}

// Two cycles put in at 2 and 3 times the level, one at a third: named with own cycle and time, in order; nothing else.
TEST(ResidualChecks, WildCyclesAreListedAndStay) {
  std::vector<double> times = falling_times(200, 0.03, 3);
  times[40] = 115;
  times[90] = 170;
  times[150] = 18;
  const auto points = points_of(times, 40);
  const ResidualChecks checks = check(points);
  EXPECT_TRUE(checks.extremes_looked_for);
  ASSERT_EQ(checks.extremes.size(), 3U);
  EXPECT_EQ(checks.extremes[0].n, 41);
  EXPECT_EQ(checks.extremes[1].n, 91);
  EXPECT_EQ(checks.extremes[2].n, 151);
  EXPECT_EQ(checks.extremes[0].time, Seconds{115});
  EXPECT_EQ(checks.extremes[0].day, made::day(1));
  EXPECT_GT(checks.extremes[0].in_sd, 4);
  EXPECT_LT(checks.extremes[2].in_sd, -4);
}

TEST(ResidualChecks, NeverMoreThanTen) {
  std::vector<double> times = falling_times(300, 0.02, 5);
  for (std::size_t i = 20; i < 300; i += 20) times[i] *= 4;
  EXPECT_LE(check(points_of(times, 60)).extremes.size(), 10U);
  EXPECT_FALSE(check(points_of(falling_times(20, 0.03, 4), 10), 30).extremes_looked_for);
}

} // namespace
} // namespace docket
