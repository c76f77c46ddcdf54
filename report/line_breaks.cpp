#include "report/line_breaks.h"

#include <array>

namespace docket {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter_or_digit(char c) { return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

// Does a unit stand at `at`, and end there?
bool unit_stands_at(std::string_view text, std::size_t at) {
  static constexpr std::array<std::string_view, 4> units{"s", "%", "h", "min"};
  for (const std::string_view unit : units) {
    if (text.substr(at, unit.size()) != unit) continue;
    const std::size_t end = at + unit.size();
    if (end >= text.size() || !is_letter_or_digit(text[end])) return true;
  }
  return false;
}

} // namespace

bool ties_unit(std::string_view text, std::size_t at) {
  return text[at] == ' ' && at > 0 && is_digit(text[at - 1]) && unit_stands_at(text, at + 1);
}

bool breaks_badly(std::string_view word) {
  const std::size_t hyphen = word.find('-');
  if (hyphen == std::string_view::npos || hyphen == 0 || hyphen + 1 == word.size() || word.size() > 10) return false;
  if (word.size() == 10 && word[4] == '-' && word[7] == '-') return is_digit(word[0]) && is_digit(word[9]);
  return word.size() <= 7 && !is_digit(word[0]) && word[0] != '&' && is_digit(word[hyphen + 1]);
}

} // namespace docket
