// What the reading options make of files: each input stands beside what a reader of it would say it holds.
#include "core/error.h"
#include "ingest/reading/code_list.h"
#include "ingest/reading/prepared_inputs.h"
#include "tests/ingest/case_from_text.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

namespace docket {
namespace {

RawFile csv(const std::string& name, const std::string& text) { return {name, "", {parse_csv(text, name)}}; }

RawFile book(std::vector<std::pair<std::string, std::string>> sheets) {
  RawFile file{"book.xlsx", "", {}};
  for (const auto& [name, text] : sheets) {
    file.tables.push_back(parse_csv(text, name + ".csv"));
    file.tables.back().name = name;
  }
  return file;
}

std::string tables_of(const std::vector<RawFile>& files) {
  std::string names;
  for (const RawFile& file : files)
    for (const RawTable& table : file.tables) names += (names.empty() ? "" : " ") + table.name;
  return names;
}

std::string prepared(std::vector<RawFile> files, const ReadingOptions& options) {
  try {
    prepare_inputs(files, options);
  } catch (const Error& error) {
    return error.what();
  }
  return tables_of(files);
}

const std::string log_text = "started_at,cycle_s\n2026-11-03 06:00:00,50\n";

TEST(PreparedAs, names_the_table_of_a_file_whose_name_is_none) {
  ReadingOptions options;
  options.as = TableName::cycle_log;
  EXPECT_EQ(prepared({csv("week 45.csv", log_text), csv("case.csv", "key,value\n")}, options), "cycle_log case");
  // A workbook with one sheet that holds something.
  EXPECT_EQ(prepared({book({{"Sheet1", log_text}, {"Sheet2", ""}})}, options), "cycle_log Sheet2");
  const std::string refusal =
      "--as cycle_log: Every input is a table by its name already, or has several sheets. Leave "
      "--as out, or say with --sheet which sheet is meant.";
  EXPECT_EQ(prepared({csv("readings.csv", log_text)}, options), refusal);
  EXPECT_EQ(prepared({book({{"Sheet1", log_text}, {"Sheet2", log_text}})}, options), refusal);
}

TEST(PreparedSheet, only_the_named_one_is_left_of_a_workbook_that_has_it) {
  ReadingOptions options;
  options.sheet = "early shift";
  const RawFile plant = book({{"Early Shift", log_text}, {"Late Shift", log_text}});
  EXPECT_EQ(prepared({csv("case.csv", "key,value\n"), plant}, options), "case Early Shift");
  options.as = TableName::cycle_log;
  EXPECT_EQ(prepared({plant}, options), "cycle_log");
  options.sheet = "erly shift";
  EXPECT_EQ(prepared({plant}, options),
            "--sheet erly shift: No input has a sheet of this name. Did you mean Early Shift?");
  options.sheet = "stops";
  EXPECT_EQ(prepared({plant}, options),
            "--sheet stops: No input has a sheet of this name. There are: Early Shift, Late Shift.");
}

TEST(PreparedSheet, that_is_named_is_the_table_meant_even_where_its_name_is_another) {
  ReadingOptions options;
  options.sheet = "readings";
  options.as = TableName::cycle_log;
  EXPECT_EQ(prepared({book({{"readings", log_text}, {"standard", ""}})}, options), "cycle_log");
}

Intake read_prepared(const Texts& texts, const ReadingOptions& options) {
  std::vector<RawFile> files;
  for (const auto& [table, text] : texts) files.push_back(csv(table + ".csv", text));
  prepare_inputs(files, options);
  return read_case_from(files, options.set_aside);
}

TEST(PreparedDates, are_read_in_the_order_said) {
  const Texts texts = small_case_with(
      {{"cycle_log", "started_at,cycle_s\n3.11.2026 06:00:00.250,50\n"}, {"training", "operator,on\nA1,3.11.2026\n"}});
  ReadingOptions options;
  EXPECT_EQ(issues_of(read_prepared(texts, options), "not_a_date").size(), 2U);
  options.dates = DateOrder::day_month_year;
  Intake intake = read_prepared(texts, options);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  using namespace std::chrono_literals;
  const Date november{std::chrono::local_days(2026y / 11 / 3)};
  EXPECT_EQ(intake.input->cycle_log.at(0).started_at, Instant(november) + 6h + 250ms);
  EXPECT_EQ(intake.input->training.at(0).on, november);
  options.dates = DateOrder::month_day_year;
  intake = read_prepared(texts, options);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(intake.input->training.at(0).on, Date(std::chrono::local_days(2026y / 3 / 11)));
}

TEST(PreparedDates, that_are_none_in_that_order_stay_a_fault) {
  ReadingOptions options;
  options.dates = DateOrder::month_day_year;
  const Intake intake = read_prepared(small_case_with({{"training", "operator,on\nA1,31.12.2026\n"}}), options);
  const auto issues = issues_of(intake, "not_a_date");
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].raw, "31.12.2026");
}

