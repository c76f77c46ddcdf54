// A drawing as an SVG element that stands inside an HTML page and can be read aloud.
//
// Format    SVG inside HTML
// Spec      W3C, Scalable Vector Graphics (SVG) 1.1 (second edition): 5.4 title and desc, 9 basic shapes, 10 text,
//           13.3 patterns; WAI-ARIA 1.2, role img
// Subset    line, rect, circle, polyline, polygon, text, pattern
// Checked   tests/report/svg_test.cpp
#pragma once

#include "report/figures/drawing.h"

#include <string>
#include <string_view>

namespace docket {

/// `id` is unique in the page: the ids of title, description and patterns begin with it.
std::string write_svg(const Drawing& drawing, std::string_view id, std::string_view title,
                      std::string_view description);

} // namespace docket
