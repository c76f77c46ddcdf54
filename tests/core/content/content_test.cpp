// Question A from a case to its word, on stations whose answer can be worked out by hand.
#include "core/content/content.h"
#include "core/findings.h"
#include "core/statistics/random.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

/// The standard alone, with a wide work zone and a small cycle spread, so that the mean decides.
Case standard_only(double standard_s) {
  Case c = made::one_element_case(60, standard_s);
  c.facts.early_start = Seconds{10};
  c.facts.late_finish = Seconds{30};
  c.settings.cycle_spread = 0.02;
  return c;
}

/// Adds a steady log of trained people at the given levels (seconds, one variant).
void add_log(Case& c, const std::vector<double>& levels, int first_day = 0) {
  std::int64_t row = 2 + static_cast<std::int64_t>(c.cycle_log.size());
  for (std::size_t o = 0; o < levels.size(); ++o) {
    const auto op = static_cast<std::int32_t>(o);
    if (c.operators.size() <= o) c.operators.push_back(made::trained("K" + std::to_string(o + 1)));
    for (int d = 0; d < 4; ++d)
      for (int i = 0; i < 100; ++i)
        c.cycle_log.push_back(
            made::logged(op, made::at(first_day + d, 6 + i / 60.0), levels[o] * (1 + 0.02 * ((i % 4) - 1.5)), row++));
  }
}

ContentFindings answer(const Case& c) { return find_all(c).content; }

std::vector<std::string> codes(const std::vector<Reason>& reasons) {
  std::vector<std::string> out;
  for (const Reason& reason : reasons) out.push_back(reason.code);
  return out;
}

// Normal table: with 5 % on the level one line says FITS from ln(60/T) = 1.96 x 0.05, T = 54.4.
TEST(Content, TheStandardAloneNeedsTenPercentOfMargin) {
  EXPECT_EQ(answer(standard_only(54.2)).word, ContentWord::fits);
  EXPECT_TRUE(answer(standard_only(54.2)).average_person_only);
  const ContentFindings thin = answer(standard_only(54.6));
  EXPECT_EQ(thin.word, ContentWord::not_shown);
  EXPECT_EQ(thin.leans, Leaning::fits);
  EXPECT_EQ(codes(thin.reasons).at(0), "mean_not_sure");
  const std::vector<std::string> decide = codes(thin.would_decide);
  EXPECT_NE(std::find(decide.begin(), decide.end(), "second_line"), decide.end());
  EXPECT_NE(std::find(decide.begin(), decide.end(), "no_number_will"), decide.end());
}

TEST(Content, BothWordsAreEquallyFarFromTheLimit) {
  EXPECT_EQ(answer(standard_only(66.3)).word, ContentWord::does_not_fit); // ln(66.3/60) = 0.0998 > 0.098
  EXPECT_EQ(answer(standard_only(66.1)).word, ContentWord::not_shown);    // 0.0968 < 0.098
}

TEST(Content, WithoutAWorkZoneTheWordIsNotShown) {
  Case c = standard_only(50);
  c.facts.late_finish.reset();
  const ContentFindings a = answer(c);
  EXPECT_EQ(a.word, ContentWord::not_shown);
  EXPECT_EQ(a.decision_row, 3);
  EXPECT_EQ(codes(a.reasons), std::vector<std::string>{"zone_not_given"});
}

TEST(Content, WithoutACycleSpreadTheWordIsNotShown) {
  Case c = standard_only(50);
  c.settings.cycle_spread.reset();
  EXPECT_EQ(codes(answer(c).reasons), (std::vector<std::string>{"spread_not_known", "no_cycles"}));
}

TEST(Content, StandardAndSettledOperatorsThatAgreeNeedLess) {
  Case c = standard_only(55);
  EXPECT_EQ(answer(c).word, ContentWord::not_shown);
  add_log(c, {54.5, 55, 55.5, 55});
  const ContentFindings a = answer(c);
  EXPECT_EQ(a.word, ContentWord::fits);
  EXPECT_FALSE(a.average_person_only);
  EXPECT_NEAR(a.combined->weights[0] + a.combined->weights[1], 1, 1e-12);
}

TEST(Content, LinesThatClashAreNotShown) {
  Case c = standard_only(52);
  add_log(c, {63, 64, 65, 64});
  const ContentFindings a = answer(c);
  EXPECT_EQ(a.word, ContentWord::not_shown);
  EXPECT_EQ(a.decision_row, 1);
  ASSERT_EQ(a.reasons.size(), 1U);
  EXPECT_EQ(a.reasons[0].code, "clash");
  EXPECT_EQ(a.reasons[0].detail, "standard, settled");
  EXPECT_EQ(codes(a.would_decide).at(0), "clear_the_clash");
}

