// The quick way through a cycle log against the plain one: the same rows, the same issues, the same messages. What is
// expected is what parse_csv and the case reader make of the same text.
#include "core/error.h"
#include "ingest/docket/cycles/cycle_csv.h"
#include "ingest/docket/cycles/cycle_records.h"
#include "ingest/file_hash.h"
#include "tests/ingest/docket/cycles/compare_cycle_logs.h"
#include "tests/ingest/docket/cycles/made_cycle_log.h"

#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace docket {
namespace {

void expect_same(const std::string& text) {
  for (const std::size_t block_rows : {std::size_t{1}, std::size_t{7}, cycle_block_rows})
    ASSERT_EQ(difference_of_logs(text, block_rows), "") << "blocks of " << block_rows << ":\n" << text.substr(0, 2000);
}

const std::string header = "started_at,cycle_s,operator,mark\n";

TEST(CycleCsv, reads_clean_logs_as_the_plain_reader_does) {
  for (const LogStyle& style : {LogStyle{}, LogStyle{';', ',', "\r\n", 0}, LogStyle{'\t', ',', "\n", 0},
                                LogStyle{';', '.', "\r", 0}, LogStyle{'\t', '.', "\r\n", 0}})
    expect_same(MadeLog(11, style).text(300));
}

TEST(CycleCsv, reads_awkward_logs_as_the_plain_reader_does) {
  std::uint64_t seed = 100;
  for (const char separator : {',', ';', '\t'})
    for (const char decimal : {'.', ','})
      for (const double awkward : {0.01, 0.1, 0.3})
        for (int round = 0; round < 4; ++round) {
          MadeLog log(++seed, {separator, decimal, round % 2 == 0 ? "\n" : "\r\n", awkward});
          expect_same(log.text(120));
        }
}

TEST(CycleCsv, finds_the_header_as_the_plain_reader_does) {
  const std::string row = "2026-11-03 06:12:40,53.1,A1,\n";
  for (const std::string& text : std::vector<std::string>{
           std::string(),
           std::string("\n\n"),
           header,
           header + row,
           "Log of ST-07\n\n" + header + row,
           "# a note\n" + header + row,
           "Started at,CYCLE_S,Operator,free\n" + row,
           "started_at,cycle_s,cycle_min\n" + row,
           "started_at,operator\n" + row + "2026-13-03,A1\n",
           "operator\nA1\n",
           row + row,
           "# a\n# b\n",
           "cycle_tmu,started_at,wait_min\n1475,2026-11-03 06:12:40,0.25\n",
           "sep=;\nstarted_at;cycle_s\n" + row,
           "sep=,\n" + header + row,
           "SEP=;\r\nstarted_at;cycle_s\r\n2026-11-03 06:12:40;53,1\r\n",
           "a;b;c\n" + header + row,
           "started_at,cycle_s",
           header + "# note,1\n\" # note\",1\n,# x\n" + row,
           ",started_at,cycle_s\n#,2026-11-03 06:12:40,53\nx,#,53\nx,2026-11-03 06:12:40,53\n",
           "note,started_at,cycle_s\n 1,2026-11-03 06:12:40,53\n\xC2\xA0#,2026-11-03 06:12:40,53\n"})
    expect_same(text);
  std::string far;
  for (int i = 0; i < 25; ++i) far += "# note " + std::to_string(i) + "\n";
  expect_same(far);
  expect_same(far + header + row);
  far.clear();
  for (int i = 0; i < 25; ++i) far += "title " + std::to_string(i) + "\n";
  expect_same(far + header + row);
}

TEST(CycleCsv, says_what_the_plain_reader_says_of_what_is_no_csv) {
  const std::string row = "2026-11-03 06:12:40,53.1,A1,\n";
  const std::string zero(1, '\0');
  for (const std::string& text : std::vector<std::string>{
           header + row + "\"2026", header + row + "2026,\"a\"b,\n" + row, header + row + "a,\xFF,\n",
           header + "\"a\nb\"x\n\xC3\n", header + row + "a," + zero + "b\n", header + zero, "\xFF" + header,
           header + row + "\"open\n" + row + "\xE2\x82", header + row + zero + "\n\xF5", "\"started_at,cycle_s\n" + row,
           header + row + "\r\r\n\"\r\n\r\n", "no header\n\"x", "no header\n\xC0", "\xEF\xBB\xBF" + header + row,
           "\xEF\xBB\xBF\xEF\xBB\xBF" + header + row, header + "\xEF\xBB\xBF" + row})
    expect_same(text);
  std::string utf16 = "\xFF\xFE";
  for (const char c : header + row) utf16 += std::string(1, c) + '\0';
  expect_same(utf16);
  expect_same(utf16 + "x");
}

TEST(CycleCsv, counts_alike_issues_beyond_those_it_lists) {
  std::string text = header;
  for (int i = 0; i < 100; ++i) text += "2026-11-03,53.1,Meyer,stolen\n2026-11-03 06:12:40,fast,,\n";
  expect_same(text);
  const CycleLogRead read = read_cycle_csv_text(text, "cycle_log.csv", {[](CycleBatch&) {}});
  EXPECT_TRUE(read.faulty);
  EXPECT_EQ(read.rows, 200);
  EXPECT_EQ(read.used, 0);
  EXPECT_EQ(read.with_issue, 200);
  EXPECT_EQ(read.issues.back().wrong, "And 80 more of the same kind.");
}

TEST(CycleCsv, hands_over_rows_with_an_issue_as_they_stand) {
  std::vector<RawRow> set_aside;
  const CycleLogRead read =
      read_cycle_csv_text(header + "2026-11-03 06:12:40,53.1,A1,\n2026-11-03 06:14,\"5\"\"3\",B2,\n", "cycle_log.csv",
                          {[&](CycleBatch& batch) {
                            set_aside.insert(set_aside.end(), batch.with_issue.begin(), batch.with_issue.end());
                          }});
  EXPECT_EQ(read.rows, 2);
  EXPECT_EQ(read.used, 1);
  ASSERT_EQ(set_aside.size(), 1U);
  EXPECT_EQ(set_aside[0].number, 3);
  EXPECT_EQ(set_aside[0].cells[1].text, "5\"3");
}

class CycleCsvFile : public testing::Test {
protected:
  std::string write(const std::string& text) const {
    std::ofstream(path_, std::ios::binary) << text;
    return path_;
  }
  void TearDown() override { std::filesystem::remove(path_); }

