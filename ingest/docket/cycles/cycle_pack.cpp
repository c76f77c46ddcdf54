#include "ingest/docket/cycles/cycle_pack.h"

#include "core/error.h"
#include "ingest/docket/cycles/cycle_integers.h"
#include "ingest/docket/cycles/cycle_unit_numbers.h"

#include <zstd.h>

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>
#include <memory>

namespace docket {

namespace {

enum class Column : std::uint8_t {
  started_at,
  cycle_given,
  cycle,
  cycle_other,
  cycle_other_row,
  wait_given,
  wait,
  wait_other,
  wait_other_row,
  helped_given,
  helped,
  helped_other,
  helped_other_row,
  is_line_time,
  unit_given,
  unit_number,
  unit_length,
  unit_text,
  variant,
  station,
  shift,
  op,
  marks,
  row,
};
constexpr std::size_t column_count = 24;

constexpr std::size_t max_directory = 4096; // [byte]
constexpr int packing_level = 1;
/// Years 0 to 9999 or so: what a stored time may be without a date running over.
constexpr std::int64_t farthest_ms = 253'402'300'800'000;

// How a time's place is filled, in the columns `.._given`.
constexpr std::int64_t time_blank = 0, time_in_millionths = 1, time_apart = 2;

[[noreturn]] void refuse(const std::string& where, const std::string& what) {
  throw Error(ErrorKind::verification_failed, where, "The stored cycles can't be read: " + what + ".",
              "The file was damaged or changed. Take an undamaged copy of it.");
}

// ---- zstd

/// Appends the frame and returns its size.
std::size_t pack_frame(std::string_view bytes, std::string& frames) {
  struct Free {
    void operator()(ZSTD_CCtx* context) const { ZSTD_freeCCtx(context); }
  };
  thread_local const std::unique_ptr<ZSTD_CCtx, Free> context = [] {
    std::unique_ptr<ZSTD_CCtx, Free> made(ZSTD_createCCtx());
    if (!made) throw std::bad_alloc();
    ZSTD_CCtx_setParameter(made.get(), ZSTD_c_compressionLevel, packing_level);
    ZSTD_CCtx_setParameter(made.get(), ZSTD_c_checksumFlag, 1);
    return made;
  }();
  const std::size_t before = frames.size(), room = ZSTD_compressBound(bytes.size());
  frames.resize(before + room);
  const std::size_t size = ZSTD_compress2(context.get(), frames.data() + before, room, bytes.data(), bytes.size());
  if (ZSTD_isError(size)) throw std::bad_alloc(); // the room is enough by its own bound
  frames.resize(before + size);
  return size;
}

/// The frame's bytes, exactly `size` of them.
void unpack_frame(std::string_view frame, std::size_t size, const std::string& where, std::string& bytes) {
  struct Free {
    void operator()(ZSTD_DCtx* context) const { ZSTD_freeDCtx(context); }
  };
  thread_local const std::unique_ptr<ZSTD_DCtx, Free> context(ZSTD_createDCtx());
  if (!context) throw std::bad_alloc();
  if (size > max_unpacked_column) refuse(where, "a column is larger than columns are made");
  if (ZSTD_getFrameContentSize(frame.data(), frame.size()) != size ||
      ZSTD_findFrameCompressedSize(frame.data(), frame.size()) != frame.size())
    refuse(where, "a column has another size than its directory says");
  bytes.resize(size);
  const std::size_t got = ZSTD_decompressDCtx(context.get(), bytes.data(), size, frame.data(), frame.size());
  if (ZSTD_isError(got)) refuse(where, std::string("zstd says \"") + ZSTD_getErrorName(got) + "\"");
  if (got != size) refuse(where, "a column ends early");
}

// ---- numbers, little-endian

template <typename Number>
void put(std::string& bytes, Number number) {
  auto left = static_cast<std::uint64_t>(number);
  for (std::size_t i = 0; i < sizeof(Number); ++i, left >>= 8) bytes += static_cast<char>(left & 0xFFU);
}

struct Taking {
  std::string_view left;
  const std::string& where;

  std::string_view bytes(std::size_t size) {
    if (size > left.size()) refuse(where, "they end early");
    const std::string_view taken = left.substr(0, size);
    left.remove_prefix(size);
    return taken;
  }

  template <typename Number>
  Number number() {
    std::uint64_t number = 0;
    std::size_t shift = 0;
    for (const char c : bytes(sizeof(Number))) {
      number |= static_cast<std::uint64_t>(static_cast<unsigned char>(c)) << shift;
      shift += 8;
    }
    return static_cast<Number>(number);
  }
};

// ---- packing

struct Packing {
  std::string entries, frames, scratch;
  std::uint8_t columns = 0;
  std::vector<std::int64_t> numbers, given, millionths;

