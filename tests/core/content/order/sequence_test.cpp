#include "core/content/order/sequence.h"
#include "core/statistics/distributions.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace docket {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

SequenceFindings find(const Case& c, const SequenceBasis& basis) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  return find_sequence(c, evidence, build_standard_time(c, time.line_cycle), time, basis);
}

Case with_zone(double early, double late) {
  Case c = made::one_element_case(60, 50);
  c.facts.early_start = Seconds{early};
  c.facts.late_finish = Seconds{late};
  return c;
}

TEST(Sequence, WithoutAWorkZoneNothingIsSaid) {
  const SequenceFindings s = find(made::one_element_case(60, 50), {Seconds{50}, 0.05, infinite, {0.06, 0}, 0, true});
  EXPECT_FALSE(s.zone_given);
  EXPECT_FALSE(s.p);
  EXPECT_FALSE(s.drawn);
}

// P_seq = F(ln k*/u); without a zone k* is a normal tail (see line_drift_test).
TEST(Sequence, ProbabilityComesFromTheMarginAndTheUncertaintyOfTheLevel) {
  const SequenceFindings s = find(with_zone(0, 0), {Seconds{50}, 0.05, infinite, {0.06, 0}, 0, true});
  const double k = 60.6 / 50 * std::exp(0.0018 - 0.06 * normal_quantile(0.99));
  ASSERT_TRUE(s.drawn);
  EXPECT_NEAR(s.drawn->k_star.factor, k, 0.004);
  EXPECT_NEAR(s.drawn->p, normal_cdf(std::log(s.drawn->k_star.factor) / 0.05), 1e-12);
  EXPECT_EQ(*s.p, s.drawn->p);
  EXPECT_EQ(s.drawn->tolerated_per_1000, 10);
  ASSERT_EQ(s.drawn->at_rates.size(), 3U);
  EXPECT_LT(s.drawn->at_rates[0].k_star.factor, s.drawn->at_rates[1].k_star.factor);
  EXPECT_EQ(s.drawn->at_rates[1].k_star.factor, s.drawn->k_star.factor);
}

// With no zone a station needs a 17 % margin to stay below 1 in 1,000 at 6 % cycle spread: k* at that rate, as a
// normal tail: 60.6/50 exp(0.0018 - 0.06 x 3.0902) = 1.0087.
TEST(Sequence, OneInAThousandAtSixPercentSpread) {
  const SequenceFindings s = find(with_zone(0, 0), {Seconds{50}, 0.05, infinite, {0.06, 0}, 0, true});
  EXPECT_NEAR(s.drawn->at_rates[0].k_star.factor, 1.0087, 0.006);
}

TEST(Sequence, TheSmallerOfGivenAndDrawnCounts) {
  Case c = with_zone(3, 9);
  c.variants = {made::variant("light", 0.5), made::variant("heavy", 0.5, {"H"})};
  StandardElement heater = made::element("E2", 15, 0);
  heater.any_option = {"H"};
  c.standard[0].time = Seconds{48};
  c.standard.push_back(heater);
  for (int i = 0; i < 40; ++i) { // ten heavy in a row, again and again: 63 s each against 60 s
    SequenceUnit unit;
    unit.position = i + 1;
    unit.variant = (i / 10) % 2;
    unit.run = "1";
    c.build_sequence.push_back(unit);
  }
  const SequenceFindings s = find(c, {Seconds{55.5}, 0.04, infinite, {0.02, 0}, 0, true});
  ASSERT_TRUE(s.given && s.drawn);
  EXPECT_LT(s.given->k_star.factor, s.drawn->k_star.factor);
  EXPECT_EQ(*s.p, s.given->p);
  // By hand at the standard's own times: from a start at -3 (units 11-20): -3 + 3 each: 0, 3, 6, 9, then 3 s over
  // from the fifth; six overloads of 3 s in the first batch. The second batch starts at -3 again.
  EXPECT_EQ(s.given->units, 40);
  EXPECT_EQ(s.given->overloads, 12);
  EXPECT_NEAR(s.given->lost.count(), 36, 1e-9);
  EXPECT_NEAR(s.given->overloads_per_1000, 300, 1e-9);
  EXPECT_EQ(s.given->worst_position, 15);
}

TEST(Heaviest, MarginAndRuns) {
  Case c = with_zone(3, 9);
  c.variants = {made::variant("light", 0.5), made::variant("heavy", 0.5, {"H"})};
  StandardElement heater = made::element("E2", 14, 0);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  const int order[] = {1, 1, 0, 1, 1, 1, 1};
  for (int i = 0; i < 7; ++i) {
    SequenceUnit unit;
    unit.position = i + 1;
    unit.variant = order[i];
    unit.run = i < 5 ? "day 1" : "day 2";
    c.build_sequence.push_back(unit);
  }
  const TimeAvailable time = *find_time_available(c.facts).time;
  const StandardTime standard = build_standard_time(c, time.line_cycle);
  const HeaviestVariant h = find_heaviest(c, standard, time, {standard.mean, 0.05, infinite, {}, 0, false});
  EXPECT_EQ(h.variant, 1);
  EXPECT_NEAR(h.time.count(), 64, 1e-9);
  EXPECT_NEAR(h.margin.count(), 60 + 9 - 64, 1e-9);
  EXPECT_EQ(h.run_that_fits, 2); // 9 / 4 = 2.25 (Scholl 1999)
  EXPECT_EQ(h.longest_run, 2);   // a new day starts a new run
}

} // namespace
} // namespace docket
