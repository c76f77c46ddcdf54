// Motion times in the document and in findings.json.
#include "report/case_document/case_document.h"
#include "report/html/html.h"
#include "report/wording/motions.h"
#include "tests/core/content/motions/made_motion_times.h"
#include "tests/report/made_findings.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

MotionStep motion(std::int64_t step, const std::string& code, Hand hand, const std::string& analyst) {
  MotionStep row;
  row.element = 0;
  row.step = step;
  row.code = code;
  row.hand = hand;
  row.analyst = analyst;
  row.origin = row_of(TableName::motions, step + 1);
  return row;
}

/// Element E1 with a time of 30 s and motions of two analysts.
Case case_with_motions() {
  Case made = made_case();
  made.shipped_motion_times = made::motion_times();
  made.motions = {motion(1, "R16C", Hand::left, "IE1"), motion(1, "M10B5", Hand::right, "IE1"),
                  motion(2, "RL1", Hand::right, "IE1"), motion(1, "R14B", Hand::right, "IE2")};
  return made;
}

std::string text_of(const Case& input) {
  Findings findings = made_findings(ContentWord::not_shown);
  findings.content.standard.motions = analyse_motions(input);
  return bare_text(write_html(build_case_document(input, findings, {})));
}

bool holds(const std::string& text, std::string_view wanted) { return text.find(wanted) != std::string::npos; }

// R16C 17.0, M10B5 2.2 + 1.06 x 12.2 = 15.132, RL1 2.0: 19 TMU = 0.7 s at once, 34.132 TMU = 1.2 s one by one.
TEST(MotionTimesPages, ShowHowATimeComesAbout) {
  const std::string text = text_of(case_with_motions());
  for (const std::string_view wanted :
       {std::string_view("Motion times"), wording::how_motions_add_up, wording::shipped_table_note,
        wording::two_analyses_note, std::string_view("2.2 + 1.06 x 12.2 = 15.132"), std::string_view("limited out"),
        std::string_view("R16C with M10B5 (step 1)"), std::string_view("takes 1.2 s, which is 0.5 s more")}) {
    EXPECT_TRUE(holds(text, wanted)) << wanted;
  }
}

TEST(MotionTimesPages, AreAbsentWithoutMotions) { EXPECT_FALSE(holds(text_of(made_case()), "Motion times")); }

TEST(MotionTimesPages, NameThePlantsOwnTable) {
  Case input = case_with_motions();
  input.motion_table = {{"R16C", 18, row_of(TableName::motion_table, 2)},
                        {"M10B5", 15, row_of(TableName::motion_table, 3)},
                        {"RL1", 2, row_of(TableName::motion_table, 4)},
                        {"R14B", 14, row_of(TableName::motion_table, 5)}};
  const std::string text = text_of(input);
  EXPECT_TRUE(holds(text, wording::plant_table_note));
  EXPECT_FALSE(holds(text, wording::shipped_table_note));
  EXPECT_TRUE(holds(text, "motion_table row 3"));
}

TEST(MotionWords, MarkWhatIsFromMemory) {
  MotionStepTime row;
  row.used = {{"reach 16 in, C", {"reach.csv", 15, MotionValueStatus::found, ""}},
              {"G4B", {"grasp.csv", 9, MotionValueStatus::memory_sure, ""}}};
  EXPECT_EQ(wording::table_row_in_words(row), "reach 16 in, C; G4B (from memory)");
  EXPECT_EQ(wording::hand_in_words(Hand::both), "both");
  EXPECT_EQ(wording::analyst_in_words({}), "analyst not given");
}

} // namespace
} // namespace docket
