// Question B from a case to its word. All learners are simulated.
#include "core/adaptation/adaptation.h"
#include "tests/core/adaptation/simulated_learner.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

namespace docket {
namespace {

double still_falling(double n) { return 50 + 60 * std::exp(-n / 300); }
double settled_at_55(double) { return 55; }

AdaptationBasis basis() {
  AdaptationBasis basis;
  basis.limit = Seconds{60};
  basis.relative_content = {1};
  return basis;
}

Adaptation assess(const Case& c) { return assess_adaptation(c, gather_evidence(c, Seconds{60}), basis(), 0); }

/// 300 cycles of somebody still improving, on three days.
Case learner() { return made::one_learner(made::simulated_times(300, 0, 0.06, 3, still_falling)); }

void expect(const Adaptation& a, AdaptationWord word, const std::string& code) {
  EXPECT_EQ(a.word, word);
  ASSERT_EQ(a.reasons.size(), 1U);
  EXPECT_EQ(a.reasons[0].code, code);
}

void expect_finite(const Adaptation& a) {
  ASSERT_TRUE(a.estimates);
  const AdaptationEstimates& e = *a.estimates;
  for (const TimeEstimate& t : {e.settled, e.today}) {
    EXPECT_TRUE(std::isfinite(t.time.count()));
    EXPECT_LE(*t.low, t.time);
    EXPECT_LE(t.time, *t.high);
  }
  EXPECT_LE(e.improvement_low, e.improvement);
  EXPECT_LE(e.improvement, e.improvement_high);
  double weights = 0;
  for (const ModelAnswer& m : e.models) {
    EXPECT_TRUE(std::isfinite(m.settled.time.count())) << name_of(m.fit.model);
    EXPECT_EQ(m.asymptote.has_value(), m.fit.model != CurveModel::power);
    weights += m.weight;
  }
  EXPECT_NEAR(weights, 1, 1e-12);
  for (const double p : {e.p_improving, e.p_improving_with_helped, e.p_within, e.to_limit.p_never})
    EXPECT_TRUE(p >= 0 && p <= 1) << p;
}

TEST(Adaptation, ASimulatedLearnerIsStillLearning) {
  const Adaptation a = assess(learner());
  expect(a, AdaptationWord::still_learning, "improving");
  EXPECT_EQ(a.decision_row, 5);
  expect_finite(a);
  const AdaptationEstimates& e = *a.estimates;
  EXPECT_EQ(e.horizon_cycles, 500); // five shifts of 100, for only 300 were seen
  EXPECT_GT(e.p_improving, 0.975);
  EXPECT_LE(*e.today.low, Seconds{still_falling(300)});
  EXPECT_GE(*e.today.high, Seconds{still_falling(300)});
  EXPECT_EQ(e.settled_with_helped, e.settled.time); // nobody helped
}

TEST(Adaptation, ASettledPersonWithinTheLimitIsAtLevel) {
  const Adaptation a = assess(made::one_learner(made::simulated_times(1500, 0, 0.05, 4, settled_at_55), 8000));
  expect(a, AdaptationWord::at_level, "at_level");
  EXPECT_EQ(a.decision_row, 7);
  expect_finite(a);
  EXPECT_NEAR(a.estimates->settled.time.count(), 55, 0.5);
  EXPECT_GT(a.estimates->p_within, 0.975);
  EXPECT_EQ(a.estimates->to_limit.median, 0.0);
}

// Far more cycles before than seen: they must not fall into one block, in which a power has no level.
TEST(Adaptation, ManyCyclesBeforeGiveALevelAllTheSame) {
  for (const std::int64_t before : {5000, 50000, 1000000}) {
    const Case c = made::one_learner(made::simulated_times(300, 0, 0.05, 5, settled_at_55), before);
    const Evidence evidence = gather_evidence(c, Seconds{60});
    const PracticeMixture mixture = fit_mixture(build_practice_series(c, evidence, 0, {1}, 1).plain);
    for (const CurveProfile& profile : mixture.profiles)
      EXPECT_NEAR(profile.fit().level(static_cast<double>(before + 300)), 55, 1.5)
          << name_of(profile.fit().model) << " " << before;
  }
  expect_finite(assess(made::one_learner(made::simulated_times(300, 0, 0.05, 5, settled_at_55), 50000)));
}

TEST(Adaptation, FiftyNineCyclesAreTooShort) {
  Case c = made::one_learner(made::simulated_times(60, 0, 0.05, 6, still_falling), 0, 20);
  const Adaptation sixty = assess(c);
  EXPECT_NE(sixty.reasons.at(0).code, "too_few_cycles");
  expect_finite(sixty);
  c.cycle_log.pop_back();
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_shown, "too_few_cycles");
  EXPECT_EQ(a.decision_row, 2);
  EXPECT_FALSE(a.estimates);
  EXPECT_EQ(a.series.plain.size(), 59U);
  EXPECT_EQ(a.would_decide, (std::vector<Reason>{{"more_cycles", "1"}}));
}

TEST(Adaptation, TwoDaysAreTooShort) {
  const Case c = made::one_learner(made::simulated_times(300, 0, 0.05, 3, still_falling), 0, 150);
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_shown, "too_few_days");
  EXPECT_EQ(a.would_decide, (std::vector<Reason>{{"more_days", "1"}}));
  EXPECT_FALSE(a.estimates); // what two days say of a level to come is not printed either
}

