// The practice series of one operator: working time against own cumulative cycle, with the mix taken out.
//
// Model     y = work x S / S_v, S_v / S the relative content of the variant; n the own count of core/evidence.h
// Rules     plain cycles are values; helped and cut_short cycles are lower bounds, left out here and counted, and taken as
//           y + helped_s in a second series; cycles touched by a differing condition are out; foreign, defect, skipped,
//           starved, blocked and instrument rows are counted
// Assumes   only relative content is used: the level of the standard has no part in it
// Checked   tests/core/adaptation/practice_series_test.cpp
#pragma once

#include "core/evidence.h"

#include <cstdint>
#include <vector>

namespace docket {

struct PracticePoint {
  double n = 0;       ///< own cumulative cycle
  double seconds = 0; ///< scaled to the planned mix
  Date day{};
};

struct PracticeSeries {
  std::int32_t op = -1;
  std::vector<PracticePoint> plain;             ///< in order of n
  std::vector<PracticePoint> with_bounds;       ///< the same with helped and cut_short taken as they stand
  std::vector<PracticePoint> with_helped;       ///< the same with them taken as y + helped_s
  std::int64_t cycles = 0;                      ///< all own cycles seen, whatever their mark
  std::int64_t lower_bounds = 0;                ///< helped or cut_short, not otherwise marked out
  std::int64_t under_condition = 0;             ///< touched by a differing condition
  std::int64_t first_cycle = 0, last_cycle = 0; ///< own counts of the first and last cycle seen; 0: none
  bool first_cycle_estimated = true;            ///< what came before is not known exactly
  std::int64_t before = 0;                      ///< own cycles before the first one seen, as taken
  int days = 0;                                 ///< worked days with plain cycles
};

/// `relative_content` is S_v / S by variant; `factor` goes on every time (an allowance the standard already holds).
PracticeSeries build_practice_series(const Case& input, const Evidence& evidence, std::int32_t op,
                                     const std::vector<double>& relative_content, double factor);

/// The same series had `before` been another number.
PracticeSeries with_count_before(PracticeSeries series, std::int64_t before);

} // namespace docket
