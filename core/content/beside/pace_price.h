// Over-speed and its price: what a line that runs faster than takt takes from the people at a station.
//
// Model     over-speed = 1 - L / takt;  seconds a unit = takt - L
//           posts for the content = S / pace;  at a target: S / (0.95 pace) by efficiency, VA / (0.70 pace) by
//           utilisation; pace = L or takt
// Source    common practice (takt, efficiency and utilisation as plants use them, and the two targets)
// Method    as it stands
// Assumes   the standard's own times over the planned mix; parts of a post can be used elsewhere, so nothing is rounded
// Checked   tests/core/content/beside/pace_price_test.cpp: by hand
#pragma once

#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"

#include <optional>

namespace docket {

/// Posts for this station's content at one pace [1].
struct PostsNeeded {
  double filled = 0;         ///< every second of the pace is content
  double at_efficiency = 0;  ///< content fills the target share of the pace
  double at_utilisation = 0; ///< value-adding work fills the target share
};

struct PacePrice {
  double over_speed = 0; ///< [1] negative: the line is slower than takt
  Seconds per_unit{};    ///< takt - L, at every station
  PostsNeeded at_line_cycle, at_takt;
};

/// Absent where takt is not known.
std::optional<PacePrice> find_pace_price(const StandardTime& standard, const TimeAvailable& time);

} // namespace docket
