#include "core/statistics/conformity.h"
#include "core/statistics/distributions.h"

#include <gtest/gtest.h>

#include <limits>

namespace docket {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

// JCGM 106:2012, examples of clause 7: breakdown voltage of a diode, upper limit; burst pressure, lower limit. From
// memory.
TEST(ProbabilityWithin, jcgm_106) {
  EXPECT_NEAR(probability_within(-5.40, -5.47, 0.05, infinity), 0.919, 5e-4);
  EXPECT_NEAR(probability_within(-490, -509.7, 8.6, infinity), 0.989, 5e-4);
}

// ILAC-G8:09/2019, risk of false acceptance at the acceptance limit, guard band w, U = 2 u: w = 0 50 %, w = U 2.5 %,
// w = 0.83 U 5 %, w = 1.5 U 0.16 % (the guide rounds up; the last two from memory).
TEST(ProbabilityWithin, ilac_g8_worst_case) {
  const double u = 0.5, limit = 10;
  const auto false_accept = [&](double guard) { return 1 - probability_within(limit, limit - guard, u, infinity); };
  EXPECT_DOUBLE_EQ(false_accept(0), 0.5);
  EXPECT_LT(false_accept(2 * u), 0.025);
  EXPECT_GT(false_accept(2 * u), 0.022);
  EXPECT_LT(false_accept(0.83 * 2 * u), 0.05);
  EXPECT_LT(false_accept(1.5 * 2 * u), 0.0016);
}

// The rules of the same guide with a time limit of 60 s, 58.6 s found, U = 2.0 s: 1.4 standard uncertainties below the
// limit, printed normal table 0.9192.
TEST(ProbabilityWithin, a_time_limit) { EXPECT_NEAR(probability_within(60, 58.6, 1, infinity), 0.9192, 5e-5); }

// Closed form: Student's t with one degree of freedom at 1 is 3/4; few degrees make the answer less sure.
TEST(ProbabilityWithin, few_degrees_of_freedom) {
  EXPECT_NEAR(probability_within(61, 60, 1, 1), 0.75, 1e-14);
  EXPECT_LT(probability_within(61, 60, 1, 3), probability_within(61, 60, 1, infinity));
}

TEST(ProbabilityWithin, without_uncertainty_a_step) {
  EXPECT_EQ(probability_within(60, 59.9, 0, 5), 1);
  EXPECT_EQ(probability_within(60, 60, 0, infinity), 1);
  EXPECT_EQ(probability_within(60, 60.1, 0, 5), 0);
}

} // namespace
} // namespace docket
