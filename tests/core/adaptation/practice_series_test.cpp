// The practice series on cases small enough to count by hand. All data are invented.
#include "core/adaptation/practice_series.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

/// One learner with 300 cycles before; three cycles a day on three days, 50, 51, 52 ... seconds.
Case nine_cycles() {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1", 300)};
  for (int i = 0; i < 9; ++i)
    c.cycle_log.push_back(made::logged(0, made::at(i / 3, 6 + (i % 3) * 0.02), 50 + i, 2 + i));
  return c;
}

PracticeSeries series_of(const Case& c, std::vector<double> content = {1}, double factor = 1) {
  return build_practice_series(c, gather_evidence(c, Seconds{60}), 0, content, factor);
}

std::vector<double> counts(const std::vector<PracticePoint>& points) {
  std::vector<double> n;
  for (const PracticePoint& point : points) n.push_back(point.n);
  return n;
}

TEST(PracticeSeries, TheOwnCountGoesOnAfterWhatCameBefore) {
  const PracticeSeries s = series_of(nine_cycles());
  EXPECT_EQ(s.op, 0);
  EXPECT_EQ(s.cycles, 9);
  EXPECT_EQ(s.first_cycle, 301);
  EXPECT_EQ(s.last_cycle, 309);
  EXPECT_EQ(s.before, 300);
  EXPECT_FALSE(s.first_cycle_estimated);
  EXPECT_EQ(s.days, 3);
  EXPECT_EQ(counts(s.plain), (std::vector<double>{301, 302, 303, 304, 305, 306, 307, 308, 309}));
  EXPECT_DOUBLE_EQ(s.plain[4].seconds, 54);
  EXPECT_EQ(s.plain[4].day, made::day(1));
}

TEST(PracticeSeries, WhatCameBeforeIsEstimatedUnlessItIsGiven) {
  Case c = nine_cycles();
  c.operators[0].prior_cycles.reset();
  EXPECT_TRUE(series_of(c).first_cycle_estimated);
  EXPECT_EQ(series_of(c).first_cycle, 1);
  c.operators[0].shifts_before = 2;
  c.facts.cycles_per_shift = 400;
  EXPECT_TRUE(series_of(c).first_cycle_estimated);
  EXPECT_EQ(series_of(c).first_cycle, 801);
  c.operators[0].prior_cycles = 0; // known to be the first
  EXPECT_FALSE(series_of(c).first_cycle_estimated);
  EXPECT_EQ(series_of(c).first_cycle, 1);
}

// The table of marks: foreign, defect and skipped rows are practice but no time; starved, blocked and instrument neither.
TEST(PracticeSeries, MarksAsTheTableSays) {
  for (const MarkUse& use : mark_uses) {
    Case c = nine_cycles();
    c.cycle_log[4].marks.set(use.mark);
    const PracticeSeries s = series_of(c);
    const bool bound = use.in_adaptation == UseOfTime::lower_bound;
    const bool counts = use.mark != Mark::starved && use.mark != Mark::blocked && use.mark != Mark::instrument;
    EXPECT_EQ(s.cycles, 9) << use.name;
    EXPECT_EQ(s.plain.size(), 8U) << use.name;
    EXPECT_EQ(s.lower_bounds, bound ? 1 : 0) << use.name;
    EXPECT_EQ(s.with_bounds.size(), bound ? 9U : 8U) << use.name;
    EXPECT_EQ(s.bounds.size(), bound ? 1U : 0U) << use.name;
    EXPECT_EQ(s.with_helped_bounds.size(), bound ? 1U : 0U) << use.name << ": no seconds of help are given";
    EXPECT_EQ(s.last_cycle, counts ? 309 : 308) << use.name;
    EXPECT_EQ(s.plain[4].n, counts ? 306 : 305) << use.name; // the cycle after the marked one
  }
}

