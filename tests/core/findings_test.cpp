// What only core/findings decides: the gate, whom B is asked about, the band of others, contradictions.
#include "core/findings.h"
#include "tests/core/adaptation/simulated_learner.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

constexpr AdaptationWord words_of_b[] = {AdaptationWord::at_level,      AdaptationWord::still_learning,
                                         AdaptationWord::settled_above, AdaptationWord::learning_interrupted,
                                         AdaptationWord::not_shown,     AdaptationWord::not_assessable_now};
constexpr ContentWord words_of_a[] = {ContentWord::fits, ContentWord::fits_only_if, ContentWord::does_not_fit,
                                      ContentWord::not_shown};

TEST(Gate, SettledAboveIsSaidOnlyWhereContentFitsUnderTheConditionsThePersonHad) {
  for (const AdaptationWord b : words_of_b)
    for (const ContentWord a : words_of_a)
      for (const bool differing : {false, true}) {
        const bool gated = b == AdaptationWord::settled_above && (a != ContentWord::fits || differing);
        EXPECT_EQ(gate_adaptation(b, a, differing), gated ? AdaptationWord::not_assessable_now : b)
            << static_cast<int>(b) << " " << static_cast<int>(a) << " " << differing;
      }
}

double falling(double n) { return 52 + 30 * std::exp(-n / 150); }

/// A simulated learner K1 and `others` settled people around 52 s, all in the log; line cycle 60 s, standard 52 s.
Case team(int others, int learner_cycles = 300) {
  Case c = made::one_element_case(60, 52);
  c.facts.early_start = Seconds{10};
  c.facts.late_finish = Seconds{30};
  c.facts.cycles_per_shift = 100;
  c.facts.complainants = {"K1"};
  c.operators = {made::trained("K1", 0)};
  c.operators[0].trained = YesNo::no;
  made::log_times(c, 0, made::simulated_times(learner_cycles, 0, 0.05, 1, falling), 100);
  for (int o = 1; o <= others; ++o) {
    c.operators.push_back(made::trained("K" + std::to_string(o + 1)));
    const double level = 52 + 0.4 * (o % 4 - 1.5);
    made::log_times(
        c, o, made::simulated_times(400, 0, 0.04, 100 + static_cast<std::uint64_t>(o), [&](double) { return level; }),
        100);
  }
  return c;
}

bool has_fault(const Findings& f, const std::string& check, const std::string& detail) {
  return std::any_of(f.data_faults.begin(), f.data_faults.end(),
                     [&](const DataFault& fault) { return fault.check == check && fault.detail == detail; });
}

std::vector<std::int32_t> answered(const Findings& f) {
  std::vector<std::int32_t> ops;
  for (const Adaptation& a : f.adaptation) ops.push_back(a.op);
  EXPECT_EQ(f.bridges.size(), f.adaptation.size());
  return ops;
}

TEST(AskedAbout, TheComplainantsUnlessOthersAreNamed) {
  Case c = team(3);
  EXPECT_EQ(answered(find_all(c)), std::vector<std::int32_t>{0});
  c.facts.b_for = std::vector<std::string>{"K3", "K1", "K3"};
  EXPECT_EQ(answered(find_all(c)), (std::vector<std::int32_t>{2, 0})); // in the order asked, each once
  c.facts.b_for = std::vector<std::string>{};
  const Findings nobody = find_all(c);
  EXPECT_TRUE(answered(nobody).empty());
  EXPECT_FALSE(nobody.adaptation_band);
  c.facts.b_for = std::vector<std::string>{"K99"};
  const Findings unknown = find_all(c);
  EXPECT_TRUE(answered(unknown).empty());
  EXPECT_EQ(unknown.asked_not_in_data, std::vector<std::string>{"K99"});
}