  void add_entry(Column column, const NarrowShape& shape, std::size_t count, std::string_view raw) {
    const std::size_t frame = raw.empty() ? 0 : pack_frame(raw, frames);
    put(entries, static_cast<std::uint8_t>(column));
    put(entries, static_cast<std::uint8_t>(shape.differences ? 1 : 0));
    put(entries, shape.width);
    put(entries, shape.first);
    put(entries, shape.base);
    put(entries, shape.step);
    put(entries, static_cast<std::uint32_t>(count));
    put(entries, static_cast<std::uint32_t>(frame));
    ++columns;
  }

  void add_numbers(Column column, std::span<const std::int64_t> values, bool in_order = false) {
    const NarrowShape shape = narrow(values, in_order, scratch);
    add_entry(column, shape, values.size(), scratch);
  }

  template <typename Number>
  void add(Column column, const std::vector<Number>& values) {
    numbers.assign(values.begin(), values.end());
    add_numbers(column, numbers);
  }

  void add_text(Column column, std::string_view text) {
    NarrowShape bytes;
    bytes.width = 1;
    add_entry(column, bytes, text.size(), text);
  }

  /// Four columns from `first` on: how each place is filled, the millionths, the other times and their rows.
  void add_times(Column first, const CycleTimes& times) {
    const auto column = [&](std::uint8_t behind) {
      return static_cast<Column>(static_cast<std::uint8_t>(first) + behind);
    };
    if (times.millionths.empty()) return;
    given.resize(times.millionths.size());
    millionths.clear();
    for (std::size_t i = 0; i < given.size(); ++i) {
      const std::int64_t time = times.millionths[i];
      given[i] = time == no_time ? time_blank : time == other_time ? time_apart : time_in_millionths;
      if (time >= 0) millionths.push_back(time);
    }
    add_numbers(column(0), given);
    if (!millionths.empty()) add_numbers(column(1), millionths);
    if (times.others.empty()) return;
    std::vector<std::int64_t> bits, rows;
    for (const CycleTimes::Other& other : times.others) {
      bits.push_back(std::bit_cast<std::int64_t>(other.time.count()));
      rows.push_back(other.row);
    }
    add_numbers(column(2), bits);
    add_numbers(column(3), rows, true);
  }
};

// ---- unpacking

struct Entry {
  bool there = false;
  NarrowShape shape;
  std::size_t count = 0;
  std::string_view frame;
};

struct Directory {
  std::size_t rows = 0;
  std::array<TimeUnit, 3> units{};
  UnitForm unit_form;
  std::array<Entry, column_count> entries;
  const std::string& where;

  const Entry& entry(Column column) const { return entries[static_cast<std::size_t>(column)]; }

  /// The numbers of a column that has `count`; false where it is not there.
  bool read(Column column, std::size_t count, std::vector<std::int64_t>& numbers) const {
    const Entry& found = entry(column);
    if (!found.there) return false;
    if (found.count != count) refuse(where, "a column has too few rows or too many");
    thread_local std::string bytes;
    bytes.clear();
    const std::size_t stored = found.shape.differences ? count - 1 : count;
    if (const std::size_t size = found.shape.width * stored; size > 0 || !found.frame.empty())
      unpack_frame(found.frame, size, where, bytes);
    widen(found.shape, bytes, count, numbers);
    return true;
  }

  /// The same, each between `least` and `most`; a missing column is refused.
  template <typename Number>
  void read_within(Column column, std::int64_t least, std::int64_t most, std::vector<Number>& values) const {
    thread_local std::vector<std::int64_t> numbers;
    if (!read(column, rows, numbers)) refuse(where, "a column is missing");
    std::uint8_t outside = 0;
    for (const std::int64_t number : numbers) outside |= static_cast<std::uint8_t>(number < least || number > most);
    if (outside != 0) refuse(where, "a number lies outside its range");
    values.resize(rows);
    for (std::size_t i = 0; i < rows; ++i) values[i] = static_cast<Number>(numbers[i]);
  }

