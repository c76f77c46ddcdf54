#include "core/statistics/fitting/separable_least_squares.h"
#include "tests/core/statistics/fitting/nist_nonlinear_models.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <ostream>
#include <string>
#include <utility>
#include <vector>

namespace docket {
namespace {

struct SeparableSet {
  std::string name;
  std::vector<std::size_t> linear, shape; ///< which parameters
  std::vector<Shape> shapes;
};

void PrintTo(const SeparableSet& set, std::ostream* out) { *out << set.name; }

/// A model that is linear in some parameters gives its basis by itself: the derivative in a linear parameter is its
/// column, and the derivative in a shape, with one linear parameter 1 and the others 0, is the derivative of that column.
SeparableProblem separable(const testing::NistSet& data, const SeparableSet& set) {
  SeparableProblem problem;
  problem.y = data.y;
  problem.linear_count = set.linear.size();
  problem.shapes = set.shapes;
  const auto parameters = [set](std::span<const double> shape) {
    std::vector<double> b(set.linear.size() + set.shape.size(), 0);
    for (std::size_t j = 0; j < shape.size(); ++j) b[set.shape[j]] = shape[j];
    return b;
  };
  problem.basis = [&data, set, parameters](std::span<const double> shape, std::span<double> basis) {
    const std::vector<double> b = parameters(shape);
    std::vector<double> db(b.size());
    for (std::size_t i = 0; i < data.y.size(); ++i) {
      data.model(b, data.x[i], db);
      for (std::size_t k = 0; k < set.linear.size(); ++k) basis[i * set.linear.size() + k] = db[set.linear[k]];
    }
  };
  problem.basis_derivative = [&data, set, parameters](std::span<const double> shape, std::size_t which,
                                                      std::span<double> derivative) {
    std::vector<double> b = parameters(shape);
    std::vector<double> db(b.size());
    for (std::size_t k = 0; k < set.linear.size(); ++k) {
      b[set.linear[k]] = 1;
      for (std::size_t i = 0; i < data.y.size(); ++i) {
        data.model(b, data.x[i], db);
        derivative[i * set.linear.size() + k] = db[set.shape[which]];
      }
      b[set.linear[k]] = 0;
    }
  };
  return problem;
}

/// In the order of the problem: linear first.
std::vector<double> in_order(const SeparableSet& set, const std::vector<double>& b) {
  std::vector<double> ordered;
  for (const std::size_t j : set.linear) ordered.push_back(b[j]);
  for (const std::size_t j : set.shape) ordered.push_back(b[j]);
  return ordered;
}

/// Sums of exponentials are the same with their terms in another order: `values`, with the terms in the order of their
/// rates in `p`. The last linear parameters belong to the shapes.
std::vector<double> by_rate(const SeparableSet& set, const std::vector<double>& p, std::vector<double> values) {
  if (set.shape.size() < 2 || set.linear.size() < set.shape.size()) return values;
  const std::size_t linear = set.linear.size(), terms = set.shape.size();
  std::vector<std::size_t> order(terms);
  std::iota(order.begin(), order.end(), 0U);
  std::sort(order.begin(), order.end(),
            [&](std::size_t one, std::size_t other) { return p[linear + one] < p[linear + other]; });
  std::vector<double> sorted = values;
  for (std::size_t k = 0; k < terms; ++k) {
    sorted[linear - terms + k] = values[linear - terms + order[k]];
    sorted[linear + k] = values[linear + order[k]];
  }
  return sorted;
}

/// Least digits of parameters and of standard errors.
std::pair<double, double> digits_of(const SeparableSet& set, const testing::NistSet& data, const LeastSquaresFit& fit) {
  const std::vector<double> certified = in_order(set, data.certified), sd = in_order(set, data.certified_sd);
  return {testing::least_digits(by_rate(set, fit.parameters, fit.parameters), by_rate(set, certified, certified)),
          testing::least_digits(by_rate(set, fit.parameters, fit.standard_errors), by_rate(set, certified, sd))};
}

class NistSeparable : public ::testing::TestWithParam<SeparableSet> {};

// NIST StRD, certified to 11 digits; no start but the grid over the box of shapes.
TEST_P(NistSeparable, certified_from_the_grid) {
  const SeparableSet& set = GetParam();
  const testing::NistSet data = testing::read_nist_nonlinear(set.name);
  ASSERT_FALSE(data.y.empty());
  const SeparableProblem problem = separable(data, set);
  EXPECT_LT(jacobian_error(whole_problem(problem), in_order(set, data.certified)), 1e-6);
  const LeastSquaresFit fit = fit_separable(problem);
  EXPECT_EQ(fit.outcome, FitOutcome::converged) << fit.reason;
  const auto [parameters, standard_errors] = digits_of(set, data, fit);
  EXPECT_GE(parameters, 10);
  if (set.name == "Lanczos1") return; // see nonlinear_least_squares_test.cpp
  EXPECT_GE(standard_errors, 10);
  EXPECT_GE(testing::digits(fit.residual_sd, data.residual_sd), 10);
}

// From the published starts of the shapes; those of the linear parameters are not needed. No box.
TEST_P(NistSeparable, certified_from_both_starts) {
  const SeparableSet& set = GetParam();
  const testing::NistSet data = testing::read_nist_nonlinear(set.name);
  SeparableProblem problem = separable(data, set);
  for (const std::vector<double>& start : data.starts) {
    std::vector<double> shape;
    for (std::size_t j = 0; j < set.shape.size(); ++j) {
      shape.push_back(start[set.shape[j]]);
      problem.shapes[j].low = -1e9;
      problem.shapes[j].high = 1e9;
    }
    const LeastSquaresFit fit = fit_separable(problem, std::vector<std::vector<double>>{shape});
    EXPECT_EQ(fit.outcome, FitOutcome::converged) << fit.reason;
    EXPECT_GE(digits_of(set, data, fit).first, 10);
  }
}

INSTANTIATE_TEST_SUITE_P(
    Sets, NistSeparable,
    ::testing::Values(
        SeparableSet{"Misra1a", {0}, {1}, {{1e-6, 1, 13, true}}},
        SeparableSet{"Misra1b", {0}, {1}, {{1e-6, 1, 13, true}}},
        SeparableSet{"Misra1c", {0}, {1}, {{1e-6, 1, 13, true}}},
        SeparableSet{"Misra1d", {0}, {1}, {{1e-6, 1, 13, true}}},
        SeparableSet{"BoxBOD", {0}, {1}, {{1e-3, 10, 13, true}}},
        SeparableSet{"DanWood", {0}, {1}, {{-10, 10, 11, false}}},
        SeparableSet{"Lanczos1", {0, 2, 4}, {1, 3, 5}, {{0.1, 10, 7, true}, {0.1, 10, 7, true}, {0.1, 10, 7, true}}},
        SeparableSet{"Lanczos2", {0, 2, 4}, {1, 3, 5}, {{0.1, 10, 7, true}, {0.1, 10, 7, true}, {0.1, 10, 7, true}}},
        SeparableSet{"Lanczos3", {0, 2, 4}, {1, 3, 5}, {{0.1, 10, 7, true}, {0.1, 10, 7, true}, {0.1, 10, 7, true}}},
        SeparableSet{"MGH17", {0, 1, 2}, {3, 4}, {{1e-4, 1, 9, true}, {1e-4, 1, 9, true}}},
        SeparableSet{"MGH10", {0}, {1, 2}, {{1, 1e6, 13, true}, {1, 1e5, 11, true}}},
        SeparableSet{"Bennett5", {0}, {1, 2}, {{0, 500, 11, false}, {0.05, 20, 11, true}}},
        SeparableSet{"Eckerle4", {0}, {1, 2}, {{0.5, 100, 9, true}, {400, 500, 11, false}}},
        SeparableSet{"Rat42", {0}, {1, 2}, {{-10, 10, 11, false}, {1e-3, 10, 9, true}}}),
    [](const ::testing::TestParamInfo<SeparableSet>& set) { return set.param.name; });

/// y = c1 + c2 x^shape at x = 1, 2, 4.
SeparableProblem powers(std::vector<double> y) {
  SeparableProblem problem;
  problem.y = std::move(y);
  problem.linear_count = 2;
  problem.shapes = {{-3, 3, 13, false}};
  problem.basis = [](std::span<const double> shape, std::span<double> basis) {
    for (std::size_t i = 0; i * 2 < basis.size(); ++i) {
      basis[2 * i] = 1;
      basis[2 * i + 1] = std::exp2(static_cast<double>(i) * shape[0]);
    }
  };
  problem.basis_derivative = [](std::span<const double> shape, std::size_t, std::span<double> derivative) {
    for (std::size_t i = 0; i * 2 < derivative.size(); ++i) {
      const auto log_x = static_cast<double>(i) * std::log(2);
      derivative[2 * i] = 0;
      derivative[2 * i + 1] = log_x * std::exp(log_x * shape[0]);
    }
  };
  return problem;
}

// Closed form: at shape 1, y = 6, 4, 2, 0 against x = 1, 2, 4, 8 falls, so with c >= 0 the slope is 0 and c1 the mean;
// y = -1, 1, 5, 13 is -3 + 2 x, so with c >= 0 it is c2 x with c2 = sum(x y) / sum(x^2) = 125 / 85.
TEST(SeparableLeastSquares, non_negative) {
  SeparableProblem falling = powers({6, 4, 2, 0});
  falling.non_negative = true;
  const std::vector<double> one{1};
  EXPECT_NEAR(fit_linear_part(falling, one).coefficients[0], 3, 1e-14);
  EXPECT_EQ(fit_linear_part(falling, one).coefficients[1], 0);
  EXPECT_NEAR(fit_linear_part(falling, one).rss, 20, 1e-13);
  SeparableProblem rising = powers({-1, 1, 5, 13});
  EXPECT_NEAR(fit_linear_part(rising, one).coefficients[0], -3, 1e-14);
  EXPECT_NEAR(fit_linear_part(rising, one).coefficients[1], 2, 1e-14);
  rising.non_negative = true;
  EXPECT_EQ(fit_linear_part(rising, one).coefficients[0], 0);
  EXPECT_NEAR(fit_linear_part(rising, one).coefficients[1], 125.0 / 85, 1e-14);
  SeparableProblem below = powers({-1, -1, -1, -1});
  below.non_negative = true;
  EXPECT_EQ(fit_linear_part(below, one).coefficients, (std::vector<double>{0, 0}));
}

// y = 2 x^1.5 - 0.4, x = 1, 2, 4, 8: with c >= 0 the constant is 0 and what remains is a pure power.
TEST(SeparableLeastSquares, non_negative_at_the_edge) {
  std::vector<double> y;
  for (int i = 0; i < 4; ++i) y.push_back(2 * std::exp2(1.5 * i) - 0.4);
  SeparableProblem problem = powers(y);
  const LeastSquaresFit free = fit_separable(problem);
  EXPECT_NEAR(free.parameters[0], -0.4, 1e-11);
  EXPECT_NEAR(free.parameters[2], 1.5, 1e-12);
  problem.non_negative = true;
  const LeastSquaresFit fit = fit_separable(problem);
  EXPECT_EQ(fit.outcome, FitOutcome::at_bound);
  EXPECT_EQ(fit.parameters[0], 0);
  EXPECT_EQ(fit.bound_met[0], BoundMet::low);
  // The slopes of the sum of squares of c x^b are 0 there.
  double along_c = 0, along_b = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto log_x = static_cast<double>(i) * std::log(2);
    const double power = std::exp(fit.parameters[2] * log_x), r = y[i] - fit.parameters[1] * power;
    along_c += r * power;
    along_b += r * power * log_x;
  }
  EXPECT_NEAR(along_c, 0, 1e-10);
  EXPECT_NEAR(along_b, 0, 1e-10);
}

// An offset with coefficient 1: y = c + ln(1 + shape x), made with c = 2, shape = 0.7.
TEST(SeparableLeastSquares, offset) {
  SeparableProblem problem;
  for (int x = 1; x <= 6; ++x) problem.y.push_back(2 + std::log1p(0.7 * x) + (x % 2 == 0 ? 0.01 : -0.01));
  problem.has_offset = true;
  problem.shapes = {{0.01, 10, 9, true}};
  problem.basis = [](std::span<const double> shape, std::span<double> basis) {
    for (std::size_t i = 0; 2 * i < basis.size(); ++i) {
      basis[2 * i] = 1;
      basis[2 * i + 1] = std::log1p(shape[0] * static_cast<double>(i + 1));
    }
  };
  problem.basis_derivative = [](std::span<const double> shape, std::size_t, std::span<double> derivative) {
    for (std::size_t i = 0; 2 * i < derivative.size(); ++i) {
      const auto x = static_cast<double>(i + 1);
      derivative[2 * i] = 0;
      derivative[2 * i + 1] = x / (1 + shape[0] * x);
    }
  };
  EXPECT_LT(jacobian_error(whole_problem(problem), std::vector<double>{2, 0.7}), 1e-8);
  const LeastSquaresFit fit = fit_separable(problem);
  EXPECT_EQ(fit.outcome, FitOutcome::converged);
  EXPECT_NEAR(fit.parameters[0], 2, 0.1);
  EXPECT_NEAR(fit.parameters[1], 0.7, 0.1);
  const LeastSquaresFit whole = fit_least_squares(whole_problem(problem), std::vector<std::vector<double>>{{1, 1}});
  EXPECT_NEAR(fit.parameters[1] / whole.parameters[1], 1, 1e-10);
}

} // namespace
} // namespace docket
