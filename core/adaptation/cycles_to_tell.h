// How many more cycles are expected to tell settled from still improving, if they go on as the averaged curves say.
//
// Model     the cycles seen, and k more that lie on the averaged curve with the spread seen; all curves fitted again. They
//           tell where P(G > delta) is at or beyond 1 - alpha/2, or at or below alpha/2 and the late slope is none
// Source    none published for this: an expected-data calculation (common practice in planning a study)
// Method    k tried upward in fixed steps, then halved between; no chance in it
// Spread    none: the count is a middle value, for planning; the cycles that come may tell sooner or later
// Assumes   the same conditions, the same share of plain cycles, nothing said beyond three times the cycles seen
// Checked   tests/core/adaptation/cycles_to_tell_test.cpp
#pragma once

#include "core/adaptation/practice_mixture.h"

#include <cstdint>
#include <optional>

namespace docket {

/// What the answer depends on beside the curves.
struct TellBasis {
  std::int64_t plain_cycles = 0; ///< seen
  double observed = 0;           ///< own cycles from the first seen to the last
  std::int64_t cycles_per_shift = 0;
  double improvement_left = 0; ///< delta [1]
  double confidence = 0.95;    ///< 1 - alpha
};

/// H: as many cycles as were observed, or five shifts if that is more, but no further than three times the observed.
std::int64_t settled_horizon(double observed, std::int64_t cycles_per_shift);

/// More plain cycles until they are expected to tell; absent: not within three times what was seen.
std::optional<std::int64_t> find_cycles_to_tell(const PracticeMixture& mixture, const TellBasis& basis);

/// The settled level as it is expected to be estimated after `cycles` more plain cycles.
TimeEstimate expected_settled_level(const PracticeMixture& mixture, const TellBasis& basis, double cycles);

} // namespace docket
