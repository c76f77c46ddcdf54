// All methods on one case: what is carried to them, and what a faster line does.
#include "core/ergonomics/ergonomics.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

/// 60 s line; E1 in every unit, E2 (20 s, twice) and standing by (E3, 4 s) in a quarter of them.
Case two_variants() {
  Case input = made::one_element_case(60, 30);
  input.standard.push_back(made::element("E2", 10, 0));
  input.standard.back().times_per_unit = 2;
  input.standard.back().any_option = {"tank"};
  input.standard.push_back(made::element("E3", 4, 0));
  input.standard.back().kind = ElementKind::wait;
  input.variants = {made::variant("light", 0.75), made::variant("heavy", 0.25, {"tank"})};
  return input;
}

Lift lift_of(double load) {
  Lift lift;
  lift.task = "pump";
  lift.load = load;
  lift.from = {30, 75, 25, 0.0, Coupling::good};
  lift.hours = 7.5;
  return lift;
}

Effort effort_of(std::int32_t element) {
  Effort effort;
  effort.task = "clamp";
  effort.hand = Hand::right;
  effort.force_n = 60;
  effort.time = Seconds{1.5};
  effort.times_per_unit = 4;
  effort.strength_n = 200;
  effort.strength_source = "measured";
  effort.hours = 7.5;
  effort.element = element;
  return effort;
}

// By hand: 30 s in every unit and 20 s in a quarter of them; the 4 s of standing by are no work.
TEST(Ergonomics, BusyIsTheWorkOfTheMeanUnit) {
  const Ergonomics found = screen_ergonomics(two_variants(), Seconds{60}, 420);
  EXPECT_DOUBLE_EQ(found.busy_per_unit.count(), 35);
  EXPECT_DOUBLE_EQ(found.repetition.now->recovery->count(), 25);
  EXPECT_DOUBLE_EQ(*found.repetition.now->cycles_per_shift, 420);
}

// By hand: two lifts on a quarter of the units are half a lift a minute on a 60 s line, 0.6 on a 50 s line.
TEST(Ergonomics, LiftsFollowTheMixAndTheLine) {
  Case input = two_variants();
  input.lifts = {lift_of(8)};
  input.lifts[0].element = 1;
  input.lifts[0].times_per_unit = 2;
  input.facts.line_cycle_asked = Seconds{50};
  const Ergonomics found = screen_ergonomics(input, Seconds{60}, std::nullopt);
  const LiftCaution& caution = found.lifts.at(0);
  EXPECT_DOUBLE_EQ(caution.share_of_units, 0.25);
  EXPECT_TRUE(caution.per_min_from_units);
  EXPECT_DOUBLE_EQ(caution.now.per_min, 0.5);
  EXPECT_DOUBLE_EQ(caution.asked->per_min, 0.6);
  // A higher frequency never raises the limit (its table falls).
  EXPECT_LT(caution.asked->screened.origin.exact->rwl, caution.now.screened.origin.exact->rwl);
  EXPECT_FALSE(found.composite);
}

// By hand: what the sheet gives holds now, and goes with the line: 3 a minute at 60 s are 3.6 at 50 s.
TEST(Ergonomics, AGivenFrequencyHoldsNow) {
  Case input = two_variants();
  input.lifts = {lift_of(8), lift_of(4)};
  input.lifts[0].per_min = 3;
  input.lifts[0].element = 1;
  input.lifts[1].per_min = 1;
  input.facts.line_cycle_asked = Seconds{50};
  const Ergonomics found = screen_ergonomics(input, Seconds{60}, std::nullopt);
  EXPECT_DOUBLE_EQ(found.lifts[0].now.per_min, 3);
  EXPECT_DOUBLE_EQ(found.lifts[0].asked->per_min, 3.6);
  EXPECT_FALSE(found.lifts[0].per_min_from_units);
  ASSERT_TRUE(found.composite && found.composite->exact);
  EXPECT_GT(found.composite_asked->exact->cli, found.composite->exact->cli);
}

