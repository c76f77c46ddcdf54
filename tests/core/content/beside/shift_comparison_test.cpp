#include "core/content/beside/shift_comparison.h"
#include "core/statistics/random.h"
#include "tests/core/made_case.h"
#include "tests/core/statistics/reference_values.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

namespace docket {
namespace {

ShiftComparison compare(const Case& c) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  const StandardTime standard = build_standard_time(c, time.line_cycle);
  return compare_shifts(c, evidence, standard, time, find_settled_operators(c, evidence, standard, time, false));
}

/// Variants of 50, 58 and 70 s; plan 60, 30 and 10 %.
Case three_variants(double limit) {
  Case c = made::one_element_case(limit, 50);
  c.settings.improvement_left = 0.5; // everybody is settled: the rule has tests of its own
  c.standard.push_back(made::element("E2", 8, 0));
  c.standard.push_back(made::element("E3", 20, 0));
  c.standard[1].any_option = {"tank"};
  c.standard[2].any_option = {"wide"};
  c.variants = {made::variant("light", 0.6), made::variant("tank", 0.3, {"tank"}),
                made::variant("wide", 0.1, {"wide"})};
  return c;
}

/// The simulated cycles of tests/reference/r_shift_comparison.
Case cycles_by_r() {
  Case c = three_variants(55.5);
  for (int o = 1; o <= 7; ++o) c.operators.push_back(made::trained("K" + std::to_string(o)));
  std::ifstream file(DOCKET_TESTS_DIR "/reference/r_shift_comparison/cycles.csv");
  std::string line;
  std::getline(file, line);
  std::int64_t row = 2;
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    int op = 0, day = 0, variant = 0;
    double seconds = 0;
    char comma = 0;
    cells >> op >> comma >> day >> comma >> variant >> comma >> seconds;
    LoggedCycle cycle = made::logged(op - 1, made::at(day, op <= 3 ? 6 : 14) + std::chrono::minutes{(row - 2) % 80},
                                     seconds, row, variant - 1);
    cycle.shift = add_log_word(c, op <= 3 ? "early" : "late");
    c.cycle_log.push_back(cycle);
    ++row;
  }
  return c;
}

// Simulated cycles; R's t.test (Welch), two one-sided tests at 2.5 % each, 95 % intervals. R keeps some 12 digits here.
TEST(ShiftComparison, AnswersOfAnotherProgram) {
  const auto by_r = testing::read_reference_values("r_shift_comparison");
  const ShiftComparison found = compare(cycles_by_r());
  ASSERT_EQ(found.shifts.size(), 2U);
  EXPECT_EQ(found.common, (std::vector<std::int32_t>{0, 1})) << "the late shift hardly built the third";
  EXPECT_NEAR(found.common_share, 0.9, 1e-12);
  for (const ShiftFacts& shift : found.shifts) {
    ASSERT_TRUE(shift.level);
    EXPECT_EQ(shift.operators, shift.shift == "early" ? 3 : 4);
    EXPECT_EQ(shift.cycles, 240 * shift.operators);
    EXPECT_EQ(shift.days, 3);
    EXPECT_FALSE(shift.bridged);
    EXPECT_NEAR(shift.level->time.count(), by_r.at(shift.shift + ".level_s"), 1e-9);
    EXPECT_NEAR(shift.level->low->count(), by_r.at(shift.shift + ".low_s"), 1e-9);
    EXPECT_NEAR(shift.level->high->count(), by_r.at(shift.shift + ".high_s"), 1e-9);
  }
  ASSERT_EQ(found.pairs.size(), 1U);
  const ShiftPair& pair = found.pairs[0];
  EXPECT_EQ(pair.outcome, ShiftOutcome::not_shown);
  EXPECT_EQ(pair.spread_first, ShiftSpread::operators);
  ASSERT_TRUE(pair.difference);
  EXPECT_NEAR(pair.difference->ln_ratio, by_r.at("welch.difference"), 1e-12);
  EXPECT_NEAR(pair.difference->u, by_r.at("welch.u"), 1e-12);
  EXPECT_NEAR(pair.difference->df, by_r.at("welch.df"), 1e-9);
  EXPECT_NEAR(pair.difference->low, by_r.at("welch.low"), 1e-11);
  EXPECT_NEAR(pair.difference->high, by_r.at("welch.high"), 1e-11);
  EXPECT_NEAR(pair.difference->p_lower, by_r.at("welch.p_lower"), 1e-11);
  EXPECT_NEAR(pair.difference->p_upper, by_r.at("welch.p_upper"), 1e-11);
}

