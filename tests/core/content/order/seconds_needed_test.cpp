#include "core/content/order/seconds_needed.h"
#include "core/rules.h"
#include "core/statistics/conformity.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace docket {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
constexpr double step = rules::planning_step_s;

SequenceBasis basis_of(double level, double u, double df) { return {Seconds{level}, u, df, {}, 0, true}; }

// 1.95996 is printed for 0.975 in every table of the normal distribution: 58 - 60 exp(-0.0979982) = 3.6011 s.
TEST(OutOfEveryUnit, MeanByHand) {
  const OutOfEveryUnit out = find_out_of_every_unit(basis_of(58, 0.05, infinite), std::nullopt, Seconds{60}, 0.95);
  EXPECT_NEAR(out.mean.count(), 58 - 60 * std::exp(-1.959964 * 0.05), 1e-5);
  EXPECT_NEAR(out.mean.count(), 3.6010, 1e-3);
  EXPECT_FALSE(out.sequence);
  EXPECT_EQ(out.both, out.mean);
}

// t = 2.571 with 5 degrees of freedom at 0.975 in every table of Student's t; k* = 1.04.
TEST(OutOfEveryUnit, OrderOfUnitsByHand) {
  SequenceMargin k_star;
  k_star.factor = 1.04;
  const OutOfEveryUnit out = find_out_of_every_unit(basis_of(50, 0.04, 5), k_star, Seconds{60}, 0.95);
  ASSERT_TRUE(out.sequence);
  EXPECT_NEAR(out.sequence->count(), 50 * (1 - 1.04 * std::exp(-2.5706 * 0.04)), 1e-3);
  EXPECT_LT(out.mean.count(), 0) << "50 s against 60 s: seconds to spare";
  EXPECT_EQ(out.both, *out.sequence);
}

TEST(OutOfEveryUnit, WithNothingUnsureTheMarginsAreLeft) {
  SequenceMargin k_star;
  k_star.factor = 0.9;
  const OutOfEveryUnit out = find_out_of_every_unit(basis_of(58, 0, infinite), k_star, Seconds{60}, 0.95);
  EXPECT_NEAR(out.mean.count(), -2, 1e-12);
  EXPECT_NEAR(out.sequence->count(), 5.8, 1e-12);
}

// Taken out and computed again: P and P_seq are 1 - alpha/2.
TEST(OutOfEveryUnit, TakenOutTheChanceIsWhatTheDecisionAsksFor) {
  for (const double df : {3.0, 12.5, infinite}) {
    for (const double confidence : {0.8, 0.95}) {
      SequenceMargin k_star;
      k_star.factor = 1.02;
      const OutOfEveryUnit out = find_out_of_every_unit(basis_of(58, 0.05, df), k_star, Seconds{60}, confidence);
      const double asked = 1 - (1 - confidence) / 2;
      EXPECT_NEAR(probability_within(-std::log((58 - out.mean.count()) / 60), 0, 0.05, df), asked, 1e-9);
      const double k_after = 1.02 / (1 - out.sequence->count() / 58);
      EXPECT_NEAR(probability_within(std::log(k_after), 0, 0.05, df), asked, 1e-9);
    }
  }
}

/// Ten units of 63 s, then ten of 55 s, against 60 s; no spread. Late by 3 s more with each of the first ten.
struct OnPaper {
  std::vector<Seconds> times{Seconds{55}, Seconds{63}};
  DrawnUnits units;
  DriftTask task{Seconds{60}, {Seconds{3}, Seconds{9}}, Seconds{0.6}, 0};

  OnPaper() {
    for (int i = 0; i < 20; ++i) {
      units.variant.push_back(i < 10 ? 1 : 0);
      units.factor.push_back(1);
      units.new_run.push_back(i == 0);
    }
  }
};

// The tenth is finished 30 s late: an overload while 30 - D >= 0.6, so D has to pass 29.4.
TEST(LateFinish, OnPaperWithoutOverloads) {
  const OnPaper paper;
  const LateFinishNeeded late = find_late_finish(paper.units, paper.times, paper.task, Seconds{180});
  ASSERT_TRUE(late.needed);
  EXPECT_NEAR(late.needed->count(), 29.4, step);
}

// One overload in twenty tolerated: the ninth, finished 27 s late, must not be one: D has to pass 26.4.
TEST(LateFinish, OnPaperWithOneOverload) {
  OnPaper paper;
  paper.task.tolerated = 0.05;
  EXPECT_NEAR(find_late_finish(paper.units, paper.times, paper.task, Seconds{180}).needed->count(), 26.4, step);
}

TEST(LateFinish, NoneNeededAndNoneThatWouldDo) {
  OnPaper paper;
  EXPECT_EQ(find_late_finish(paper.units, paper.times, paper.task, Seconds{20}).none_why, "not_within_a_line_cycle");
  paper.times = {Seconds{58}, Seconds{63}};
  EXPECT_EQ(find_late_finish(paper.units, paper.times, paper.task, Seconds{180}).none_why, "mean_above_limit");
  paper.times = {Seconds{55}, Seconds{60}};
  EXPECT_EQ(find_late_finish(paper.units, paper.times, paper.task, Seconds{180}).needed, Seconds::zero());
}