  void read_times(Column first, std::size_t unit, CycleTimes& times) const;
  void read_units(CycleTexts& units) const;
};

void Directory::read_times(Column first, std::size_t unit, CycleTimes& times) const {
  const auto column = [&](std::uint8_t behind) {
    return static_cast<Column>(static_cast<std::uint8_t>(first) + behind);
  };
  times.unit = units[unit];
  if (!entry(column(0)).there) return; // blank all over
  thread_local std::vector<std::int64_t> given;
  read_within(column(0), time_blank, time_apart, given);
  const auto in_millionths = static_cast<std::size_t>(std::count(given.begin(), given.end(), time_in_millionths));
  const auto apart = static_cast<std::size_t>(std::count(given.begin(), given.end(), time_apart));
  if ((in_millionths > 0) != read(column(1), in_millionths, times.millionths))
    refuse(where, "a column is missing or one too many");
  if (std::any_of(times.millionths.begin(), times.millionths.end(), [](std::int64_t time) { return time < 0; }))
    refuse(where, "a time is below 0");
  if (in_millionths < rows) {
    // From the last row to the first, so that nothing is overwritten before it was moved.
    times.millionths.resize(rows);
    std::size_t from = in_millionths;
    for (std::size_t i = rows; i-- > 0;)
      times.millionths[i] = given[i] == time_in_millionths ? times.millionths[--from]
                            : given[i] == time_apart       ? other_time
                                                           : no_time;
  }
  if (apart == 0) return;
  std::vector<std::int64_t> bits, places;
  if (!read(column(2), apart, bits) || !read(column(3), apart, places)) refuse(where, "a column is missing");
  std::size_t next = 0;
  for (std::size_t i = 0; i < rows; ++i) {
    if (given[i] != time_apart) continue;
    const Seconds time(std::bit_cast<double>(bits[next]));
    if (places[next] != static_cast<std::int64_t>(i) || !std::isfinite(time.count()))
      refuse(where, "a time stands in no row");
    times.others.push_back({static_cast<std::uint32_t>(i), time});
    ++next;
  }
}

void Directory::read_units(CycleTexts& units_read) const {
  thread_local std::vector<std::int64_t> numbers, given;
  if (entry(Column::unit_text).there || entry(Column::unit_length).there) {
    read_within(Column::unit_length, 0, static_cast<std::int64_t>(max_unpacked_column), given);
    std::uint64_t total = 0;
    for (const std::int64_t length : given) total += static_cast<std::uint64_t>(length);
    const Entry& text = entry(Column::unit_text);
    if (!text.there || total != text.count || text.shape.width != 1 || text.shape.differences)
      refuse(where, "the texts of the units have another length");
    if (total > 0 || !text.frame.empty()) unpack_frame(text.frame, text.count, where, units_read.text);
    units_read.parts.reserve(rows);
    std::uint32_t start = 0;
    for (const std::int64_t length : given) {
      units_read.parts.push_back({start, static_cast<std::uint32_t>(length)});
      start += static_cast<std::uint32_t>(length);
    }
    return;
  }
  if (!entry(Column::unit_given).there) {
    units_read.parts.assign(rows, {});
    return;
  }
  read_within(Column::unit_given, 0, 1, given);
  const auto count = static_cast<std::size_t>(std::count(given.begin(), given.end(), 1));
  if (!read(Column::unit_number, count, numbers) || !write_unit_numbers(unit_form, numbers, given, units_read))
    refuse(where, "the numbers of the units are missing or too large");
}

Directory read_directory(std::string_view bytes, const std::string& where) {
  Taking outer{bytes, where};
  if (const auto version = outer.number<std::uint8_t>(); version != cycle_pack_version)
    refuse(where, "they are of version " + std::to_string(version) + ", and this program knows version " +
                      std::to_string(cycle_pack_version));
  const std::string_view frame = outer.bytes(outer.number<std::uint32_t>());
  const unsigned long long size = ZSTD_getFrameContentSize(frame.data(), frame.size());
  if (size == ZSTD_CONTENTSIZE_UNKNOWN || size == ZSTD_CONTENTSIZE_ERROR || size > max_directory)
    refuse(where, "the directory is none");
  std::string text;
  unpack_frame(frame, static_cast<std::size_t>(size), where, text);

  Taking inner{text, where};
  Directory directory{0, {}, {}, {}, where};
  directory.rows = inner.number<std::uint32_t>();
  if (directory.rows == 0 || directory.rows > cycle_block_rows) refuse(where, "the number of rows is none of a block");
  for (TimeUnit& unit : directory.units) {
    const auto number = inner.number<std::uint8_t>();
    if (number > static_cast<std::uint8_t>(TimeUnit::tmu)) refuse(where, "a unit of time is not known");
    unit = static_cast<TimeUnit>(number);
  }
  directory.unit_form.digits = inner.number<std::uint8_t>();
  directory.unit_form.prefix = inner.bytes(inner.number<std::uint8_t>());
  const auto columns = inner.number<std::uint8_t>();
  for (std::size_t i = 0; i < columns; ++i) {
    const auto name = inner.number<std::uint8_t>();
    if (name >= column_count || directory.entries[name].there) refuse(where, "a column is unknown or there twice");
    Entry& entry = directory.entries[name];
    entry.there = true;
    entry.shape.differences = inner.number<std::uint8_t>() != 0;
    entry.shape.width = inner.number<std::uint8_t>();
    entry.shape.first = inner.number<std::int64_t>();
    entry.shape.base = inner.number<std::int64_t>();
    entry.shape.step = inner.number<std::uint64_t>();
    entry.count = inner.number<std::uint32_t>();
    entry.frame = outer.bytes(inner.number<std::uint32_t>());
    const bool text_column = name == static_cast<std::uint8_t>(Column::unit_text);
    if (entry.shape.width > 8 || (!text_column && (entry.count == 0 || entry.count > directory.rows)))
      refuse(where, "a column has a shape that columns do not have");
  }
  if (!inner.left.empty() || !outer.left.empty()) refuse(where, "something follows their end");
  return directory;
}

} // namespace

std::string pack_cycles(const CycleBlock& block) {
  assert(block.rows > 0 && block.rows <= cycle_block_rows);
  thread_local Packing packing; // keeps its room
  packing.entries.clear();
  packing.frames.clear();
  packing.columns = 0;
  packing.add_numbers(Column::started_at, block.started_at, true);
  packing.add_times(Column::cycle_given, block.cycle);
  packing.add_times(Column::wait_given, block.wait);
  packing.add_times(Column::helped_given, block.helped);
  packing.add(Column::is_line_time, block.is_line_time);
  const UnitNumbers units = read_unit_numbers(block.unit);
  if (units.all_numbers) {
    if (!units.numbers.empty()) {
      packing.add_numbers(Column::unit_given, units.given);
      packing.add_numbers(Column::unit_number, units.numbers, true);
    }
  } else {
    std::vector<std::int64_t> lengths;
    std::string text;
    for (std::size_t i = 0; i < block.rows; ++i) {
      lengths.push_back(block.unit.parts[i].length);
      text += block.unit.at(i);
    }
    packing.add_numbers(Column::unit_length, lengths);
    packing.add_text(Column::unit_text, text);
  }
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    packing.add(static_cast<Column>(static_cast<std::size_t>(Column::variant) + kind), block.words[kind]);
  packing.add(Column::marks, block.marks);
  packing.add_numbers(Column::row, block.row, true);

  std::string directory;
  put(directory, static_cast<std::uint32_t>(block.rows));
  for (const CycleTimes* times : {&block.cycle, &block.wait, &block.helped})
    put(directory, static_cast<std::uint8_t>(times->unit));
  put(directory, units.form.digits);
  put(directory, static_cast<std::uint8_t>(units.form.prefix.size()));
  directory += units.form.prefix;
  put(directory, packing.columns);
  directory += packing.entries;
  std::string packed_directory;
  pack_frame(directory, packed_directory);

  std::string bytes;
  put(bytes, cycle_pack_version);
  put(bytes, static_cast<std::uint32_t>(packed_directory.size()));
  bytes += packed_directory;
  bytes += packing.frames;
  return bytes;
}

void unpack_cycles(std::string_view bytes, const CycleColumns& wanted, const std::string& where, CycleBlock& block) {
  clear(block);
  const Directory directory = read_directory(bytes, where);
  block.rows = directory.rows;
  if (wanted.started_at) directory.read_within(Column::started_at, -farthest_ms, farthest_ms, block.started_at);
  if (wanted.cycle) directory.read_times(Column::cycle_given, 0, block.cycle);
  if (wanted.wait) directory.read_times(Column::wait_given, 1, block.wait);
  if (wanted.helped) directory.read_times(Column::helped_given, 2, block.helped);
  if (wanted.is_line_time) directory.read_within(Column::is_line_time, 0, 1, block.is_line_time);
  if (wanted.unit) directory.read_units(block.unit);
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    if (wanted.words[kind])
      directory.read_within(static_cast<Column>(static_cast<std::size_t>(Column::variant) + kind), 0, 0xFFFFFFFF,
                            block.words[kind]);
  if (wanted.marks) directory.read_within(Column::marks, 0, 255, block.marks);
  if (wanted.row) directory.read_within(Column::row, 0, std::int64_t{1} << 62, block.row);
}

} // namespace docket
