// Shifts against one another, standardised by variant, and how many single cycles pass the limit. Separate statements:
// they decide nothing of A.
// Checked   tests/core/content/shift_comparison_test.cpp
#pragma once

#include "core/content/settled_operators.h"
#include "core/content/standard_time.h"
#include "core/content/time_available.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

struct ShiftComparison {};

ShiftComparison compare_shifts(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SettledResult& settled);

} // namespace docket
