#include "ingest/xlsx/number_format.h"

#include <algorithm>
#include <string>

namespace docket {

namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool is_elapsed(std::string_view inside) {
  if (inside.empty()) return false;
  const char unit = lower(inside.front());
  if (unit != 'h' && unit != 'm' && unit != 's') return false;
  for (const char c : inside) {
    if (lower(c) != unit) return false;
  }
  return true;
}

/// The first section, in lower case, with its literal text gone and an elapsed unit as '['.
std::string bare_code(std::string_view code) {
  std::string bare;
  for (std::size_t i = 0; i < code.size(); ++i) {
    const char c = code[i];
    if (c == ';') break;
    if (c == '"') {
      i = code.find('"', i + 1);
      if (i == std::string_view::npos) break;
    } else if (c == '\\' || c == '_' || c == '*') {
      ++i;
    } else if (c == '[') {
      const std::size_t end = code.find(']', i);
      if (end == std::string_view::npos) break;
      if (is_elapsed(code.substr(i + 1, end - i - 1))) bare += '[';
      i = end;
    } else {
      bare += lower(c);
    }
  }
  return bare;
}

void take_away(std::string& text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word)) text.erase(at, word.size());
}

/// m stands for minutes behind an hour and before a second, for months elsewhere.
bool has_month(std::string_view bare) {
  constexpr std::string_view units = "ymdhs[";
  char before = ' ';
  for (std::size_t i = 0; i < bare.size();) {
    const char c = bare[i];
    if (c != 'm') {
      if (units.find(c) != std::string_view::npos) before = c;
      ++i;
      continue;
    }
    const std::size_t end = std::min(bare.find_first_not_of('m', i), bare.size());
    const std::size_t next = bare.find_first_of(units, end);
    const bool minutes = before == 'h' || before == '[' || (next != std::string_view::npos && bare[next] == 's');
    if (!minutes) return true;
    before = 'm';
    i = end;
  }
  return false;
}

} // namespace

NumberFormat built_in_format(std::int64_t number) {
  if (number == 9 || number == 10) return NumberFormat::percent;
  if ((number >= 14 && number <= 17) || number == 22) return NumberFormat::date;
  if ((number >= 18 && number <= 21) || number == 45 || number == 47) return NumberFormat::time;
  if (number == 46) return NumberFormat::elapsed;
  return NumberFormat::plain;
}

NumberFormat format_of_code(std::string_view code) {
  std::string bare = bare_code(code);
  take_away(bare, "general");
  take_away(bare, "am/pm");
  take_away(bare, "a/p");
  if (bare.find('%') != std::string::npos) return NumberFormat::percent;
  const std::size_t unit = bare.find_first_of("ymdhs[");
  if (unit == std::string::npos || bare.find_first_of("0#?@") < unit) return NumberFormat::plain;
  if (bare.find_first_of("yd") != std::string::npos) return NumberFormat::date;
  if (bare.find('[') != std::string::npos) return NumberFormat::elapsed;
  return has_month(bare) ? NumberFormat::date : NumberFormat::time;
}

} // namespace docket