TEST(PreparedDates, of_a_day_alone_still_lack_the_time_of_day) {
  ReadingOptions options;
  options.dates = DateOrder::day_month_year;
  const Intake intake = read_prepared(small_case_with({{"cycle_log", "started_at,cycle_s\n3.11.2026,50\n"}}), options);
  EXPECT_EQ(issues_of(intake, "time_of_day_missing").size(), 1U);
}

// ---- codes ----------------------------------------------------------------------------------------------------------

/// A list of codes in a file of its own, also beside other tests; gone with the test.
struct CodesFile {
  explicit CodesFile(const std::string& text) { std::ofstream(path, std::ios::binary) << text; }
  ~CodesFile() { std::filesystem::remove(path); }
  std::string path = testing::TempDir() + "/docket_codes_" + std::to_string(getpid()) + ".csv";
};

TEST(PreparedCodes, stand_in_the_place_of_names_and_numbers) {
  const CodesFile file("name,code\nRosa Lindqvist,A1\n40213,B2\nJosé Ñandú,C3\n");
  ReadingOptions options;
  options.codes_file = file.path;
  const Intake intake = read_prepared(
      small_case_with({{"case", small_case()["case"] + "complainants,rosa  lindqvist; B2\n"},
                       {"operators", "operator,trained\nRosa Lindqvist,yes\n40213,no\nJose Nandu,yes\nD4,yes\n"}}),
      options);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  std::vector<std::string> codes;
  for (const Operator& op : intake.input->operators) codes.push_back(op.code);
  EXPECT_EQ(codes, (std::vector<std::string>{"A1", "B2", "C3", "D4"}));
  EXPECT_EQ(intake.input->facts.complainants, (std::vector<std::string>{"A1", "B2"}));
  const auto notes = issues_of(intake, "operators_recoded");
  ASSERT_EQ(notes.size(), 2U);
  EXPECT_EQ(notes[0].wrong, "1 operator cell held a name of the list of codes; its code stands there now.");
  EXPECT_EQ(notes[1].wrong, "3 operator cells held a name of the list of codes; its code stands there now.");
}

TEST(PreparedCodes, a_name_that_is_not_in_the_list_is_a_fault_without_the_name) {
  const CodesFile file("name;code\nRosa Lindqvist;A1\n");
  ReadingOptions options;
  options.codes_file = file.path;
  const Intake intake = read_prepared(small_case_with({{"operators", "operator,trained\nMaria Berg,yes\n"}}), options);
  const Issue issue = only_issue(intake);
  EXPECT_EQ(issue.code, "operator_not_a_code");
  for (const std::string& text : {issue.wrong, issue.right, issue.raw})
    EXPECT_EQ(text.find("Maria"), std::string::npos);
}

TEST(PreparedCodes, a_name_in_a_text_is_said_without_the_name) {
  const CodesFile file("name,code\nRosa Lindqvist,A1\nLi,B2\n");
  ReadingOptions options;
  options.codes_file = file.path;
  const Intake intake =
      read_prepared(small_case_with({{"statements", "who,on,text\noperator,2026-11-03,rosa lindqvist said so\n"
                                                    "operator,2026-11-03,Little light at the line\n"}}),
                    options);
  const auto issues = issues_of(intake, "name_in_text");
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].grade, IssueGrade::warning);
  EXPECT_EQ(issues[0].wrong, "A name of the list of codes stands in a text (1 cell; row 2).");
}

