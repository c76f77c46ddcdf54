#include "core/statistics/distributions.h"
#include "core/statistics/fitting/linear_least_squares.h"
#include "core/statistics/fitting/profile_likelihood.h"
#include "tests/core/statistics/fitting/nist_nonlinear_models.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace docket {
namespace {

using Starts = std::vector<std::vector<double>>;

/// A model of one x with two parameters, derivatives filled as for the NIST sets.
LeastSquaresProblem problem_in_x(testing::NistModel model, std::vector<double> x, std::vector<double> y) {
  LeastSquaresProblem problem;
  problem.residual_count = x.size();
  problem.parameter_count = 2;
  problem.residuals = [model, x, y](std::span<const double> b, std::span<double> r) {
    std::vector<double> db(2);
    for (std::size_t i = 0; i < x.size(); ++i) r[i] = y[i] - model(b, std::vector<double>{x[i]}, db);
  };
  problem.jacobian = [model, x](std::span<const double> b, std::span<double> jacobian) {
    for (std::size_t i = 0; i < x.size(); ++i) {
      const std::span<double> row = jacobian.subspan(2 * i, 2);
      model(b, std::vector<double>{x[i]}, row);
      for (double& value : row) value = -value;
    }
  };
  return problem;
}

double line(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  db[0] = 1;
  db[1] = x[0];
  return b[0] + b[1] * x[0];
}

double michaelis(std::span<const double> b, std::span<const double> x, std::span<double> db) {
  db[0] = x[0] / (b[1] + x[0]);
  db[1] = -b[0] * db[0] / (b[1] + x[0]);
  return b[0] * db[0];
}

const std::vector<double> line_x{1, 2, 3, 5, 8, 13}, line_y{2.1, 3.9, 6.2, 9.7, 16.4, 25.9};

/// Intercept + 10 slope, once as a quantity of both.
ProfiledQuantity height_at_10() {
  ProfiledQuantity quantity;
  quantity.value = [](std::span<const double> p) { return p[0] + 10 * p[1]; };
  quantity.gradient = [](std::span<const double>, std::span<double> gradient) {
    gradient[0] = 1;
    gradient[1] = 10;
  };
  return quantity;
}

// Closed form for a linear model: S(v) = S + s^2 ((v - q) / se)^2, so the root of (S(v) - S) / s^2 is (v - q) / se, and
// the deviance n ln(S(v) / S) is z^2 at q +- se sqrt(df (exp(z^2 / n) - 1)).
TEST(ProfileLikelihood, closed_form_of_a_line) {
  const LeastSquaresProblem problem = problem_in_x(line, line_x, line_y);
  const LeastSquaresFit fit = fit_least_squares(problem, Starts{{0, 1}});
  std::vector<double> design;
  for (const double x : line_x) design.insert(design.end(), {1, x});
  const LinearFit exact = fit_linear_least_squares(design, 2, line_y);
  const double t = student_t_quantile(0.975, 4), z = 1.959963984540054;
  const double wide = std::sqrt(4 * std::expm1(z * z / 6));

  const auto both = [&](const ProfiledQuantity& quantity, double q, double se, double tolerance) {
    for (const double phi : {1.0, 2.5}) {
      const ProfileOptions by_t{.measure = ProfileMeasure::variance_ratio, .phi = phi};
      const ProfileInterval interval = profile_interval(problem, fit, quantity, t, by_t);
      ASSERT_TRUE(interval.low && interval.high) << interval.low_why << interval.high_why;
      EXPECT_NEAR(*interval.low, q - t * se * std::sqrt(phi), tolerance);
      EXPECT_NEAR(*interval.high, q + t * se * std::sqrt(phi), tolerance);
      EXPECT_NEAR(profile_at(problem, fit, quantity, q - 0.7 * se, by_t).root, -0.7 / std::sqrt(phi), 1e-7);
    }
    const ProfileInterval interval = profile_interval(problem, fit, quantity, z);
    ASSERT_TRUE(interval.low && interval.high);
    EXPECT_NEAR(*interval.low, q - wide * se, tolerance);
    EXPECT_NEAR(*interval.high, q + wide * se, tolerance);
    EXPECT_FALSE(interval.better_at);
  };
  both(profile_of_parameter(0), exact.parameters[0], exact.standard_errors[0], 1e-9);
  both(profile_of_parameter(1), exact.parameters[1], exact.standard_errors[1], 1e-9);
  const double variance = exact.covariance[0] + 20 * exact.covariance[1] + 100 * exact.covariance[3];
  both(height_at_10(), exact.parameters[0] + 10 * exact.parameters[1], std::sqrt(variance), 1e-8);
}

/// Ends as R finds them, to `tolerance` of the value: uniroot stops at 1e-8 or so in the sum of squares.
void expect_ends_of_r(const LeastSquaresProblem& problem, const LeastSquaresFit& fit, const ProfiledQuantity& quantity,
                      const std::string& key, double tolerance) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_profile");
  const double t = student_t_quantile(0.975, fit.df), z = 1.959963984540054;
  const ProfileInterval by_t = profile_interval(problem, fit, quantity, t, {.measure = ProfileMeasure::variance_ratio});
  ASSERT_TRUE(by_t.low && by_t.high) << key << by_t.low_why << by_t.high_why;
  EXPECT_NEAR(*by_t.low / by_r.at(key + ".t.low"), 1, tolerance) << key;
  EXPECT_NEAR(*by_t.high / by_r.at(key + ".t.high"), 1, tolerance) << key;
  const ProfileInterval by_z = profile_interval(problem, fit, quantity, z);
  ASSERT_TRUE(by_z.low && by_z.high) << key;
  EXPECT_NEAR(*by_z.low / by_r.at(key + ".deviance.low"), 1, tolerance) << key;
  EXPECT_NEAR(*by_z.high / by_r.at(key + ".deviance.high"), 1, tolerance) << key;
}

