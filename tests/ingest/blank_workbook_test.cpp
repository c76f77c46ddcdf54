#include "core/error.h"
#include "ingest/blank_workbook.h"
#include "ingest/case_reader.h"
#include "ingest/file_hash.h"
#include "ingest/tables.h"
#include "ingest/walk_list.h"
#include "ingest/workbook.h"

#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <fstream>

namespace docket {
namespace {

std::string fresh_path(const std::string& name) {
  const std::string path = testing::TempDir() + name;
  std::filesystem::remove(path);
  return path;
}

TEST(BlankWorkbook, HoldsEverySheetInOrder) {
  const std::string path = fresh_path("blank_sheets.xlsx");
  write_blank_workbook(path);
  const RawFile file = read_workbook(path);
  ASSERT_EQ(file.tables.size(), table_count + 1);
  EXPECT_EQ(file.tables[0].name, "start_here");
  for (std::size_t i = 0; i < table_count; ++i) EXPECT_EQ(file.tables[i + 1].name, name_of(all_tables()[i].table));
  EXPECT_EQ(file.tables.back().rows.front().cells.front().text,
            "Leave as they are unless your agreement says otherwise; every change is printed");
}

TEST(BlankWorkbook, ANoteStandsRightUnderEachHeader) {
  const std::string path = fresh_path("blank_notes.xlsx");
  write_blank_workbook(path);
  const RawFile file = read_workbook(path);
  for (std::size_t i = 1; i < file.tables.size(); ++i) {
    const RawTable& sheet = file.tables[i];
    const TableDeclaration& table = all_tables()[i - 1];
    const std::size_t header = table.heading.empty() ? 0 : 1;
    ASSERT_GE(sheet.rows.size(), header + 2) << sheet.name;
    const RawRow& note = sheet.rows[header + 1];
    EXPECT_TRUE(note.cells.front().text.starts_with("# ")) << sheet.name;
    EXPECT_EQ(note.cells.size(), sheet.rows[header].cells.size()) << sheet.name;
    if (table.key_value) continue;
    for (std::size_t c = 0; c < table.columns.size(); ++c)
      EXPECT_EQ(sheet.rows[header].cells[c].text, table.columns[c].name);
  }
}

TEST(BlankWorkbook, UnfilledLacksOnlyWhatIsNeeded) {
  const std::string path = fresh_path("blank_unfilled.xlsx");
  write_blank_workbook(path);
  const Intake intake = read_case(std::array{path});
  EXPECT_FALSE(intake.input);
  std::vector<std::string> missing;
  for (const Issue& issue : intake.issues) {
    EXPECT_EQ(issue.grade, IssueGrade::fault);
    missing.push_back(issue.table + ":" + issue.column + ":" + issue.code);
  }
  EXPECT_EQ(missing, (std::vector<std::string>{
                         "case:line_cycle_s:required_key_not_filled", "case:case_ref:required_key_not_filled",
                         "case:title:required_key_not_filled", "case:station:required_key_not_filled",
                         "case:line:required_key_not_filled", "standard::required_table_empty"}));
}

// What the reader takes from the list as it is printed: every row a condition that nobody checked yet.
TEST(WalkList, ItsRowsAreConditions) {
  const std::string path = fresh_path("walk.xlsx");
  write_walk_list(path);
  const RawFile file = read_workbook(path);
  ASSERT_EQ(file.tables.size(), 1U);
  EXPECT_EQ(file.tables[0].name, "conditions");
  const std::string folder = testing::TempDir() + "walk_case/";
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  std::ofstream(folder + "case.csv") << "key,value\ncase_ref,C-1\ntitle,Fan\nstation,S\nline,L\nline_cycle_s,55\n";
  std::ofstream(folder + "standard.csv") << "element,description,class,time_s\nE10,place fan,va,30\n";
  const Intake intake = read_case(std::array{folder + "case.csv", folder + "standard.csv", path});
  ASSERT_TRUE(intake.input);
  EXPECT_TRUE(intake.issues.empty());
  std::size_t checks = 0;
  for (const WalkTopic& topic : walk_topics())
    for (const std::string_view check : topic.checks)
      if (!check.empty()) {
        ASSERT_LT(checks, intake.input->conditions.size());
        EXPECT_EQ(intake.input->conditions[checks].check, check);
        EXPECT_EQ(intake.input->conditions[checks].state, ConditionState::not_checked);
        ++checks;
      }
  EXPECT_EQ(intake.input->conditions.size(), checks);
  EXPECT_EQ(walk_topics().size(), 12U);
}

TEST(WalkList, SameBytesEachTime) {
  const std::string first = fresh_path("walk_first.xlsx");
  const std::string second = fresh_path("walk_second.xlsx");
  write_walk_list(first);
  write_walk_list(second);
  EXPECT_EQ(sha256_of(read_file_bytes(first)), sha256_of(read_file_bytes(second)));
}

TEST(BlankWorkbook, SameBytesEachTime) {
  const std::string first = fresh_path("blank_first.xlsx");
  const std::string second = fresh_path("blank_second.xlsx");
  write_blank_workbook(first);
  write_blank_workbook(second);
  EXPECT_EQ(sha256_of(read_file_bytes(first)), sha256_of(read_file_bytes(second)));
}

TEST(BlankWorkbook, NeverWritesOverAFile) {
  const std::string path = fresh_path("blank_taken.xlsx");
  std::ofstream(path) << "mine";
  try {
    write_blank_workbook(path);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
    EXPECT_EQ(error.what_happened(), "There is a file of this name already.");
  }
  EXPECT_EQ(read_file_bytes(path), "mine");
}

TEST(BlankWorkbook, AFolderThatIsNotThereIsSaid) {
  try {
    write_blank_workbook(testing::TempDir() + "no_such_folder/blank.xlsx");
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
  }
}

} // namespace
} // namespace docket
