// The style sheet of the HTML page: black, greys and one dark neutral, on screen and on A4 paper.
#pragma once

#include <string_view>

namespace docket {

extern const std::string_view html_style;

} // namespace docket