// A2 looks at the last twenty days, where a slow fall hides in what may be left; B looks at all of it and at what is to
// come. Simulated: 80 s at the first cycle, 4 % less with each doubling; 60 cycles a day.
TEST(Contradiction, ASlowFallIsSettledForAAndStillLearningForB) {
  Case c = made::one_element_case(60, 45);
  c.facts.cycles_per_shift = 60;
  c.facts.complainants = {"K1"};
  c.settings.settled_after_cycles = 1000;
  c.operators = {made::trained("K1", 0)};
  made::log_times(c, 0, made::simulated_times(6000, 0, 0.03, 1, [](double n) { return 80 * std::pow(n, -0.06); }), 60);
  const Findings f = find_all(c);
  ASSERT_EQ(f.adaptation.size(), 1U);
  EXPECT_EQ(f.adaptation[0].word, AdaptationWord::still_learning);
  ASSERT_EQ(f.content.settled.per_operator.size(), 1U);
  EXPECT_EQ(f.content.settled.per_operator[0].status, OperatorStatus::settled);
  EXPECT_TRUE(has_fault(f, "settled_and_still_learning", "K1"));
}

TEST(Band, OnlyWithFiveOthersOrMore) {
  EXPECT_FALSE(find_all(team(4)).adaptation_band);
  const Findings f = find_all(team(5));
  ASSERT_TRUE(f.adaptation_band);
  EXPECT_EQ(f.adaptation_band->n, 5);
  EXPECT_NEAR(f.adaptation_band->low.count(), 51.4, 0.6); // levels 51.4 to 52.6
  EXPECT_NEAR(f.adaptation_band->high.count(), 52.6, 0.6);
  EXPECT_LT(f.adaptation_band->low, f.adaptation_band->high);
}

TEST(Band, NotCountedAreThoseAskedAboutAndThoseWithTooLittle) {
  Case c = team(5);
  c.facts.b_for = std::vector<std::string>{"K1", "K2"};
  EXPECT_FALSE(find_all(c).adaptation_band); // four others
  c = team(5);
  std::erase_if(c.cycle_log, [](const LoggedCycle& cycle) { return cycle.op == 3 && cycle.origin.row % 8 != 0; });
  EXPECT_FALSE(find_all(c).adaptation_band); // 50 cycles of the fourth
}

TEST(Band, NoneBesideAnAnswerThatIsNotGiven) {
  Case c = team(5);
  c.facts.open_safety_matter = YesNo::yes;
  const Findings f = find_all(c);
  ASSERT_EQ(f.adaptation.size(), 1U);
  EXPECT_EQ(f.adaptation[0].word, AdaptationWord::not_assessable_now);
  EXPECT_FALSE(f.adaptation_band);
  EXPECT_FALSE(f.bridges[0].terms);
  EXPECT_EQ(f.bridges[0].absent_why, "not_assessable_now");
  ASSERT_EQ(f.excesses.size(), 1U);
  EXPECT_TRUE(f.excesses[0].variants.parts.empty());
  EXPECT_EQ(f.excesses[0].elements.absent_why, "not_assessable_now");
  EXPECT_EQ(f.bridges[0].sum, Seconds{});
  EXPECT_TRUE(f.content.held);
}

// Levels are A's own, so that the count can be checked on A's page: limit 60 s.
TEST(OthersAbove, CountsTheOtherSettledOperatorsOfA) {
  // Settled people around 52 s; one at 70 s, not trained and so not among them, is asked about.
  Case c = made::one_element_case(60, 52);
  c.facts.early_start = Seconds{10};
  c.facts.late_finish = Seconds{30};
  c.facts.cycles_per_shift = 100;
  c.facts.complainants = {"K1"};
  c.operators = {made::trained("K1")};
  c.operators[0].trained = YesNo::no;
  made::log_times(c, 0, made::simulated_times(600, 0, 0.04, 7, [](double) { return 70.0; }), 100);
  const auto with_others = [&](int others) {
    Case full = c;
    for (int o = 1; o <= others; ++o) {
      full.operators.push_back(made::trained("K" + std::to_string(o + 1)));
      made::log_times(full, o,
                      made::simulated_times(400, 0, 0.04, 100 + static_cast<std::uint64_t>(o),
                                            [&](double) { return 51 + 0.4 * o; }),
                      100);
    }
    return find_all(full);
  };
  const Findings five = with_others(5);
  ASSERT_EQ(five.content.word, ContentWord::fits);
  ASSERT_EQ(five.adaptation[0].word, AdaptationWord::settled_above);
  const std::optional<OthersAbove> counted = others_above(five, 0);
  ASSERT_TRUE(counted);
  EXPECT_EQ(counted->of, std::count_if(five.content.settled.per_operator.begin(),
                                       five.content.settled.per_operator.end(), [](const OperatorLevel& one) {
                                         return one.op != 0 && one.status == OperatorStatus::settled;
                                       }));
  EXPECT_EQ(counted->above, 0);
  EXPECT_FALSE(others_above(five, 3)); // nobody asked
}