TEST(Adaptation, OneCycleAndNone) {
  Case c = made::one_learner({55});
  const Adaptation one = assess(c);
  expect(one, AdaptationWord::not_shown, "too_few_cycles");
  EXPECT_EQ(one.would_decide, (std::vector<Reason>{{"more_cycles", "59"}, {"more_days", "2"}}));
  c.cycle_log.clear();
  const Adaptation none = assess(c);
  expect(none, AdaptationWord::not_shown, "no_plain_cycle");
  EXPECT_FALSE(none.estimates);
  EXPECT_EQ(none.series.cycles, 0);
}

TEST(Adaptation, EveryCycleHelpedIsTooShort) {
  Case c = learner();
  for (LoggedCycle& cycle : c.cycle_log) cycle.marks.set(Mark::helped);
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_shown, "no_cycle_without_help");
  EXPECT_EQ(a.would_decide, (std::vector<Reason>{{"cycles_without_help", ""}})); // and no count of them to reach
  EXPECT_FALSE(a.estimates);
  EXPECT_EQ(a.series.lower_bounds, 300);
}

TEST(Adaptation, HelpedMoreOftenThanOneInFive) {
  Case c = learner();
  for (std::size_t i = 0; i < 300; i += 4) c.cycle_log[i].marks.set(Mark::helped);
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_shown, "helped_too_often");
  EXPECT_EQ(a.decision_row, 3);
  EXPECT_EQ(a.series.lower_bounds, 75);
  expect_finite(a);
}

TEST(Adaptation, TheWordMustHoldWithTheSecondsOfHelpAsWell) {
  const auto with_help_late = [](double seconds) {
    Case c = learner();
    for (std::size_t i = 150; i < 300; i += 3) {
      c.cycle_log[i].marks.set(Mark::helped);
      c.cycle_log[i].helped = Seconds{seconds};
      c.cycle_log[i].helped_given = true;
    }
    return assess(c);
  };
  expect(with_help_late(1), AdaptationWord::still_learning, "improving");
  const Adaptation hidden = with_help_late(120); // with it in, the times no longer fall
  EXPECT_EQ(hidden.word, AdaptationWord::not_shown);
  EXPECT_LT(hidden.estimates->p_improving_with_helped, 0.975);
  EXPECT_GT(hidden.estimates->settled_with_helped, hidden.estimates->settled.time);
}

