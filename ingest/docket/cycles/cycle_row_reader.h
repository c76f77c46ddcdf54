// The quick way through the rows of a large cycle log.
//
// Method    a row is taken only where the plain case reader would surely take it, and to the same values; of any other
//           nothing is taken, and the plain reader has it. Sure are: cells without blanks around them, quoted or not;
//           days and times of day as 2026-11-03 06:12:40 (T, no seconds or a fraction too); numbers of digits with one
//           decimal mark; the words `work` and `line`; names, codes and marks that read_cell takes
// Checked   tests/ingest/docket/cycles/cycle_csv_test.cpp and tests/fuzz/cycle_csv: the same rows as the plain reader has
#pragma once

#include "ingest/docket/cycles/cycle_batch.h"
#include "ingest/docket/cycles/cycle_plain_rows.h"
#include "ingest/docket/cycles/cycle_records.h"

#include <array>
#include <memory>
#include <string_view>
#include <vector>

namespace docket {

/// Remembers what words stand for. A word may push another out; then it is looked up again.
class WordCache {
public:
  /// What stands for the word, or nothing_known.
  std::uint32_t find(std::string_view word) const;
  void remember(std::string_view word, std::uint32_t meaning);
  void forget_all();

  static constexpr std::uint32_t nothing_known = 0xFFFFFFFF;

private:
  struct Slot {
    std::uint64_t head = 0, tail = 0; ///< the first 8 bytes and the last 8
    std::uint32_t length = 0, meaning = nothing_known;
  };
  static Slot key_of(std::string_view word);
  static std::size_t place_of(const Slot& key);

  std::vector<Slot> slots_ = std::vector<Slot>(512);
};

enum class QuickRow : std::uint8_t {
  taken,  ///< the row stands in the batch
  blank,  ///< a blank line
  unsure, ///< nothing is taken
};

class CycleRowReader {
public:
  CycleRowReader(const CycleHeader& header, char separator);

  /// Begins a batch, whose words are its own.
  void begin();

  /// Reads the record at `where` into the batch at `place`, and moves `where` behind it unless it is unsure.
  QuickRow read(std::string_view text, RecordPlace& where, CycleBatch& batch, std::size_t place);

private:
  struct Time {
    std::int64_t millionths = no_time;
    Seconds time{};
  };
  struct Row;

  bool read_started_at(std::string_view cell, std::int64_t& at);
  bool read_time(std::string_view cell, TimeUnit unit, Time& time) const;
  bool read_word(std::size_t kind, std::string_view cell, CycleWords& words, std::uint32_t& code);
  bool read_marks(std::string_view cell, std::uint16_t& bits);
  bool read_row(Row& row, CycleWords& words);

  std::vector<std::int8_t> columns_; ///< the declared column of each cell of a record; -1: none
  std::array<TimeUnit, 3> units_{};  ///< of cycle, wait, helped
  std::size_t first_cell_ = 0;
  char separator_;
  bool decimal_comma_;
  std::array<char, 10> last_day_{}; ///< as written
  std::int64_t last_day_ms_ = 0;
  std::array<WordCache, cycle_word_kinds> known_words_;
  WordCache known_marks_;
};

} // namespace docket
