// Sequence stress: where a person working at the standard's own times finishes each unit of a given build order, between
// the earliest start and the end of the work zone. A long order is shown as its worst window in full and a strip of the
// whole.
#pragma once

#include "core/quantity.h"
#include "report/figures/drawing.h"

#include <cstdint>
#include <string>
#include <vector>

namespace docket {

struct StressUnit {
  std::int64_t position = 0; ///< as in the build order
  Seconds finish{};          ///< after the moment the limit ends; negative: early
  bool overload = false;
  bool heavy = false;   ///< takes longer than the limit
  bool new_run = false; ///< the drift starts anew
};

struct SequenceStress {
  std::vector<StressUnit> units;
  Seconds early_start{}, late_finish{}; ///< E and D
};

struct StressWindow {
  std::size_t first = 0, count = 0;
};

/// The window of `length` units with the most overloads; among equals the one with the latest finish, then the first.
StressWindow find_worst_window(const std::vector<StressUnit>& units, std::size_t length);

inline constexpr std::size_t stress_window_units = 120;

Drawing draw_sequence_stress(const SequenceStress& stress, StressWindow window);

} // namespace docket
