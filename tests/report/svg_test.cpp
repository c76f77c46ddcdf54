// A drawing as SVG: title and desc first and referred to (SVG 1.1, 5.4), patterns only where used, no colour.
#include "report/figures/svg.h"
#include "tests/report/markup_reader.h"

#include <gtest/gtest.h>

namespace docket {
namespace {

Drawing every_shape() {
  Drawing drawing;
  drawing.height = 100;
  drawing.shapes = {LineShape{{0, 0}, {1.23456, 2}, 1, Ink::light, true},
                    RectangleShape{{0, 0}, 5, 5, Fill::dots, true}, CircleShape{{3, 3}, 2, false},
                    PolylineShape{{{0, 0}, {1, 1}}, 1, Ink::mid, Fill::none},
                    TextShape{{0, 5}, "a < b", Anchor::end, 10, true, Ink::dark}};
  return drawing;
}

TEST(Svg, SaysWhatItShows) {
  const std::string svg = write_svg(every_shape(), "f3", "A & B", "Two dots");
  EXPECT_NE(svg.find("role=\"img\" aria-labelledby=\"f3-title f3-desc\""), std::string::npos);
  EXPECT_NE(svg.find("<title id=\"f3-title\">A &amp; B</title>\n<desc id=\"f3-desc\">Two dots</desc>"),
            std::string::npos);
  EXPECT_NE(svg.find(">a &lt; b</text>"), std::string::npos);
}

TEST(Svg, PatternsCarryTheFigureAndComeOnlyWhereUsed) {
  const std::string svg = write_svg(every_shape(), "f3", "t", "d");
  EXPECT_NE(svg.find("<pattern id=\"f3-dots\""), std::string::npos);
  EXPECT_NE(svg.find("fill=\"url(#f3-dots)\""), std::string::npos);
  EXPECT_EQ(svg.find("f3-hatch"), std::string::npos);
}

TEST(Svg, NumbersAreShort) {
  EXPECT_NE(write_svg(every_shape(), "f", "t", "d").find("x2=\"1.23\""), std::string::npos);
}

// Every paint is a grey, as far as an eye or a printer can tell: its three parts differ by less than a twentieth.
TEST(Svg, ThereIsNoColour) {
  const std::string svg = write_svg(every_shape(), "f", "t", "d");
  for (const std::string_view attribute : {"fill", "stroke"}) {
    for (const std::string& paint : attribute_values(svg, attribute)) {
      if (paint[0] != '#') continue;
      const int red = std::stoi(paint.substr(1, 2), nullptr, 16), green = std::stoi(paint.substr(3, 2), nullptr, 16),
                blue = std::stoi(paint.substr(5, 2), nullptr, 16);
      EXPECT_LE(std::max({red, green, blue}) - std::min({red, green, blue}), 12) << paint;
    }
  }
}

} // namespace
} // namespace docket
