#include "ingest/docket/cycles/cycle_batch.h"

#include <algorithm>

namespace docket {

namespace {

template <typename Column>
void keep(Column& column, std::size_t rows, const std::vector<std::size_t>& dropped) {
  if (column.empty()) return;
  column.resize(rows);
  if (dropped.empty()) return;
  std::size_t to = dropped.front();
  auto next = dropped.begin();
  for (std::size_t from = to; from < rows; ++from) {
    if (next != dropped.end() && *next == from)
      ++next;
    else
      column[to++] = column[from];
  }
  column.resize(to);
}

void keep_times(CycleTimes& times, std::size_t rows, const std::vector<std::size_t>& dropped) {
  keep(times.millionths, rows, dropped);
  std::sort(times.others.begin(), times.others.end(),
            [](const CycleTimes::Other& a, const CycleTimes::Other& b) { return a.row < b.row; });
  for (CycleTimes::Other& other : times.others)
    other.row -= static_cast<std::uint32_t>(std::lower_bound(dropped.begin(), dropped.end(), std::size_t{other.row}) -
                                            dropped.begin());
  const auto given = [](std::int64_t time) { return time != no_time; };
  if (std::none_of(times.millionths.begin(), times.millionths.end(), given)) times.millionths.clear();
}

} // namespace

void begin_batch(CycleBatch& batch, std::size_t rows, const CycleHeader& header) {
  CycleBlock& block = batch.block;
  // What stands there from the last time is written over row by row, so it is not cleared first.
  block.started_at.resize(rows);
  const auto begin_times = [&](CycleTimes& times, std::string_view column) {
    const std::size_t place = *find_column(declaration_of(TableName::cycle_log), column);
    times.unit = header.units[place];
    times.others.clear();
    times.millionths.resize(header.cells[place] ? rows : 0);
  };
  begin_times(block.cycle, "cycle_s");
  begin_times(block.wait, "wait_s");
  begin_times(block.helped, "helped_s");
  block.is_line_time.resize(rows);
  block.unit.text.clear();
  block.unit.parts.resize(rows);
  for (auto& codes : block.words) codes.resize(rows);
  block.marks.resize(rows);
  block.row.resize(rows);
  block.rows = 0;
  for (WordList& list : batch.words) list = {};
  batch.with_issue.clear();
}

void put_row(CycleBatch& batch, std::size_t place, const CycleRow& row) {
  CycleBlock& block = batch.block;
  block.started_at[place] = row.started_at.time_since_epoch().count();
  set_time(block.cycle, place, row.cycle);
  if (!block.wait.millionths.empty()) set_time(block.wait, place, row.wait);
  if (!block.helped.millionths.empty()) set_time(block.helped, place, row.helped);
  block.is_line_time[place] = row.is_line_time ? 1 : 0;
  block.unit.parts[place] = {static_cast<std::uint32_t>(block.unit.text.size()),
                             static_cast<std::uint32_t>(row.unit.size())};
  block.unit.text += row.unit;
  const std::array<const std::string*, cycle_word_kinds> texts{&row.variant, &row.station, &row.shift, &row.op};
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    block.words[kind][place] = code_of(batch.words[kind], *texts[kind]);
  block.marks[place] = row.marks.bits;
  block.row[place] = row.row;
}

void end_batch(CycleBatch& batch, std::size_t rows, const std::vector<std::size_t>& dropped) {
  CycleBlock& block = batch.block;
  keep(block.started_at, rows, dropped);
  for (CycleTimes* times : {&block.cycle, &block.wait, &block.helped}) keep_times(*times, rows, dropped);
  keep(block.is_line_time, rows, dropped);
  keep(block.unit.parts, rows, dropped);
  for (auto& codes : block.words) keep(codes, rows, dropped);
  keep(block.marks, rows, dropped);
  keep(block.row, rows, dropped);
  block.rows = block.row.size();
}

} // namespace docket