// What must not be readable: neither the word's row, nor times, nor counts.
TEST(Adaptation, AnOpenMatterLeavesNothingToRead) {
  Case c = learner();
  c.facts.open_safety_matter = YesNo::yes;
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_assessable_now, "not_assessable_now");
  EXPECT_TRUE(a.reasons[0].detail.empty());
  EXPECT_EQ(a.op, 0);
  EXPECT_FALSE(a.decision_row);
  EXPECT_FALSE(a.estimates);
  EXPECT_EQ(a.series.op, 0);
  EXPECT_TRUE(a.series.plain.empty() && a.series.with_bounds.empty() && a.series.with_helped.empty());
  EXPECT_EQ(a.series.cycles + a.series.lower_bounds + a.series.under_condition + a.series.first_cycle +
                a.series.last_cycle + a.series.before + a.series.days,
            0);
}

TEST(Adaptation, MoreThanAQuarterUnderAConditionLooksTheSame) {
  Case c = made::one_learner(made::simulated_times(400, 0, 0.06, 3, still_falling));
  Condition light;
  light.check = "light";
  light.state = ConditionState::differs;
  light.from = made::at(0, 0);
  light.to = made::at(0, 23);
  c.conditions = {light}; // day 0: 100 of 400, a quarter
  EXPECT_EQ(assess(c).word, AdaptationWord::still_learning);
  c.conditions[0].to = made::at(1, 6.01);
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_assessable_now, "not_assessable_now");
  EXPECT_FALSE(a.estimates);
  EXPECT_EQ(a.series.cycles, 0);
}

TEST(Adaptation, AnEstimatedCountIsTriedAtHalfAndDouble) {
  Case c = made::one_learner(made::simulated_times(300, 100, 0.05, 3, still_falling));
  c.operators[0].prior_cycles.reset();
  c.operators[0].shifts_before = 1;
  const Adaptation clear = assess(c);
  EXPECT_TRUE(clear.series.first_cycle_estimated);
  EXPECT_EQ(clear.series.before, 100);
  expect(clear, AdaptationWord::still_learning, "improving"); // whatever the count was
}

// 50 + 500 / sqrt(n) from cycle 201 on: improving by a little more than the rule asks; at another count, not surely so.
TEST(Adaptation, AWordThatChangesWithTheEstimatedCountIsNotShown) {
  Case c = made::one_learner(made::simulated_times(400, 200, 0.05, 1, [](double n) { return 50 + 500 / std::sqrt(n); }),
                             200);
  expect(assess(c), AdaptationWord::still_learning, "improving");
  c.operators[0].prior_cycles.reset();
  c.operators[0].shifts_before = 2;
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_shown, "count_estimated");
  EXPECT_EQ(a.reasons[0].detail, "200");
  EXPECT_EQ(a.decision_row, 10);
  EXPECT_TRUE(a.estimates);
}

TEST(Adaptation, NoShiftBeforeIsNoCycleBefore) {
  Case c = learner();
  c.operators[0].prior_cycles.reset();
  c.operators[0].shifts_before = 0;
  const Adaptation a = assess(c);
  EXPECT_FALSE(a.series.first_cycle_estimated);
  EXPECT_TRUE(a.before_tried.empty());
}

// Nothing is said of what came before, and nothing had: the word is tried as if as many cycles had come before.
TEST(Adaptation, ACountThatIsNotKnownIsTriedToo) {
  Case c = learner();
  c.operators[0].prior_cycles.reset();
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::still_learning, "improving");
  EXPECT_EQ(a.before_tried, (std::vector<std::int64_t>{300}));
}

// Falling on as if nothing had been worked in thirty days; had 50 cycles a day been, most of the fall would be over.
TEST(Adaptation, AWordThatChangesWithAHoleInTheRecordIsNotShown) {
  const auto slow = [](double n) { return 50 + 25 * std::exp(-n / 300); };
  Case c = made::one_learner(made::simulated_times(150, 0, 0.05, 3, slow), 0, 50);
  made::log_times(c, 0, made::simulated_times(250, 150, 0.05, 4, slow), 50, 33);
  c.operators.push_back(made::trained("K2"));
  made::log_times(c, 1, std::vector<double>(250, 50), 50, 10); // others work in the gap: the person paused
  expect(assess(c), AdaptationWord::still_learning, "improving");
  for (LoggedCycle& cycle : c.cycle_log)
    if (cycle.op == 1) cycle.started_at -= std::chrono::days{10};
  const Adaptation a = assess(c);
  expect(a, AdaptationWord::not_shown, "hole_in_record");
  EXPECT_EQ(a.would_decide, (std::vector<Reason>{{"what_came_in_the_hole", {}}}));
  EXPECT_TRUE(a.estimates);
}