TEST(PreparedCodes, are_no_input_themselves) {
  const CodesFile file("name,code\nRosa Lindqvist,A1\n");
  ReadingOptions options;
  options.codes_file = file.path;
  EXPECT_EQ(
      prepared({read_csv_file(file.path)}, options),
      "--codes " + file.path +
          ": The list of codes is among the inputs, and what is an input is kept. Put the list where no input lies.");
}

std::string list_refusal(const std::string& text) {
  try {
    read_code_list(csv("codes.csv", text));
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::input_has_faults);
    return error.what();
  }
  return "no error";
}

TEST(CodeList, refuses_what_is_no_list_without_a_name_in_the_message) {
  const std::string example =
      " It needs a first row with name,code and then one row a person, for example a name and A1.";
  EXPECT_EQ(list_refusal(""), "codes.csv: The list of codes is empty." + example);
  EXPECT_EQ(list_refusal("Rosa,A1\n"), "codes.csv: The list of codes has no column name." + example);
  EXPECT_EQ(list_refusal("name,who\nRosa,A1\n"), "codes.csv: The list of codes has no column code." + example);
  EXPECT_EQ(list_refusal("name,code\nRosa,\n,A1\n"),
            "codes.csv: A name or a code is missing in rows 2, 3. Fill in both, or delete the row.");
  EXPECT_EQ(
      list_refusal("name,code\nRosa,Lindqvist\n"),
      "codes.csv: What stands in the column code is no code, in row 2. Use a code: letters, then digits, at most 6 "
      "characters, for example A1 or OP-12.");
  EXPECT_EQ(
      list_refusal("name,code\nRosa,A1\nROSA,B2\n"),
      "codes.csv: A name has got another code before, in row 3. Each name has one code. Case, accents and blanks do "
      "not make it another name.");
  EXPECT_EQ(list_refusal("code,name\n# a note,\nA1,Rosa\na1,rosa\n"), "no error");
}

// ---- rows set aside -------------------------------------------------------------------------------------------------

const ReadingOptions set_aside = [] {
  ReadingOptions options;
  options.set_aside = true;
  return options;
}();

TEST(SetAside, takes_the_other_rows_and_keeps_the_bad_ones_beside) {
  const Intake intake =
      read_prepared(full_case_with({{"cycle_log", "started_at,cycle_s,operator,variant\n2026-11-03 06:00:00,50,A1,V1\n"
                                                  "2026-11-03 06:01:00,fifty,A1,V1\n2026-11-03 06:02:00,51,A1,V9\n"
                                                  "2026-11-03 06:03:00,52,A1,V2\n"}}),
                    set_aside);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(intake.input->cycle_log.size(), 2U);
  const auto& rows = intake.input->set_aside;
  ASSERT_EQ(rows.size(), 2U);
  EXPECT_EQ(rows[0].origin.row, 3);
  EXPECT_EQ(rows[0].origin.table, TableName::cycle_log);
  EXPECT_EQ(rows[0].column, "cycle_s");
  EXPECT_EQ(rows[0].wrong, "\"fifty\" is not a number.");
  EXPECT_EQ(rows[0].raw, "2026-11-03 06:01:00 | fifty | A1 | V1");
  EXPECT_EQ(rows[1].column, "variant");
  for (const TableCounts& count : intake.counts) {
    if (count.table != TableName::cycle_log) continue;
    EXPECT_EQ(count.read, 4);
    EXPECT_EQ(count.used, 2);
    EXPECT_EQ(count.with_issue, 2);
  }
  const auto issues = issues_of(intake, "not_a_number");
  ASSERT_EQ(issues.size(), 1U);
  EXPECT_EQ(issues[0].grade, IssueGrade::warning);
  EXPECT_EQ(issues[0].row, 3);
  EXPECT_TRUE(issues[0].right.starts_with("The row is set aside. ")) << issues[0].right;
  for (const Source& source : intake.input->sources)
    EXPECT_TRUE(source.file != "cycle_log.csv" || source.rows == 4) << source.rows;
}

