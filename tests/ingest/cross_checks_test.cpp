// Checks over several rows and tables.
#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

Intake read_standard_text(const std::string& text, const Texts& others = {}) {
  Texts texts = small_case_with(others);
  texts["standard"] = text;
  return read_texts(texts);
}

// The standard.

TEST(Standard, ElementsTwiceWithoutTimeAndMisnamed) {
  const Issue twice = only_issue(read_standard_text("element,description,class,time_s\nE10,a,va,30\nE10,b,va,20\n"));
  EXPECT_EQ(twice.code, "element_twice");
  EXPECT_EQ(twice.wrong, "The element \"E10\" stands here and in row 2.");
  const Issue timeless = only_issue(read_standard_text("element,description,class,time_s\nE10,a,va,50\nE20,b,va,\n"));
  EXPECT_EQ(timeless.code, "element_without_time");
  EXPECT_EQ(timeless.right, "Write its time in time_s, or its motions in the sheet motions.");
  EXPECT_EQ(only_issue(read_standard_text("element,description,class,time_s\nE1;E2,a,va,50\n")).code,
            "name_not_usable");
  EXPECT_EQ(only_issue(read_standard_text("element,description,class,time_s\n+E1,a,va,50\n")).code, "name_not_usable");
}

TEST(Standard, AfterNamesElements) {
  const Issue issue =
      only_issue(read_standard_text("element,description,class,time_s,after\nE10,a,va,30,\nE20,b,va,20,E10;E11\n"));
  EXPECT_EQ(issue.code, "element_unknown");
  EXPECT_EQ(issue.raw, "E11");
}

TEST(Standard, Options) {
  const Texts variants{{"variants", "variant,share_percent,options\nV1,50,A\nV2,50,B;C\n"}};
  const Intake good = read_standard_text(
      "element,description,class,time_s,option\nE1,a,va,50,\nE2,b,va,1,A;B\nE3,c,va,1,not C\n", variants);
  ASSERT_TRUE(good.input) << codes_of(good);
  EXPECT_TRUE(good.issues.empty());
  EXPECT_EQ(good.input->standard[1].any_option, (std::vector<std::string>{"A", "B"}));
  EXPECT_EQ(good.input->standard[2].not_option, "C");
  for (const char* rule : {"not A;B", "A;not B", "not "})
    EXPECT_EQ(codes_of(read_standard_text("element,description,class,time_s,option\nE1,a,va,50,\nE2,b,va,1,\"" +
                                              std::string(rule) + "\"\n",
                                          variants))
                  .substr(0, 6),
              "option")
        << rule;
  const Intake unused =
      read_standard_text("element,description,class,time_s,option\nE1,a,va,50,\nE2,b,va,1,D\n", variants);
  EXPECT_TRUE(unused.input);
  EXPECT_EQ(only_issue(unused).code, "option_without_variant");
  EXPECT_EQ(only_issue(unused).grade, IssueGrade::question);
  EXPECT_EQ(only_issue(read_standard_text("element,description,class,time_s,option\nE1,a,va,50,\nE2,b,va,1,A\n")).code,
            "option_without_variants");
  EXPECT_EQ(issues_of(read_standard_text("element,description,class,time_s,option\nE1,a,va,50,not A;B\n", variants),
                      "option_not_understood")
                .size(),
            1U);
}

TEST(Standard, AppliesToEveryVariant) {
  const Texts variants{{"variants", "variant,share_percent,options\nV1,50,A\nV2,50,\n"}};
  const Issue issue =
      only_issue(read_standard_text("element,description,class,time_s,option\nE1,a,va,50,A\n", variants));
  EXPECT_EQ(issue.code, "variant_without_work");
  EXPECT_EQ(issue.row, 3);
  EXPECT_EQ(issue.wrong, "No element of the standard applies to the variant \"V2\".");
  EXPECT_EQ(issue.right, "Correct its options here, or the column option in the sheet standard.");
}

// Variants.

