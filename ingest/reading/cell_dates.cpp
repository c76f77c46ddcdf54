#include "ingest/reading/cell_dates.h"

#include "ingest/reading/word_match.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace docket {

namespace {

/// Takes `least` to `most` digits from the front of the text.
std::optional<int> take_digits(std::string_view& text, std::size_t least, std::size_t most) {
  std::size_t count = 0;
  int value = 0;
  while (count < most && count < text.size() && text[count] >= '0' && text[count] <= '9')
    value = value * 10 + (text[count++] - '0');
  if (count < least) return std::nullopt;
  text.remove_prefix(count);
  return value;
}

bool take(std::string_view& text, char c) {
  if (text.empty() || text.front() != c) return false;
  text.remove_prefix(1);
  return true;
}

/// Takes AM or PM off the end; the hours that it adds to a 12-hour clock.
std::optional<int> take_half_of_day(std::string_view& text) {
  const std::string small = small_letters(text.substr(text.size() - std::min<std::size_t>(text.size(), 2)));
  if (small != "am" && small != "pm") return std::nullopt;
  text = trimmed(text.substr(0, text.size() - 2));
  return small == "pm" ? 12 : 0;
}

} // namespace

std::optional<std::chrono::milliseconds> parse_time_of_day(std::string_view text) {
  const auto half = take_half_of_day(text);
  auto hours = take_digits(text, 1, 2);
  if (!hours || !take(text, ':')) return std::nullopt;
  const auto minutes = take_digits(text, 2, 2);
  if (!minutes) return std::nullopt;
  int seconds = 0;
  int milliseconds = 0;
  if (take(text, ':')) {
    const auto given = take_digits(text, 2, 2);
    if (!given) return std::nullopt;
    seconds = *given;
    if (take(text, '.') || take(text, ',')) {
      int scale = 1000;
      if (text.empty()) return std::nullopt;
      while (!text.empty()) {
        const auto digit = take_digits(text, 1, 1);
        if (!digit) return std::nullopt;
        scale /= 10;
        milliseconds += *digit * scale;
      }
    }
  }
  if (!text.empty() || *minutes > 59 || seconds > 59) return std::nullopt;
  if (half && (*hours < 1 || *hours > 12)) return std::nullopt;
  if (half) *hours = *hours % 12 + *half;
  const std::chrono::milliseconds time = std::chrono::hours(*hours) + std::chrono::minutes(*minutes) +
                                         std::chrono::seconds(seconds) + std::chrono::milliseconds(milliseconds);
  if (time > std::chrono::hours(24)) return std::nullopt;
  return time;
}

std::optional<DayAndTime> parse_day_and_time(std::string_view text) {
  const auto year = take_digits(text, 4, 4);
  if (!year || !take(text, '-')) return std::nullopt;
  const auto month = take_digits(text, 2, 2);
  if (!month || !take(text, '-')) return std::nullopt;
  const auto day = take_digits(text, 2, 2);
  if (!day) return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year(*year), std::chrono::month(static_cast<unsigned>(*month)),
                                         std::chrono::day(static_cast<unsigned>(*day))};
  if (!date.ok()) return std::nullopt;
  DayAndTime when{Date(date), true};
  if (text.empty()) return when;
  if (!take(text, 'T') && !take(text, ' ')) return std::nullopt;
  const auto time = parse_time_of_day(trimmed(text));
  if (!time) return std::nullopt;
  return DayAndTime{when.at + *time, false};
}

std::optional<DayAndTime> parse_day_in_order(std::string_view text, DateOrder order) {
  if (order == DateOrder::iso_only) return std::nullopt;
  const auto first = take_digits(text, 1, 2);
  if (!first || text.empty()) return std::nullopt;
  const char divider = text.front();
  if (divider != '.' && divider != '/' && divider != '-' && divider != ' ') return std::nullopt;
  const auto pass_divider = [&] {
    if (!take(text, divider)) return false;
    while (divider == '.' && take(text, ' ')) {
    } // 3. 11. 2026
    return true;
  };
  if (!pass_divider()) return std::nullopt;
  const auto second = take_digits(text, 1, 2);
  if (!second || !pass_divider()) return std::nullopt;
  const std::size_t before = text.size();
  auto year = take_digits(text, 2, 4);
  const std::size_t digits = before - text.size();
  if (!year || digits == 3) return std::nullopt;
  if (digits == 2) *year += 2000;
  const bool day_first = order == DateOrder::day_month_year;
  const std::chrono::year_month_day date{std::chrono::year(*year),
                                         std::chrono::month(static_cast<unsigned>(day_first ? *second : *first)),
                                         std::chrono::day(static_cast<unsigned>(day_first ? *first : *second))};
  if (!date.ok()) return std::nullopt;
  DayAndTime when{Date(date), true};
  if (text.empty()) return when;
  if (text.front() != ' ' && text.front() != 'T' && text.front() != ',') return std::nullopt;
  text = trimmed(text.substr(1));
  const auto time = parse_time_of_day(text);
  if (!time) return std::nullopt;
  return DayAndTime{when.at + *time, false};
}

DayAndTime from_days(double days) {
  const double milliseconds = std::round(days * 86'400'000.0);
  const Instant at{std::chrono::milliseconds(static_cast<std::int64_t>(milliseconds))};
  return {at, at == Instant(day_of(at))};
}

std::string date_text(const DayAndTime& when) {
  const Date day = day_of(when.at);
  const std::chrono::year_month_day date{day};
  std::array<char, 64> text{};
  const int year = static_cast<int>(date.year());
  const unsigned month = static_cast<unsigned>(date.month());
  const unsigned day_number = static_cast<unsigned>(date.day());
  if (when.day_only) {
    std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", year, month, day_number);
  } else {
    const std::chrono::hh_mm_ss time{when.at - Instant(day)};
    std::snprintf(text.data(), text.size(), "%04d-%02u-%02u %02d:%02d:%02d", year, month, day_number,
                  static_cast<int>(time.hours().count()), static_cast<int>(time.minutes().count()),
                  static_cast<int>(time.seconds().count()));
  }
  return text.data();
}

bool looks_like_a_date(std::string_view text) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  const auto digits = std::count_if(text.begin(), text.end(), digit);
  const auto dividers =
      std::count_if(text.begin(), text.end(), [](char c) { return c == '.' || c == '/' || c == '-'; });
  const bool words =
      std::any_of(text.begin(), text.end(), [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); });
  return digits >= 3 && (dividers >= 2 || words);
}

Date day_of(Instant at) { return std::chrono::floor<std::chrono::days>(at); }

} // namespace docket
