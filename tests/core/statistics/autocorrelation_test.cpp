#include "core/statistics/autocorrelation.h"
#include "core/statistics/random.h"
#include "tests/core/statistics/fitting/nist_data.h"

#include <gtest/gtest.h>

#include <cmath>
#include <ostream>
#include <string>
#include <vector>

namespace docket {
namespace {

using Stretches = std::vector<std::vector<double>>;

struct CertifiedLag1 {
  std::string set;
  double r1, tolerance;
};

void PrintTo(const CertifiedLag1& set, std::ostream* out) { *out << set.set; }

class NistLag1 : public ::testing::TestWithParam<CertifiedLag1> {};

TEST_P(NistLag1, agrees) {
  const CertifiedLag1& certified = GetParam();
  const std::vector<double> values = testing::read_nist_univariate(certified.set);
  ASSERT_FALSE(values.empty());
  EXPECT_NEAR(lag1_autocorrelation(Stretches{values}).raw, certified.r1, certified.tolerance);
}

// NIST StRD, certified values as printed in each file. Tolerance: as for the standard deviation, twice.
INSTANTIATE_TEST_SUITE_P(Certified, NistLag1,
                         ::testing::Values(CertifiedLag1{"Michelso", 0.535199668621283, 2e-12},
                                           CertifiedLag1{"Lew", -0.307304800605679, 2e-14},
                                           CertifiedLag1{"Lottery", -0.120948622967393, 2e-14},
                                           CertifiedLag1{"Mavro", 0.937989183438248, 2e-12},
                                           CertifiedLag1{"NumAcc1", -0.5, 1e-15},
                                           CertifiedLag1{"NumAcc2", -0.999, 2e-14},
                                           CertifiedLag1{"NumAcc3", -0.999, 4e-9},
                                           CertifiedLag1{"NumAcc4", -0.999, 4e-8}));

// By hand: an alternation has r(1) = -(n - 1)/n; cut in two it has one product less and keeps its value.
TEST(Lag1, cutting_a_record_keeps_the_value) {
  EXPECT_DOUBLE_EQ(lag1_autocorrelation(Stretches{{1, -1, 1, -1}}).raw, -0.75);
  EXPECT_DOUBLE_EQ(lag1_autocorrelation(Stretches{{1, -1}, {1, -1}}).raw, -0.75);
  EXPECT_DOUBLE_EQ(lag1_autocorrelation(Stretches{{1, -1}, {}, {1, -1}}).raw, -0.75);
}

// By hand: mean 0, squares 25, products within the stretches 6.25 + 6.25, pairs 2, n 4. Uncut there is a third
// product, -6.25: 6.25/25.
TEST(Lag1, products_never_cross_a_stretch) {
  EXPECT_DOUBLE_EQ(lag1_autocorrelation(Stretches{{2.5, 2.5}, {-2.5, -2.5}}).raw, 0.75);
  EXPECT_DOUBLE_EQ(lag1_autocorrelation(Stretches{{2.5, 2.5, -2.5, -2.5}}).raw, 0.25);
}

// Marriott & Pope 1954: + (1 + 3 r)/n, by hand; held within 0.99.
TEST(Lag1, correction) {
  const Lag1 michelson = lag1_autocorrelation(Stretches{testing::read_nist_univariate("Michelso")});
  EXPECT_NEAR(michelson.corrected, 0.535199668621283 + (1 + 3 * 0.535199668621283) / 100, 1e-11);
  EXPECT_EQ(lag1_autocorrelation(Stretches{{1, -1, 1, -1}}).corrected, -0.99);
}

// Recovery of a known value: 500 records of 40 values with 0.6. The usual r(1) is low by (1 + 4 rho)/n = 0.085; the
// correction leaves about rho/n = 0.015; standard error of the average 0.006.
TEST(Lag1, correction_takes_most_of_the_bias) {
  constexpr double rho = 0.6;
  constexpr std::uint64_t records = 500, length = 40;
  const Draws draws(11);
  double raw = 0, corrected = 0;
  for (std::uint64_t record = 0; record < records; ++record) {
    std::vector<double> values(1, draws.normal(0, record, 0) / std::sqrt(1 - rho * rho));
    for (std::uint64_t i = 1; i < length; ++i) values.push_back(rho * values.back() + draws.normal(0, record, i));
    const Lag1 lag1 = lag1_autocorrelation(Stretches{values});
    raw += lag1.raw / static_cast<double>(records);
    corrected += lag1.corrected / static_cast<double>(records);
  }
  EXPECT_NEAR(raw, rho - 0.085, 0.02);
  EXPECT_NEAR(corrected, rho - 0.015, 0.02);
}

TEST(Lag1, nothing_to_see) {
  EXPECT_EQ(lag1_autocorrelation(Stretches{}).raw, 0);
  EXPECT_EQ(lag1_autocorrelation(Stretches{{1}, {2}, {4}}).corrected, 0);
  EXPECT_EQ(lag1_autocorrelation(Stretches{{3, 3, 3}}).corrected, 0);
}

// One pair far out among single values: the scaled value is held within 1.
TEST(Lag1, never_above_one) {
  EXPECT_EQ(lag1_autocorrelation(Stretches{{10, 10}, {0}, {0}, {-20}, {0}, {0}, {0}, {0}, {0}}).raw, 1);
}

// Closed form n (1 - rho)/(1 + rho), and its two bounds.
TEST(EffectiveCount, closed_form) {
  EXPECT_DOUBLE_EQ(effective_count(300, 0.5), 100);
  EXPECT_DOUBLE_EQ(effective_count(90, 0.8), 10);
  EXPECT_EQ(effective_count(100, 0), 100);
  EXPECT_EQ(effective_count(100, -0.5), 100);
  EXPECT_EQ(effective_count(100, 0.99), 1);
  EXPECT_EQ(effective_count(1, 0.3), 1);
}

} // namespace
} // namespace docket
