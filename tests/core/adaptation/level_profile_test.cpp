// Read between a few levels, the profile must be what it is when computed at each. All learners are simulated.
#include "core/adaptation/level_profile.h"
#include "core/statistics/distributions.h"
#include "tests/core/adaptation/simulated_learner.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numeric>

namespace docket {
namespace {

CurveData learner(int cycles, double plateau, double excess, double tau) {
  const std::vector<double> times =
      made::simulated_times(cycles, 0, 0.08, 3, [&](double n) { return plateau + excess * std::exp(-n / tau); });
  std::vector<double> n(times.size());
  std::iota(n.begin(), n.end(), 1);
  return group_cycles(n, times);
}

// For a constant the deviance of ln level is N ln(1 + N d^2 / S), d the distance from the mean: closed form.
TEST(LevelProfile, OfAConstantIsTheClosedForm) {
  const CurveData data = learner(300, 55, 0, 1);
  const CurveFit fit = fit_curve(data, CurveModel::constant);
  const LevelProfile profile = profile_level(data, fit, 300, 1.4);
  for (const double d : {-0.015, -0.009, -0.004, 0.0, 0.003, 0.01, 0.014}) {
    const double root = std::copysign(std::sqrt(data.count * std::log1p(data.count * d * d / fit.rss) / 1.4), d);
    EXPECT_NEAR(profile.probability_within(fit.level(300) * std::exp(d)), normal_cdf(root), 2e-4) << d;
  }
}

TEST(LevelProfile, AgreesWithTheProfileItself) {
  const CurveData data = learner(400, 48, 30, 120);
  for (const CurveModel model : curve_models) {
    const CurveFit fit = fit_curve(data, model);
    for (const double cycle : {1.0, 400.0, 900.0}) {
      const LevelProfile profile = profile_level(data, fit, cycle, 1);
      for (std::size_t i = 0; i + 1 < profile.ln_level.size(); ++i) {
        const double seconds = std::exp((profile.ln_level[i] + profile.ln_level[i + 1]) / 2);
        const double itself = probability_level_within(data, fit, cycle, seconds, 1);
        // Near the fitted level the searched profile is the less exact one: the root of a small difference of sums.
        const double tolerance = std::abs(itself - 0.5) < 0.1 ? 0.012 : 0.004;
        EXPECT_NEAR(profile.probability_within(seconds), itself, tolerance)
            << name_of(model) << " " << cycle << " " << seconds;
      }
    }
  }
}

TEST(LevelProfile, RisesEverywhere) {
  const CurveData data = learner(150, 48, 12, 60);
  const LevelProfile profile =
      profile_level(data, fit_curve(data, CurveModel::power_plateau), std::numeric_limits<double>::infinity(), 1);
  double before = -1;
  for (double seconds = 0.5; seconds < 90; seconds *= 1.01) {
    const double p = profile.probability_within(seconds);
    EXPECT_GE(p, before) << seconds;
    before = p;
  }
}

// A hundred cycles far up a slow fall: any floor is possible, so the interval has no lower end, rather than a made-up one.
TEST(LevelProfile, AFloorThatTheCyclesDoNotShowHasNoLowerEnd) {
  const std::vector<double> times =
      made::simulated_times(100, 0, 0.05, 5, [](double n) { return 90 * std::pow(n, -0.15); });
  std::vector<double> n(times.size());
  std::iota(n.begin(), n.end(), 1);
  const CurveData data = group_cycles(n, times);
  const LevelProfile profile =
      profile_level(data, fit_curve(data, CurveModel::power_plateau), std::numeric_limits<double>::infinity(), 1);
  EXPECT_GT(profile.probability_within(std::exp(profile.ln_level.front())), 0.025);
  EXPECT_GT(profile.probability_within(std::exp(profile.ln_level.back())), 0.999);
}

} // namespace
} // namespace docket
