// Simulated learners: what went in comes back. All data here are simulated.
#include "core/adaptation/practice_mixture.h"
#include "core/statistics/random.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

template <class Curve>
std::vector<PracticePoint> simulate(int cycles, double sigma, double rho, std::uint64_t seed, Curve curve) {
  const Draws draws(seed);
  std::vector<PracticePoint> points;
  double w = 0;
  for (int i = 1; i <= cycles; ++i) {
    const double z = draws.normal(1, 0, static_cast<std::uint64_t>(i));
    w = i == 1 ? sigma * z : rho * w + std::sqrt(1 - rho * rho) * sigma * z;
    points.push_back({static_cast<double>(i), curve(i) * std::exp(w - sigma * sigma / 2), made::day(i / 100)});
  }
  return points;
}

TEST(PracticeMixture, APersonWithNothingLeftToLearn) {
  const PracticeMixture m = fit_mixture(simulate(600, 0.08, 0, 5, [](double) { return 50.0; }));
  const TimeEstimate today = estimate_level(m, m.last, 0.95);
  EXPECT_LT(today.low, Seconds{50});
  EXPECT_GT(today.high, Seconds{50});
  EXPECT_LT(estimate_improvement(m, m.last + 600, 0.95).low, 0.005);
  EXPECT_NEAR(m.lag1, 0, 0.15);
}

TEST(PracticeMixture, APersonStillImprovingIsSeen) {
  const auto curve = [](double n) { return 45 + 60 * std::pow(n, -0.4); };
  const PracticeMixture m = fit_mixture(simulate(400, 0.08, 0, 6, curve));
  const double truth = 1 - curve(800) / curve(400);
  const ImprovementEstimate g = estimate_improvement(m, 800, 0.95);
  EXPECT_LE(g.low, truth);
  EXPECT_GE(g.high, truth);
  const TimeEstimate today = estimate_level(m, 400, 0.95);
  EXPECT_LE(today.low, Seconds{curve(400)});
  EXPECT_GE(today.high, Seconds{curve(400)});
  EXPECT_GT(1 - probability_improvement_within(m, 800, 0.01), 0.5);
}

TEST(PracticeMixture, DependenceWidensTheInterval) {
  const auto curve = [](double n) { return 45 + 40 * std::exp(-n / 150); };
  const PracticeMixture m = fit_mixture(simulate(500, 0.08, 0.5, 7, curve));
  EXPECT_NEAR(m.lag1, 0.5, 0.15);
  EXPECT_NEAR(m.phi, (1 + m.lag1) / (1 - m.lag1), 1e-12);
  const TimeEstimate today = estimate_level(m, 500, 0.95);
  EXPECT_LE(today.low, Seconds{curve(500)});
  EXPECT_GE(today.high, Seconds{curve(500)});
}

// Coverage over 60 simulated learners of the models' own shape: at least 51 of 60 (93 % less three standard errors).
TEST(PracticeMixture, IntervalsOfTheSettledLevelCover) {
  const auto curve = [](double n) { return 48 + 30 * std::exp(-n / 120); };
  int covered = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    const PracticeMixture m = fit_mixture(simulate(500, 0.08, 0, seed, curve));
    covered +=
        probability_level_within(m, 1000, curve(1000)) > 0.025 && probability_level_within(m, 1000, curve(1000)) < 0.975
            ? 1
            : 0;
  }
  EXPECT_GE(covered, 50);
}

// The same for learners of the power's own shape, today and settled: 38 of 40 expected, less three standard errors.
TEST(PracticeMixture, IntervalsCoverForAPowerToo) {
  const auto curve = [](double n) { return 80 * std::pow(n, -0.08); };
  int today = 0, settled = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    const PracticeMixture m = fit_mixture(simulate(300, 0.08, 0, seed, curve));
    const auto inside = [](double p) { return p > 0.025 && p < 0.975 ? 1 : 0; };
    today += inside(probability_level_within(m, 300, curve(300)));
    settled += inside(probability_level_within(m, 600, curve(600)));
  }
  EXPECT_GE(today, 34);
  EXPECT_GE(settled, 34);
}

TEST(PracticeMixture, CyclesToTheLimit) {
  const auto curve = [](double n) { return 45 + 60 * std::exp(-n / 200); };
  const PracticeMixture m = fit_mixture(simulate(300, 0.06, 0, 8, curve));
  const double truth = 200 * std::log(60.0 / 5) - 300; // where the curve meets 50 s
  const CyclesToGo go = estimate_cycles_to(m, 50, 900, 0.95);
  ASSERT_TRUE(go.median && go.low);
  EXPECT_LE(*go.low, truth);
  EXPECT_TRUE(!go.high || *go.high >= truth);
  EXPECT_EQ(estimate_cycles_to(m, 80, 900, 0.95).median, 0.0);
  // Two phases or a hyperbola could still fall far below what was seen; not to a sixth of it.
  const CyclesToGo never = estimate_cycles_to(m, 10, 900, 0.95);
  EXPECT_FALSE(never.median);
  EXPECT_GT(never.p_never, 0.95);
}

} // namespace
} // namespace docket