// 10 (3 - s) - 9 < 0.6 gives s > 2.04. Nothing out of the light units helps: the heavy ones come first.
TEST(OutOfVariant, OnPaper) {
  const OnPaper paper;
  const OutOfVariant heavy = find_out_of_variant(paper.units, paper.times, 1, paper.task, Seconds{60});
  ASSERT_TRUE(heavy.seconds);
  EXPECT_NEAR(heavy.seconds->count(), 2.04, step);
  EXPECT_FALSE(heavy.at_least_spare);
  EXPECT_FALSE(find_out_of_variant(paper.units, paper.times, 0, paper.task, Seconds{60}).seconds);
}

// With D = 40: heavy units may take a more while 10 (3 + a) < 40.6: 1.06 s; light ones while 30 + 10 (a - 5) < 40.6:
// 6.06 s.
TEST(OutOfVariant, SecondsToSpareAreNegative) {
  OnPaper paper;
  paper.task.zone.late_finish = Seconds{40};
  EXPECT_NEAR(find_out_of_variant(paper.units, paper.times, 1, paper.task, Seconds{60}).seconds->count(), -1.06, step);
  EXPECT_NEAR(find_out_of_variant(paper.units, paper.times, 0, paper.task, Seconds{60}).seconds->count(), -6.06, step);
}

TEST(OutOfVariant, ARareVariantHasAtLeastTheSearchedSecondsToSpare) {
  OnPaper paper;
  paper.times.push_back(Seconds{20});
  paper.task.zone.late_finish = Seconds{40};
  paper.task.tolerated = 0.1;
  paper.units.variant.back() = 2;
  const OutOfVariant rare = find_out_of_variant(paper.units, paper.times, 2, paper.task, Seconds{60});
  EXPECT_TRUE(rare.at_least_spare);
  EXPECT_EQ(rare.seconds, Seconds{-60});
}

// The same numbers as the sequence itself draws: counter-based, keyed by shift and unit.
TEST(DrawnUnits, AreThoseOfTheSequence) {
  const std::vector<Seconds> times{Seconds{50}, Seconds{62}, Seconds{55}};
  const std::vector<double> shares{0.5, 0.2, 0.3};
  const SpreadOfCycles spread{0.06, 0.3};
  const DrawnTimes drawn = draw_shifts(times, shares, spread, 0, 7, 90, 11);
  const DrawnUnits units = draw_planned_units(shares, spread, 7, 90, 11);
  ASSERT_EQ(units.variant.size(), drawn.times.size());
  EXPECT_EQ(units.new_run, drawn.new_run);
  for (std::size_t i = 0; i < drawn.times.size(); ++i)
    ASSERT_NEAR((units.factor[i] * times[static_cast<std::size_t>(units.variant[i])]).count(), drawn.times[i].count(),
                1e-9);

  const std::vector<std::int32_t> order{2, 0, 1, 1};
  const std::vector<bool> starts{true, false, true, false};
  const DrawnTimes given = draw_given_order(times, order, starts, spread, 10, 11);
  const DrawnUnits ordered = draw_ordered_units(order, starts, spread, 10, 11);
  ASSERT_EQ(ordered.variant.size(), 12U);
  for (std::size_t i = 0; i < given.times.size(); ++i)
    ASSERT_NEAR((ordered.factor[i] * times[static_cast<std::size_t>(ordered.variant[i])]).count(),
                given.times[i].count(), 1e-9);
}

// Done and counted again, with spread: within the tolerated rate, and one step less is not.
TEST(SecondsNeeded, DoneAndCountedAgainTheRateIsTheToleratedOne) {
  const std::vector<double> shares{0.6, 0.4};
  const DrawnUnits units = draw_planned_units(shares, {0.05, 0.2}, 40, 450, 3);
  std::vector<Seconds> times{Seconds{54}, Seconds{63}};
  DriftTask task{Seconds{60}, {Seconds{3}, Seconds{6}}, Seconds{0.6}, 0.01};
  ASSERT_GT(overload_rate(units, times, task), 0.01);

  const LateFinishNeeded late = find_late_finish(units, times, task, Seconds{180});
  ASSERT_TRUE(late.needed);
  DriftTask wider = task;
  wider.zone.late_finish = *late.needed;
  EXPECT_LE(overload_rate(units, times, wider), 0.01);
  EXPECT_GT(overload_rate(units, times, wider), 0.0095);
  wider.zone.late_finish = *late.needed - Seconds{step};
  EXPECT_GT(overload_rate(units, times, wider), 0.01);

  const OutOfVariant heavy = find_out_of_variant(units, times, 1, task, Seconds{60});
  ASSERT_TRUE(heavy.seconds);
  times[1] -= *heavy.seconds;
  EXPECT_LE(overload_rate(units, times, task), 0.01);
  times[1] += Seconds{step};
  EXPECT_GT(overload_rate(units, times, task), 0.01);
}

} // namespace
} // namespace docket
