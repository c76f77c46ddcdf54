// A block of a large cycle log: up to 65,536 rows of the table `cycle_log`, column by column.
//
// Model     One vector a column, all as long as the block. Words (variant, station, shift, operator) are codes into
//           CycleWords, 0 where the cell was blank. A time is a whole number of millionths of its column's unit; one
//           that is not (53.10000000000001 s) stands apart, as the number it was read as. So nothing is rounded:
//           a decimal of at most six places divided by 1,000,000 is the same double as the decimal read
// Assumes   rows that have passed the checks of a row of `cycle_log`; names are not resolved
// Checked   tests/ingest/docket/cycles/cycle_block_test.cpp: every row comes out as it went in
#pragma once

#include "core/marks.h"
#include "core/quantity.h"
#include "ingest/reading/cell_values.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace docket {

inline constexpr std::size_t cycle_block_rows = 65536;

/// The columns whose cells are words that come again and again.
enum class CycleWordKind : std::uint8_t { variant, station, shift, op };
inline constexpr std::size_t cycle_word_kinds = 4;
inline constexpr std::array<std::string_view, cycle_word_kinds> cycle_word_names{"variant", "station", "shift",
                                                                                 "operator"};

/// One row of `cycle_log`, nothing resolved: the names as the cells have them, empty where blank.
struct CycleRow {
  Instant started_at{};
  Seconds cycle{};
  bool is_line_time = false; ///< `cycle_is` = line
  std::string unit, variant, station, shift, op;
  std::optional<Seconds> wait, helped;
  Marks marks;
  std::int64_t row = 0; ///< in CSV the line number of the record's first line

  bool operator==(const CycleRow&) const = default;
};

/// Words of one column and the code of each. Code 0 is the blank cell.
struct WordList {
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view word) const { return std::hash<std::string_view>{}(word); }
  };

  std::vector<std::string> words{std::string()}; ///< by code
  std::unordered_map<std::string, std::uint32_t, Hash, std::equal_to<>> codes{{std::string(), 0}};
};

/// What the codes of a block stand for, by CycleWordKind.
using CycleWords = std::array<WordList, cycle_word_kinds>;

/// The code of a word; a new word is added.
std::uint32_t code_of(WordList& list, std::string_view word);

inline constexpr std::int64_t no_time = -1;    ///< the cell was blank
inline constexpr std::int64_t other_time = -2; ///< the time stands in CycleTimes::others

/// The times of one column.
struct CycleTimes {
  struct Other {
    std::uint32_t row = 0; ///< place in the block
    Seconds time{};

    bool operator==(const Other&) const = default;
  };

  TimeUnit unit = TimeUnit::seconds;    ///< of the column's header
  std::vector<std::int64_t> millionths; ///< [1e-6 unit], or no_time or other_time; empty: the whole column is blank
  std::vector<Other> others;            ///< by row

  bool operator==(const CycleTimes&) const = default;
};

/// Texts that hardly ever come again; each a part of one long text.
struct CycleTexts {
  struct Part {
    std::uint32_t start = 0, length = 0;
  };

  std::string text;
  std::vector<Part> parts; ///< by row; length 0: the cell was blank

  std::string_view at(std::size_t row) const {
    return std::string_view(text).substr(parts[row].start, parts[row].length);
  }
};

struct CycleBlock {
  std::vector<std::int64_t> started_at; ///< [ms] since 1970-01-01 on the plant's own clock, as Instant has it
  CycleTimes cycle, wait, helped;
  std::vector<std::uint8_t> is_line_time;
  CycleTexts unit;
  std::array<std::vector<std::uint32_t>, cycle_word_kinds> words; ///< codes, by CycleWordKind
  std::vector<std::uint16_t> marks;                               ///< Marks::bits
  std::vector<std::int64_t> row;
  std::size_t rows = 0; ///< also where some columns were not asked for and are empty

  const std::vector<std::uint32_t>& codes(CycleWordKind kind) const { return words[static_cast<std::size_t>(kind)]; }
};

/// Takes all rows out and keeps the room.
void clear(CycleBlock& block);

/// Puts a row behind the last. At most cycle_block_rows.
void append(CycleBlock& block, CycleWords& words, const CycleRow& row);

/// The row at a place of a block that has all its columns.
CycleRow row_at(const CycleBlock& block, const CycleWords& words, std::size_t place);

/// The time at a place; absent where the cell was blank.
std::optional<Seconds> time_at(const CycleTimes& times, std::size_t place);

/// Sets the time at a place of a column that is not blank all over; places ascend.
void set_time(CycleTimes& times, std::size_t place, std::optional<Seconds> time);

/// The time that millionths of a unit stand for.
inline Seconds seconds_of(std::int64_t millionths, TimeUnit unit) {
  const double number = static_cast<double>(millionths) / 1e6;
  return Seconds(unit == TimeUnit::seconds ? number : number * seconds_in(unit));
}

} // namespace docket
