// Sequence: drift of a person's position at a paced station over the build order, and how far all times could grow
// before the work zone is overloaded too often.
//
// Model     x' = max(-E, min(x + t - limit, D));  overload when x + t - limit - D >= max(0.5 s, 1 % of L)
//           drawn: t = (T/S) S_v exp(w - sigma^2/2), w a first-order autoregression with sigma and rho
//           k*: the factor on all times at which the rate equals the tolerated one
// Source    Yano & Rachamadugu, Sequencing to minimize work overload in assembly lines with product options,
//           Management Science 37 (1991) 572-586
// Method    counter-based draws keyed by (seed, shift, unit), the same for every factor tried; bisection
// Assumes   spread independent of the position: people speed up after a late unit, which this does not hold
// Checked   tests/core/content/order/line_drift_test.cpp: a recursion worked by hand
#pragma once

#include "core/quantity.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace docket {

struct WorkZone {
  Seconds early_start{}; ///< E
  Seconds late_finish{}; ///< D
};

/// One unit on its way through the station.
struct DriftStep {
  Seconds start{}; ///< x before the unit
  Seconds over{};  ///< seconds beyond D, not finished in the zone; 0 where none
  bool overload = false;
};

struct DriftCount {
  std::int64_t units = 0, overloads = 0;
  Seconds lost{};  ///< seconds not finished in the zone
  Seconds worst{}; ///< largest x + t - limit
  double rate() const { return units == 0 ? 0.0 : static_cast<double>(overloads) / static_cast<double>(units); }
};

/// The drift over units in order; `new_run[i]` starts the offset anew at 0.
std::vector<DriftStep> follow_drift(std::span<const Seconds> times, const std::vector<bool>& new_run, Seconds limit,
                                    const WorkZone& zone, Seconds least);

DriftCount count_drift(std::span<const Seconds> times, const std::vector<bool>& new_run, Seconds limit,
                       const WorkZone& zone, Seconds least);

/// The least seconds that count as an overload: max(0.5 s, 1 % of L).
Seconds least_overload(Seconds line_cycle);

/// Times of units as drawn once for factor 1, in shifts; a factor multiplies all of them.
struct DrawnTimes {
  std::vector<Seconds> times;
  std::vector<bool> new_run;
};

struct SpreadOfCycles {
  double sigma = 0; ///< SD of ln time within a person
  double rho = 0;   ///< lag-1 autocorrelation
};

/// Shifts of the planned mix: variants drawn by share, times around `variant_times` (already scaled to the level).
/// `sigma_between` draws one more factor a shift; 0: the average trained person.
DrawnTimes draw_shifts(std::span<const Seconds> variant_times, std::span<const double> shares, SpreadOfCycles spread,
                       double sigma_between, int shifts, std::int64_t cycles_per_shift, std::uint64_t seed);

/// A given order, replicated to at least `least_units`.
DrawnTimes draw_given_order(std::span<const Seconds> variant_times, std::span<const std::int32_t> order,
                            const std::vector<bool>& new_run, SpreadOfCycles spread, std::int64_t least_units,
                            std::uint64_t seed);

DriftCount count_drift_at(const DrawnTimes& drawn, double factor, Seconds limit, const WorkZone& zone, Seconds least);

/// k*, with whether an end of the search was met.
struct SequenceMargin {
  double factor = 1;
  bool at_low_end = false, at_high_end = false;
};

SequenceMargin find_sequence_margin(const DrawnTimes& drawn, double tolerated, Seconds limit, const WorkZone& zone,
                                    Seconds least);

} // namespace docket
