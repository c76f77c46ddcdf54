#include "core/ergonomics/composite_lifting.h"
#include "tests/core/ergonomics/reason_codes.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

/// All multipliers 1 but the frequency's: FIRWL is 23 kg.
LiftingTask lift(const std::string& name, double load, double per_min, double hours = 1) {
  LiftingTask task;
  task.task = name;
  task.load = load;
  task.origin = {.h = 25, .v = 75, .d = 25, .a = 0, .coupling = Coupling::good};
  task.per_min = per_min;
  task.hours = hours;
  task.recovery_hours = 7;
  return task;
}

// By hand with the printed table of FM (0.94 at 1, 0.88 at 1 + 2, 0.70 at 1 + 2 + 4): loads of 1.5, 1.0 and 2/3 times
// FIRWL. 1.5/0.94 + 1.0 (1/0.88 - 1/0.94) + 2/3 (1/0.70 - 1/0.88).
TEST(CompositeLifting, three_tasks_by_hand) {
  const std::vector<LiftingTask> tasks{lift("small box", 23 * 2 / 3.0, 4), lift("large box", 34.5, 1),
                                       lift("middle box", 23, 2)};
  const CompositeLiftScreening screened = screen_composite_lift(tasks);
  ASSERT_TRUE(screened.exact);
  const std::vector<CompositeLiftStep>& steps = screened.exact->steps;
  ASSERT_EQ(steps.size(), 3U);
  EXPECT_EQ(steps[0].task, 1U);
  EXPECT_EQ(steps[1].task, 2U);
  EXPECT_EQ(steps[2].task, 0U);
  EXPECT_NEAR(steps[0].stli, 1.5 / 0.94, 1e-12);
  EXPECT_NEAR(steps[1].stli, 1.0 / 0.91, 1e-12);
  EXPECT_NEAR(steps[2].stli, 2 / 3.0 / 0.84, 1e-12);
  EXPECT_NEAR(steps[0].adds, 1.595745, 5e-7);
  EXPECT_NEAR(steps[1].adds, 0.072534, 5e-7);
  EXPECT_NEAR(steps[2].adds, 0.194805, 5e-7);
  EXPECT_NEAR(screened.exact->cli, 1.863084, 5e-7);
  EXPECT_DOUBLE_EQ(steps[2].per_min_sum, 7);
  EXPECT_DOUBLE_EQ(steps[2].fm_sum_before, 0.88);
  EXPECT_DOUBLE_EQ(steps[2].fm_sum, 0.70);
}

// Invariant: one task told in three parts is still one task at the sum of the frequencies.
TEST(CompositeLifting, a_task_in_parts_is_the_task) {
  const std::vector<LiftingTask> parts{lift("a", 12, 1, 8), lift("b", 12, 2, 8), lift("c", 12, 4, 8)};
  const CompositeLiftScreening screened = screen_composite_lift(parts);
  const LiftScreening whole = screen_lift(lift("all", 12, 7, 8));
  EXPECT_NEAR(screened.exact->cli, whole.origin.exact->li, 1e-12);
  // Equal tasks differ in STLI by their frequency alone: the most frequent first.
  EXPECT_EQ(screened.exact->steps[0].task, 2U);
}

// The order is that of STLI, not of FILI: a lighter load lifted often comes before a heavier one lifted seldom.
// 14/(23 x 0.22) = 2.77 at 7 a minute, 20/(23 x 0.85) = 1.02 at 0.2.
TEST(CompositeLifting, order_by_the_index_with_the_frequency) {
  const std::vector<LiftingTask> tasks{lift("heavy", 20, 0.2, 8), lift("often", 14, 7, 8)};
  const CompositeLiftScreening screened = screen_composite_lift(tasks);
  EXPECT_EQ(screened.exact->steps[0].task, 1U);
  EXPECT_GT(screened.exact->steps[1].fili, screened.exact->steps[0].fili);
}

