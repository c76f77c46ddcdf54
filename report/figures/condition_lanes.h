// Conditions beside results, day by day: one lane a condition, its state as a pattern with its name on it, and over the
// lanes what the work took on each day.
#pragma once

#include "core/quantity.h"
#include "report/figures/drawing.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

struct DayResult {
  Date day{};
  Seconds time{}; ///< mean of the day's cycles, scaled to the mean unit
  std::int64_t n = 0;
};

enum class LaneFill : std::uint8_t { as_assumed, differs, not_checked };

/// From `from` to the end of `to`; absent: before the first day shown, after the last.
struct ConditionLane {
  std::string label, state, touches; ///< `state` stands on the bar
  LaneFill fill = LaneFill::as_assumed;
  std::optional<Date> from, to;
};

struct ConditionLanes {
  std::vector<DayResult> days; ///< in order, at least two
  std::vector<ConditionLane> lanes;
  Seconds limit{};
  std::string limit_label, result_label;
};

Drawing draw_condition_lanes(const ConditionLanes& lanes);

} // namespace docket
