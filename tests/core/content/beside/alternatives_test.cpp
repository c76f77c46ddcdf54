#include "core/content/beside/alternatives.h"
#include "core/rules.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace docket {
namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

struct Found {
  SequenceFindings sequence;
  Alternatives alternatives;
};

Found find(const Case& c, const SequenceBasis& basis) {
  const TimeAvailable time = *find_time_available(c.facts).time;
  const Evidence evidence = gather_evidence(c, time.line_cycle);
  const StandardTime standard = build_standard_time(c, time.line_cycle);
  Found found;
  found.sequence = find_sequence(c, evidence, standard, time, basis);
  found.alternatives = find_alternatives(c, evidence, standard, time, basis, found.sequence);
  return found;
}

SequenceBasis known(double level) { return {Seconds{level}, 0.04, infinite, {0.02, 0}, 0, true}; }

StandardElement with_option(StandardElement element, const std::string& option) {
  element.any_option = {option};
  return element;
}

StandardElement after(StandardElement element, std::vector<std::string> before) {
  element.after = std::move(before);
  return element;
}

/// 60 s; light 48 s, heavy 63 s; ten light and ten heavy by turns, 40 units; zone 3 and 9 s.
Case heavy_in_rows() {
  Case c = made::one_element_case(60, 48);
  c.facts.early_start = Seconds{3};
  c.facts.late_finish = Seconds{9};
  c.facts.cycles_per_shift = 50;
  c.variants = {made::variant("light", 0.5), made::variant("heavy", 0.5, {"H"})};
  c.standard.push_back(with_option(made::element("E2", 15, 0), "H"));
  for (int i = 0; i < 40; ++i) {
    SequenceUnit unit;
    unit.position = i + 1;
    unit.variant = (i / 10) % 2;
    unit.run = "1";
    c.build_sequence.push_back(unit);
  }
  return c;
}

// By hand: unit 11 starts at -3, 12 at 0, 13 at 3, 14 at 6, 15 at 9: finished 12 s past the limit, 3 s past the zone.
// Every later heavy unit of the row is finished as late, none later. Four units of 3 s from the start on time: 12 s.
TEST(Stretches, TheWorstStretchOnPaper) {
  const Found found = find(heavy_in_rows(), known(55.5));
  ASSERT_TRUE(found.alternatives.stretches);
  const HeaviestStretches& s = *found.alternatives.stretches;
  ASSERT_TRUE(s.worst);
  EXPECT_EQ(s.worst->first, 11U);
  EXPECT_EQ(s.worst->last, 14U);
  EXPECT_EQ(found.sequence.given->worst_position, 15);
  EXPECT_NEAR(s.over_limit.count(), 12, 1e-9);
  EXPECT_NEAR(s.finish.count(), 12, 1e-9);
  EXPECT_NEAR(s.over_zone.count(), 3, 1e-9);
  ASSERT_TRUE(s.longest_heaviest && s.longest_above);
  EXPECT_EQ(s.longest_heaviest->first, 10U);
  EXPECT_EQ(s.longest_heaviest->last, 19U);
  EXPECT_EQ(s.longest_above->first, 10U);
}

TEST(Stretches, ARunStartsOnTimeAndCutsARow) {
  Case c = heavy_in_rows();
  for (std::size_t i = 13; i < c.build_sequence.size(); ++i) c.build_sequence[i].run = "2";
  const HeaviestStretches s = *find(c, known(55.5)).alternatives.stretches;
  // The second run starts at unit 14 with 0: 3, 6, 9, then past it; the worst is unit 17.
  EXPECT_EQ(s.worst->first, 13U);
  EXPECT_EQ(s.worst->last, 16U);
  EXPECT_EQ(s.longest_heaviest->first, 30U);
}

TEST(Stretches, NothingLateNothingHeavy) {
  Case c = heavy_in_rows();
  c.standard[1].time = Seconds{5};
  const HeaviestStretches s = *find(c, known(50.5)).alternatives.stretches;
  EXPECT_FALSE(s.worst);
  EXPECT_FALSE(s.longest_above);
  EXPECT_TRUE(s.longest_heaviest);
}