// Six people with a record from their first cycle on: 52 s and 20 s more that go with 120 cycles.
Case learners(int others) {
  Case c = made::one_element_case(60, 52);
  c.facts.cycles_per_shift = 100;
  c.facts.complainants = {"K1"};
  for (int o = 0; o <= others; ++o) {
    c.operators.push_back(made::trained("K" + std::to_string(o + 1), 0));
    const double own = 52 + 1.5 * std::sin(o);
    made::log_times(c, o,
                    made::simulated_times(o == 0 ? 40 : 500, 0, 0.04, 100 + static_cast<std::uint64_t>(o),
                                          [&](double n) { return own + 20 * std::exp(-n / 120); }),
                    50);
  }
  return c;
}

TEST(EarlierLearners, StandBesideAnAnswerThatIsGiven) {
  const Findings f = find_all(learners(6));
  ASSERT_TRUE(f.earlier_learners);
  EXPECT_EQ(f.earlier_learners->learners, 6);
  EXPECT_EQ(f.earlier_learners_none_why, "");
  ASSERT_TRUE(f.beside_adaptation[0].borrowed); // 40 cycles of their own, too few for any other level to come
  EXPECT_FALSE(f.adaptation[0].estimates);
  EXPECT_EQ(f.beside_adaptation[0].borrowed->learners, 6);
}

TEST(EarlierLearners, NoBandUnderFiveAndNoneBesideAGatedAnswer) {
  const Findings four = find_all(learners(4));
  EXPECT_FALSE(four.earlier_learners);
  EXPECT_EQ(four.earlier_learners_none_why, "too_few_for_band");
  const Findings two = find_all(learners(2));
  EXPECT_EQ(two.earlier_learners_none_why, "too_few");
  EXPECT_FALSE(two.beside_adaptation[0].borrowed);
  Case c = learners(6);
  c.facts.open_safety_matter = YesNo::yes;
  const Findings gated = find_all(c);
  EXPECT_FALSE(gated.earlier_learners);
  EXPECT_EQ(gated.earlier_learners_none_why, "not_assessable_now");
  EXPECT_FALSE(gated.beside_adaptation[0].borrowed);
  c.facts.b_for = std::vector<std::string>{};
  EXPECT_EQ(find_all(c).earlier_learners_none_why, "not_asked");
}

// B has no part in A: without the learner's cycles A is the same to the last digit, for the learner is not trained and so
// not among the settled.
TEST(TwoAnswers, TakingTheLearnersCyclesAwayChangesNothingInContent) {
  Case with = team(4), without = with;
  std::erase_if(without.cycle_log, [](const LoggedCycle& cycle) { return cycle.op == 0; });
  const ContentFindings a = find_all(with).content, b = find_all(without).content;
  EXPECT_EQ(a.word, ContentWord::fits);
  EXPECT_EQ(a.word, b.word);
  EXPECT_EQ(a.decision_row, b.decision_row);
  EXPECT_EQ(a.leans, b.leans);
  EXPECT_EQ(a.reasons, b.reasons);
  EXPECT_EQ(a.would_decide, b.would_decide);
  EXPECT_EQ(a.standard.mean, b.standard.mean);
  ASSERT_TRUE(a.combined && b.combined && a.settled.line && b.settled.line);
  EXPECT_EQ(a.combined->p_fits, b.combined->p_fits);
  EXPECT_EQ(a.combined->ln_ratio, b.combined->ln_ratio);
  EXPECT_EQ(a.combined->u, b.combined->u);
  EXPECT_EQ(a.settled.line->operators, 4);
  EXPECT_EQ(a.settled.line->ratio, b.settled.line->ratio);
  EXPECT_EQ(a.settled.line->sd_within, b.settled.line->sd_within);
  EXPECT_EQ(a.share_able.estimate, b.share_able.estimate);
  EXPECT_EQ(a.sequence.p, b.sequence.p);
}

