#include "ingest/xlsx/dates.h"

#include <array>
#include <charconv>
#include <chrono>
#include <cmath>
#include <string>

namespace docket {

namespace {

constexpr std::int64_t ms_per_day = 86'400'000;
constexpr double first_serial_beyond_9999 = 2958466;  // 18.17.4.1: 9999-12-31 is 2958465
constexpr std::int64_t days_from_1900_system = 25569; // 1899-12-30 to 1970-01-01
constexpr std::int64_t days_from_1904_system = 24107; // 1904-01-01 to 1970-01-01
constexpr std::int64_t first_day_of_2000 = 10957;     // 1970-01-01 to 2000-01-01

std::string padded(std::int64_t number, std::size_t width) {
  std::string digits = std::to_string(number);
  return digits.size() < width ? std::string(width - digits.size(), '0') + digits : digits;
}

/// h:mm:ss, hours as many as there are, milliseconds where there are any.
std::string time_text(std::int64_t ms, std::size_t hour_digits) {
  std::string text =
      padded(ms / 3'600'000, hour_digits) + ":" + padded(ms / 60'000 % 60, 2) + ":" + padded(ms / 1000 % 60, 2);
  if (ms % 1000 != 0) text += "." + padded(ms % 1000, 3);
  return text;
}

RawCell date_cell(std::int64_t ms) {
  namespace chrono = std::chrono;
  const auto day = chrono::floor<chrono::days>(chrono::sys_time<chrono::milliseconds>(chrono::milliseconds(ms)));
  const chrono::year_month_day date(day);
  std::string text = padded(static_cast<int>(date.year()), 4) + "-" + padded(static_cast<unsigned>(date.month()), 2) +
                     "-" + padded(static_cast<unsigned>(date.day()), 2);
  const std::int64_t of_day = ms - day.time_since_epoch().count() * ms_per_day;
  if (of_day != 0) text += "T" + time_text(of_day, 2);
  return {CellKind::date, text, static_cast<double>(ms) / static_cast<double>(ms_per_day)};
}

RawCell duration_cell(std::int64_t ms) {
  return {CellKind::duration, (ms < 0 ? "-" : "") + time_text(std::abs(ms), 1),
          static_cast<double>(ms) / static_cast<double>(ms_per_day)};
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

} // namespace

RawCell cell_of_serial(double serial, NumberFormat format, bool date1904) {
  const RawCell as_number{format == NumberFormat::percent ? CellKind::percent : CellKind::number, number_text(serial),
                          serial};
  if (format == NumberFormat::plain || format == NumberFormat::percent) return as_number;
  if (std::abs(serial) >= first_serial_beyond_9999) return as_number;
  const std::int64_t ms = std::llround(serial * static_cast<double>(ms_per_day));
  if (format == NumberFormat::elapsed) return duration_cell(ms);

  const std::int64_t whole = ms >= 0 ? ms / ms_per_day : -1;
  std::int64_t to_1970 = date1904 ? days_from_1904_system : days_from_1900_system;
  if (!date1904 && whole < 60) --to_1970;
  if (format == NumberFormat::time && whole - to_1970 < first_day_of_2000) return duration_cell(ms);
  if (whole < 0) return as_number;
  if (whole == 0) return duration_cell(ms);
  if (!date1904 && whole == 60) return text_cell("1900-02-29");
  return date_cell(ms - to_1970 * ms_per_day);
}

std::optional<RawCell> cell_of_iso(std::string_view text) {
  if (text.ends_with('Z')) text.remove_suffix(1);
  if (text.starts_with('T') || (text.size() > 2 && text[2] == ':')) {
    take_mark(text, 'T');
    const auto ms = time_of_day_ms(text);
    if (!ms) return std::nullopt;
    return duration_cell(*ms);
  }
  const auto year = take_number(text, 4);
  if (!year || !take_mark(text, '-')) return std::nullopt;
  const auto month = take_number(text, 2);
  if (!month || !take_mark(text, '-')) return std::nullopt;
  const auto day = take_number(text, 2);
  if (!day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                                         std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return std::nullopt;
  std::int64_t ms = std::chrono::sys_days(date).time_since_epoch().count() * ms_per_day;
  if (!text.empty()) {
    if (!take_mark(text, 'T')) return std::nullopt;
    const auto of_day = time_of_day_ms(text);
    if (!of_day) return std::nullopt;
    ms += *of_day;
  }
  return date_cell(ms);
}

} // namespace docket
