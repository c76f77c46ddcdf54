#include "ingest/table.h"

#include <array>
#include <charconv>
#include <cmath>
#include <utility>

namespace docket {

namespace {

constexpr std::string_view no_break_spaces[] = {"\xC2\xA0", "\xE2\x80\xAF", "\xEF\xBB\xBF"};

bool is_white(char c) { return c == ' ' || (c >= '\t' && c <= '\r'); }

/// Neither white space nor the beginning or end of a space of several bytes.
bool is_visible_ascii(char c) { return c > ' ' && c < 0x7F; }

std::string_view trimmed(std::string_view text) {
  if (!text.empty() && is_visible_ascii(text.front()) && is_visible_ascii(text.back())) return text;
  for (bool cut = true; cut;) {
    cut = false;
    while (!text.empty() && is_white(text.front())) text.remove_prefix(1);
    while (!text.empty() && is_white(text.back())) text.remove_suffix(1);
    for (const std::string_view space : no_break_spaces) {
      if (text.starts_with(space)) {
        text.remove_prefix(space.size());
        cut = true;
      }
      if (text.ends_with(space)) {
        text.remove_suffix(space.size());
        cut = true;
      }
    }
  }
  return text;
}

} // namespace

RawCell text_cell(std::string_view text) {
  text = trimmed(text);
  if (text.empty()) return {};
  RawCell cell{CellKind::text, {}, 0};
  if (text.find('\r') == std::string_view::npos) {
    cell.text = text;
    return cell;
  }
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
    cell.text += text[i] == '\r' ? '\n' : text[i];
  }
  return cell;
}

std::string number_text(double number) {
  if (number == 0) return "0";
  const double size = std::abs(number);
  const bool ordinary = size >= 1e-7 && size < 1e17;
  std::array<char, 64> digits{};
  const auto end = ordinary
                       ? std::to_chars(digits.data(), digits.data() + digits.size(), number, std::chars_format::fixed)
                       : std::to_chars(digits.data(), digits.data() + digits.size(), number);
  return {digits.data(), end.ptr};
}

void add_row(RawTable& table, RawRow row) {
  while (!row.cells.empty() && row.cells.back().kind == CellKind::blank) row.cells.pop_back();
  if (!row.cells.empty()) table.rows.push_back(std::move(row));
}

} // namespace docket
