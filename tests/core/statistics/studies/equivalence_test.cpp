#include "core/statistics/studies/equivalence.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <string>

namespace docket {
namespace {

// R's t.test: two one-sided tests and the 90 % interval, data set sleep, as two samples (Welch) and as pairs.
TEST(Equivalence, answers_of_another_program) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  for (const auto& [key, margin] : std::map<std::string, double>{{"welch", 4}, {"paired", 2.4}}) {
    const double u = by_r.at(key + ".u");
    const EquivalenceTest test = test_equivalence(by_r.at(key + ".difference"), u, by_r.at(key + ".df"), margin, 0.05);
    EXPECT_NEAR(test.p_lower / by_r.at(key + ".p_lower"), 1, 1e-11) << key;
    EXPECT_NEAR(test.p_upper / by_r.at(key + ".p_upper"), 1, 1e-11) << key;
    EXPECT_NEAR(test.interval.low, by_r.at(key + ".low"), 1e-12) << key;
    EXPECT_NEAR(test.interval.high, by_r.at(key + ".high"), 1e-12) << key;
    EXPECT_TRUE(test.equivalent) << key;
  }
}

// D. Lakens, Equivalence tests, Social Psychological and Personality Science 8 (2017), 355-362, first example; from
// memory: 5.25 (0.95, n = 95) and 5.22 (0.83, n = 89), margin 0.43 standard deviations; t = -2.69, p = .004. The other
// numbers close from these.
TEST(Equivalence, printed_example) {
  const double u = std::sqrt(0.95 * 0.95 / 95 + 0.83 * 0.83 / 89);
  const double margin = 0.43 * std::sqrt((0.95 * 0.95 + 0.83 * 0.83) / 2);
  const EquivalenceTest test = test_equivalence(5.25 - 5.22, u, 181.1, margin, 0.05);
  EXPECT_NEAR((5.25 - 5.22 - margin) / u, -2.69, 0.005);
  EXPECT_NEAR(test.p_upper, 0.004, 0.0005);
  EXPECT_NEAR(test.p_lower, 0.00096, 0.000005);
  EXPECT_TRUE(test.equivalent);
}

// Schuirmann 1987: equivalent exactly where the interval with 1 - 2 alpha lies within the margins.
TEST(Equivalence, interval_and_tests_say_the_same) {
  for (const double alpha : {0.01, 0.05, 0.2}) {
    for (double difference = -3; difference <= 3; difference += 0.13) {
      const EquivalenceTest test = test_equivalence(difference, 0.7, 11, 1.9, alpha);
      EXPECT_EQ(test.equivalent, test.interval.low > -1.9 && test.interval.high < 1.9) << difference;
    }
  }
}

// Closed form: with the normal distribution, and without an uncertainty.
TEST(Equivalence, ends) {
  const EquivalenceTest normal = test_equivalence(0.5, 1, std::numeric_limits<double>::infinity(), 2, 0.05);
  EXPECT_DOUBLE_EQ(normal.p_lower, normal_cdf(-2.5));
  EXPECT_DOUBLE_EQ(normal.p_upper, normal_cdf(-1.5));
  EXPECT_FALSE(normal.equivalent);
  EXPECT_TRUE(test_equivalence(0.5, 0, 5, 2, 0.05).equivalent);
  EXPECT_FALSE(test_equivalence(2, 0, 5, 2, 0.05).equivalent);
  EXPECT_EQ(test_equivalence(-2, 0, 5, 2, 0.05).p_lower, 1);
}

} // namespace
} // namespace docket
