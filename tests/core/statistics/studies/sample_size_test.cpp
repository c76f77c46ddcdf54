#include "core/statistics/studies/sample_size.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace docket {
namespace {

// International Labour Office, Introduction to Work Study, 4th ed. (1992), number of observations: readings 7 6 7 7 6
// in hundredths of a minute, 95.45 %, +- 5 %: 8.81, so 9. The answer from memory; 1600 (5*219 - 33^2)/33^2 by hand.
TEST(NeededReadings, ilo_example) {
  const double n = needed_readings(std::vector<double>{7, 6, 7, 7, 6}, 0.05, 2);
  EXPECT_NEAR(n, 1600 * 6 / 1089.0, 1e-12);
  EXPECT_NEAR(n, 8.815, 5e-4);
  EXPECT_EQ(std::ceil(n), 9);
}

// The same form at +- 10 %, factor 20; common practice, by hand 400 (5*307 - 39^2)/39^2.
TEST(NeededReadings, at_ten_percent) {
  const double n = needed_readings(std::vector<double>{8, 7, 8, 9, 7}, 0.10, 2);
  EXPECT_NEAR(n, 400 * 14 / 1521.0, 1e-12);
  EXPECT_NEAR(n, 3.682, 5e-4);
}

// Invariant: the unit of the readings is of no account.
TEST(NeededReadings, unit_is_of_no_account) {
  EXPECT_NEAR(needed_readings(std::vector<double>{4.2, 3.6, 4.2, 4.2, 3.6}, 0.05, 2), 1600 * 6 / 1089.0, 1e-11);
}

TEST(NeededReadings, not_known) {
  EXPECT_TRUE(std::isnan(needed_readings({}, 0.05, 2)));
  EXPECT_TRUE(std::isnan(needed_readings(std::vector<double>{7}, 0.05, 2)));
  EXPECT_TRUE(std::isnan(needed_readings(std::vector<double>{-1, 1}, 0.05, 2)));
  EXPECT_EQ(needed_readings(std::vector<double>{7, 7}, 0.05, 2), 0);
}

} // namespace
} // namespace docket