// The same cycles with one early person left: days and the setting's 4 % between people, JCGM 100 G.4.1, by R.
TEST(ShiftComparison, OneOperatorTakesDaysAndTheSpreadBetweenPeople) {
  const auto by_r = testing::read_reference_values("r_shift_comparison");
  Case c = cycles_by_r();
  std::erase_if(c.cycle_log, [](const LoggedCycle& cycle) { return cycle.op == 1 || cycle.op == 2; });
  const ShiftPair pair = compare(c).pairs.at(0);
  EXPECT_EQ(pair.operators_first, 1);
  EXPECT_EQ(pair.spread_first, ShiftSpread::days);
  ASSERT_TRUE(pair.difference);
  EXPECT_NEAR(pair.difference->ln_ratio, by_r.at("single.difference"), 1e-12);
  EXPECT_NEAR(pair.difference->u, by_r.at("single.u"), 1e-12);
  EXPECT_NEAR(pair.difference->df, by_r.at("single.df"), 1e-6);
  EXPECT_NEAR(pair.difference->p_upper, by_r.at("single.p_upper"), 1e-10);
}

// Non-central t by R's pt, over the whole plan; uniroot stops near 1e-9.
TEST(ShiftComparison, ShareOfPeopleWithinAtTheirOwnPace) {
  const auto by_r = testing::read_reference_values("r_shift_comparison");
  const ShareWithin share = compare(cycles_by_r()).share_within_at_own_pace;
  EXPECT_EQ(share.n, 7);
  EXPECT_NEAR(share.estimate.value(), by_r.at("share.estimate"), 1e-10);
  EXPECT_NEAR(share.low, by_r.at("share.low"), 1e-7);
  EXPECT_NEAR(share.high, by_r.at("share.high"), 1e-7);
}

/// People with exact levels in named shifts: `shifts[s]` holds the levels of shift "S<s>", 100 cycles a day on four days,
/// one variant of 50 s. Made, not measured.
Case steady(const std::vector<std::vector<double>>& shifts) {
  Case c = made::one_element_case(60, 50);
  c.settings.improvement_left = 0.5;
  std::int64_t row = 2;
  for (std::size_t s = 0; s < shifts.size(); ++s)
    for (const double level : shifts[s]) {
      c.operators.push_back(made::trained("K" + std::to_string(c.operators.size() + 1)));
      c.operators.back().shift = "S" + std::to_string(s + 1);
      const auto op = static_cast<std::int32_t>(c.operators.size() - 1);
      for (int d = 0; d < 4; ++d)
        for (int i = 0; i < 100; ++i)
          c.cycle_log.push_back(
              made::logged(op, made::at(d, 6 + i / 60.0), level * (1 + 0.02 * ((i % 4) - 1.5)), row++));
    }
  return c;
}

ShiftPair pair_of(const Case& c) { return compare(c).pairs.at(0); }

// By hand: SD of the three ln levels about 0.01, so u near 0.008 and t(4) = 2.776: reach 0.023, against ln 1.05 = 0.0488.
TEST(ShiftComparison, EveryOutcomeOfTheTwoTests) {
  const ShiftPair near = pair_of(steady({{49.5, 50, 50.5}, {49.6, 50.1, 50.6}}));
  EXPECT_EQ(near.outcome, ShiftOutcome::equivalent);
  EXPECT_GT(near.difference->low, -std::log(1.05));
  EXPECT_LT(near.difference->high, std::log(1.05));
  const ShiftPair far = pair_of(steady({{49.5, 50, 50.5}, {54.5, 55, 55.5}}));
  EXPECT_EQ(far.outcome, ShiftOutcome::different);
  EXPECT_NEAR(far.difference->ln_ratio, std::log(50.0 / 55), 1e-4);
  // 2 % apart for certain: different from 0, and still within 5 %.
  const ShiftPair small = pair_of(steady({{49.9, 50, 50.1}, {50.9, 51, 51.1}}));
  EXPECT_LT(small.difference->high, 0);
  EXPECT_EQ(small.outcome, ShiftOutcome::equivalent);
  // 7 % apart, but people differ: neither.
  EXPECT_EQ(pair_of(steady({{47, 50, 53}, {50, 53.5, 57}})).outcome, ShiftOutcome::not_shown);
  // No difference seen, but people differ: never "equal".
  const ShiftPair unsure = pair_of(steady({{46, 50, 54}, {46, 50, 54}}));
  EXPECT_NEAR(unsure.difference->ln_ratio, 0, 1e-12);
  EXPECT_EQ(unsure.outcome, ShiftOutcome::not_shown);
}

