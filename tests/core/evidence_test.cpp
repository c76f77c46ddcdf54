// The rules of core/evidence.h on cases small enough to count by hand.
#include "core/evidence.h"
#include "tests/core/made_case.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

using namespace std::chrono_literals;

TEST(Evidence, WaitingIsTakenOutOfALogCycle) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  LoggedCycle cycle = made::logged(0, made::at(0, 6), 58.5, 2);
  cycle.wait = Seconds{6.5};
  c.cycle_log = {cycle};
  const Evidence e = gather_evidence(c, Seconds{60});
  ASSERT_EQ(e.cycles.size(), 1U);
  EXPECT_DOUBLE_EQ(e.cycles[0].work.count(), 52.0);
}

TEST(Evidence, AShiftAcrossMidnightIsItsStartDay) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.cycle_log = {made::logged(0, made::at(0, 22), 50, 2), made::logged(0, made::at(1, 0.5), 51, 3),
                 made::logged(0, made::at(1, 5.5), 52, 4), made::logged(0, made::at(1, 22), 53, 5)};
  const Evidence e = gather_evidence(c, Seconds{60});
  ASSERT_EQ(e.cycles.size(), 4U);
  EXPECT_EQ(e.cycles[0].day, made::day(0));
  EXPECT_EQ(e.cycles[1].day, made::day(0));
  EXPECT_EQ(e.cycles[2].day, made::day(0));
  EXPECT_EQ(e.cycles[3].day, made::day(1));
}

TEST(Evidence, OwnCountGoesOnAfterWhatCameBeforeAndLeavesOutStarvedBlockedAndInstrumentRows) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1", 300)};
  for (int i = 0; i < 5; ++i) c.cycle_log.push_back(made::logged(0, made::at(0, 6 + i * 0.02), 50 + i, 2 + i));
  c.cycle_log[1].marks.set(Mark::starved);
  c.cycle_log[2].marks.set(Mark::helped);
  const Evidence e = gather_evidence(c, Seconds{60});
  ASSERT_EQ(e.cycles.size(), 5U);
  EXPECT_EQ(e.cycles[0].own_count, 301);
  EXPECT_EQ(e.cycles[1].own_count, 0);
  EXPECT_EQ(e.cycles[2].own_count, 302);
  EXPECT_EQ(e.cycles[4].own_count, 304);
}

TEST(Evidence, ShiftsBeforeCountAsCyclesPerShift) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.operators[0].prior_cycles.reset();
  c.operators[0].shifts_before = 3;
  c.facts.cycles_per_shift = 400;
  c.cycle_log = {made::logged(0, made::at(0, 6), 50, 2)};
  EXPECT_EQ(gather_evidence(c, Seconds{60}).cycles.at(0).own_count, 1201);
}

TEST(Evidence, LineTimeIsPracticeButNoTimeOfAPerson) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1", 0)};
  c.cycle_log = {made::logged(0, made::at(0, 6), 60, 2), made::logged(0, made::at(0, 6.1), 50, 3),
                 made::logged(0, made::at(0, 6.2), 51, 4)};
  c.cycle_log[0].is_line_time = true;
  const Evidence e = gather_evidence(c, Seconds{60});
  ASSERT_EQ(e.cycles.size(), 2U);
  EXPECT_EQ(e.cycles[0].own_count, 2);
  EXPECT_EQ(e.facts.line_time_rows, 1);
  ASSERT_EQ(e.excluded.size(), 1U);
  EXPECT_EQ(e.excluded[0].why, Exclusion::line_time);
  EXPECT_EQ(e.excluded[0].origin.row, 2);
}

TEST(Evidence, ALogWithMostCyclesAtTheLineCycleIsTheLinesTime) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1", 0)};
  for (int i = 0; i < 5; ++i)
    c.cycle_log.push_back(made::logged(0, made::at(0, 6 + i * 0.02), i < 3 ? 60.3 : 50, 2 + i));
  const Evidence e = gather_evidence(c, Seconds{60});
  EXPECT_TRUE(e.facts.log_is_line_time);
  EXPECT_TRUE(e.cycles.empty());
  EXPECT_EQ(e.facts.line_time_rows, 5);
}

