#include "core/statistics/fitting/nonlinear_mixed.h"
#include "core/statistics/random.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>
#include <map>
#include <numeric>
#include <ostream>
#include <sstream>
#include <string>
#include <vector>

namespace docket {
namespace {

using Values = std::map<std::string, double>;
using Curve = std::function<double(std::span<const double>, double, std::span<double>)>;

/// Rows of a comma-separated file below its header.
std::vector<std::vector<std::string>> read_rows(const std::string& name) {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/r_nlme/" + name);
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    rows.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) rows.back().push_back(cell);
  }
  return rows;
}

/// Groups in the order of their first row.
class Grouped {
public:
  void add(const std::string& group, double x, double y) {
    const auto found = std::ranges::find(names_, group);
    const auto at = static_cast<std::size_t>(found - names_.begin());
    if (found == names_.end()) {
      names_.push_back(group);
      groups_.emplace_back();
    }
    groups_[at].x.push_back(x);
    groups_[at].y.push_back(y);
  }
  const std::vector<MixedGroup>& groups() const { return groups_; }

private:
  std::vector<std::string> names_;
  std::vector<MixedGroup> groups_;
};

std::vector<MixedGroup> data_set(const std::string& set) {
  Grouped grouped;
  for (const auto& row : read_rows("data.csv"))
    if (row[0] == set) grouped.add(row[1], std::stod(row[2]), std::stod(row[3]));
  return grouped.groups();
}

/// The invented learners but the last, who comes after them: own cycle and ln seconds.
std::vector<MixedGroup> learners() {
  Grouped grouped;
  for (const auto& row : read_rows("learners.csv"))
    if (row[0] != "9") grouped.add(row[0], std::stod(row[1]), std::log(std::stod(row[2])));
  return grouped.groups();
}

/// Means of `width` values in a row; `behind`: with what lies behind the means.
std::vector<MixedGroup> means_of(const std::vector<MixedGroup>& groups, std::size_t width, bool behind) {
  std::vector<MixedGroup> out;
  for (const MixedGroup& group : groups) {
    MixedGroup means;
    for (std::size_t i = 0; i < group.x.size(); i += width) {
      const auto end = std::min(i + width, group.x.size());
      const auto w = static_cast<double>(end - i);
      double x = 0, y = 0;
      for (std::size_t k = i; k < end; ++k) {
        x += group.x[k] / w;
        y += group.y[k] / w;
      }
      means.x.push_back(x);
      means.y.push_back(y);
      means.weight.push_back(w);
      for (std::size_t k = i; k < end && behind; ++k) means.within_ss += std::pow(group.y[k] - y, 2);
    }
    if (behind) means.observations = static_cast<double>(group.x.size());
    out.push_back(means);
  }
  return out;
}

double logistic(std::span<const double> p, double x, std::span<double> g) {
  const double e = std::exp((p[1] - x) / p[2]), f = 1 / (1 + e);
  g[0] = f;
  g[1] = -p[0] * f * f * e / p[2];
  g[2] = p[0] * f * f * e * (p[1] - x) / (p[2] * p[2]);
  return p[0] * f;
}

double asymptotic(std::span<const double> p, double x, std::span<double> g) {
  const double rate = std::exp(p[2]), e = std::exp(-rate * x);
  g[0] = 1 - e;
  g[1] = e;
  g[2] = -(p[1] - p[0]) * e * rate * x;
  return p[0] + (p[1] - p[0]) * e;
}

double biexponential(std::span<const double> p, double x, std::span<double> g) {
  double sum = 0;
  for (std::size_t k = 0; k < 4; k += 2) {
    const double rate = std::exp(p[k + 1]), e = std::exp(-rate * x);
    g[k] = e;
    g[k + 1] = -p[k] * e * rate * x;
    sum += p[k] * e;
  }
  return sum;
}

/// ln of c (1 + r exp(-n/tau)); ln c, ln r, ln tau.
double practice(std::span<const double> p, double x, std::span<double> g) {
  const double ratio = x * std::exp(-p[2]), e = std::exp(p[1] - ratio);
  g[0] = 1;
  g[1] = e / (1 + e);
  g[2] = g[1] * ratio;
  return p[0] + std::log1p(e);
}

