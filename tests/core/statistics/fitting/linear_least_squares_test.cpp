#include "core/statistics/fitting/linear_least_squares.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace docket {
namespace {

struct LinearSet {
  std::string name;
  std::size_t parameters = 2;
  bool polynomial =
      true; ///< powers of the one predictor, from 0; else an intercept where there is room, and predictors
  double least_digits = 12;
};

void PrintTo(const LinearSet& set, std::ostream* out) { *out << set.name; }

struct Certified {
  std::vector<double> parameters, sd;
  double residual_sd = -1;
  std::vector<double> design, y;
};

/// Certified values on lines 31 to 60, data from line 61 on, y first.
Certified read(const LinearSet& set) {
  Certified read;
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/nist_linear/" + set.name + ".dat");
  int number = 0;
  for (std::string line; std::getline(file, line);) {
    std::istringstream words(line);
    if (++number > 60) {
      std::vector<double> row;
      for (double value = 0; words >> value;) row.push_back(value);
      if (row.size() < 2) continue;
      read.y.push_back(row.front());
      if (set.polynomial) {
        double power = 1;
        for (std::size_t j = 0; j < set.parameters; ++j, power *= row[1]) read.design.push_back(power);
      } else {
        if (set.parameters == row.size()) read.design.push_back(1);
        read.design.insert(read.design.end(), row.begin() + 1, row.end());
      }
    } else if (number > 30) {
      std::string first, second;
      double value = 0, sd = 0;
      words >> first;
      if (first.size() >= 2 && first.front() == 'B' && words >> value >> sd) {
        read.parameters.push_back(value);
        read.sd.push_back(sd);
      } else if (first == "Standard" && words >> second >> value) {
        read.residual_sd = value;
      }
    }
  }
  return read;
}

/// A certified 0 is met absolutely: the parameters beside it are 1.
double digits(double value, double certified) {
  const double error = certified == 0 ? std::abs(value) : std::abs(value / certified - 1);
  return error == 0 ? 16 : -std::log10(error);
}

class NistLinear : public ::testing::TestWithParam<LinearSet> {};

// NIST StRD, certified to 15 digits. The powers and predictors are whole numbers that double precision holds, or the
// columns hardly depend on one another (Norris), so that refinement gives nearly all digits, for Longley as well. Not so
// Filip: its powers up to x^10 are rounded when they are written down and depend closely on one another; 7 digits remain.
TEST_P(NistLinear, certified) {
  const LinearSet& set = GetParam();
  const Certified certified = read(set);
  ASSERT_EQ(certified.parameters.size(), set.parameters);
  ASSERT_GE(certified.residual_sd, 0);
  const LinearFit fit = fit_linear_least_squares(certified.design, set.parameters, certified.y);
  ASSERT_EQ(fit.rank, set.parameters);
  EXPECT_TRUE(fit.left_out.empty());
  for (std::size_t j = 0; j < set.parameters; ++j) {
    EXPECT_GE(digits(fit.parameters[j], certified.parameters[j]), set.least_digits) << j;
    EXPECT_GE(digits(fit.standard_errors[j], certified.sd[j]), set.least_digits) << j;
    EXPECT_NEAR(fit.covariance[j * set.parameters + j], fit.standard_errors[j] * fit.standard_errors[j],
                1e-12 * fit.covariance[j * set.parameters + j]);
  }
  EXPECT_GE(digits(fit.residual_sd, certified.residual_sd), set.least_digits);
}

INSTANTIATE_TEST_SUITE_P(Sets, NistLinear,
                         ::testing::Values(LinearSet{"Norris"}, LinearSet{"Pontius", 3}, LinearSet{"NoInt1", 1, false},
                                           LinearSet{"NoInt2", 1, false}, LinearSet{"Longley", 7, false},
                                           LinearSet{"Wampler1", 6}, LinearSet{"Wampler2", 6}, LinearSet{"Wampler3", 6},
                                           LinearSet{"Wampler4", 6}, LinearSet{"Wampler5", 6},
                                           LinearSet{"Filip", 11, true, 7}),
                         [](const ::testing::TestParamInfo<LinearSet>& set) { return set.param.name; });

// The same Filip data in powers of (x + 6) / 3, exact to rounding and hardly dependent: the residual SD, which no change
// of columns changes, then has the digits that the raw powers lose.
TEST(LinearLeastSquares, filip_centred) {
  const Certified certified = read({"Filip", 11, true, 0});
  std::vector<double> design;
  for (std::size_t i = 0; i < certified.y.size(); ++i) {
    const double x = (certified.design[i * 11 + 1] + 6) / 3;
    double power = 1;
    for (int j = 0; j < 11; ++j, power *= x) design.push_back(power);
  }
  const LinearFit fit = fit_linear_least_squares(design, 11, certified.y);
  EXPECT_GE(digits(fit.residual_sd, certified.residual_sd), 11);
  EXPECT_LT(digits(fit_linear_least_squares(certified.design, 11, certified.y).residual_sd, certified.residual_sd), 11);
}

// Closed form: the third column is the sum of the others, so any one of the three may go; the fit is that of two.
TEST(LinearLeastSquares, rank) {
  const std::vector<double> design{1, 0, 1, 1, 1, 2, 1, 2, 3, 1, 3, 4}, y{1, 2, 2, 5};
  const LinearFit fit = fit_linear_least_squares(design, 3, y);
  EXPECT_EQ(fit.rank, 2U);
  ASSERT_EQ(fit.left_out.size(), 1U);
  EXPECT_EQ(fit.parameters[fit.left_out[0]], 0);
  EXPECT_TRUE(std::isnan(fit.standard_errors[fit.left_out[0]]));
  EXPECT_EQ(fit.df, 2);
  // Line through (0, 1), (1, 2), (2, 2), (3, 5): slope 1.2, intercept 0.7, residuals 0.3, 0.1, -1.1, 0.7.
  EXPECT_NEAR(fit.rss, 1.8, 1e-14);
  EXPECT_NEAR(fit.residuals[2], -1.1, 1e-14);
}

TEST(LinearLeastSquares, edges) {
  const LinearFit no_df = fit_linear_least_squares(std::vector<double>{1, 0, 1, 2}, 2, std::vector<double>{3, 7});
  EXPECT_NEAR(no_df.parameters[0], 3, 1e-15);
  EXPECT_NEAR(no_df.parameters[1], 2, 1e-15);
  EXPECT_EQ(no_df.df, 0);
  EXPECT_TRUE(std::isnan(no_df.residual_sd));
  EXPECT_TRUE(std::isnan(no_df.standard_errors[0]));
  const LinearFit nothing = fit_linear_least_squares(std::vector<double>{0, 0}, 1, std::vector<double>{3, 4});
  EXPECT_EQ(nothing.rank, 0U);
  EXPECT_NEAR(nothing.rss, 25, 1e-14);
}

} // namespace
} // namespace docket
