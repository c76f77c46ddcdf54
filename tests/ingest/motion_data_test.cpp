// The shipped motion table: complete, and right where published examples reach it.
#include "core/content/motions/motion_analysis.h"
#include "ingest/csv.h"
#include "ingest/motion_data.h"

#include <gtest/gtest.h>

#include <set>

namespace docket {
namespace {

const MotionTimes& shipped() {
  static const MotionTimes times = read_shipped_motion_times();
  return times;
}

std::vector<std::vector<std::string>> read_examples(const std::string& file) {
  std::vector<std::vector<std::string>> rows;
  const RawFile examples = read_csv_file(std::string(DOCKET_TESTS_DIR) + "/reference/motion_examples/" + file);
  for (const RawRow& row : examples.tables.at(0).rows) {
    rows.emplace_back();
    for (const RawCell& cell : row.cells) rows.back().push_back(cell.text);
  }
  rows.erase(rows.begin());
  return rows;
}

MotionTime time_of(const std::string& code) {
  const ReadMotionCode read = read_motion_code(code);
  return read.motion ? time_of_motion(shipped(), *read.motion, false) : MotionTime{};
}

ElementMotionTime analyse_example(const std::string& file) {
  std::vector<MotionStep> rows;
  for (const auto& cells : read_examples(file)) {
    MotionStep row;
    row.step = std::stoll(cells[0]);
    row.code = cells[1];
    row.stated_tmu = std::stod(cells[2]);
    row.hand = Hand::right;
    rows.push_back(row);
  }
  return analyse_element(rows, shipped());
}

// Published steps and total: 86.44 TMU = 3.11184 s (tests/reference/motion_examples/ORIGIN). All digits are published.
TEST(ShippedMotionTimes, GiveThePublishedAnalysis) {
  const ElementMotionTime element = analyse_example("analysis_1.csv");
  ASSERT_EQ(element.rows.size(), 9U);
  ASSERT_TRUE(element.tmu);
  EXPECT_NEAR(*element.tmu, 86.44, 1e-9);
  EXPECT_NEAR(*element.tmu * 0.036, 3.11184, 1e-9);
  EXPECT_TRUE(element.problems.empty());
  EXPECT_EQ(element.rows[2].formula, "2.2 + 1.06 x 12.2");
}

// Published motions; RL2 is from memory, the total is a sum.
TEST(ShippedMotionTimes, GiveTheShortAnalysis) {
  const ElementMotionTime element = analyse_example("inputs_3.csv");
  ASSERT_TRUE(element.tmu);
  EXPECT_NEAR(*element.tmu, 29.5, 1e-9);
  ASSERT_EQ(element.problems.size(), 1U);
  EXPECT_EQ(element.problems[0].code, "value_from_memory");
}

// Published inputs, answers by hand.
TEST(ShippedMotionTimes, GiveTheAnswersToPublishedInputs) {
  for (const auto& cells : read_examples("inputs_2.csv")) {
    const MotionTime time = time_of(cells[0]);
    ASSERT_TRUE(time.tmu) << cells[0];
    EXPECT_NEAR(*time.tmu, std::stod(cells[1]), 1e-9) << cells[0];
  }
}

// Single values of the reprinted table, with how each was come by.
TEST(ShippedMotionTimes, HoldThePrintedValues) {
  const auto examples = read_examples("look_ups.csv");
  EXPECT_EQ(examples.size(), 36U);
  for (const auto& cells : examples) {
    const MotionTime time = time_of(cells[0]);
    ASSERT_TRUE(time.tmu) << cells[0];
    EXPECT_NEAR(*time.tmu, std::stod(cells[1]), 1e-12) << cells[0];
    ASSERT_EQ(time.used.size(), 1U) << cells[0];
    EXPECT_EQ(words_of(time.used[0].origin.status), cells[2]) << cells[0];
  }
}

TEST(ShippedMotionTimes, AreComplete) {
  EXPECT_EQ(shipped().reach.rows.size(), 21U);
  EXPECT_EQ(shipped().move.rows.size(), 21U);
  EXPECT_EQ(shipped().turn.rows.size(), 11U);
  EXPECT_EQ(shipped().move_weight.size(), 10U);
  for (const DistanceTable* table : {&shipped().reach, &shipped().move, &shipped().turn})
    for (const DistanceRow& row : table->rows)
      for (const auto& tmu : row.tmu) EXPECT_TRUE(tmu) << row.origin.file << " line " << row.origin.line;
  std::set<std::string> codes{"APA", "APB",  "AF",     "DM",     "RLF",  "G1A",  "G1B", "G1C1", "G1C2", "G1C3",
                              "G2",  "G3",   "G4A",    "G4B",    "G4C",  "G5",   "RL1", "RL2",  "EF",   "FM",
                              "FMP", "LM7",  "SS14C1", "SS14C2", "B",    "S",    "KOK", "AB",   "AS",   "AKOK",
                              "KBK", "AKBK", "SIT",    "STD",    "TBC1", "TBC2", "W2P", "W2PO", "W9FT", "ET5/18"};
  for (const char* fit : {"1", "2", "3"}) {
    for (const char* symmetry : {"S", "SS", "NS"})
      for (const char* handling : {"E", "D"}) codes.insert(std::string("P") + fit + symmetry + handling);
    for (const char* handling : {"E", "D"}) codes.insert(std::string("D") + fit + handling);
  }
  for (const std::string& code : codes) EXPECT_TRUE(time_of(code).tmu) << code;
}

// Longer takes longer, in every column; a mistyped digit would mostly break this.
TEST(ShippedMotionTimes, RiseWithDistanceAndWeight) {
  for (const DistanceTable* table : {&shipped().reach, &shipped().move, &shipped().turn})
    for (std::size_t r = 1; r < table->rows.size(); ++r)
      for (std::size_t c = 0; c < table->rows[r].tmu.size(); ++c)
        EXPECT_GT(table->rows[r].tmu[c], table->rows[r - 1].tmu[c]) << table->rows[r].origin.file << " row " << r;
  for (std::size_t r = 1; r < shipped().move_weight.size(); ++r) {
    EXPECT_GT(shipped().move_weight[r].factor, shipped().move_weight[r - 1].factor);
    EXPECT_GT(shipped().move_weight[r].constant, shipped().move_weight[r - 1].constant);
  }
}

TEST(ShippedMotionTimes, SayWhereTheyStandAndWhereTheyComeFrom) {
  const MotionTime time = time_of("R16C");
  ASSERT_EQ(time.used.size(), 1U);
  EXPECT_EQ(time.used[0].what, "reach 16 in, C");
  EXPECT_EQ(time.used[0].origin.file, "reach.csv");
  EXPECT_EQ(time.used[0].origin.line, 15);
  EXPECT_NE(read_motion_data_origin().find("Rights: not cleared."), std::string::npos);
}

} // namespace
} // namespace docket
