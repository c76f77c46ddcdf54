#include "core/statistics/fitting/trend.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace docket {
namespace {

// D. R. Helsel, R. M. Hirsch, Statistical Methods in Water Resources (USGS 2002), chapter 10: the slope is 1 with the
// sixth value at 16 and without (least squares: 1.714). From memory, and it closes by hand.
TEST(TheilSen, helsel_and_hirsch) {
  const std::vector<double> x{1, 2, 3, 4, 5, 6, 7};
  EXPECT_EQ(theil_sen_slope(x, std::vector<double>{1, 2, 3, 4, 5, 16, 7}), 1.0);
  EXPECT_EQ(theil_sen_slope(x, std::vector<double>{1, 2, 3, 4, 5, 6, 7}), 1.0);
}

// By hand: the slopes are 1, 3, 2 (pairs 1-2, 2-3, 1-3); with the equal x left out 4 slopes 2, 4, 1, 3.
TEST(TheilSen, by_hand) {
  EXPECT_EQ(theil_sen_slope(std::vector<double>{0, 1, 2}, std::vector<double>{0, 1, 4}), 2);
  EXPECT_EQ(theil_sen_slope(std::vector<double>{0, 0, 1, 1}, std::vector<double>{0, 1, 2, 4}), 2.5);
}

// Invariant: order is of no account; a line added to y adds its slope.
TEST(TheilSen, invariants) {
  const std::vector<double> x{3, 1, 4, 1.5, 9, 2.6}, y{2, 7, 1, 8, 2, 8};
  const std::vector<double> x_turned{2.6, 9, 1.5, 4, 1, 3}, y_turned{8, 2, 8, 1, 7, 2};
  const double slope = theil_sen_slope(x, y);
  EXPECT_DOUBLE_EQ(theil_sen_slope(x_turned, y_turned), slope);
  std::vector<double> with_line = y;
  for (std::size_t i = 0; i < x.size(); ++i) with_line[i] += 10 - 0.25 * x[i];
  EXPECT_NEAR(theil_sen_slope(x, with_line), slope - 0.25, 1e-14);
}

TEST(TheilSen, no_two_different_x) {
  EXPECT_TRUE(std::isnan(theil_sen_slope({}, {})));
  EXPECT_TRUE(std::isnan(theil_sen_slope(std::vector<double>{1}, std::vector<double>{1})));
  EXPECT_TRUE(std::isnan(theil_sen_slope(std::vector<double>{2, 2}, std::vector<double>{1, 5})));
}

} // namespace
} // namespace docket