TEST(Content, HeavyUnitsInARowOverloadAlthoughTheMeanFits) {
  Case c = made::one_element_case(60, 48);
  c.variants = {made::variant("light", 0.6), made::variant("heavy", 0.4, {"H"})};
  StandardElement heater = made::element("E2", 20, 0);
  heater.any_option = {"H"};
  c.standard.push_back(heater); // 48 and 68, mean 56
  c.facts.early_start = Seconds{3};
  c.facts.late_finish = Seconds{6};
  c.settings.cycle_spread = 0.05;
  for (int i = 0; i < 100; ++i) {
    SequenceUnit unit;
    unit.position = i + 1;
    unit.variant = i % 10 < 4 ? 1 : 0; // four heavy in a row
    c.build_sequence.push_back(unit);
  }
  const ContentFindings a = answer(c);
  EXPECT_EQ(a.word, ContentWord::does_not_fit);
  EXPECT_EQ(codes(a.reasons), std::vector<std::string>{"sequence_over"});
  EXPECT_GT(a.combined->p_fits, 0.5);
}

TEST(Content, AConditionThatDiffersNowTurnsFitsIntoFitsOnlyIf) {
  Case c = standard_only(52);
  add_log(c, {52, 53, 52.5, 53});   // as the standard says
  add_log(c, {70, 71, 70, 72}, 10); // after the tool changed
  Condition tool;
  tool.check = "torque tool";
  tool.state = ConditionState::differs;
  tool.from = made::at(10, 0);
  c.conditions = {tool};
  const Findings f = find_all(c);
  EXPECT_EQ(f.content.word, ContentWord::fits_only_if);
  EXPECT_EQ(f.content.only_if, std::vector<std::int32_t>{0});
  ASSERT_TRUE(f.content.with_differing);
  EXPECT_LT(*f.content.with_differing->p_fits, f.content.combined->p_fits);
  EXPECT_EQ(f.conditions.at(0).cycles_out, 1600);
}

TEST(Content, AConditionThatEndedLeavesFits) {
  Case c = standard_only(52);
  add_log(c, {52, 53, 52.5, 53}, 10);
  Condition tool;
  tool.check = "torque tool";
  tool.state = ConditionState::differs;
  tool.from = made::at(2, 0);
  tool.to = made::at(5, 0);
  c.conditions = {tool};
  EXPECT_EQ(answer(c).word, ContentWord::fits);
}

TEST(Content, AnOpenSafetyMatterHoldsTheWordAndDoesNotChangeIt) {
  Case c = standard_only(50);
  EXPECT_FALSE(answer(c).held);
  c.referrals.push_back({"pain", made::day(0), {}, "health service", true, {}});
  const ContentFindings a = answer(c);
  EXPECT_TRUE(a.held);
  EXPECT_EQ(a.word, ContentWord::fits);
  c.referrals[0].open = false;
  EXPECT_FALSE(answer(c).held);
  c.facts.open_safety_matter = YesNo::yes;
  EXPECT_TRUE(answer(c).held);
}

/// Every fourth cycle was helped by `seconds`.
void help(Case& c, double seconds) {
  for (std::size_t i = 0; i < c.cycle_log.size(); i += 4) {
    c.cycle_log[i].marks.set(Mark::helped);
    c.cycle_log[i].helped = Seconds{seconds};
    c.cycle_log[i].helped_given = true;
  }
}

TEST(Content, FitsMustHoldWithTheHelpCountedIn) {
  Case c = standard_only(56); // P of the standard alone 0.92
  add_log(c, {50, 50.5, 51, 50});
  EXPECT_EQ(answer(c).word, ContentWord::fits);
  help(c, 1);
  EXPECT_EQ(answer(c).word, ContentWord::fits);
  help(c, 40);
  const ContentFindings a = answer(c);
  EXPECT_EQ(a.word, ContentWord::not_shown);
  EXPECT_EQ(codes(a.reasons), std::vector<std::string>{"with_help_not_sure"});
}

// Four days of four settled people, each day longer than the one before: what rises now comes before every study.
TEST(Content, TimesThatRiseComeFirstInWhatWouldDecide) {
  Case c = standard_only(56);
  add_log(c, {56, 56.5, 57, 56});
  const auto asked = [&] {
    const std::vector<std::string> list = codes(answer(c).would_decide);
    return !list.empty() && list.front() == "ask_what_changed";
  };
  EXPECT_FALSE(asked());
  for (LoggedCycle& cycle : c.cycle_log) {
    const auto day = std::chrono::floor<std::chrono::days>(cycle.started_at) -
                     std::chrono::floor<std::chrono::days>(c.cycle_log.front().started_at);
    cycle.cycle *= 1 + 0.08 * static_cast<double>(day.count());
  }
  EXPECT_TRUE(asked());
}

TEST(Content, NoFitsWhereNobodySawTheStationWorkedWithoutHelp) {
  Case c = standard_only(50); // says FITS alone: a line that leans can be left out
  add_log(c, {50, 50.5, 51, 50});
  help(c, 1); // a quarter of the cycles
  EXPECT_EQ(answer(c).word, ContentWord::fits);
  for (LoggedCycle& cycle : c.cycle_log) cycle.helped_given = false;
  const ContentFindings a = answer(c);
  EXPECT_EQ(a.word, ContentWord::not_shown);
  EXPECT_EQ(codes(a.reasons), std::vector<std::string>{"help_of_unknown_length"});
  for (std::size_t i = 0; i < c.cycle_log.size(); i += 8) c.cycle_log[i].marks = {}; // an eighth: it leans, no more
  EXPECT_EQ(answer(c).word, ContentWord::fits);
}