Intake read_variants_text(const std::string& rows) {
  return read_texts(small_case_with({{"variants", "variant,share_percent,also_called\n" + rows}}));
}

TEST(Variants, SharesMakeAHundred) {
  EXPECT_TRUE(read_variants_text("V1,60.05,\nV2,40.04,\n").input);
  const Issue short_of = only_issue(read_variants_text("V1,60,\nV2,39.2,\n"));
  EXPECT_EQ(short_of.code, "shares_do_not_sum");
  EXPECT_EQ(short_of.wrong, "The shares of the variants add up to 99.2 %.");
  const Issue fractions = only_issue(read_variants_text("V1,0.75,\nV2,0.25,\n"));
  EXPECT_EQ(fractions.code, "shares_look_like_fractions");
  EXPECT_EQ(fractions.wrong, "The shares add up to 1; shares look like fractions.");
  EXPECT_EQ(fractions.right, "Percent is expected: 25, not 0.25.");
}

TEST(Variants, SharesAreTakenAsPartsOfTheirSum) {
  const Intake intake = read_variants_text("V1,74.95,\nV2,25,\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_DOUBLE_EQ(intake.input->variants[0].share, 74.95 / 99.95);
  EXPECT_DOUBLE_EQ(intake.input->variants[0].share + intake.input->variants[1].share, 1);
}

TEST(Variants, TwiceAndAliasesThatClash) {
  EXPECT_EQ(only_issue(read_variants_text("V1,50,\nV1,50,\n")).code, "variant_twice");
  const Issue clash = only_issue(read_variants_text("V1,50,basic\nV2,50,basic\n"));
  EXPECT_EQ(clash.code, "alias_clash");
  EXPECT_EQ(clash.wrong, "\"basic\" means V2 here, and V1 in row 2.");
  EXPECT_EQ(only_issue(read_variants_text("V1,50,V2\nV2,50,\n")).code, "alias_clash");
}

TEST(Variants, UnknownAndAlsoCalled) {
  const Intake good = read_texts(full_case_with({{"build_sequence", "position,variant\n2,V2\n1,basic\n"}}));
  ASSERT_TRUE(good.input) << codes_of(good);
  EXPECT_EQ(good.input->build_sequence[0].position, 1);
  EXPECT_EQ(good.input->build_sequence[0].variant, 0);
  const Issue unknown = only_issue(read_texts(full_case_with({{"build_sequence", "position,variant\n1,v1\n"}})));
  EXPECT_EQ(unknown.code, "variant_unknown");
  EXPECT_EQ(unknown.right,
            "Did you mean V1? Write a variant as the sheet variants has it, or add this name there in also_called.");
}

TEST(Variants, NamedWithoutATable) {
  const Intake intake = read_texts(small_case_with({{"build_sequence", "position,variant\n1,V1\n2,V2\n"}}));
  ASSERT_TRUE(intake.input);
  EXPECT_EQ(only_issue(intake).code, "variants_not_given");
  EXPECT_EQ(intake.input->build_sequence[1].variant, 0);
}

TEST(BuildSequence, PositionsCountThroughOrAnewInEveryRun) {
  EXPECT_EQ(only_issue(read_texts(full_case_with({{"build_sequence", "position,variant\n1,V1\n1,V2\n"}}))).code,
            "position_twice");
  const Intake anew = read_texts(
      full_case_with({{"build_sequence", "position,variant,run\n2,V1,Tue\n1,V2,Tue\n1,V1,Mon\n2,V2,Mon\n"}}));
  ASSERT_TRUE(anew.input) << codes_of(anew);
  std::string order;
  for (const SequenceUnit& unit : anew.input->build_sequence) order += unit.run + std::to_string(unit.position) + " ";
  EXPECT_EQ(order, "Tue1 Tue2 Mon1 Mon2 ");
}

// People.

TEST(Operators, TwiceUnknownAndMadeFromTheData) {
  EXPECT_EQ(only_issue(read_texts(full_case_with({{"operators", "operator\nA1\na1\n"}}))).code, "operator_twice");
  const std::string log = "started_at,cycle_s,operator,variant,mark\n2026-11-03 07:00,50,C3,V1,defect\n";
  const Issue unknown = only_issue(read_texts(full_case_with({{"cycle_log", log}})));
  EXPECT_EQ(unknown.code, "operator_unknown");
  EXPECT_EQ(unknown.right, "Add the code to the sheet operators, or correct it.");
  Texts without = full_case_with({{"cycle_log", log}});
  without.erase("operators");
  const Intake made = read_texts(without);
  ASSERT_TRUE(made.input) << codes_of(made);
  ASSERT_EQ(made.input->operators.size(), 2U); // A1 of the session, C3 of the log
  EXPECT_EQ(made.input->operators[1].code, "C3");
  EXPECT_EQ(made.input->operators[1].trained, YesNo::unknown);
}

TEST(Operators, LeftBeforeTheyCame) {
  const Intake intake = read_texts(
      full_case_with({{"operators", "operator,on_station_since,left_station\nA1,2026-05-01,2026-04-01\nB2,,\n"}}));
  EXPECT_TRUE(intake.input);
  EXPECT_EQ(only_issue(intake).code, "left_before_start");
}

TEST(Operators, ThoseAskedAboutAreInTheData) {
  Texts texts = full_case_with({});
  texts["case"] += "complainants,Z9\nb_for,A1;Y8\n";
  const auto issues = issues_of(read_texts(texts), "operator_not_in_data");
  ASSERT_EQ(issues.size(), 2U);
  EXPECT_EQ(issues[0].grade, IssueGrade::question);
  EXPECT_EQ(issues[0].column, "complainants");
  EXPECT_EQ(issues[1].raw, "Y8");
}

// Sessions and readings.

Intake read_sessions_text(const std::string& rows) {
  return read_texts(full_case_with({{"sessions", "session,date,operator,start,end,same_as\n" + rows}}));
}

TEST(Sessions, Faults) {
  EXPECT_EQ(only_issue(read_sessions_text("S1,2026-11-04,A1,,,\nS1,2026-11-04,A1,,,\n")).code, "session_twice");
  const Issue backwards = only_issue(read_sessions_text("S1,2026-11-04,A1,23:40,00:20,\n"));
  EXPECT_EQ(backwards.code, "end_before_start");
  EXPECT_EQ(backwards.right, "Correct the times. If the session ran past midnight, write the end with its day: "
                             "2026-11-05 00:20.");
  EXPECT_TRUE(read_sessions_text("S1,2026-11-04,A1,23:40,2026-11-05 00:20,\n").input);
  EXPECT_EQ(only_issue(read_sessions_text("S1,2026-11-04,A1,2026-11-03 08:00,,\n")).code, "start_on_another_day");
  EXPECT_EQ(only_issue(read_sessions_text("S1,2026-11-04,A1,,,S2\n")).code, "session_unknown");
  EXPECT_EQ(only_issue(read_sessions_text("S1,2026-11-04,A1,,,S1\n")).code, "session_unknown");
}

Intake read_readings_text(const std::string& rows) {
  return read_texts(full_case_with({{"readings", "session,cycle,time_s,element,variant\n" + rows}}));
}

TEST(Readings, ResolveTheirNames) {
  const Intake intake = read_readings_text("S1,1,29,E10,V1\nS1,1,3,+untangle hose,V1\nS1,2,51,,basic\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_TRUE(intake.issues.empty()) << codes_of(intake);
  const auto& readings = intake.input->readings;
  ASSERT_EQ(readings.size(), 3U);
  EXPECT_EQ(readings[0].element, 0);
  EXPECT_EQ(readings[1].element, -1);
  EXPECT_EQ(readings[1].seen_element, "untangle hose");
  EXPECT_EQ(readings[2].variant, 0);
}

TEST(Readings, UnknownNames) {
  EXPECT_EQ(only_issue(read_readings_text("S9,1,50,,V1\n")).code, "session_unknown");
  const Issue element = only_issue(read_readings_text("S1,1,29,E11,V1\n"));
  EXPECT_EQ(element.code, "element_unknown");
  EXPECT_NE(element.right.find("+untangle hose"), std::string::npos);
  Texts texts = full_case_with({{"readings", "session,cycle,time_s\nS1,1,50\n"}});
  texts.erase("sessions");
  EXPECT_EQ(only_issue(read_texts(texts)).code, "sessions_missing");
}

TEST(Readings, OneCycleOnce) {
  EXPECT_EQ(only_issue(read_readings_text("S1,1,50,,V1\nS1,1,51,,V1\n")).code, "reading_twice");
  EXPECT_EQ(only_issue(read_readings_text("S1,1,29,E10,V1\nS1,1,28,E10,V1\n")).code, "reading_twice");
  const Issue mixed = only_issue(read_readings_text("S1,1,50,,V1\nS1,1,29,E10,V1\n"));
  EXPECT_EQ(mixed.code, "whole_and_elements");
  EXPECT_EQ(mixed.wrong, "Cycle 1 of session S1 is read as a whole and by element, see row 2.");
}

TEST(Readings, AnElementDoneTwiceMayBeReadTwice) {
  const Intake intake = read_texts(
      full_case_with({{"standard", "element,description,class,time_s,times_per_unit\nE10,fan,va,20,2\n"},
                      {"readings", "session,cycle,time_s,element,variant\nS1,1,20,E10,V1\nS1,1,21,E10,V1\n"}}));
  EXPECT_TRUE(intake.input) << codes_of(intake);
}

TEST(Readings, WithoutVariantWhereVariantsDiffer) {
  const Intake intake = read_readings_text("S1,1,50,,\nS1,2,50,,V1\n");
  EXPECT_TRUE(intake.input);
  const Issue issue = only_issue(intake);
  EXPECT_EQ(issue.code, "variant_not_given");
  EXPECT_EQ(issue.wrong, "1 of 2 rows have no variant.");
}

// The log.

Intake read_log_text(const std::string& rows) {
  return read_texts(full_case_with({{"cycle_log", "started_at,cycle_s,operator,unit,wait_s,variant,mark\n" + rows}}));
}

TEST(CycleLog, OneCycleOnce) {
  const Issue time =
      only_issue(read_log_text("2026-11-03 07:00:00,50,A1,1,,V1,defect\n2026-11-03 07:00:00,51,A1,2,,V1,\n"));
  EXPECT_EQ(time.code, "cycle_twice");
  EXPECT_EQ(time.wrong, "Row 3 and row 2 have the same operator (A1) and the same starting time.");
  const Issue unit =
      only_issue(read_log_text("2026-11-03 07:00:00,50,A1,1,,V1,defect\n2026-11-03 07:01:00,51,A1,1,,V1,\n"));
  EXPECT_EQ(unit.code, "cycle_twice");
  EXPECT_EQ(unit.column, "unit");
  EXPECT_TRUE(read_log_text("2026-11-03 07:00:00,50,A1,1,,V1,defect\n2026-11-03 07:00:00,51,B2,1,,V1,\n").input);
}

TEST(CycleLog, WaitingLeavesTimeForWork) {
  EXPECT_EQ(only_issue(read_log_text("2026-11-03 07:00,50,A1,1,51,V1,defect\n")).code, "wait_exceeds_cycle");
  EXPECT_TRUE(read_log_text("2026-11-03 07:00,50,A1,1,50,V1,starved\n").input);
  EXPECT_FALSE(read_log_text("2026-11-03 07:00,50,A1,1,50,V1,\n").input);
}

TEST(CycleLog, NeedsATimeOfDay) {
  EXPECT_EQ(only_issue(read_log_text("2026-11-03,50,A1,1,,V1,defect\n")).code, "time_of_day_missing");
}

TEST(CycleLog, WithoutMarks) {
  const Intake intake = read_log_text("2026-11-03 07:00,50,A1,1,,V1,\n");
  EXPECT_TRUE(intake.input);
  const Issue issue = only_issue(intake);
  EXPECT_EQ(issue.code, "log_without_marks");
  EXPECT_NE(issue.wrong.find("help, stops and skipped steps cannot be seen in it"), std::string::npos);
}

TEST(CycleLog, AnOperatorThatIsAName) {
  const Intake intake = read_log_text("2026-11-03 07:00,50,Maria,1,,V1,defect\n");
  EXPECT_FALSE(intake.input);
  EXPECT_EQ(only_issue(intake).code, "operator_not_a_code");
}

// Units of times: a median five times the standard, or a fifth of it.

TEST(UnitsOfTimes, MillisecondsAndMinutes) {
  const Issue ms = only_issue(read_log_text("2026-11-03 07:00,50000,A1,1,,V1,defect\n"));
  EXPECT_EQ(ms.code, "unit_of_time_unlikely");
  EXPECT_EQ(ms.wrong, "The median cycle is 50000 s, but the standard makes 50 s. Are these milliseconds?");
  const Issue minutes = only_issue(read_log_text("2026-11-03 07:00,0.9,A1,1,,V1,defect\n"));
  EXPECT_EQ(minutes.wrong,
            "The median cycle is 0.9 s, but the standard makes 50 s. Are these minutes or hundredths of a minute?");
  EXPECT_TRUE(read_log_text("2026-11-03 07:00,249,A1,1,,V1,defect\n").input);
  EXPECT_FALSE(read_log_text("2026-11-03 07:00,250,A1,1,,V1,defect\n").input);
  EXPECT_FALSE(read_log_text("2026-11-03 07:00,10,A1,1,,V1,defect\n").input);
}

TEST(UnitsOfTimes, ReadingsByElementAndTheStandardItself) {
  const Issue readings = only_issue(read_readings_text("S1,1,150,E10,V1\nS1,1,100,E20,V1\n"));
  EXPECT_EQ(readings.code, "unit_of_time_unlikely");
  EXPECT_EQ(readings.table, "readings");
  const Issue standard = only_issue(read_standard_text("element,description,class,time_s\nE10,fan,va,0.8\n"));
  EXPECT_EQ(standard.code, "unit_of_time_unlikely");
  EXPECT_EQ(standard.table, "standard");
}

TEST(UnitsOfTimes, OneElementFarFromItsReadingsIsAskedAbout) {
  const Intake intake =
      read_readings_text("S1,1,5,E10,V1\nS1,1,20,E20,V1\nS1,2,6,E10,V1\nS1,2,21,E20,V1\nS1,3,5,E10,V1\n"
                         "S1,3,19,E20,V1\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const std::vector<Issue> asked = issues_of(intake, "element_time_unlikely");
  ASSERT_EQ(asked.size(), 1U);
  EXPECT_EQ(asked[0].table, "standard");
  EXPECT_EQ(asked[0].column, "time_s");
  EXPECT_EQ(asked[0].wrong, "The standard has 30 s a unit for this element, but the median of its 3 readings is 5 s. "
                            "milliseconds? minutes?");
}

TEST(UnitsOfTimes, ASingleReadingOfAnElementFarFromTheStandardIsAskedAbout) {
  const Intake intake = read_readings_text("S1,1,30,E10,V1\nS1,1,20,E20,V1\nS1,2,31,E10,V1\nS1,2,110,E20,V1\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const std::vector<Issue> asked = issues_of(intake, "extreme_cycle");
  ASSERT_EQ(asked.size(), 1U);
  EXPECT_EQ(asked[0].row, 5);
}

TEST(UnitsOfTimes, AVeryShortElementIsAskedAbout) {
  const auto asked = [](const std::string& seconds) {
    return issues_of(
               read_standard_text("element,description,class,time_s\nE10,fan,va,30\nE20,cover,va,20\nE30,clip,va," +
                                  seconds + "\n"),
               "element_very_short")
        .size();
  };
  EXPECT_EQ(asked("0.052"), 1U);
  EXPECT_EQ(asked("0.3"), 0U);
}

// Conditions, referrals, tables not used yet.

Intake read_conditions_text(const std::string& rows) {
  return read_texts(full_case_with({{"conditions", "check,state,affects,from,to\n" + rows}}));
}

TEST(CycleLog, AnExtremeCycleWithoutAMarkIsAskedAbout) {
  const Intake intake = read_texts(full_case_with(
      {{"cycle_log", "started_at,cycle_s,variant,operator,mark\n2026-11-04 08:00,50,V1,A1,\n2026-11-04 08:01,51,V1,A1,"
                     "\n2026-11-04 08:02,5400,V1,A1,\n2026-11-04 10:02,5400,V1,A1,blocked\n2026-11-04 "
                     "11:00,50,V1,A1,\n2026-11-04 11:01,52,V1,A1,\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const std::vector<Issue> asked = issues_of(intake, "extreme_cycle");
  ASSERT_EQ(asked.size(), 1U);
  EXPECT_EQ(asked[0].row, 4);
  EXPECT_EQ(asked[0].grade, IssueGrade::question);
}

TEST(Case, AnAllowanceWrittenAsAFractionIsAskedAbout) {
  Texts texts = full_case_with({});
  texts["case"] += "allowance_percent,0.08\nallowance_where,in_cycle\n";
  EXPECT_EQ(issues_of(read_texts(texts), "allowance_as_fraction").size(), 1U);
  texts = full_case_with({});
  texts["case"] += "allowance_percent,8\nallowance_where,in_cycle\n";
  EXPECT_TRUE(issues_of(read_texts(texts), "allowance_as_fraction").empty());
}

TEST(Case, HalfAWorkZoneIsAskedAbout) {
  const auto asked = [](const std::string& rows) {
    Texts texts = full_case_with({});
    texts["case"] += rows;
    return issues_of(read_texts(texts), "half_a_work_zone");
  };
  const std::vector<Issue> half = asked("early_start_s,3\nlate_finish_s,\n");
  ASSERT_EQ(half.size(), 1U);
  EXPECT_EQ(half[0].grade, IssueGrade::question);
  EXPECT_EQ(half[0].column, "early_start_s");
  EXPECT_EQ(half[0].wrong,
            "early_start_s is given, but late_finish_s is blank: the work zone is not known, and nothing is "
            "said of heavy units in a row.");
  EXPECT_EQ(asked("late_finish_s,9\n").size(), 1U);
  EXPECT_TRUE(asked("early_start_s,0\nlate_finish_s,9\n").empty());
  EXPECT_TRUE(asked("").empty()) << "the case file says that the zone is not given";
}

TEST(CycleLog, OfAnotherStationAltogetherIsAskedAbout) {
  const auto asked = [](const std::string& first, const std::string& second) {
    return issues_of(
               read_texts(full_case_with({{"cycle_log", "started_at,cycle_s,variant,operator,station\n"
                                                        "2026-11-04 08:00,50,V1,A1," +
                                                            first + "\n2026-11-04 08:01,51,V1,A1," + second + "\n"}})),
               "log_of_another_station")
        .size();
  };
  EXPECT_EQ(asked("ZZ-1", "ZZ-1"), 1U);
  EXPECT_EQ(asked("ZZ-1", ""), 0U);
  EXPECT_EQ(asked("", "ZZ-1"), 0U);
}

TEST(CycleLog, AStationWrittenInOtherCaseOrWithBlanksIsTheSame) {
  Texts texts =
      full_case_with({{"cycle_log", "started_at,cycle_s,variant,operator,station\n2026-11-04 08:00,50,V1,A1,\n"
                                    "2026-11-04 08:01,51,V1,A1, st 7 \n"}});
  const std::string& rows = texts["case"];
  const std::size_t from = rows.find("station,") + 8;
  const std::string station = rows.substr(from, rows.find('\n', from) - from);
  texts["cycle_log"] += "2026-11-04 08:02,52,V1,A1, " + station + " \n";
  const Intake intake = read_texts(texts);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const LoggedCycle& cycle = intake.input->cycle_log.back();
  EXPECT_EQ(log_word(*intake.input, cycle.station), intake.input->facts.station);
  EXPECT_TRUE(is_of_this_station(*intake.input, cycle));
}

TEST(Referrals, AnOpenOneContradictsTheAnswerNo) {
  Texts texts = full_case_with({{"referrals", "trigger,reported_on,state\nreported injury,2026-11-04,open\n"}});
  texts["case"] += "open_safety_matter,no\n";
  EXPECT_EQ(issues_of(read_texts(texts), "safety_answer_contradicts").size(), 1U);
}

TEST(Conditions, AffectsElementsSessionsAndVariants) {
  const Intake intake = read_conditions_text("tool,differs,E10;S1;basic,2026-11-01,2026-11-04\nlight,as_standard,,,\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const Condition& tool = intake.input->conditions[0];
  EXPECT_EQ(tool.elements, std::vector<std::int32_t>{0});
  EXPECT_EQ(tool.sessions, std::vector<std::int32_t>{0});
  EXPECT_EQ(tool.variants, std::vector<std::int32_t>{0});
  // The last moment of the day: one millisecond before the next.
  EXPECT_EQ(tool.to.value() + std::chrono::milliseconds(1),
            Instant(std::chrono::local_days(std::chrono::year(2026) / 11 / 5)));
  EXPECT_TRUE(intake.input->conditions[1].whole_station());
}

TEST(Conditions, Faults) {
  EXPECT_EQ(only_issue(read_conditions_text("tool,differs,E99,,\n")).code, "affects_unknown");
  EXPECT_EQ(only_issue(read_conditions_text("tool,differs,,2026-11-04,2026-11-01\n")).code, "end_before_start");
  const Issue both = only_issue(read_texts(full_case_with(
      {{"variants", "variant,share_percent\nE10,100\n"}, {"conditions", "check,state,affects\ntool,differs,E10\n"}})));
  EXPECT_EQ(both.code, "affects_ambiguous");
  EXPECT_EQ(both.wrong, "\"E10\" is an element and a variant at once.");
}

TEST(Referrals, AreOpenUnlessClosed) {
  const Intake intake = read_texts(small_case_with(
      {{"referrals",
        "trigger,reported_on,referred_on,state\npain,2026-11-02,2026-11-01,\nnear miss,2026-11-02,,closed\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_TRUE(intake.input->referrals[0].open);
  EXPECT_FALSE(intake.input->referrals[1].open);
  EXPECT_TRUE(safety_matter_is_open(*intake.input));
  EXPECT_EQ(only_issue(intake).code, "referred_before_reported");
}

TEST(UnusedTables, AreCheckedAndCounted) {
  const Intake intake = read_texts(full_case_with({{"stops", "started_at,minutes\n2026-11-03 09:40,3\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const auto found = std::find_if(intake.counts.begin(), intake.counts.end(),
                                  [](const TableCounts& c) { return c.table == TableName::stops; });
  ASSERT_NE(found, intake.counts.end());
  EXPECT_FALSE(found->used_now);
  EXPECT_EQ(found->used, 1);
  EXPECT_EQ(only_issue(read_texts(full_case_with({{"motions", "element,step,code\nE99,1,R30\n"}}))).code,
            "element_unknown");
  EXPECT_EQ(only_issue(read_texts(full_case_with({{"training", "operator,on\nZ9,2026-10-01\n"}}))).code,
            "operator_unknown");
}

} // namespace
} // namespace docket