struct RefittedSet {
  std::string name;
  std::function<std::vector<MixedGroup>()> groups;
  Curve curve;
  std::vector<std::size_t> random;
  std::vector<std::vector<double>> starts;
  bool correlated = false, restricted = false;
};

void PrintTo(const RefittedSet& set, std::ostream* out) { *out << set.name; }

class NonlinearMixedByNlme : public ::testing::TestWithParam<RefittedSet> {};

// Both programs have the same linearisation and the same likelihood. nlme stops its penalised fit at an offset of 1e-6
// and its alternation at changes of 1e-8, and the likelihood is flat at its top: a change of 1e-4 of a standard
// deviation moves it by less than 1e-7. So 4 digits for standard deviations and standard errors, 1e-4 standard errors
// for curves, and 1e-5 for a log-likelihood.
TEST_P(NonlinearMixedByNlme, Agrees) {
  const RefittedSet& set = GetParam();
  const Values r = testing::read_reference_values("r_nlme");
  const auto of = [&](const std::string& key) { return r.at(set.name + "." + key); };
  MixedModel model;
  model.parameter_count = set.starts[0].size();
  model.value = set.curve;
  model.random = set.random;
  model.correlated = set.correlated;
  const std::vector<MixedGroup> groups = set.groups();
  const MixedFit fit = fit_nonlinear_mixed(model, groups, set.starts, {.restricted = set.restricted});
  ASSERT_EQ(fit.outcome, MixedOutcome::converged) << fit.reason;

  EXPECT_NEAR(fit.log_likelihood, of("log_likelihood"), 1e-5);
  EXPECT_NEAR(fit.residual_sd / of("sigma"), 1, 1e-5);
  for (std::size_t k = 0; k < fit.fixed.size(); ++k) {
    const std::string at = std::to_string(k + 1);
    EXPECT_NEAR(fit.fixed[k], of("fixed." + at), 1e-4 * of("se." + at)) << at;
    EXPECT_NEAR(fit.fixed_se[k] / of("se." + at), 1, 1e-4) << at;
  }
  const std::size_t q = set.random.size();
  for (std::size_t k = 0; k < q; ++k) {
    const std::string at = std::to_string(k + 1);
    EXPECT_NEAR(fit.random_sd[k] / of("sd." + at), 1, 1e-4) << at;
    for (std::size_t j = 0; j < k; ++j)
      EXPECT_NEAR(fit.random_correlation[k * q + j], of("correlation." + at + "." + std::to_string(j + 1)), 1e-4);
  }
  ASSERT_EQ(fit.groups.size(), groups.size());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    for (std::size_t k = 0; k < fit.fixed.size(); ++k) {
      const std::string at = std::to_string(i + 1) + "." + std::to_string(k + 1);
      const double se = of("group_se." + at);
      EXPECT_NEAR(fit.groups[i].parameters[k], of("group." + at), 2e-4 * se) << at;
      EXPECT_NEAR(fit.groups[i].standard_errors[k] / se, 1, 1e-4) << at;
    }
  }
}

const std::vector<double> orange{190, 720, 350}, loblolly{103, -8.5, -3.3}, indometh{2.8, 0.77, 0.46, -1.35},
    learner{std::log(50.0), std::log(0.5), std::log(90.0)};

/// With one r for learners who differ in it, the restricted fit from tau 90 rests at a likelihood lower by 24.5.
const std::vector<std::vector<double>> learner_starts{learner, {std::log(50.0), std::log(0.5), std::log(130.0)}};

std::vector<MixedGroup> first_four() {
  auto all = learners();
  all.resize(4);
  return all;
}

INSTANTIATE_TEST_SUITE_P(
    DataSets, NonlinearMixedByNlme,
    ::testing::Values(
        RefittedSet{"orange", [] { return data_set("orange"); }, logistic, {0}, {orange}},
        RefittedSet{"orange_reml", [] { return data_set("orange"); }, logistic, {0}, {orange}, false, true},
        RefittedSet{"loblolly", [] { return data_set("loblolly"); }, asymptotic, {0}, {loblolly}},
        RefittedSet{"loblolly_reml", [] { return data_set("loblolly"); }, asymptotic, {0}, {loblolly}, false, true},
        RefittedSet{"indometh", [] { return data_set("indometh"); }, biexponential, {0, 1, 2}, {indometh}},
        RefittedSet{"indometh_full", [] { return data_set("indometh"); }, biexponential, {0, 1}, {indometh}, true}));
