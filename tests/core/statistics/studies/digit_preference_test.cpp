#include "core/statistics/distributions.h"
#include "core/statistics/studies/digit_preference.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <vector>

namespace docket {
namespace {

/// So many readings to the tenth of each last digit, between 40 and 60.
std::vector<double> readings_with(const std::array<int, 10>& counts) {
  std::vector<double> readings;
  for (std::size_t digit = 0; digit < 10; ++digit) {
    for (int i = 0; i < counts[digit]; ++i) readings.push_back(40 + i % 20 + static_cast<double>(digit) / 10);
  }
  return readings;
}

// R's chisq.test on the ten counts.
TEST(LastDigits, answers_of_another_program) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  const LastDigits digits = test_last_digits(readings_with({31, 12, 18, 9, 14, 27, 11, 13, 16, 9}), 0.1);
  EXPECT_EQ(digits.n, 160);
  EXPECT_EQ(digits.counts, (std::array<std::int64_t, 10>{31, 12, 18, 9, 14, 27, 11, 13, 16, 9}));
  EXPECT_NEAR(digits.chi_square, by_r.at("digits.chi_square"), 1e-12);
  EXPECT_NEAR(digits.p / by_r.at("digits.p"), 1, 1e-12);
  EXPECT_EQ(digits.on_0_and_5, 58);
  EXPECT_DOUBLE_EQ(digits.share_on_0_and_5, 58.0 / 160);
  EXPECT_TRUE(digits.enough);
}

// Closed form: equal counts give 0; all on one digit give 9 n.
TEST(LastDigits, ends) {
  const LastDigits even = test_last_digits(readings_with({5, 5, 5, 5, 5, 5, 5, 5, 5, 5}), 0.1);
  EXPECT_EQ(even.chi_square, 0);
  EXPECT_EQ(even.p, 1);
  EXPECT_DOUBLE_EQ(even.share_on_0_and_5, 0.2);
  const LastDigits one = test_last_digits(std::vector<double>(49, 61.5), 0.1);
  EXPECT_NEAR(one.chi_square, 9 * 49, 1e-12);
  EXPECT_EQ(one.share_on_0_and_5, 1);
  EXPECT_FALSE(one.enough);
  const LastDigits nothing = test_last_digits({}, 0.1);
  EXPECT_EQ(nothing.n, 0);
  EXPECT_TRUE(std::isnan(nothing.p));
  EXPECT_TRUE(std::isnan(nothing.share_on_0_and_5));
}

// By hand: the digit at the resolution, whatever the binary form of a reading; no sign.
TEST(LastDigits, digit_at_the_resolution) {
  const auto digit_of = [](double reading, double resolution) {
    const LastDigits digits = test_last_digits(std::vector<double>{reading}, resolution);
    return std::ranges::find(digits.counts, 1) - digits.counts.begin();
  };
  EXPECT_EQ(digit_of(12.3, 0.1), 3);
  EXPECT_EQ(digit_of(0.3, 0.1), 3);
  EXPECT_EQ(digit_of(99.9, 0.1), 9);
  EXPECT_EQ(digit_of(1.15, 0.01), 5);
  EXPECT_EQ(digit_of(61, 1), 1);
  EXPECT_EQ(digit_of(130, 10), 3);
  EXPECT_EQ(digit_of(-12.3, 0.1), 3);
}

// Closed form: the probability of the likeliest last digit, summed from normal probabilities around a mean on a digit.
TEST(LastDigitRipple, sums_of_normal_probabilities) {
  for (const auto& [sd, tolerance] : {std::pair{0.25, 0.03}, {0.35, 1e-3}, {0.5, 1e-5}}) {
    double likeliest = 0;
    for (int turn = -20; turn <= 20; ++turn) {
      likeliest += normal_cdf((turn + 0.05) / sd) - normal_cdf((turn - 0.05) / sd);
    }
    const double ripple = last_digit_ripple(sd, 0.1);
    EXPECT_NEAR(ripple / (10 * likeliest - 1), 1, tolerance) << sd;
  }
  EXPECT_NEAR(last_digit_ripple(0.5, 0.1), 0.014, 0.0005);
  EXPECT_NEAR(last_digit_ripple(1.0 / 3, 0.1), 0.22, 0.005);
}

} // namespace
} // namespace docket
