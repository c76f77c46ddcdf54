// One point of the bench: many learners of one true curve, and what was said of them.
//
// Model     settled words (AT LEVEL, SETTLED ABOVE) are wrong where G >= delta; STILL LEARNING is wrong where G <= delta;
//           at the boundary both are. AT LEVEL and SETTLED ABOVE are wrong too where the settled level is on the other
//           side of the limit, and LEARNING INTERRUPTED always: nothing is interrupted here
// Source    JCGM 106:2012, 9.3 (a specific consumer's and producer's risk)
// Method    learners in any order on any thread, added up in their order; what passes: rates.h. Intervals are counted
//           where they are printed. An end that is not there covers everything beyond; "never" is later than any count
// Checked   tests/bench/curve_coverage/curve_coverage_test.cpp
#pragma once

#include "core/adaptation/adaptation.h"
#include "tests/bench/curve_coverage/true_curve.h"
#include "tests/bench/rates.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>

namespace docket::bench {

struct LearnerPoint {
  std::string name;
  LearnerShape shape;
  std::int64_t runs = 500;
};

/// Where the true value lies against the interval.
struct Covering {
  std::int64_t n = 0, covered = 0, truth_below = 0, truth_above = 0;
  Moments error; ///< of the estimate: ln of its ratio to the truth for a level, the difference for G
  Moments width; ///< of the interval, on the same scale; only where both ends are there
  void add(bool below, bool above);
};

struct CurveTally {
  LearnerShape shape;
  LearnerTruth truth;
  std::int64_t runs = 0;
  std::int64_t at_level = 0, still_learning = 0, settled_above = 0, interrupted = 0, not_shown = 0, not_assessable = 0;
  std::array<std::int64_t, 11> not_shown_by_row{};                              ///< by number
  std::int64_t wrong_at_level = 0, wrong_settled_above = 0, wrong_learning = 0; ///< about G
  std::int64_t wrong_side = 0;                                                  ///< of the limit
  std::int64_t other_horizon = 0;                                               ///< the tool's H is not the true one
  Covering settled, today, left, to_limit;
};

/// Counts in what was said of one learner.
void add(CurveTally& tally, const Adaptation& said);

/// Is the true number of cycles below, or above, what the interval holds? `low` absent: the interval begins at never.
bool lies_below(const std::optional<double>& cycles, const CyclesToGo& interval);
bool lies_above(const std::optional<double>& cycles, const CyclesToGo& interval);

/// What the point misses, in words with blanks between; empty: nothing.
std::string misses_of(const CurveTally& tally);

CurveTally run_point(const LearnerPoint& point, std::int64_t runs, std::uint64_t seed, unsigned threads);

} // namespace docket::bench
