#include "core/statistics/studies/agreement.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <string>
#include <vector>

namespace docket {
namespace {

double by_r(const std::string& key) {
  static const std::map<std::string, double> values = testing::read_reference_values("r_study_checks");
  return values.at(key);
}

// Bland & Altman 1986, table: peak flow [l/min] of 17 persons, first reading with each of two meters; from memory.
Summary peak_flow_differences() {
  const std::vector<double> large{494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427};
  const std::vector<double> mini{512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451};
  std::vector<double> differences;
  for (std::size_t i = 0; i < large.size(); ++i) differences.push_back(large[i] - mini[i]);
  return summarise(differences);
}

// Bland & Altman 1986, text; from memory: bias -2.1, sd 38.8, limits -79.7 and 75.5 (from rounded numbers), bias -22.0
// to 17.8, standard error of the bias 9.4. The paper rounds before it multiplies: a tenth of a litre is its tolerance.
TEST(LimitsOfAgreement, peak_flow) {
  const LimitsOfAgreement limits = limits_of_agreement(peak_flow_differences(), 2, 0.95);
  EXPECT_NEAR(limits.bias, -2.1, 0.05);
  EXPECT_NEAR(limits.bias_se, 9.4, 0.05);
  EXPECT_NEAR(limits.bias_interval.low, -22.0, 0.1);
  EXPECT_NEAR(limits.bias_interval.high, 17.8, 0.1);
  EXPECT_NEAR(limits.lower.value, -79.7, 0.1);
  EXPECT_NEAR(limits.upper.value, 75.5, 0.1);
  // The paper takes sqrt(3/n) sd = 16.3 for the standard error of a limit, a rounded form of the later formula.
  EXPECT_NEAR(limits.lower.se, 16.3, 0.03 * 16.3);
}

// Closed form: half the distance of the limits is 1.959964 sd; -78.10 to 73.86 as other programs print it for these
// data.
TEST(LimitsOfAgreement, peak_flow_95) {
  const LimitsOfAgreement limits = limits_of_agreement(peak_flow_differences(), 1.959963984540054, 0.95);
  EXPECT_NEAR(limits.lower.value, -78.10, 0.005);
  EXPECT_NEAR(limits.upper.value, 73.8606, 5e-5);
}

// Bland & Altman 1999, section 2: blood pressure [mmHg] of 85 persons by two instruments; from memory. Mean -16.29, sd
// 19.61: limits -54.7 and 22.1 with the intervals -61.9 to -47.5 and 14.9 to 29.3 from t and the standard error.
TEST(LimitsOfAgreement, blood_pressure) {
  const LimitsOfAgreement limits = limits_of_agreement({.n = 85, .mean = -16.29, .sd = 19.61}, 1.96, 0.95);
  const double half = student_t_quantile(0.975, 84) * limits.lower.se;
  EXPECT_NEAR(limits.lower.value, -54.7, 0.05);
  EXPECT_NEAR(limits.upper.value, 22.1, 0.06);
  EXPECT_NEAR(limits.lower.value - half, -61.9, 0.1);
  EXPECT_NEAR(limits.lower.value + half, -47.5, 0.1);
  EXPECT_NEAR(limits.upper.value - half, 14.9, 0.1);
  EXPECT_NEAR(limits.upper.value + half, 29.3, 0.11);
  // The exact interval lies further out at both ends (Carkeet 2015): that of a normal quantile is not symmetric.
  EXPECT_GT(limits.upper.interval.low, limits.upper.value - half);
  EXPECT_GT(limits.upper.interval.high, limits.upper.value + half);
}

// R's qt with a shift, for 17 differences and 1.96. R's qt is right to about 1e-9 there.
TEST(LimitsOfAgreement, exact_interval) {
  const LimitsOfAgreement limits = limits_of_agreement({.n = 17, .mean = 10, .sd = 2}, 1.96, 0.95);
  EXPECT_NEAR(limits.upper.interval.low, 10 + 2 * by_r("agreement.17.1.96.inner"), 1e-7);
  EXPECT_NEAR(limits.upper.interval.high, 10 + 2 * by_r("agreement.17.1.96.outer"), 1e-7);
  EXPECT_NEAR(limits.lower.interval.low, 10 - 2 * by_r("agreement.17.1.96.outer"), 1e-7);
  EXPECT_NEAR(limits.lower.interval.high, 10 - 2 * by_r("agreement.17.1.96.inner"), 1e-7);
}

TEST(LimitsOfAgreement, one_difference_says_nothing) {
  const LimitsOfAgreement limits = limits_of_agreement(summarise(std::vector<double>{1}), 2, 0.95);
  EXPECT_TRUE(std::isnan(limits.bias));
  EXPECT_TRUE(std::isnan(limits.upper.value));
  EXPECT_TRUE(std::isnan(limits.lower.interval.high));
}

using Table = std::vector<std::vector<double>>;

// Shrout & Fleiss 1979, table 2.
const Table shrout_fleiss{{9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};

// Shrout & Fleiss 1979, tables 3 and 4: mean squares 11.24, 6.26, 32.49, 1.02 and .17 (from memory), .29, .71. Half a
// unit of the last digit.
TEST(RaterAgreement, shrout_and_fleiss) {
  const RaterAgreement agreement = rater_agreement(shrout_fleiss, 0.95);
  ASSERT_TRUE(agreement.possible);
  EXPECT_NEAR(agreement.ms_targets, 11.24, 0.005);
  EXPECT_NEAR(agreement.ms_within, 6.26, 0.005);
  EXPECT_NEAR(agreement.ms_raters, 32.49, 0.005);
  EXPECT_NEAR(agreement.ms_error, 1.02, 0.005);
  EXPECT_NEAR(agreement.one_way.value, 0.17, 0.005);
  EXPECT_NEAR(agreement.random.value, 0.29, 0.005);
  EXPECT_NEAR(agreement.fixed.value, 0.71, 0.005);
}

// R's psych: values and intervals. Tolerance: its digits, and those of two programs' F quantiles.
TEST(RaterAgreement, answers_of_another_program) {
  const std::map<std::string, Table> tables{{"shrout_fleiss", shrout_fleiss},
                                            {"films",
                                             {{95, 100, 95},
                                              {110, 115, 105},
                                              {80, 90, 85},
                                              {120, 120, 110},
                                              {100, 100, 100},
                                              {90, 95, 90},
                                              {105, 115, 110}}}};
  for (const auto& [set, table] : tables) {
    const RaterAgreement agreement = rater_agreement(table, 0.95);
    int number = 0;
    for (const Correlation& correlation : {agreement.one_way, agreement.random, agreement.fixed}) {
      const std::string key = "icc." + set + "." + std::to_string(++number);
      EXPECT_NEAR(correlation.value, by_r(key + ".value"), 1e-12) << key;
      EXPECT_NEAR(correlation.interval.low, by_r(key + ".low"), 1e-10) << key;
      EXPECT_NEAR(correlation.interval.high, by_r(key + ".high"), 1e-10) << key;
    }
  }
}

// By hand: raters a constant apart agree fully if only these two are meant; no error at all leaves no room for doubt.
TEST(RaterAgreement, a_constant_apart) {
  const RaterAgreement agreement = rater_agreement({{1, 2}, {2, 3}, {3, 4}}, 0.95);
  ASSERT_TRUE(agreement.possible);
  EXPECT_NEAR(agreement.fixed.value, 1, 1e-14);
  EXPECT_NEAR(agreement.fixed.interval.low, 1, 1e-13);
  // Mean squares: targets 2, raters 1.5, error 0: 2/(2 + 2 * 1.5/3).
  EXPECT_NEAR(agreement.random.value, 2.0 / 3, 1e-14);
  const RaterAgreement equal = rater_agreement({{1, 1}, {2, 2}, {4, 4}}, 0.95);
  EXPECT_NEAR(equal.random.value, 1, 1e-14);
  EXPECT_NEAR(equal.random.interval.low, 1, 1e-13);
  EXPECT_NEAR(equal.random.interval.high, 1, 1e-13);
}

// By hand: targets that differ less than the errors. Mean squares: targets 0, error 2, raters 0: -2/(0 + 2).
TEST(RaterAgreement, below_zero) {
  const RaterAgreement agreement = rater_agreement({{1, 3}, {3, 1}}, 0.95);
  ASSERT_TRUE(agreement.possible);
  EXPECT_NEAR(agreement.fixed.value, -1, 1e-14);
  EXPECT_LT(agreement.random.value, 0);
  EXPECT_FALSE(std::isnan(agreement.random.interval.low));
  EXPECT_FALSE(std::isnan(agreement.random.interval.high));
}

TEST(RaterAgreement, not_possible) {
  for (const Table& table : {Table{}, Table{{1, 2}}, Table{{1}, {2}}, Table{{1, 2}, {1}}, Table{{3, 3}, {3, 3}}}) {
    const RaterAgreement agreement = rater_agreement(table, 0.95);
    EXPECT_FALSE(agreement.possible);
    EXPECT_TRUE(std::isnan(agreement.fixed.value));
    EXPECT_TRUE(std::isnan(agreement.ms_error));
  }
}

} // namespace
} // namespace docket
