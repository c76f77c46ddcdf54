#include "ingest/iso_times.h"

#include <array>
#include <charconv>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <string>

namespace docket {

namespace {

constexpr std::int64_t ms_per_day = 86'400'000;

/// Text in the making, of which a string gets no more room than it needs: there are millions of dates.
struct ShortText {
  std::array<char, 64> chars{};
  std::size_t size = 0;

  void add(char c) { chars[size++] = c; }
  std::string text() const { return {chars.data(), size}; }
};

/// `number` is at least 0; more digits than `width` are written as they are.
void append_padded(ShortText& text, std::int64_t number, int width) {
  std::array<char, 24> digits{};
  std::size_t first = digits.size();
  do {
    digits[--first] = static_cast<char>('0' + number % 10);
    number /= 10;
  } while (number > 0);
  while (digits.size() - first < static_cast<std::size_t>(width)) digits[--first] = '0';
  while (first < digits.size()) text.add(digits[first++]);
}

/// h:mm:ss, hours as many as there are, milliseconds where there are any.
void append_time(ShortText& text, std::int64_t ms, int hour_digits) {
  append_padded(text, ms / 3'600'000, hour_digits);
  text.add(':');
  append_padded(text, ms / 60'000 % 60, 2);
  text.add(':');
  append_padded(text, ms / 1000 % 60, 2);
  if (ms % 1000 == 0) return;
  text.add('.');
  append_padded(text, ms % 1000, 3);
}

/// Takes so many digits off the front.
std::optional<int> take_number(std::string_view& text, std::size_t digits) {
  if (text.size() < digits) return std::nullopt;
  int number = 0;
  for (const char c : text.substr(0, digits)) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + (c - '0');
  }
  text.remove_prefix(digits);
  return number;
}

bool take_mark(std::string_view& text, char mark) {
  if (!text.starts_with(mark)) return false;
  text.remove_prefix(1);
  return true;
}

/// hh:mm, hh:mm:ss or hh:mm:ss.fff; must be all of the text.
std::optional<std::int64_t> time_of_day_ms(std::string_view text) {
  const auto hours = take_number(text, 2);
  if (!hours || !take_mark(text, ':')) return std::nullopt;
  const auto minutes = take_number(text, 2);
  if (!minutes || *hours > 23 || *minutes > 59) return std::nullopt;
  double seconds = 0;
  if (take_mark(text, ':')) {
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, seconds, std::chars_format::fixed);
    if (text.size() < 2 || read.ec != std::errc() || read.ptr != end || !(seconds >= 0 && seconds < 60)) {
      return std::nullopt;
    }
  } else if (!text.empty()) {
    return std::nullopt;
  }
  return (*hours * 60 + *minutes) * std::int64_t{60'000} + std::llround(seconds * 1000);
}

/// YYYY-MM-DD, alone or with T and a time of day.
std::optional<std::int64_t> date_and_time_ms(std::string_view text) {
  const auto year = take_number(text, 4);
  if (!year || !take_mark(text, '-')) return std::nullopt;
  const auto month = take_number(text, 2);
  if (!month || !take_mark(text, '-')) return std::nullopt;
  const auto day = take_number(text, 2);
  if (!day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                                         std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return std::nullopt;
  const std::int64_t ms = std::chrono::sys_days(date).time_since_epoch().count() * ms_per_day;
  if (text.empty()) return ms;
  if (!take_mark(text, 'T')) return std::nullopt;
  const auto of_day = time_of_day_ms(text);
  if (!of_day) return std::nullopt;
  return ms + *of_day;
}

} // namespace

RawCell date_cell(std::int64_t ms) {
  namespace chrono = std::chrono;
  const auto day = chrono::floor<chrono::days>(chrono::sys_time<chrono::milliseconds>(chrono::milliseconds(ms)));
  const chrono::year_month_day date(day);
  RawCell cell{CellKind::date, {}, static_cast<double>(ms) / static_cast<double>(ms_per_day)};
  ShortText text;
  const int year = static_cast<int>(date.year());
  if (year < 0) text.add('-');
  append_padded(text, std::abs(year), 4);
  text.add('-');
  append_padded(text, static_cast<unsigned>(date.month()), 2);
  text.add('-');
  append_padded(text, static_cast<unsigned>(date.day()), 2);
  const std::int64_t of_day = ms - day.time_since_epoch().count() * ms_per_day;
  if (of_day != 0) {
    text.add('T');
    append_time(text, of_day, 2);
  }
  cell.text = text.text();
  return cell;
}

RawCell duration_cell(std::int64_t ms) {
  ShortText text;
  if (ms < 0) text.add('-');
  append_time(text, std::abs(ms), 1);
  return {CellKind::duration, text.text(), static_cast<double>(ms) / static_cast<double>(ms_per_day)};
}

std::optional<RawCell> cell_of_iso(std::string_view text) {
  if (text.ends_with('Z')) text.remove_suffix(1);
  if (text.starts_with('T') || (text.size() > 2 && text[2] == ':')) {
    take_mark(text, 'T');
    const auto ms = time_of_day_ms(text);
    if (!ms) return std::nullopt;
    return duration_cell(*ms);
  }
  const auto ms = date_and_time_ms(text);
  if (!ms) return std::nullopt;
  return date_cell(*ms);
}

std::optional<IsoInstant> read_iso_instant(std::string_view text) {
  std::optional<int> offset;
  if (text.ends_with('Z')) {
    offset = 0;
    text.remove_suffix(1);
  } else if (const std::size_t sign = text.find_last_of("+-"); sign != std::string_view::npos && sign > 10) {
    std::string_view zone = text.substr(sign + 1);
    const auto hours = take_number(zone, 2);
    const bool divided = hours && take_mark(zone, ':');
    const auto minutes = divided || !zone.empty() ? take_number(zone, 2) : std::optional(0);
    if (!hours || !minutes || !zone.empty() || *hours > 14 || *minutes > 59) return std::nullopt;
    offset = (text[sign] == '-' ? -1 : 1) * (*hours * 60 + *minutes);
    text = text.substr(0, sign);
  }
  const auto ms = date_and_time_ms(text);
  if (!ms) return std::nullopt;
  return IsoInstant{*ms, offset};
}

std::optional<std::int64_t> iso_duration_ms(std::string_view text) {
  const bool negative = take_mark(text, '-');
  if (!take_mark(text, 'P') || text.empty()) return std::nullopt;
  bool in_time = false;
  double ms = 0;
  while (!text.empty()) {
    if (!in_time && take_mark(text, 'T')) {
      in_time = true;
      if (text.empty()) return std::nullopt;
      continue;
    }
    double amount = 0;
    const char* const end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, amount, std::chars_format::fixed);
    if (read.ec != std::errc() || read.ptr == end || !(amount >= 0)) return std::nullopt;
    const char unit = *read.ptr;
    text.remove_prefix(static_cast<std::size_t>(read.ptr - text.data()) + 1);
    if (!in_time && unit == 'D') {
      ms += amount * static_cast<double>(ms_per_day);
    } else if (in_time && (unit == 'H' || unit == 'M' || unit == 'S')) {
      ms += amount * (unit == 'H' ? 3'600'000 : unit == 'M' ? 60'000 : 1000);
    } else {
      return std::nullopt; // years and months have no fixed length
    }
  }
  constexpr double most = 9e14; // [ms], far beyond any calendar, and exact in a double
  if (!(ms <= most)) return std::nullopt;
  return (negative ? -1 : 1) * std::llround(ms);
}

} // namespace docket
