// One cycle has one row: the same operator at the same station twice at the same time, or with the same unit.
//
// Method    the cycles of each station and operator lie together by index; where their times (or units) do not ascend,
//           pairs of time and index are sorted. A few bytes a cycle, whatever the order
// Checked   tests/ingest/repeated_cycles_test.cpp: against the plain way, every pair compared
#pragma once

#include "ingest/reading/draft.h"

namespace docket {

void check_repeated_cycles(Draft& draft);

} // namespace docket
