// The motions of a case: every element of the standard that has some, each analyst's rows worked out apart.
//
// Model     rows of one element by one analyst are one analysis; the analyst met first in the sheet gives the time
// Method    the plant's own table where the case has one, else the shipped values (motion_analysis.h)
// Assumes   the rows of `motions` stand in the order of the sheet
// Checked   tests/core/content/motions/standard_motions_test.cpp
#pragma once

#include "core/case.h"
#include "core/content/motions/motion_analysis.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace docket {

/// One analyst's rows of one element.
struct MotionAnalysis {
  std::string analyst;           ///< role code; empty: not given
  std::vector<std::size_t> rows; ///< indices into Case::motions, in the order of the sheet
  ElementMotionTime result;      ///< its rows and problems are by place in `rows`

  /// [s] Absent where any row has no time.
  std::optional<Seconds> time() const;
  Seconds one_after_another() const; ///< [s] the same with every unchecked pair done one after the other
};

struct ElementMotions {
  std::int32_t element = -1;            ///< index into Case::standard
  std::vector<MotionAnalysis> analyses; ///< by first row in the sheet; one or more

  const MotionAnalysis& first() const { return analyses.front(); }
  const MotionAnalysis* second() const { return analyses.size() > 1 ? &analyses[1] : nullptr; }
  /// One standard uncertainty of a time from the first two analyses; absent where there is one analysis or no
  /// difference: two equal values say nothing of a spread.
  std::optional<Seconds> uncertainty() const;
};

/// In the order of the standard; elements without motions are left out. Empty where `motions` is not given.
std::vector<ElementMotions> analyse_motions(const Case& input);

} // namespace docket
