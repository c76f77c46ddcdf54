// Tables `lifts` and `efforts`, and words in free texts that are asked about.
#include "ingest/reading/words_about_people.h"
#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

constexpr const char* lift_header = "task,load_kg,h_cm,v_cm,d_cm,per_min,times_per_unit,element,h_cm_dest,v_cm_dest,"
                                    "d_cm_dest\n";
constexpr const char* effort_header = "task,hand,force_n,seconds,times_per_unit,strength_n,strength_source,wrist_deg,"
                                      "wrist_bend,rated_speed,element\n";

Intake with_lift(const std::string& row) { return read_texts(small_case_with({{"lifts", lift_header + row}})); }
Intake with_effort(const std::string& row) { return read_texts(small_case_with({{"efforts", effort_header + row}})); }

TEST(ErgonomicsReading, ALiftIsTakenWithItsRow) {
  const Intake intake = with_lift("pump,8.5,40,75,30,,2,E20,45,110,35\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const Lift& lift = intake.input->lifts.at(0);
  EXPECT_EQ(lift.task, "pump");
  EXPECT_EQ(lift.load, 8.5);
  EXPECT_EQ(lift.from.h, 40);
  EXPECT_EQ(lift.to->v, 110);
  EXPECT_FALSE(lift.per_min);
  EXPECT_EQ(lift.times_per_unit, 2);
  EXPECT_EQ(lift.element, 1);
  EXPECT_EQ(lift.origin.table, TableName::lifts);
  EXPECT_EQ(lift.origin.row, 2);
}

TEST(ErgonomicsReading, AnEffortIsTakenWithItsRow) {
  const Intake intake = with_effort("clamp,R,60,1.5,4,200,measured here,20,extension,fast,\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const Effort& effort = intake.input->efforts.at(0);
  EXPECT_EQ(effort.hand, Hand::right);
  EXPECT_EQ(effort.time.count(), 1.5);
  EXPECT_EQ(effort.wrist_deg, 20);
  EXPECT_FALSE(effort.wrist_flexion);
  EXPECT_EQ(effort.rated_speed, WorkSpeed::fast);
  EXPECT_FALSE(effort.rated_intensity);
  EXPECT_EQ(effort.element, -1);
  EXPECT_EQ(effort.origin.row, 2);
}

TEST(ErgonomicsReading, EachDefectItsMessage) {
  EXPECT_EQ(only_issue(with_lift("pump,8.5,40,75,30,,,,,,\n")).code, "lift_frequency_not_given");
  EXPECT_EQ(only_issue(with_lift("pump,8.5,40,75,30,1,2,,,,\n")).code, "lift_frequency_twice");
  EXPECT_EQ(only_issue(with_lift("pump,8.5,40,75,30,1,,,45,,\n")).code, "destination_incomplete");
  EXPECT_EQ(only_issue(with_lift("pump,0,40,75,30,1,,,,,\n")).column, "load_kg");
  EXPECT_EQ(only_issue(with_lift("pump,8,40,75,30,1,,E99,,,\n")).code, "element_unknown");
  EXPECT_EQ(only_issue(with_effort("clamp,R,60,1.5,4,200,,,,,\n")).code, "strength_without_source");
  EXPECT_EQ(only_issue(with_effort("clamp,R,60,1.5,4,,,20,,,\n")).code, "wrist_bend_not_given");
  EXPECT_EQ(codes_of(with_effort("clamp,R,60,1.5,4,,,0,,,\n")), "");
}

TEST(ErgonomicsReading, TheQuestionsLeaveTheCaseSound) {
  EXPECT_TRUE(with_lift("pump,8.5,40,75,30,1,2,,,,\n").input);
  EXPECT_TRUE(with_effort("clamp,R,60,1.5,4,200,,,,,\n").input);
}

TEST(ErgonomicsReading, KeysOfTheCase) {
  Texts texts = small_case();
  texts["case"] += "line_cycle_asked_s,50\npattern_s,18\n";
  const Intake intake = read_texts(texts);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(intake.input->facts.line_cycle_asked, Seconds{50});
  EXPECT_EQ(intake.input->facts.pattern, Seconds{18});
}

std::string words_in(std::string_view text) {
  std::string all;
  for (const FoundWord& found : find_watched_words(text)) all += (all.empty() ? "" : ",") + found.word;
  return all;
}

TEST(WordsAboutPeople, WholeWordsInAnyCase) {
  EXPECT_EQ(words_in("He is LAZY and my arm is numb"), "LAZY,numb");
  EXPECT_EQ(words_in("a number of pillars, injection, unpainted"), "");
  EXPECT_EQ(words_in("An incompetent observer"), "incompetent");
  EXPECT_EQ(words_in("Painful: swelling of the hand"), "Painful");
  EXPECT_EQ(words_in(""), "");
}

TEST(WordsAboutPeople, EveryWordOfTheListIsFound) {
  for (const WatchedWord& watched : watched_words()) {
    std::string word(watched.word);
    if (word.ends_with('*')) word.pop_back();
    const auto found = find_watched_words("it says " + word + ", here");
    ASSERT_EQ(found.size(), 1U) << word;
    EXPECT_EQ(found[0].topic, watched.topic) << word;
    EXPECT_EQ(find_watched_words("x" + word).size(), 0U) << word;
  }
}

TEST(WordsAboutPeople, AskedNeverRefused) {
  Texts texts = small_case_with({{"statements", "who,on,text\nsupervisor,2026-11-03,The operator is lazy\n"},
                                 {"conditions", "check,state,note\nLight,differs,pain in the neck\n"}});
  texts["case"] += "complaint_text,My wrist is numb and the leader is careless\n";
  const Intake intake = read_texts(texts);
  ASSERT_TRUE(intake.input);
  const std::vector<Issue> judged = issues_of(intake, "text_judges_a_person");
  const std::vector<Issue> health = issues_of(intake, "text_speaks_of_health");
  ASSERT_EQ(judged.size(), 2U);
  ASSERT_EQ(health.size(), 2U);
  EXPECT_EQ(judged[0].column, "complaint_text");
  EXPECT_EQ(judged[0].raw, "careless");
  EXPECT_EQ(judged[1].table, "statements");
  EXPECT_EQ(judged[1].row, 2);
  EXPECT_EQ(health[1].table, "conditions");
  for (const Issue& issue : intake.issues) EXPECT_EQ(issue.grade, IssueGrade::question);
  EXPECT_EQ(judged[1].wrong, "\"lazy\" may judge a person. The text stays as it stands.");
}

} // namespace
} // namespace docket
