#include "core/content/lines/time_available.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

CaseFacts day_of(double minutes, double units, double oee) {
  CaseFacts facts;
  facts.working_min_per_day = minutes;
  facts.units_per_day = units;
  facts.oee = oee;
  return facts;
}

// Common practice: 912 minutes and 800 units a day give a takt of 68.4 s; at an OEE of 80.4 % the line runs at 55 s.
TEST(TimeAvailable, TaktAndLineCycleOfADay) {
  const TimeAvailableResult r = find_time_available(day_of(912, 800, 0.804));
  ASSERT_TRUE(r.time);
  EXPECT_NEAR(r.time->takt->count(), 68.4, 1e-9);
  EXPECT_NEAR(r.time->line_cycle.count(), 55.0, 0.05); // printed to the second
  EXPECT_NEAR(*r.time->over_speed, 1 - 0.804, 1e-12);
}

// Rother & Shook, Learning to See (1999): 27,600 s available, 460 pieces: takt 60 s.
TEST(TimeAvailable, TaktOfAPublishedExample) {
  const TimeAvailableResult r = find_time_available(day_of(460, 460, 1));
  ASSERT_TRUE(r.time);
  EXPECT_DOUBLE_EQ(r.time->takt->count(), 60.0);
}

TEST(TimeAvailable, WhatIsGivenMayDifferByHalfAPercentAndNoMore) {
  CaseFacts facts = day_of(912, 800, 0.804);
  facts.line_cycle = Seconds{54.9936 * 1.0049};
  EXPECT_TRUE(find_time_available(facts).time);
  facts.line_cycle = Seconds{54.9936 * 1.0051};
  const TimeAvailableResult r = find_time_available(facts);
  EXPECT_FALSE(r.time);
  ASSERT_TRUE(r.disagreement);
  EXPECT_EQ(r.disagreement->what, "line cycle time");
  EXPECT_NEAR(r.disagreement->computed.count(), 54.9936, 1e-9);
}

TEST(TimeAvailable, TooLittleGiven) {
  CaseFacts facts;
  facts.takt = Seconds{60};
  const TimeAvailableResult r = find_time_available(facts);
  EXPECT_FALSE(r.time);
  EXPECT_FALSE(r.disagreement);
}

TEST(TimeAvailable, AnAllowanceInsideTheCycleLowersTheLimit) {
  CaseFacts facts;
  facts.line_cycle = Seconds{66};
  facts.allowance = 0.10;
  facts.allowance_where = AllowanceWhere::in_cycle;
  EXPECT_NEAR(find_time_available(facts).time->limit.count(), 60, 1e-12);
  EXPECT_DOUBLE_EQ(find_time_available(facts).time->measured_factor, 1);
}

TEST(TimeAvailable, AnAllowanceInTheStandardIsPutOnMeasuredTimes) {
  CaseFacts facts;
  facts.line_cycle = Seconds{66};
  facts.allowance = 0.10;
  facts.allowance_where = AllowanceWhere::in_standard;
  EXPECT_DOUBLE_EQ(find_time_available(facts).time->limit.count(), 66);
  EXPECT_DOUBLE_EQ(find_time_available(facts).time->measured_factor, 1.10);
}

} // namespace
} // namespace docket
