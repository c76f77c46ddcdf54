// The practice series of one operator: working time against own cumulative cycle, with the mix taken out.
//
// Model     y = work x S / S_v, S_v / S the relative content of the variant; n the own count of core/evidence.h
// Rules     plain cycles are values; helped and cut_short cycles are lower bounds. In the second row a helped cycle is
//           y + helped_s, and stays a lower bound where the seconds are not given. Cycles touched by a differing condition
//           are out; foreign, defect, skipped, starved, blocked and instrument rows are counted.
//           A break is a pause of `gap_days` or more between own worked days; or, in a record from the first own cycle
//           on, a variant that makes 5 % or more of the cycles from its first one on and none of 60 or more before; or a
//           recorded training with 60 or more before
// Assumes   only relative content is used: the level of the standard has no part in it
// Checked   tests/core/adaptation/practice_series_test.cpp
#pragma once

#include "core/evidence.h"

#include <cstdint>
#include <string>
#include <vector>

namespace docket {

struct PracticePoint {
  double n = 0;       ///< own cumulative cycle
  double seconds = 0; ///< scaled to the planned mix
  Date day{};
};

enum class BreakKind : std::uint8_t { gap, new_variant, training };

/// Where practice was interrupted, or the work changed.
struct PracticeBreak {
  BreakKind kind = BreakKind::gap;
  std::int64_t after = 0;    ///< own count of the last cycle before
  Date last_before{}, day{}; ///< worked days on both sides
  std::string what;          ///< the variant, or the training as recorded
  /// Of a gap: others are in the record, but on hardly a day of it (one in ten at most). Nobody worked, or the record has a
  /// hole.
  bool nobody_seen = false;
};

struct PracticeSeries {
  std::int32_t op = -1;
  std::vector<PracticePoint> plain;              ///< in order of n
  std::vector<PracticePoint> bounds;             ///< helped and cut_short as they stand: at least so long
  std::vector<PracticePoint> with_bounds;        ///< both together, taken as they stand
  std::vector<PracticePoint> with_helped;        ///< plain, and helped as y + helped_s
  std::vector<PracticePoint> with_helped_bounds; ///< what stays a bound then
  std::vector<PracticeBreak> breaks;             ///< in order
  std::vector<std::int64_t> by_variant;          ///< own cycles seen, by variant
  std::int64_t cycles = 0;                       ///< all own cycles seen, whatever their mark
  std::int64_t lower_bounds = 0;                 ///< helped or cut_short, not otherwise marked out
  std::int64_t under_condition = 0;              ///< touched by a differing condition
  std::int64_t first_cycle = 0, last_cycle = 0;  ///< own counts of the first and last cycle seen; 0: none
  bool first_cycle_estimated = true;             ///< what came before is not known exactly
  std::int64_t before = 0;                       ///< own cycles before the first one seen, as taken
  int days = 0;                                  ///< worked days with plain cycles
};

/// `relative_content` is S_v / S by variant; `factor` goes on every time (an allowance the standard already holds).
PracticeSeries build_practice_series(const Case& input, const Evidence& evidence, std::int32_t op,
                                     const std::vector<double>& relative_content, double factor);

/// The same series had `before` been another number.
PracticeSeries with_count_before(PracticeSeries series, std::int64_t before);

/// The same series had the person worked on through every gap in which nobody is seen, as many cycles a day as before it.
PracticeSeries with_holes_worked(PracticeSeries series);

} // namespace docket
