#include "report/figures/drawing.h"

#include "report/format.h"

#include <string_view>

namespace docket {
namespace {

// Widths in em of a wide sans-serif, grouped; other characters count as a wide capital.
double character_width(char c) {
  if (std::string_view("ijl.,:;'|!").find(c) != std::string_view::npos) return 0.33;
  if (std::string_view("ft()[]/-r I").find(c) != std::string_view::npos) return 0.41;
  if (std::string_view("mwMW%").find(c) != std::string_view::npos) return 0.97;
  if (c >= 'A' && c <= 'Z') return 0.72;
  if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9')) return 0.63;
  return 0.84;
}

} // namespace

double text_width(const std::string& text, double size) {
  double em = 0;
  for (const char c : text) {
    if (!continues_character(c)) em += character_width(c);
  }
  return em * size;
}

std::string fit_text(const std::string& text, double width, double size) {
  if (text_width(text, size) <= width) return text;
  std::string kept = text;
  while (!kept.empty() && text_width(kept, size) + size > width) {
    while (!kept.empty() && continues_character(kept.back())) kept.pop_back();
    if (!kept.empty()) kept.pop_back();
  }
  while (!kept.empty() && kept.back() == ' ') kept.pop_back();
  return kept + "\u2026";
}

} // namespace docket
