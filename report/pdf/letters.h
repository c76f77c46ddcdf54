// What the layout must know of letters: how wide a text is, and how far letters reach over and under the line.
//
// Spread    one unit is the unit of the drawings: a page of A4 is 811 units wide, its text 680, as wide as a figure
#pragma once

#include "report/figures/drawing.h"

#include <functional>
#include <string_view>

namespace docket::pdf {

/// One way of writing. A text of one look is one TextShape.
struct TextLook {
  double size = 11;
  bool strong = false;
  Ink ink = Ink::dark;

  bool operator==(const TextLook&) const = default;
};

/// The width of a text, in units. Widths add up: there is no kerning and there are no ligatures.
using MeasureText = std::function<double(std::string_view text, const TextLook& look)>;

/// Of the bundled letters, as parts of their size (table hhea of the file).
inline constexpr double ascent = 0.928, descent = 0.236;

} // namespace docket::pdf
