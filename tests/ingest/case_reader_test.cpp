// One table at a time. Checks over several tables: cross_checks_test.cpp.
// Time available: takt = 60 * minutes / units, line cycle = takt * OEE (common practice); 912 min and 800 units a day
// are 68.4 s of takt, and 55 s at an OEE of 80.4 %.
#include "core/error.h"
#include "ingest/case_reader.h"
#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <fstream>

namespace docket {
namespace {

TEST(CaseReader, TakesTheSmallestCase) {
  const Intake intake = read_texts(small_case());
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_TRUE(intake.issues.empty()) << codes_of(intake);
  const Case& input = *intake.input;
  EXPECT_EQ(input.facts.station, "ST-07");
  EXPECT_EQ(input.facts.line_cycle, Seconds(55));
  EXPECT_FALSE(input.facts.early_start);
  ASSERT_EQ(input.standard.size(), 2U);
  EXPECT_EQ(input.standard[1].element, "E20");
  EXPECT_EQ(input.standard[1].element_class, ElementClass::nnva);
  EXPECT_EQ(input.standard[1].time, Seconds(20));
  EXPECT_EQ(input.standard[1].origin, (SourceRow{1, TableName::standard, 3}));
  ASSERT_EQ(input.variants.size(), 1U);
  EXPECT_EQ(input.variants[0].variant, "all");
  ASSERT_EQ(input.sources.size(), 2U);
  EXPECT_EQ(input.sources[1].file, "standard.csv");
  EXPECT_EQ(input.sources[1].rows, 2);
}

TEST(CaseReader, ReadIsUsedPlusWithIssue) {
  const Intake intake = read_texts(full_case_with(
      {{"cycle_log", "started_at,cycle_s,operator,variant\n2026-11-03 06:00,fifty,A1,V1\n2026-11-03 06:01,50,A9,V1\n"
                     "2026-11-03 06:02,50,A1,V1\n"},
       {"readings", "session,cycle,rating_percent\nS1,1,100\n"}}));
  EXPECT_FALSE(intake.input);
  for (const TableCounts& count : intake.counts) EXPECT_EQ(count.read, count.used + count.with_issue);
  const auto log = std::find_if(intake.counts.begin(), intake.counts.end(),
                                [](const TableCounts& c) { return c.table == TableName::cycle_log; });
  ASSERT_NE(log, intake.counts.end());
  EXPECT_EQ(log->read, 3);
  EXPECT_EQ(log->with_issue, 2);
  const auto readings = std::find_if(intake.counts.begin(), intake.counts.end(),
                                     [](const TableCounts& c) { return c.table == TableName::readings; });
  ASSERT_NE(readings, intake.counts.end());
  EXPECT_EQ(readings->with_issue, 1); // its column time_s is missing, so no row can be used
}

TEST(CaseReader, RequiredTablesMissing) {
  const Intake intake = read_texts({{"operators", "operator\nA1\n"}});
  const auto missing = issues_of(intake, "required_table_missing");
  ASSERT_EQ(missing.size(), 2U);
  EXPECT_EQ(missing[0].table, "case");
  EXPECT_EQ(missing[0].wrong, "The table case is missing.");
  EXPECT_EQ(missing[1].table, "standard");
}

TEST(CaseReader, HeadersAloneAreNoTable) {
  Texts texts = small_case_with({{"cycle_log", "started_at,cycle_s\n# a note,\n"}});
  const Intake intake = read_texts(texts);
  ASSERT_TRUE(intake.input);
  EXPECT_EQ(intake.counts.size(), 2U);
  texts["standard"] = "element,description,class,time_s\n";
  EXPECT_EQ(only_issue(read_texts(texts)).code, "required_table_empty");
}

TEST(CaseReader, TitleRowsAboveTheHeaderAndNotesBelow) {
  const Intake intake = read_texts(small_case_with(
      {{"standard",
        "Standard of ST-07,,,\n\n,rev 4,,\n Element ,DESCRIPTION,Class,Time (s)\n# short name,what,,\nE10,fan,va,50\n"
        "#,,,\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  ASSERT_EQ(intake.input->standard.size(), 1U);
  EXPECT_EQ(intake.input->standard[0].origin.row, 6);
}

TEST(CaseReader, NoHeader) {
  const Issue issue = only_issue(read_texts(small_case_with({{"standard", "E10,fan,va,50\n"}})));
  EXPECT_EQ(issue.code, "header_not_found");
  EXPECT_EQ(issue.right, "One row must hold the column names, at least: element, description, class, time_s.");
}

TEST(CaseReader, ARenamedColumnIsRecognised) {
  const Issue issue =
      only_issue(read_texts(small_case_with({{"standard", "element,description,class,time\nE10,fan,va,50\n"}})));
  EXPECT_EQ(issue.code, "column_missing");
  EXPECT_EQ(issue.table, "standard");
  EXPECT_EQ(issue.row, 1);
  EXPECT_EQ(issue.column, "time_s");
  EXPECT_EQ(issue.raw, "time");
  EXPECT_EQ(issue.wrong, "The column time_s is missing.");
  EXPECT_EQ(issue.right, "If the column \"time\" is meant, change its header to time_s.");
}

TEST(CaseReader, AnUnknownColumnIsAWarning) {
  const Intake intake = read_texts(
      small_case_with({{"standard", "element,description,class,time_s,colour,kinds\nE10,fan,va,50,blue,walk\n"}}));
  ASSERT_TRUE(intake.input);
  const auto unknown = issues_of(intake, "column_unknown");
  ASSERT_EQ(unknown.size(), 2U);
  EXPECT_EQ(unknown[0].grade, IssueGrade::warning);
  EXPECT_EQ(unknown[0].right, "Nothing needs to be done if the column is for your own use.");
  EXPECT_EQ(unknown[1].right, "Did you mean kind? Then change the header to kind.");
}

TEST(CaseReader, TwoColumnsOfOneMeaning) {
  const Issue issue = only_issue(
      read_texts(small_case_with({{"standard", "element,description,class,time_s,time_min\nE10,fan,va,50,1\n"}})));
  EXPECT_EQ(issue.code, "column_twice");
  EXPECT_EQ(issue.wrong, "The columns time_s and time_min mean the same.");
}

TEST(CaseReader, TimesInMinutes) {
  const Intake intake =
      read_texts(small_case_with({{"standard", "element,description,class,time_min\nE10,fan,va,0.5\n"}}));
  ASSERT_TRUE(intake.input);
  EXPECT_EQ(intake.input->standard[0].time, Seconds(30));
}

TEST(CaseReader, ARequiredCellThatIsBlank) {
  const Issue issue =
      only_issue(read_texts(small_case_with({{"standard", "element,description,class,time_s\nE10,fan,,50\n"}})));
  EXPECT_EQ(issue.code, "cell_blank");
  EXPECT_EQ(issue.column, "class");
  EXPECT_EQ(issue.row, 2);
}

TEST(CaseReader, AllFaultsAtOnceInOrderAndManyAlikeCut) {
  std::string log = "started_at,cycle_s\n";
  for (int i = 0; i < 30; ++i) log += "2026-11-03 06:" + std::to_string(10 + i) + ",x\n";
  const Intake intake = read_texts(
      small_case_with({{"cycle_log", log}, {"standard", "element,description,class,time_s\nE10,fan,xx,y\n"}}));
  const auto numbers = issues_of(intake, "not_a_number");
  ASSERT_EQ(numbers.size(), 22U); // 20 of the log, one that says how many more, one of the standard
  EXPECT_EQ(numbers[0].row, 2);
  EXPECT_EQ(numbers[19].row, 21);
  EXPECT_EQ(numbers[20].wrong, "And 10 more of the same kind.");
  EXPECT_EQ(intake.issues.back().file, "standard.csv");
  EXPECT_EQ(intake.issues.back().column, "time_s");
  EXPECT_EQ(intake.issues[intake.issues.size() - 2].column, "class");
  EXPECT_EQ(intake.counts[1].table, TableName::cycle_log);
  EXPECT_EQ(intake.counts[1].with_issue, 30);
}

TEST(CaseReader, SheetsThatAreNoTableAreIgnored) {
  RawFile book{"case.xlsx", "", {}};
  for (const auto& [table, text] : small_case_with({{"standart", "a\n1\n"}, {"start_here", "hello\n"}}))
    book.tables.push_back(parse_csv(text, table + ".csv"));
  const Intake intake = read_case_from({book});
  ASSERT_TRUE(intake.input);
  const Issue issue = only_issue(intake);
  EXPECT_EQ(issue.code, "sheet_unknown");
  EXPECT_EQ(issue.grade, IssueGrade::warning);
  EXPECT_EQ(issue.right, "Did you mean standard? Then rename the sheet.");
}

// A CSV file was given for a table: to leave it out would lose it.
TEST(CaseReader, ACsvFileThatIsNoTableIsAFault) {
  const Intake intake = read_texts(small_case_with({{"week45", "started_at,cycle_s\n2026-11-03 06:00:00,50\n"}}));
  EXPECT_FALSE(intake.input);
  const Issue issue = only_issue(intake);
  EXPECT_EQ(issue.code, "sheet_unknown");
  EXPECT_EQ(issue.grade, IssueGrade::fault);
  EXPECT_EQ(issue.right,
            "Say which table it is with --as, for example --as cycle_log, rename the file, or leave it out.");
}

TEST(CaseReader, TwoSheetsOfOneTable) {
  RawFile file{"case.xlsx", "", {}};
  for (const auto& [table, text] : small_case()) file.tables.push_back(parse_csv(text, table + ".csv"));
  file.tables.push_back(file.tables.back());
  file.tables.back().name = "STANDARD ";
  EXPECT_EQ(only_issue(read_case_from({file})).code, "table_twice");
}

TEST(CaseReader, ATableInSeveralFilesIsJoined) {
  const Texts texts = small_case();
  std::vector<RawFile> files;
  for (const auto& [table, text] : texts) files.push_back({table + ".csv", "", {parse_csv(text, table + ".csv")}});
  files.push_back({"more.csv", "", {parse_csv("element,description,class,time_s\nE30,hose,va,2\n", "standard.csv")}});
  const Intake intake = read_case_from(files);
  ASSERT_TRUE(intake.input);
  ASSERT_EQ(intake.input->standard.size(), 3U);
  EXPECT_EQ(intake.input->standard[2].origin, (SourceRow{2, TableName::standard, 2}));
}

// Key/value tables.

std::string case_text(const std::string& more) {
  return "key,value\ncase_ref,C-1\ntitle,T\nstation,S\nline,L\n" + more;
}

Intake read_keys(const std::string& more) { return read_texts(small_case_with({{"case", case_text(more)}})); }

TEST(CaseFacts, EveryKey) {
  const Intake intake =
      read_keys("line_cycle_s,55\ntakt_s,68.4\noee_percent,80.4\nworking_min_per_day,912\nunits_per_day,800\n"
                "complainants,A1; B3\nb_for,none\nearly_start_s,0\nlate_finish_s,9\nallowance_percent,8\n"
                "allowance_where,by_relief\ncycles_per_shift,420\nopen_safety_matter,no\nopened_on,2026-11-03\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const CaseFacts& facts = intake.input->facts;
  EXPECT_DOUBLE_EQ(facts.oee.value(), 0.804);
  EXPECT_EQ(facts.complainants, (std::vector<std::string>{"A1", "B3"}));
  ASSERT_TRUE(facts.b_for);
  EXPECT_TRUE(facts.b_for->empty());
  EXPECT_EQ(facts.early_start, Seconds(0));
  EXPECT_EQ(facts.allowance, 0.08);
  EXPECT_EQ(facts.allowance_where, AllowanceWhere::by_relief);
  EXPECT_EQ(facts.cycles_per_shift, 420);
  EXPECT_EQ(facts.open_safety_matter, YesNo::no);
  EXPECT_EQ(facts.origins.front(), (std::pair<std::string, SourceRow>{"case_ref", {0, TableName::case_facts, 2}}));
}

TEST(CaseFacts, ARequiredKeyIsNotFilled) {
  const Issue issue = only_issue(
      read_texts(small_case_with({{"case", "key,value\ncase_ref,C\ntitle,\nstation,S\nline,L\nline_cycle_s,55\n"}})));
  EXPECT_EQ(issue.code, "required_key_not_filled");
  EXPECT_EQ(issue.column, "title");
  EXPECT_EQ(issue.row, 3);
  EXPECT_EQ(issue.wrong, "The required key title is not filled.");
}

TEST(CaseFacts, AKeyTwice) {
  const Issue issue = only_issue(read_keys("line_cycle_s,55\nline_cycle_s,56\n"));
  EXPECT_EQ(issue.code, "key_twice");
  EXPECT_EQ(issue.wrong, "The key line_cycle_s is filled twice, here and in row 6.");
}

TEST(CaseFacts, AKeyThatIsNearlyOneOfOursIsAFault) {
  const Issue issue = only_issue(read_keys("line_cycle_s,55\nlate_finnish_s,9\n"));
  EXPECT_EQ(issue.code, "key_unknown");
  EXPECT_EQ(issue.grade, IssueGrade::fault);
  EXPECT_EQ(issue.right, "Did you mean late_finish_s? Then correct the key, or delete the row.");
}

TEST(CaseFacts, AKeyOfTheirOwnIsAWarning) {
  const Intake intake = read_keys("line_cycle_s,55\ncost centre,4711\n");
  EXPECT_TRUE(intake.input);
  EXPECT_EQ(only_issue(intake).code, "key_unknown");
  EXPECT_EQ(only_issue(intake).grade, IssueGrade::warning);
}

TEST(CaseFacts, AValueWithoutKey) { EXPECT_EQ(only_issue(read_keys("line_cycle_s,55\n,12\n")).code, "key_blank"); }

TEST(CaseFacts, ANoteColumnBesideTheValueIsNoSurprise) {
  const Intake intake = read_texts(small_case_with(
      {{"case",
        "key,value,note\n# leave,fill in,\ncase_ref,C,x\ntitle,T,\nstation,S,\nline,L,\nline_cycle_min,1,minutes\n"}}));
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_TRUE(intake.issues.empty());
  EXPECT_EQ(intake.input->facts.line_cycle, Seconds(60));
}

TEST(CaseFacts, LineCycleZero) {
  const Issue issue = only_issue(read_keys("line_cycle_s,0\n"));
  EXPECT_EQ(issue.code, "line_cycle_not_positive");
  EXPECT_EQ(issue.wrong, "The line cycle time is not above 0, so no work can fit into it.");
}

TEST(CaseFacts, AllowanceWithoutPlace) {
  EXPECT_EQ(only_issue(read_keys("line_cycle_s,55\nallowance_percent,8\n")).code, "allowance_without_place");
}

TEST(CaseFacts, OeeAsFraction) {
  const auto issues = issues_of(read_keys("takt_s,68.4\noee_percent,0.804\n"), "percent_looks_like_fraction");
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].right, "Percent is expected: 80.4, not 0.804.");
}

TEST(CaseFacts, AnOperatorThatIsAName) {
  const Issue issue = only_issue(read_keys("line_cycle_s,55\ncomplainants,A1;Maria\n"));
  EXPECT_EQ(issue.code, "operator_not_a_code");
}

TEST(TimeAvailable, FromTaktOrFromTheDay) {
  EXPECT_TRUE(read_keys("takt_s,68.4\noee_percent,80.4\n").input);
  EXPECT_TRUE(read_keys("working_min_per_day,912\nunits_per_day,800\noee_percent,80.4\n").input);
}

TEST(TimeAvailable, Missing) {
  EXPECT_EQ(only_issue(read_keys("")).code, "required_key_not_filled");
  const Issue issue = only_issue(read_keys("working_min_per_day,912\noee_percent,80.4\n"));
  EXPECT_EQ(issue.code, "time_available_incomplete");
  EXPECT_EQ(issue.wrong, "The line cycle time is not given and cannot be worked out: units_per_day is missing.");
}

TEST(TimeAvailable, AgreesWithinHalfAPercent) {
  // 68.4 s * 80.4 % = 54.9936 s; half a percent of that is 0.275 s.
  EXPECT_TRUE(read_keys("line_cycle_s,55.26\ntakt_s,68.4\noee_percent,80.4\n").input);
  EXPECT_FALSE(read_keys("line_cycle_s,55.28\ntakt_s,68.4\noee_percent,80.4\n").input);
}

TEST(TimeAvailable, ShowsTheArithmeticWhereItDisagrees) {
  const Issue issue =
      only_issue(read_keys("line_cycle_s,60\nworking_min_per_day,912\nunits_per_day,800\noee_percent,80.4\n"));
  EXPECT_EQ(issue.code, "time_available_contradicts");
  EXPECT_EQ(issue.wrong, "60 x 912 min / 800 units = 68.40 s of takt; 68.40 s x 80.4 % OEE = 54.99 s, but line_cycle_s "
                         "says 60.00 s.");
  EXPECT_EQ(issue.raw, "60");
  EXPECT_EQ(only_issue(read_keys("line_cycle_s,70\ntakt_s,68.4\n")).code, "time_available_contradicts");
  EXPECT_EQ(only_issue(read_keys("takt_s,60\nworking_min_per_day,912\nunits_per_day,800\noee_percent,80.4\n")).code,
            "time_available_contradicts");
}

Intake read_settings_text(const std::string& rows) {
  return read_texts(small_case_with({{"settings", "Leave as they are,,\nkey,value,reason\n" + rows}}));
}

TEST(SettingsTable, DefaultsAreListedAndChangesCarryTheirReason) {
  const Intake plain = read_texts(small_case());
  ASSERT_EQ(plain.input->settings.given.size(), 13U);
  EXPECT_EQ(plain.input->settings.given[0].key, "confidence_percent");
  EXPECT_EQ(plain.input->settings.given[0].value, "95");
  EXPECT_FALSE(plain.input->settings.given[0].given);
  const Intake intake = read_settings_text("confidence_percent,90,agreed 2026-10\ncycle_spread_percent,6,\nseed,7,\n");
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const Settings& settings = intake.input->settings;
  EXPECT_DOUBLE_EQ(settings.confidence, 0.90);
  EXPECT_DOUBLE_EQ(settings.cycle_spread.value(), 0.06);
  EXPECT_EQ(settings.seed, 7U);
  EXPECT_EQ(settings.given[0].value, "90");
  EXPECT_EQ(settings.given[0].reason, "agreed 2026-10");
  EXPECT_TRUE(settings.given[0].given);
  EXPECT_EQ(settings.given[0].origin.row, 3);
}

TEST(SettingsTable, ReasonsAreAskedFor) {
  EXPECT_EQ(only_issue(read_settings_text("standard_uncertainty_percent,2,\n")).code, "reason_missing");
  EXPECT_TRUE(read_settings_text("standard_uncertainty_percent,2,second analyst\n").input);
  const Intake blind = read_settings_text("pace_uncertainty_percent,0,\n");
  EXPECT_TRUE(blind.input);
  EXPECT_EQ(only_issue(blind).code, "pace_taken_as_known");
}

TEST(SettingsTable, AFractionIsNoPercent) {
  const Issue issue = only_issue(read_settings_text("confidence_percent,0.95,\n"));
  EXPECT_EQ(issue.code, "out_of_range");
  EXPECT_EQ(issue.right, "The value should be 50 to 99.9. Percent is expected: 95, not 0.95.");
}

// Files.

/// Each test has a folder of its own, for ctest runs several at once.
struct Folder {
  std::filesystem::path path =
      std::filesystem::path(testing::TempDir()) /
      ("case_reader_" + std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
  Folder() {
    std::filesystem::remove_all(path);
    std::filesystem::create_directories(path);
  }
  ~Folder() { std::filesystem::remove_all(path); }
  void write(const std::string& name, const std::string& text) const { std::ofstream(path / name) << text; }
};

TEST(InputFiles, AFolderOfCsvFiles) {
  const Folder folder;
  for (const auto& [table, text] : small_case()) folder.write(table + ".csv", text);
  folder.write("README.md", "not a table");
  const Intake intake = read_case(std::array{folder.path.string()});
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(intake.input->sources[0].file, "case.csv");
  EXPECT_EQ(intake.input->sources[0].sha256.size(), 64U);
}

TEST(InputFiles, WhatCannotBeRead) {
  const Folder folder;
  const auto kind_of = [](const std::string& path) {
    try {
      read_case(std::array{path});
    } catch (const Error& error) {
      return static_cast<int>(error.kind());
    }
    return 0;
  };
  EXPECT_EQ(kind_of((folder.path / "absent.xlsx").string()), 3);
  EXPECT_EQ(kind_of(folder.path.string()), 1); // no CSV file in it
  folder.write("notes.txt", "x");
  EXPECT_EQ(kind_of((folder.path / "notes.txt").string()), 1);
  folder.write("case.xlsx", "text, and no workbook");
  EXPECT_EQ(kind_of(folder.path.string()), 1); // says to give the workbook itself
  EXPECT_EQ(kind_of((folder.path / "case.xlsx").string()), 1);
}

} // namespace
} // namespace docket