INSTANTIATE_TEST_SUITE_P(
    Practice, NonlinearMixedByNlme,
    ::testing::Values(
        RefittedSet{"practice", learners, practice, {0, 2}, learner_starts},
        RefittedSet{"practice_reml", learners, practice, {0, 2}, learner_starts, false, true},
        RefittedSet{"practice_three_reml", learners, practice, {0, 1, 2}, learner_starts, false, true},
        RefittedSet{"practice_full", learners, practice, {0, 2}, learner_starts, true},
        RefittedSet{"practice_few_reml", first_four, practice, {0}, learner_starts, false, true},
        RefittedSet{
            "practice_weighted", [] { return means_of(learners(), 5, false); }, practice, {0, 2}, learner_starts}));

/// One mean, no curve.
MixedModel one_way() {
  MixedModel model;
  model.value = [](std::span<const double> p, double, std::span<double> g) {
    g[0] = 1;
    return p[0];
  };
  model.random = {0};
  return model;
}

const std::vector<std::vector<double>> table{{1, 3, 5}, {4, 8, 9}, {10, 11, 15}, {6, 2, 4}};

std::vector<MixedGroup> groups_of(const std::vector<std::vector<double>>& values) {
  std::vector<MixedGroup> groups;
  for (const auto& row : values) groups.push_back({std::vector<double>(row.size()), row, {}});
  return groups;
}

double mean_of(const std::vector<double>& v) {
  return std::accumulate(v.begin(), v.end(), 0.0) / static_cast<double>(v.size());
}

// A balanced one-way table has closed forms (S. R. Searle, G. Casella, C. E. McCulloch, Variance Components, Wiley
// 1992, chapter 3: analysis of variance, maximum and restricted maximum likelihood). 1e-6: root of rounding.
TEST(NonlinearMixed, OneWayTableInClosedForm) {
  const double a = 4, n = 3;
  std::vector<double> means;
  double within = 0, between = 0;
  for (const auto& row : table) means.push_back(mean_of(row));
  const double mean = mean_of(means);
  for (std::size_t i = 0; i < table.size(); ++i) {
    between += n * std::pow(means[i] - mean, 2);
    for (const double y : table[i]) within += std::pow(y - means[i], 2);
  }
  const double mse = within / (a * (n - 1));
  for (const bool restricted : {false, true}) {
    const MixedFit fit = fit_nonlinear_mixed(one_way(), groups_of(table), std::vector{0.0}, {.restricted = restricted});
    ASSERT_EQ(fit.outcome, MixedOutcome::converged) << fit.reason;
    const double of_means = between / (restricted ? a - 1 : a); // sigma^2 + n Psi
    const double psi = (of_means - mse) / n, shrink = n * psi / of_means;
    EXPECT_NEAR(fit.fixed[0], mean, 1e-9);
    EXPECT_NEAR(fit.residual_sd, std::sqrt(mse), 1e-6);
    EXPECT_NEAR(fit.random_sd[0], std::sqrt(psi), 1e-6);
    EXPECT_NEAR(fit.fixed_se[0], std::sqrt(of_means / (a * n)), 1e-6);
    for (std::size_t i = 0; i < means.size(); ++i) {
      EXPECT_NEAR(fit.groups[i].parameters[0], mean + shrink * (means[i] - mean), 1e-6);
      const double variance = psi * (1 - shrink) + std::pow(1 - shrink, 2) * of_means / (a * n);
      EXPECT_NEAR(fit.groups[i].standard_errors[0], std::sqrt(variance), 1e-6);
    }
    // A new group with prior N(mean, psi + se^2), normal with normal: precision-weighted mean.
    const double prior = psi + of_means / (a * n), information = 1 / prior + 2 / mse;
    const GroupEstimate fresh = estimate_new_group(one_way(), fit, {{0, 0}, {9, 13}, {}});
    EXPECT_TRUE(fresh.found);
    EXPECT_NEAR(fresh.parameters[0], (mean / prior + 2 * 11 / mse) / information, 1e-5);
    EXPECT_NEAR(fresh.standard_errors[0], std::sqrt(1 / information), 1e-6);
    const GroupEstimate empty = estimate_new_group(one_way(), fit, {});
    EXPECT_NEAR(empty.parameters[0], mean, 1e-9);
    EXPECT_NEAR(empty.standard_errors[0], std::sqrt(prior), 1e-6);
  }
}

