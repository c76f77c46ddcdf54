#include "core/content/lines/combined.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace docket {
namespace {

LineInput line(Line name, double seconds, double u, double se = 0,
               double df = std::numeric_limits<double>::infinity()) {
  LineInput input;
  input.line = name;
  input.level.time = Seconds{seconds};
  input.level.u = u;
  input.level.u_as_agreed = se > 0 ? se : u / 2;
  input.level.se = se;
  input.level.df = df;
  return input;
}

// One line of 5 % says FITS from 10 % of margin: Phi(ln(60/54.4)/0.05) = Phi(1.959) (normal table: 0.975 at 1.960).
TEST(Combined, OneLineOfFivePercent) {
  const std::vector<LineInput> lines{line(Line::standard, 54.4, 0.05)};
  const CombinedLine c = combine_against_limit(lines, {}, Seconds{60}, 0.95);
  EXPECT_NEAR(c.p_fits, 0.975, 0.0002);
  EXPECT_NEAR(c.time.count(), 54.4, 1e-9);
  EXPECT_NEAR(c.margin.count(), 5.6, 1e-9);
  EXPECT_NEAR(c.margin_low.count(), 60 - 54.4 * std::exp(1.959964 * 0.05), 1e-5);
  EXPECT_NEAR(c.margin_high.count(), 60 - 54.4 * std::exp(-1.959964 * 0.05), 1e-5);
  EXPECT_DOUBLE_EQ(c.weights[0], 1);
}

// Two independent lines: inverse variances (Aitken 1935), here 0.8 and 0.2 by hand.
TEST(Combined, IndependentLinesByInverseVariance) {
  const std::vector<LineInput> lines{line(Line::standard, 50, 0.03), line(Line::settled, 55, 0.06)};
  const CombinedLine c = combine_against_limit(lines, {}, Seconds{60}, 0.95);
  EXPECT_NEAR(c.weights[0], 0.8, 1e-12);
  EXPECT_NEAR(c.weights[1], 0.2, 1e-12);
  EXPECT_NEAR(c.time.count(), std::exp(0.8 * std::log(50) + 0.2 * std::log(55)), 1e-9);
  EXPECT_NEAR(c.u, std::sqrt(1 / (1 / 0.0009 + 1 / 0.0036)), 1e-12);
}

// Two correlated estimates: Lyons, Gibaut & Clifford, NIM A 270 (1988) 110: variance (u1^2 u2^2 - c^2)/(u1^2 + u2^2 - 2c).
TEST(Combined, WhatStandardAndRestudyShareIsCountedOnce) {
  const std::vector<LineInput> lines{line(Line::standard, 50, 0.06), line(Line::restudy, 52, 0.07)};
  const double c2 = 0.0025;
  const CombinedLine c = combine_against_limit(lines, {c2, 0}, Seconds{60}, 0.95);
  const double expected = (0.0036 * 0.0049 - c2 * c2) / (0.0036 + 0.0049 - 2 * c2);
  EXPECT_NEAR(c.u * c.u, expected, 1e-12);
}

// Welch-Satterthwaite (JCGM 100:2008, G.4.1) by hand: only settled operators have a random part, weight 1.
// By hand: two lines of 5 % whose errors go together by half, covariance 0.5 x 0.05^2: u^2 = (0.05^2 + 0.5 x 0.05^2)/2.
TEST(Combined, WhatStandardAndSettledWouldShare) {
  const std::vector<LineInput> lines{line(Line::standard, 55, 0.05), line(Line::settled, 55, 0.05)};
  SharedParts shared;
  shared.standard_settled = 0.5 * 0.05 * 0.05;
  EXPECT_NEAR(combine_against_limit(lines, shared, Seconds{60}, 0.95).u, 0.05 * std::sqrt(0.75), 1e-12);
  EXPECT_NEAR(combine_against_limit(lines, {}, Seconds{60}, 0.95).u, 0.05 * std::sqrt(0.5), 1e-12);
}

TEST(Combined, DegreesOfFreedomComeFromTheRandomPart) {
  const std::vector<LineInput> lines{line(Line::settled, 50, 0.05, 0.03, 4)};
  const CombinedLine c = combine_against_limit(lines, {}, Seconds{60}, 0.95);
  EXPECT_NEAR(c.df, 4 * std::pow(0.05 / 0.03, 4), 1e-9);
}

TEST(Combined, DegreesOfFreedomAreAtLeastOne) {
  const std::vector<LineInput> lines{line(Line::settled, 50, 0.05, 0.05, 0.5)};
  EXPECT_DOUBLE_EQ(combine_against_limit(lines, {}, Seconds{60}, 0.95).df, 1);
}

TEST(Clashes, TwoLinesOnDifferentSidesFurtherApartThanTwoU) {
  const double u = std::hypot(0.05, 0.05);
  const double low = 55, at = low * std::exp(2 * u);
  const std::vector<LineInput> beyond{line(Line::standard, low, 0.05), line(Line::settled, at * 1.001, 0.05)};
  const std::vector<LineInput> within{line(Line::standard, low, 0.05), line(Line::settled, at * 0.999, 0.05)};
  const std::vector<Clash> found = find_clashes(beyond, {}, Seconds{60});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_TRUE(found[0].blocks);
  EXPECT_NEAR(found[0].difference.count(), low - at * 1.001, 1e-9);
  EXPECT_TRUE(find_clashes(within, {}, Seconds{60}).empty());
}

TEST(Clashes, OnTheSameSideItIsSaidButBlocksNothing) {
  const std::vector<LineInput> lines{line(Line::standard, 40, 0.05), line(Line::settled, 55, 0.05)};
  const std::vector<Clash> found = find_clashes(lines, {}, Seconds{60});
  ASSERT_EQ(found.size(), 1U);
  EXPECT_FALSE(found[0].blocks);
}

TEST(Clashes, ThreeLinesNeedAGreaterDistance) {
  const double u = std::hypot(0.05, 0.05);
  const std::vector<LineInput> lines{line(Line::standard, 55, 0.05), line(Line::settled, 55 * std::exp(2.3 * u), 0.05),
                                     line(Line::restudy, 59, 0.05)};
  EXPECT_TRUE(find_clashes(lines, {}, Seconds{60}).empty());
}

} // namespace
} // namespace docket