// By hand: light and heavy by turns: -12 and +3 from a start at 0 or -3; nothing is late. Before: see sequence_test.cpp.
TEST(EvenOrderOfTheCase, ByTurnsNothingIsOverloaded) {
  const Found found = find(heavy_in_rows(), known(55.5));
  ASSERT_TRUE(found.alternatives.even);
  const EvenOrder& even = *found.alternatives.even;
  EXPECT_EQ(even.units, 40);
  EXPECT_EQ(even.changed, 20);
  EXPECT_EQ(even.before.overloads, 12);
  EXPECT_NEAR(even.before.lost.count(), 36, 1e-9);
  EXPECT_EQ(even.before.longest_heaviest, 10);
  EXPECT_EQ(even.after.overloads, 0);
  EXPECT_NEAR(even.after.lost.count(), 0, 1e-9);
  EXPECT_EQ(even.after.longest_heaviest, 1);
  ASSERT_TRUE(even.k_star && even.p);
  EXPECT_GT(*even.p, found.sequence.given->p);
}

TEST(EvenOrderOfTheCase, NothingWithoutAnOrderOrWithOneVariant) {
  Case c = heavy_in_rows();
  c.build_sequence.clear();
  EXPECT_FALSE(find(c, known(55.5)).alternatives.even);
  EXPECT_FALSE(find(c, known(55.5)).alternatives.stretches);
  c = heavy_in_rows();
  c.facts.late_finish.reset();
  EXPECT_FALSE(find(c, known(55.5)).alternatives.even);
}

TEST(Enough, ForTheDrawnOrderAndTheOneGiven) {
  Case c = heavy_in_rows();
  c.facts.cycles_per_shift = 100;
  const Alternatives a = find(c, known(55.5)).alternatives;
  ASSERT_EQ(a.enough.size(), 2U);
  EXPECT_TRUE(a.enough[0].drawn);
  EXPECT_FALSE(a.enough[1].drawn);
  EXPECT_EQ(a.enough[0].units, 100 * rules::drawn_shifts);
  const DrawnSequence drawn = *find(c, known(55.5)).sequence.drawn;
  EXPECT_NEAR(a.enough[0].rate_per_1000, drawn.overloads_per_1000, 1e-9);
  EXPECT_EQ(a.enough[0].out_of_variant.size(), 2U);
  // The order given has rows of ten; it needs more than the drawn one.
  EXPECT_GT(*a.enough[1].late_finish.needed, *a.enough[0].late_finish.needed);
  // Ten heavy ones of +3 s from a start 3 s early, and about 1 in 100 tolerated: late by 27 s less a little.
  EXPECT_GT(a.enough[1].late_finish.needed->count(), 25);
  EXPECT_TRUE(a.enough[1].out_of_variant[1].seconds);
}

// Forty heavy ones of +3 s in a row, from a start 3 s early, finish 117 s late: nobody can be a line cycle late.
TEST(Enough, ALateFinishOfMoreThanALineCycleIsNone) {
  Case c = heavy_in_rows();
  for (std::size_t i = 0; i < 40; ++i) {
    c.build_sequence.push_back(c.build_sequence[i]);
    c.build_sequence.back().position = static_cast<std::int64_t>(i) + 41;
    c.build_sequence[i].variant = 0;
    c.build_sequence.back().variant = 1;
  }
  const Alternatives a = find(c, known(55.5)).alternatives;
  ASSERT_EQ(a.enough.size(), 2U);
  EXPECT_TRUE(a.enough[0].late_finish.needed);
  EXPECT_FALSE(a.enough[1].late_finish.needed);
  EXPECT_EQ(a.enough[1].late_finish.none_why, "not_within_a_line_cycle");
}

TEST(Enough, NothingWithoutSpreadOrZone) {
  SequenceBasis basis = known(55.5);
  basis.spread_known = false;
  const Alternatives a = find(heavy_in_rows(), basis).alternatives;
  EXPECT_TRUE(a.enough.empty());
  EXPECT_FALSE(a.out_of_every_unit.sequence);
  EXPECT_TRUE(a.even);
  EXPECT_FALSE(a.even->p);
}

