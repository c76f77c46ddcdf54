#include "core/ergonomics/efforts.h"
#include "tests/core/ergonomics/reason_codes.h"

#include <gtest/gtest.h>

#include <cmath>
#include <utility>

namespace docket {
namespace {

/// 1.5 s, twice a unit, 60 N of 200 N.
HandEffort clamp(Hand hand = Hand::right) {
  HandEffort effort;
  effort.task = "hose clamp";
  effort.hand = hand;
  effort.force_n = 60;
  effort.time = Seconds{1.5};
  effort.times_per_unit = 2;
  effort.strength_n = 200;
  effort.strength_source = "measured on 12 people of the plant, 10th percentile";
  effort.hours = 7.5;
  return effort;
}

EffortScreening screened(void (*change)(HandEffort&), double cycle_s = 60) {
  HandEffort effort = clamp();
  change(effort);
  return screen_efforts(std::vector{effort}, Seconds{cycle_s}).efforts.at(0);
}

// Closed form, no published example at hand: 1 - (DC - 1/28800)^0.24 worked with a calculator to four digits. The form
// itself is from memory.
TEST(Efforts, closed_form) {
  for (const auto& [duty, mae] : {std::pair{0.01, 0.6691}, std::pair{0.05, 0.5128}, std::pair{0.10, 0.4246},
                                  std::pair{0.25, 0.2830}, std::pair{0.50, 0.1533}, std::pair{0.75, 0.0667}})
    EXPECT_NEAR(*maximum_acceptable_effort(duty), mae, 5e-5) << duty;
  // One second in 8 hours: all of the strength; all of the time: none of it but for the 1/28800.
  EXPECT_DOUBLE_EQ(*maximum_acceptable_effort(1.0 / 28800), 1);
  EXPECT_NEAR(*maximum_acceptable_effort(1), 0.24 / 28800, 1e-9);
}

TEST(Efforts, outside_the_equation_there_is_no_number) {
  EXPECT_FALSE(maximum_acceptable_effort(1.0 / 28801));
  EXPECT_FALSE(maximum_acceptable_effort(1.0001));
  EXPECT_FALSE(maximum_acceptable_effort(std::nan("")));
}

// 2 x 1.5 s of 60 s is a duty of 0.05, MAE 0.5128: 102.6 N of 200 N; 60 N is 0.3 of the strength, 0.585 of that.
TEST(Efforts, one_effort) {
  const EffortsScreening all = screen_efforts(std::vector{clamp()}, Seconds{60});
  const EffortScreening& one = all.efforts.at(0);
  EXPECT_DOUBLE_EQ(*one.duty_cycle, 0.05);
  EXPECT_NEAR(*one.mae, 0.5128, 5e-5);
  EXPECT_NEAR(*one.acceptable_n, 102.56, 0.01);
  EXPECT_DOUBLE_EQ(*one.force_share, 0.3);
  EXPECT_NEAR(*one.of_acceptable, 0.5850, 1e-4);
  EXPECT_TRUE(one.why_not.empty() && one.notes.empty());
  ASSERT_EQ(all.hands.size(), 1U);
  EXPECT_EQ(all.hands[0].hand, Hand::right);
  EXPECT_DOUBLE_EQ(*all.hands[0].duty_cycle, 0.05);
}

// On a line with half the cycle the same seconds are twice the share: 0.10, MAE 0.4246.
TEST(Efforts, a_faster_line_shows_its_effect) {
  const EffortScreening faster = screened([](HandEffort&) {}, 30);
  EXPECT_DOUBLE_EQ(*faster.duty_cycle, 0.10);
  EXPECT_NEAR(*faster.mae, 0.4246, 5e-5);
  EXPECT_NEAR(*faster.of_acceptable, 0.3 / 0.4246, 1e-4);
}

// An effort on a fifth of the units has a fifth of the duty: 0.01, MAE 0.6691.
TEST(Efforts, the_mix_scales_the_duty) {
  const EffortScreening some = screened([](HandEffort& e) { e.share_of_units = 0.2; });
  EXPECT_NEAR(*some.duty_cycle, 0.01, 1e-15);
  EXPECT_NEAR(*some.mae, 0.6691, 5e-5);
}

TEST(Efforts, share_of_units_follows_the_options) {
  Case input;
  input.variants.resize(2);
  input.variants[0].share = 0.7;
  input.variants[1].share = 0.3;
  input.variants[1].options = {"heater"};
  StandardElement clamp_element, heater;
  clamp_element.element = "hose clamp";
  heater.element = "heater plug";
  heater.any_option = {"heater"};
  input.standard = {clamp_element, heater};
  EXPECT_DOUBLE_EQ(*share_of_units_with(input, "hose clamp"), 1);
  EXPECT_DOUBLE_EQ(*share_of_units_with(input, "heater plug"), 0.3);
  EXPECT_FALSE(share_of_units_with(input, "no such element"));
}

// By hand of both, left and right: 0.05 + 0.10 + 0.05. Right: 60 N of 200 N for 0.05 and 100 N of 200 N for 0.10:
// mean (0.05 x 0.3 + 0.10 x 0.5) / 0.15 = 0.4333, largest 0.5; MAE at 0.15 closed form 0.36584.
TEST(Efforts, by_hand_over_the_cycle) {
  HandEffort push = clamp(Hand::both);
  push.task = "plug";
  push.force_n = 100;
  push.times_per_unit = 4;
  HandEffort hold = clamp(Hand::left);
  hold.task = "panel";
  const EffortsScreening all = screen_efforts(std::vector{clamp(), push, hold}, Seconds{60});
  ASSERT_EQ(all.hands.size(), 2U);
  EXPECT_EQ(all.hands[0].hand, Hand::left);
  EXPECT_EQ(all.hands[0].efforts, 2U);
  const HandScreening& right = all.hands[1];
  EXPECT_NEAR(*right.duty_cycle, 0.15, 1e-15);
  EXPECT_NEAR(*right.mae, 1 - std::pow(0.15 - 1.0 / 28800, 0.24), 1e-12);
  EXPECT_DOUBLE_EQ(*right.largest_force_share, 0.5);
  EXPECT_NEAR(*right.mean_force_share, 13.0 / 30, 1e-12);
  EXPECT_EQ(codes_of(right.notes), Codes{"equation_is_for_one_effort"});
  EXPECT_LT(*right.mae, *all.efforts[1].mae);
}

TEST(Efforts, strength_and_its_source_are_asked_for) {
  const EffortScreening none = screened([](HandEffort& e) { e.strength_n.reset(); });
  EXPECT_EQ(codes_of(none.why_not), Codes{"strength_not_given"});
  EXPECT_TRUE(none.mae);
  EXPECT_FALSE(none.of_acceptable || none.acceptable_n || none.force_share);
  const EffortScreening no_source = screened([](HandEffort& e) { e.strength_source.clear(); });
  EXPECT_EQ(codes_of(no_source.why_not), Codes{"strength_source_not_given"});
  EXPECT_FALSE(no_source.of_acceptable || no_source.acceptable_n || no_source.force_share);
  EXPECT_EQ(codes_of(screened([](HandEffort& e) { e.strength_n = 0; }).why_not), Codes{"strength_not_positive"});

  HandEffort bare = clamp();
  bare.task = "plug";
  bare.strength_n.reset();
  const HandScreening right = screen_efforts(std::vector{clamp(), bare}, Seconds{60}).hands.at(0);
  EXPECT_DOUBLE_EQ(*right.duty_cycle, 0.10);
  EXPECT_TRUE(right.mae);
  EXPECT_FALSE(right.largest_force_share || right.mean_force_share);
  EXPECT_EQ(codes_of(right.why_not), Codes{"effort_without_strength:plug"});
}

TEST(Efforts, each_bad_value_has_its_own_reason) {
  for (const auto& [code, change] :
       {std::pair<const char*, void (*)(HandEffort&)>{"force_not_positive", [](HandEffort& e) { e.force_n = 0; }},
        {"seconds_not_positive", [](HandEffort& e) { e.time = Seconds{0}; }},
        {"times_not_positive", [](HandEffort& e) { e.times_per_unit = 0; }},
        {"share_out_of_range", [](HandEffort& e) { e.share_of_units = 1.1; }},
        {"hours_not_positive", [](HandEffort& e) { e.hours = 0; }},
        {"hours_beyond_range", [](HandEffort& e) { e.hours = 9; }}}) {
    const EffortScreening effort = screened(change);
    EXPECT_EQ(codes_of(effort.why_not), Codes{code});
    EXPECT_FALSE(effort.mae || effort.duty_cycle || effort.of_acceptable) << code;
  }
  EXPECT_EQ(codes_of(screen_efforts(std::vector{clamp()}, Seconds{0}).why_not), Codes{"cycle_not_positive"});
}

TEST(Efforts, duty_out_of_range) {
  const EffortScreening rare = screened([](HandEffort& e) { e.share_of_units = 0.0001; });
  EXPECT_EQ(codes_of(rare.why_not), Codes{"duty_below_range"});
  const EffortScreening full = screened([](HandEffort& e) { e.times_per_unit = 41; });
  EXPECT_EQ(codes_of(full.why_not), Codes{"duty_above_one"});
  EXPECT_FALSE(rare.mae || full.mae || full.of_acceptable);
  // Two that fit alone and not together.
  const auto half = [](HandEffort e) {
    e.times_per_unit = 21;
    return e;
  };
  const EffortsScreening both = screen_efforts(std::vector{half(clamp()), half(clamp())}, Seconds{60});
  EXPECT_TRUE(both.efforts[0].mae);
  EXPECT_EQ(codes_of(both.hands[0].why_not), Codes{"duty_above_one"});
  EXPECT_FALSE(both.hands[0].mae);
  EXPECT_EQ(codes_of(both.efforts[0].notes), Codes{"few_data_at_this_duty"});
}

TEST(Efforts, notes) {
  EXPECT_EQ(codes_of(screened([](HandEffort& e) { e.force_n = 201; }).notes), Codes{"force_above_strength"});
  EXPECT_EQ(codes_of(screened([](HandEffort& e) { e.hours.reset(); }).notes), Codes{"hours_not_given"});
}

// A sum with an effort left out would look better than it is.
TEST(Efforts, no_sum_without_all_efforts) {
  HandEffort bad = clamp();
  bad.task = "plug";
  bad.force_n = 0;
  const HandScreening right = screen_efforts(std::vector{clamp(), bad}, Seconds{60}).hands.at(0);
  EXPECT_EQ(codes_of(right.why_not), Codes{"effort_not_usable:plug"});
  EXPECT_FALSE(right.duty_cycle || right.mae || right.largest_force_share);
}

} // namespace
} // namespace docket
