#include "report/html/markup.h"

#include <array>
#include <cctype>

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

void append_escaped(std::string& out, char c) {
  switch (c) {
  case '<':
    out += "&lt;";
    return;
  case '>':
    out += "&gt;";
    return;
  case '&':
    out += "&amp;";
    return;
  case '"':
    out += "&quot;";
    return;
  case '\'':
    out += "&#39;";
    return;
  default:
    break;
  }
  const auto code = static_cast<unsigned char>(c);
  if (code < 0x20U && c != '\n' && c != '\t') return;
  if (code == 0x7FU) return;
  out += c;
}

} // namespace

std::string escape_markup(std::string_view text) {
  std::string out;
  out.reserve(text.size() + text.size() / 8);
  for (const char c : text) append_escaped(out, c);
  return out;
}

std::string escape_running_text(std::string_view text) {
  std::string out;
  out.reserve(text.size() + text.size() / 8);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == ' ' && i > 0 && is_digit(text[i - 1]) && unit_stands_at(text, i + 1)) {
      out += "&#160;";
    } else {
      append_escaped(out, text[i]);
    }
  }
  return out;
}

} // namespace docket
