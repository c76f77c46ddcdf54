#include "core/content/motions/motion_analysis.h"
#include "tests/core/content/motions/made_motion_times.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

namespace docket {
namespace {

MotionStep row(std::int64_t step, const std::string& code, Hand hand = Hand::right, double per_element = 1) {
  MotionStep motion;
  motion.step = step;
  motion.code = code;
  motion.hand = hand;
  motion.per_element = per_element;
  return motion;
}

ElementMotionTime analyse(const std::vector<MotionStep>& rows) { return analyse_element(rows, made::motion_times()); }

std::vector<std::string> codes_of(const ElementMotionTime& element) {
  std::vector<std::string> codes;
  for (const MotionProblem& problem : element.problems) codes.push_back(problem.code);
  return codes;
}

using Codes = std::vector<std::string>;

// Published total, tests/reference/motion_examples/ORIGIN: 86.44 TMU = 3.11184 s.
TEST(MotionAnalysis, AddsUpThePublishedAnalysis) {
  std::vector<MotionStep> rows;
  for (const char* code : {"R16C", "G4A", "M10B5", "RL1", "R14B", "G1B", "M8C3", "P1NSE", "RL1"})
    rows.push_back(row(static_cast<std::int64_t>(rows.size()) + 1, code));
  const ElementMotionTime element = analyse(rows);
  ASSERT_TRUE(element.tmu);
  EXPECT_NEAR(*element.tmu, 86.44, 1e-9);
  EXPECT_NEAR(*element.tmu * 0.036, 3.11184, 1e-9);
  EXPECT_NEAR(element.tmu_one_after_another, 86.44, 1e-9);
  EXPECT_EQ(codes_of(element), Codes{});
}

// The principle of the limiting motion: R16C 17.0 against R14B 14.4, then G4A 7.3 against G1A 2.0.
TEST(MotionAnalysis, OfTwoHandsTheLongerCounts) {
  const ElementMotionTime element = analyse(
      {row(1, "R16C", Hand::left), row(1, "R14B", Hand::right), row(2, "G1A", Hand::left), row(2, "G4A", Hand::right)});
  EXPECT_NEAR(*element.tmu, 24.3, 1e-9);
  EXPECT_NEAR(element.tmu_one_after_another, 17 + 14.4 + 2 + 7.3, 1e-9);
  EXPECT_TRUE(element.rows[0].counts);
  EXPECT_FALSE(element.rows[1].counts);
  EXPECT_FALSE(element.rows[2].counts);
  EXPECT_TRUE(element.rows[3].counts);
  EXPECT_EQ(codes_of(element), (Codes{"pair_not_checked", "pair_not_checked"}));
  EXPECT_EQ(element.problems[0].wrong, "R16C and R14B are taken as done at the same time. The program has no published "
                                       "table that says whether they can be.");
}

TEST(MotionAnalysis, TwoEqualSimpleMotionsNeedNoTableOfPairs) {
  const ElementMotionTime element =
      analyse({row(1, "R14B", Hand::left), row(1, "R10A", Hand::right), row(2, "G5", Hand::left), row(2, "G5"),
               row(3, "M10B5", Hand::left), row(3, "M12A"), row(4, "RL1", Hand::left), row(4, "RL1")});
  EXPECT_NEAR(*element.tmu, 14.4 + 0 + 15.132 + 2, 1e-9);
  EXPECT_NEAR(element.tmu_one_after_another, *element.tmu, 1e-12);
  EXPECT_EQ(codes_of(element), Codes{});
}

// Combined motions of one hand: M10B 12.2 with a regrasp 5.6 on the way.
TEST(MotionAnalysis, OfMotionsOfOneHandAtOnceTheLongestCounts) {
  const ElementMotionTime element = analyse({row(1, "G2"), row(1, "M10B")});
  EXPECT_NEAR(*element.tmu, 12.2, 1e-12);
  EXPECT_FALSE(element.rows[0].counts);
  EXPECT_EQ(codes_of(element), Codes{"value_from_memory"});
  EXPECT_EQ(element.problems[0].wrong, "Of the shipped table, not confirmed in print: G2 (from memory, sure).");
}

TEST(MotionAnalysis, AnUnknownHandMakesAPairUnchecked) {
  const ElementMotionTime element = analyse({row(1, "RL1", Hand::not_given), row(1, "RL1", Hand::not_given)});
  EXPECT_NEAR(*element.tmu, 2, 1e-12);
  EXPECT_NEAR(element.tmu_one_after_another, 4, 1e-12);
  EXPECT_EQ(codes_of(element), Codes{"pair_not_checked"});
}

TEST(MotionAnalysis, OfManyRowsInOneStepEachIsReportedOnce) {
  const ElementMotionTime element = analyse(std::vector<MotionStep>(5, row(1, "RL1", Hand::not_given)));
  EXPECT_EQ(element.problems.size(), 4U);
}

// 20 lb in two hands: 10 lb each, 3.9 + 1.11 x 12.2.
TEST(MotionAnalysis, BothHandsShareTheWeight) {
  const ElementMotionTime element = analyse({row(1, "M10B20", Hand::both)});
  EXPECT_NEAR(*element.tmu, 17.442, 1e-9);
  EXPECT_EQ(element.rows[0].formula, "3.9 + 1.11 x 12.2, 10 lb a hand");
}

TEST(MotionAnalysis, CountsAMotionAsOftenAsItIsDone) {
  const ElementMotionTime element = analyse({row(1, "G1A", Hand::right, 3), row(2, "RL1", Hand::right, 0.5)});
  EXPECT_NEAR(*element.tmu, 7, 1e-12);
  EXPECT_EQ(codes_of(analyse({row(1, "G1A", Hand::right, 0)})), Codes{"count_not_positive"});
  EXPECT_EQ(codes_of(analyse({row(1, "G1A", Hand::right, std::nan(""))})), Codes{"count_not_positive"});
  const ElementMotionTime mixed = analyse({row(1, "RL1", Hand::left, 4), row(1, "RL1", Hand::right, 1)});
  EXPECT_NEAR(*mixed.tmu, 8, 1e-12);
  EXPECT_EQ(codes_of(mixed), Codes{"counts_differ"});
}

TEST(MotionAnalysis, ARowWithoutATimeLeavesTheElementWithoutOne) {
  const ElementMotionTime element = analyse({row(1, "R16C"), row(2, "GRAB"), row(3, "RL1")});
  EXPECT_FALSE(element.tmu);
  EXPECT_FALSE(element.rows[1].tmu);
  EXPECT_FALSE(element.rows[1].counts);
  EXPECT_TRUE(element.rows[2].counts);
  ASSERT_EQ(codes_of(element), Codes{"unreadable_code"});
  EXPECT_EQ(element.problems[0].row, 1U);
  EXPECT_EQ(element.problems[0].wrong, "\"GRAB\" is no code of the table.");
  EXPECT_FALSE(analyse({}).tmu);
}

TEST(MotionAnalysis, AStatedTimeIsComparedAndNotUsed) {
  MotionStep agrees = row(1, "M10B5"), differs = row(2, "R16C");
  agrees.stated_tmu = 15.1; // as printed with one digit
  differs.stated_tmu = 15.8;
  const ElementMotionTime element = analyse({agrees, differs});
  EXPECT_NEAR(*element.tmu, 32.132, 1e-9);
  ASSERT_EQ(codes_of(element), Codes{"stated_differs"});
  EXPECT_EQ(element.problems[0].wrong, "Stated 15.8 TMU, the table gives 17 (17): difference -1.2.");
}

TEST(MotionAnalysis, AsksWhetherALongReachIsInCentimetres) {
  const ElementMotionTime element = analyse({row(1, "R45B")});
  EXPECT_NEAR(*element.tmu, 25.8 + 15 * 0.7, 1e-9);
  EXPECT_EQ(codes_of(element), Codes{"distance_over_30"});
}

TEST(MotionAnalysis, PassesOnWhyAMotionHasNoTime) {
  EXPECT_EQ(codes_of(analyse({row(1, "T200S"), row(2, "T10S"), row(3, "M10B50"), row(4, "mR10C")})),
            (Codes{"beyond_table", "below_table", "weight_beyond_table", "not_in_table"}));
}

TEST(MotionAnalysis, ThePlantsOwnTableComesFirstAndIsNotFilled) {
  PlantMotionTable plant;
  EXPECT_TRUE(add_motion(plant, "r16c", 16.5, {0, TableName::motion_table, 2}));
  EXPECT_TRUE(add_motion(plant, "PLANT-7", 40, {0, TableName::motion_table, 3})); // a block of its own
  EXPECT_FALSE(add_motion(plant, "R16 C", 99, {0, TableName::motion_table, 4}));
  const std::vector<MotionStep> known{row(1, "R16C"), row(2, "PLANT-7")};
  const ElementMotionTime element = analyse_element(known, made::motion_times(), &plant);
  EXPECT_NEAR(*element.tmu, 56.5, 1e-12);
  EXPECT_EQ(codes_of(element), Codes{});
  EXPECT_EQ(element.rows[0].plant_row, (SourceRow{0, TableName::motion_table, 2}));
  EXPECT_TRUE(element.rows[0].used.empty());

  const std::vector<MotionStep> missing{row(1, "R16C"), row(2, "G1A")};
  const ElementMotionTime incomplete = analyse_element(missing, made::motion_times(), &plant);
  EXPECT_FALSE(incomplete.tmu);
  ASSERT_EQ(codes_of(incomplete), Codes{"not_in_plant_table"});
  EXPECT_EQ(incomplete.problems[0].row, 1U);
}

TEST(MotionAnalysis, StepsMayStandInAnyOrder) {
  const ElementMotionTime element = analyse({row(2, "RL1", Hand::left), row(1, "R14B"), row(2, "RL1")});
  EXPECT_NEAR(*element.tmu, 16.4, 1e-12);
  EXPECT_TRUE(element.rows[0].counts);
  EXPECT_FALSE(element.rows[2].counts);
}

// JCGM 100:2008, 4.2.2: of 86 and 90 the mean is 88, s^2 = (4 + 4) / (2 - 1) = 8.
TEST(MotionAnalysis, TwoAnalysesGiveAnUncertainty) {
  EXPECT_NEAR(element_uncertainty_from_second_analysis(86, 90), std::sqrt(8.0), 1e-12);
  EXPECT_NEAR(element_uncertainty_from_second_analysis(90, 86), std::sqrt(8.0), 1e-12);
  EXPECT_EQ(element_uncertainty_from_second_analysis(86, 86), 0);
}

} // namespace
} // namespace docket