TEST(ShiftComparison, NotComparableAndWhy) {
  Case c = steady({{49, 50, 51}, {49, 50, 51}});
  for (std::size_t o = 3; o < 6; ++o) c.operators[o].trained = YesNo::no;
  EXPECT_EQ(pair_of(c).why, (Reason{"no_settled_operator", "S2"}));
  EXPECT_EQ(pair_of(c).outcome, ShiftOutcome::not_comparable);

  c = steady({{49, 50, 51}, {49, 50, 51}});
  c.variants = {made::variant("light", 0.5), made::variant("heavy", 0.5)};
  for (LoggedCycle& cycle : c.cycle_log) cycle.variant = cycle.op < 3 ? 0 : 1;
  EXPECT_EQ(pair_of(c).why, (Reason{"no_common_variant", ""}));
  EXPECT_EQ(compare(c).shifts.at(0).no_level_why, "no_common_variant");

  c = steady({{49, 50, 51}, {50, 50, 50}});
  EXPECT_EQ(pair_of(c).why, (Reason{"no_spread", "S2"}));

  c = steady({{49, 50, 51}, {49, 50, 51}});
  c.conditions.resize(1);
  c.conditions[0].state = ConditionState::differs;
  for (LoggedCycle& cycle : c.cycle_log)
    if (cycle.op >= 3) cycle.started_at += std::chrono::hours{24 * 10};
  c.conditions[0].from = made::at(9, 0);
  const ShiftComparison touched = compare(c);
  EXPECT_EQ(touched.pairs.at(0).why, (Reason{"all_under_condition", "S2"}));
  EXPECT_TRUE(touched.shifts.at(0).conditions.empty());
  ASSERT_EQ(touched.shifts.at(1).conditions.size(), 1U);
  EXPECT_EQ(touched.shifts.at(1).conditions[0].cycles, 1200);
}

// 60 plain cycles over three people: 20 in the shift, but not of one person.
TEST(ShiftComparison, TwentyCyclesOfAVariantInBothShifts) {
  const auto with_tanks = [](int tanks) {
    Case c = three_variants(60);
    std::int64_t row = 2;
    for (int o = 0; o < 4; ++o) {
      c.operators.push_back(made::trained("K" + std::to_string(o + 1)));
      c.operators.back().shift = o < 2 ? "early" : "late";
      for (int i = 0; i < 400; ++i) {
        const bool tank = o < 2 ? i % 4 == 0 : i % 40 == 0 && i / 40 < tanks;
        c.cycle_log.push_back(made::logged(o, made::at(i / 100, 6 + (i % 100) / 60.0),
                                           (tank ? 60 : 50) * (1 + 0.01 * (i % 3) + 0.002 * o), row++, tank ? 1 : 0));
      }
    }
    return compare(c);
  };
  EXPECT_EQ(with_tanks(9).pairs.at(0).variants, (std::vector<std::int32_t>{0})) << "18 in the late shift";
  EXPECT_NEAR(with_tanks(9).pairs.at(0).share, 0.6, 1e-12);
  const ShiftComparison bridged = with_tanks(10);
  EXPECT_EQ(bridged.pairs.at(0).variants, (std::vector<std::int32_t>{0, 1})) << "20, ten a person";
  EXPECT_FALSE(bridged.shifts.at(0).bridged);
  EXPECT_TRUE(bridged.shifts.at(1).bridged);
}

// A shift that builds more of the heavy variant is not longer for that: both follow the standard's times exactly.
TEST(ShiftComparison, TheMixIsTheSameForBoth) {
  Case c = three_variants(60);
  std::int64_t row = 2;
  for (int o = 0; o < 6; ++o) {
    c.operators.push_back(made::trained("K" + std::to_string(o + 1)));
    c.operators.back().shift = o < 3 ? "early" : "late";
    for (int i = 0; i < 400; ++i) {
      const bool tank = o < 3 ? i % 4 == 0 : i % 4 != 0;
      const double level = 0.99 + 0.01 * (o % 3);
      c.cycle_log.push_back(
          made::logged(o, made::at(i / 100, 6 + (i % 100) / 60.0), level * (tank ? 58 : 50), row++, tank ? 1 : 0));
    }
  }
  const ShiftComparison found = compare(c);
  EXPECT_EQ(found.shifts.at(0).built, (std::vector<std::int64_t>{900, 300, 0}));
  EXPECT_EQ(found.shifts.at(1).built, (std::vector<std::int64_t>{300, 900, 0}));
  EXPECT_NEAR(found.pairs.at(0).difference->ln_ratio, 0, 1e-12);
  EXPECT_EQ(found.pairs.at(0).outcome, ShiftOutcome::equivalent);
  // (0.6 x 50 + 0.3 x 58)/0.9 = 52.667 s, times the geometric mean of 0.99, 1, 1.01.
  EXPECT_NEAR(found.shifts.at(0).level->time.count(), 47.4 / 0.9 * std::cbrt(0.99 * 1.01), 1e-9);
}

