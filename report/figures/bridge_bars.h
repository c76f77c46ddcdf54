// A bridge in seconds: from the limit to the mean of the cycles seen, each step a floating bar with its interval.
#pragma once

#include "core/quantity.h"
#include "report/figures/drawing.h"

#include <string>
#include <vector>

namespace docket {

struct BridgeStep {
  std::string label, note;
  Seconds seconds{}, low{}, high{}; ///< infinite: no end
};

struct BridgeBars {
  Seconds start{};
  std::string start_label, end_label, end_note;
  std::vector<BridgeStep> steps;
  std::string axis_title;
};

Drawing draw_bridge_bars(const BridgeBars& bridge);

} // namespace docket
