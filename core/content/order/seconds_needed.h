// How much would do: seconds out of every unit, seconds out of one variant, or seconds of work zone, at which the
// mean and the order of units come to what the decision asks for, or the overloads to the rate tolerated.
//
// Model     every unit, mean:   T (1 - (limit / T) exp(-t u)), from F_t(-z / u) = 1 - alpha/2 at the shorter time
//           every unit, order:  T (1 - k* exp(-t u)), from F_t(ln k* / u) = 1 - alpha/2; t = t_{1 - alpha/2, df}
//           one variant, or late finish: the seconds at which overloads a unit at T equal the tolerated rate
// Source    JCGM 106:2012, 7.3 (chance of conformity); Yano & Rachamadugu 1991 (see line_drift.h) for the drift
// Method    the first two as they stand; the last two by bisection on the numbers the finding draws
// Assumes   relative uncertainty, spread and mix stay as they are; out of every unit in proportion to its time
// Checked   tests/core/content/order/seconds_needed_test.cpp: closed forms by hand, and the drift counted again afterwards
#pragma once

#include "core/content/order/line_drift.h"
#include "core/content/order/sequence.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace docket {

/// Seconds a unit out of every unit, at the mean. Negative: that many to spare.
struct OutOfEveryUnit {
  Seconds mean{};                  ///< so that the mean fits at the confidence
  std::optional<Seconds> sequence; ///< so that the order of units does; absent without zone or spread
  SequenceMargin k_star;           ///< what `sequence` is computed from
  Seconds both{};                  ///< the larger; `mean` where there is no `sequence`
};

OutOfEveryUnit find_out_of_every_unit(const SequenceBasis& basis, const std::optional<SequenceMargin>& k_star,
                                      Seconds limit, double confidence);

/// Units drawn once, the variant apart from its spread, so that the time of one variant can be changed alone.
struct DrawnUnits {
  std::vector<std::int32_t> variant;
  std::vector<double> factor; ///< on the time of the variant
  std::vector<bool> new_run;
};

DrawnUnits draw_planned_units(std::span<const double> shares, SpreadOfCycles spread, int shifts,
                              std::int64_t cycles_per_shift, std::uint64_t seed);
DrawnUnits draw_ordered_units(std::span<const std::int32_t> order, const std::vector<bool>& new_run,
                              SpreadOfCycles spread, std::int64_t least_units, std::uint64_t seed);

/// What the line gives, and what is tolerated.
struct DriftTask {
  Seconds limit{};
  WorkZone zone;
  Seconds least{}; ///< seconds that count as an overload
  double tolerated = 0;
};

/// Overloads a unit [1]; `times` by variant, at T.
double overload_rate(const DrawnUnits& units, std::span<const Seconds> times, const DriftTask& task);

struct LateFinishNeeded {
  std::optional<Seconds> needed; ///< D; absent: `none_why`
  std::string none_why;          ///< mean_above_limit, not_within_a_line_cycle
};

LateFinishNeeded find_late_finish(const DrawnUnits& units, std::span<const Seconds> times, const DriftTask& task,
                                  Seconds highest);

struct OutOfVariant {
  std::int32_t variant = -1;
  std::optional<Seconds> seconds; ///< out of each unit of it, at T; negative: to spare; absent: not by it alone
  bool at_least_spare = false;    ///< `seconds` is the end of the search: that much to spare, or more
};

/// `most_spare` is how far the search for seconds to spare goes.
OutOfVariant find_out_of_variant(const DrawnUnits& units, std::span<const Seconds> times, std::int32_t variant,
                                 const DriftTask& task, Seconds most_spare);

} // namespace docket
