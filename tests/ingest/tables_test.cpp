#include "core/marks.h"
#include "ingest/reading/cell_values.h"
#include "ingest/reading/word_match.h"
#include "ingest/tables.h"

#include <gtest/gtest.h>

#include <set>

namespace docket {
namespace {

TEST(Tables, StandInTheOrderOfTheirNames) {
  ASSERT_EQ(all_tables().size(), table_count);
  for (std::size_t i = 0; i < table_count; ++i) EXPECT_EQ(static_cast<std::size_t>(all_tables()[i].table), i);
}

TEST(Tables, OnlyCaseAndStandardAreRequired) {
  for (const TableDeclaration& table : all_tables()) {
    const bool needed = table.table == TableName::case_facts || table.table == TableName::standard;
    EXPECT_EQ(table.required, needed) << name_of(table.table);
    EXPECT_EQ(table.absent.empty(), needed) << name_of(table.table);
  }
}

TEST(Tables, EveryColumnSaysWhatBelongsThere) {
  for (const TableDeclaration& table : all_tables()) {
    EXPECT_FALSE(table.purpose.empty());
    for (const ColumnDeclaration& column : table.columns)
      EXPECT_FALSE(column.note.empty()) << name_of(table.table) << "." << column.name;
  }
}

// Two columns that differ only in case, accents and blanks, or in the unit of a time, could not be told apart.
TEST(Tables, NoTwoHeadersOfATableMatchTheSameWord) {
  for (const TableDeclaration& table : all_tables()) {
    for (const ColumnDeclaration& column : table.columns) {
      std::vector<std::string> spellings{std::string(column.name)};
      if (column.kind == ColumnKind::seconds && column.name.ends_with("_s"))
        for (const char* unit : {"min", "cmin", "tmu"})
          spellings.push_back(std::string(column.name.substr(0, column.name.size() - 1)) + unit);
      for (const std::string& spelling : spellings) {
        int matches = 0;
        for (const ColumnDeclaration& other : table.columns) matches += match_header(spelling, other) ? 1 : 0;
        EXPECT_EQ(matches, 1) << name_of(table.table) << "." << spelling;
      }
    }
  }
}

TEST(Tables, ChoicesHaveWordsAndPresetsAreAmongThem) {
  for (const TableDeclaration& table : all_tables()) {
    for (const ColumnDeclaration& column : table.columns) {
      if (column.kind != ColumnKind::choice) continue;
      EXPECT_FALSE(column.words.empty()) << column.name;
      if (column.preset.empty()) continue;
      EXPECT_NE(std::find(column.words.begin(), column.words.end(), column.preset), column.words.end()) << column.name;
    }
  }
}

TEST(Tables, PresetsOfNumbersAreRead) {
  for (const TableDeclaration& table : all_tables()) {
    for (const ColumnDeclaration& column : table.columns) {
      if (column.preset.empty()) continue;
      CellValue value;
      const RawCell cell{CellKind::text, std::string(column.preset), 0};
      EXPECT_FALSE(read_cell(cell, {&column, TimeUnit::seconds, false}, value)) << column.name;
    }
  }
}

TEST(Tables, AreFoundWithoutCaseAccentsAndBlanks) {
  EXPECT_EQ(find_table("case"), TableName::case_facts);
  EXPECT_EQ(find_table("Cycle Log"), TableName::cycle_log);
  EXPECT_EQ(find_table("CYCLE-LOG"), TableName::cycle_log);
  EXPECT_EQ(find_table("stàndard"), TableName::standard);
  EXPECT_EQ(find_table("Sheet1"), std::nullopt);
}

TEST(WordMatch, NearestWordIsOneOrTwoSlipsAway) {
  const std::vector<std::string_view> words{"line_cycle_s", "takt_s", "line"};
  EXPECT_EQ(nearest_word("line_cycel_s", words), "line_cycle_s");
  EXPECT_EQ(nearest_word("Takt s", words), "takt_s");
  EXPECT_EQ(nearest_word("department", words), std::nullopt);
  EXPECT_EQ(nearest_word("", words), std::nullopt);
}

TEST(WordMatch, ListsAreDividedBySemicolons) {
  EXPECT_EQ(split_list(" A ; ;B;"), (std::vector<std::string>{"A", "B"}));
  EXPECT_TRUE(split_list("").empty());
}

} // namespace
} // namespace docket
