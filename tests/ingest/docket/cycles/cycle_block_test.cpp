// Rows of cycle logs in blocks: every row comes out as the plain case reader has it. The logs are those of the sample
// cases and awkward ones; what is expected is the plain reader's own row.
#include "ingest/docket/cycles/cycle_pack.h"
#include "ingest/workbook.h"
#include "tests/ingest/docket/cycles/made_cycle_log.h"
#include "tests/ingest/docket/cycles/plain_cycle_rows.h"

#include <gtest/gtest.h>

#include <limits>
#include <string>
#include <vector>

namespace docket {
namespace {

/// Through blocks of at most `size` rows, packed and unpacked.
std::vector<CycleRow> through_blocks(const std::vector<CycleRow>& rows, std::size_t size, TimeUnit unit) {
  std::vector<CycleRow> result;
  CycleBlock block;
  CycleWords words;
  const auto settle = [&] {
    if (block.rows == 0) return;
    const std::string bytes = pack_cycles(block);
    CycleBlock again;
    unpack_cycles(bytes, CycleColumns::all(), "log.docket", again);
    EXPECT_EQ(pack_cycles(again), bytes);
    for (std::size_t i = 0; i < again.rows; ++i) result.push_back(row_at(again, words, i));
    clear(block);
    block.cycle.unit = block.wait.unit = block.helped.unit = unit;
  };
  block.cycle.unit = block.wait.unit = block.helped.unit = unit;
  for (const CycleRow& row : rows) {
    append(block, words, row);
    if (block.rows == size) settle();
  }
  settle();
  return result;
}

TEST(CycleBlock, holds_the_logs_of_the_sample_cases) {
  std::size_t logs = 0;
  for (const std::string sample : {"evidence-that-clashes/hydraulic-block", "fits-and-still-learning/control-box",
                                   "heavy-variants-in-a-row/fan-deck"}) {
    const RawFile file = read_workbook(std::string(DOCKET_TESTS_DIR) + "/../sample-cases/" + sample + ".xlsx");
    for (const RawTable& sheet : file.tables) {
      if (sheet.name != "cycle_log") continue;
      const PlainLog log = read_plain_sheet(sheet, file.file);
      ASSERT_GT(log.used.size(), 100U) << sample;
      EXPECT_EQ(through_blocks(log.used, cycle_block_rows, TimeUnit::seconds), log.used) << sample;
      EXPECT_EQ(through_blocks(log.used, 7, TimeUnit::seconds), log.used) << sample;
      ++logs;
    }
  }
  EXPECT_EQ(logs, 3U);
}

TEST(CycleBlock, holds_every_unit_of_time_to_the_last_bit) {
  for (const auto& [header, unit] : {std::pair{"cycle_s,wait_s", TimeUnit::seconds},
                                     {"cycle_min,wait_min", TimeUnit::minutes},
                                     {"cycle_cmin,wait_cmin", TimeUnit::hundredths_of_a_minute},
                                     {"cycle_tmu,wait_tmu", TimeUnit::tmu}}) {
    std::string text = std::string("started_at,") + header + "\n";
    for (int i = 1; i <= 999; ++i)
      text += "2026-11-03 06:12:40," + std::to_string(i) + "." + std::to_string(i % 10) + "," + std::to_string(i % 7) +
              ".0625\n2026-11-03 06:12:40,0." + std::to_string(i) + "12345678901,\n";
    const PlainLog log = read_plain_log(text, "cycle_log.csv");
    EXPECT_GT(log.used.size(), 1900U) << header;
    const std::vector<CycleRow> again = through_blocks(log.used, 100, unit);
    ASSERT_EQ(again.size(), log.used.size());
    for (std::size_t i = 0; i < again.size(); ++i) {
      ASSERT_EQ(again[i].cycle.count(), log.used[i].cycle.count()) << header << " row " << log.used[i].row;
      ASSERT_EQ(again[i].wait, log.used[i].wait);
    }
  }
}

TEST(CycleBlock, holds_awkward_rows) {
  CycleRow row;
  std::vector<CycleRow> rows;
  const auto add = [&](auto change) {
    change(row);
    row.row = static_cast<std::int64_t>(rows.size() * rows.size());
    rows.push_back(row);
  };
  add([](CycleRow& r) { r.cycle = Seconds(86400); });
  add([](CycleRow& r) { r.cycle = Seconds(std::numeric_limits<double>::denorm_min()); });
  add([](CycleRow& r) { r.cycle = Seconds(1.0 / 3.0), r.wait = Seconds(0); });
  add([](CycleRow& r) { r.wait = std::nullopt, r.helped = Seconds(2.5); });
  add([](CycleRow& r) { r.started_at = Instant(std::chrono::milliseconds(-86'400'001)); });
  add([](CycleRow& r) { r.started_at = Instant(std::chrono::milliseconds(4'133'980'799'999)); });
  add([](CycleRow& r) { r.unit = std::string("zero \0 in it", 12), r.is_line_time = true; });
  add([](CycleRow& r) { r.unit = "0007", r.variant = "früh", r.station = std::string(5000, 'x'); });
  add([](CycleRow& r) { r.unit = "", r.marks.bits = 255, r.op = "A1", r.shift = "\"quoted\"\n"; });
  add([](CycleRow& r) { r.unit = "999999999999999999999", r.op = "a1"; });
  for (const std::size_t size : {1U, 2U, 3U, 100U})
    EXPECT_EQ(through_blocks(rows, size, TimeUnit::seconds), rows) << size;
}

TEST(CycleBlock, holds_codes_beyond_16_bits) {
  std::vector<CycleRow> rows;
  CycleRow row;
  row.cycle = Seconds(50);
  for (int i = 0; i < 70'000; ++i) {
    row.station = "S" + std::to_string(i);
    row.row = i;
    rows.push_back(row);
  }
  EXPECT_EQ(through_blocks(rows, cycle_block_rows, TimeUnit::seconds), rows);
}

} // namespace
} // namespace docket
