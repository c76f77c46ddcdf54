// Estimates of one quantity as dots with intervals on one seconds axis, against the limit: the evidence ladder, and the
// operators in the order of their codes.
#pragma once

#include "core/estimate.h"
#include "report/figures/drawing.h"

#include <optional>
#include <string>
#include <vector>

namespace docket {

struct DotRow {
  std::string label;
  std::string note;                     ///< how many; stands on every mark
  std::optional<TimeEstimate> estimate; ///< absent: the row says `note` alone
  bool hollow = false;
  bool set_off = false; ///< a rule above: what is made of the rows before
};

struct DotPlot {
  std::vector<DotRow> rows;
  Seconds limit{};
  std::string limit_label;
  std::optional<Seconds> second_line; ///< where it differs from the limit
  std::string second_label;
  std::string axis_title;
  std::string value_header; ///< over the numbers at the right
};

Drawing draw_dot_plot(const DotPlot& plot);

} // namespace docket
