#include "core/statistics/studies/outliers.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <fstream>
#include <string>
#include <vector>

namespace docket {
namespace {

std::vector<double> rosner_values() {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/rosner54/rosner54.csv");
  std::string header;
  std::getline(file, header);
  std::vector<double> values;
  for (double value = 0; file >> value;) values.push_back(value);
  return values;
}

// NIST/SEMATECH e-Handbook, 1.3.5.17.3: R and lambda at alpha = 0.05, three outliers though steps 1 and 2 fail. The
// handbook cuts off after three digits, so the tolerance is one unit of the third.
TEST(Outliers, rosner_as_printed) {
  const std::vector<double> values = rosner_values();
  ASSERT_EQ(values.size(), 54U);
  const std::array r{3.118, 2.942, 3.179, 2.810, 2.815, 2.848, 2.279, 2.310, 2.101, 2.067};
  const std::array lambda{3.158, 3.151, 3.143, 3.136, 3.128, 3.120, 3.111, 3.103, 3.094, 3.085};
  const OutlierTest test = find_outliers(values, 10, 0.05);
  ASSERT_EQ(test.steps.size(), 10U);
  for (std::size_t i = 0; i < 10; ++i) {
    EXPECT_NEAR(test.steps[i].r, r[i], 1e-3) << i;
    EXPECT_NEAR(test.steps[i].lambda, lambda[i], 1e-3) << i;
  }
  ASSERT_EQ(test.count, 3U);
  EXPECT_EQ(values[test.steps[0].index], 6.01);
  EXPECT_EQ(values[test.steps[1].index], 5.42);
  EXPECT_EQ(values[test.steps[2].index], 5.34);
}

// With two steps the third, which fails neither, is never reached: as the handbook warns of single tests in sequence.
TEST(Outliers, too_few_steps_find_none) { EXPECT_EQ(find_outliers(rosner_values(), 2, 0.05).count, 0U); }

// NIST/SEMATECH e-Handbook, 1.3.5.17.1, Grubbs' test, which is the first step: G = 2.4687 (cut off), 245.57 flagged.
TEST(Outliers, first_step_is_grubbs) {
  const std::vector<double> values{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57};
  const OutlierTest test = find_outliers(values, 1, 0.05);
  ASSERT_EQ(test.steps.size(), 1U);
  EXPECT_NEAR(test.steps[0].r, 2.4687, 1e-4);
  EXPECT_EQ(test.count, 1U);
  EXPECT_EQ(test.steps[0].index, 7U);
}

// Closed form: one value apart from n - 1 equal ones has R = (n - 1)/sqrt n; what is left has no spread, so the test
// ends.
TEST(Outliers, one_apart_from_equal_values) {
  std::vector<double> values(20, 61.3);
  values[4] = 70;
  const OutlierTest test = find_outliers(values, 5, 0.05);
  ASSERT_EQ(test.steps.size(), 1U);
  EXPECT_NEAR(test.steps[0].r, 19 / std::sqrt(20.0), 1e-12);
  EXPECT_EQ(test.steps[0].index, 4U);
  EXPECT_EQ(test.count, 1U);
}

// Invariant: unit, zero and order are of no account.
TEST(Outliers, unit_zero_and_order) {
  const std::vector<double> values = rosner_values();
  std::vector<double> changed(values.rbegin(), values.rend());
  for (double& value : changed) value = 100 - 0.5 * value;
  const OutlierTest plain = find_outliers(values, 10, 0.05), other = find_outliers(changed, 10, 0.05);
  EXPECT_EQ(other.count, plain.count);
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(other.steps[i].r, plain.steps[i].r, 1e-11);
    EXPECT_EQ(other.steps[i].index, 53 - plain.steps[i].index);
  }
}

TEST(Outliers, nothing_to_find) {
  EXPECT_TRUE(find_outliers({}, 3, 0.05).steps.empty());
  EXPECT_TRUE(find_outliers(std::vector<double>{1, 2}, 3, 0.05).steps.empty());
  EXPECT_TRUE(find_outliers(std::vector<double>(10, 0.1), 3, 0.05).steps.empty());
  EXPECT_EQ(find_outliers(std::vector<double>{1, 2, 4}, 9, 0.05).steps.size(), 1U);
  EXPECT_TRUE(find_outliers(rosner_values(), 0, 0.05).steps.empty());
}

} // namespace
} // namespace docket