// Groups closer together than chance makes them: the closed form of the between variance is below zero.
TEST(NonlinearMixed, SpreadThatIsNotThereIsSetToZero) {
  const std::vector<std::vector<double>> alike{{1, 5, 9}, {2, 5, 8}, {0, 5, 10.5}};
  const MixedFit fit = fit_nonlinear_mixed(one_way(), groups_of(alike), std::vector{0.0});
  ASSERT_EQ(fit.outcome, MixedOutcome::singular) << fit.reason;
  EXPECT_EQ(fit.reason, "No spread between groups is seen, and it was set to zero: parameter 1.");
  EXPECT_EQ(fit.random_sd[0], 0);
  // What is left is the mean and spread of all nine.
  double mean = 45.5 / 9, ss = 0;
  for (const auto& row : alike)
    for (const double y : row) ss += std::pow(y - mean, 2);
  EXPECT_NEAR(fit.fixed[0], mean, 1e-9);
  EXPECT_NEAR(fit.residual_sd, std::sqrt(ss / 9), 1e-9);
  for (const GroupEstimate& group : fit.groups) EXPECT_NEAR(group.parameters[0], mean, 1e-9);
}

// An identity: the likelihood of values with equal x is that of their means and what lies behind them.
TEST(NonlinearMixed, MeansWithWhatLiesBehindThemAreTheValues) {
  std::vector<MixedGroup> values = learners();
  for (MixedGroup& group : values)
    for (std::size_t i = 0; i < group.x.size(); ++i) group.x[i] = static_cast<double>(i / 4 * 4) + 2.5;
  MixedModel model;
  model.parameter_count = 3;
  model.value = practice;
  model.random = {0, 2};
  const MixedFit one = fit_nonlinear_mixed(model, values, learner);
  const MixedFit other = fit_nonlinear_mixed(model, means_of(values, 4, true), learner);
  ASSERT_TRUE(one.usable() && other.usable()) << one.reason << other.reason;
  EXPECT_NEAR(one.log_likelihood, other.log_likelihood, 1e-6);
  EXPECT_NEAR(one.residual_sd / other.residual_sd, 1, 1e-6);
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(one.fixed[k], other.fixed[k], 1e-5 * one.fixed_se[k]);
  for (std::size_t k = 0; k < 2; ++k) EXPECT_NEAR(one.random_sd[k] / other.random_sd[k], 1, 1e-5);
}

TEST(NonlinearMixed, SaysWhyItGivesNoNumbers) {
  MixedModel model;
  model.parameter_count = 3;
  model.value = practice;
  model.random = {0};
  MixedModel sum = one_way();
  sum.parameter_count = 2;
  sum.value = [](std::span<const double> p, double, std::span<double> g) {
    g[0] = g[1] = 1;
    return p[0] + p[1];
  };
  const MixedFit one_for_two = fit_nonlinear_mixed(sum, groups_of(table), std::vector<double>{1, 2});
  EXPECT_EQ(one_for_two.outcome, MixedOutcome::flat_direction);
  EXPECT_EQ(one_for_two.reason, "The groups do not determine all parameters.");
  // Everybody flat from the start: what practice removes goes to nothing, and how fast is nowhere.
  std::vector<MixedGroup> groups(3);
  for (std::size_t i = 0; i < 3; ++i)
    for (int n = 1; n <= 40; ++n) {
      groups[i].x.push_back(n);
      groups[i].y.push_back(4 + 0.1 * static_cast<double>(i) + 0.05 * std::sin(7.0 * n + static_cast<double>(i)));
    }
  EXPECT_FALSE(fit_nonlinear_mixed(model, groups, std::vector<double>{4, -30, 3}).usable());
  const MixedFit nowhere = fit_nonlinear_mixed(model, groups, std::vector<double>{std::nan(""), -1, 3});
  EXPECT_EQ(nowhere.outcome, MixedOutcome::not_finite);
  EXPECT_EQ(nowhere.reason, "There is no model at the start.");
  const MixedFit hurried = fit_nonlinear_mixed(model, learners(), learner, {.most_rounds = 1});
  EXPECT_EQ(hurried.outcome, MixedOutcome::not_converged);
  EXPECT_EQ(hurried.reason, "Curve and spread did not come to rest in 1 rounds.");
  EXPECT_EQ(name_of(MixedOutcome::flat_direction), "flat_direction");
}

