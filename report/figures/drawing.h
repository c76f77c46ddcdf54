// A drawing that knows no device: shapes in a plane of width x height units, y downwards. Every writer renders the same
// shapes. There is no colour: three greys of ink, and fills that stay apart in a grey print.
#pragma once

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace docket {

struct Point {
  double x = 0, y = 0;
};

enum class Ink : std::uint8_t { dark, mid, light };

enum class Fill : std::uint8_t { none, white, pale, grey, dark, hatch, dots };

enum class Anchor : std::uint8_t { start, middle, end };

struct LineShape {
  Point from, to;
  double width = 1;
  Ink ink = Ink::dark;
  bool dashed = false;
};

struct RectangleShape {
  Point at; ///< upper left corner
  double width = 0, height = 0;
  Fill fill = Fill::none;
  bool outlined = true;
};

struct CircleShape {
  Point centre;
  double radius = 0;
  bool filled = true;  ///< else hollow: white inside
  Ink ink = Ink::dark; ///< other than dark: without outline
};

struct PolylineShape {
  std::vector<Point> points;
  double width = 1;
  Ink ink = Ink::dark;
  Fill fill = Fill::none; ///< other than none: a closed shape without outline
  bool dashed = false;
};

struct TextShape {
  Point at; ///< on the baseline
  std::string text;
  Anchor anchor = Anchor::start;
  double size = 11;
  bool strong = false;
  Ink ink = Ink::dark;
};

using Shape = std::variant<LineShape, RectangleShape, CircleShape, PolylineShape, TextShape>;

struct Drawing {
  double width = 680, height = 0;
  std::vector<Shape> shapes; ///< later ones lie over earlier ones
};

/// Width of a text as the widest of the usual screen fonts sets it: never less than what a reader sees.
double text_width(const std::string& text, double size);

/// The text, or its beginning with an ellipsis where it is wider than `width`.
std::string fit_text(const std::string& text, double width, double size);

} // namespace docket