  std::string path_ =
      testing::TempDir() + "/cycle_csv_test_" + testing::UnitTest::GetInstance()->current_test_info()->name() + ".csv";
};

TEST_F(CycleCsvFile, is_read_as_its_text_and_hashed) {
  const std::string text = "\xEF\xBB\xBF" + MadeLog(5, {',', '.', "\n", 0.02}).text(5000);
  std::vector<CycleRow> rows;
  std::int64_t rows_said = 0, bytes_said = 0;
  CycleReading reading{rows_into(rows)};
  reading.progress = [&](std::int64_t r, std::int64_t bytes, std::int64_t of) {
    EXPECT_GE(r, rows_said);
    EXPECT_GE(bytes, bytes_said);
    EXPECT_EQ(of, static_cast<std::int64_t>(text.size()) - 3);
    rows_said = r;
    bytes_said = bytes;
  };
  reading.block_rows = 512;
  const CycleLogRead read = read_cycle_csv(write(text), reading);
  EXPECT_EQ(rows, read_plain_log(text, "x.csv").used);
  EXPECT_EQ(read.sha256, sha256_of(text));
  EXPECT_EQ(read.bytes, static_cast<std::int64_t>(text.size()));
  EXPECT_EQ(read.file, std::filesystem::path(path_).filename().string());
  EXPECT_EQ(rows_said, read.rows);
  EXPECT_EQ(bytes_said, read.bytes - 3);
  EXPECT_EQ(read.rows, read.used + read.with_issue);
}

TEST_F(CycleCsvFile, may_be_empty) {
  const CycleLogRead read = read_cycle_csv(write(""), {[](CycleBatch&) {}});
  EXPECT_EQ(read.rows, 0);
  EXPECT_EQ(read.sha256, sha256_of(""));
  EXPECT_TRUE(read.issues.empty());
}

TEST_F(CycleCsvFile, must_be_there) {
  try {
    read_cycle_csv(path_, {[](CycleBatch&) {}});
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
    EXPECT_EQ(error.what_happened(), "There is no such file.");
  }
}

TEST_F(CycleCsvFile, may_not_be_a_workbook) {
  try {
    read_cycle_csv(write("PK\x03\x04rest"), {[](CycleBatch&) {}});
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.what_happened(), "This is not CSV text but a workbook or a zip file.");
  }
}

TEST_F(CycleCsvFile, is_let_go_of_where_somebody_says_stop) {
  std::atomic<bool> stop = false;
  std::int64_t taken = 0;
  CycleReading reading{[&](CycleBatch& batch) {
    taken += static_cast<std::int64_t>(batch.block.rows);
    stop = true;
  }};
  reading.stop = &stop;
  reading.block_rows = 100;
  const CycleLogRead read = read_cycle_csv(write(MadeLog(5, {}).text(5000)), reading);
  EXPECT_TRUE(read.stopped);
  EXPECT_EQ(taken, 100);
  EXPECT_EQ(read.sha256, "");
}

TEST_F(CycleCsvFile, passes_on_what_stops_the_taker) {
  CycleReading reading{[](CycleBatch&) { throw std::runtime_error("disk full"); }};
  reading.block_rows = 10;
  EXPECT_THROW(read_cycle_csv(write(MadeLog(5, {}).text(5000)), reading), std::runtime_error);
}

TEST_F(CycleCsvFile, may_not_change_while_it_is_read) {
  CycleReading reading{[&](CycleBatch&) { std::ofstream(path_, std::ios::app) << "more\n"; }};
  reading.block_rows = 100;
  write(MadeLog(5, {}).text(5000));
  try {
    read_cycle_csv(path_, reading);
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.kind(), ErrorKind::could_not_be_done);
    EXPECT_EQ(error.what_happened(), "The file was changed while it was read.");
  }
}

TEST(CycleCsv, refuses_a_record_of_more_than_a_megabyte) {
  const std::string text = header + "\"" + std::string(std::size_t{2} << 20, 'x') + "\",53.1,A1,\n";
  try {
    read_cycle_csv_text(text, "cycle_log.csv", {[](CycleBatch&) {}});
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.what_happened(), "The record that begins in line 2 is longer than 1 MB.");
  }
}

TEST(CycleRecords, finds_the_separator_of_the_plain_reader) {
  for (const std::string& text :
       {std::string("a,b\n1,2\n"), std::string("a;b\n1,5;2,5\n"), std::string("a\tb\n1\t2\n"), std::string("a\n1\n"),
        std::string("a,b;c\n1,2;3\n"), std::string("\"a;b\",c\n1,2\n")}) {
    const SeparatorFound found = find_separator(text);
    const RawTable table = parse_csv(text, "x.csv");
    RecordPlace place = found.first;
    std::size_t cells = 0;
    ASSERT_FALSE(pass_record(text, found.separator, place, cells));
    EXPECT_EQ(cells, table.rows[0].cells.size()) << text;
    EXPECT_EQ(place.line, table.rows[1].number) << text;
  }
}

} // namespace
} // namespace docket
