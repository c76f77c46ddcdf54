// Running text broken into lines of a given width.
//
// Method    greedy; a line ends at a blank, or after a hyphen between letters; a word wider than the line is
//           cut where the line ends. Numbers keep their unit, days and operator codes stay whole.
// Checked   tests/report/pdf_layout_test.cpp
#pragma once

#include "report/document.h"
#include "report/pdf/letters.h"

#include <string>
#include <vector>

namespace docket::pdf {

struct SetText {
  double x = 0; ///< from the start of the line
  std::string text;
  TextLook look;
};

struct SetLine {
  std::vector<SetText> texts;
  double width = 0;
};

enum class Breaking : std::uint8_t {
  words,
  words_and_line_ends, ///< the text's own line ends are kept
  none,                ///< one line, unless it is wider than there is room
};

std::vector<SetLine> break_into_lines(const Runs& runs, const TextLook& look, double width, Breaking breaking,
                                      const MeasureText& measure);

/// How little and how much room a text can do with: its longest word, and all of it on one line.
struct Extent {
  double narrowest = 0, widest = 0;
};

Extent extent_of(const Runs& runs, const TextLook& look, Breaking breaking, const MeasureText& measure);

} // namespace docket::pdf