TEST(Evidence, ReadingsStepBackWhereTheLogHasTheOperator) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1"), made::trained("K2")};
  c.sessions = {made::session("S1", 0, 0), made::session("S2", 1, 0), made::session("S3", 0, 5)};
  c.readings = {made::whole_reading(0, 1, 50, 2), made::whole_reading(1, 1, 51, 3), made::whole_reading(2, 1, 52, 4)};
  c.cycle_log = {made::logged(0, made::at(0, 7), 50, 2)};
  const Evidence e = gather_evidence(c, Seconds{60});
  EXPECT_EQ(e.restudy.size(), 3U);
  EXPECT_EQ(e.facts.readings_in_the_log, 1);
  ASSERT_EQ(e.cycles.size(), 3U); // the log's cycle and S3 of K1, S2 of K2
  EXPECT_EQ(e.cycles[0].session, -1);
  EXPECT_EQ(e.cycles[1].session, 2);
  EXPECT_EQ(e.cycles[2].session, 1);
}

TEST(Evidence, ALogWithoutOperatorsDisplacesNothing) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 0)};
  c.readings = {made::whole_reading(0, 1, 50, 2)};
  c.cycle_log = {made::logged(-1, made::at(0, 7), 50, 2)};
  const Evidence e = gather_evidence(c, Seconds{60});
  EXPECT_EQ(e.facts.readings_in_the_log, 0);
  EXPECT_EQ(e.cycles.size(), 1U);
  EXPECT_EQ(e.facts.no_operator_rows, 1);
}

TEST(Evidence, ADifferingConditionTouchesItsPeriodOnly) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.cycle_log = {made::logged(0, made::at(0, 7), 50, 2), made::logged(0, made::at(1, 7), 50, 3),
                 made::logged(0, made::at(2, 7), 50, 4)};
  Condition tool;
  tool.check = "torque tool";
  tool.state = ConditionState::differs;
  tool.from = made::at(1, 0);
  tool.to = made::at(1, 24) - 1ms;
  c.conditions = {tool};
  const Evidence e = gather_evidence(c, Seconds{60});
  EXPECT_EQ(e.cycles[0].condition, -1);
  EXPECT_EQ(e.cycles[1].condition, 0);
  EXPECT_EQ(e.cycles[2].condition, -1);
  ASSERT_EQ(e.excluded.size(), 1U);
  EXPECT_EQ(e.excluded[0].why, Exclusion::condition);
}

TEST(Evidence, AConditionOnAnElementTouchesTheVariantsThatCarryIt) {
  Case c = made::one_element_case(60, 50);
  c.variants = {made::variant("plain", 0.5), made::variant("heater", 0.5, {"H"})};
  StandardElement heater = made::element("E2", 6, 0);
  heater.any_option = {"H"};
  c.standard.push_back(heater);
  c.operators = {made::trained("K1")};
  c.cycle_log = {made::logged(0, made::at(0, 7), 50, 2, 0), made::logged(0, made::at(0, 7.1), 56, 3, 1)};
  Condition crimper;
  crimper.check = "crimping tool";
  crimper.state = ConditionState::differs;
  crimper.elements = {1};
  c.conditions = {crimper};
  const Evidence e = gather_evidence(c, Seconds{60});
  EXPECT_EQ(e.cycles[0].condition, -1);
  EXPECT_EQ(e.cycles[1].condition, 0);
}

TEST(Evidence, ElementReadingsMakeACycleOnlyWhereAllElementsWereTimed) {
  Case c = made::one_element_case(60, 30);
  c.standard.push_back(made::element("E2", 20, 0));
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 0, 1.1)};
  const auto by_element = [](std::int64_t cycle, std::int32_t element, double s, std::int64_t row) {
    Reading r = made::whole_reading(0, cycle, s, row);
    r.element = element;
    return r;
  };
  c.readings = {by_element(1, 0, 31, 2), by_element(1, 1, 21, 3), by_element(2, 0, 30, 4)};
  const Evidence e = gather_evidence(c, Seconds{60});
  ASSERT_EQ(e.restudy.size(), 1U);
  EXPECT_DOUBLE_EQ(e.restudy[0].work.count(), 52.0);
  EXPECT_NEAR(e.restudy[0].rating.value(), 1.1, 1e-12);
  ASSERT_EQ(e.excluded.size(), 1U);
  EXPECT_EQ(e.excluded[0].why, Exclusion::elements_missing);
}