TEST(SetAside, takes_what_hangs_on_a_row_along) {
  const Intake intake =
      read_prepared(full_case_with({{"sessions", "session,date,operator\nS1,2026-11-04,A1\nS2,soon,A1\n"},
                                    {"readings", "session,cycle,time_s\nS1,1,50\nS2,1,51\nS2,2,52\n"}}),
                    set_aside);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  EXPECT_EQ(intake.input->sessions.size(), 1U);
  EXPECT_EQ(intake.input->readings.size(), 1U);
  EXPECT_EQ(intake.input->set_aside.size(), 3U);
}

TEST(SetAside, of_a_whole_table_still_counts_its_rows) {
  const Intake intake = read_prepared(small_case_with({{"cycle_log", "started_at,cycle_s\nnoon,50\n"}}), set_aside);
  ASSERT_TRUE(intake.input) << codes_of(intake);
  const auto count = std::find_if(intake.counts.begin(), intake.counts.end(),
                                  [](const TableCounts& one) { return one.table == TableName::cycle_log; });
  ASSERT_NE(count, intake.counts.end());
  EXPECT_EQ(count->read, 1);
  EXPECT_EQ(count->used, 0);
  EXPECT_EQ(count->with_issue, 1);
}

// The file of the row is kept, and so would be the name in it.
TEST(SetAside, a_row_with_a_name_is_never_set_aside) {
  const Intake intake = read_prepared(
      full_case_with(
          {{"cycle_log", "started_at,cycle_s,operator\nnoon,50,Rosa Lindqvist\n2026-11-03 06:00:00,50,A1\n"}}),
      set_aside);
  EXPECT_FALSE(intake.input);
  EXPECT_EQ(issues_of(intake, "operator_not_a_code").size(), 1U);
  for (const Issue& issue : intake.issues)
    EXPECT_EQ((issue.raw + issue.wrong + issue.right).find("Rosa"), std::string::npos);
}

TEST(SetAside, never_takes_what_says_the_standard_who_works_or_what_differs) {
  for (const auto& [table, text] :
       Texts{{"standard", "element,description,class,time_s\nE10,place fan,va,long\n"},
             {"case", "key,value\ncase_ref,C-1\ntitle,Fan deck\nstation,ST-07\nline,Line 2\nline_cycle_s,long\n"},
             {"settings", "key,value\nconfidence_percent,high\n"},
             {"operators", "operator,trained\nA1,perhaps\n"},
             {"conditions", "check,state\nscrews as drawn,perhaps\n"},
             {"referrals", "trigger,reported_on\npain,soon\n"},
             {"variants", "variant,share_percent\nV1,most\n"}}) {
    const Intake intake = read_prepared(small_case_with({{table, text}}), set_aside);
    EXPECT_FALSE(intake.input) << table;
    bool said = false;
    for (const Issue& issue : intake.issues)
      said = said || (issue.grade == IssueGrade::fault && issue.right.ends_with("The row can't be set aside."));
    EXPECT_TRUE(said) << table;
  }
}

TEST(SetAside, changes_nothing_where_there_is_no_fault) {
  const Texts texts = full_case_with({{"cycle_log", "started_at,cycle_s,operator\n2026-11-03 06:00:00,50,A1\n"}});
  const Intake plain = read_prepared(texts, {}), asked = read_prepared(texts, set_aside);
  EXPECT_EQ(codes_of(plain), codes_of(asked));
  ASSERT_TRUE(asked.input);
  EXPECT_TRUE(asked.input->set_aside.empty());
  EXPECT_EQ(asked.input->cycle_log.size(), plain.input->cycle_log.size());
}

} // namespace
} // namespace docket