// The longest class holds for the job: FM 0.75 for 1 a minute in 8 h, not 0.94.
TEST(CompositeLifting, the_longest_duration_holds_for_all) {
  const std::vector<LiftingTask> tasks{lift("short", 23, 1, 1), lift("long", 10, 1, 8)};
  const CompositeLiftScreening screened = screen_composite_lift(tasks);
  EXPECT_EQ(screened.duration, LiftDuration::up_to_8_h);
  EXPECT_NEAR(screened.exact->steps[0].stli, 1 / 0.75, 1e-12);
}

TEST(CompositeLifting, the_worse_place_counts) {
  std::vector<LiftingTask> tasks{lift("a", 10, 1), lift("b", 10, 1)};
  tasks[1].destination = LiftPlace{.h = 50, .v = 100, .d = 25, .a = 0, .coupling = Coupling::good};
  const CompositeLiftScreening screened = screen_composite_lift(tasks);
  EXPECT_EQ(screened.exact->steps[0].task, 1U);
  EXPECT_TRUE(screened.exact->steps[0].at_destination);
  EXPECT_NEAR(screened.exact->steps[0].firwl, 23 * 0.5 * 0.925, 1e-12);
  EXPECT_FALSE(screened.exact->steps[1].at_destination);
}

// As printed: HM 25/30 is 0.83, FIRWL 23 x 0.83 = 19.1, STRWL 19.09 x 0.94 = 17.9 at one decimal.
TEST(CompositeLifting, as_printed_rounds_as_the_manual) {
  std::vector<LiftingTask> tasks{lift("a", 20, 1), lift("b", 10, 1)};
  tasks[0].origin.h = 30;
  const CompositeLiftScreening screened = screen_composite_lift(tasks);
  EXPECT_NEAR(screened.as_printed->steps[0].firwl, 19.1, 1e-9);
  EXPECT_NEAR(screened.as_printed->steps[0].strwl, 17.9, 1e-9);
  EXPECT_NEAR(screened.as_printed->steps[0].stli, 20 / 17.9, 1e-9);
  EXPECT_NEAR(screened.exact->steps[0].firwl, 23 * 25 / 30.0, 1e-12);
  // 10/23 (1/0.91 - 1/0.94) is added by the second.
  EXPECT_NEAR(screened.as_printed->cli, 20 / 17.9 + 10 / 23.0 * (1 / 0.91 - 1 / 0.94), 1e-9);
}

TEST(CompositeLifting, no_number_without_all_tasks) {
  EXPECT_EQ(codes_of(screen_composite_lift(std::vector{lift("a", 10, 1)}).why_not), Codes{"fewer_than_two_tasks"});
  std::vector<LiftingTask> tasks{lift("a", 10, 1), lift("b", 10, 1)};
  tasks[1].origin.h = 70;
  const CompositeLiftScreening outside = screen_composite_lift(tasks);
  EXPECT_FALSE(outside.exact || outside.as_printed);
  EXPECT_EQ(codes_of(outside.why_not), Codes{"task_without_number:b"});
  tasks[1] = lift("b", 10, 1, 9);
  const CompositeLiftScreening hours = screen_composite_lift(tasks);
  EXPECT_EQ(codes_of(hours.why_not), Codes{"task_without_number:b"});
  EXPECT_FALSE(hours.duration);
}

// Each alone is in the table, 9 and 9 a minute; together 18 are not.
TEST(CompositeLifting, no_number_beyond_the_table) {
  const std::vector<LiftingTask> tasks{lift("a", 10, 9), lift("b", 9, 9)};
  const CompositeLiftScreening screened = screen_composite_lift(tasks);
  EXPECT_FALSE(screened.exact || screened.as_printed);
  EXPECT_EQ(codes_of(screened.why_not), Codes{"sum_of_frequencies_beyond_table:b"});
}

} // namespace
} // namespace docket
