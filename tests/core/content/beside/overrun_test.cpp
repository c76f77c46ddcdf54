#include "core/content/beside/overrun.h"
#include "core/statistics/distributions.h"
#include "tests/core/made_case.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

/// One settled operator; `beyond` of 263 cycles over four days last 56 s, the others 50 s; the limit is 55 s. Spread
/// evenly, so that no cycle resembles the one before it.
Case one_person(int beyond, int of) {
  Case c = made::one_element_case(55, 50);
  c.operators = {made::trained("K1")};
  c.settings.improvement_left = 0.5;
  for (int i = 0; i < of; ++i) {
    const bool over = (i + 1) * beyond / of > i * beyond / of;
    c.cycle_log.push_back(made::logged(0, made::at(i * 4 / of, 6 + i / 60.0), over ? 56 : 50, i + 2));
  }
  return c;
}

struct Found {
  SettledResult settled;
  Overrun overrun;
};

Found find(const Case& c) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  Found found;
  found.settled = find_settled_operators(c, evidence, build_standard_time(c, time.line_cycle), time, false);
  found.overrun = find_overrun(c, evidence, time, found.settled);
  return found;
}

// Newcombe 1998, table I, method 5: 81/263 0.2527 to 0.3676; 15/148 0.0578 to 0.1617; 1/29 0.0009 to 0.1776; and to all
// digits R's binom.test and qbeta (tests/reference/r_shift_comparison).
TEST(Overrun, IntervalOfAShareAsPublished) {
  const auto by_r = testing::read_reference_values("r_shift_comparison");
  const struct {
    double k, n, low, high;
    std::string key;
  } published[] = {
      {81, 263, 0.2527, 0.3676, "81.263"}, {15, 148, 0.0578, 0.1617, "15.148"}, {1, 29, 0.0009, 0.1776, "1.29"}};
  for (const auto& one : published) {
    const Bounds ends = share_interval(one.k, one.n, 0.95);
    EXPECT_NEAR(ends.low, one.low, 0.00005) << one.key;
    EXPECT_NEAR(ends.high, one.high, 0.00005) << one.key;
    EXPECT_NEAR(ends.low, by_r.at("share." + one.key + ".low"), 1e-10);
    EXPECT_NEAR(ends.high, by_r.at("share." + one.key + ".high"), 1e-10);
  }
  const Bounds half = share_interval(40.5, 131.5, 0.95);
  EXPECT_NEAR(half.low, by_r.at("share.half.low"), 1e-10);
  EXPECT_NEAR(half.high, by_r.at("share.half.high"), 1e-10);
}

// Clopper & Pearson 1934 in closed form: none of n: 1 - (alpha/2)^(1/n); all of n: (alpha/2)^(1/n).
TEST(Overrun, NoneAndAllInClosedForm) {
  EXPECT_EQ(share_interval(0, 20, 0.95).low, 0);
  EXPECT_NEAR(share_interval(0, 20, 0.95).high, 1 - std::pow(0.025, 1.0 / 20), 1e-12);
  EXPECT_NEAR(share_interval(20, 20, 0.95).low, std::pow(0.025, 1.0 / 20), 1e-12);
  EXPECT_EQ(share_interval(20, 20, 0.95).high, 1);
}

TEST(Overrun, CountsPlainCyclesOfSettledOperators) {
  const Overrun overrun = find(one_person(81, 263)).overrun;
  ASSERT_TRUE(overrun.plain);
  EXPECT_EQ(overrun.operators, 1);
  EXPECT_EQ(overrun.plain->n, 263);
  EXPECT_EQ(overrun.plain->k, 81);
  EXPECT_LT(overrun.plain->lag1, 0);
  EXPECT_EQ(overrun.plain->n_effective, 263) << "never worth more than there are";
  EXPECT_NEAR(overrun.plain->low, 0.2527, 0.00005) << "Newcombe 1998";
  EXPECT_NEAR(overrun.plain->high, 0.3676, 0.00005);
  ASSERT_EQ(overrun.by_variant.size(), 1U);
  EXPECT_EQ(overrun.by_variant[0].cycles.k, 81);
  EXPECT_FALSE(overrun.with_help);
  EXPECT_FALSE(overrun.everybody_with_help) << "it would repeat the first row";
}

