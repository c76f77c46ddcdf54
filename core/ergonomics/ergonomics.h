// All ergonomics cautions of a case: each method on what the tables give, at the line cycle time and at the one asked for.
//
// Model     those of the parts; this file only carries values to them. Share of units: of the planned mix, the units that
//           carry the element the row names; none named: 1. Lifts a minute = share x times a unit x 60 s / line cycle  (1)
//           unless the sheet gives them; then they are those at the line cycle time now, and go with it
// Source    as in the parts; (1) is a definition
// Method    work of the mean unit: the standard's elements weighed by their share, without those of kind wait and
//           machine, in which a person stands by. The same efforts once more with a share of 1: what holds while units
//           that have them follow one another
// Spread    none
// Assumes   nothing here sees the answer to either question, and neither question sees anything here
// Checked   tests/core/ergonomics/ergonomics_test.cpp: by hand from shares and times, and invariants of the cycle time
#pragma once

#include "core/case.h"
#include "core/ergonomics/composite_lifting.h"
#include "core/ergonomics/efforts.h"
#include "core/ergonomics/lifting.h"
#include "core/ergonomics/repetition.h"
#include "core/ergonomics/strain_index.h"

#include <optional>
#include <vector>

namespace docket {

/// One row of `lifts` at one line cycle time.
struct LiftAtCycle {
  double per_min = 0; ///< [1/min]
  LiftScreening screened;
};

/// As Case::lifts.
struct LiftCaution {
  std::int32_t lift = -1;          ///< index into Case::lifts
  double share_of_units = 1;       ///< [1]
  bool per_min_from_units = false; ///< by (1), not as given
  LiftAtCycle now;
  std::optional<LiftAtCycle> asked;
};

/// One row of `efforts` at one line cycle time.
struct EffortAtCycle {
  EffortScreening acceptable;
  double per_min = 0; ///< [1/min] by (1)
  StrainScreening strain;
  RevisedStrainScreening revised_strain;
};

/// As Case::efforts.
struct EffortCaution {
  std::int32_t effort = -1;  ///< index into Case::efforts
  double share_of_units = 1; ///< [1]
  EffortAtCycle now;
  std::optional<EffortAtCycle> asked;
  std::optional<EffortScreening> in_a_row; ///< only where not every unit has it: as if every one had
};

struct Ergonomics {
  Seconds line_cycle{};
  std::optional<Seconds> asked_cycle;
  std::vector<LiftCaution> lifts;
  std::optional<CompositeLiftScreening> composite, composite_asked; ///< only with two lifts or more
  std::vector<EffortCaution> efforts;
  std::vector<HandScreening> hands, hands_asked; ///< all efforts of a hand together
  Seconds busy_per_unit{};                       ///< of the mean unit, by the standard
  RepetitionScreening repetition;
};

/// `cycles_per_shift`: at `line_cycle`; absent where it is not known. line_cycle above 0.
Ergonomics screen_ergonomics(const Case& input, Seconds line_cycle, std::optional<double> cycles_per_shift);

} // namespace docket
