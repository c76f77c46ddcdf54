// What would bring the station within its limit, in seconds: content out, more zone, units in another order, an element
// moved out. Nothing here decides anything.
//
// Model     waste: seconds a unit w_e f_e t_e of the elements of class nva, then nnva; margin after, by the standard
//           limit - S + sum, by all lines limit - T (1 - sum / S)
//           move out: later, where no element here comes after it; earlier, where it comes after none here
// Source    order of the list (waste out first, then level, then move): common practice; the rest in
//           seconds_needed.h and even_order.h
// Assumes   an element weighs at T as it does in the standard; waiting and machine time are no content to remove
// Checked   tests/core/content/beside/alternatives_test.cpp: by hand
#pragma once

#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/content/order/seconds_needed.h"
#include "core/content/order/sequence.h"
#include "core/evidence.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace docket {

/// Positions that follow one another in the build order: indices into Case::build_sequence, both ends in.
struct Stretch {
  std::size_t first = 0, last = 0;
};

/// Where the build order given is heaviest, at the standard's own times.
struct HeaviestStretches {
  /// From the last unit that starts on time or early up to the unit finished furthest past the limit; absent: no unit is
  /// finished past it.
  std::optional<Stretch> worst;
  Seconds over_limit{};                    ///< content of the stretch less its units times the limit
  Seconds finish{}, over_zone{};           ///< of its last unit: past the limit, and past the zone (0: within)
  std::optional<Stretch> longest_heaviest; ///< longest row of the heaviest variant; the first of equals
  std::optional<Stretch> longest_above;    ///< longest row of units that each take more than the limit
};

/// For one order of units: the planned mix as drawn, or the order given.
struct EnoughForOrder {
  bool drawn = false;
  std::int64_t units = 0;   ///< those the finding draws
  double rate_per_1000 = 0; ///< overloads at T as it is
  LateFinishNeeded late_finish;
  std::vector<OutOfVariant> out_of_variant; ///< in the order of Case::variants; those that occur
};

struct WasteElement {
  std::int32_t element = -1;           ///< index into Case::standard
  Seconds per_unit{}, sum{};           ///< over the mix, by the standard; running sum
  Seconds margin_standard{}, margin{}; ///< with the sum out: by the standard, by all lines together
};

/// Overloads at the standard's own times without spread.
struct OrderCount {
  std::int64_t overloads = 0;
  Seconds lost{};
  std::int64_t longest_heaviest = 0; ///< units of the heaviest variant in a row
};

struct EvenOrder {
  std::int64_t units = 0, changed = 0; ///< places that hold another variant than before
  OrderCount before, after;
  std::optional<SequenceMargin> k_star; ///< of the even order, with spread
  std::optional<double> p;
};

struct MovableElement {
  std::int32_t element = -1; ///< index into Case::standard
  bool earlier = false, later = false;
  Seconds per_unit{};    ///< over the mix
  Seconds in_heaviest{}; ///< in a unit of the heaviest variant
};

struct Alternatives {
  double tolerated_per_1000 = 0;
  std::optional<HeaviestStretches> stretches; ///< absent without build order or zone
  OutOfEveryUnit out_of_every_unit;
  std::vector<EnoughForOrder> enough;  ///< drawn, then given; empty without zone or spread
  std::vector<WasteElement> waste;     ///< nva, then nnva, the most seconds first
  std::optional<EvenOrder> even;       ///< absent without build order or zone, or with one variant
  bool precedence_given = false;       ///< any element names one that comes before it
  std::vector<MovableElement> movable; ///< the most seconds first; empty without precedence
};

Alternatives find_alternatives(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SequenceBasis& basis, const SequenceFindings& sequence);

} // namespace docket
