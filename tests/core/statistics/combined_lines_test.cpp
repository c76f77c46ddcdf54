#include "core/statistics/combined_lines.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace docket {
namespace {

using Matrix = std::vector<std::vector<double>>;

Matrix two_lines(double u1, double u2, double correlation) {
  const double shared = correlation * u1 * u2;
  return {{u1 * u1, shared}, {shared, u2 * u2}};
}

// Closed form: without correlation the weights are inverse variances.
TEST(CombineLines, inverse_variances) {
  const std::vector<double> z{0.10, -0.02, 0.04};
  const Matrix v{{0.04, 0, 0}, {0, 0.01, 0}, {0, 0, 0.02}};
  const CombinedLines combined = combine_lines(z, v);
  EXPECT_NEAR(combined.weights[0], 25 / 175.0, 1e-15);
  EXPECT_NEAR(combined.weights[1], 100 / 175.0, 1e-15);
  EXPECT_NEAR(combined.weights[2], 50 / 175.0, 1e-15);
  EXPECT_NEAR(combined.mean, (2.5 - 2 + 2) / 175, 1e-15);
  EXPECT_NEAR(combined.u, std::sqrt(1 / 175.0), 1e-15);
  EXPECT_EQ(combined.left_out, std::vector<bool>(3, false));
}

// Lyons, Gibaut & Clifford 1988, section 2: two correlated estimates,
// w1 = (s2^2 - r s1 s2)/(s1^2 + s2^2 - 2 r s1 s2), variance s1^2 s2^2 (1 - r^2)/(s1^2 + s2^2 - 2 r s1 s2).
TEST(CombineLines, two_correlated_lines) {
  const double s1 = 0.03, s2 = 0.05;
  for (const double r : {-0.9, -0.3, 0.0, 0.4, 0.59}) {
    const double below = s1 * s1 + s2 * s2 - 2 * r * s1 * s2;
    const CombinedLines combined = combine_lines(std::vector<double>{0.1, 0.2}, two_lines(s1, s2, r));
    EXPECT_NEAR(combined.weights[0], (s2 * s2 - r * s1 * s2) / below, 1e-13) << r;
    EXPECT_NEAR(combined.weights[0] + combined.weights[1], 1, 1e-15) << r;
    EXPECT_NEAR(combined.u, std::sqrt(s1 * s1 * s2 * s2 * (1 - r * r) / below), 1e-15) << r;
    EXPECT_NEAR(combined.mean, 0.1 * combined.weights[0] + 0.2 * combined.weights[1], 1e-15) << r;
  }
}

// The same paper: the weight of the worse line is negative once r > s1/s2 = 0.6. Then the better line stands alone.
TEST(CombineLines, negative_weight_is_left_out) {
  for (const double r : {0.61, 0.9, 0.999}) {
    const CombinedLines combined = combine_lines(std::vector<double>{0.1, 0.2}, two_lines(0.03, 0.05, r));
    EXPECT_EQ(combined.weights, (std::vector<double>{1, 0})) << r;
    EXPECT_EQ(combined.left_out, (std::vector<bool>{false, true})) << r;
    EXPECT_DOUBLE_EQ(combined.mean, 0.1) << r;
    EXPECT_DOUBLE_EQ(combined.u, 0.03) << r;
  }
}

// Closed form: lines alike with equal correlation r weigh alike; variance s^2 (1 + (k - 1) r)/k.
TEST(CombineLines, equal_correlation) {
  const double s = 0.2, r = 0.35;
  Matrix v(3, std::vector<double>(3, r * s * s));
  for (std::size_t i = 0; i < 3; ++i) v[i][i] = s * s;
  const CombinedLines combined = combine_lines(std::vector<double>{1, 2, 6}, v);
  for (const double weight : combined.weights) EXPECT_NEAR(weight, 1 / 3.0, 1e-14);
  EXPECT_NEAR(combined.mean, 3, 1e-13);
  EXPECT_NEAR(combined.u, s * std::sqrt((1 + 2 * r) / 3), 1e-15);
}

// Three lines, the third a worse copy of the first: it is left out, and the other two combine as if it were not there.
TEST(CombineLines, rest_is_solved_again) {
  Matrix v{{0.01, 0, 0.015}, {0, 0.02, 0}, {0.015, 0, 0.04}};
  const CombinedLines combined = combine_lines(std::vector<double>{1, 2, 9}, v);
  EXPECT_EQ(combined.left_out, (std::vector<bool>{false, false, true}));
  EXPECT_NEAR(combined.weights[0], 2 / 3.0, 1e-14);
  EXPECT_NEAR(combined.weights[1], 1 / 3.0, 1e-14);
  EXPECT_EQ(combined.weights[2], 0);
  EXPECT_NEAR(combined.mean, 4 / 3.0, 1e-14);
  EXPECT_NEAR(combined.u, std::sqrt(0.02 / 3), 1e-14);
}

// By hand: V^-1 1 = (15/8, -1/4, -1), two negative weights at once. Only the most negative goes; without it the other
// one is (4 - 2)/(4 + 7 - 2*2) = 2/7, variance (4*7 - 2*2)/7.
TEST(CombineLines, one_at_a_time) {
  const Matrix v{{4, 2, 6}, {2, 7, 1}, {6, 1, 10}};
  const CombinedLines combined = combine_lines(std::vector<double>{0, 7, 1}, v);
  EXPECT_EQ(combined.left_out, (std::vector<bool>{false, false, true}));
  EXPECT_NEAR(combined.weights[0], 5 / 7.0, 1e-14);
  EXPECT_NEAR(combined.weights[1], 2 / 7.0, 1e-14);
  EXPECT_NEAR(combined.mean, 2, 1e-14);
  EXPECT_NEAR(combined.u, std::sqrt(24 / 7.0), 1e-14);
}

TEST(CombineLines, ill_conditioned_leaves_the_line_with_the_larger_variance_out) {
  const CombinedLines same = combine_lines(std::vector<double>{3, 4}, two_lines(0.5, 0.5, 1));
  EXPECT_EQ(same.left_out, (std::vector<bool>{false, true}));
  EXPECT_EQ(same.mean, 3);
  EXPECT_EQ(same.u, 0.5);
  const CombinedLines scaled = combine_lines(std::vector<double>{3, 4}, two_lines(0.51, 0.5, 1 - 1e-13));
  EXPECT_EQ(scaled.left_out, (std::vector<bool>{true, false}));
  const CombinedLines exact = combine_lines(std::vector<double>{3, 4, 5}, {{0.1, 0, 0}, {0, 0, 0}, {0, 0, 0.2}});
  EXPECT_EQ(exact.weights, (std::vector<double>{0, 1, 0}));
  EXPECT_EQ(exact.mean, 4);
  EXPECT_EQ(exact.u, 0);
}

TEST(CombineLines, one_line_and_none) {
  const CombinedLines one = combine_lines(std::vector<double>{0.7}, {{0.09}});
  EXPECT_EQ(one.weights, std::vector<double>{1});
  EXPECT_EQ(one.mean, 0.7);
  EXPECT_DOUBLE_EQ(one.u, 0.3);
  const CombinedLines none = combine_lines({}, {});
  EXPECT_TRUE(none.weights.empty());
  EXPECT_TRUE(std::isnan(none.mean));
  EXPECT_TRUE(std::isnan(none.u));
}

} // namespace
} // namespace docket