// By hand: of three people one has every tenth of 600 cycles beyond the limit, one every fifth of 600, one all of 240: 420
// of 1,440 are 29 %; the mean of the people's own shares is (0.1 + 0.2 + 1)/3 = 43 %.
TEST(Overrun, APersonWithFewCyclesWeighsAsMuchAsAnother) {
  Case c = made::one_element_case(55, 50);
  c.settings.improvement_left = 0.5;
  std::int64_t row = 2;
  const auto add = [&](int cycles, int every) {
    const auto op = static_cast<std::int32_t>(c.operators.size());
    c.operators.push_back(made::trained("K" + std::to_string(op + 1)));
    for (int i = 0; i < cycles; ++i)
      c.cycle_log.push_back(made::logged(op, made::at(i * 4 / cycles, 6 + i / 100.0), i % every == 0 ? 56 : 50, row++));
  };
  add(600, 10);
  add(600, 5);
  EXPECT_FALSE(find(c).overrun.by_person) << "of two people one could be read from the other";
  add(240, 1);
  const Overrun overrun = find(c).overrun;
  ASSERT_TRUE(overrun.by_person);
  EXPECT_EQ(overrun.plain->k, 60 + 120 + 240);
  EXPECT_NEAR(overrun.by_person->mean, (0.1 + 0.2 + 1) / 3, 1e-12);
  EXPECT_NEAR(overrun.by_person->least, 0.1, 1e-12);
  EXPECT_NEAR(overrun.by_person->most, 1, 1e-12);
}

TEST(Overrun, ACycleAsLongAsTheLimitIsWithin) {
  Case c = one_person(0, 240);
  for (std::size_t i = 0; i < 240; i += 4) {
    c.cycle_log[i].cycle = Seconds{55.1};
    c.cycle_log[i + 1].cycle = Seconds{55};
  }
  EXPECT_EQ(find(c).overrun.plain->k, 60);
}

// Bayley & Hammersley 1946: n (1 - rho)/(1 + rho). Runs of ten over, thirty within: one change of state in 20 cycles.
TEST(Overrun, CyclesThatResembleTheOneBeforeCountForFewer) {
  Case c = one_person(0, 400);
  for (std::size_t i = 0; i < 400; ++i)
    if (i % 40 >= 15 && i % 40 < 25) c.cycle_log[i].cycle = Seconds{56};
  const CyclesBeyond cycles = *find(c).overrun.plain;
  EXPECT_EQ(cycles.k, 100);
  // Pairs in a row within a day, of 396: 88 of two beyond (the third and the eighth run are cut by a change of day), 20 of
  // one and one, 288 of two within. Deviations 0.75 and -0.25; correction (1 + 3 r)/400: Marriott & Pope 1954.
  const double raw = (88 * 0.5625 - 20 * 0.1875 + 288 * 0.0625) / 396 * 399 / (400 * 0.1875);
  EXPECT_NEAR(cycles.lag1, raw + (1 + 3 * raw) / 400, 1e-9);
  EXPECT_NEAR(cycles.n_effective, 400 * (1 - cycles.lag1) / (1 + cycles.lag1), 1e-9);
  const Bounds as_if_independent = clopper_pearson(100, 400, 0.95);
  EXPECT_LT(cycles.low, as_if_independent.low);
  EXPECT_GT(cycles.high, as_if_independent.high);
}

