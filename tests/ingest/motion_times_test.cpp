// Times from motions on their way into a case.
#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

namespace docket {
namespace {

const std::string blank_standard = "element,description,class,time_s\nE10,place fan,va,30\nE20,fix screws,nnva,\n";

/// E20 has no time of its own.
Intake read_motions_text(const std::string& motions, const Texts& others = {}) {
  Texts texts = small_case_with({{"standard", blank_standard}, {"motions", motions}});
  for (const auto& [table, text] : others) texts[table] = text;
  return read_texts(texts);
}

/// The issues but the one that says whose values are used.
Issue other_issue(Intake intake) {
  std::erase_if(intake.issues, [](const Issue& issue) { return issue.code == "shipped_motion_table"; });
  return only_issue(intake);
}

/// The rows of a worked analysis as rows of `motions`.
std::string published_rows(const std::string& element) {
  std::ifstream file(std::string(DOCKET_TESTS_DIR) + "/reference/motion_examples/analysis_1.csv");
  std::string line, rows;
  std::getline(file, line); // step,code,tmu
  while (std::getline(file, line)) rows += element + "," + line + "\n";
  return rows;
}

// Published steps and total: 86.44 TMU = 3.11184 s (tests/reference/motion_examples/ORIGIN).
TEST(MotionTimesOfACase, GiveTheElementItsTime) {
  const Intake intake = read_motions_text("element,step,code,tmu\n" + published_rows("E20"));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const Issue shipped = only_issue(intake);
  EXPECT_EQ(shipped.code, "shipped_motion_table");
  EXPECT_EQ(shipped.grade, IssueGrade::question);
  const StandardElement& element = intake.input->standard[1];
  EXPECT_NEAR(element.time->count(), 3.11184, 1e-9);
  EXPECT_TRUE(element.time_from_motions);
  EXPECT_EQ(element.time_source, TimeSource::motion_times);
  EXPECT_FALSE(element.uncertainty);
  EXPECT_FALSE(intake.input->standard[0].time_from_motions);
  ASSERT_EQ(intake.input->motions.size(), 9U);
  EXPECT_EQ(intake.input->motions[2].code, "M10B5");
  EXPECT_EQ(intake.input->motions[2].origin.row, 4);
  for (const TableCounts& counts : intake.counts) EXPECT_TRUE(counts.used_now) << name_of(counts.table);
}

// R16C 17.0, R14B 14.4 TMU of the reprinted table; |17.0 - 14.4| / sqrt 2 of 17.0 (JCGM 100:2008, 4.2.2).
TEST(MotionTimesOfACase, TwoAnalystsGiveTheUncertaintyUnlessItIsGiven) {
  const std::string motions = "element,step,code,analyst\nE20,1,R16C,IE2\nE20,1,R14B,IE1\n";
  const Intake two = read_motions_text(motions);
  ASSERT_TRUE(two.input) << codes_of(two);
  EXPECT_NEAR(two.input->standard[1].time->count(), 17.0 * 0.036, 1e-12);
  EXPECT_NEAR(*two.input->standard[1].uncertainty, 2.6 / std::sqrt(2.0) / 17.0, 1e-12);
  EXPECT_TRUE(two.input->standard[1].uncertainty_from_motions);
  const Intake given = read_motions_text(
      motions, {{"standard", "element,description,class,time_s,uncertainty_percent\nE10,a,va,30,\nE20,b,nnva,,8\n"}});
  ASSERT_TRUE(given.input) << codes_of(given);
  EXPECT_NEAR(*given.input->standard[1].uncertainty, 0.08, 1e-12);
  EXPECT_FALSE(given.input->standard[1].uncertainty_from_motions);
  const Issue third = other_issue(read_motions_text(motions + "E20,1,R12C,IE3\n"));
  EXPECT_EQ(third.code, "third_motion_analysis");
  EXPECT_EQ(third.row, 4);
}

TEST(MotionTimesOfACase, CodesWithoutTimeAreFaults) {
  const std::string header = "element,step,code\n";
  const Issue unreadable = other_issue(read_motions_text(header + "E20,1,Q7\n"));
  EXPECT_EQ(unreadable.code, "motion_code_unreadable");
  EXPECT_EQ(unreadable.grade, IssueGrade::fault);
  EXPECT_EQ(unreadable.column, "code");
  EXPECT_EQ(unreadable.raw, "Q7");
  for (const char* code : {"T20S", "T200S", "M10B90", "mM10C", "SS6C1"})
    EXPECT_EQ(other_issue(read_motions_text(header + "E20,1," + code + "\n")).code, "motion_without_time") << code;
  EXPECT_EQ(other_issue(read_motions_text(header + "E20,1,R16C\nE21,1,R16C\n")).code, "element_unknown");
}

TEST(MotionTimesOfACase, AnElementNeedsATimeOrMotions) {
  const Issue neither = other_issue(
      read_motions_text("element,step,code\nE10,1,R16C\n", {{"standard", "element,description,class,time_s\n"
                                                                         "E10,a,va,\nE20,b,nnva,\nE30,c,va,40\n"}}));
  EXPECT_EQ(neither.code, "element_without_time");
  EXPECT_EQ(neither.wrong, "The element has neither a time nor motions.");
  EXPECT_EQ(neither.row, 3);
  EXPECT_EQ(other_issue(read_motions_text("element,step,code\nE20,1,G5\n")).code, "motions_without_time");
  // A faulty row of the element is the one thing to mend.
  EXPECT_EQ(other_issue(read_motions_text("element,step,code\nE20,first,R16C\n")).code, "not_a_number");
  // A sheet that can't be read may hold them.
  EXPECT_EQ(only_issue(read_motions_text("element,step\nE20,1\n")).code, "column_missing");
}

TEST(MotionTimesOfACase, DifferencesAreAskedAbout) {
  const Issue tmu = other_issue(read_motions_text("element,step,code,tmu\nE20,1,R16C,17.1\n"));
  EXPECT_EQ(tmu.code, "motion_tmu_differs");
  EXPECT_EQ(tmu.column, "tmu");
  EXPECT_EQ(tmu.grade, IssueGrade::question);
  const Issue far = other_issue(read_motions_text("element,step,code\nE20,1,R31B\n"));
  EXPECT_EQ(far.code, "motion_distance_long");
  EXPECT_EQ(far.right, "Codes are in inches; 30 in is 76 cm. Is the code made for centimetres?");
  EXPECT_EQ(other_issue(read_motions_text("element,step,code,per_element\nE20,1,R16C,2\nE20,1,G1A,\n")).code,
            "motion_counts_differ");
}

// 17.0 TMU = 0.612 s: within half of the last digit of 0.6 and 0.65, not of 0.7.
TEST(MotionTimesOfACase, ATimeGivenIsUsedAndADifferenceAskedAbout) {
  const auto with_time = [](const std::string& time) {
    return read_motions_text("element,step,code\nE20,1,R16C\n",
                             {{"standard", "element,description,class,time_s\nE10,a,va,30\nE20,b,va," + time + "\n"}});
  };
  EXPECT_EQ(only_issue(with_time("0.6")).code, "shipped_motion_table");
  EXPECT_EQ(only_issue(with_time("0.65")).code, "shipped_motion_table");
  const Intake apart = with_time("0.7");
  ASSERT_TRUE(apart.input) << codes_of(apart);
  EXPECT_NEAR(apart.input->standard[1].time->count(), 0.7, 1e-12);
  EXPECT_FALSE(apart.input->standard[1].time_from_motions);
  EXPECT_EQ(other_issue(apart).code, "motions_differ_from_time");
  EXPECT_EQ(other_issue(apart).table, "standard");
  EXPECT_EQ(other_issue(apart).wrong,
            "The time given is 0.7 s, the motions of E20 make 0.61 s. The time given is used.");
}

TEST(MotionTimesOfACase, ThePlantsOwnTableIsUsedAlone) {
  const std::string motions = "element,step,code\nE20,1,R16C\nE20,2,CLIP-7\n";
  const Intake good = read_motions_text(motions, {{"motion_table", "code,tmu\nR16C,18\nCLIP-7,40\n"}});
  ASSERT_TRUE(good.input) << codes_of(good);
  EXPECT_TRUE(good.issues.empty()) << codes_of(good);
  EXPECT_NEAR(good.input->standard[1].time->count(), 58 * 0.036, 1e-12);
  const Issue missing = only_issue(read_motions_text(motions, {{"motion_table", "code,tmu\nCLIP-7,40\n"}}));
  EXPECT_EQ(missing.code, "motion_without_time");
  EXPECT_EQ(missing.wrong, "The plant's own motion table does not hold R16C.");
  const Issue twice =
      only_issue(read_motions_text(motions, {{"motion_table", "code,tmu\nR16C,18\nCLIP-7,40\nr 16 c,17\n"}}));
  EXPECT_EQ(twice.code, "motion_code_twice");
  EXPECT_EQ(twice.row, 4);
  // One bad cell in the table is one fault, not one more at every motion with the code.
  EXPECT_EQ(only_issue(read_motions_text(motions, {{"motion_table", "code,tmu\nR16C,x\nCLIP-7,40\n"}})).code,
            "not_a_number");
}

TEST(Training, IsReadWithWhomItIsOf) {
  const Intake intake = read_texts(full_case_with(
      {{"training", "operator,on,given_by_role,what,variants,signed_off\na1,2026-10-01,trainer,clips,V2;V9,yes\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(only_issue(intake).code, "training_of_another_variant");
  ASSERT_EQ(intake.input->training.size(), 1U);
  const Training& training = intake.input->training.front();
  EXPECT_EQ(training.code, "A1");
  EXPECT_EQ(training.op, 0);
  EXPECT_EQ(training.variants, std::vector<std::int32_t>{1});
  EXPECT_EQ(training.signed_off, YesNo::yes);
  EXPECT_EQ(training.what, "clips");
  EXPECT_EQ(training.origin.row, 2);
}

// Nobody becomes an operator of the case by having been trained.
TEST(Training, OfAPersonInNoOtherTableAddsNoOperator) {
  const Intake intake = read_texts(small_case_with({{"training", "operator,on\nZ9,2026-10-01\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_TRUE(intake.input->operators.empty());
  EXPECT_EQ(intake.input->training.front().op, -1);
  EXPECT_EQ(intake.input->training.front().code, "Z9");
}

} // namespace
} // namespace docket
