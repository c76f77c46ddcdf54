#include "ingest/docket/cycles/cycle_row_reader.h"

#include "ingest/reading/cell_dates.h"
#include "ingest/text_encoding.h"

#include <fast_float/fast_float.h>

#include <bit>
#include <cassert>
#include <cmath>
#include <cstring>

namespace docket {

namespace {

/// The declared columns of `cycle_log`, in their order.
enum Declared : std::int8_t {
  started_at,
  cycle_s,
  cycle_is,
  unit,
  variant,
  station,
  shift,
  op,
  wait_s,
  helped_s,
  mark
};
constexpr std::size_t declared_columns = 11;
constexpr std::array<std::string_view, declared_columns> declared_names{
    "started_at", "cycle_s",  "cycle_is", "unit",     "variant", "station",
    "shift",      "operator", "wait_s",   "helped_s", "mark"};

constexpr std::array<std::int8_t, cycle_word_kinds> word_columns{variant, station, shift, op};
constexpr double seconds_in_a_day = 86400;
constexpr std::size_t longest_unit = 256; // longer ones go the plain way

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// False where the plain reader might trim something off.
inline bool has_plain_ends(std::string_view cell) {
  const auto first = static_cast<unsigned char>(cell.front()), last = static_cast<unsigned char>(cell.back());
  // First and last bytes of the no-break spaces and the byte-order mark that text_cell and trimmed cut off.
  const bool first_fine = first > ' ' && first != 0xC2 && first != 0xE2 && first != 0xEF;
  return first_fine && last > ' ' && last != 0xA0 && last != 0xAF && last != 0xBF;
}

std::optional<std::uint32_t> two_digits(const char* at) {
  if (!is_digit(at[0]) || !is_digit(at[1])) return std::nullopt;
  return static_cast<std::uint32_t>((at[0] - '0') * 10 + (at[1] - '0'));
}

/// True where the case reader takes the text in this column, to the text itself.
std::optional<CellValue> plain_value(std::string_view text, std::int8_t column) {
  const ColumnDeclaration& declared = declaration_of(TableName::cycle_log).columns[static_cast<std::size_t>(column)];
  CellValue value;
  if (read_cell(text_cell(text), {&declared, TimeUnit::seconds, false}, value)) return std::nullopt;
  if (!value.given || value.text != text) return std::nullopt;
  return value;
}

/// Finds the first byte that is the separator or below 0x0E, among which are the line ends and the zero byte. `bits`
/// takes up the top bits of the bytes passed, and perhaps of some behind.
inline const char* find_cell_end(const char* at, const char* end, char separator, std::uint64_t& bits) {
  constexpr std::uint64_t ones = 0x0101010101010101U, tops = 0x8080808080808080U;
  if constexpr (std::endian::native == std::endian::little) {
    // Eight bytes at once. A borrow can only spoil bytes above the first that is found.
    const std::uint64_t separators = ones * static_cast<unsigned char>(separator);
    for (; end - at >= 8; at += 8) {
      std::uint64_t eight = 0;
      std::memcpy(&eight, at, 8);
      const std::uint64_t other = eight ^ separators;
      const std::uint64_t found = (((eight - ones * 0x0E) & ~eight) | ((other - ones) & ~other)) & tops;
      bits |= eight;
      if (found != 0) return at + std::countr_zero(found) / 8;
    }
  }
  for (; at != end && *at != separator && static_cast<unsigned char>(*at) >= 0x0E; ++at)
    bits |= static_cast<unsigned char>(*at);
  return at;
}

} // namespace

// ---- words

inline WordCache::Slot WordCache::key_of(std::string_view word) {
  const auto load = [](const char* at, auto bytes) {
    std::memcpy(&bytes, at, sizeof bytes);
    return std::uint64_t{bytes};
  };
  const char* const at = word.data();
  const std::size_t length = word.size();
  Slot key;
  key.length = static_cast<std::uint32_t>(length);
  if (length >= 8) {
    key.head = load(at, std::uint64_t{});
    key.tail = load(at + length - 8, std::uint64_t{});
  } else if (length >= 4) {
    key.head = load(at, std::uint32_t{});
    key.tail = load(at + length - 4, std::uint32_t{});
  } else if (length > 0) { // first, middle and last: with the length, that is the word
    key.head = load(at, std::uint8_t{}) | load(at + length / 2, std::uint8_t{}) << 8 |
               load(at + length - 1, std::uint8_t{}) << 16;
  }
  return key;
}

inline std::size_t WordCache::place_of(const Slot& key) {
  const std::uint64_t mixed = key.head ^ (key.tail * 0xC2B2AE3D27D4EB4FU) ^ key.length;
  return static_cast<std::size_t>((mixed * 0x9E3779B97F4A7C15U) >> 55); // 9 bits: 512 slots
}

inline std::uint32_t WordCache::find(std::string_view word) const {
  if (word.size() > 16) return nothing_known; // head and tail would not be the whole word
  const Slot key = key_of(word);
  const Slot& slot = slots_[place_of(key)];
  return slot.head == key.head && slot.tail == key.tail && slot.length == key.length ? slot.meaning : nothing_known;
}

void WordCache::remember(std::string_view word, std::uint32_t meaning) {
  if (word.size() > 16) return;
  Slot key = key_of(word);
  key.meaning = meaning;
  slots_[place_of(key)] = key;
}

void WordCache::forget_all() { slots_.assign(slots_.size(), Slot{}); }

// ---- cells

bool CycleRowReader::read_started_at(std::string_view cell, std::int64_t& at) {
  constexpr std::size_t day_length = 10;
  if (cell.size() < 16 || (cell[day_length] != ' ' && cell[day_length] != 'T')) return false;
  if (std::memcmp(cell.data(), last_day_.data(), day_length) != 0) {
    const auto day = parse_day_and_time(cell.substr(0, day_length));
    if (!day) return false;
    const int year = static_cast<int>(std::chrono::year_month_day{day_of(day->at)}.year());
    if (year < 1990 || year > 2100) return false; // other years are questioned
    std::memcpy(last_day_.data(), cell.data(), day_length);
    last_day_ms_ = day->at.time_since_epoch().count();
  }
  const auto hours = two_digits(cell.data() + 11), minutes = two_digits(cell.data() + 14);
  if (!hours || !minutes || cell[13] != ':' || *hours > 23 || *minutes > 59) return false;
  std::int64_t ms = (*hours * 60 + *minutes) * 60'000;
  if (cell.size() > 16) {
    if (cell.size() < 19 || cell[16] != ':') return false;
    const auto seconds = two_digits(cell.data() + 17);
    if (!seconds || *seconds > 59) return false;
    ms += *seconds * 1000;
    if (cell.size() > 19) {
      if ((cell[19] != '.' && cell[19] != ',') || cell.size() == 20) return false;
      std::int64_t scale = 100;
      for (const char c : cell.substr(20)) { // what is beyond the millisecond is cut off
        if (!is_digit(c)) return false;
        ms += (c - '0') * scale;
        scale /= 10;
      }
    }
  }
  at = last_day_ms_ + ms;
  return true;
}

bool CycleRowReader::read_time(std::string_view cell, TimeUnit unit_of_column, Time& time) const {
  if (cell.empty()) return true;          // blank
  constexpr std::size_t most_digits = 15; // so that all of them are exact
  std::int64_t number = 0;
  std::size_t digits = 0, decimals = 0, longer = 0;
  bool marked = false;
  for (const char c : cell) {
    if (is_digit(c)) {
      if (marked && decimals == 6) {
        longer += 1;
        continue;
      }
      if (++digits > most_digits) {
        longer += 1;
        continue;
      }
      number = number * 10 + (c - '0');
      if (marked) ++decimals;
    } else if ((c == '.' || (c == ',' && decimal_comma_)) && !marked) {
      marked = true;
    } else {
      return false;
    }
  }
  if (!is_digit(cell.front()) || !is_digit(cell.back())) return false;
  if (longer == 0) {
    constexpr std::array<std::int64_t, 7> to_millionths{1'000'000, 100'000, 10'000, 1'000, 100, 10, 1};
    if (number < 9'007'199'254) { // so that the millionths are below 2^53 whatever the decimals
      time.millionths = number * to_millionths[decimals];
      time.time = seconds_of(time.millionths, unit_of_column);
      return true;
    }
    if (decimals == 6 && number < 9'007'199'254'740'992) {
      time.millionths = number;
      time.time = seconds_of(time.millionths, unit_of_column);
      return true;
    }
  }
  const char decimal_mark = cell.find(',') != std::string_view::npos ? ',' : '.';
  double value = 0;
  const char* const end = cell.data() + cell.size();
  const auto read = fast_float::from_chars_advanced(
      cell.data(), end, value, fast_float::parse_options{fast_float::chars_format::fixed, decimal_mark});
  if (read.ec != std::errc() || read.ptr != end || !std::isfinite(value)) return false;
  time.millionths = other_time;
  time.time = Seconds(unit_of_column == TimeUnit::seconds ? value : value * seconds_in(unit_of_column));
  return true;
}

bool CycleRowReader::read_word(std::size_t kind, std::string_view cell, CycleWords& words, std::uint32_t& code) {
  code = 0;
  if (cell.empty()) return true;
  code = known_words_[kind].find(cell);
  if (code != WordCache::nothing_known) return true;
  const auto found = words[kind].codes.find(cell);
  if (found != words[kind].codes.end()) {
    code = found->second;
  } else {
    if (!plain_value(cell, word_columns[kind])) return false;
    code = code_of(words[kind], cell);
  }
  known_words_[kind].remember(cell, code);
  return true;
}

bool CycleRowReader::read_marks(std::string_view cell, std::uint16_t& bits) {
  bits = 0;
  if (cell.empty()) return true;
  std::uint32_t known = known_marks_.find(cell);
  if (known == WordCache::nothing_known) {
    const auto value = plain_value(cell, mark);
    if (!value) return false;
    known = value->marks.bits;
    known_marks_.remember(cell, known);
  }
  bits = static_cast<std::uint16_t>(known);
  return true;
}

// ---- rows

struct CycleRowReader::Row {
  std::array<std::string_view, declared_columns> cells{};
  std::int64_t started_at = 0;
  Time cycle, wait, helped;
  bool is_line_time = false;
  std::array<std::uint32_t, cycle_word_kinds> words{};
  std::uint16_t marks = 0;
};

CycleRowReader::CycleRowReader(const CycleHeader& header, char separator)
    : first_cell_(header.first_cell), separator_(separator), decimal_comma_(header.top.decimal_comma_possible) {
  const TableDeclaration& table = declaration_of(TableName::cycle_log);
  assert(table.columns.size() == declared_columns);
  for (std::size_t i = 0; i < declared_columns; ++i) {
    assert(table.columns[i].name == declared_names[i]);
    if (!header.cells[i]) continue;
    if (columns_.size() <= *header.cells[i]) columns_.resize(*header.cells[i] + 1, std::int8_t{-1});
    columns_[*header.cells[i]] = static_cast<std::int8_t>(i);
  }
  units_ = {header.units[cycle_s], header.units[wait_s], header.units[helped_s]};
}

void CycleRowReader::begin() {
  for (WordCache& words : known_words_) words.forget_all();
}

bool CycleRowReader::read_row(Row& row, CycleWords& words) {
  if (!read_started_at(row.cells[started_at], row.started_at)) return false;
  if (!read_time(row.cells[cycle_s], units_[0], row.cycle) || row.cycle.millionths == no_time) return false;
  if (!(row.cycle.time > Seconds(0)) || !(row.cycle.time <= Seconds(seconds_in_a_day))) return false;
  if (!read_time(row.cells[helped_s], units_[2], row.helped) || !(row.helped.time <= Seconds(seconds_in_a_day)))
    return false;
  // A wait as long as the cycle is a question of the marks, and one that is longer is a fault.
  if (!read_time(row.cells[wait_s], units_[1], row.wait) || !(row.wait.time < row.cycle.time)) return false;
  const std::string_view meaning = row.cells[cycle_is];
  row.is_line_time = meaning == "line";
  if (!row.is_line_time && !meaning.empty() && meaning != "work") return false;
  const std::string_view number = row.cells[unit];
  if (number.starts_with('#') || number.size() > longest_unit) return false; // perhaps an error text
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind)
    if (!read_word(kind, row.cells[static_cast<std::size_t>(word_columns[kind])], words, row.words[kind])) return false;
  return read_marks(row.cells[mark], row.marks);
}

QuickRow CycleRowReader::read(std::string_view text, RecordPlace& where, CycleBatch& batch, std::size_t place) {
  Row row;
  const char* const begin = text.data() + where.at;
  const char* const end = text.data() + text.size();
  const std::int8_t* const columns = columns_.data();
  const std::size_t known = columns_.size(), first_cell = first_cell_;
  const char separator = separator_;
  const char* at = begin;
  std::uint64_t bits = 0; // of all bytes
  bool all_blank = true;
  for (std::size_t cell = 0;; ++cell, ++at) {
    const char* from = at;
    const char* to = at;
    if (at != end && *at == '"') {
      from = ++at;
      while (at != end && *at != '"' && *at != '\n' && *at != '\r' && *at != '\0')
        bits |= static_cast<unsigned char>(*at++);
      if (at == end || *at != '"') return QuickRow::unsure;
      to = at++;
      if (at != end && *at != separator && *at != '\n' && *at != '\r') return QuickRow::unsure;
    } else {
      at = to = find_cell_end(at, end, separator, bits);
    }
    if (from != to) {
      all_blank = false;
      const std::string_view content(from, static_cast<std::size_t>(to - from));
      const bool wanted = cell < known && columns[cell] >= 0;
      // A blank may stand before a quotation mark, and what is trimmed off before a `#`, which begins a note.
      if (*from == ' ' || ((cell == 0 || cell == first_cell) && *from == '#')) return QuickRow::unsure;
      if ((wanted || cell == 0) && !has_plain_ends(content)) return QuickRow::unsure;
      if (wanted) row.cells[static_cast<std::size_t>(columns[cell])] = content;
    }
    if (at == end || *at != separator) break;
  }
  if (at != end) {
    if (*at != '\n' && *at != '\r') return QuickRow::unsure; // another control character
    at += *at == '\r' && end - at > 1 && at[1] == '\n' ? 2 : 1;
  }
  const RecordPlace behind{where.at + static_cast<std::size_t>(at - begin), where.line + 1};
  if (all_blank) {
    where = behind;
    return QuickRow::blank;
  }
  if ((bits & 0x8080808080808080U) != 0 && find_invalid_utf8(text.substr(where.at, behind.at - where.at)))
    return QuickRow::unsure;
  if (!read_row(row, batch.words)) return QuickRow::unsure;

  CycleBlock& block = batch.block;
  block.started_at[place] = row.started_at;
  const auto put = [&](CycleTimes& times, const Time& time) {
    if (times.millionths.empty()) return; // the column is not there
    times.millionths[place] = time.millionths;
    if (time.millionths == other_time) times.others.push_back({static_cast<std::uint32_t>(place), time.time});
  };
  put(block.cycle, row.cycle);
  put(block.wait, row.wait);
  put(block.helped, row.helped);
  block.is_line_time[place] = row.is_line_time ? 1 : 0;
  const std::string_view number = row.cells[unit];
  block.unit.parts[place] = {static_cast<std::uint32_t>(block.unit.text.size()),
                             static_cast<std::uint32_t>(number.size())};
  block.unit.text += number;
  for (std::size_t kind = 0; kind < cycle_word_kinds; ++kind) block.words[kind][place] = row.words[kind];
  block.marks[place] = row.marks;
  block.row[place] = where.line;
  where = behind;
  return QuickRow::taken;
}

} // namespace docket
