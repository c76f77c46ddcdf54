#include "ingest/reading/cell_numbers.h"

#include "ingest/reading/cell_values.h"
#include "ingest/reading/word_match.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdio>

namespace docket {

namespace {

/// 5.000 or 1.234.567: where a whole number is wanted the points divide thousands.
bool divided_in_thousands(std::string_view number) {
  std::size_t at = number.find('.');
  if (at == 0 || at > 3) return false;
  for (; at < number.size(); at += 4) {
    if (number[at] != '.' || number.size() - at < 4) return false;
    if (number.substr(at + 1, 3).find_first_not_of("0123456789") != std::string_view::npos) return false;
  }
  return at == number.size();
}

} // namespace

NumberText parse_number(std::string_view text, bool decimal_comma, bool percent_sign, bool whole) {
  using Outcome = NumberText::Outcome;
  text = trimmed(text);
  if (percent_sign && text.ends_with('%')) text = trimmed(text.substr(0, text.size() - 1));
  if (text.starts_with('+')) text.remove_prefix(1);
  std::string number(text);
  const auto commas = std::count(number.begin(), number.end(), ',');
  const auto points = std::count(number.begin(), number.end(), '.');
  if (commas > 0) {
    const std::size_t comma = number.find(',');
    if (number.find_first_not_of("0123456789,.-") != std::string::npos) return {};
    if (commas > 1 || points > 0) return {Outcome::ambiguous, 0};
    const bool could_be_thousands = number.size() - comma - 1 == 3 && comma <= 4 && number.front() != '0';
    if (!decimal_comma && could_be_thousands) return {Outcome::ambiguous, 0};
    number[comma] = '.';
  } else if (points > 0 && whole && divided_in_thousands(number)) {
    return {Outcome::ambiguous, 0};
  }
  if (number.empty() || number.find_first_not_of("0123456789.-+eE") != std::string::npos) return {};
  double value = 0;
  const char* const end = number.data() + number.size();
  const auto [stopped, status] = std::from_chars(number.data(), end, value);
  if (status != std::errc() || stopped != end || !std::isfinite(value)) return {};
  return {Outcome::read, value};
}

std::string short_number(double number) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), "%.10g", number);
  return text.data();
}

std::string words_text(std::span<const std::string_view> words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
    text += words[i];
  }
  return text;
}

} // namespace docket