// By hand over 0.75 light and 0.25 heavy: NVA walk 4 s, and 8 s on heavy ones is 2 s a unit; NNVA get 2 x 3 s = 6 s.
// S = 40 + 4 + 2 + 6 + 5 (wait) = 57 s; with T = 60.0 and limit 60 each second weighs 60/57.
TEST(Waste, NvaFirstThenNnvaEachBySeconds) {
  Case c = made::one_element_case(60, 40);
  c.variants = {made::variant("light", 0.75), made::variant("heavy", 0.25, {"H"})};
  c.standard.push_back(with_option(made::element("turn", 8, 0, ElementClass::nva), "H"));
  StandardElement get = made::element("get", 3, 0, ElementClass::nnva);
  get.times_per_unit = 2;
  c.standard.push_back(get);
  c.standard.push_back(made::element("walk", 4, 0, ElementClass::nva));
  StandardElement wait = made::element("wait", 5, 0, ElementClass::nva);
  wait.kind = ElementKind::wait;
  c.standard.push_back(wait);
  const std::vector<WasteElement> waste = find(c, known(60)).alternatives.waste;
  ASSERT_EQ(waste.size(), 3U);
  EXPECT_EQ(waste[0].element, 3);
  EXPECT_EQ(waste[1].element, 1);
  EXPECT_EQ(waste[2].element, 2);
  EXPECT_NEAR(waste[0].per_unit.count(), 4, 1e-9);
  EXPECT_NEAR(waste[1].per_unit.count(), 2, 1e-9);
  EXPECT_NEAR(waste[2].per_unit.count(), 6, 1e-9);
  EXPECT_NEAR(waste[2].sum.count(), 12, 1e-9);
  EXPECT_NEAR(waste[0].margin_standard.count(), 60 - 53, 1e-9);
  EXPECT_NEAR(waste[2].margin_standard.count(), 60 - 45, 1e-9);
  EXPECT_NEAR(waste[2].margin.count(), 12.0 * 60 / 57, 1e-9);
}

// E1 first, E2 and E3 after it, E4 after E2; E5 stands alone. Nothing waits for E3, E4, E5; E1 and E5 wait for nothing.
TEST(Moves, OnlyWithoutBreakingTheOrderOfElements) {
  Case c = made::one_element_case(60, 10);
  c.standard.push_back(after(made::element("E2", 9, 0), {"E1"}));
  c.standard.push_back(after(made::element("E3", 8, 0), {"E1"}));
  c.standard.push_back(after(made::element("E4", 12, 0), {"E2"}));
  c.standard.push_back(made::element("E5", 7, 0));
  StandardElement machine = after(made::element("E6", 6, 0), {"E5"});
  const Alternatives a = find(c, known(46)).alternatives;
  ASSERT_TRUE(a.precedence_given);
  ASSERT_EQ(a.movable.size(), 4U);
  EXPECT_EQ(a.movable[0].element, 3); // 12 s
  EXPECT_TRUE(a.movable[0].later && !a.movable[0].earlier);
  EXPECT_EQ(a.movable[1].element, 0); // 10 s
  EXPECT_TRUE(a.movable[1].earlier && !a.movable[1].later);
  EXPECT_EQ(a.movable[2].element, 2); // 8 s
  EXPECT_TRUE(a.movable[2].later && !a.movable[2].earlier);
  EXPECT_EQ(a.movable[3].element, 4); // 7 s
  EXPECT_TRUE(a.movable[3].later && a.movable[3].earlier);

  // A machine element cannot leave; what it waits for cannot leave to a later station.
  machine.kind = ElementKind::machine;
  c.standard.push_back(machine);
  const Alternatives b = find(c, known(52)).alternatives;
  ASSERT_EQ(b.movable.size(), 4U);
  EXPECT_TRUE(b.movable[3].earlier && !b.movable[3].later);
}

TEST(Moves, SecondsOverTheMixAndInTheHeaviestVariant) {
  Case c = heavy_in_rows();
  c.standard[1].after = {"E1"};
  const Alternatives a = find(c, known(55.5)).alternatives;
  ASSERT_EQ(a.movable.size(), 2U);
  EXPECT_EQ(a.movable[1].element, 1);
  EXPECT_NEAR(a.movable[1].per_unit.count(), 7.5, 1e-9);
  EXPECT_NEAR(a.movable[1].in_heaviest.count(), 15, 1e-9);
}

TEST(Moves, NotKnownWithoutAnOrderOfElements) {
  const Alternatives a = find(heavy_in_rows(), known(55.5)).alternatives;
  EXPECT_FALSE(a.precedence_given);
  EXPECT_TRUE(a.movable.empty());
}

} // namespace
} // namespace docket
