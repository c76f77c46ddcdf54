// A scale of seconds for a drawing: from zero, or clearly broken.
#pragma once

#include "core/quantity.h"
#include "report/figures/drawing.h"

#include <span>
#include <vector>

namespace docket {

struct SecondsAxis {
  double low = 0, high = 1; ///< [s] at the ends
  double from = 0, to = 1;  ///< drawing units at the ends
  double step = 1;          ///< [s] between ticks

  bool broken() const { return low > 0; }
  bool holds(double seconds) const { return seconds >= low && seconds <= high; }
  double at(double seconds) const { return from + (seconds - low) / (high - low) * (to - from); }
  /// The same, held inside the axis.
  double at_or_end(double seconds) const;
  std::vector<double> ticks() const;
};

/// An axis from `from` to `to` that holds all of `must_hold` and, as far as they don't dwarf these, `may_hold`. It
/// starts at zero where that costs little room, or where `zero_based` asks for it.
SecondsAxis fit_seconds_axis(std::span<const double> must_hold, std::span<const double> may_hold, double from,
                             double to, bool zero_based);

/// Ticks, their numbers, grid lines up to `top`, and `title` under a horizontal axis at height `y`. A broken axis has a
/// break at its start and says where it starts.
void draw_horizontal_axis(Drawing& drawing, const SecondsAxis& axis, double y, double top, const std::string& title);

} // namespace docket