// A person whose times fall by little: the cycles seen do not tell, and more of them would.
TEST(Adaptation, WhatCanNotBeToldSaysHowManyCyclesWould) {
  const Adaptation a = assess(made::one_learner(
      made::simulated_times(300, 0, 0.05, 1, [](double n) { return 52 + 10 * std::exp(-n / 150); }), 0, 40));
  expect(a, AdaptationWord::not_shown, "can_not_tell");
  ASSERT_EQ(a.would_decide.size(), 1U);
  EXPECT_EQ(a.would_decide[0].code, "cycles_to_tell");
  EXPECT_GT(std::stoi(a.would_decide[0].detail), 0);
  EXPECT_LE(std::stoi(a.would_decide[0].detail), 900);
}

TEST(Adaptation, TheCourseEndsWithTodaysLevel) {
  const Adaptation a = assess(learner());
  const std::vector<LevelAtCycle>& course = a.estimates->course;
  EXPECT_EQ(course.front().cycle, 1);
  EXPECT_EQ(course.back().cycle, 300);
  EXPECT_EQ(course.back().level.time, a.estimates->today.time);
  for (const LevelAtCycle& at : course) {
    EXPECT_LE(*at.level.low, at.level.time);
    EXPECT_GE(*at.level.high, at.level.time);
    EXPECT_NEAR(at.level.time.count(), still_falling(at.cycle), 5) << at.cycle;
  }
}

TEST(Adaptation, TimesThatAreAllTheSameGiveNoEstimates) {
  const Adaptation a = assess(made::one_learner(std::vector<double>(300, 55.0)));
  expect(a, AdaptationWord::not_shown, "identical_times");
  EXPECT_FALSE(a.estimates);
}

// Each cycle all but repeats the one before: sixty of them are worth less than one.
TEST(Adaptation, CyclesThatHangTogetherAreTooShortAndStayFinite) {
  std::vector<double> times;
  for (int i = 0; i < 60; ++i) times.push_back(55 + 8 * std::sin(i % 20 * 0.3) + 0.01 * (i % 3));
  const Adaptation a = assess(made::one_learner(times, 0, 20));
  EXPECT_EQ(a.word, AdaptationWord::not_shown);
  EXPECT_EQ(a.decision_row, 2);
  ASSERT_EQ(a.reasons.size(), 1U);
  EXPECT_EQ(a.reasons[0].code, "cycles_hang_together");
  EXPECT_GT(std::stod(a.reasons[0].detail), 0.8);
  EXPECT_EQ(a.would_decide, (std::vector<Reason>{{"what_ties_cycles", ""}}));
  EXPECT_FALSE(a.estimates);
}

// Two ways of counting meet in one record: the session states 5,000, the log began at 1.
TEST(Adaptation, OwnCountsFarApart) {
  Case c = made::one_learner(made::simulated_times(200, 0, 0.05, 8, still_falling));
  c.sessions = {made::session("S1", 0, 30)};
  c.sessions[0].start = made::at(30, 6);
  c.sessions[0].end = made::at(30, 9);
  c.sessions[0].first_cycle = 5000;
  const std::vector<double> late = made::simulated_times(80, 5000, 0.05, 9, still_falling);
  for (int i = 0; i < 80; ++i)
    c.readings.push_back(made::whole_reading(0, i + 1, late[static_cast<std::size_t>(i)], 2 + i));
  const Adaptation a = assess(c);
  EXPECT_EQ(a.series.first_cycle, 1);
  EXPECT_EQ(a.series.last_cycle, 5079);
  expect_finite(a);
  EXPECT_NEAR(a.estimates->today.time.count(), 50, 2);
}

} // namespace
} // namespace docket