// By hand: 4 x 1.5 s in a quarter of the units over 60 s is 0.025; in every unit 0.1; at 50 s 0.03.
TEST(Ergonomics, EffortsFollowTheMixAndTheLine) {
  Case input = two_variants();
  input.efforts = {effort_of(1), effort_of(-1)};
  input.facts.line_cycle_asked = Seconds{50};
  const Ergonomics found = screen_ergonomics(input, Seconds{60}, std::nullopt);
  EXPECT_DOUBLE_EQ(*found.efforts[0].now.acceptable.duty_cycle, 0.025);
  EXPECT_DOUBLE_EQ(*found.efforts[0].in_a_row->duty_cycle, 0.1);
  EXPECT_DOUBLE_EQ(*found.efforts[0].asked->acceptable.duty_cycle, 0.03);
  EXPECT_DOUBLE_EQ(*found.efforts[1].now.acceptable.duty_cycle, 0.1);
  EXPECT_FALSE(found.efforts[1].in_a_row);
  EXPECT_GT(*found.efforts[0].asked->acceptable.of_acceptable, *found.efforts[0].now.acceptable.of_acceptable);
  ASSERT_EQ(found.hands.size(), 1U);
  EXPECT_DOUBLE_EQ(*found.hands[0].duty_cycle, 0.125);
  EXPECT_DOUBLE_EQ(*found.hands_asked[0].duty_cycle, 0.15);
}

// Moore & Garg 1995, the example worked in the paper (from memory; the product closes): somewhat hard, 60 % of the time,
// 12 a minute, fair, fair, 4 to 8 h: 3 x 2 x 1.5 x 1.5 x 1 x 1 = 13.5. Here 12 efforts of 3 s on a 60 s line.
TEST(Ergonomics, RatingsGiveTheStrainIndex) {
  Case input = two_variants();
  input.efforts = {effort_of(-1)};
  Effort& effort = input.efforts[0];
  effort.time = Seconds{3};
  effort.times_per_unit = 12;
  EXPECT_FALSE(screen_ergonomics(input, Seconds{60}, std::nullopt).efforts[0].now.strain.result);
  effort.rated_intensity = ExertionIntensity::somewhat_hard;
  effort.rated_posture = WristPosture::fair;
  effort.rated_speed = WorkSpeed::fair;
  const EffortAtCycle now = screen_ergonomics(input, Seconds{60}, std::nullopt).efforts[0].now;
  ASSERT_TRUE(now.strain.result);
  EXPECT_DOUBLE_EQ(now.strain.result->index, 13.5);
}

TEST(Ergonomics, TheAngleOfTheWristGoesToTheRevisedIndex) {
  Case input = two_variants();
  input.efforts = {effort_of(-1)};
  EXPECT_FALSE(screen_ergonomics(input, Seconds{60}, std::nullopt).efforts[0].now.revised_strain.result);
  input.efforts[0].wrist_deg = 20;
  const EffortAtCycle now = screen_ergonomics(input, Seconds{60}, std::nullopt).efforts[0].now;
  ASSERT_TRUE(now.revised_strain.result);
  // 1.2 e^(0.009 x 20) - 0.2, by hand.
  EXPECT_NEAR(now.revised_strain.result->pm, 1.23666, 1e-5);
}

TEST(Ergonomics, NothingGivenNothingScreened) {
  const Ergonomics found = screen_ergonomics(two_variants(), Seconds{60}, std::nullopt);
  EXPECT_TRUE(found.lifts.empty());
  EXPECT_TRUE(found.efforts.empty());
  EXPECT_TRUE(found.hands.empty());
  EXPECT_FALSE(found.asked_cycle);
  EXPECT_FALSE(found.repetition.asked);
  EXPECT_TRUE(has_code(found.repetition.now->why_not, "cycles_per_shift_not_given"));
}

} // namespace
} // namespace docket
