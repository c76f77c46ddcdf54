// How repetitive the cycle is, and how much of it is left for recovery; now and on a faster line.
//
// Model     repetitive: line cycle time below 30 s, or half of it and more in one motion pattern                (1)
//           cycles a shift = working time of a shift / line cycle time;  recovery share = 1 - busy / line cycle (2)
// Source    B. A. Silverstein, L. J. Fine, T. J. Armstrong, British Journal of Industrial Medicine 43 (1986), 779-784:
//           thresholds from memory, to be confirmed. They define exposure groups of a study and are no limit. The paper
//           has more than half; exactly half is counted here too. (2): definitions
// Method    at another line cycle time the seconds of the pattern and the busy seconds of a unit stay the same, and so
//           does the working time of a shift
// Spread    none: shares of what is given
// Assumes   one pattern is the same motions again and again; who says so is who filled in the sheet
// Checked   tests/core/ergonomics/repetition_test.cpp: closed forms on both sides of each threshold
#pragma once

#include "core/ergonomics/screening.h"

#include <optional>
#include <string>
#include <vector>

namespace docket {

struct RepetitionInput {
  Seconds line_cycle{};
  std::optional<Seconds> pattern_per_unit; ///< all repeats of the longest pattern in the mean unit
  std::optional<Seconds> busy_per_unit;    ///< work of the mean unit; what is not rest
  std::optional<double> cycles_per_shift;  ///< at `line_cycle`
  std::optional<Seconds> work_per_shift;   ///< used where cycles_per_shift is absent
};

/// Codes, each for its own value: pattern_not_given, pattern_negative, pattern_beyond_cycle; busy_not_given,
/// busy_negative, busy_beyond_cycle; cycles_per_shift_not_given, cycles_per_shift_not_positive.
struct RepetitionAtCycle {
  Seconds cycle{};
  bool below_30_s = false;
  std::optional<double> pattern_share; ///< [1]
  std::optional<bool> half_in_one_pattern;
  std::optional<double> cycles_per_shift;
  std::optional<double> recovery_share; ///< [1]
  std::optional<Seconds> recovery;      ///< in a cycle
  std::vector<Reason> why_not;          ///< of what is absent
};

struct RepetitionScreening {
  std::optional<RepetitionAtCycle> now;   ///< absent: cycle_not_positive
  std::optional<RepetitionAtCycle> asked; ///< absent where nothing was asked, or: asked_cycle_not_positive
  std::vector<Reason> why_not;
};

RepetitionScreening screen_repetition(const RepetitionInput& input, std::optional<Seconds> asked_cycle = std::nullopt);

} // namespace docket