TEST(Content, FitsMustHoldWithThoseWhoLeftCountedIn) {
  Case c = standard_only(54);
  add_log(c, {53, 54, 55, 54, 66, 67}); // the last two left
  const ContentFindings all = answer(c);
  EXPECT_NE(all.word, ContentWord::fits);
  c.operators[4].left_station = c.operators[5].left_station = made::day(4);
  std::erase_if(c.cycle_log, [](const LoggedCycle& cycle) { return cycle.op >= 4 && cycle.origin.row % 8 != 0; });
  const ContentFindings a = answer(c); // too few of their cycles are left to call them settled
  EXPECT_EQ(a.settled.line->operators, 4);
  EXPECT_EQ(a.word, ContentWord::not_shown);
  EXPECT_EQ(codes(a.reasons), std::vector<std::string>{"with_leavers_not_sure"});
  c.operators[4].left_station.reset();
  c.operators[5].left_station.reset();
  EXPECT_EQ(answer(c).word, ContentWord::fits); // what a file that names nobody who left would say
}

// One row of numbers worked out by hand: P = Phi(-z/u), so a line with u = 0.05 says FITS from a margin of 9.8 %. A second,
// independent one of the same size brings u to 0.05/sqrt 2 and the margin to 6.9 %.
TEST(Content, WhatWouldDecideItIsNumbered) {
  const auto restudy = [](double standard_s) -> std::string {
    for (const Reason& reason : answer(standard_only(standard_s)).would_decide)
      if (reason.code == "rated_restudy") return reason.detail;
    return "none";
  };
  EXPECT_EQ(restudy(55.0), "3"); // 8.7 %: three operators bring u(restudy) to 0.055, together 0.037
  EXPECT_EQ(restudy(59.0), "");  // 1.7 %: no number will
}

TEST(Content, IdenticalTimesDecideNothing) {
  Case c = standard_only(55);
  c.settings.pace_uncertainty = 0.01;
  add_log(c, {50, 50, 50});
  for (LoggedCycle& cycle : c.cycle_log) cycle.cycle = Seconds{50};
  const ContentFindings a = answer(c);
  EXPECT_EQ(a.word, ContentWord::not_shown);
  EXPECT_EQ(codes(a.reasons), std::vector<std::string>{"identical_values"});
}

TEST(Content, TheStandardByStopwatchSharesItsErrorWithTheRestudy) {
  Case c = standard_only(55);
  c.operators = {made::trained("K1"), made::trained("K2"), made::trained("K3")};
  std::int64_t row = 2;
  for (std::int32_t o = 0; o < 3; ++o) {
    c.sessions.push_back(made::session("S" + std::to_string(o), o, o));
    for (int i = 0; i < 10; ++i) c.readings.push_back(made::whole_reading(o, i + 1, 55 + o + 0.1 * i, row++));
  }
  const double apart = answer(c).combined->u;
  c.standard[0].time_source = TimeSource::stopwatch;
  EXPECT_GT(answer(c).combined->u, apart);
}

// The complainant's own learning cycles are no evidence on A: taking them away changes nothing.
TEST(Content, ALearnersCyclesChangeNothing) {
  Case c = standard_only(54);
  add_log(c, {54, 55, 54.5, 55});
  const ContentFindings before = answer(c);
  c.operators.push_back(made::trained("N1", 0));
  for (int i = 0; i < 300; ++i)
    c.cycle_log.push_back(made::logged(4, made::at(i / 100, 14 + (i % 100) / 60.0), 80 - 0.05 * i, 5000 + i));
  const ContentFindings after = answer(c);
  EXPECT_EQ(before.word, after.word);
  EXPECT_EQ(before.combined->p_fits, after.combined->p_fits);
  EXPECT_EQ(before.settled.line->level.time, after.settled.line->level.time);
}

TEST(Content, SameInputsSameResultsWhateverTheOrderOfTheOperatorsTable) {
  Case c = standard_only(54);
  add_log(c, {54, 55, 54.5, 55});
  Case turned = c;
  std::swap(turned.operators[0], turned.operators[3]);
  for (LoggedCycle& cycle : turned.cycle_log) cycle.op = cycle.op == 0 ? 3 : cycle.op == 3 ? 0 : cycle.op;
  const ContentFindings a = answer(c), b = answer(turned);
  ASSERT_EQ(a.settled.per_operator.size(), b.settled.per_operator.size());
  for (std::size_t i = 0; i < a.settled.per_operator.size(); ++i)
    EXPECT_EQ(a.settled.per_operator[i].fall_bound, b.settled.per_operator[i].fall_bound);
  EXPECT_NEAR(a.combined->p_fits, b.combined->p_fits, 1e-12);
}

} // namespace
} // namespace docket
