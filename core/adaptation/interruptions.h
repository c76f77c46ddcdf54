// Breaks in a record: what was lost across each, and whether it has been made good.
//
// Model     before the break the averaged curves give the level m_b at its last cycle; after it the first cycles lie at
//           m_b e^d. Cycles lost: so many before the break the same curve stood at m_b e^d, as if they had not been done.
//           Where a loss is shown, cycles after the break count so many lower. Where the curve before never stood so high,
//           all its cycles are lost, or more, and the cycles after the break are looked at alone
//           That takes what comes back for learning. It may come back quicker; then the cycles until the level is as before
//           say nothing of the curve, and are left out. Both ways are reckoned where a loss is shown
// Source    the person comes back to the own curve at an earlier cycle: learn-forget, Jaber & Bonney 1996, Applied
//           Mathematical Modelling 20, 162-174 (page numbers from memory); where the curve before does not tell the cycles, a
//           step
// Method    d is the mean residual of the first 60 plain cycles after the break, or of all up to the next one
//           level as before: the first 60 in a row whose mean residual is 0 or less
// Spread    normal: the residuals' variance times phi, and that of the level before; the ends of cycles lost by the curve
// Assumes   within these cycles part of the loss is made good already, so that it is rather larger than shown
// Checked   tests/core/adaptation/interruptions_test.cpp
#pragma once

#include "core/adaptation/practice_mixture.h"
#include "core/adaptation/practice_series.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

/// A share of the level before the break [1].
struct Loss {
  double share = 0, low = 0, high = 0;
};

struct Interruption {
  PracticeBreak at;
  std::string none_why; ///< code where nothing was estimated: too_few_before, too_few_after
  std::optional<TimeEstimate> level_before;
  std::optional<Loss> loss; ///< above 0: slower than before
  /// Own cycles as if not done. Absent: at that end the curve before does not tell, all its cycles or more.
  std::optional<double> cycles_lost, least_lost, most_lost;
  double cycles_before = 0; ///< own cycles from the first seen to the break
  bool loss_shown = false;  ///< its lower end is above 0
  std::int64_t since = 0;   ///< own cycles since the break
  /// Own cycles since the break until the level was as before. Absent where no loss is shown, or it is not back.
  std::optional<std::int64_t> back_after;
};

struct Interruptions {
  std::vector<Interruption> breaks; ///< in order
  PracticeSeries series;            ///< with the cycles lost taken off, or without those before a break that lost all
  /// The other way: counted as done, without the cycles until the level was as before. Absent where no break has them.
  std::optional<PracticeSeries> came_back;
};

Interruptions find_interruptions(const PracticeSeries& series, double confidence);

/// The last break set the curve back, and that is not made good: loss shown, `today` above the level before (or not known),
/// and fewer than three times the cycles lost since.
bool learning_is_interrupted(const Interruptions& interruptions, const std::optional<TimeEstimate>& today);

} // namespace docket