TEST(ShiftComparison, WhoWorkedInTwoShiftsCountsInBoth) {
  Case c = steady({{49, 50, 51}, {49.5, 50.5, 51.5}});
  for (LoggedCycle& cycle : c.cycle_log)
    if (cycle.op == 0 && cycle.started_at >= made::at(2, 0)) cycle.shift = add_log_word(c, "S2");
  const ShiftComparison found = compare(c);
  EXPECT_EQ(found.pairs.at(0).in_both, 1);
  EXPECT_EQ(found.shifts.at(0).operators, 3);
  EXPECT_EQ(found.shifts.at(0).cycles, 1000);
  EXPECT_EQ(found.shifts.at(1).operators, 4);
  EXPECT_EQ(found.shifts.at(1).cycles, 1400);
}

TEST(ShiftComparison, TheSamePersonAloneInBothIsComparedByDaysOnly) {
  Case c = steady({{50}});
  for (std::size_t i = 0; i < c.cycle_log.size(); ++i) {
    c.cycle_log[i].cycle *= i / 100 % 2 ? 1.001 : 0.999;
    c.cycle_log[i].shift = add_log_word(c, i < 200 ? "early" : "late");
  }
  const ShiftPair pair = pair_of(c);
  EXPECT_EQ(pair.in_both, 1);
  ASSERT_TRUE(pair.difference);
  // Two days each, 0.2 % apart: SD sqrt(2) x 0.001, over sqrt 2 = 0.001 a shift.
  EXPECT_NEAR(pair.difference->u, std::sqrt(2.0) * 0.001, 1e-6);
  EXPECT_EQ(pair.outcome, ShiftOutcome::equivalent);
}

TEST(ShiftComparison, ShiftsStandInOrderOfNameAndEveryPairIsThere) {
  Case c = steady({{49, 50, 51}, {60, 61, 62}, {40, 41, 42}});
  for (Operator& op : c.operators) op.shift = op.shift == "S1" ? "S10" : op.shift;
  c.operators.push_back(made::trained("M1"));
  c.operators.back().shift = "night";
  const ShiftComparison found = compare(c);
  ASSERT_EQ(found.shifts.size(), 4U);
  EXPECT_EQ(found.shifts[0].shift, "S2");
  EXPECT_EQ(found.shifts[1].shift, "S3");
  EXPECT_EQ(found.shifts[2].shift, "S10");
  EXPECT_EQ(found.shifts[3].shift, "night");
  EXPECT_EQ(found.shifts[3].no_level_why, "no_settled_operator");
  EXPECT_EQ(found.pairs.size(), 6U);
}

TEST(ShiftComparison, CyclesWithoutAShiftAreCounted) {
  Case c = steady({{49, 50, 51}});
  for (Operator& op : c.operators) op.shift.clear();
  const ShiftComparison found = compare(c);
  EXPECT_EQ(found.without_shift, 1200);
  EXPECT_TRUE(found.shifts.empty());
  EXPECT_TRUE(found.pairs.empty());
}

// Schuirmann 1987: a true difference as large as the margin is called equivalent in at most alpha/2 = 2.5 %. Simulated,
// 400 pairs of shifts of four people, 2 % between people; three standard errors of that count are 2.3 %.
TEST(ShiftComparison, FalselyEquivalentAtTheMarginInFewCases) {
  const Draws draws(7);
  int equivalent = 0;
  for (std::uint64_t trial = 0; trial < 400; ++trial) {
    std::vector<double> levels[2];
    for (std::uint64_t s = 0; s < 2; ++s)
      for (std::uint64_t o = 0; o < 4; ++o)
        levels[s].push_back(std::exp(0.02 * draws.normal(s, trial, o) + (s ? std::log(1.05) : 0)));
    Case c = made::one_element_case(60, 1);
    Evidence evidence;
    SettledResult settled;
    std::int32_t op = 0;
    for (int s = 0; s < 2; ++s)
      for (const double level : levels[s]) {
        c.operators.push_back(made::trained("K" + std::to_string(op + 1)));
        OperatorLevel own;
        own.op = op;
        own.status = OperatorStatus::settled;
        own.level.time = Seconds{level};
        settled.per_operator.push_back(own);
        for (int i = 0; i < 20; ++i) {
          PersonCycle cycle;
          cycle.op = op;
          cycle.variant = 0;
          cycle.day = made::day(i / 10);
          cycle.shift = s ? "late" : "early";
          cycle.work = Seconds{level};
          cycle.own_count = 5000 + i;
          evidence.cycles.push_back(cycle);
        }
        ++op;
      }
    const TimeAvailable time = *find_time_available(c.facts).time;
    const StandardTime standard = build_standard_time(c, time.line_cycle);
    if (compare_shifts(c, evidence, standard, time, settled).pairs.at(0).outcome == ShiftOutcome::equivalent)
      ++equivalent;
  }
  EXPECT_LE(equivalent, 400 * 0.025 + 3 * std::sqrt(400 * 0.025 * 0.975));
}

} // namespace
} // namespace docket