TEST(Evidence, EveryRowNotUsedIsListedOnce) {
  Case c = made::one_element_case(60, 50);
  c.variants = {made::variant("A", 0.5), made::variant("B", 0.5)};
  c.operators = {made::trained("K1")};
  for (int i = 0; i < 6; ++i) c.cycle_log.push_back(made::logged(0, made::at(0, 6 + i * 0.02), 50 + i, 2 + i));
  c.cycle_log[0].station = add_log_word(c, "HP-99");
  c.cycle_log[1].op = -1;
  c.cycle_log[2].variant = -1;
  c.cycle_log[3].marks.set(Mark::defect);
  c.cycle_log[3].marks.set(Mark::foreign);
  const Evidence e = gather_evidence(c, Seconds{60});
  std::vector<std::int64_t> rows;
  std::vector<Exclusion> why;
  for (const ExcludedRow& row : e.excluded) {
    rows.push_back(row.origin.row);
    why.push_back(row.why);
  }
  EXPECT_EQ(rows, (std::vector<std::int64_t>{2, 3, 4, 5}));
  EXPECT_EQ(why, (std::vector<Exclusion>{Exclusion::other_station, Exclusion::no_operator, Exclusion::no_variant,
                                         Exclusion::mark}));
}

TEST(Evidence, RowsOfTheLogThatAreAlikeStandTogether) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  // Rows 2 to 4, 6, 7 and 9 of another station; 7 has a mark; 9 comes from another file.
  for (const int row : {2, 3, 4, 5, 6, 7, 8, 9}) {
    c.cycle_log.push_back(made::logged(0, made::at(0, 6 + row * 0.02), 50 + row, row));
    if (row != 5 && row != 8) c.cycle_log.back().station = add_log_word(c, "HP-99");
  }
  c.cycle_log[5].marks.set(Mark::defect);
  c.cycle_log[7].origin = {1, TableName::cycle_log, 8};
  const Evidence e = gather_evidence(c, Seconds{60});
  std::vector<std::pair<std::int64_t, std::int64_t>> rows; // first, how many
  for (const ExcludedRow& row : e.excluded) rows.emplace_back(row.origin.row, row.rows);
  EXPECT_EQ(rows, (std::vector<std::pair<std::int64_t, std::int64_t>>{{2, 3}, {6, 1}, {7, 1}, {8, 1}}));
  EXPECT_EQ(rows_excluded(e), 6);
  EXPECT_EQ(e.facts.other_station_rows, 6);
}

// Two observers timed the same three cycles: three cycles, once each, by the sheet of the session named.
TEST(Evidence, ACycleTimedByTwoObserversIsOneCycle) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 1), made::session("S1R", 0, 1)};
  c.sessions[1].same_as = "S1";
  for (int i = 0; i < 3; ++i) {
    c.readings.push_back(made::whole_reading(0, i + 1, 50 + i, 2 + i));
    c.readings.push_back(made::whole_reading(1, i + 1, 51 + i, 12 + i));
  }
  c.readings.push_back(made::whole_reading(1, 4, 55, 15)); // only the second observer has it
  const Evidence e = gather_evidence(c, Seconds{60});
  ASSERT_EQ(e.restudy.size(), 4U);
  EXPECT_EQ(e.cycles.size(), 4U);
  EXPECT_EQ(e.restudy[0].work, Seconds{50});
  EXPECT_EQ(e.restudy[3].work, Seconds{55});
  ASSERT_EQ(e.second_sheets.size(), 3U);
  EXPECT_EQ(e.second_sheets[2].work, Seconds{53});
  ASSERT_EQ(e.excluded.size(), 3U);
  EXPECT_EQ(e.excluded[0].why, Exclusion::timed_twice);
  EXPECT_EQ(e.excluded[0].origin.row, 12);
}

TEST(Evidence, TwoSessionsThatNameEachOtherAreOnePair) {
  Case c = made::one_element_case(60, 50);
  c.operators = {made::trained("K1")};
  c.sessions = {made::session("S1", 0, 1), made::session("S2", 0, 1)};
  c.sessions[0].same_as = "S2";
  c.sessions[1].same_as = "S1";
  c.readings = {made::whole_reading(0, 1, 50, 2), made::whole_reading(1, 1, 52, 3)};
  const Evidence e = gather_evidence(c, Seconds{60});
  ASSERT_EQ(e.restudy.size(), 1U);
  EXPECT_EQ(e.restudy[0].work, Seconds{50});
}

} // namespace
} // namespace docket
