#include "core/content/lines/settled_operators.h"
#include "core/statistics/random.h"
#include "tests/core/content/steady_case.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace docket {
namespace {

using made::steady_case;

SettledResult find(const Case& c, bool with_differing = false) { return made::find_settled(c, with_differing); }

// By hand: mean and SD of ln(level/50) over operators; T2 = 50 exp(mean); pace 5 % on top (JCGM 100 combination).
TEST(SettledOperators, LevelSpreadAndUncertaintyByHand) {
  const std::vector<double> levels{48, 50, 52, 54};
  const SettledResult r = find(steady_case(levels));
  ASSERT_TRUE(r.line);
  double mean = 0, ss = 0;
  for (const double level : levels) mean += std::log(level / 50) / 4;
  for (const double level : levels) ss += std::pow(std::log(level / 50) - mean, 2);
  const double s = std::sqrt(ss / 3);
  EXPECT_EQ(r.line->operators, 4);
  EXPECT_EQ(r.line->cycles, 1600);
  EXPECT_NEAR(r.line->level.time.count(), 50 * std::exp(mean), 1e-9);
  EXPECT_NEAR(r.line->s, s, 1e-9);
  EXPECT_NEAR(r.line->level.se, s / 2, 1e-9);
  EXPECT_EQ(r.line->level.df, 3);
  EXPECT_NEAR(r.line->level.u, std::hypot(s / 2, 0.05), 1e-9);
  EXPECT_NEAR(r.line->level.u_as_agreed, s / 2, 1e-9);
  EXPECT_TRUE(r.line->level.leans.empty());
  EXPECT_FALSE(r.line->level.identical_values);
}

// k of m with the exact lower bound: 1 of 1 is 2.5 % (Clopper & Pearson 1934: (alpha/2)^(1/1)).
TEST(SettledOperators, CountsWhoIsWithinTheLimit) {
  const SettledResult one = find(steady_case({50}));
  EXPECT_EQ(one.line->within_limit, 1);
  EXPECT_NEAR(one.line->within_limit_lower, 0.025, 1e-9);
  const SettledResult three = find(steady_case({50, 55, 62}));
  EXPECT_EQ(three.line->within_limit, 2);
}

TEST(SettledOperators, OneOperatorTakesTheSpreadBetweenPeopleFromTheSettingAndLeans) {
  const SettledResult r = find(steady_case({50}));
  ASSERT_TRUE(r.line);
  EXPECT_NEAR(r.line->level.u, std::hypot(r.line->level.se, 0.04, 0.05), 1e-12);
  EXPECT_EQ(r.line->level.leans.at(0).code, "fewer_than_three_operators");
}

TEST(SettledOperators, TwoOperatorsHaveHalfTheVarianceBetweenPeopleAndTheirOwnRule) {
  const SettledResult r = find(steady_case({49, 51}));
  ASSERT_TRUE(r.line);
  EXPECT_NEAR(r.line->level.u, std::hypot(r.line->level.se, 0.04 / std::sqrt(2.0), 0.05), 1e-12);
  EXPECT_EQ(r.line->level.df, 1);
  EXPECT_EQ(r.line->level.leans.at(0).code, "exactly_two_operators");
}

TEST(SettledOperators, WhoIsUntrainedFewInCyclesOrFallingDoesNotCount) {
  Case c = steady_case({50, 51, 52, 53, 54});
  c.operators[0].trained = YesNo::unknown;
  c.operators[1].prior_cycles = 0; // 400 own cycles: not past 1,000
  for (LoggedCycle& cycle : c.cycle_log)
    if (cycle.op == 2) { // 10 % of improvement in steps over the four days
      const auto d = std::chrono::floor<std::chrono::days>(cycle.started_at) - made::day(0);
      cycle.cycle *= 1.10 - 0.025 * static_cast<double>(d.count());
    }
  const SettledResult r = find(c);
  ASSERT_EQ(r.per_operator.size(), 5U);
  EXPECT_EQ(r.per_operator[0].status, OperatorStatus::untrained);
  EXPECT_EQ(r.per_operator[1].status, OperatorStatus::too_short);
  EXPECT_EQ(r.per_operator[1].n, 0);
  EXPECT_EQ(r.per_operator[2].status, OperatorStatus::falling);
  EXPECT_EQ(r.per_operator[3].status, OperatorStatus::settled);
  EXPECT_EQ(r.line->operators, 2);
}

TEST(SettledOperators, LeastCyclesAndDays) {
  Case few = steady_case({50});
  few.cycle_log.resize(199);
  EXPECT_FALSE(find(few).line);
  Case two_days = steady_case({50});
  two_days.cycle_log.resize(200);
  EXPECT_FALSE(find(two_days).line) << "200 cycles, but on two days";
  Case enough = steady_case({50});
  enough.cycle_log.resize(201);
  EXPECT_TRUE(find(enough).line) << "201 cycles on three days";
}

TEST(SettledOperators, OnlyTheLastTwentyWorkedDaysAreLookedAt) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  std::int64_t row = 2;
  for (int d = 0; d < 30; ++d)
    for (int i = 0; i < 20; ++i)
      c.cycle_log.push_back(
          made::logged(0, made::at(d, 6 + i / 60.0), (d < 10 ? 70 : 50) * (1 + 0.01 * (i % 2)), row++));
  const SettledResult r = find(c);
  EXPECT_EQ(r.per_operator.at(0).n, 400);
  EXPECT_NEAR(r.per_operator.at(0).level.time.count(), 50 * 1.005, 1e-9);
}

