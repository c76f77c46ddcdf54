// The table on B row by row, with the edges of each row. The thresholds are the table's own.
#include "core/adaptation/adaptation_decision.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

/// A long clean record that shows nothing either way: row 10.
AdaptationFacts in_between() {
  AdaptationFacts facts;
  facts.plain_cycles = 60;
  facts.days = 3;
  return facts;
}

void expect(const AdaptationFacts& facts, AdaptationWord word, int row, const char* why) {
  const AdaptationDecision decision = decide_adaptation(facts);
  EXPECT_EQ(decision.word, word);
  EXPECT_EQ(decision.row, row);
  EXPECT_EQ(decision.why, why);
}

AdaptationFacts improving() {
  AdaptationFacts facts = in_between();
  facts.curves.p_improving = 0.975;
  facts.with_helped = facts.curves;
  return facts;
}

TEST(AdaptationDecision, Row1AnOpenMatterComesBeforeEverything) {
  AdaptationFacts facts = improving();
  facts.matter_open = true;
  expect(facts, AdaptationWord::not_assessable_now, 1, "not_assessable_now");
  facts.plain_cycles = 0;
  expect(facts, AdaptationWord::not_assessable_now, 1, "not_assessable_now");
}

TEST(AdaptationDecision, Row1MoreThanAQuarterUnderACondition) {
  AdaptationFacts facts = improving();
  facts.share_under_condition = 0.25;
  expect(facts, AdaptationWord::still_learning, 5, "improving");
  facts.share_under_condition = 0.2501;
  expect(facts, AdaptationWord::not_assessable_now, 1, "not_assessable_now");
}

TEST(AdaptationDecision, Row2SixtyCyclesOnThreeDays) {
  AdaptationFacts facts = improving();
  expect(facts, AdaptationWord::still_learning, 5, "improving");
  facts.plain_cycles = 59;
  expect(facts, AdaptationWord::not_shown, 2, "too_few_cycles");
  facts = improving();
  facts.days = 2;
  expect(facts, AdaptationWord::not_shown, 2, "too_few_days");
}

TEST(AdaptationDecision, Row2CyclesThatHangTogether) {
  AdaptationFacts facts = improving();
  facts.lag1 = 0.8;
  expect(facts, AdaptationWord::still_learning, 5, "improving");
  facts.lag1 = 0.8001;
  expect(facts, AdaptationWord::not_shown, 2, "cycles_hang_together");
}

TEST(AdaptationDecision, Row3HelpedTooOften) {
  AdaptationFacts facts = improving();
  facts.share_lower_bounds = 0.20;
  expect(facts, AdaptationWord::still_learning, 5, "improving");
  facts.share_lower_bounds = 0.2001;
  expect(facts, AdaptationWord::not_shown, 3, "helped_too_often");
  facts.p_above_with_bounds = 0.9749;
  expect(facts, AdaptationWord::not_shown, 3, "helped_too_often");
  facts.p_above_with_bounds = 0.975; // above the limit even so: the help can't have hidden that
  expect(facts, AdaptationWord::still_learning, 5, "improving");
}

TEST(AdaptationDecision, Row5MustHoldWithHelpedAsWell) {
  AdaptationFacts facts = improving();
  expect(facts, AdaptationWord::still_learning, 5, "improving");
  facts.curves.p_improving = 0.9749;
  expect(facts, AdaptationWord::not_shown, 10, "can_not_tell");
  facts = improving();
  facts.with_helped->p_improving = 0.9749;
  expect(facts, AdaptationWord::not_shown, 10, "differs_with_help");
}

AdaptationFacts settled(double p_within) {
  AdaptationFacts facts = in_between();
  facts.curves = {0.025, p_within, false};
  return facts;
}

TEST(AdaptationDecision, Row4ALossNotMadeGoodComesBeforeTheCurves) {
  AdaptationFacts facts = improving();
  facts.interrupted = true;
  expect(facts, AdaptationWord::learning_interrupted, 4, "interrupted");
  facts.share_lower_bounds = 0.2001;
  expect(facts, AdaptationWord::not_shown, 3, "helped_too_often");
}

TEST(AdaptationDecision, Row6ALateSlopeIsNotSettled) {
  AdaptationFacts facts = settled(0.99);
  facts.curves.late_slope = true;
  expect(facts, AdaptationWord::not_shown, 6, "late_slope");
}

TEST(AdaptationDecision, Rows7To9TheSettledLevelAgainstTheLimit) {
  expect(settled(0.975), AdaptationWord::at_level, 7, "at_level");
  expect(settled(0.9749), AdaptationWord::not_shown, 9, "straddles_limit");
  expect(settled(0.0251), AdaptationWord::not_shown, 9, "straddles_limit");
  expect(settled(0.025), AdaptationWord::settled_above, 8, "settled_above");
  AdaptationFacts facts = settled(0.5);
  facts.curves.p_improving = 0.0251;
  expect(facts, AdaptationWord::not_shown, 10, "can_not_tell");
}

TEST(AdaptationDecision, SettledWordsMustHoldWithHelpedAsWell) {
  for (const double p_within : {0.99, 0.01}) {
    AdaptationFacts facts = settled(p_within);
    facts.with_helped = CurveFacts{0.025, p_within, false};
    EXPECT_NE(decide_adaptation(facts).word, AdaptationWord::not_shown);
    facts.with_helped = CurveFacts{0.025, 0.5, false};
    expect(facts, AdaptationWord::not_shown, 10, "differs_with_help");
    facts.with_helped = CurveFacts{0.025, p_within, true};
    expect(facts, AdaptationWord::not_shown, 10, "differs_with_help");
    facts.with_helped = CurveFacts{0.5, p_within, false};
    expect(facts, AdaptationWord::not_shown, 10, "differs_with_help");
  }
}

TEST(AdaptationDecision, Row10TheRest) { expect(in_between(), AdaptationWord::not_shown, 10, "can_not_tell"); }

TEST(AdaptationDecision, TheConfidenceMovesTheEdges) {
  AdaptationFacts facts = improving();
  facts.confidence = 0.99;
  expect(facts, AdaptationWord::not_shown, 10, "can_not_tell");
  facts.curves.p_improving = facts.with_helped->p_improving = 0.9951;
  expect(facts, AdaptationWord::still_learning, 5, "improving");
}

} // namespace
} // namespace docket
