#include "core/statistics/studies/tolerance.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <ostream>
#include <string>

namespace docket {
namespace {

struct PrintedFactor {
  std::int64_t n;
  double coverage, confidence, k, half_unit;
};

void PrintTo(const PrintedFactor& row, std::ostream* out) { *out << row.n << " values, share " << row.coverage; }

class ToleranceTable : public ::testing::TestWithParam<PrintedFactor> {};

TEST_P(ToleranceTable, agrees) {
  const PrintedFactor& row = GetParam();
  EXPECT_NEAR(tolerance_factor(row.n, row.coverage, row.confidence), row.k, row.half_unit);
}

// NIST/SEMATECH e-Handbook, 7.2.6.3: 43 values, 0.90 at 0.99, by non-central t 1.8740 (from memory). G. J. Hahn, W. Q.
// Meeker, Statistical Intervals (1991), tables of one-sided factors; from memory. Half a unit of the last digit.
INSTANTIATE_TEST_SUITE_P(
    Printed, ToleranceTable,
    ::testing::Values(PrintedFactor{43, 0.90, 0.99, 1.8740, 5.1e-5}, PrintedFactor{5, 0.95, 0.95, 4.203, 5.1e-4},
                      PrintedFactor{10, 0.95, 0.95, 2.911, 5.1e-4}, PrintedFactor{20, 0.95, 0.95, 2.396, 5.1e-4},
                      PrintedFactor{30, 0.95, 0.95, 2.220, 5.1e-4}, PrintedFactor{50, 0.95, 0.95, 2.065, 5.1e-4},
                      PrintedFactor{10, 0.90, 0.95, 2.355, 5.1e-4}, PrintedFactor{10, 0.99, 0.95, 3.981, 5.1e-4}));

// R's qt with a shift: right to about 1e-9, as R says when it is run.
TEST(ToleranceFactor, answers_of_another_program) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  const auto agrees = [&](std::int64_t n, double coverage, double confidence, const std::string& key) {
    EXPECT_NEAR(tolerance_factor(n, coverage, confidence) / by_r.at("tolerance." + key), 1, 1e-8) << key;
  };
  agrees(2, 0.9, 0.95, "2.0.9.0.95");
  agrees(5, 0.95, 0.95, "5.0.95.0.95");
  agrees(10, 0.95, 0.95, "10.0.95.0.95");
  agrees(43, 0.9, 0.99, "43.0.9.0.99");
  agrees(60, 0.99, 0.9, "60.0.99.0.9");
  agrees(200, 0.95, 0.95, "200.0.95.0.95");
  agrees(8, 0.5, 0.95, "8.0.5.0.95");
  agrees(12, 0.9, 0.05, "12.0.9.0.05");
}

// Closed form: half of the population lies below the mean, whose bound is Student's; and many values leave the normal
// quantile.
TEST(ToleranceFactor, closed_forms) {
  for (const std::int64_t n : {2, 9, 400}) {
    const auto count = static_cast<double>(n);
    EXPECT_NEAR(tolerance_factor(n, 0.5, 0.9), student_t_quantile(0.9, count - 1) / std::sqrt(count), 1e-9) << n;
  }
  EXPECT_NEAR(tolerance_factor(100'000, 0.95, 0.5), normal_quantile(0.95), 1e-4);
}

// R: uniroot on pt with a shift.
TEST(ShareBelow, answers_of_another_program) {
  const std::map<std::string, double> by_r = testing::read_reference_values("r_study_checks");
  const auto agrees = [&](std::int64_t n, double limit, const std::string& key) {
    const Bounds share = share_below(0, 1, n, limit, 0.90);
    EXPECT_NEAR(share.low, by_r.at("share." + key + ".low"), 1e-9) << key;
    EXPECT_NEAR(share.high, by_r.at("share." + key + ".high"), 1e-9) << key;
  };
  agrees(6, 1.2, "6.1.2");
  agrees(25, 2.1, "25.2.1");
  agrees(80, -0.4, "80.-0.4");
  agrees(150, 2.5, "150.2.5");
}

// By definition: a limit at mean + k sd has the coverage of k as its low end, one side each.
TEST(ShareBelow, undoes_the_factor) {
  for (const std::int64_t n : {2, 5, 40, 1'000}) {
    const double k = tolerance_factor(n, 0.95, 0.9);
    EXPECT_NEAR(share_below(58, 2, n, 58 + 2 * k, 0.80).low, 0.95, 1e-9) << n;
    // The other side by symmetry: what lies above the limit from the other end.
    EXPECT_NEAR(share_below(58, 2, n, 58 - 2 * k, 0.80).high, 0.05, 1e-9) << n;
  }
}

TEST(ShareBelow, ends) {
  const Bounds far = share_below(58, 2, 50, 1'000, 0.95);
  EXPECT_NEAR(far.low, 1, 1e-15);
  EXPECT_NEAR(far.high, 1, 1e-15);
  EXPECT_NEAR(share_below(58, 2, 50, -1'000, 0.95).high, 0, 1e-15);
  for (const Bounds& nothing : {share_below(58, 0, 50, 60, 0.95), share_below(58, 2, 1, 60, 0.95)}) {
    EXPECT_EQ(nothing.low, 0);
    EXPECT_EQ(nothing.high, 1);
  }
}

} // namespace
} // namespace docket