TEST(PracticeSeries, AHelpedCycleIsAlsoTakenWithTheSecondsOfHelp) {
  Case c = nine_cycles();
  c.cycle_log[4].marks.set(Mark::helped);
  c.cycle_log[4].helped = Seconds{7};
  c.cycle_log[4].helped_given = true;
  const PracticeSeries s = series_of(c);
  EXPECT_DOUBLE_EQ(s.with_bounds[4].seconds, 54);
  EXPECT_DOUBLE_EQ(s.with_helped[4].seconds, 61);
  EXPECT_EQ(counts(s.with_helped), counts(s.with_bounds));
  // A second mark that takes the time away wins.
  c.cycle_log[4].marks.set(Mark::defect);
  EXPECT_EQ(series_of(c).lower_bounds, 0);
  EXPECT_EQ(series_of(c).with_helped.size(), 8U);
}

TEST(PracticeSeries, TheMixIsTakenOut) {
  Case c = nine_cycles();
  c.variants = {made::variant("light", 0.5), made::variant("heavy", 0.5)};
  for (std::size_t i = 0; i < 9; ++i) c.cycle_log[i].variant = static_cast<std::int32_t>(i % 2);
  const PracticeSeries s = series_of(c, {0.8, 1.2}, 1.1);
  EXPECT_DOUBLE_EQ(s.plain[0].seconds, 1.1 * 50 / 0.8);
  EXPECT_DOUBLE_EQ(s.plain[1].seconds, 1.1 * 51 / 1.2);
}

TEST(PracticeSeries, WaitingIsNoPartOfIt) {
  Case c = nine_cycles();
  c.cycle_log[2].wait = Seconds{5};
  EXPECT_DOUBLE_EQ(series_of(c).plain[2].seconds, 47);
}

TEST(PracticeSeries, CyclesUnderADifferingConditionAreOutAndCounted) {
  Case c = nine_cycles();
  Condition light;
  light.check = "light";
  light.state = ConditionState::differs;
  light.from = made::at(1, 0);
  light.to = made::at(1, 23);
  c.conditions = {light};
  c.cycle_log[4].marks.set(Mark::helped);
  const PracticeSeries s = series_of(c);
  EXPECT_EQ(s.under_condition, 3);
  EXPECT_EQ(s.lower_bounds, 0);
  EXPECT_EQ(counts(s.plain), (std::vector<double>{301, 302, 303, 307, 308, 309})); // practice all the same
  EXPECT_EQ(s.days, 2);
}

TEST(PracticeSeries, OnlyTheOwnCycles) {
  Case c = nine_cycles();
  c.operators.push_back(made::trained("K2", 0));
  for (std::size_t i = 0; i < 4; ++i) c.cycle_log[i].op = 1;
  const PracticeSeries s = series_of(c);
  EXPECT_EQ(s.cycles, 5);
  EXPECT_EQ(s.first_cycle, 301);
  const PracticeSeries none = [&] {
    Case empty = c;
    empty.cycle_log.clear();
    return series_of(empty);
  }();
  EXPECT_EQ(none.cycles, 0);
  EXPECT_EQ(none.first_cycle, 0);
  EXPECT_EQ(none.before, 0);
}

TEST(PracticeSeries, AnotherCountBefore) {
  const PracticeSeries s = with_count_before(series_of(nine_cycles()), 150);
  EXPECT_EQ(s.before, 150);
  EXPECT_EQ(s.first_cycle, 151);
  EXPECT_EQ(s.last_cycle, 159);
  EXPECT_EQ(counts(s.plain), (std::vector<double>{151, 152, 153, 154, 155, 156, 157, 158, 159}));
  EXPECT_EQ(counts(s.with_helped), counts(s.plain));
  EXPECT_EQ(counts(s.with_bounds), counts(s.plain));
  EXPECT_DOUBLE_EQ(s.plain[4].seconds, 54);
}

} // namespace
} // namespace docket