TEST(TwoAnswers, WhatIsAskedOfBChangesNothingInContent) {
  Case asked = team(4), not_asked = asked;
  not_asked.facts.b_for = std::vector<std::string>{};
  const ContentFindings a = find_all(asked).content, b = find_all(not_asked).content;
  EXPECT_EQ(a.word, b.word);
  EXPECT_EQ(a.combined->p_fits, b.combined->p_fits);
  EXPECT_EQ(a.reasons, b.reasons);
}

// What is closed in B can't be read from A either; and A's word stays.
TEST(TwoAnswers, NothingOfAClosedAnswerStandsInAForSomebodyNotCounted) {
  Case open = team(4), closed = open;
  closed.facts.open_safety_matter = YesNo::yes;
  const ContentFindings a = find_all(open).content, b = find_all(closed).content;
  const OperatorLevel& seen = a.settled.per_operator.front();
  ASSERT_EQ(seen.op, 0);
  EXPECT_EQ(seen.status, OperatorStatus::untrained);
  const OperatorLevel& held = b.settled.per_operator.front();
  ASSERT_EQ(held.op, 0);
  EXPECT_EQ(held.status, OperatorStatus::not_said);
  EXPECT_EQ(held.n, 0);
  EXPECT_EQ(held.plain_seen, 0);
  EXPECT_EQ(held.level.time, Seconds{});
  EXPECT_FALSE(held.fall);
  EXPECT_EQ(a.word, b.word);
  EXPECT_EQ(a.combined->p_fits, b.combined->p_fits);
  for (std::size_t i = 1; i < b.settled.per_operator.size(); ++i)
    EXPECT_EQ(b.settled.per_operator[i].status, OperatorStatus::settled)
        << "counted in the line, and so open to recomputation";
}

TEST(TwoAnswers, ARowThatWouldShowTheLevelIsTakenOut) {
  Case input;
  input.operators = {made::trained("K1"), made::trained("K11")};
  ContentFindings content;
  for (std::int32_t op = 0; op < 2; ++op) {
    OperatorLevel level;
    level.op = op;
    level.status = OperatorStatus::too_short;
    content.settled.per_operator.push_back(level);
  }
  SettledRow help, other, both;
  help.code = "with_help";
  other.who = "K11";
  both.who = "K1, K11";
  content.settled.rows = {help, other, both};
  withhold_level(content, input, 0);
  ASSERT_EQ(content.settled.rows.size(), 2U);
  EXPECT_EQ(content.settled.rows[1].who, "K11");
  EXPECT_EQ(content.settled.per_operator[1].status, OperatorStatus::too_short);
}

TEST(Contradiction, SettledInAAndStillLearningInB) {
  ContentFindings content;
  OperatorLevel level;
  level.op = 2;
  level.status = OperatorStatus::settled;
  content.settled.per_operator = {level};
  Adaptation adaptation;
  adaptation.op = 2;
  adaptation.word = AdaptationWord::still_learning;
  EXPECT_TRUE(contradicts(content, adaptation));
  adaptation.op = 1;
  EXPECT_FALSE(contradicts(content, adaptation));
  adaptation.op = 2;
  for (const AdaptationWord word : words_of_b) {
    adaptation.word = word;
    EXPECT_EQ(contradicts(content, adaptation), word == AdaptationWord::still_learning);
  }
  content.settled.per_operator[0].status = OperatorStatus::falling;
  adaptation.word = AdaptationWord::still_learning;
  EXPECT_FALSE(contradicts(content, adaptation));
}

// A steep start long ago and a steady end: A looks at the last days after 1,000 cycles, B at the whole record.
TEST(Contradiction, IsADataFaultOnlyWhereBothAreSaid) {
  const Findings f = find_all(team(4));
  for (const Adaptation& a : f.adaptation) {
    const std::string& code = "K1";
    EXPECT_EQ(has_fault(f, "settled_and_still_learning", code), contradicts(f.content, a));
  }
}

} // namespace
} // namespace docket