TEST(SettledOperators, AVariantWithFewOwnCyclesIsBridgedByTheStandard) {
  Case c = steady_case({50, 51, 52});
  c.variants = {made::variant("base", 0.8), made::variant("heater", 0.2, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.10);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  const SettledResult r = find(c);
  ASSERT_TRUE(r.line);
  // Only base was seen: r_o is the base ratio, for every variant. S = 0.8 x 50 + 0.2 x 60 = 52.
  EXPECT_NEAR(r.per_operator[0].ratio, 1.0, 1e-9);
  EXPECT_NEAR(r.per_operator[0].level.time.count(), 52, 1e-9);
  EXPECT_TRUE(r.per_operator[0].bridged);
  // d_e by hand: E1 carried by all: 1 - 52/50 x 1 = -0.04, its u is 0; E2: 0.2 - 0 = 0.2, u = 1 s: 0.2 x 1 / 52.
  EXPECT_NEAR(r.line->u_bridged, 0.2 / 52, 1e-9);
}

// By hand: heaters take 8 % more than the standard says against base for the three who do both; the fourth does base
// alone, and takes 50 s where the standard says 50.
TEST(SettledOperators, AVariantWithFewOwnCyclesIsBridgedByThoseWhoDoIt) {
  Case c = steady_case({50, 51, 52, 50});
  c.variants = {made::variant("base", 0.8), made::variant("heater", 0.2, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.10);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  for (std::size_t i = 0; i < c.cycle_log.size(); i += 2) {
    LoggedCycle& cycle = c.cycle_log[i];
    if (cycle.op == 3) continue;
    cycle.variant = 1;
    cycle.cycle *= 1.2 * 1.08;
    c.cycle_log[i + 1].cycle = cycle.cycle / (1.2 * 1.08);
  }
  const SettledResult r = find(c);
  ASSERT_TRUE(r.line);
  EXPECT_NEAR(r.line->variant_ratios.factor[1] / r.line->variant_ratios.factor[0], 1.08, 1e-9);
  EXPECT_FALSE(r.per_operator[3].bridged);
  EXPECT_TRUE(r.per_operator[3].bridged_by_others);
  EXPECT_NEAR(r.per_operator[3].level.time.count(), 0.8 * 50 + 0.2 * 60 * 1.08, 1e-6);
  EXPECT_NEAR(r.line->u_bridged, 0, 1e-9) << "the three agree, so nothing is unsure";
  EXPECT_TRUE(std::none_of(r.line->level.leans.begin(), r.line->level.leans.end(),
                           [](const Reason& lean) { return lean.code == "bridged_levels_differ"; }));
}

// By hand. Ratios of the heater against base: 8 %, 8 % + d and 8 % - d in ln for the three who do both. c = 0.08 with
// residual variance of the table d^2 / 2 and variance of c 2 (d^2 / 2) / 3. The fourth leans on c with the heater's part
// of the level, one of four people.
TEST(SettledOperators, WhatBridgingByOthersAddsToTheUncertainty) {
  Case c = steady_case({50, 50, 50, 50});
  c.variants = {made::variant("base", 0.8), made::variant("heater", 0.2, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.10);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  const double d[] = {0, 0.02, -0.02};
  for (std::size_t i = 0; i < c.cycle_log.size(); i += 2) {
    LoggedCycle& cycle = c.cycle_log[i];
    if (cycle.op == 3) continue;
    cycle.variant = 1;
    c.cycle_log[i + 1].cycle = cycle.cycle;
    cycle.cycle *= 1.2 * std::exp(0.08 + d[cycle.op]);
  }
  const SettledResult r = find(c);
  ASSERT_TRUE(r.line);
  const double part = 0.2 * 60 * std::exp(0.08), level = 0.8 * 50 + part;
  EXPECT_NEAR(r.line->u_bridged, part / level / 4 * std::sqrt(0.02 * 0.02 / 2 * 2 / 3), 1e-9);
}

TEST(SettledOperators, AnAllowanceInTheStandardIsPutOnTheMeasuredLevel) {
  Case c = steady_case({50, 51, 52});
  c.facts.allowance = 0.10;
  c.facts.allowance_where = AllowanceWhere::in_standard;
  EXPECT_NEAR(find(c).per_operator[0].level.time.count(), 55, 1e-9);
}

TEST(SettledOperators, MuchHelpWithoutSecondsIsItsOwnReason) {
  Case c = steady_case({50, 51, 52});
  for (std::size_t i = 0; i < 20; ++i) c.cycle_log[i].marks.set(Mark::helped); // 20 of 400: 5 %
  const SettledResult r = find(c);
  ASSERT_EQ(r.line->level.leans.size(), 1U);
  EXPECT_EQ(r.line->level.leans[0].code, "help_without_seconds");
}

TEST(SettledOperators, IdenticalTimesHaveNoSpread) {
  Case c = steady_case({50, 50, 50});
  for (LoggedCycle& cycle : c.cycle_log) cycle.cycle = Seconds{50};
  const SettledResult r = find(c);
  ASSERT_TRUE(r.line);
  EXPECT_TRUE(r.line->level.identical_values);
  EXPECT_EQ(r.line->sd_within, 0);
}

TEST(SettledOperators, OnePersonWhoseTimesAreAllTheSameMakesItLean) {
  Case c = steady_case({50, 51, 52});
  for (LoggedCycle& cycle : c.cycle_log)
    if (cycle.op == 1) cycle.cycle = Seconds{51};
  const SettledResult r = find(c);
  ASSERT_EQ(r.line->level.leans.size(), 1U);
  EXPECT_EQ(r.line->level.leans[0], (Reason{"times_all_alike", "K2"}));
  EXPECT_FALSE(r.line->level.identical_values);
}

// By hand: six days of 60 cycles, by turns 49 and 51 s a cycle, every day shifted as a whole by -1, 0 and 1 s twice over. Day
// means differ with variance (6/5) (4 x 60^2)/360^2 = 0.1333 over the mean; the cycles themselves by 1 + 0.667 of 360.
TEST(SettledOperators, DaysThatDifferLeaveFewerIndependentCycles) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.settings.improvement_left = 0.5;
  std::int64_t row = 2;
  for (int d = 0; d < 6; ++d)
    for (int i = 0; i < 60; ++i)
      c.cycle_log.push_back(
          made::logged(0, made::at(d, 6 + i / 60.0), 50 + (d % 3 - 1) + (i % 2 == 0 ? 1 : -1), row++));
  const OperatorLevel level = find(c).per_operator.at(0);
  const double by_days = 6 / 5.0 * (4 * 60.0 * 60) / (360.0 * 360), variance = 360 * (1 + 2 / 3.0) / 359;
  EXPECT_NEAR(level.n_eff, variance / by_days, 1e-9);
  // Student's t with 5 degrees of freedom, 97.5 %: 2.5706 (tables).
  EXPECT_NEAR(std::log(*level.level.high / level.level.time), 2.5706 * std::sqrt(by_days) / 50, 1e-5);
}

TEST(SettledOperators, SaysWhyThereIsNobody) {
  Case c = made::one_element_case(60, 50);
  EXPECT_EQ(find(c).none_why, "no_cycles");
  c.operators = {made::trained("K1")};
  c.cycle_log = {made::logged(0, made::at(0, 6), 50, 2)};
  EXPECT_EQ(find(c).none_why, "nobody_settled");
  c.cycle_log[0].marks.set(Mark::defect);
  EXPECT_EQ(find(c).none_why, "all_marked");
  c.operators[0].trained = YesNo::no;
  EXPECT_EQ(find(c).none_why, "nobody_trained");
  c.cycle_log[0].is_line_time = true;
  EXPECT_EQ(find(c).none_why, "line_time_only");
}

// Simulated: 8 people, 3 % between them, 7 % within, lag-1 0.3, two variants: the spreads come back.
TEST(SettledOperators, RecoversTheSpreadsOfASimulatedStation) {
  Case c = made::one_element_case(60, 50);
  c.variants = {made::variant("base", 0.7), made::variant("heater", 0.3, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.1);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  const Draws draws(11);
  const double s_v[] = {50, 60};
  std::int64_t row = 2;
  for (std::int32_t o = 0; o < 8; ++o) {
    c.operators.push_back(made::trained("K" + std::to_string(o + 1)));
    const auto stream = static_cast<std::uint64_t>(o + 10);
    const double person = std::exp(0.03 * draws.normal(1, 0, static_cast<std::uint64_t>(o)));
    for (int d = 0; d < 10; ++d) {
      double w = 0;
      for (int i = 0; i < 100; ++i) {
        const auto block = static_cast<std::uint64_t>(d), index = static_cast<std::uint64_t>(i);
        const double z = draws.normal(stream, block, index);
        w = i == 0 ? 0.07 * z : 0.3 * w + std::sqrt(1 - 0.09) * 0.07 * z;
        const std::int32_t v = draws.uniform(stream + 100, block, index) < 0.7 ? 0 : 1;
        c.cycle_log.push_back(made::logged(o, made::at(d, 6 + i / 60.0), s_v[v] * person * std::exp(w), row++, v));
      }
    }
  }
  const SettledResult r = find(c);
  ASSERT_TRUE(r.line);
  EXPECT_GE(r.line->operators, 6); // 10 days are short for the settled rule: some truly settled people fail it
  EXPECT_NEAR(r.line->sd_within, 0.07, 0.002); // 8,000 cycles: 4 standard errors of an SD with lag-1 0.3
  EXPECT_NEAR(r.line->lag1, 0.3, 0.05);
  EXPECT_GT(r.line->sd_between, 0.012); // chi-squared with 7 degrees of freedom: 0.03 x sqrt(1.24/7) at 0.5 %
  EXPECT_LT(r.line->sd_between, 0.055);
  EXPECT_TRUE(r.line->variant_test_p);
}

TEST(SettledOperators, OperatorsAreInOrderOfCodeWhateverTheTable) {
  Case c = steady_case({50, 51, 52});
  c.operators[0].code = "K12";
  c.operators[1].code = "K2";
  c.operators[2].code = "A30";
  std::vector<std::string> codes;
  for (const OperatorLevel& level : find(c).per_operator)
    codes.push_back(c.operators[static_cast<std::size_t>(level.op)].code);
  EXPECT_EQ(codes, (std::vector<std::string>{"A30", "K2", "K12"}));
}

} // namespace
} // namespace docket
