// The time the line gives: it must be stated, and what is stated must agree.
//
// Model     takt = 60 * working minutes / units;  line cycle time L = takt * OEE
// Source    common practice
// Checked   tests/ingest/case_reader_test.cpp
#pragma once

#include "ingest/reading/draft.h"

#include <optional>

namespace docket {

/// The line cycle time as given, or from takt and OEE; absent where neither is known.
std::optional<Seconds> find_line_cycle(const CaseFacts& facts);

/// Reports a time available that is missing or contradicts itself by more than 0.5 %, with the arithmetic.
void check_time_available(Draft& draft);

} // namespace docket
