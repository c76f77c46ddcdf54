// A shift that crosses midnight belongs to the day it starts on.
#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

Intake read_log(const std::string& roster, const std::string& log) {
  return read_texts(small_case_with({{"operators", "operator,trained\nA1,yes\nB2,yes\n"},
                                     {"roster", "date,shift,operator,from,to\n" + roster},
                                     {"cycle_log", "started_at,cycle_s,shift,mark\n" + log}}));
}

/// The codes of the log's operators in order; `-` for none.
std::string codes_in_log(const Intake& intake) {
  std::string codes;
  for (const LoggedCycle& cycle : intake.input->cycle_log)
    codes += (codes.empty() ? "" : " ") +
             (cycle.op < 0 ? std::string("-") : intake.input->operators[static_cast<std::size_t>(cycle.op)].code);
  return codes;
}

TEST(RosterFill, ByDateAndShift) {
  const Intake intake = read_log("2026-11-03,early,A1,,\n2026-11-03,late,B2,,\n2026-11-04,early,B2,,\n",
                                 "2026-11-03 07:00,50,early,\n2026-11-03 15:00,50,Late,\n2026-11-04 07:00,50,early,\n"
                                 "2026-11-05 07:00,50,early,helped\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(codes_in_log(intake), "A1 B2 B2 -");
  const auto left = issues_of(intake, "operator_not_given");
  ASSERT_EQ(left.size(), 1U);
  EXPECT_EQ(left[0].wrong, "1 of 4 rows have no operator, and no single row of the roster fits them.");
}

TEST(RosterFill, ByTimeOfDayHalfOpen) {
  const Intake intake =
      read_log("2026-11-03,early,A1,06:00,10:00\n2026-11-03,early,B2,10:00,14:00\n",
               "2026-11-03 09:59:59,50,,\n2026-11-03 10:00:00,50,,\n2026-11-03 14:00:00,50,,defect\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(codes_in_log(intake), "A1 B2 -");
}

TEST(RosterFill, NightShiftBelongsToItsStartDay) {
  const Intake timed =
      read_log("2026-11-03,night,A1,22:00,06:00\n2026-11-04,night,B2,22:00,06:00\n",
               "2026-11-03 23:00,50,night,\n2026-11-04 01:00,50,night,\n2026-11-04 23:00,50,night,defect\n");
  ASSERT_TRUE(timed.input) << codes_of(timed);
  EXPECT_EQ(codes_in_log(timed), "A1 A1 B2");
  // Without times the log itself shows that the shift crosses midnight.
  const Intake untimed =
      read_log("2026-11-03,night,A1,,\n2026-11-04,night,B2,,\n",
               "2026-11-03 23:30,50,night,\n2026-11-04 00:10,50,night,\n2026-11-04 23:30,50,night,defect\n");
  ASSERT_TRUE(untimed.input) << codes_of(untimed);
  EXPECT_EQ(codes_in_log(untimed), "A1 A1 B2");
}

TEST(RosterFill, TwoPeopleAtOnceAreLeftOutAndSaidOnce) {
  const Intake intake = read_log("2026-11-03,early,A1,,\n2026-11-03,early,B2,,\n",
                                 "2026-11-03 07:00,50,early,\n2026-11-03 08:00,50,early,defect\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(codes_in_log(intake), "- -");
  const auto overlaps = issues_of(intake, "roster_overlap");
  ASSERT_EQ(overlaps.size(), 1U);
  EXPECT_EQ(overlaps[0].grade, IssueGrade::warning);
  EXPECT_EQ(overlaps[0].wrong, "This row and row 2 both cover the same time with different people.");
}

TEST(RosterFill, AnOperatorInTheLogIsKept) {
  const Intake intake = read_texts(small_case_with({{"operators", "operator\nA1\nB2\n"},
                                                    {"roster", "date,shift,operator\n2026-11-03,early,A1\n"},
                                                    {"cycle_log", "started_at,cycle_s,shift,operator\n"
                                                                  "2026-11-03 07:00,50,early,b2\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(codes_in_log(intake), "B2");
}

} // namespace
} // namespace docket