TEST(NonlinearMixed, OfTwoPlacesToRestTheMoreLikelyWins) {
  MixedModel model;
  model.parameter_count = 3;
  model.value = practice;
  model.random = {0, 2};
  const MixedOptions restricted{.restricted = true};
  const MixedFit one = fit_nonlinear_mixed(model, learners(), learner_starts[0], restricted);
  const MixedFit other = fit_nonlinear_mixed(model, learners(), learner_starts[1], restricted);
  ASSERT_LT(one.log_likelihood, other.log_likelihood - 1);
  EXPECT_EQ(fit_nonlinear_mixed(model, learners(), learner_starts, restricted).fixed, other.fixed);
}

// Invented learners: 12 a station, 15 stations. Expected is the truth they were drawn from.
TEST(NonlinearMixed, RecoversTheTruthOfInventedLearners) {
  const int stations = 15, people = 12, cycles = 600;
  const double ln_c = std::log(52.0), ln_r = std::log(0.5), ln_tau = std::log(70.0), sd_c = 0.05, sd_tau = 0.25,
               sd = 0.08;
  MixedModel model;
  model.parameter_count = 3;
  model.value = practice;
  model.random = {0, 2};
  std::vector<double> c, r, tau, spread_c, spread_tau, residual;
  int inside_fixed = 0, inside_group = 0;
  for (int station = 0; station < stations; ++station) {
    const Draws draws(static_cast<std::uint64_t>(station) + 100);
    std::vector<MixedGroup> groups;
    std::vector<double> true_c;
    for (std::uint64_t i = 0; i < people; ++i) {
      const std::vector<double> p{ln_c + sd_c * draws.normal(1, i, 0), ln_r, ln_tau + sd_tau * draws.normal(1, i, 1)};
      std::vector<double> g(3);
      true_c.push_back(p[0]);
      MixedGroup group;
      for (int n = 1; n <= cycles; ++n) {
        group.x.push_back(n);
        group.y.push_back(practice(p, n, g) + sd * draws.normal(2, i, static_cast<std::uint64_t>(n)));
      }
      groups.push_back(group);
    }
    const MixedFit fit = fit_nonlinear_mixed(model, means_of(groups, 10, true), learner, {.restricted = true});
    ASSERT_TRUE(fit.usable()) << station << " " << fit.reason;
    c.push_back(fit.fixed[0]);
    r.push_back(fit.fixed[1]);
    tau.push_back(fit.fixed[2]);
    spread_c.push_back(fit.random_sd[0]);
    spread_tau.push_back(fit.random_sd[1]);
    residual.push_back(fit.residual_sd);
    inside_fixed += std::abs(fit.fixed[0] - ln_c) < 2.2 * fit.fixed_se[0] ? 1 : 0; // t with 11 df
    for (std::size_t i = 0; i < people; ++i)
      inside_group +=
          std::abs(fit.groups[i].parameters[0] - true_c[i]) < 1.96 * fit.groups[i].standard_errors[0] ? 1 : 0;
  }
  // Means of 15 stations: four times their standard error, from the spread of 12 people (sd/sqrt(12 * 15); for a
  // standard deviation sd/sqrt(2 * 11 * 15)), plus 1 % of bias that blocks and few people may make.
  EXPECT_NEAR(mean_of(c), ln_c, 4 * sd_c / std::sqrt(180));
  EXPECT_NEAR(mean_of(r), ln_r, 0.03);
  EXPECT_NEAR(mean_of(tau), ln_tau, 4 * sd_tau / std::sqrt(180));
  EXPECT_NEAR(mean_of(spread_c), sd_c, 4 * sd_c / std::sqrt(330) + 0.01 * sd_c);
  EXPECT_NEAR(mean_of(spread_tau), sd_tau, 4 * sd_tau / std::sqrt(330) + 0.01 * sd_tau);
  EXPECT_NEAR(mean_of(residual), sd, 0.01 * sd);
  EXPECT_GE(inside_fixed, 11);                                        // 15 at 95 %: fewer than 11 in 1 of 1,600
  EXPECT_NEAR(inside_group / (1.0 * stations * people), 0.95, 0.049); // 180 at 95 %: three standard errors
}

} // namespace
} // namespace docket