TEST(Overrun, HelpedCyclesCountAtLeastAsTimeAndHelp) {
  Case c = one_person(0, 240);
  for (std::size_t i = 0; i < 24; ++i) {
    LoggedCycle& cycle = c.cycle_log[10 * i];
    cycle.marks.set(Mark::helped);
    cycle.helped = Seconds{i % 2 ? 6.0 : 2.0};
    cycle.helped_given = true;
  }
  c.cycle_log[5].marks.set(Mark::cut_short);
  c.cycle_log[6].marks.set(Mark::defect);
  // Fifty cycles of others beyond the limit: by four people, one of whom could be read from the difference, or by five.
  for (int o = 1; o <= 5; ++o) c.operators.push_back(made::trained("K" + std::to_string(o + 1), 0));
  for (int i = 0; i < 50; ++i) c.cycle_log.push_back(made::logged(1 + i % 4, made::at(2, 15 + i / 60.0), 60, 1000 + i));
  EXPECT_FALSE(find(c).overrun.everybody_with_help);
  EXPECT_EQ(find(c).overrun.no_everybody_why, "few_others");
  for (std::size_t i = 0; i < 10; ++i) c.cycle_log[c.cycle_log.size() - 1 - i].op = 5;
  const Overrun overrun = find(c).overrun;
  EXPECT_EQ(overrun.plain->n, 214);
  EXPECT_EQ(overrun.plain->k, 0);
  EXPECT_EQ(overrun.with_help->n, 239) << "a defect is no time of anybody";
  EXPECT_EQ(overrun.with_help->k, 12) << "50 + 6 s is beyond 55 s, 50 + 2 s is not";
  EXPECT_EQ(overrun.with_help->high, 1) << "they may have taken longer than they read";
  EXPECT_EQ(overrun.everybody_with_help->n, 289);
  EXPECT_EQ(overrun.everybody_with_help->k, 62);
}

TEST(Overrun, AllowanceInTheStandardGoesOnMeasuredTimesAndTouchedCyclesStayOut) {
  Case c = one_person(0, 300);
  c.facts.allowance = 0.12; // 50 s x 1.12 = 56 s
  c.facts.allowance_where = AllowanceWhere::in_standard;
  EXPECT_EQ(find(c).overrun.plain->k, 300);
  Condition differs;
  differs.state = ConditionState::differs;
  differs.from = made::at(3, 0);
  c.conditions = {differs};
  EXPECT_EQ(find(c).overrun.plain->n, 225);
}

TEST(Overrun, NobodySettledLeavesTheRowOfEverybody) {
  Case c = one_person(81, 263);
  c.operators[0].trained = YesNo::no;
  const Overrun overrun = find(c).overrun;
  EXPECT_FALSE(overrun.plain);
  EXPECT_TRUE(overrun.by_variant.empty());
  EXPECT_EQ(overrun.everybody_with_help->k, 81);
  const Overrun nothing = find(made::one_element_case(55, 50)).overrun;
  EXPECT_FALSE(nothing.everybody_with_help);
}

// Closed form: one person says nothing of others; equal people are all within or none.
TEST(ShareWithin, TooFewOrEqualPeople) {
  SettledResult settled;
  EXPECT_FALSE(find_share_within(settled, Seconds{55}, 0.95).estimate);
  OperatorLevel level;
  level.status = OperatorStatus::settled;
  level.level.time = Seconds{50};
  settled.per_operator = {level};
  const ShareWithin one = find_share_within(settled, Seconds{55}, 0.95);
  EXPECT_EQ(one.n, 1);
  EXPECT_FALSE(one.estimate);
  EXPECT_EQ(one.low, 0);
  EXPECT_EQ(one.high, 1);
  settled.per_operator = {level, level, level};
  settled.per_operator[2].status = OperatorStatus::falling;
  const ShareWithin equal = find_share_within(settled, Seconds{55}, 0.95);
  EXPECT_EQ(equal.n, 2);
  EXPECT_EQ(equal.estimate, 1);
  EXPECT_EQ(equal.low, 0);
  EXPECT_EQ(find_share_within(settled, Seconds{49}, 0.95).estimate, 0);
}

} // namespace
} // namespace docket