/// Puromycin, treated cells: Bates & Watts 1988, data A1.3; comes with R.
LeastSquaresProblem puromycin() {
  return problem_in_x(michaelis, {0.02, 0.02, 0.06, 0.06, 0.11, 0.11, 0.22, 0.22, 0.56, 0.56, 1.10, 1.10},
                      {76, 47, 97, 107, 123, 139, 159, 152, 191, 201, 207, 200});
}

// Bates & Watts 1988, by R: r_profile.
TEST(ProfileLikelihood, puromycin_by_another_program) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_profile");
  const LeastSquaresProblem problem = puromycin();
  const LeastSquaresFit fit = fit_least_squares(problem, Starts{{200, 0.05}});
  EXPECT_NEAR(fit.parameters[0] / by_r.at("puromycin.Vm"), 1, 1e-8);
  EXPECT_NEAR(fit.parameters[1] / by_r.at("puromycin.K"), 1, 1e-8);
  EXPECT_NEAR(fit.standard_errors[0] / by_r.at("puromycin.Vm.se"), 1, 1e-6);
  EXPECT_NEAR(fit.standard_errors[1] / by_r.at("puromycin.K.se"), 1, 1e-6);
  EXPECT_NEAR(fit.rss / by_r.at("puromycin.rss"), 1, 1e-10);
  expect_ends_of_r(problem, fit, profile_of_parameter(0), "puromycin.Vm", 1e-8);
  expect_ends_of_r(problem, fit, profile_of_parameter(1), "puromycin.K", 1e-8);

  ProfiledQuantity rate;
  rate.value = [](std::span<const double> p) { return p[0] * 0.1 / (p[1] + 0.1); };
  rate.gradient = [](std::span<const double> p, std::span<double> gradient) {
    gradient[0] = 0.1 / (p[1] + 0.1);
    gradient[1] = -p[0] * gradient[0] / (p[1] + 0.1);
  };
  expect_ends_of_r(problem, fit, rate, "puromycin.rate", 1e-8);

  // A parameter as a quantity: the augmented Lagrangian meets the elimination.
  ProfiledQuantity k;
  k.value = [](std::span<const double> p) { return p[1]; };
  k.gradient = [](std::span<const double>, std::span<double> gradient) {
    gradient[0] = 0;
    gradient[1] = 1;
  };
  expect_ends_of_r(problem, fit, k, "puromycin.K", 1e-8);

  // confint of MASS reads a spline: 4 digits.
  const ProfileInterval vm = profile_interval(problem, fit, profile_of_parameter(0), student_t_quantile(0.975, 10),
                                              {.measure = ProfileMeasure::variance_ratio});
  EXPECT_NEAR(*vm.low / by_r.at("puromycin.Vm.mass.low"), 1, 1e-4);
  EXPECT_NEAR(*vm.high / by_r.at("puromycin.Vm.mass.high"), 1, 1e-4);
}

TEST(ProfileLikelihood, boxbod_by_another_program) {
  const testing::NistSet set = testing::read_nist_nonlinear("BoxBOD");
  const LeastSquaresProblem problem = testing::problem_of(set);
  const LeastSquaresFit fit = fit_least_squares(problem, Starts{set.starts[1]});
  expect_ends_of_r(problem, fit, profile_of_parameter(0), "boxbod.b1", 1e-8);
  expect_ends_of_r(problem, fit, profile_of_parameter(1), "boxbod.b2", 1e-8);
}

