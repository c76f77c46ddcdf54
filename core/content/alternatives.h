// What would bring the station within its limit, in seconds: content out, units in another order, more zone, or another
// line cycle. Nothing here decides anything.
// Checked   tests/core/content/alternatives_test.cpp
#pragma once

#include "core/content/combined.h"
#include "core/content/sequence.h"
#include "core/content/standard_time.h"
#include "core/content/time_available.h"
#include "core/evidence.h"

#include <vector>

namespace docket {

struct Alternatives {};

Alternatives find_alternatives(const Case& input, const Evidence& evidence, const StandardTime& standard,
                               const TimeAvailable& time, const SequenceBasis& basis, const SequenceFindings& sequence);

} // namespace docket
