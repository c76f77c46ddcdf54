// Several lifting tasks of one job as one index.
//
// Model     CLI = STLI_1 + sum over j > 1 of FILI_j (1/FM(F_1 + .. + F_j) - 1/FM(F_1 + .. + F_{j-1}))         (1)
//             tasks in falling order of STLI = load / (FIRWL FM(F_j));  FILI = load / FIRWL
// Source    T. R. Waters, V. Putz-Anderson, A. Garg, DHHS (NIOSH) 94-110, 1994, section 2.4. That tasks are numbered in
//           falling order of STLI was found in print; equation (1) is from memory, to be confirmed
// Method    as in lifting.h, twice, exact and as printed, each in its own order; equal tasks in the order given. The
//           class of duration is the longest among the tasks. Of two places the one with the larger STLI counts. FM of
//           the sums is read in the column of task j. Any task without a number: no number
// Spread    none is published
// Assumes   the tasks are done in turn, by one person; one load a task (the manual takes the largest load for FILI and
//           the mean for STLI)
// Checked   tests/core/ergonomics/composite_lifting_test.cpp: by hand with the printed tables, and an invariant
#pragma once

#include "core/ergonomics/lifting.h"

#include <cstddef>
#include <span>

namespace docket {

struct CompositeLiftStep {
  std::size_t task = 0;                 ///< index into the tasks given
  bool at_destination = false;          ///< the place that counts
  double per_min_sum = 0;               ///< [1/min] of this and the tasks before
  double firwl = 0, strwl = 0;          ///< in the units of the task
  double fili = 0, stli = 0;            ///< [1]
  double fm_sum_before = 0, fm_sum = 0; ///< [1] of the sums without and with this task; before: 0 for the first
  double adds = 0;                      ///< [1] to the index
};

struct CompositeLift {
  double cli = 0;                       ///< [1]
  std::vector<CompositeLiftStep> steps; ///< in the order of the method
};

struct CompositeLiftScreening {
  std::optional<CompositeLift> exact, as_printed;
  std::optional<LiftDuration> duration; ///< absent where hours of a task are out of range
  /// Codes: fewer_than_two_tasks; task_without_number, sum_of_frequencies_beyond_table, each with the task.
  std::vector<Reason> why_not;
};

CompositeLiftScreening screen_composite_lift(std::span<const LiftingTask> tasks);

} // namespace docket