// BoxBOD's rate: as b2 grows the curve becomes a constant, and as it falls a line through 0. The sum of squares of the
// constant is sum (y - mean)^2 = 9771.5, so its root never passes sqrt((9771.5 - 1168.0) / 292.0) = 5.43.
TEST(ProfileLikelihood, end_that_the_profile_never_reaches) {
  const testing::NistSet set = testing::read_nist_nonlinear("BoxBOD");
  const LeastSquaresProblem problem = testing::problem_of(set);
  const LeastSquaresFit fit = fit_least_squares(problem, Starts{set.starts[1]});
  double mean = 0, constant_ss = 0;
  for (const double y : set.y) mean += y / 6;
  for (const double y : set.y) constant_ss += (y - mean) * (y - mean);
  const double most = std::sqrt((constant_ss - fit.rss) / (fit.rss / 4));
  const ProfileOptions by_t{.measure = ProfileMeasure::variance_ratio};
  EXPECT_TRUE(profile_interval(problem, fit, profile_of_parameter(1), most - 0.01, by_t).high);
  const ProfileInterval open = profile_interval(problem, fit, profile_of_parameter(1), most + 0.01, by_t);
  EXPECT_FALSE(open.high);
  EXPECT_EQ(open.high_why, "However far the value goes, the fit does not get bad enough.");
  EXPECT_TRUE(open.low);
}

TEST(ProfileLikelihood, end_at_a_bound) {
  LeastSquaresProblem problem = problem_in_x(line, line_x, line_y);
  problem.bounds = {{0, 100}, {-10, 10}};
  const LeastSquaresFit fit = fit_least_squares(problem, Starts{{1, 1}});
  ASSERT_EQ(fit.outcome, FitOutcome::converged);
  const ProfileInterval interval = profile_interval(problem, fit, profile_of_parameter(0), 3);
  EXPECT_FALSE(interval.low);
  EXPECT_EQ(interval.low_why, "The edge of what is allowed comes before the fit is bad enough.");
  EXPECT_TRUE(interval.high);
  problem.bounds = {{1, 100}, {-10, 10}};
  const LeastSquaresFit edge = fit_least_squares(problem, Starts{{5, 1}});
  ASSERT_EQ(edge.outcome, FitOutcome::at_bound);
  const ProfileInterval from_edge = profile_interval(problem, edge, profile_of_parameter(0), 2);
  EXPECT_EQ(from_edge.low_why, "The fitted value is already at the edge of what is allowed.");
  EXPECT_TRUE(from_edge.high);
}

// The quantity exp(intercept) is above 0 and, with the intercept at most 1, at most e: beyond there is nothing.
TEST(ProfileLikelihood, value_out_of_reach) {
  LeastSquaresProblem problem = problem_in_x(line, line_x, line_y);
  problem.bounds = {{-1, 1}, {-10, 10}};
  const LeastSquaresFit fit = fit_least_squares(problem, Starts{{0, 1}});
  ProfiledQuantity power;
  power.value = [](std::span<const double> p) { return std::exp(p[0]); };
  power.gradient = [](std::span<const double> p, std::span<double> gradient) {
    gradient[0] = std::exp(p[0]);
    gradient[1] = 0;
  };
  EXPECT_FALSE(profile_at(problem, fit, power, 3).reached);
  EXPECT_TRUE(std::isinf(profile_at(problem, fit, power, 3).root));
  const ProfileInterval interval = profile_interval(problem, fit, power, 8);
  EXPECT_FALSE(interval.high);
  EXPECT_EQ(interval.high_why, "The values that the model can take end before the fit is bad enough.");
}

// A fit that was stopped early is not the smallest sum of squares; the profile says so.
TEST(ProfileLikelihood, better_fit_met) {
  const testing::NistSet set = testing::read_nist_nonlinear("Misra1a");
  const LeastSquaresProblem problem = testing::problem_of(set);
  LeastSquaresFit fit = fit_least_squares(problem, Starts{set.certified});
  fit.parameters = {240, 5.5e-4};
  std::vector<double> r(set.y.size());
  problem.residuals(fit.parameters, r);
  fit.rss = 0;
  for (const double value : r) fit.rss += value * value;
  const ProfileInterval interval = profile_interval(problem, fit, profile_of_parameter(0), 2);
  EXPECT_TRUE(interval.better_at);
}

} // namespace
} // namespace docket
