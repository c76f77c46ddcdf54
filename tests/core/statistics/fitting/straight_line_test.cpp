#include "core/statistics/fitting/straight_line.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <string>
#include <vector>

namespace docket {
namespace {

struct Points {
  std::vector<double> x, y;
};

/// From line 61 on, y before x.
Points norris() {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/nist_linear/Norris.dat");
  std::string line;
  for (int i = 1; i <= 60; ++i) std::getline(file, line);
  Points points;
  for (double y = 0, x = 0; file >> y >> x;) {
    points.y.push_back(y);
    points.x.push_back(x);
  }
  return points;
}

const Points anscombe{.x = {10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5},
                      .y = {8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68}};

// NIST StRD Norris, certified values. Tolerance: 12 digits; the intercept is a thousandth of the values it comes from.
TEST(StraightLine, nist_norris) {
  const Points points = norris();
  ASSERT_EQ(points.x.size(), 36U);
  const StraightLine line = fit_straight_line(points.x, points.y);
  ASSERT_TRUE(line.possible);
  EXPECT_NEAR(line.intercept / -0.262323073774029, 1, 1e-11);
  EXPECT_NEAR(line.intercept_se / 0.232818234301152, 1, 1e-12);
  EXPECT_NEAR(line.slope / 1.00211681802045, 1, 1e-14);
  EXPECT_NEAR(line.slope_se / 0.429796848199937e-3, 1, 1e-12);
  EXPECT_NEAR(line.residual_sd / 0.884796396144373, 1, 1e-12);
  EXPECT_NEAR(line.r * line.r, 0.999993745883712, 1e-14);
  EXPECT_EQ(line.df, 34);
  const double t = line.slope / line.slope_se;
  EXPECT_NEAR(t * t / 5436385.54079785, 1, 1e-12);
  EXPECT_LT(line.p, 1e-80);
}

// F. J. Anscombe, Graphs in statistical analysis, The American Statistician 27 (1973), 17-21: intercept 3.0, slope 0.5,
// standard error of the slope 0.118. All digits: R's lm.
TEST(StraightLine, anscombe_by_another_program) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  const StraightLine line = fit_straight_line(anscombe.x, anscombe.y);
  EXPECT_NEAR(line.intercept, by_r.at("line.intercept"), 1e-13);
  EXPECT_NEAR(line.slope, by_r.at("line.slope"), 1e-13);
  EXPECT_NEAR(line.intercept_se, by_r.at("line.intercept_se"), 1e-13);
  EXPECT_NEAR(line.slope_se, by_r.at("line.slope_se"), 1e-13);
  EXPECT_NEAR(line.residual_sd, by_r.at("line.residual_sd"), 1e-13);
  EXPECT_NEAR(line.slope / line.slope_se, by_r.at("line.t"), 1e-12);
  EXPECT_NEAR(line.p, by_r.at("line.p"), 1e-13);
  EXPECT_NEAR(line.r, by_r.at("line.r"), 1e-13);
}

// Closed form: points on a line, and points of one height.
TEST(StraightLine, without_residuals) {
  const std::vector<double> x{0.1, 0.2, 0.3, 0.7};
  const StraightLine falling = fit_straight_line(x, std::vector<double>{0.9, 0.8, 0.7, 0.3});
  EXPECT_NEAR(falling.slope, -1, 1e-14);
  EXPECT_NEAR(falling.intercept, 1, 1e-14);
  EXPECT_NEAR(falling.r, -1, 1e-14);
  EXPECT_EQ(falling.residual_sd, 0);
  EXPECT_EQ(falling.p, 0);
  const StraightLine flat = fit_straight_line(x, std::vector<double>(4, 0.1));
  EXPECT_EQ(flat.slope, 0);
  EXPECT_EQ(flat.r, 0);
  EXPECT_EQ(flat.p, 1);
  EXPECT_NEAR(flat.intercept, 0.1, 1e-16);
}

TEST(StraightLine, not_possible) {
  for (const Points& points : {Points{}, Points{{1, 2}, {3, 5}}, Points{{0.1, 0.1, 0.1}, {1, 2, 3}}}) {
    const StraightLine line = fit_straight_line(points.x, points.y);
    EXPECT_FALSE(line.possible);
    EXPECT_TRUE(std::isnan(line.slope));
    EXPECT_TRUE(std::isnan(line.p));
  }
}

} // namespace
} // namespace docket
