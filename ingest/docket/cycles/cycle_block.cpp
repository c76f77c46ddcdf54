#include "ingest/docket/cycles/cycle_block.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace docket {

namespace {

/// Whole numbers up to here are exact as a double, and so is the quotient's rounding.
constexpr double largest_exact = 9007199254740992.0; // 2^53

void append_time(CycleTimes& times, std::size_t place, std::optional<Seconds> time) {
  if (times.millionths.empty()) {
    if (!time) return;
    times.millionths.assign(place, no_time);
  }
  times.millionths.resize(place + 1, no_time);
  set_time(times, place, time);
}

} // namespace

std::uint32_t code_of(WordList& list, std::string_view word) {
  if (const auto found = list.codes.find(word); found != list.codes.end()) return found->second;
  const auto code = static_cast<std::uint32_t>(list.words.size());
  list.words.emplace_back(word);
  list.codes.emplace(std::string(word), code);
  return code;
}

void clear(CycleBlock& block) {
  block.started_at.clear();
  for (CycleTimes* times : {&block.cycle, &block.wait, &block.helped}) {
    times->unit = TimeUnit::seconds;
    times->millionths.clear();
    times->others.clear();
  }
  block.is_line_time.clear();
  block.unit.text.clear();
  block.unit.parts.clear();
  for (auto& codes : block.words) codes.clear();
  block.marks.clear();
  block.row.clear();
  block.rows = 0;
}

void set_time(CycleTimes& times, std::size_t place, std::optional<Seconds> time) {
  std::int64_t& millionths = times.millionths[place];
  millionths = no_time;
  if (!time) return;
  const double number = time->count() / seconds_in(times.unit) * 1e6;
  if (number >= 0 && number < largest_exact) {
    millionths = std::llround(number);
    if (seconds_of(millionths, times.unit) == *time && !std::signbit(time->count())) return;
  }
  millionths = other_time;
  times.others.push_back({static_cast<std::uint32_t>(place), *time});
}

std::optional<Seconds> time_at(const CycleTimes& times, std::size_t place) {
  if (times.millionths.empty()) return std::nullopt;
  const std::int64_t millionths = times.millionths[place];
  if (millionths == no_time) return std::nullopt;
  if (millionths != other_time) return seconds_of(millionths, times.unit);
  const auto other = std::lower_bound(times.others.begin(), times.others.end(), place,
                                      [](const CycleTimes::Other& o, std::size_t row) { return o.row < row; });
  assert(other != times.others.end() && other->row == place);
  return other->time;
}

void append(CycleBlock& block, CycleWords& words, const CycleRow& row) {
  assert(block.rows < cycle_block_rows);
  const std::size_t place = block.rows++;
  block.started_at.push_back(row.started_at.time_since_epoch().count());
  append_time(block.cycle, place, row.cycle);
  append_time(block.wait, place, row.wait);
  append_time(block.helped, place, row.helped);
  for (CycleTimes* times : {&block.wait, &block.helped})
    if (!times->millionths.empty()) times->millionths.resize(block.rows, no_time);
  block.is_line_time.push_back(row.is_line_time ? 1 : 0);
  block.unit.parts.push_back(
      {static_cast<std::uint32_t>(block.unit.text.size()), static_cast<std::uint32_t>(row.unit.size())});
  block.unit.text += row.unit;
  const std::array<const std::string*, cycle_word_kinds> texts{&row.variant, &row.station, &row.shift, &row.op};
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    block.words[kind].push_back(code_of(words[kind], *texts[kind]));
  block.marks.push_back(row.marks.bits);
  block.row.push_back(row.row);
}

CycleRow row_at(const CycleBlock& block, const CycleWords& words, std::size_t place) {
  const auto word = [&](CycleWordKind kind) {
    return words[static_cast<std::size_t>(kind)].words.at(block.codes(kind)[place]);
  };
  CycleRow row;
  row.started_at = Instant(std::chrono::milliseconds(block.started_at[place]));
  row.cycle = time_at(block.cycle, place).value_or(Seconds(0));
  row.is_line_time = block.is_line_time[place] != 0;
  row.unit = block.unit.at(place);
  row.variant = word(CycleWordKind::variant);
  row.station = word(CycleWordKind::station);
  row.shift = word(CycleWordKind::shift);
  row.op = word(CycleWordKind::op);
  row.wait = time_at(block.wait, place);
  row.helped = time_at(block.helped, place);
  row.marks.bits = block.marks[place];
  row.row = block.row[place];
  return row;
}

} // namespace docket
