#include "core/statistics/random.h"
#include "core/statistics/random_effects.h"
#include "tests/core/statistics/fitting/nist_data.h"

#include <Eigen/Dense>
#include <gtest/gtest.h>

#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

namespace docket {
namespace {

using Groups = std::vector<std::vector<double>>;

std::vector<GroupSummary> summarise_groups(const Groups& groups) {
  std::vector<GroupSummary> summaries;
  for (const auto& group : groups) summaries.push_back(summarise_group(group));
  return summaries;
}

RandomEffects fit(const Groups& groups) { return fit_random_effects(summarise_groups(groups)); }

// O. L. Davies, P. L. Goldsmith (eds), Statistical Methods in Research and Production, 4th ed. (1972), section 6.4:
// yield of dyestuff, six batches of five; data from memory, and the mean squares close by hand.
const Groups dyestuff{{1545, 1440, 1440, 1520, 1580}, {1540, 1555, 1490, 1560, 1495}, {1595, 1550, 1605, 1510, 1560},
                      {1445, 1440, 1595, 1465, 1545}, {1595, 1630, 1515, 1635, 1625}, {1520, 1455, 1450, 1480, 1445}};

// Five groups of the sizes 5, 2, 7, 3, 1 with unequal means; the values are of no account to the checks that use it.
const Groups unequal{{46, 31, 37, 62, 30}, {70, 59}, {52, 44, 57, 40, 67, 64, 70}, {47, 21, 70}, {75}};

// Balanced, so REML is the analysis of variance: mean squares 11271.5 and 2451.25, (11271.5 - 2451.25)/5 = 1764.05.
TEST(RandomEffects, dyestuff) {
  const RandomEffects effects = fit(dyestuff);
  EXPECT_EQ(effects.outcome, RandomEffectsOutcome::fitted);
  EXPECT_EQ(effects.reason, "");
  EXPECT_NEAR(effects.mean, 1527.5, 1e-9);
  EXPECT_NEAR(effects.variance_between, 1764.05, 1764.05 * 1e-11);
  EXPECT_NEAR(effects.variance_within, 2451.25, 2451.25 * 1e-11);
  EXPECT_NEAR(effects.mean_se, std::sqrt(11271.5 / 30), 1e-9);
}

// NIST StRD, certified: mean squares 1.27865654E-02 (4) and 1.0831828E-02 (20), five of five.
TEST(RandomEffects, nist_sirstv) {
  const RandomEffects effects = fit(testing::read_nist_anova("SiRstv"));
  EXPECT_EQ(effects.outcome, RandomEffectsOutcome::fitted);
  const double expected = (1.27865654e-2 - 1.0831828e-2) / 5;
  EXPECT_NEAR(expected, 3.90947e-4, 5e-10);
  EXPECT_NEAR(effects.variance_between, expected, expected * 1e-9);
  EXPECT_NEAR(effects.variance_within, 1.0831828e-2, 1e-13);
  EXPECT_NEAR(std::sqrt(effects.variance_within), 1.04076068334656e-1, 1e-12);
  const double f = 1 + 5 * effects.variance_between / effects.variance_within;
  EXPECT_NEAR(f, 1.18046237440255, 1e-10);
}

// NIST StRD, certified: mean squares 0.21 (8) and 0.01 (180), nine of 21. SmLs04 spends seven digits on 1000000: its
// data as doubles are right to 1e-10 beside a spread of 0.1.
TEST(RandomEffects, nist_constant_leading_digits) {
  for (const auto& [set, tolerance] : {std::pair<std::string, double>{"SmLs01", 1e-11}, {"SmLs04", 1e-8}}) {
    const RandomEffects effects = fit(testing::read_nist_anova(set));
    EXPECT_NEAR(effects.variance_between / (0.2 / 21), 1, tolerance) << set;
    EXPECT_NEAR(effects.variance_within / 0.01, 1, tolerance) << set;
  }
}

// Closed form for two groups of any size: the difference d of the means and the sum of squares within are all there is,
// and independent; so variance_within = ss/(n - 2), 2 variance_between = d^2 - variance_within (1/n1 + 1/n2).
TEST(RandomEffects, two_unequal_groups_in_closed_form) {
  for (const std::int64_t larger : {3, 40, 100'000}) {
    const std::vector<GroupSummary> groups{{.n = 2, .mean = 61.0, .within_ss = 0.5},
                                           {.n = larger, .mean = 58.0, .within_ss = 1.1 * static_cast<double>(larger)}};
    const double n = static_cast<double>(larger);
    const double within = (0.5 + 1.1 * n) / n;
    const double between = (9 - within * (0.5 + 1 / n)) / 2;
    const double variance_1 = between + within / 2, variance_2 = between + within / n;
    const RandomEffects effects = fit_random_effects(groups);
    EXPECT_EQ(effects.outcome, RandomEffectsOutcome::fitted);
    EXPECT_NEAR(effects.variance_within / within, 1, 1e-10);
    EXPECT_NEAR(effects.variance_between / between, 1, 1e-10);
    EXPECT_NEAR(effects.mean, (61 / variance_1 + 58 / variance_2) / (1 / variance_1 + 1 / variance_2), 1e-9);
    EXPECT_NEAR(effects.mean_se, std::sqrt(1 / (1 / variance_1 + 1 / variance_2)), 1e-9);
  }
}

// The REML equations as they are defined (Searle, Casella & McCulloch 1992, chapter 6): tr P = y'PPy and
// tr PZZ' = y'PZZ'Py, with P from the full covariance matrix of all values, which the code never forms.
TEST(RandomEffects, unequal_groups_solve_the_reml_equations) {
  const RandomEffects effects = fit(unequal);
  ASSERT_EQ(effects.outcome, RandomEffectsOutcome::fitted);
  ASSERT_GT(effects.variance_between, 0);
  Eigen::Index n = 0;
  for (const auto& group : unequal) n += static_cast<Eigen::Index>(group.size());
  Eigen::MatrixXd same_group = Eigen::MatrixXd::Zero(n, n);
  Eigen::VectorXd y(n);
  Eigen::Index start = 0;
  for (const auto& group : unequal) {
    const auto size = static_cast<Eigen::Index>(group.size());
    same_group.block(start, start, size, size).setOnes();
    for (Eigen::Index i = 0; i < size; ++i) y(start + i) = group[static_cast<std::size_t>(i)];
    start += size;
  }
  const Eigen::MatrixXd covariance =
      effects.variance_between * same_group + effects.variance_within * Eigen::MatrixXd::Identity(n, n);
  const Eigen::MatrixXd inverse = covariance.inverse();
  const Eigen::VectorXd ones = Eigen::VectorXd::Ones(n);
  const double weight = ones.dot(inverse * ones);
  const Eigen::MatrixXd p = inverse - (inverse * ones) * (inverse * ones).transpose() / weight;
  const Eigen::VectorXd py = p * y;
  EXPECT_NEAR(py.dot(py) / p.trace(), 1, 1e-10);
  EXPECT_NEAR(py.dot(same_group * py) / (p * same_group).trace(), 1, 1e-10);
  EXPECT_NEAR(effects.mean, ones.dot(inverse * y) / weight, 1e-9);
  EXPECT_NEAR(effects.mean_se, 1 / std::sqrt(weight), 1e-10);
}

// Invariant: another unit and another zero change the numbers in the same way; so does another order of the groups.
TEST(RandomEffects, unit_zero_and_order) {
  const RandomEffects plain = fit(unequal);
  Groups changed(unequal.rbegin(), unequal.rend());
  for (auto& group : changed) {
    for (double& value : group) value = 1000 + 0.01 * value;
  }
  const RandomEffects other = fit(changed);
  EXPECT_NEAR(other.mean, 1000 + 0.01 * plain.mean, 1e-9);
  EXPECT_NEAR(other.mean_se / plain.mean_se, 0.01, 1e-10);
  EXPECT_NEAR(other.variance_between / plain.variance_between, 1e-4, 1e-12);
  EXPECT_NEAR(other.variance_within / plain.variance_within, 1e-4, 1e-12);
}

// Closed form at the boundary: less spread between than chance gives. Then all values are one sample.
TEST(RandomEffects, boundary) {
  const RandomEffects effects = fit({{1, 5}, {2, 4}, {3, 3, 3}});
  EXPECT_EQ(effects.outcome, RandomEffectsOutcome::fitted);
  EXPECT_EQ(effects.variance_between, 0);
  EXPECT_NEAR(effects.variance_within, 10.0 / 6, 1e-14);
  EXPECT_NEAR(effects.mean, 3, 1e-14);
  EXPECT_NEAR(effects.mean_se, std::sqrt(10.0 / 6 / 7), 1e-14);
}

// Closed form, balanced: just off the boundary the analysis of variance holds, however small the variance.
TEST(RandomEffects, near_the_boundary) {
  const double within = 2; // Mean square of {m - 1, m + 1}.
  for (const double excess : {1e-9, 1e-6, 1e-3}) {
    const double apart = std::sqrt(within + excess); // Two groups of two: mean square between is apart^2.
    const RandomEffects effects = fit({{-1, 1}, {apart - 1, apart + 1}});
    EXPECT_NEAR(effects.variance_between, excess / 2, 1e-14) << excess;
  }
}

// Closed form, balanced: hardly any spread within.
TEST(RandomEffects, between_far_above_within) {
  const RandomEffects effects = fit({{10, 10 + 1e-5}, {20, 20 + 1e-5}, {33, 33 + 1e-5}});
  EXPECT_EQ(effects.outcome, RandomEffectsOutcome::fitted);
  EXPECT_NEAR(effects.variance_within / 0.5e-10, 1, 1e-5);
  EXPECT_NEAR(effects.variance_between, 133, 1e-6);
}

// Recovery of known values, unequal groups: the averages over 300 draws lie within four standard errors.
TEST(RandomEffects, recovers_known_variances) {
  const Draws draws(3);
  constexpr std::uint64_t runs = 300, group_count = 8;
  double between = 0, within = 0;
  for (std::uint64_t run = 0; run < runs; ++run) {
    Groups groups;
    for (std::uint64_t g = 0; g < group_count; ++g) {
      std::vector<double> values;
      const double effect = 2 * draws.normal(run, g, 0);
      for (std::uint64_t i = 1; i <= 5 + 10 * g; ++i) values.push_back(50 + effect + 3 * draws.normal(run, g, i));
      groups.push_back(values);
    }
    const RandomEffects effects = fit(groups);
    between += effects.variance_between / static_cast<double>(runs);
    within += effects.variance_within / static_cast<double>(runs);
  }
  EXPECT_NEAR(within, 9, 4 * 9 * std::sqrt(2 / 312.0 / 300));
  EXPECT_NEAR(between, 4, 4 * 5 * std::sqrt(2 / 7.0 / 300));
}

TEST(RandomEffects, one_group) {
  const RandomEffects effects = fit({{1, 2, 3}, {}});
  EXPECT_EQ(effects.outcome, RandomEffectsOutcome::one_group);
  EXPECT_EQ(effects.reason, "Fewer than two groups: the spread between groups is not known.");
  EXPECT_DOUBLE_EQ(effects.mean, 2);
  EXPECT_DOUBLE_EQ(effects.variance_within, 1);
  EXPECT_TRUE(std::isnan(effects.variance_between));
  EXPECT_TRUE(std::isnan(effects.mean_se));
  EXPECT_TRUE(std::isnan(fit({}).mean));
  EXPECT_TRUE(std::isnan(fit({{4}}).variance_within));
}

TEST(RandomEffects, no_replication) {
  const RandomEffects effects = fit({{1}, {2}, {6}});
  EXPECT_EQ(effects.outcome, RandomEffectsOutcome::no_replication);
  EXPECT_EQ(effects.reason, "Every group has one value: spread between and within can't be told apart.");
  EXPECT_DOUBLE_EQ(effects.mean, 3);
  EXPECT_DOUBLE_EQ(effects.mean_se, std::sqrt(7.0 / 3));
  EXPECT_TRUE(std::isnan(effects.variance_between));
  EXPECT_TRUE(std::isnan(effects.variance_within));
}

TEST(RandomEffects, no_spread) {
  const RandomEffects effects = fit({{1.1, 1.1, 1.1}, {2.2, 2.2}, {3.3}});
  EXPECT_EQ(effects.outcome, RandomEffectsOutcome::no_spread);
  EXPECT_EQ(effects.reason, "There is no spread within the groups.");
  EXPECT_EQ(effects.variance_within, 0);
  EXPECT_NEAR(effects.variance_between, 1.21, 1e-14);
  EXPECT_NEAR(effects.mean, 2.2, 1e-15);
  const RandomEffects equal = fit({{61.3, 61.3, 61.3}, {61.3, 61.3}});
  EXPECT_EQ(equal.outcome, RandomEffectsOutcome::no_spread);
  EXPECT_EQ(equal.variance_between, 0);
}

// Definition.
TEST(SummariseGroup, definition) {
  const std::vector<double> values{2, 4, 9};
  const GroupSummary group = summarise_group(values);
  EXPECT_EQ(group.n, 3);
  EXPECT_DOUBLE_EQ(group.mean, 5);
  EXPECT_NEAR(group.within_ss, 26, 1e-13);
  EXPECT_EQ(summarise_group({}).n, 0);
  const std::vector<double> one{7};
  EXPECT_EQ(summarise_group(one).within_ss, 0);
}

} // namespace
} // namespace docket
