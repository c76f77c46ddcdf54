#include "core/statistics/summary.h"
#include "tests/core/statistics/fitting/nist_data.h"

#include <gtest/gtest.h>

#include <cmath>
#include <ostream>
#include <string>

namespace docket {
namespace {

struct CertifiedSummary {
  std::string set;
  std::int64_t n;
  double mean, sd;
  double sd_tolerance; ///< Relative.
};

void PrintTo(const CertifiedSummary& set, std::ostream* out) { *out << set.set; }

class NistUnivariate : public ::testing::TestWithParam<CertifiedSummary> {};

TEST_P(NistUnivariate, agrees) {
  const CertifiedSummary& certified = GetParam();
  const Summary summary = summarise(testing::read_nist_univariate(certified.set));
  EXPECT_EQ(summary.n, certified.n);
  EXPECT_NEAR(summary.mean / certified.mean, 1, 1e-14);
  EXPECT_NEAR(summary.sd / certified.sd, 1, certified.sd_tolerance);
}

// NIST StRD, certified values as printed in each file. Tolerance: 14 digits; where the mean is many times the standard
// deviation the digits that a double spends on the mean are lost already in reading the data (NumAcc3, 4: 1e7 to 0.1).
INSTANTIATE_TEST_SUITE_P(Certified, NistUnivariate,
                         ::testing::Values(CertifiedSummary{"Lew", 200, -177.435, 277.332168044316, 1e-14},
                                           CertifiedSummary{"Lottery", 218, 518.958715596330, 291.699727470969, 1e-14},
                                           CertifiedSummary{"Mavro", 50, 2.001856, 0.000429123454003053, 1e-12},
                                           CertifiedSummary{"Michelso", 100, 299.8524, 0.0790105478190518, 1e-12},
                                           CertifiedSummary{"NumAcc1", 3, 10000002, 1, 1e-15},
                                           CertifiedSummary{"NumAcc2", 1001, 1.2, 0.1, 1e-14},
                                           CertifiedSummary{"NumAcc3", 1001, 1000000.2, 0.1, 2e-9},
                                           CertifiedSummary{"NumAcc4", 1001, 10000000.2, 0.1, 2e-8}));

// Closed form: equal values have no spread but what rounding leaves.
TEST(Summarise, equal_values_have_no_spread) {
  const std::vector<double> values(1'000, 0.1);
  EXPECT_LT(summarise(values).sd, 1e-16);
  EXPECT_NEAR(summarise(values).mean, 0.1, 1e-16);
}

TEST(Summarise, too_few_values) {
  const Summary none = summarise({});
  EXPECT_EQ(none.n, 0);
  EXPECT_TRUE(std::isnan(none.mean));
  EXPECT_TRUE(std::isnan(none.sd));
  const std::vector<double> one{42.5};
  EXPECT_EQ(summarise(one).n, 1);
  EXPECT_EQ(summarise(one).mean, 42.5);
  EXPECT_TRUE(std::isnan(summarise(one).sd));
}

// Definition.
TEST(Median, definition) {
  EXPECT_EQ(median({3}), 3);
  EXPECT_EQ(median({5, 1}), 3);
  EXPECT_EQ(median({9, 1, 5}), 5);
  EXPECT_EQ(median({4, 9, 1, 5}), 4.5);
  EXPECT_EQ(median({2, 2, 2, 7}), 2);
  EXPECT_TRUE(std::isnan(median({})));
}

// NIST Michelso: the median as printed in the NIST e-Handbook 1.4.2.6 is 299.85 (from memory).
TEST(Median, michelson) { EXPECT_NEAR(median(testing::read_nist_univariate("Michelso")), 299.85, 1e-12); }

} // namespace
} // namespace docket
