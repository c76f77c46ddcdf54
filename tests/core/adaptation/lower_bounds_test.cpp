// Lower bounds against R's survreg and optim; the hyperbolic and the two-phase curve, for which no published numbers are at
// hand, against R's nls and optim and their closed form. tests/reference/r_lower_bounds/ORIGIN.
#include "core/adaptation/curve_profile.h"
#include "core/statistics/distributions.h"
#include "core/statistics/random.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <set>

namespace docket {
namespace {

double by_r(const std::string& key) {
  static const std::map<std::string, double> values = testing::read_reference_values("r_lower_bounds");
  return values.at(key);
}

/// The forty made times, eight of them bounds at 93 %.
CurveData made_with_bounds() {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/r_practice_curves/made.csv");
  const std::set<int> helped{3, 8, 9, 15, 22, 27, 31, 38};
  std::vector<double> n, y, bound_n, bound_y;
  int i = 0;
  for (double time = 0; file >> time;) {
    const bool bound = helped.contains(++i);
    (bound ? bound_n : n).push_back(i);
    (bound ? bound_y : y).push_back(bound ? 0.93 * time : time);
  }
  CurveData data = group_cycles(n, y);
  add_lower_bounds(data, bound_n, bound_y);
  return data;
}

// 1e-6: survreg stops at a relative change of 1e-14 in the likelihood, the search at 1e-5 of a step.
TEST(LowerBounds, ConstantAndPowerAgreeWithSurvreg) {
  const CurveData data = made_with_bounds();
  ASSERT_EQ(data.bound_n.size(), 8U);
  const CurveFit flat = fit_curve(data, CurveModel::constant);
  EXPECT_NEAR(flat.c / by_r("constant.c"), 1, 1e-5);
  EXPECT_NEAR(flat.sigma / by_r("constant.sigma"), 1, 1e-5);
  EXPECT_NEAR(flat.cost, by_r("constant.cost"), 1e-6);
  const CurveFit power = fit_curve(data, CurveModel::power);
  EXPECT_NEAR(power.excess / by_r("power.a"), 1, 1e-4);
  EXPECT_NEAR(power.shape / by_r("power.b"), 1, 1e-4);
  EXPECT_NEAR(power.sigma / by_r("power.sigma"), 1, 1e-5);
  EXPECT_NEAR(power.cost, by_r("power.cost"), 1e-6);
}

// The exponent held is the improvement from n to 2 n held: survreg with an offset.
TEST(LowerBounds, ProfileOfThePowerAgreesWithSurvreg) {
  const CurveData data = made_with_bounds();
  const CurveFit fit = fit_curve(data, CurveModel::power);
  const CurveProfile profile(data, fit, 1);
  for (const char* t : {"-2", "-1", "1", "2"}) {
    const double b = by_r(std::string("power.b_held_") + t);
    const double root = std::sqrt(by_r(std::string("power.cost_held_") + t) - by_r("power.cost"));
    EXPECT_NEAR(profile.probability_improvement_within(data, 40, 80, 1 - std::exp2(-b)),
                normal_cdf(b > fit.shape ? root : -root), 2e-4)
        << t;
  }
}

TEST(LowerBounds, ThePlateauAgreesWithOptim) {
  const CurveFit fit = fit_curve(made_with_bounds(), CurveModel::exponential_plateau);
  EXPECT_NEAR(fit.cost, by_r("exponential_plateau.cost"), 1e-5);
  EXPECT_NEAR(fit.c / by_r("exponential_plateau.c"), 1, 1e-4);
  EXPECT_NEAR(fit.shape / by_r("exponential_plateau.tau"), 1, 1e-3);
  EXPECT_NEAR(fit.sigma / by_r("exponential_plateau.sigma"), 1, 1e-4);
}

// Simulated: help that comes at a moment of its own, so that the bound says nothing of how the cycle would have gone on.
TEST(LowerBounds, TheLevelComesBackWhereATwentiethToAThirdIsHelped) {
  for (const double helped : {0.05, 0.15, 0.30}) {
    const Draws draws(7);
    std::vector<double> n, y, bound_n, bound_y;
    for (int i = 1; i <= 4000; ++i) {
      const auto at = static_cast<std::uint64_t>(i);
      const double time = 50 * std::exp(0.10 * draws.normal(1, 0, at) - 0.005);
      const double moment = 60 + 60 * (draws.uniform(2, 0, at) - helped * 2); // some are helped before they are done
      (moment < time ? bound_n : n).push_back(i);
      (moment < time ? bound_y : y).push_back(std::min(time, moment));
    }
    CurveData data = group_cycles(n, y);
    for (std::size_t i = 0; i < bound_y.size(); ++i) bound_y[i] = std::max(bound_y[i], 1.0);
    add_lower_bounds(data, bound_n, bound_y);
    const CurveFit fit = fit_curve(data, CurveModel::constant);
    EXPECT_NEAR(fit.level(4000), 50, 50 * 3 * 0.10 / std::sqrt(static_cast<double>(n.size()))) << helped;
    EXPECT_NEAR(fit.sigma, 0.10, 0.005) << helped;
  }
}

struct Rippled {
  std::vector<double> n, y;
};

/// Invented: a curve with a ripple of 2 %.
template <class Curve>
Rippled rippled(Curve curve) {
  Rippled out;
  for (int k = 1; k <= 400; ++k) {
    out.n.push_back(k);
    out.y.push_back(curve(k) * (1 + 0.02 * ((k * 7) % 5 - 2)));
  }
  return out;
}

/// A block a cycle, as R has them.
CurveData ungrouped(const Rippled& times) {
  CurveData data;
  data.n = times.n;
  for (const double y : times.y) data.ln_y.push_back(std::log(y));
  data.weight.assign(times.n.size(), 1);
  data.count = static_cast<double>(times.n.size());
  return data;
}

TEST(PracticeCurve, HyperbolicAgreesWithNls) {
  const CurveFit fit =
      fit_curve(ungrouped(rippled([](double n) { return 50 + 40 / (1 + n / 25); })), CurveModel::hyperbolic_plateau);
  EXPECT_NEAR(fit.rss / by_r("hyperbolic_plateau.rss"), 1, 1e-8);
  EXPECT_NEAR(fit.c / by_r("hyperbolic_plateau.c"), 1, 1e-5);
  EXPECT_NEAR(fit.shape / by_r("hyperbolic_plateau.h"), 1, 1e-4);
  const double a = by_r("hyperbolic_plateau.a"), h = by_r("hyperbolic_plateau.h");
  EXPECT_NEAR(fit.excess / (a / (1 + 1 / h)), 1, 1e-4) << "at the first cycle";
}

double two_phases(double n) { return 50 + 30 * std::exp(-n / 12) + 20 * std::exp(-n / 150); }

TEST(PracticeCurve, TwoPhasesAgreeWithOptim) {
  const CurveData data = ungrouped(rippled(two_phases));
  const CurveFit fit = fit_curve(data, CurveModel::two_phase);
  EXPECT_NEAR(fit.rss / by_r("two_phase.rss"), 1, 1e-6);
  EXPECT_NEAR(fit.c / by_r("two_phase.c"), 1, 1e-4);
  EXPECT_NEAR(fit.shape / by_r("two_phase.t1"), 1, 1e-2);
  EXPECT_NEAR(fit.shape2 / by_r("two_phase.t2"), 1, 1e-2);
  // The residual sum with the level at 800 held.
  const CurveProfile profile(data, fit, 1);
  for (const char* r : {"0.99", "0.995", "1.004", "1.008"}) {
    const double root = std::sqrt(400 * std::log(by_r(std::string("two_phase.rss_held_") + r) / by_r("two_phase.rss")));
    const double level = by_r("two_phase.m800") * std::stod(r) * std::exp(fit.sigma * fit.sigma / 2);
    EXPECT_NEAR(profile.level_root(data, 800, level), std::stod(r) > 1 ? root : -root, root < 1 ? 0.1 : 0.01) << r;
  }
}

// Closed form: without noise the curve comes back.
TEST(PracticeCurve, ACurveWithoutNoiseComesBack) {
  Rippled exact;
  for (int k = 1; k <= 300; ++k) {
    exact.n.push_back(k);
    exact.y.push_back(two_phases(k));
  }
  const CurveFit fit = fit_curve(ungrouped(exact), CurveModel::two_phase);
  EXPECT_NEAR(fit.shape, 12, 0.05);
  EXPECT_NEAR(fit.shape2, 150, 1);
  EXPECT_NEAR(fit.at(1000), two_phases(1000), 0.02);
}

} // namespace
} // namespace docket
