// The bridge as an identity, and on numbers small enough to work out by hand.
#include "core/bridge/time_bridge.h"
#include "core/findings.h"
#include "tests/core/adaptation/simulated_learner.h"

#include <gtest/gtest.h>

#include <cmath>

namespace docket {
namespace {

/// K1 asked about; K2 to K4 settled at 1.00, 1.02 and 1.04 times the standard of 50 s; limit 60 s.
struct Small {
  Case input = made::one_element_case(60, 50);
  Evidence evidence;
  ContentFindings content;
  TimeAvailable time;
  Adaptation adaptation;
};

Small small() {
  Small s;
  s.time.limit = s.time.line_cycle = Seconds{60};
  s.content.standard.mean = Seconds{50};
  s.content.standard.level.u = 0.03;
  s.content.standard.variants = {{0, 1, Seconds{50}, {}}};
  for (std::int32_t op = 0; op < 4; ++op) {
    OperatorLevel level;
    level.op = op;
    level.status = op == 0 ? OperatorStatus::falling : OperatorStatus::settled;
    level.ratio = 0.98 + 0.02 * op;
    s.content.settled.per_operator.push_back(level);
  }
  s.adaptation.op = 0;
  s.adaptation.word = AdaptationWord::still_learning;
  AdaptationEstimates e;
  e.settled = {Seconds{54}, Seconds{52}, Seconds{57}};
  e.today = {Seconds{63}, Seconds{62}, Seconds{64}};
  e.improvement = 9.0 / 63;
  e.improvement_low = 0.10;
  e.improvement_high = 0.18;
  e.mean_seen = Seconds{66};
  s.adaptation.estimates = e;
  return s;
}

TimeBridge bridge_of(const Small& s) { return build_time_bridge(s.input, s.evidence, s.content, s.time, s.adaptation); }

// By hand: 50 - 60; 50 e^mean(ln 1, ln 1.02, ln 1.04) = 50 (1.0608)^(1/3) = 50.99346; 54 - 50.99346; 63 - 54; 66 - 63.
TEST(TimeBridge, TermsByHand) {
  const TimeBridge b = bridge_of(small());
  ASSERT_TRUE(b.terms);
  EXPECT_TRUE(b.absent_why.empty());
  const double peers = 50 * std::cbrt(1.00 * 1.02 * 1.04);
  EXPECT_NEAR(peers, 50.99346, 1e-5);
  const double expected[] = {-10, peers - 50, 54 - peers, 9, 3};
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_EQ((*b.terms)[i].term, bridge_terms[i]);
    EXPECT_NEAR((*b.terms)[i].seconds.count(), expected[i], 1e-9);
    EXPECT_LE((*b.terms)[i].low, (*b.terms)[i].seconds);
    EXPECT_GE((*b.terms)[i].high, (*b.terms)[i].seconds);
  }
  EXPECT_NEAR(b.sum.count(), 6, 1e-12);
}

// Standard against limit: only the standard is uncertain, 1.96 x 3 % on the log scale. Today against own settled: the
// improvement left, 10 to 18 % of 63 s. Seen against today: the interval of today alone.
TEST(TimeBridge, IntervalsByHand) {
  const auto terms = *bridge_of(small()).terms;
  EXPECT_NEAR(terms[0].low.count(), 50 * std::exp(-1.959964 * 0.03) - 60, 1e-5);
  EXPECT_NEAR(terms[0].high.count(), 50 * std::exp(1.959964 * 0.03) - 60, 1e-5);
  EXPECT_NEAR(terms[3].low.count(), 6.3, 1e-9);
  EXPECT_NEAR(terms[3].high.count(), 11.34, 1e-9);
  EXPECT_NEAR(terms[4].low.count(), 2, 1e-9);
  EXPECT_NEAR(terms[4].high.count(), 4, 1e-9);
  // Peers: t(2; 0.975) = 4.30265 times the SD of the three logarithms over root 3; own settled 2 below, 3 above.
  const double a = 0, l2 = std::log(1.02), l3 = std::log(1.04), mean = (a + l2 + l3) / 3;
  const double sd = std::sqrt(((a - mean) * (a - mean) + (l2 - mean) * (l2 - mean) + (l3 - mean) * (l3 - mean)) / 2);
  const double reach = 4.302653 * sd / std::sqrt(3.0), peers = 50 * std::exp(mean);
  EXPECT_NEAR(terms[2].low.count(), 54 - peers - std::hypot(2, peers * (std::exp(reach) - 1)), 1e-4);
  EXPECT_NEAR(terms[2].high.count(), 54 - peers + std::hypot(3, peers * (1 - std::exp(-reach))), 1e-4);
}

// Levels are for the planned mix; the person built heavier units: 60 s instead of 50 s, so every level is 1.2 times as long.
TEST(TimeBridge, EveryLevelIsForTheMixBuilt) {
  Small s = small();
  s.content.standard.variants = {{0, 0.5, Seconds{40}, {}}, {1, 0.5, Seconds{60}, {}}};
  for (int i = 0; i < 3; ++i) {
    PersonCycle cycle;
    cycle.op = i == 2 ? 1 : 0; // the last is somebody else's
    cycle.variant = i == 2 ? 0 : 1;
    s.evidence.cycles.push_back(cycle);
  }
  PersonCycle marked = s.evidence.cycles[0], gated = marked;
  marked.variant = gated.variant = 0;
  marked.marks.set(Mark::helped);
  gated.condition = 0;
  s.evidence.cycles.push_back(marked);
  s.evidence.cycles.push_back(gated);
  const TimeBridge b = bridge_of(s);
  EXPECT_NEAR((*b.terms)[0].seconds.count(), 0, 1e-9);
  EXPECT_NEAR((*b.terms)[3].seconds.count(), 1.2 * 9, 1e-9);
  EXPECT_NEAR((*b.terms)[4].seconds.count(), 1.2 * 3, 1e-9);
  EXPECT_NEAR(b.sum.count(), 1.2 * 66 - 60, 1e-9);
}

TEST(TimeBridge, TwoPeersAreTooFew) {
  Small s = small();
  s.content.settled.per_operator[3].status = OperatorStatus::too_short;
  TimeBridge b = bridge_of(s);
  EXPECT_FALSE(b.terms);
  EXPECT_EQ(b.absent_why, "too_few_peers");
  // The person is no peer of their own.
  s.content.settled.per_operator[0].status = OperatorStatus::settled;
  b = bridge_of(s);
  EXPECT_FALSE(b.terms);
  EXPECT_EQ(b.sum, Seconds{});
}

TEST(TimeBridge, WithoutEstimatesThereIsNone) {
  Small s = small();
  s.adaptation.estimates.reset();
  s.adaptation.word = AdaptationWord::not_shown;
  EXPECT_EQ(bridge_of(s).absent_why, "no_estimates");
  EXPECT_FALSE(bridge_of(s).terms);
  close_adaptation(s.adaptation);
  EXPECT_EQ(bridge_of(s).absent_why, "not_assessable_now");
  EXPECT_FALSE(bridge_of(s).terms);
}

// The terms add up to what was seen less the limit, whatever the case: two variants, an allowance the standard holds.
TEST(TimeBridge, TermsSumToSeenLessLimit) {
  Case c = made::one_element_case(60, 45);
  c.variants = {made::variant("light", 0.7), made::variant("heavy", 0.3, {"H"})};
  StandardElement heater = made::element("E2", 10, 0.05);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  c.facts.allowance = 0.05;
  c.facts.allowance_where = AllowanceWhere::in_standard;
  c.facts.cycles_per_shift = 100;
  c.facts.complainants = {"K1"};
  c.operators = {made::trained("K1", 0)};
  c.operators[0].trained = YesNo::no;
  made::log_times(c, 0, made::simulated_times(300, 0, 0.05, 1, [](double n) { return 48 + 30 * std::exp(-n / 150); }),
                  100);
  for (std::int32_t op = 1; op <= 4; ++op) {
    c.operators.push_back(made::trained("K" + std::to_string(op + 1)));
    made::log_times(
        c, op,
        made::simulated_times(400, 0, 0.04, 50 + static_cast<std::uint64_t>(op), [&](double) { return 46.5 + op; }),
        100);
  }
  for (std::size_t i = 0; i < c.cycle_log.size(); ++i) c.cycle_log[i].variant = i % 5 < 2 ? 1 : 0;
  const Findings f = find_all(c);
  ASSERT_EQ(f.bridges.size(), 1U);
  ASSERT_TRUE(f.bridges[0].terms) << f.bridges[0].absent_why;
  Seconds sum{};
  for (const BridgeTerm& term : *f.bridges[0].terms) {
    sum += term.seconds;
    EXPECT_LE(term.low, term.seconds) << term.term;
    EXPECT_GE(term.high, term.seconds) << term.term;
  }
  EXPECT_NEAR(sum.count(), f.bridges[0].sum.count(), 1e-9);
  // Seen: the person's plain cycles with the allowance, each scaled by its content, for the mix built (2 heavy in 5: 49 s).
  double seen = 0;
  for (const LoggedCycle& cycle : c.cycle_log)
    if (cycle.op == 0) seen += 1.05 * cycle.cycle.count() / (cycle.variant == 1 ? 55.0 : 45.0) / 300;
  EXPECT_NEAR(f.bridges[0].sum.count(), seen * 49 - f.time.limit.count(), 1e-6);
}

} // namespace
} // namespace docket
