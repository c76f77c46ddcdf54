// Who stood at the station: the roster fills an operator the log leaves blank.
//
// Model     a roster row covers its shift on its day, or from `from` to `to`; `to` at or before `from` is the next day;
//           a shift that crosses midnight belongs to the day it starts on
// Assumes   one person at the post at a time; where two rows cover a cycle, it stays without an operator
// Checked   tests/ingest/case_reader_test.cpp
#pragma once

#include "ingest/reading/draft.h"

namespace docket {

/// Fills blank operators of the log and reports rosters that overlap (once a pair) and cycles left without a person.
void fill_from_roster(Draft& draft);

} // namespace docket
