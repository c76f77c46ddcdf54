// The second rows of the settled operators, by hand: levels are known exactly, so every row is a mean of logarithms.
#include "tests/core/content/steady_case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

using made::find_settled;
using made::steady_case;

const SettledRow* row_of(const SettledResult& result, std::string_view code) {
  const auto found =
      std::find_if(result.rows.begin(), result.rows.end(), [&](const SettledRow& row) { return row.code == code; });
  return found == result.rows.end() ? nullptr : &*found;
}

double mean_of_logs(const std::vector<double>& levels) {
  double sum = 0;
  for (const double level : levels) sum += std::log(level);
  return std::exp(sum / static_cast<double>(levels.size()));
}

TEST(SettledRows, NoneWhereThereIsNothingToCount) {
  const SettledResult r = find_settled(steady_case({50, 51, 52}));
  EXPECT_TRUE(r.rows.empty());
  EXPECT_EQ(r.left_out_one.size(), 3U);
}

// One of K1's 400 cycles was helped for 20 s: it is left out of the line and stands in the row with 20 s more.
TEST(SettledRows, HelpIsCountedWithItsSeconds) {
  Case c = steady_case({50, 51, 52});
  c.cycle_log[0].marks.set(Mark::helped);
  c.cycle_log[0].helped = Seconds{20};
  c.cycle_log[0].helped_given = true;
  const double helped = c.cycle_log[0].cycle.count();
  const SettledResult r = find_settled(c);
  const SettledRow* row = row_of(r, "with_help");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ(row->added, 1);
  EXPECT_EQ(row->line.cycles, 1200);
  EXPECT_EQ(r.line->cycles, 1199);
  EXPECT_NEAR(row->line.level.time.count(), mean_of_logs({50 + 20.0 / 400, 51, 52}), 1e-9);
  EXPECT_NEAR(r.line->level.time.count(), mean_of_logs({(400 * 50 - helped) / 399, 51, 52}), 1e-9);
  EXPECT_TRUE(row->line.level.leans.empty());
}

TEST(SettledRows, HelpOfACycleThatIsAlsoStarvedIsNotCounted) {
  Case c = steady_case({50, 51, 52});
  c.cycle_log[0].marks.set(Mark::helped);
  c.cycle_log[0].marks.set(Mark::starved);
  EXPECT_EQ(row_of(find_settled(c), "with_help"), nullptr);
}

TEST(SettledRows, ForeignWorkStandsBesideTheLine) {
  Case c = steady_case({50, 51, 52});
  c.cycle_log[0].marks.set(Mark::foreign);
  c.cycle_log[0].cycle = Seconds{90};
  const SettledResult r = find_settled(c);
  const SettledRow* row = row_of(r, "with_foreign");
  ASSERT_NE(row, nullptr);
  const double plain = 400 * 50 - 50 * (1 - 0.03);
  EXPECT_NEAR(row->line.level.time.count(), mean_of_logs({(plain + 90) / 400, 51, 52}), 1e-9);
}

// K4 left after 150 cycles: too few to be settled, so their mean so far counts in the row.
TEST(SettledRows, ALeaverIsCountedAtTheLastKnownMean) {
  Case c = steady_case({50, 51, 52, 58});
  c.operators[3].left_station = made::day(2);
  std::erase_if(c.cycle_log,
                [](const LoggedCycle& cycle) { return cycle.op == 3 && cycle.started_at >= made::at(1, 0); });
  const SettledResult r = find_settled(c);
  EXPECT_EQ(r.line->operators, 3);
  EXPECT_EQ(r.per_operator.back().status, OperatorStatus::left);
  const SettledRow* row = row_of(r, "with_leavers");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ(row->line.operators, 4);
  EXPECT_EQ(row->who, "K4");
  EXPECT_EQ(row->unseen, 0);
  EXPECT_NEAR(row->line.level.time.count(), mean_of_logs({50, 51, 52, 58}), 1e-9);
  EXPECT_EQ(row_of(r, "with_too_short"), nullptr); // who left stands in the leavers' row only
}

// Nothing is known of K9: the slowest stayer, 52 s, times e^s.
TEST(SettledRows, ALeaverWithoutCyclesIsTakenAsTheSlowestAndOneSpreadMore) {
  Case c = steady_case({50, 51, 52});
  c.operators.push_back(made::trained("K9"));
  c.operators.back().left_station = made::day(-20);
  const SettledResult r = find_settled(c);
  const SettledRow* row = row_of(r, "with_leavers");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ(row->unseen, 1);
  EXPECT_NEAR(row->line.level.time.count(), mean_of_logs({50, 51, 52, 52 * std::exp(r.line->s)}), 1e-9);
  EXPECT_TRUE(r.line->level.leans.empty());
}

TEST(SettledRows, WithFewerThanThreeStayersTheLineLeans) {
  Case c = steady_case({50, 52});
  c.operators.push_back(made::trained("K9"));
  c.operators.back().left_station = made::day(-20);
  const SettledResult r = find_settled(c);
  EXPECT_EQ(row_of(r, "with_leavers"), nullptr);
  ASSERT_EQ(r.line->level.leans.size(), 2U);
  EXPECT_EQ(r.line->level.leans[1], (Reason{"leavers_row_not_computed", "K9"}));
}

TEST(SettledRows, ALeaverWhoWasNeverTrainedIsNotAmongThePeopleAskedAbout) {
  Case c = steady_case({50, 51, 52});
  c.operators.push_back(made::trained("K9"));
  c.operators.back().trained = YesNo::no;
  c.operators.back().left_station = made::day(-20);
  EXPECT_TRUE(find_settled(c).rows.empty());
}

TEST(SettledRows, AShortRecordShowsWhatItWouldChange) {
  Case c = steady_case({50, 51, 52, 58});
  std::erase_if(c.cycle_log,
                [](const LoggedCycle& cycle) { return cycle.op == 3 && cycle.started_at >= made::at(1, 0); });
  const SettledResult r = find_settled(c);
  const SettledRow* row = row_of(r, "with_too_short");
  ASSERT_NE(row, nullptr);
  EXPECT_EQ(row->who, "K4");
  EXPECT_NEAR(row->line.level.time.count(), mean_of_logs({50, 51, 52, 58}), 1e-9);
}

TEST(SettledRows, WithoutAnyOneOfThem) {
  const SettledResult r = find_settled(steady_case({48, 50, 55}));
  ASSERT_EQ(r.left_out_one.size(), 3U);
  EXPECT_NEAR(r.left_out_one[0].line.level.time.count(), mean_of_logs({50, 55}), 1e-9);
  EXPECT_NEAR(r.left_out_one[2].line.level.time.count(), mean_of_logs({48, 50}), 1e-9);
  EXPECT_NEAR(r.left_out_one[2].line.s, std::log(50.0 / 48) / std::sqrt(2), 1e-9);
  // Two are left: each line then rests on exactly two people and says so, with the spread between people on top.
  EXPECT_EQ(r.left_out_one[1].line.level.leans.at(0).code, "exactly_two_operators");
}

TEST(SettledRows, TwoPeopleLeaveOne) {
  const SettledResult r = find_settled(steady_case({48, 50}));
  ASSERT_EQ(r.left_out_one.size(), 2U);
  EXPECT_NEAR(r.left_out_one[0].line.level.time.count(), 50, 1e-9);
  EXPECT_EQ(r.left_out_one[0].line.s, 0);
  EXPECT_EQ(r.left_out_one[0].line.level.leans.at(0).code, "fewer_than_three_operators");
  EXPECT_TRUE(find_settled(steady_case({48})).left_out_one.empty());
}

} // namespace
} // namespace docket
