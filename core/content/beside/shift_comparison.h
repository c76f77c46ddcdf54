// Shifts against one another, at own pace and for the same mix. A separate statement: it decides nothing of A, and "no
// difference found" is never "equal".
//
// Model     r_o = sum of p_v m_ov / sum of p_v S_v over the variants common to the shifts, p_v the planned mix; a shift's
//           level is the mean of ln r_o over its settled operators
// Source    standardisation by a fixed mix: common practice; B. L. Welch, The generalization of Student's problem when
//           several different population variances are involved, Biometrika 34 (1947), 28-35; two one-sided tests:
//           core/statistics/studies/equivalence.h
// Method    a variant is common where it makes 5 % or more of the planned mix and each shift has 20 plain cycles or more
//           of it from settled operators. An operator with fewer than 20 of a common variant takes S_v times the own mean
//           of y / S_v (bridged); one without 20 of any does not count.
//           Each cycle counts in the shift it was worked in (blank: the operator's own), so a person can be in two.
//           Each of the two tests is at alpha/2: the printed interval at 1 - alpha decides. It lies within -margin and
//           +margin: equivalent; wholly outside: different; else not shown. margin = ln(1 + equivalence).
// Spread    operators are the unit (Welch). A shift with one operator: that person's days (cycles where there is one day)
//           and the spread between people of the settings, which goes out where both shifts have the same one person
// Assumes   independent people: who worked in both shifts is taken as two, which makes the interval wider where people
//           keep their level from shift to shift; pace is as it was, not normal pace
// Checked   tests/core/content/beside/shift_comparison_test.cpp: R
#pragma once

#include "core/content/beside/overrun.h"
#include "core/content/lines/settled_operators.h"
#include "core/content/lines/standard_time.h"
#include "core/content/lines/time_available.h"
#include "core/evidence.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

/// What the spread of a shift's level was taken from.
enum class ShiftSpread : std::uint8_t { none, operators, days, cycles };

struct ShiftCondition {
  std::int32_t condition = -1; ///< index into Case::conditions
  std::int64_t cycles = 0;     ///< cycles of persons in this shift that it touches
};

/// One shift by itself.
struct ShiftFacts {
  std::string shift;
  std::int64_t operators = 0, cycles = 0; ///< settled operators with plain cycles here, and these cycles
  int days = 0;                           ///< worked days among them
  std::vector<std::int64_t> built; ///< cycles of all persons, any mark, by variant in the order of Case::variants
  std::vector<ShiftCondition> conditions; ///< those that differ and touch this shift
  std::optional<TimeEstimate> level;      ///< [s] for the variants common to all shifts that have a level
  std::string no_level_why;               ///< code where `level` is absent
  std::int64_t level_operators = 0;       ///< operators the level is made from
  bool bridged = false;                   ///< one of them lacked own means for a common variant
  ShiftSpread spread = ShiftSpread::none; ///< none: no spread was seen
};

enum class ShiftOutcome : std::uint8_t { equivalent, different, not_shown, not_comparable };

/// The first shift less the second, as ln of levels.
struct ShiftDifference {
  double ln_ratio = 0, u = 0, df = 0;
  double low = 0, high = 0;        ///< at 1 - alpha
  double p_lower = 0, p_upper = 0; ///< of a true difference at or below -margin, at or above +margin
};

struct ShiftPair {
  std::size_t first = 0, second = 0; ///< indices into ShiftComparison::shifts
  ShiftOutcome outcome = ShiftOutcome::not_comparable;
  Reason why;                         ///< where not comparable; detail: the shift it is about
  std::vector<std::int32_t> variants; ///< common to the two
  double share = 0;                   ///< [1] of the planned mix they make
  std::int64_t operators_first = 0, operators_second = 0;
  std::int64_t in_both = 0; ///< of them, people counted in both
  ShiftSpread spread_first = ShiftSpread::none, spread_second = ShiftSpread::none;
  std::optional<ShiftDifference> difference;
};

struct ShiftComparison {
  std::vector<ShiftFacts> shifts;   ///< in order of name
  std::vector<ShiftPair> pairs;     ///< in the same order
  std::vector<std::int32_t> common; ///< variants the levels of `shifts` are for
  double common_share = 0;          ///< [1] of the planned mix they make
  std::int64_t without_shift = 0;   ///< cycles of persons for which no shift is named
  Overrun overrun;
  ShareWithin share_within_at_own_pace;
};

ShiftComparison compare_shifts(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SettledResult& settled);

} // namespace docket
