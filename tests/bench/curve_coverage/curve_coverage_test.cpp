// Tests of the bench itself: its truth against closed forms, its learners against what they are said to be, its counts.
#include "tests/bench/curve_coverage/curve_results.h"
#include "tests/bench/curve_coverage/learner.h"
#include "tests/bench/curve_coverage/learner_grid.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace docket::bench {
namespace {

constexpr LearnerKind falling[] = {LearnerKind::power,
                                   LearnerKind::power_plateau,
                                   LearnerKind::exponential_plateau,
                                   LearnerKind::hyperbolic_plateau,
                                   LearnerKind::two_phase,
                                   LearnerKind::power_then_step};

TrueCurve curve_of(LearnerKind kind, double floor, double excess, double constant, double early = 0, double width = 1) {
  return {kind, floor, excess, constant, early, width};
}

// Closed forms, worked by hand; e^-1 = 0.36787944, e^-2 = 0.13533528 (printed tables).
TEST(TrueCurve, LevelsAreTheClosedForms) {
  EXPECT_DOUBLE_EQ(curve_of(LearnerKind::constant, 55, 0, 1).level(7), 55);
  EXPECT_DOUBLE_EQ(curve_of(LearnerKind::power, 0, 100, 0.5).level(400), 5);
  EXPECT_DOUBLE_EQ(curve_of(LearnerKind::power_plateau, 50, 100, 0.5).level(100), 60);
  EXPECT_NEAR(curve_of(LearnerKind::exponential_plateau, 50, 20, 300).level(300), 57.3575888, 1e-7);
  EXPECT_DOUBLE_EQ(curve_of(LearnerKind::hyperbolic_plateau, 50, 20, 80).level(80), 60);
  // Early phase ten times as quick: at n = tau / 10 it is at e^-1, the slow one at e^-0.1 = 0.90483742.
  EXPECT_NEAR(curve_of(LearnerKind::two_phase, 50, 10, 500, 20).level(50), 50 + 9.0483742 + 20 * 0.36787944, 1e-6);
  // In the middle of the step half of it is done; 4 / sqrt(400) = 0.2 of the early power.
  EXPECT_NEAR(curve_of(LearnerKind::power_then_step, 50, 10, 400, 4, 60).level(400), 55.2, 1e-12);
}

TEST(TrueCurve, TheSettledLevelIsTheOneAtTheHorizon) {
  // 600 seen, 100 a shift: H = 600. Exponential, tau 300: 50 + 20 e^-4, e^-4 = 0.01831564.
  LearnerShape shape;
  shape.cycles = 600;
  const LearnerTruth truth = find_truth(curve_of(LearnerKind::exponential_plateau, 50, 20, 300), shape);
  EXPECT_NEAR(truth.today, 52.7067057, 1e-6);
  EXPECT_NEAR(truth.settled, 50.3663128, 1e-6);
  EXPECT_NEAR(truth.left, 1 - 50.3663128 / 52.7067057, 1e-8);
}

TEST(TrueCurve, TheHorizonIsFiveShiftsOrWhatWasSeen) {
  LearnerShape shape;
  shape.cycles = 400;
  EXPECT_EQ(true_horizon(shape), 500);
  shape.cycles = 5000;
  EXPECT_EQ(true_horizon(shape), 5000);
  shape.cycles = 50;
  EXPECT_EQ(true_horizon(shape), 150);
}

TEST(TrueCurve, CyclesToTheLimitAreTheInverse) {
  LearnerShape shape; // 400 seen, limit 60 s
  // 55 + 30 e^(-n/300) = 60 at n = 300 ln 6 = 537.5278 (ln 6 = 1.79175947)
  const auto to_limit = [&](const TrueCurve& curve) { return find_truth(curve, shape).cycles_to_limit; };
  EXPECT_NEAR(*to_limit(curve_of(LearnerKind::exponential_plateau, 55, 30, 300)), 137.527841, 1e-5);
  // 1500 n^-0.5 = 60 at n = 625
  EXPECT_NEAR(*to_limit(curve_of(LearnerKind::power, 0, 1500, 0.5)), 225, 1e-6);
  EXPECT_EQ(to_limit(curve_of(LearnerKind::constant, 59, 0, 1)), 0.0);
  EXPECT_FALSE(to_limit(curve_of(LearnerKind::constant, 61, 0, 1)));
  // 2,400 n^-0.5 = 60 at n = 1600, 3 times the cycles seen after the last: just reached; a little slower: never.
  EXPECT_NEAR(*to_limit(curve_of(LearnerKind::power, 0, 2399.999, 0.5)), 1200, 1e-2);
  EXPECT_FALSE(to_limit(curve_of(LearnerKind::power, 0, 2400.001, 0.5)));
}

TEST(TrueCurve, GAndTheLimitAreWhereTheyAreAskedFor) {
  for (const LearnerKind kind : falling)
    for (const Pace pace : {Pace::quick, Pace::middle, Pace::slow})
      for (const double left : {0.01, 0.03, 0.10}) {
        LearnerShape shape;
        shape.kind = kind;
        shape.pace = pace;
        shape.left = left;
        const LearnerTruth truth = find_truth(make_true_curve(shape), shape);
        EXPECT_NEAR(truth.left, left, 1e-12) << name_of(kind);
        EXPECT_NEAR(truth.settled, 66, 1e-9) << name_of(kind);
        EXPECT_GT(truth.cycles_to_limit.value_or(501), 500) << name_of(kind); // not by the horizon; later perhaps
        shape.limit = LimitPlace::above_settled;
        EXPECT_NEAR(find_truth(make_true_curve(shape), shape).settled, 60 / 1.1, 1e-9) << name_of(kind);
        shape.limit = LimitPlace::between; // half of H = 500 cycles to go, by its definition
        EXPECT_NEAR(*find_truth(make_true_curve(shape), shape).cycles_to_limit, 250, 1e-6) << name_of(kind);
      }
}

TEST(TrueCurve, EveryPointOfTheGridFallsAndKeepsItsG) {
  for (const std::uint64_t seed : {1U, 2U, 3U})
    for (const LearnerPoint& point : make_learner_grid(seed)) {
      const TrueCurve curve = make_true_curve(point.shape);
      const auto first = static_cast<double>(point.shape.before + 1);
      const double last = first - 1 + static_cast<double>(point.shape.cycles);
      EXPECT_NEAR(find_truth(curve, point.shape).left, point.shape.left, 1e-9) << point.name;
      EXPECT_GE(curve.level(first), curve.level(last)) << point.name;
      EXPECT_LT(curve.level(last), 2.5 * curve.level(last + true_horizon(point.shape))) << point.name;
      EXPECT_TRUE(curve.excess >= 0 && curve.early >= 0) << point.name;
    }
}

TEST(Learner, AveragesTheLevelWithTheSpreadAsked) {
  LearnerShape shape;
  shape.cycles = 5000;
  shape.sigma = 0.2;
  shape.lag1 = 0;
  const TrueCurve curve = make_true_curve(shape);
  const Case c = simulate_learner(shape, curve, 1, 1, 1);
  ASSERT_EQ(c.cycle_log.size(), 5000U);
  Moments ratio, ln;
  for (std::size_t i = 0; i < c.cycle_log.size(); ++i) {
    const double r = c.cycle_log[i].cycle.count() / curve.level(static_cast<double>(i + 1));
    ratio.add(r);
    ln.add(std::log(r));
  }
  // Lognormal of mean 1: mean of ln is -sigma^2/2, SD sigma. Four standard errors.
  EXPECT_NEAR(ratio.mean(), 1, 4 * 0.2 / std::sqrt(5000));
  EXPECT_NEAR(ln.mean(), -0.02, 4 * 0.2 / std::sqrt(5000));
  EXPECT_NEAR(ln.sd(), 0.2, 4 * 0.2 / std::sqrt(10000));
}

TEST(Learner, HelpLeavesTheTimeOfTheWholeCycle) {
  LearnerShape shape;
  shape.cycles = 2000;
  const TrueCurve curve = make_true_curve(shape);
  const Case without = simulate_learner(shape, curve, 1, 1, 1);
  shape.helped = 0.3;
  for (const HelpComes help : {HelpComes::to_long_cycles, HelpComes::when_late}) {
    shape.help = help;
    const Case with = simulate_learner(shape, curve, 1, 1, 1);
    double helped = 0;
    for (std::size_t i = 0; i < with.cycle_log.size(); ++i) {
      const LoggedCycle& cycle = with.cycle_log[i];
      EXPECT_NEAR((cycle.cycle + cycle.helped).count(), without.cycle_log[i].cycle.count(), 1e-9);
      EXPECT_EQ(cycle.marks.has(Mark::helped), cycle.helped.count() > 0);
      helped += cycle.marks.has(Mark::helped) ? 1 : 0;
    }
    EXPECT_NEAR(helped / 2000, 0.3, 4 * 1.23 * std::sqrt(0.3 * 0.7 / 2000)); // 1.23: lag-1 of 0.2
  }
}

TEST(Learner, AShortRecordIsSpreadOverFiveDays) {
  LearnerShape shape;
  shape.cycles = 50;
  std::set<Date> days;
  for (const LoggedCycle& cycle : simulate_learner(shape, make_true_curve(shape), 1, 1, 1).cycle_log)
    days.insert(std::chrono::floor<std::chrono::days>(cycle.started_at));
  EXPECT_EQ(days.size(), 5U);
}

TEST(CurveTally, NeverIsLaterThanAnyCount) {
  const std::optional<double> never;
  const auto interval = [](std::optional<double> low, std::optional<double> high) {
    CyclesToGo to_go;
    to_go.low = low;
    to_go.high = high;
    return to_go;
  };
  const auto covers = [&](std::optional<double> truth, const CyclesToGo& to_go) {
    return !lies_below(truth, to_go) && !lies_above(truth, to_go);
  };
  EXPECT_TRUE(covers(50, interval(0, 100)));
  EXPECT_TRUE(covers(50, interval(0, never)));
  EXPECT_TRUE(covers(never, interval(70, never)));
  EXPECT_TRUE(covers(never, interval(never, never)));
  EXPECT_TRUE(lies_above(never, interval(0, 100)));
  EXPECT_TRUE(lies_above(101, interval(0, 100)));
  EXPECT_TRUE(lies_below(50, interval(70, never)));
  EXPECT_TRUE(lies_below(50, interval(never, never)));
}

Adaptation said(AdaptationWord word, int row) {
  Adaptation a;
  a.word = word;
  a.decision_row = row;
  return a;
}

CurveTally tally_at(double left, double settled) {
  CurveTally tally;
  tally.truth.left = left;
  tally.truth.settled = settled;
  add(tally, said(AdaptationWord::at_level, 7));
  add(tally, said(AdaptationWord::settled_above, 8));
  add(tally, said(AdaptationWord::still_learning, 5));
  add(tally, said(AdaptationWord::not_shown, 10));
  return tally;
}

TEST(CurveTally, WrongWordsAreThoseOfTheTruth) {
  const CurveTally improving = tally_at(0.04, 66);
  EXPECT_EQ(improving.wrong_at_level + improving.wrong_settled_above, 2);
  EXPECT_EQ(improving.wrong_learning, 0);
  EXPECT_EQ(improving.wrong_side, 1); // AT LEVEL: 66 s are above 60 s
  const CurveTally settled = tally_at(0.02, 55);
  EXPECT_EQ(settled.wrong_at_level + settled.wrong_settled_above, 0);
  EXPECT_EQ(settled.wrong_learning, 1);
  EXPECT_EQ(settled.wrong_side, 1); // SETTLED ABOVE: 55 s are within
  const CurveTally boundary = tally_at(0.03, 66);
  EXPECT_EQ(boundary.wrong_at_level + boundary.wrong_settled_above + boundary.wrong_learning, 3);
  EXPECT_EQ(boundary.not_shown_by_row[10], 1);
  EXPECT_EQ(misses_of(boundary), ""); // one of four runs is no more than chance: 2.5 % + 3 x 7.8 %
  CurveTally again = boundary;
  add(again, said(AdaptationWord::settled_above, 8));
  EXPECT_EQ(misses_of(again), "SETTLED_ABOVE"); // two of five: 2.5 % + 3 x 7.0 %
}

TEST(CurveTally, IntervalsAreCountedWhereTheyArePrinted) {
  Adaptation a = said(AdaptationWord::not_shown, 10);
  AdaptationEstimates e;
  e.horizon_cycles = 500;
  e.settled = {Seconds{65}, Seconds{62}, Seconds{68}};
  e.today = {Seconds{70}, Seconds{69}, std::nullopt};
  e.improvement = 0.02;
  e.improvement_low = 0;
  e.improvement_high = 0.025;
  e.to_limit = {std::nullopt, 300.0, std::nullopt, 0.9};
  a.estimates = e;
  CurveTally tally;
  tally.truth = {68.5, 66, 0.03, std::nullopt};
  add(tally, a);
  add(tally, said(AdaptationWord::not_shown, 2)); // a record too short prints none
  EXPECT_EQ(tally.settled.n, 1);
  EXPECT_EQ(tally.settled.covered, 1);
  EXPECT_EQ(tally.today.truth_below, 1); // 68.5 s lie below 69 s; the end that is absent covers everything
  EXPECT_EQ(tally.left.truth_above, 1);
  EXPECT_EQ(tally.to_limit.covered, 1);
  EXPECT_NEAR(tally.settled.error.mean(), std::log(65.0 / 66), 1e-12);
  EXPECT_EQ(tally.other_horizon, 0);
}

TEST(CurveTally, ThreadsChangeNothing) {
  LearnerPoint point{"threads", {}, 2};
  point.shape.cycles = 60;
  const CurveResult one{"threads", 1, run_point(point, 2, 1, 1)}, three{"threads", 1, run_point(point, 2, 1, 3)};
  EXPECT_EQ(csv_line(one), csv_line(three));
  EXPECT_EQ(one.tally.settled.n, 2);
  EXPECT_EQ(one.tally.other_horizon, 0); // the tool looks as far as the truth does
}

TEST(CurveResults, ALineHasACellForEveryColumn) {
  const auto cells = [](const std::string& line) { return std::count(line.begin(), line.end(), ','); };
  CurveResult result{"name", 1, {}};
  EXPECT_EQ(cells(csv_line(result)), cells(curve_csv_header()));
  result.tally.settled.add(false, false);
  EXPECT_EQ(cells(csv_line(result)), cells(curve_csv_header()));
}

TEST(LearnerGrid, NamesAreUniqueAndThereAreThirtyCorners) {
  std::set<std::string> names;
  int corners = 0;
  for (const LearnerPoint& point : make_learner_grid(1)) {
    EXPECT_TRUE(names.insert(point.name).second) << point.name;
    EXPECT_EQ(point.name.find(','), std::string::npos);
    corners += point.name.starts_with("corner") ? 1 : 0;
  }
  EXPECT_EQ(corners, 30);
}

} // namespace
} // namespace docket::bench
