// Stored cycles added up by operator and shift.
//
// Model     n, sum of the cycle times, and how many are longer than the limit, for every pair that occurs
// Method    sums are of whole millionths, so that no order of blocks shows
// Checked   tests/ingest/docket/cycles/cycle_store_test.cpp: against the same question in SQL on plain rows
#pragma once

#include "ingest/docket/cycles/cycle_store.h"

#include <string>
#include <vector>

namespace docket {

struct CycleGroup {
  std::string op, shift; ///< empty where the cell was blank
  std::int64_t cycles = 0, over_limit = 0;
  Seconds sum{};

  Seconds mean() const { return sum / static_cast<double>(cycles); }
  double overrun_share() const { return static_cast<double>(over_limit) / static_cast<double>(cycles); } // [1]
};

/// All cycles of the docket, marked ones and line times too, in the order operator, shift.
std::vector<CycleGroup> group_cycles(sqlite3* database, Seconds limit, const std::string& where);

} // namespace docket
