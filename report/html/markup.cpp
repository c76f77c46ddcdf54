#include "report/html/markup.h"

#include "report/line_breaks.h"

namespace docket {
namespace {

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
    if (ties_unit(text, i)) {
      out += "&#160;";
    } else {
      append_escaped(out, text[i]);
    }
  }
  return out;
}

} // namespace docket
