// What the simulated cycles of every bench have in common: how they hang together, and who is helped.
//
// Model     w of a cycle: first-order autoregression within a day, SD `within` throughout. A cycle is helped where a
//           normal number that goes with w by the correlation 0.7 is among the largest: the long ones rather than the
//           short. The helper does 15 % of it, and the log has the rest as time and this as help
// Source    Box & Jenkins 1970, Time Series Analysis, ch. 3 (autoregression); the two numbers: common practice
// Checked   tests/bench/bench_run_test.cpp, tests/bench/curve_coverage/curve_coverage_test.cpp
#pragma once

#include "core/case.h"

namespace docket::bench {

inline constexpr double helped_takes = 0.15;     ///< [1] of a cycle done by the helper
inline constexpr double help_follows_time = 0.7; ///< correlation of being helped with the time used

/// w of one cycle after the other within a day; `normal` is a standard normal number.
struct Spread {
  double within = 0, lag1 = 0, w = 0;
  double next(double normal, bool first_of_day);
};

/// `w` in its SDs; `normal`, a standard normal number of its own, is what else decides about help.
bool is_helped(double share, double w, double normal);

/// Takes a share of the cycle's time to the helper, and marks it.
void help(LoggedCycle& cycle, double share);

} // namespace docket::bench
