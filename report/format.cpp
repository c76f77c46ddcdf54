#include "report/format.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

namespace docket {
namespace {

constexpr std::string_view minus = "\u2212";
constexpr std::string_view narrow_space = "\u202F";

// Digits of |value|; the sign is the caller's.
std::string digits_of(double value, int decimals) {
  std::array<char, 400> buffer{};
  const auto end =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), std::abs(value), std::chars_format::fixed, decimals);
  return std::string(buffer.data(), end.ptr);
}

bool is_zero(std::string_view digits) { return digits.find_first_not_of("0.") == std::string_view::npos; }

std::string padded(unsigned value, std::size_t width) {
  std::string text = std::to_string(value);
  return text.size() < width ? std::string(width - text.size(), '0') + text : text;
}

std::string with_sign(double value, int decimals) {
  if (!std::isfinite(value)) return "not known";
  const std::string digits = digits_of(value, decimals);
  if (is_zero(digits)) return digits;
  return (value < 0 ? std::string(minus) : "+") + digits;
}

} // namespace

std::string format_plain_number(double value, int decimals) {
  std::string digits = digits_of(value, decimals);
  if (digits.find('.') != std::string::npos) {
    while (digits.back() == '0') digits.pop_back();
    if (digits.back() == '.') digits.pop_back();
  }
  return value < 0 && !is_zero(digits) ? "-" + digits : digits;
}

std::string format_fixed(double value, int decimals) {
  if (!std::isfinite(value)) return "not known";
  const std::string digits = digits_of(value, decimals);
  return value < 0 && !is_zero(digits) ? std::string(minus) + digits : digits;
}

std::string format_seconds(Seconds time) {
  return std::isfinite(time.count()) ? format_fixed(time.count(), 1) + " s" : "not known";
}

std::string format_bare_seconds(Seconds time) { return format_fixed(time.count(), 1); }

std::string format_signed_seconds(Seconds time) {
  return std::isfinite(time.count()) ? with_sign(time.count(), 1) + " s" : "not known";
}

std::string format_signed_bare_seconds(Seconds time) { return with_sign(time.count(), 1); }

std::string format_bare_interval(std::optional<Seconds> low, std::optional<Seconds> high) {
  if (low && !std::isfinite(low->count())) low.reset();
  if (high && !std::isfinite(high->count())) high.reset();
  if (low && high) return format_bare_seconds(*low) + " to " + format_bare_seconds(*high);
  if (low) return "at least " + format_bare_seconds(*low);
  if (high) return "at most " + format_bare_seconds(*high);
  return "no interval";
}

std::string format_interval(std::optional<Seconds> low, std::optional<Seconds> high) {
  const std::string bare = format_bare_interval(low, high);
  return bare == "no interval" ? bare : bare + " s";
}

std::string format_signed_interval(Seconds low, Seconds high) {
  const bool has_low = std::isfinite(low.count()), has_high = std::isfinite(high.count());
  if (has_low && has_high) return with_sign(low.count(), 1) + " to " + with_sign(high.count(), 1) + " s";
  if (has_low) return "at least " + with_sign(low.count(), 1) + " s";
  if (has_high) return "at most " + with_sign(high.count(), 1) + " s";
  return "no interval";
}

std::string format_percent(double share) {
  if (!std::isfinite(share)) return "not known";
  std::string text = format_fixed(share * 100, 1);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text + " %";
}

std::string format_chance(double p) {
  if (!std::isfinite(p)) return "not known";
  if (p > 0.999) return "more than 99.9 %";
  if (p < 0.001) return "less than 0.1 %";
  return format_fixed(p * 100, p > 0.9 || p < 0.1 ? 1 : 0) + " %";
}

std::string format_times_wrong(double confidence) {
  const double times = 2 / (1 - confidence);
  return "1 time in " + format_plain_number(times, times < 10 ? 1 : 0);
}

std::string format_count(std::int64_t count) {
  std::string digits = std::to_string(count < 0 ? -count : count);
  if (digits.size() > 4) {
    for (std::size_t at = digits.size() - 3; at > 0 && at < digits.size(); at -= 3) {
      digits.insert(at, narrow_space);
      if (at < 3) break;
    }
  }
  return count < 0 ? std::string(minus) + digits : digits;
}

std::string format_per_1000(double per_1000) { return format_fixed(per_1000, per_1000 < 99.95 ? 1 : 0); }

std::string format_date(Date date) {
  const std::chrono::year_month_day day{date};
  return padded(static_cast<unsigned>(static_cast<int>(day.year())), 4) + "-" +
         padded(static_cast<unsigned>(day.month()), 2) + "-" + padded(static_cast<unsigned>(day.day()), 2);
}

std::string format_instant(Instant instant) {
  const auto day = std::chrono::floor<std::chrono::days>(instant);
  const auto minutes = static_cast<unsigned>(std::chrono::floor<std::chrono::minutes>(instant - day).count());
  return format_date(day) + " " + padded(minutes / 60, 2) + ":" + padded(minutes % 60, 2);
}

bool continues_character(char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U; }

std::size_t columns_of(std::string_view text) {
  return static_cast<std::size_t>(
      std::count_if(text.begin(), text.end(), [](char byte) { return !continues_character(byte); }));
}

} // namespace docket
